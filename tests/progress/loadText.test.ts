import { describe, expect, it } from 'vitest'
import { loadLines, loadProgress } from '../../src/progress/load.ts'
import { session } from './doneSessions.ts'

const part = (effort: number | null) => ({
  kind: 'run' as const,
  name: null,
  effort,
  minutes: 50,
  effortMinutes: effort === null ? null : effort * 50,
})
const hard = (day: string) => session(`2026-11-${day}`, { parts: [part(6)] })
const span = { from: '2026-11-16', to: '2026-11-29' }
const shown = (columns: number, ...sessions: ReturnType<typeof session>[]) =>
  loadLines(loadProgress(sessions, span, '2026-11-24'), columns, '2026-11-24', false)

describe('the session load in words', () => {
  it('is never 0 if unknown, blank for days ahead, and 0 without a session', () => {
    const lines = shown(
      80,
      session('2026-11-23', { title: 'Easy 8 km', parts: [part(null)] }),
      session('2026-11-18', { parts: [part(6)] }),
      session('2026-11-17', { title: 'track', parts: [part(null)] }),
    )
    expect(lines).toContain(`2026-W47 16 Nov  300+  ?  ${'='.repeat(54)}`)
    expect(lines).toContain('2026-W48 23 Nov     ?  ?')
    expect(lines).toContain('2026-W47    0    ?  300    0    0    0    0  300+         -')
    expect(lines).toContain('2026-W48    ?    0                              ?         -')
  })

  it('is a minimum, marked with +, on a day with a part without an effort', () => {
    const lines = shown(
      80,
      session('2026-11-17', { parts: [part(4), { ...part(null), kind: 'lift' as const }] }),
      session('2026-11-18', { parts: [part(6)] }),
    )
    expect(lines).toContain('2026-W47    0  200+  300    0    0    0    0  500+         -')
  })

  it('is shown for a session dated by a clock that is ahead', () => {
    const lines = shown(80, session('2026-11-25', { parts: [part(6)] }))
    expect(lines).toContain('2026-W48    0    0  300                      300         -')
  })

  it('has the load times its monotony only in full', () => {
    // Efforts of 50 minutes each: 300, 0, 300, 0, 100, 0, 0. Mean 100, sample SD square root of 20 000.
    const days = [session('2026-11-20', { parts: [part(2)] }), ...['18', '16'].map(hard)]
    const load = loadProgress(days, span, '2026-11-24')
    expect(loadLines(load, 80, '2026-11-24', false).slice(6, 9)).toEqual([
      'week      Mon  Tue  Wed  Thu  Fri  Sat  Sun  sum  monotony',
      '2026-W47  300    0  300    0  100    0    0  700      0.71',
      '2026-W48    0    0                             0         -',
    ])
    expect(loadLines(load, 80, '2026-11-24', true).slice(6, 9)).toEqual([
      'week      Mon  Tue  Wed  Thu  Fri  Sat  Sun  sum  monotony  load x monotony',
      '2026-W47  300    0  300    0  100    0    0  700      0.71              495',
      '2026-W48    0    0                             0         -                -',
    ])
  })

  it('has the days from 72 columns on', () => {
    const heads = [71, 72].map((columns) => shown(columns, hard('16'))[6])
    expect(heads).toEqual([
      'week  sum  monotony',
      'week      Mon  Tue  Wed  Thu  Fri  Sat  Sun  sum  monotony',
    ])
  })

  it('leaves the days out if there is no room for them', () => {
    const lines = shown(40, session('2026-11-18', { parts: [part(6)] }))
    expect(lines).toContain('W47   300         -')
  })
})
