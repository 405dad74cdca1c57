import { describe, expect, it } from 'vitest'
import type { Session, SessionEvent } from '../../src/session/model.ts'
import { replay } from '../../src/session/replay.ts'
import { dayFiguresOf } from '../../src/summary/day.ts'
import { jsonOf } from '../../src/summary/plain.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { summaryMarkdown, summaryText } from '../../src/summary/text.ts'
import fc, { times } from '../fastCheck.ts'
import { publishedSchema } from '../publishedSchema.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept } from './kept.ts'
import { exampleDay, wholeDay } from './wholeDay.ts'

const isSummary = publishedSchema('summary')
const isPlan = publishedSchema('check')

describe('the published schema of a summary', () => {
  it('accepts a whole day and refuses a missing or an extra key', () => {
    const summary = summarise(wholeDay().session, context)
    expect(isSummary(JSON.parse(jsonOf(summary))), JSON.stringify(isSummary.errors)).toBe(true)
    expect(isSummary({ ...summary, mood: 'good' })).toBe(false)
    const { notes, ...rest } = summary
    expect(notes.length).toBeGreaterThan(0)
    expect(isSummary(rest)).toBe(false)
  })
})

describe('the published schema of a check', () => {
  it('accepts the sample day, with its targets and without a name for a part', () => {
    const plan = dayFiguresOf(exampleDay, () => [])
    expect(isPlan(JSON.parse(JSON.stringify(plan))), JSON.stringify(isPlan.errors)).toBe(true)
    expect(isPlan({ ...plan, entries: 1.5 })).toBe(false)
  })
})

/* Whatever happens in a session: events in any order, for steps that exist and for some that do not. */

const steps = replay(new Kept(exampleDay).session).steps.map((step) => step.id)
const step = fc.constantFrom(...steps, 'added-1', 'added-2', 'nowhere')
const at = fc
  .option(fc.integer({ min: 0, max: 20_000 }))
  .map((seconds) => (seconds === null ? null : new Date(1_795_000_000_000 + seconds * 1000).toISOString()))
const when = fc.record({ at, up: fc.constant(null) })
const text = fc.option(fc.string({ unit: 'grapheme', maxLength: 12 }))
const rpe = fc.option(fc.integer({ min: 2, max: 20 }).map((half) => half / 2))
const load = fc.oneof(
  fc.constant(null),
  fc.record({
    kind: fc.constant('mass' as const),
    value: fc.double({ min: 0, max: 400, noNaN: true }),
    unit: fc.constantFrom('kg' as const, 'lb' as const),
    pair: fc.boolean(),
  }),
  fc.record({
    kind: fc.constant('bodyweight' as const),
    added: fc.double({ min: -80, max: 80, noNaN: true }),
    unit: fc.constantFrom('kg' as const, 'lb' as const),
  }),
)
const nothingDone = { reps: null, groups: null, seconds: null, meters: null }
const done = fc.oneof(
  fc.integer({ min: 0, max: 60 }).map((reps) => ({ ...nothingDone, reps })),
  fc
    .array(fc.integer({ min: 0, max: 8 }), { minLength: 1, maxLength: 6 })
    .map((groups) => ({ ...nothingDone, groups, reps: groups.reduce((sum, group) => sum + group, 0) })),
  fc.integer({ min: 0, max: 300 }).map((seconds) => ({ ...nothingDone, seconds })),
  fc.integer({ min: 0, max: 300 }).map((meters) => ({ ...nothingDone, meters })),
)
const setResult = fc
  .tuple(done, fc.record({ load, rpe, failed: fc.boolean(), note: text, pain: text }))
  .map(([what, more]) => ({ ...what, ...more }))
const above = (max: number) => fc.option(fc.double({ min: 0.01, max, noNaN: true }))
const intervalResult = fc.record({
  meters: above(50_000),
  seconds: above(20_000),
  precision: fc.constantFrom(null, 1, 0.1, 0.01),
  heartRate: fc.option(fc.integer({ min: 1, max: 250 })),
  heartRateMax: fc.option(fc.integer({ min: 1, max: 250 })),
  rpe,
  byKey: fc.boolean(),
  note: text,
  pain: text,
})
const grams = fc.option(fc.integer({ min: 0, max: 300 }))
const fuelResult = fc.record({
  carbsG: grams,
  proteinG: grams,
  fatG: grams,
  kcal: grams,
  note: text,
  pain: text,
})
const event: fc.Arbitrary<SessionEvent> = fc
  .tuple(
    when,
    fc.oneof(
      fc.record({ type: fc.constant('setRecorded' as const), step, result: setResult }),
      fc.record({ type: fc.constant('pieceRecorded' as const), step, result: intervalResult }),
      fc.record({ type: fc.constant('fuelRecorded' as const), step, result: fuelResult }),
      fc.record({
        type: fc.constant('mealRecorded' as const),
        meal: fc.constantFrom('before' as const, 'between' as const, 'after' as const),
        result: fuelResult,
      }),
      fc.record({ type: fc.constant('effortBegun' as const), step, auto: fc.boolean() }),
      fc.record({ type: fc.constant('effortEnded' as const), step, auto: fc.boolean() }),
      fc.record({ type: fc.constant('stepSkipped' as const), step }),
      fc.record({ type: fc.constant('stepAdded' as const), step, like: step }),
      fc.record({
        type: fc.constant('exerciseSwapped' as const),
        step,
        name: fc.constantFrom('back squat', 'Dips', 'row'),
      }),
      fc.record({
        type: fc.constant('dayCut' as const),
        minutes: fc.integer({ min: 1, max: 90 }),
        steps: fc.array(step, { maxLength: 5 }),
      }),
      fc.record({
        type: fc.constant('noteAdded' as const),
        about: fc.option(step),
        text: fc.string({ unit: 'grapheme', maxLength: 90 }),
        pain: fc.boolean(),
      }),
      fc.record({
        type: fc.constant('partClosed' as const),
        part: fc.integer({ min: 0, max: 4 }),
        effort: fc.option(fc.integer({ min: 0, max: 10 })),
        minutes: fc.option(fc.integer({ min: 0, max: 300 })),
      }),
      fc.record({ type: fc.constant('sessionFinished' as const) }),
    ),
  )
  .map(([time, what]) => ({ ...time, ...what }))

describe('a session of any events', () => {
  const session = fc
    .tuple(fc.array(event, { maxLength: 60 }), fc.boolean())
    .map(([events, fromPaper]): Session => {
      const { session: begun } = new Kept(exampleDay, { fromPaper, bodyMassKg: 70 })
      return { ...begun, events: [...begun.events, ...events] }
    })

  it('is summarised without an exception, as the schema says, and never with an invalid figure', () => {
    fc.assert(
      fc.property(session, (any) => {
        const summary = summarise(any, context)
        expect(isSummary(JSON.parse(jsonOf(summary))), JSON.stringify(isSummary.errors)).toBe(true)
        expect(summary.running.workMeters ?? 0).toBeLessThanOrEqual(summary.running.meters ?? 0)
        expect(JSON.parse(jsonOf(summary))).toEqual(summary)
      }),
      times(50),
    )
  })

  it('is written in lines of at most 72 characters without control characters', () => {
    fc.assert(
      fc.property(session, fc.boolean(), (any, full) => {
        const note = summaryText(any, context, { full })
        for (const line of note.split('\n')) expect([...line].length).toBeLessThanOrEqual(72)
        const steers = /[\p{Cc}\p{Zl}\p{Zp}\u202A-\u202E\u2066-\u2069]/u
        for (const text of [note, summaryMarkdown(any, context, { full })])
          expect(text.replaceAll('\n', '')).not.toMatch(steers)
      }),
      times(40),
    )
  })
})
