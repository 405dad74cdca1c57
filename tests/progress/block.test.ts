import { describe, expect, it } from 'vitest'
import { readPlan } from '../../src/plan/read.ts'
import { blockLines, blockOf, factsOf } from '../../src/progress/block.ts'
import type { DoneSession } from '../../src/progress/weeks.ts'
import { restDay, session } from './doneSessions.ts'

/* The thresholds of the findings are this program's own rules; the figures are worked out by hand. */

const today = '2026-11-26'

function planOf(text: string) {
  const reading = readPlan(text)
  if ('problems' in reading) throw new Error(reading.problems[0]?.message)
  return reading.plan
}

const done = (
  date: string,
  km: number,
  more: Partial<DoneSession['day'] & DoneSession['brief']> = {},
): DoneSession => {
  const { effortMinutes = 300, effortMinutesAtLeast = false, ...day } = more
  return {
    ...session(date),
    day: { ...restDay, meters: km * 1000, longestMeters: km * 1000, ...day },
    brief: { ...session(date).brief, effortMinutes, effortMinutesAtLeast },
  }
}

const plan = planOf(`Block
race: 10 km in 39:30 on 2026-12-13
week: Thu tempo + legs, Sun long
2026-10-26: 40 km
2026-11-02: 40 km
2026-11-09: 40 km
2026-11-16: 40 km
2026-11-23: 42 km, long 16 km
2026-11-30: taper
2026-12-07: race week
`)

const sessions = [
  done('2026-10-27', 30),
  done('2026-10-31', 18),
  done('2026-11-03', 32),
  done('2026-11-10', 47.9),
  done('2026-11-17', 40),
  done('2026-11-18', 0, { heavyLegSets: 5 }),
  done('2026-11-20', 8, { hardMeters: 5000 }),
  done('2026-11-21', 0, { heavyLegSets: 4, effortMinutes: null, effortMinutesAtLeast: true }),
  done('2026-11-24', 9, { hardSeconds: 600 }),
]

describe('a block of training', () => {
  const block = () => blockOf(plan, sessions, today)
  const text = () => blockLines(block(), plan, 'km', 200, today).join('\n')

  it('goes from four weeks back to the race, a line a week, with this week marked', () => {
    expect(block().weeks.map(({ monday, when }) => [monday, when])).toEqual([
      ['2026-10-26', 'over'],
      ['2026-11-02', 'over'],
      ['2026-11-09', 'over'],
      ['2026-11-16', 'over'],
      ['2026-11-23', 'now'],
      ['2026-11-30', 'ahead'],
      ['2026-12-07', 'ahead'],
    ])
    expect(text()).toMatch(/^ 26 Oct +40 +48 +30 +0 +0 +600 +48$/m)
    expect(text()).toMatch(/^ 16 Nov +40 +48 +40 +5 +9 +900\+ +27$/m)
    expect(text()).toMatch(/^>23 Nov +42 +9 +9 +0\+ +0 +300 +20$/m)
    expect(text()).toContain('17 days to 10 km in 39:30')
  })

  it('says nothing of the weeks before the first session, and does not hold them against the plan', () => {
    const young = blockOf(plan, [done('2026-11-11', 30)], today)
    expect(young.weeks.map((week) => week.done?.meters ?? null)).toEqual([
      ...[null, null, 30_000, 0, 0],
      ...[null, null],
    ])
    expect(young.under).toEqual(['2026-11-09', '2026-11-16'])
    expect(blockLines(young, plan, 'km', 64, today)).toContain(
      '  2 Nov     40                                        41',
    )
  })

  it('marks the distances of a week with + where running has none', () => {
    const jogs = done('2026-11-24', 9, { unmeasuredSeconds: 5400, hardSeconds: 600 })
    const lines = blockLines(blockOf(plan, [jogs], today), plan, 'km', 80, today)
    expect(lines.find((line) => line.startsWith('>'))).toMatch(/^>23 Nov +42 +9\+ +9\+ +0\+ +0 +300 +20$/)
  })

  it('marks the load of a week with + where a part of one of its days has no effort', () => {
    const known = blockOf(plan, [done('2026-11-17', 10)], today)
    const least = blockOf(plan, [done('2026-11-17', 10, { effortMinutesAtLeast: true })], today)
    const loadOf = ({ weeks }: typeof known) => weeks.find(({ monday }) => monday === '2026-11-16')?.done
    expect(loadOf(known)).toMatchObject({ effortMinutes: 300, atLeast: false })
    expect(loadOf(least)).toMatchObject({ effortMinutes: 300, atLeast: true })
  })

  it('says which weeks were 20 % off the plan: 48 of 40 km are, 47.9 are not', () => {
    expect(block().over).toEqual(['2026-10-26', '2026-11-16'])
    expect(block().under).toEqual(['2026-11-02'])
    expect(text()).toContain('2 weeks 20 % or more over the plan: 26 Oct, 16 Nov.')
  })

  it('says which heavy leg days had a hard run on one of the next two days', () => {
    expect(block().heavyLegsBeforeHardRun).toEqual(['2026-11-18'])
    expect(text()).toContain(
      '1 heavy leg day with a hard run later that day or on one of the two days after: 18 Nov.',
    )
  })

  it('treats a race week as a taper week, after weeks done and planned', () => {
    // The mean of 42 planned, 48, 47.9 and 32 done.
    const taper = block().weeks.at(-1)?.planned.taper
    expect(taper?.meanMeters).toBeCloseTo(42_475, 6)
    expect(text()).toContain('7 Dec, race week: 17 to 25 km: 41-60 % less than the mean of 42')
  })

  it('draws what was done as bars and what is planned as a line, also in 40 columns', () => {
    expect(text()).toMatch(/^ 26 Oct +=+\|=+$/m)
    expect(text()).toMatch(/^ 30 Nov +\|$/m)
    for (const line of blockLines(block(), plan, 'km', 40, today)) expect(line.length).toBeLessThanOrEqual(40)
  })

  it('covers five weeks of what was done if it has only a title', () => {
    const bare = blockOf(planOf('Block\n'), sessions, today)
    expect(bare.weeks).toHaveLength(5)
    expect([bare.race, bare.over, bare.weeks[0]?.planned.meters]).toEqual([null, [], null])
  })
})

describe('the two days before the race', () => {
  const facts = (words: string, day: string) => {
    const plan = planOf(`Block\nrace: 10 km in 39:30 on 2026-12-13\nweek: ${words}\n`)
    return factsOf(blockOf(plan, [], day), 'km').filter((fact) => fact.includes('before the race'))
  }

  // This program's own rule.
  it('name what the plan has on them that is hard on the legs, while they are to come', () => {
    const words = 'Thu legs + long, Fri Squats, Sat long + strides, Sun long'
    const [friday, saturday] = [
      '11 Dec: Squats two days before the race.',
      '12 Dec: long on the day before the race.',
    ]
    expect(facts(words, '2026-10-01')).toEqual([friday, saturday])
    expect(facts(words, '2026-12-12')).toEqual([saturday])
    expect(facts('Thu legs, Fri pull + no legs, Sat easy', '2026-12-09')).toEqual([])
  })
})

describe('a block with an easy week, a note and a taper', () => {
  const plan = planOf(`Block
race: 10 km in 39:30 on 2026-12-13
week: Thu tempo + legs, Sun long
2026-11-02: 40 km
2026-11-09: 40 km
2026-11-16: easy
2026-11-23: 42 km, long 16 km, "new shoes"
2026-11-30: taper
2026-12-07: race week
`)
  const sessions = [
    done('2026-11-28', 5, { hardMeters: 1 }),
    done('2026-11-27', 5, { hardMeters: 1, heavyLegSets: 1 }),
    done('2026-11-26', 5, { hardMeters: 1 }),
    done('2026-11-25', 3, { heavyLegSets: 2 }),
    done('2026-11-22', 3, { heavyLegSets: 1 }),
    done('2026-11-19', 5, { hardSeconds: 300 }),
    done('2026-11-17', 40, { heavyLegSets: 2 }),
    done('2026-11-10', 48),
    done('2026-11-03', 32),
    done('2026-10-27', 30, { hardMeters: 100 }),
    done('2026-10-26', 1, { heavyLegSets: 1 }),
    done('2026-10-25', 9, { heavyLegSets: 1 }),
  ]
  const block = (day = today) => blockOf(plan, sessions, day)

  it('has its findings, one sentence each', () => {
    expect(factsOf(block(), 'km')).toEqual([
      'This week: Thu tempo + legs, Sun long.',
      'Note: new shoes',
      '1 week 20 % or more over the plan: 9 Nov.',
      '1 week 20 % or more under the plan: 2 Nov.',
      '3 heavy leg days with a hard run later that day or on one of the two days after: 26 Oct, 17 Nov, 25 Nov.',
      '30 Nov, taper: 17 to 25 km: 41-60 % less than the mean of 43 (explain taper).',
      '7 Dec, race week: 17 to 25 km: 41-60 % less than the mean of 43, besides the race (explain taper).',
    ])
    expect(factsOf(blockOf(planOf('Block\n'), [], today), 'km')).toEqual([])
  })

  it('is over after its race, with what was done in the last weeks', () => {
    const over = block('2026-12-14')
    expect(factsOf(over, 'km')).toEqual([
      '1 week 20 % or more under the plan: 23 Nov.',
      '3 heavy leg days with a hard run later that day or on one of the two days after: 17 Nov, 25 Nov, 27 Nov.',
    ])
    // The mean of 48, 48, 32 and 18 done, without the weeks in which nothing was.
    expect(over.weeks.map(({ planned }) => planned.taper?.meanMeters ?? null)).toEqual([
      ...[null, null, 36_500, 36_500, null],
    ])
    expect(over.weeks.map(({ daysToRace }) => daysToRace)).toEqual([27, 20, 13, 6, -1])
    const lines = blockLines(over, plan, 'km', 64, '2026-12-14')
    expect(lines).toContain('>14 Dec            0     0     0           0     0')
    expect(lines.slice(0, 2)).toEqual(['Block', 'the race was on 13 Dec 2026'])
  })

  it('has its race, the words of each day and the notes of each week', () => {
    const { race, days, weeks } = block()
    expect(race).toEqual({ meters: 10_000, seconds: 2370, date: '2026-12-13' })
    expect(days.map(({ date, words }) => [date, words.join('+')])).toEqual([
      ['2026-11-23', ''],
      ['2026-11-24', ''],
      ['2026-11-25', ''],
      ['2026-11-26', 'tempo+legs'],
      ['2026-11-27', ''],
      ['2026-11-28', ''],
      ['2026-11-29', 'long'],
    ])
    expect(weeks.map(({ planned }) => planned.notes.join())).toEqual(['', '', '', '', 'new shoes', '', ''])
    expect(weeks.map((week) => week.done === null)).toEqual([...Array(5).fill(false), true, true])
  })

  it('has two more columns from 64 columns on', () => {
    const table = (columns: number) => blockLines(block(), plan, 'km', columns, today).slice(3, 11)
    expect(table(64)).toEqual([
      'week      plan  done  long  hard  heavy legs  load  days',
      ' 26 Oct           31    30   0.1           1   600    48',
      '  2 Nov     40    32    32     0           0   300    41',
      '  9 Nov     40    48    48     0           0   300    34',
      ' 16 Nov   easy    48    40    0+           3   900    27',
      '>23 Nov     42    18     5     0           3  1200    20',
      ' 30 Nov  taper                                        13',
      '  7 Dec   race                                         6',
    ])
    expect(table(63)).toEqual([
      'week      plan  done  long  hard  load',
      ' 26 Oct           31    30   0.1   600',
      '  2 Nov     40    32    32     0   300',
      '  9 Nov     40    48    48     0   300',
      ' 16 Nov   easy    48    40    0+   900',
      '>23 Nov     42    18     5     0  1200',
      ' 30 Nov  taper',
      '  7 Dec   race',
    ])
    expect(blockLines(block(), plan, 'km', 64, today)).toContain(
      '>23 Nov  =====================                          |',
    )
  })

  it('has taper figures from the last four weeks before it, also those of a break, from the first with running', () => {
    const bare = planOf('Block\n2026-11-30: taper\n')
    const meanAfter = (...sessions: DoneSession[]) =>
      blockOf(bare, sessions, '2026-11-28').weeks.at(-1)?.planned.taper?.meanMeters ?? null
    const before = done('2026-10-14', 60)
    const [first, second, third] = [done('2026-11-04', 30), done('2026-11-11', 36), done('2026-11-18', 42)]
    // 0, 30, 36 and 42 km.
    expect(meanAfter(before, first, second, third)).toBe(27_000)
    expect(meanAfter(first, second, third)).toBe(36_000)
    expect(meanAfter(second, third)).toBe(39_000)
    expect([meanAfter(before), meanAfter()]).toEqual([null, null])
  })

  it('calls a taper week over the plan that went on as before, but neither the week of the race nor one below its range', () => {
    const before = ['2026-11-03', '2026-11-10', '2026-11-17', '2026-11-24'].map((date) => done(date, 40))
    const taper = (...meters: number[]) =>
      blockOf(
        plan,
        [...before, ...meters.map((each, week) => done(week ? '2026-12-08' : '2026-12-01', each))],
        '2026-12-14',
      )
    // 41 % less than 40 km is 23.6 km, and 20 % more than that 28.3 km.
    expect(taper(28.4, 40).over).toEqual(['2026-11-30'])
    expect(taper(28.2, 10).over).toEqual([])
    expect(taper(10, 10).under).toEqual([])
  })

  it('does not call a week under the plan whose running without a distance may fill it', () => {
    const plan = planOf('Block\n2026-11-16: 40 km\n2026-11-30: 20 km\n')
    const timed = (minutes: number) =>
      blockOf(plan, [done('2026-11-18', 10, { unmeasuredSeconds: 60 * minutes })], '2026-11-28')
    expect(timed(0).under).toEqual(['2026-11-16'])
    expect(timed(120).under).toEqual(['2026-11-16'])
    // 210 min at 6:00/km are 35 km.
    expect(timed(210).under).toEqual([])
    expect(timed(210).over).toEqual([])
  })

  it('has no taper figures if nothing is known of the weeks before', () => {
    const bare = blockOf(planOf('Block\n2026-11-30: taper\n'), [], today)
    expect(bare.weeks.map(({ planned }) => planned.taper)).toEqual(Array(6).fill(null))
  })

  it('has the load of a week as a minimum if a session has none', () => {
    const unknown = blockOf(planOf('Block\n'), [done('2026-11-24', 5, { effortMinutes: null })], today)
    expect(unknown.weeks.at(-1)?.done).toMatchObject({ effortMinutes: 0, atLeast: true })
  })

  it('has no heavy leg day before easy running only', () => {
    const legs = done('2026-11-18', 0, { heavyLegSets: 5 })
    const before = (...after: DoneSession[]) =>
      blockOf(planOf('Block\n'), [legs, ...after], today).heavyLegsBeforeHardRun
    expect(before(done('2026-11-19', 8), done('2026-11-20', 8))).toEqual([])
    expect(
      before(done('2026-11-18', 8, { hardMeters: 1 }), done('2026-11-21', 8, { hardMeters: 1 })),
    ).toEqual([])
    expect(before(done('2026-11-20', 8, { hardSeconds: 1 }))).toEqual(['2026-11-18'])
  })

  it('has the heavy legs of a morning before a hard run that evening, and none before a run of that morning', () => {
    const legs = done('2026-11-18', 0, { heavyLegSets: 5 })
    const hardRun = (hours: number) => {
      const run = done('2026-11-18', 8, { hardMeters: 1 })
      return { ...run, begun: legs.begun + hours * 3_600_000 }
    }
    const dates = [10, -10].map(
      (hours) => blockOf(planOf('Block\n'), [legs, hardRun(hours)], today).heavyLegsBeforeHardRun,
    )
    expect(dates).toEqual([['2026-11-18'], []])
  })

  it('has taper figures from the weeks before the first of its taper weeks', () => {
    const taper = planOf('Block\n2026-11-23: 40 km\n2026-11-30: 20 km, taper\n2026-12-07: 10 km, race week\n')
    const means = (...sessions: DoneSession[]) =>
      blockOf(taper, sessions, today)
        .weeks.slice(-2)
        .map(({ planned }) => planned.taper?.meanMeters ?? null)
    expect(means()).toEqual([40_000, 40_000])
    expect(means(done('2026-11-17', 30))).toEqual([35_000, 35_000])
  })

  it('has no days to a race without one, and 0 in the week of a race on its Monday', () => {
    const bare = planOf('Block\n2026-11-30: 30 km\n')
    const lines = blockLines(blockOf(bare, [], today), bare, 'km', 64, today)
    expect(lines.slice(0, 3)).toEqual(['Block', '', 'week     plan  done  long  hard  heavy legs  load'])
    expect(lines).toContain('>23 Nov           0     0     0           0     0')
    expect(lines).toContain(' 30 Nov    30')
    const race = planOf('Block\nrace: 10 km in 39:30 on 2026-12-07\n2026-11-30: 30 km\n')
    const table = blockLines(blockOf(race, [], today), race, 'km', 64, today)
    expect(table.slice(0, 2)).toEqual(['Block', '11 days to 10 km in 39:30'])
    expect(table).toContain(`${' 30 Nov    30'.padEnd(54)}7`)
    expect(table).toContain(`${'  7 Dec'.padEnd(54)}0`)
  })
})
