import { describe, expect, it } from 'vitest'
import { weekDone } from '../../src/progress/load.ts'
import { type RunLine, type RunProgress, runLines } from '../../src/progress/run.ts'
import type { RaceDone, TowardRace } from '../../src/progress/towardRace.ts'
import { session } from './doneSessions.ts'

const km = { distance: 'km', mass: 'kg' } as const
const week = (number: number, monday: string, meters: number, isOver: boolean) => ({
  ...weekDone({ week: `2026-W${number}`, monday, sunday: '', done: [] }, ''),
  isOver,
  meters,
  goalPaceShare: null,
})
const run: RunProgress = {
  from: '2026-11-16',
  to: '2026-11-29',
  weeks: [week(47, '2026-11-16', 20_000, true), week(48, '2026-11-23', 10_000, false)],
  goalPaceShare: null,
  lines: [],
  bestSplits: [],
  towardRace: null,
  form: { paceAtHeartRate: null, afterHeavyLegs: null, drift: [], criticalSpeed: null, ownExponent: null },
}
const goal = { meters: 10_000, seconds: 2370, secondsPerKm: 237, date: null }
const toward: TowardRace = { goal, daysLeft: null, lastRace: null, races: [] }
const shown = (more: Partial<RunProgress>, units: Parameters<typeof runLines>[1] = km, columns = 200) =>
  runLines({ ...run, ...more }, units, columns)

describe('the running in words', () => {
  it('has the weeks alone without a line, a split, a form or a goal', () => {
    expect(shown({}, km, 60)).toEqual([
      'running: 2 weeks, 16 Nov to 29 Nov 2026',
      '',
      'by week from Monday: km',
      `2026-W47 16 Nov  20.0  ${'='.repeat(37)}`,
      `2026-W48 23 Nov  10.0  ${'='.repeat(19)}`,
      'mean of whole weeks: 20.0 km',
      '',
      'no session names a goal ("goal: 10 km in 39:30"), so no run',
      '  is compared with one',
    ])
  })

  it('has the share at goal pace with a goal, and a dash for an unknown one', () => {
    const weeks = [{ ...run.weeks[0]!, goalPaceShare: 0.256 }, run.weeks[1]!]
    expect(shown({ weeks, towardRace: toward }, km, 66).slice(2, 5)).toEqual([
      'by week from Monday: km; share of the work within 2 % of goal pace',
      `2026-W47 16 Nov  20.0  26 %  ${'='.repeat(37)}`,
      `2026-W48 23 Nov  10.0     -  ${'='.repeat(19)}`,
    ])
  })
})

describe('a repeated line in words', () => {
  const done = (date: string, secondsPerKm: number, more: Partial<RunLine['done'][number]> = {}) => {
    const [item] = session(date, { runs: [{ of: [] }] }).running.items
    return { ...item!, session: date, date, secondsPerKm, ...more }
  }
  const line = (...those: RunLine['done']): RunLine => ({ line: '2 x 1 km', done: those })
  const rows = (each: RunLine, units: Parameters<typeof runLines>[1] = km) =>
    shown({ lines: [each] }, units).filter((text) => /^ {2}(straight|.*:\d\d\/)/.test(text))

  it('has a row for each day, with the evenness that is known', () => {
    const even = { cvPercent: 1.46, halves: { changePercent: -1.26 }, inRange: 1, judged: 2 }
    expect(
      rows(
        line(
          done('2026-11-17', 240),
          done('2026-11-19', 236.4, even),
          done('2026-11-20', 236, { halves: { changePercent: 0.04 } }),
          done('2026-11-21', 236, { halves: { changePercent: -0.04 } }),
          done('2026-11-24', 235, { halves: { changePercent: 0.06 }, judged: 2 }),
        ),
      ),
    ).toEqual([
      '  17 Nov  4:00/km',
      '  19 Nov  3:56/km, CV 1.5 %, second half -1.3 %, 1 of 2 in range',
      '  20 Nov  3:56/km, second half 0.0 %',
      '  21 Nov  3:56/km, second half 0.0 %',
      '  24 Nov  3:55/km, second half +0.1 %, 0 of 2 in range',
    ])
  })

  it('has its straight line only if that can be told from noise, with its interval', () => {
    const dates = ['2026-11-02', '2026-11-09', '2026-11-16', '2026-11-23']
    const falling = line(...dates.map((date, at) => done(date, 240 - 2 * at)))
    expect(rows(falling)[0]).toBe(
      '  straight line: -2.00 (-2.00 to -2.00) s/km a week (4 days, 95 % interval)',
    )
    expect(shown({ lines: [falling], from: '2026-11-02' }).filter((text) => / \.+/.test(text))).not.toEqual(
      [],
    )
    expect(rows(falling, { distance: 'mi', mass: 'kg' })[0]).toContain('-3.22 (-3.22 to -3.22) s/mi a week')
    const noise = line(...dates.map((date, at) => done(date, [240, 232, 241, 233][at] ?? 0)))
    const [head, ...drawn] = shown({ lines: [noise] }).slice(7)
    expect(head).toBe('2 x 1 km: mean pace, faster is up')
    // After the unit, eight rows, the axis and its dates come the rows of the days.
    expect(drawn[11]).toBe('   2 Nov  4:00/km')
    expect(rows(line(done('2026-11-02', 240), done('2026-11-09', 236)))).toEqual([
      '  2 Nov  4:00/km',
      '  9 Nov  3:56/km',
    ])
  })

  it('has round paces at its axis in miles as in kilometres', () => {
    const faster = line(done('2026-11-16', 300), done('2026-11-29', 280))
    const axis = (units: Parameters<typeof runLines>[1]) =>
      shown({ lines: [faster] }, units).flatMap((text) => /^ *(\d:\d\d) \+/.exec(text)?.[1] ?? [])
    expect(axis(km)).toEqual(['4:40', '4:50', '5:00'])
    // From 7:31 to 8:03 a mile.
    expect(axis({ distance: 'mi', mass: 'kg' })).toEqual(['7:40', '8:00'])
  })

  it('is drawn with faster up, for the first three lines, and the others are counted', () => {
    const one = line(done('2026-11-16', 240), done('2026-11-29', 220))
    const text = (count: number) => shown({ lines: Array(count).fill(one) }).join('\n')
    const marks = text(1)
      .split('\n')
      .filter((each) => each.includes('o') && / [|+] /.test(each))
    expect(marks).toHaveLength(2)
    expect(marks[0]?.indexOf('o')).toBeGreaterThan(marks[1]?.indexOf('o') ?? 0)
    expect([1, 3, 4].map((count) => text(count).match(/mean pace/g)?.length)).toEqual([1, 3, 3])
    expect([3, 4, 5].map((count) => /.*more line.*/.exec(text(count))?.[0])).toEqual([
      undefined,
      '1 more line was repeated: --json lists them',
      '2 more lines were repeated: --json lists them',
    ])
  })
})

describe('the best splits in words', () => {
  const best = (meters: number, of: 'split' | 'repeat' | 'piece', count = 1) => ({
    meters,
    seconds: meters / 4,
    secondsPerKm: 250,
    of,
    date: '2026-11-09',
    session: 'one',
    sloping: of === 'piece',
    count,
  })

  it('are a table, without the pace below 60 columns', () => {
    const bestSplits = [best(500, 'repeat'), best(1000, 'split'), best(10_000, 'piece')]
    const table = (columns: number) => shown({ bestSplits }, km, columns).slice(7, 11)
    expect(table(60)).toEqual([
      'best recorded splits by distance, from all sessions',
      '  500 m   2:05  4:10/km  repeat, 9 Nov 2026',
      '   1 km   4:10  4:10/km  split, 9 Nov 2026',
      '  10 km  41:40  4:10/km  non-stop on a slope, 9 Nov 2026',
    ])
    expect(table(59).slice(1)).toEqual([
      '  500 m   2:05  repeat, 9 Nov 2026',
      '   1 km   4:10  split, 9 Nov 2026',
      '  10 km  41:40  non-stop on a slope, 9 Nov 2026',
    ])
  })

  it('are the fourteen most frequent distances', () => {
    const distances = (rare: number) => {
      const bestSplits = [...Array(15).keys()].map((at) =>
        best((at + 1) * 1000, 'piece', at === rare ? 1 : 2),
      )
      return shown({ bestSplits })
        .filter((text) => text.includes('non-stop'))
        .map((text) => Number(text.trim().split(' ')[0]))
    }
    const all = [...Array(15).keys()].map((at) => at + 1)
    expect(distances(0)).toEqual(all.slice(1))
    expect(distances(6)).toEqual(all.filter((each) => each !== 7))
    expect(distances(14)).toEqual(all.slice(0, 14))
  })
})

describe('the race in words', () => {
  const race: RaceDone = {
    session: 'one',
    date: '2026-10-04',
    word: 'trial',
    meters: 5000,
    seconds: 1200,
    sloping: false,
    danielsGilbert: { seconds: 2488, holds: true },
    riegel: { seconds: 2502, holds: true },
  }
  const block = (more: Partial<TowardRace>, weeks = run.weeks) => {
    const lines = shown({ weeks, towardRace: { ...toward, ...more } }, km, 300)
    return lines.slice(lines.lastIndexOf('') + 1)
  }

  it.each<[number | null, string | null, string]>([
    [null, null, ''],
    [0, '2026-11-25', ' on 25 Nov 2026, today'],
    [1, '2026-11-26', ' on 26 Nov 2026, 1 day left'],
    [2, '2026-11-27', ' on 27 Nov 2026, 2 days left'],
    [-1, '2026-11-24', ' on 24 Nov 2026, 1 day ago'],
    [-2, '2026-11-23', ' on 23 Nov 2026, 2 days ago'],
  ])('with %s days left says when it is', (daysLeft, date, when) => {
    expect(block({ daysLeft, goal: { ...goal, date } })[0]).toBe(
      `toward 10 km in 39:30 (3:57/km)${when}: facts, no prediction`,
    )
  })

  it('calls a race of whole kilometres so for those who think in miles, unless they ask for miles', () => {
    const inMiles = (convert: boolean) => {
      const units = { distance: 'mi', mass: 'lb', convert } as const
      const lines = shown({ towardRace: { ...toward, lastRace: race } }, units, 300)
      return lines.slice(lines.lastIndexOf('') + 1)
    }
    expect(inMiles(false)[0]).toContain('toward 10 km in 39:30 (6:21/mi)')
    expect(inMiles(false)[1]).toContain('trial: 5 km in 20:00')
    expect(inMiles(true)[0]).toContain('toward 6.21 mi in 39:30')
  })

  it.each([
    [21097.5, 'half marathon'],
    // As the sum of its miles is in binary.
    [13 * 1609.344 + 176.028 + 2e-12, 'half marathon'],
    [42195, 'marathon'],
    [16093.44, '10 mi'],
    [1500, '1.5 km'],
  ])('calls a race of %d m a race over %s', (meters, name) => {
    const [heading] = block({ goal: { ...goal, meters } })
    expect(heading).toMatch(new RegExp(`^toward ${name} in `))
  })

  it('names a half marathon as in speech after another race', () => {
    const [, fact] = block({ goal: { ...goal, meters: 21097.5 }, lastRace: race })
    expect(fact).toContain('; an equal performance over the half marathon: 41:28 by')
  })

  it('has no facts without a race or a whole week', () => {
    expect(block({}, run.weeks.slice(1)).slice(1)).toEqual([
      '  no race or trial is recorded ("5 km trial", "10 km race")',
    ])
  })

  it('has the races that are near, else the last one', () => {
    const equal = 'an equal performance over 10 km: 41:28 by Daniels & Gilbert, 41:42 by Riegel'
    const told = `trial: 5 km in 20:00 on 4 Oct 2026; ${equal}`
    expect(block({ lastRace: race, races: [race, race] }).slice(1, 3)).toEqual([`  ${told}`, `  ${told}`])
    expect(block({ lastRace: race }).slice(1, 2)).toEqual([`  last ${told}`])
  })

  it('compares a race over the distance of the goal with the goal, not with itself', () => {
    const over = (seconds: number) => ({ ...race, word: 'race' as const, meters: 10_000, seconds })
    const said = (seconds: number) => block({ lastRace: over(seconds), races: [over(seconds)] })[1]
    expect(said(2373)).toBe('  race: 10 km in 39:33 on 4 Oct 2026, 3 s behind the goal')
    expect(said(2370)).toBe('  race: 10 km in 39:30 on 4 Oct 2026, exactly the goal')
    expect(said(2352)).toBe('  race: 10 km in 39:12 on 4 Oct 2026, 18 s ahead of the goal')
    expect(said(2575)).toBe('  race: 10 km in 42:55 on 4 Oct 2026, 3:25 behind the goal')
  })

  it('marks a slope, an equation that refuses the time, and one that does not hold for it', () => {
    const odd = { ...race, sloping: true, danielsGilbert: null, riegel: { seconds: 2502, holds: false } }
    expect(block({ lastRace: odd, races: [odd] })[1]).toBe(
      '  trial: 5 km in 20:00 on 4 Oct 2026, downhill or on a grade; an equal performance over 10 km: Daniels & Gilbert gives no time, 41:42 by Riegel (outside the range where it holds)',
    )
  })

  it('has the mean of whole weeks', () => {
    const weeks = [
      week(45, '2026-11-02', 60_000, true),
      week(45, '2026-11-02', 30_000, true),
      week(46, '2026-11-09', 25_000, true),
      ...run.weeks,
    ]
    // (60 + 30 + 25 + 20) / 4, without the week that is not over.
    expect(shown({ weeks }, km, 90)).toContain('mean of whole weeks: 33.8 km')
  })

  it('marks a week with running without a distance, and the mean with it', () => {
    const weeks = [
      { ...week(47, '2026-11-16', 20_000, true), unmeasuredSeconds: 5400 },
      ...run.weeks.slice(1),
    ]
    expect(shown({ weeks }, km, 90).slice(2, 6)).toEqual([
      'by week from Monday: km ("+": plus running without a distance)',
      `2026-W47 16 Nov  20.0+  ${'='.repeat(66)}`,
      `2026-W48 23 Nov   10.0  ${'='.repeat(33)}`,
      'mean of whole weeks: 20.0+ km',
    ])
  })
})
