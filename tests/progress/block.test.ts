import { describe, expect, it } from 'vitest'
import { readPlan } from '../../src/plan/read.ts'
import { type BlockSession, blockLines, blockOf } from '../../src/progress/block.ts'

/* The thresholds of the findings are this program's own rules; the figures are worked out by hand. */

const today = '2026-11-26'

function planOf(text: string) {
  const reading = readPlan(text)
  if ('problems' in reading) throw new Error(reading.problems[0]?.message)
  return reading.plan
}

const done = (date: string, km: number, more: Partial<BlockSession> = {}): BlockSession => ({
  date,
  meters: km * 1000,
  hardMeters: 0,
  hardSeconds: 0,
  heavyLegSets: 0,
  effortMinutes: 300,
  atLeast: false,
  ...more,
})

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
  done('2026-11-21', 0, { heavyLegSets: 4, effortMinutes: null, atLeast: true }),
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
    expect(text()).toMatch(/^>23 Nov +42 +9 +9 +0 +0 +300 +20$/m)
    expect(text()).toContain('17 days to 10 km in 39:30')
  })

  it('marks the load of a week with + where a part of one of its days has no effort', () => {
    const known = blockOf(plan, [done('2026-11-17', 10)], today)
    const least = blockOf(plan, [done('2026-11-17', 10, { atLeast: true })], today)
    const loadOf = ({ weeks }: typeof known) => weeks.find(({ monday }) => monday === '2026-11-16')?.done
    expect(loadOf(known)).toMatchObject({ effortMinutes: 300, atLeast: false })
    expect(loadOf(least)).toMatchObject({ effortMinutes: 300, atLeast: true })
  })

  it('says which weeks were 20 % off the plan: 48 of 40 km are, 47.9 are not', () => {
    expect(block().over).toEqual(['2026-10-26', '2026-11-16'])
    expect(block().under).toEqual(['2026-11-02'])
    expect(text()).toContain('2 weeks 20 % or more over the plan: 26 Oct, 16 Nov.')
  })

  it('says which heavy leg days had a hard run on one of the two days after', () => {
    expect(block().heavyLegsBeforeHardRun).toEqual(['2026-11-18'])
    expect(text()).toContain('1 heavy leg day with a hard run on one of the two days after: 18 Nov.')
  })

  it('treats a race week as a taper week, after weeks done and planned', () => {
    // The mean of 42 planned, 48, 47.9 and 32 done.
    const taper = block().weeks.at(-1)?.planned.taper
    expect(taper?.meanMeters).toBeCloseTo(42_475, 6)
    expect(text()).toContain('7 Dec, race week: 17 to 25 km: 41-60 % less than the mean of 42')
  })

  it('draws what was done as bars and what is planned as a line, in 40 columns, too', () => {
    expect(text()).toMatch(/^ 26 Oct +=+\|=+$/m)
    expect(text()).toMatch(/^ 30 Nov +\|$/m)
    for (const line of blockLines(block(), plan, 'km', 40, today)) expect(line.length).toBeLessThanOrEqual(40)
  })

  it('with only a title covers five weeks of what was done', () => {
    const bare = blockOf(planOf('Block\n'), sessions, today)
    expect(bare.weeks).toHaveLength(5)
    expect([bare.race, bare.over, bare.weeks[0]?.planned.meters]).toEqual([null, [], null])
  })
})
