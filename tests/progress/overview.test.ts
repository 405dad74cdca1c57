import { describe, expect, it } from 'vitest'
import {
  liftNames,
  overviewLines,
  overviewOf,
  type PageInput,
  pageAbout,
  type Subject,
} from '../../src/progress/overview.ts'
import { allPains } from '../../src/progress/pain.ts'
import { session, set, type Told } from './doneSessions.ts'

const today = '2026-11-25'
const squat = (date: string, kg = 100, more: object = {}) =>
  session(date, { lifts: [{ name: 'front squat', sets: [set(5, 80)], oneRepMax: { kg, ...more } }] })
const run = (date: string, told: Told = {}) => session(date, { runs: [{ of: [[8000, 2400]] }], ...told })
const units = { distance: 'km', mass: 'kg' } as const
const pageOf = (sessions: PageInput['sessions'], subject: Subject, more: Partial<PageInput> = {}) =>
  pageAbout(subject, {
    sessions,
    asked: { from: null, to: null },
    today,
    units,
    isFull: false,
    goal: () => null,
    pains: () => allPains(sessions, []),
    mornings: () => [],
    ...more,
  })

describe('what is shown over the weeks', () => {
  const spanOf = (
    sessions: ReturnType<typeof session>[],
    subject: Subject = { kind: 'all' },
    asked: { from?: string; to?: string } = {},
  ) => {
    const { figures } = pageOf(sessions, subject, { asked: { from: null, to: null, ...asked } })
    const { from, to } = figures as { from: string; to: string }
    return `${from} ${to}`
  }

  it.each<Subject>([{ kind: 'all' }, { kind: 'run' }, { kind: 'load' }, { kind: 'pain' }])(
    'is sixteen weeks of %j up to today, or up to the newest session',
    (subject) => {
      expect(spanOf([], subject)).toBe('2026-08-10 2026-11-29')
      expect(spanOf([run('2026-11-24'), run('2025-01-01')], subject)).toBe('2026-08-10 2026-11-29')
      expect(spanOf([run('2026-03-03'), run('2025-01-01')], subject)).toBe('2025-11-17 2026-03-08')
      expect(spanOf([run('2026-11-24'), run('2026-11-12')], subject)).toBe('2026-11-09 2026-11-29')
    },
  )

  it('is up to the newest session before the last day asked for', () => {
    const sessions = [run('2026-11-24'), run('2026-03-03'), run('2025-01-01')]
    expect(spanOf(sessions, { kind: 'all' }, { to: '2026-06-30' })).toBe('2025-11-17 2026-03-08')
    expect(spanOf(sessions, { kind: 'all' }, { to: '2026-03-03' })).toBe('2025-11-17 2026-03-08')
    // Sixteen weeks up to 2 March, which the session of the next day does not end.
    expect(spanOf(sessions, { kind: 'all' }, { to: '2026-03-01' })).toBe('2024-12-30 2025-01-05')
  })

  it('is about the sessions with a lift, from the first session of all', () => {
    const lift: Subject = { kind: 'lift', name: 'Front squats' }
    expect(spanOf([run('2026-11-24'), squat('2026-11-10'), run('2026-10-01')], lift)).toBe(
      '2026-09-28 2026-11-29',
    )
    expect(spanOf([run('2026-11-24'), squat('2026-03-03'), run('2025-01-01')], lift)).toBe(
      '2025-11-17 2026-03-08',
    )
  })

  it('is told in its own words, the load without its product with monotony unless all is wanted', () => {
    const pain = [{ place: 'left calf', level: 4 }]
    const hurt = { ...squat('2026-11-24'), brief: { ...squat('2026-11-24').brief, pain } }
    const lines = (subject: Subject, isFull = false) => pageOf([hurt], subject, { isFull }).lines(80)
    expect(lines({ kind: 'pain' })[0]).toBe('pain: 1 week, 23 Nov to 29 Nov 2026')
    expect(lines({ kind: 'pain' })).toContain('  left calf: 24 Nov 4 (front squat)')
    expect(lines({ kind: 'load' })[0]).toBe('session load: 1 week, 23 Nov to 29 Nov 2026')
    expect(lines({ kind: 'load' }).join()).not.toContain('load x monotony')
    expect(lines({ kind: 'load' }, true).join()).toContain('load x monotony')
    expect(lines({ kind: 'all' })[0]).toBe('1 week, 23 Nov to 29 Nov 2026')
    expect(lines({ kind: 'lift', name: 'front squat' })[0]).toBe('front squat: 1 week, 23 Nov to 29 Nov 2026')
    expect(lines({ kind: 'run' }).join()).toContain('by week from Monday: km')
  })
})

describe('the overview', () => {
  const span = { from: '2026-11-16', to: '2026-11-29' }

  it('adds up the distance and the tonnage of each week, from Monday to Sunday', () => {
    const dates = ['2026-11-30', '2026-11-29', '2026-11-23', '2026-11-22', '2026-11-16', '2026-11-15']
    const { weeks } = overviewOf(
      dates.flatMap((date) => [run(date), squat(date)]),
      span,
      today,
    )
    expect(weeks.map(({ week, meters, tonnageKg }) => [week, meters, tonnageKg])).toEqual([
      ['2026-W47', 16_000, 800],
      ['2026-W48', 16_000, 800],
    ])
  })

  it('says of a lift on the body that its estimate is the load added to it', () => {
    const lifts = [{ name: 'dip', sets: [set(8, 10)], oneRepMax: { kg: 36 }, bodyKg: 68 }]
    const pages = (['all', 'lift'] as const).map((kind) => {
      const subject: Subject = kind === 'all' ? { kind } : { kind, name: 'dip' }
      return pageOf([session('2026-11-25', { lifts })], subject).lines(80)
    })
    expect(pages[0]).toContain('  dip: bodyweight+36.0 kg on 25 Nov 2026 (unbroken, fresh)')
    expect(pages[1]).toContain('estimated maximum for one repetition, added to the body, by session')
  })

  it('says of a lift with a pair of dumbbells that its estimate is of both together', () => {
    const inPairs = { ...set(8, 20), load: { kind: 'mass', value: 20, unit: 'kg', pair: true } as const }
    const lifts = [{ name: 'dumbbell press', sets: [inPairs], oneRepMax: { kg: 53.3 } }]
    const pages = (['all', 'lift'] as const).map((kind) => {
      const subject: Subject = kind === 'all' ? { kind } : { kind, name: 'dumbbell press' }
      return pageOf([session('2026-11-25', { lifts })], subject).lines(80)
    })
    expect(pages[0]).toContain('  dumbbell press: 53.3 kg both together on 25 Nov 2026 (unbroken, fresh)')
    expect(pages[1]).toContain('estimated maximum for one repetition, both together, by session')
  })

  it('has the eight most frequent lifts of its weeks, each with its last estimate', () => {
    const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i'].map((letter) => `${letter} press`)
    const lifts = names.map((name) => ({ name, sets: [set(5, 50)] }))
    const overview = overviewOf(
      [
        session('2026-11-25', { lifts: lifts.slice(1) }),
        squat('2026-11-24', 104),
        squat('2026-11-17', 102),
        session('2026-11-16', { lifts: lifts.slice(0, 1) }),
        ...['2026-11-15', '2026-11-14'].map((date) =>
          session(date, { lifts: [{ name: 'row', sets: [set(5, 50)] }] }),
        ),
      ],
      span,
      today,
    )
    const { lifts: shown } = overview
    expect(shown.map(({ name }) => name)).toEqual(['front squat', ...names.slice(1, 8)])
    expect(overviewLines(overview, units, 80).filter((line) => line.includes('other'))).toEqual([
      '  and 2 other lifts',
    ])
    expect(shown[0]).toMatchObject({ sessions: 2, last: { kg: 104, date: '2026-11-24' }, trends: [] })
    expect(shown[1]?.last).toBeNull()
  })

  it('counts a lift in every spelling, with the name as last written', () => {
    const of = (date: string, ...names: string[]) =>
      session(date, { lifts: names.map((name) => ({ name, sets: [] })) })
    expect(
      liftNames([
        of('2026-11-25', 'Dip', 'Front Squat'),
        of('2026-11-24', 'front-squats'),
        of('2026-11-23', 'front squat'),
      ]),
    ).toEqual([
      { name: 'Front Squat', sessions: 3 },
      { name: 'Dip', sessions: 1 },
    ])
  })

  it('has a line for each lift, with the slopes that are clear, their signs and their unit', () => {
    const weekly = (...kilograms: number[]) =>
      kilograms.map((kg, week) => squat(`2026-11-${String(23 - 7 * week).padStart(2, '0')}`, kg))
    const text = (mass: 'kg' | 'lb', sessions: ReturnType<typeof session>[]) =>
      overviewLines(
        overviewOf(sessions, { from: '2026-11-02', to: '2026-11-29' }, today),
        { ...units, mass },
        200,
      )[3]
    expect(text('kg', weekly(100, 101, 102, 103))).toBe(
      '  front squat: 100.0 kg on 23 Nov 2026 (unbroken, fresh); unbroken, fresh -1.00 (-1.00 to -1.00) kg a week',
    )
    // 1 kg is 2.20462 lb.
    expect(text('lb', weekly(103, 102, 101, 100))).toBe(
      '  front squat: 227.1 lb on 23 Nov 2026 (unbroken, fresh); unbroken, fresh +2.20 (+2.20 to +2.20) lb a week',
    )
    expect(text('kg', weekly(100, 104, 100, 104))).toBe(
      '  front squat: 100.0 kg on 23 Nov 2026 (unbroken, fresh)',
    )
    const plank = session('2026-11-23', { lifts: [{ name: 'plank', sets: [] }] })
    expect(text('kg', [plank])).toBe('  plank: no estimate')
    expect(text('kg', [squat('2026-11-23', 100, { atLeast: true, afterRun: true })])).toBe(
      '  front squat: at least 100.0 kg on 23 Nov 2026 (unbroken, after a run)',
    )
  })

  it('has two more columns from 72 columns on, and no heading for lifts if there are none', () => {
    const part = { name: null, effort: 6, minutes: 40, effortMinutes: 240 }
    const parts = [
      { ...part, kind: 'run' as const },
      { ...part, kind: 'lift' as const, effortMinutes: 100 },
    ]
    const of = (columns: number) =>
      overviewLines(overviewOf([run('2026-11-24', { parts })], span, today), units, columns)
    expect(of(72).slice(0, 6)).toEqual([
      '2 weeks, 16 Nov to 29 Nov 2026',
      '',
      'week             run km  lift kg  run  lift  session load',
      '2026-W47 16 Nov     0.0        0    0     0             0',
      '2026-W48 23 Nov     8.0        0  240   100           340',
      'run and lift before the last column: their session load; "?" or "+" (at',
    ])
    expect(of(71).slice(2, 6)).toEqual([
      'week             run km  lift kg  load',
      '2026-W47 16 Nov     0.0        0     0',
      '2026-W48 23 Nov     8.0        0   340',
      'load: session load; "?" or "+" (at least): a session has no effort or',
    ])
  })
})
