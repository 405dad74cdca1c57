import { describe, expect, it } from 'vitest'
import { liftLines, liftProgress } from '../../src/progress/lift.ts'
import { session, set } from './doneSessions.ts'

const squat = (oneRepMax: object | null, ...sets: ReturnType<typeof set>[]) => ({
  name: 'front squat',
  sets,
  oneRepMax,
})

describe('a lift in words', () => {
  const two = { from: '2026-11-16', to: '2026-11-29' }
  const units = { distance: 'km', mass: 'kg' } as const
  const linesOf = (
    name: string,
    sessions: ReturnType<typeof session>[],
    from = two.from,
    mass: 'kg' | 'lb' = 'kg',
  ) =>
    liftLines(
      liftProgress(sessions, name, { from, to: two.to }, two.to),
      { ...units, mass, convert: mass !== 'kg' },
      60,
    )
  const weekly = (...figures: object[]) =>
    figures
      .map((figure, week) =>
        session(`2026-11-${String(2 + 7 * week).padStart(2, '0')}`, { lifts: [squat(figure, set(5, 90))] }),
      )
      .reverse()

  it('has only its sets if they have neither repetitions nor a load', () => {
    const hold = { ...set(0, 0), reps: null, load: null, seconds: 45 }
    const plank = (date: string, ...sets: (typeof hold)[]) =>
      session(date, { lifts: [{ name: 'plank', sets }] })
    expect(linesOf('plank', [plank('2026-11-24', hold, hold), plank('2026-11-17', hold)])).toEqual([
      'plank: 2 weeks, 16 Nov to 29 Nov 2026',
      '',
      'no set in these weeks gives an estimated maximum',
      '',
      'best sets, from all sessions',
      '  longest hold 0:45, 17 Nov 2026',
      '',
      'by week from Monday: sets',
      `2026-W47 16 Nov   1 set  ${'='.repeat(18)}`,
      `2026-W48 23 Nov  2 sets  ${'='.repeat(35)}`,
    ])
  })

  it('has the most repetitions without a load, the earliest of equals, beside the sets with one', () => {
    const bare = (reps: number) => ({ ...set(reps, 0), load: null })
    const days = [
      session('2026-11-24', { lifts: [{ name: 'push-up', sets: [bare(25), bare(20)] }] }),
      session('2026-11-17', { lifts: [{ name: 'push-up', sets: [bare(25), set(8, 10)] }] }),
    ]
    const lines = linesOf('push-up', days)
    const at = lines.indexOf('best sets by repetitions, from all sessions')
    expect(lines.slice(at + 1, at + 3)).toEqual([
      '  8 x 10 kg, 17 Nov 2026',
      '  most reps without a load 25, 17 Nov 2026',
    ])
  })

  it('has the carries and the holds with a load that no other beats in load and length', () => {
    const carry = (kg: number, meters: number) => ({ ...set(0, kg), reps: null, meters })
    const hold = (kg: number, seconds: number) => ({ ...set(0, kg), reps: null, seconds })
    const bestOf = (...sets: ReturnType<typeof set>[]) => {
      const lines = linesOf('carry', [session('2026-11-24', { lifts: [{ name: 'carry', sets }] })])
      const at = lines.indexOf('best sets, from all sessions') + 1
      return lines.slice(at, lines.indexOf('', at))
    }
    expect(bestOf(carry(30, 40), carry(35, 20), carry(32.5, 20), carry(30, 20), carry(25, 60))).toEqual([
      '  60 m x 25 kg, 24 Nov 2026',
      '  40 m x 30 kg, 24 Nov 2026',
      '  20 m x 35 kg, 24 Nov 2026',
    ])
    expect(bestOf(hold(10, 45), hold(5, 60), hold(5, 50))).toEqual([
      '  1:00 x 5 kg, 24 Nov 2026',
      '  0:45 x 10 kg, 24 Nov 2026',
    ])
    expect(bestOf({ ...carry(0, 40), load: null })).toEqual([
      '  longest carry without a load 40 m, 24 Nov 2026',
    ])
  })

  it('counts what was done of a station in all rounds together as no set', () => {
    const rounds = { ...set(52, 40), isTotal: true }
    const bare = { ...set(36, 0), load: null, isTotal: true }
    const day = session('2026-11-24', { lifts: [{ name: 'row', sets: [rounds, bare, set(8, 60)] }] })
    const lines = linesOf('row', [day])
    const at = lines.indexOf('best sets by repetitions, from all sessions')
    expect(lines.slice(at + 1, at + 3)).toEqual(['  8 x 60 kg, 24 Nov 2026', ''])
  })

  it('has no tonnage if there is no load', () => {
    const sets = [{ ...set(10, 0), load: null }]
    expect(
      linesOf('push-up', [session('2026-11-24', { lifts: [{ name: 'push-up', sets }] })]).slice(-3),
    ).toEqual([
      'by week from Monday: sets, repetitions',
      '2026-W47 16 Nov  0 sets   0 reps',
      `2026-W48 23 Nov   1 set  10 reps  ${'='.repeat(26)}`,
    ])
  })

  it('marks estimates that are "at least", and says that they make no line', () => {
    const few = linesOf('front squat', weekly({}, { atLeast: true, highKg: 120 }, {}), '2026-11-02', 'lb')
    expect(few.join(' ').replace(/ +/g, ' ')).toContain(
      'o unbroken, fresh; ^ at least (no effort of 7+, or over 10 reps); | range',
    )
    expect(few).toContain('too few estimates of one kind for a straight line (it takes')
    // 100 kg are 220.5 lb; without a low end the axis does not begin at 0.
    const labels = few.flatMap((line) => /^ *(\d+) \+/.exec(line)?.[1] ?? [])
    expect(labels).toEqual(['221', '220'])
    const only = linesOf('front squat', weekly({ atLeast: true }), '2026-11-02')
    expect(only.join(' ').replace(/ +/g, ' ')).toContain(
      '^ at least (no effort of 7+, or over 10 reps); | range',
    )
  })

  it('draws no line for a change that noise explains', () => {
    const lines = linesOf(
      'front squat',
      weekly({ kg: 100 }, { kg: 104 }, { kg: 100 }, { kg: 104 }),
      '2026-11-02',
    )
    expect(lines).toContain('o unbroken, fresh; | range')
    expect(lines).toContain('  unbroken, fresh: no change that can be told from noise (4')
    expect(lines.filter((line) => /[|+].*\./.test(line))).toEqual([])
  })

  it('has the slope with its sign, interval, ends and scatter', () => {
    const lines = linesOf(
      'front squat',
      weekly({ kg: 103 }, { kg: 102 }, { kg: 101 }, { kg: 100 }),
      '2026-11-02',
    )
    expect(lines).toContain('o unbroken, fresh; | range; . straight line')
    expect(lines.join(' ').replace(/ +/g, ' ')).toContain(
      'unbroken, fresh: -1.00 (-1.00 to -1.00) kg a week (4 estimates, 95 % interval), from 103.0 kg on 2 Nov to 100.0 kg on 23 Nov; estimates scatter by 0.0 kg',
    )
  })

  it('has its slope upward, drawn as dots from the first mark to the last', () => {
    const rising = weekly({ kg: 100 }, { kg: 101 }, { kg: 102 }, { kg: 103 })
    const lines = linesOf('front squat', rising, '2026-11-02')
    expect(lines).toContain('  unbroken, fresh: +1.00 (+1.00 to +1.00) kg a week (4')
    const field = lines.flatMap((line) => /^[ \d]{3} [|+](.*)$/.exec(line)?.[1] ?? [])
    // 53 cells for 27 days: 2 November is the first, 23 November the 41st.
    expect(field.join('').replace(/[^.o]/g, '')).toHaveLength(41)
    expect(field.map((cells) => cells.indexOf('o')).filter((cell) => cell >= 0)).toEqual([41, 28, 14, 1])
    expect(lines.flatMap((line) => /^ *(\d+) \+/.exec(line)?.[1] ?? []).slice(0, 1)).toEqual(['103'])
  })

  it('has its best sets, then its clusters, and the weeks, in the unit asked for', () => {
    const sets = [set(10, 80), set(5, 100), set(3, 90, [1, 1, 1])]
    const sessions = [session('2026-11-17', { lifts: [squat(null, ...sets)] })]
    const lift = liftProgress(sessions, 'front squat', two, two.to)
    expect(liftLines(lift, units, 60).slice(4)).toEqual([
      'best sets by repetitions, from all sessions; cluster sets in',
      '  brackets',
      '       10 x 80 kg, 17 Nov 2026',
      '        5 x 100 kg, 17 Nov 2026',
      '  (1+1+1) x 90 kg, 17 Nov 2026',
      '',
      'by week from Monday: sets, repetitions, tonnage in kg',
      `2026-W47 16 Nov  3 sets  18 reps  1570  ${'='.repeat(20)}`,
      '2026-W48 23 Nov  0 sets   0 reps     0',
    ])
    // 80 kg are 176.37 lb, 1570 kg 3461 lb.
    const pounds = liftLines(lift, { ...units, mass: 'lb', convert: true }, 60)
    expect(pounds).toContain('       10 x 176.37 lb, 17 Nov 2026')
    expect(pounds).toContain(`2026-W47 16 Nov  3 sets  18 reps  3461  ${'='.repeat(20)}`)
    expect(pounds).toContain('by week from Monday: sets, repetitions, tonnage in lb')
  })

  it('is in the unit in which its sets were written, and in that of the settings if they have two', () => {
    const inPounds = { ...set(5, 0), load: { kind: 'mass', value: 225, unit: 'lb', pair: false } as const }
    // 102.06 kg are 225 lb.
    const linesWith = (...sets: ReturnType<typeof set>[]) =>
      linesOf('front squat', [session('2026-11-17', { lifts: [squat({ kg: 102.06 }, ...sets)] })])
    const tonnageIn = (lines: string[]) => lines.find((line) => line.includes('tonnage'))
    const pounds = linesWith(inPounds)
    expect(pounds).toContain('  5 x 225 lb, 17 Nov 2026')
    expect(pounds.flatMap((line) => /^ *(22\d) \+/.exec(line)?.[1] ?? [])).not.toEqual([])
    expect(tonnageIn(pounds)).toContain('tonnage in lb')
    expect(tonnageIn(linesWith(inPounds, set(3, 110)))).toContain('tonnage in kg')
    // Also where the only best set is not in the unit of the settings.
    expect(tonnageIn(linesWith(inPounds, set(5, 100)))).toContain('tonnage in kg')
  })

  it('has no weight for after a run if running makes no difference', () => {
    const sessions = (run: number) =>
      Array.from({ length: 10 }, (_, at) => {
        const afterRun = at % 2 === 1
        return session(`2026-11-${28 - at}`, {
          lifts: [squat({ kg: (afterRun ? run : 100) + (at % 3), afterRun })],
        })
      })
    const [none, clear] = [
      linesOf('front squat', sessions(100.2)).join('\n'),
      linesOf('front squat', sessions(90)).join('\n'),
    ]
    expect(none).toContain('front squat after running: no difference seen')
    expect(none).not.toContain('estimated maximum after running')
    expect(clear).toContain('estimated maximum after running: about 9')
  })
})
