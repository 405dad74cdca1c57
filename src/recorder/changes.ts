import { cutToMinutes, type Only } from '../prescription/cutToTime.ts'
import { expectedSecondsOf } from '../prescription/expectedTime.ts'
import { isSameItem, type SetStep, type Step } from '../prescription/step.ts'
import { elapsedSeconds, momentOf, whenOf } from '../session/clock.ts'
import { readMinutes } from '../session/entry/effort.ts'
import type { SessionEvent } from '../session/model.ts'
import { isPrompted, pendingSteps, type SessionState, stepOf, stepUnderWay } from '../session/state.ts'
import { minutesMeasured } from '../session/timers.ts'
import { undoOf } from '../session/undo.ts'
import { entryTitle, stepTitle } from './labels.ts'
import {
  asksForEffort,
  partTitle,
  type RecorderContext,
  type RecorderModel,
  skippedByKey,
  stay,
  stepNow,
  type Updated,
  withMode,
  withNotice,
} from './model.ts'
import { applyEvents, recording } from './record.ts'
import { painText } from './warnings.ts'

/** Skips the current step; pressed twice, the rest of the warm-up or of the item. Asks first while a result is still to
 * be entered: the field names that one, not the current step.
 * @param again whether the previous key was this one too */
export function skip(model: RecorderModel, again: boolean, context: RecorderContext): Updated {
  const when = whenOf(model.now)
  const step = skippedByKey(model)
  if (!step) return stay(model)
  const [pending] = pendingSteps(model.state)
  const last = model.events.at(-1)
  const skipped =
    again && last?.type === 'stepSkipped' && isJustNow(model, last) ? stepOf(model.state, last.step) : null
  if (skipped) {
    const warmUp = restOfWarmUp(model, skipped)
    if (warmUp.length > 0) {
      const notice = 'skipped: the rest of the warm-up'
      const events = warmUp.map((each): SessionEvent => ({ type: 'stepSkipped', ...when, step: each.id }))
      return applyEvents({ ...model, notice }, events, context)
    }
    const { part, item } = skipped
    if (isItemDone(model.state, skipped)) return withNotice(model, 'the item has nothing left to skip')
    const notice = 'skipped: the rest of the item'
    return applyEvents({ ...model, notice }, [{ type: 'itemSkipped', ...when, part, item }], context)
  }
  if (pending) return withMode(model, { kind: 'skipping', step: step.id, pending: pending.id })
  return skipStep(model, step.id, context)
}

/** Skips a step, and says so. */
export function skipStep(model: RecorderModel, id: string, context: RecorderContext): Updated {
  const step = stepOf(model.state, id)
  if (!step) return stay(model)
  const skipped = applyEvents(
    { ...recording(model), pressedOnce: 's' },
    [{ type: 'stepSkipped', ...whenOf(model.now), step: id }],
    context,
  )
  const rest = restOfWarmUp(model, step).length > 0 ? 'warm-up' : 'item'
  const again = isItemDone(skipped.model.state, step) ? '' : `; s again skips the rest of the ${rest}`
  const notice = `skipped: ${entryTitle(model.state, step).label}${again}`
  return { ...skipped, model: { ...skipped.model, notice } }
}

/** Whether nothing is left of the item of a step. */
function isItemDone({ steps, passed }: SessionState, step: Step): boolean {
  return steps.every((each) => !isSameItem(each, step) || passed.has(each.id))
}

/** Seconds within which a second press belongs to the first. */
const soon = 5

function isJustNow(model: RecorderModel, event: SessionEvent): boolean {
  const at = momentOf(event, model.state.boot)
  return at !== null && elapsedSeconds(at, model.now) <= soon
}

/** The warm-up sets of the same item that are still to come. */
function restOfWarmUp({ state: { steps, passed } }: RecorderModel, step: Step): Step[] {
  return steps.filter(
    (each) =>
      each.kind === 'warm-up' && isSameItem(each, step) && each.id !== step.id && !passed.has(each.id),
  )
}

/** Undoes a result at once and says so; asks first before undoing a clock step. */
export function undo(model: RecorderModel, context: RecorderContext): Updated {
  const back = undoOf(model.events)
  if (!back) return stay(model)
  const what = back.times.length > 1 ? resultsWere(model, back.times) : whatWas(model.state, back.last)
  if (back.isAdvance) return withMode(model, { kind: 'undoing', from: back.from, what })
  return takeBack(model, { from: back.from, what }, context)
}

/** "the 4 results from repeat 1 of 4: 1.6 km to repeat 4 of 4: 1.6 km" */
function resultsWere({ state }: RecorderModel, steps: readonly string[]): string {
  const [first, last] = [steps[0], steps.at(-1)].map((id) => {
    const step = stepOf(state, id ?? '')
    return step ? stepTitle(step) : 'a step'
  })
  return `the ${steps.length} results from ${first} to ${last}`
}

/** Undoes everything from that event on. */
export function takeBack(
  model: RecorderModel,
  back: { from: number; what: string },
  context: RecorderContext,
): Updated {
  const notice = `undone: ${back.what}`
  const event = { type: 'undone' as const, ...whenOf(model.now), from: back.from }
  return applyEvents({ ...recording(model), notice, echo: null }, [event], context)
}

/** Describes an event for the athlete: "the result of set 3 of 5", "the end of repeat 2 of 6". */
function whatWas(state: SessionState, event: SessionEvent): string {
  const of = (id: string) => {
    const step = stepOf(state, id)
    return step ? stepTitle(step) : 'a step'
  }
  switch (event.type) {
    case 'setRecorded':
    case 'pieceRecorded':
    case 'prepRecorded':
    case 'fuelRecorded':
      return `the result of ${of(event.step)}`
    case 'mealRecorded':
      return `what was eaten ${event.meal}`
    case 'effortBegun':
      return `the start of ${of(event.step)}`
    case 'effortEnded':
    case 'startForgotten':
      return `the end of ${of(event.step)}`
    case 'groupEnded':
      return `the end of group ${event.group + 1} of ${of(event.step)}`
    case 'groupBegun':
      return `the start of group ${event.group + 1} of ${of(event.step)}`
    case 'stepSkipped':
      return `skipping ${of(event.step)}`
    case 'itemSkipped':
      return 'skipping the rest of the item'
    case 'restChanged':
      return `${event.seconds > 0 ? 'lengthening' : 'shortening'} the rest by ${Math.abs(event.seconds)} s`
    case 'stepAdded':
      return 'the added set or repeat'
    case 'exerciseSwapped':
      return `the swap to ${event.name}`
    case 'itemMoved':
      return 'the new order'
    case 'dayCut':
      return 'the cut'
    case 'noteAdded':
      return 'the note'
    case 'conditionsNoted':
      return 'the conditions'
    case 'held':
      return 'stopping the clocks'
    case 'resumed':
      return 'going on'
    case 'paceSet':
      return 'the pace'
    case 'loadChosen':
      return `the load of ${of(event.step)}`
    default:
      return 'the last thing'
  }
}

/** What a note is about. */
export type NotePlace = 'result' | 'part' | 'day'

/** So long after a result a note is taken to be about it, in seconds. This program's own rule. */
const noteSeconds = 120

/** Whether it must be asked what the note in the field is about. */
export function isPlaceAsked(model: RecorderModel): boolean {
  const typed = unquoted(model.draft)
  if (typed === '' || /^(with:?\s|day:)/i.test(typed)) return false
  const latest = latestStep(model)
  if (latest === null) return true
  const { recorded, measured } = model.state
  const at = recorded.get(latest)?.at ?? measured.get(latest)?.ended ?? null
  return at === null || elapsedSeconds(at, model.now) >= noteSeconds
}

/** Where a note can go: the last result where there is one, its part, the day. */
export function notePlaces(model: RecorderModel): { place: NotePlace; key: string; text: string }[] {
  const { state } = model
  const latest = latestStep(model)
  const step = latest === null ? null : stepOf(state, latest)
  const part = partOfLast(model)
  return [
    ...(step ? [{ place: 'result' as const, key: 'r', text: entryTitle(state, step).label }] : []),
    ...(part === null ? [] : [{ place: 'part' as const, key: 'p', text: partTitle(state, part) }]),
    { place: 'day', key: 'd', text: 'the day' },
  ]
}

/** A note as it was typed: to the last result, or to where it was said to go; `with: flats, windy` to the part,
 * `day: slept 5 h` to the day. `pain left knee` is one that later advice respects. Empty for an empty field. */
export function noteEvents(model: RecorderModel, place: NotePlace = 'result'): SessionEvent[] {
  const typed = unquoted(model.draft)
  if (typed === '') return []
  const when = whenOf(model.now)
  const part = partOfLast(model)
  const conditions = /^with:?\s+(\S.*)/i.exec(typed)?.[1]
  if (conditions !== undefined && part !== null)
    return [{ type: 'conditionsNoted', ...when, part, text: unquoted(conditions) }]
  const ofDay = /^day:\s*(\S.*)/i.exec(typed)?.[1]
  const pain = /^pain:?\s+(\S.*)/i.exec(ofDay ?? typed)?.[1]
  const about = ofDay === undefined && place === 'result' ? latestStep(model) : null
  const words = unquoted((pain ?? ofDay ?? typed).replace(/^"([^"]*)"\s*((?:10|\d)(?:\/10)?)$/, '$1 $2'))
  const text = place === 'part' && part !== null ? `${partTitle(model.state, part)}: ${words}` : words
  return [{ type: 'noteAdded', ...when, about, text, pain: pain !== undefined }]
}

/** The echo of a note, as it would be typed; a pain with the step it went to, if that has no result yet. Null for no
 * note. */
export function notedText([event]: readonly SessionEvent[], state: SessionState): string | null {
  if (event?.type === 'conditionsNoted') return `noted: with ${event.text}`
  if (event?.type !== 'noteAdded') return null
  const step = event.about === null || state.recorded.has(event.about) ? null : stepOf(state, event.about)
  const [place = null] = step === null ? [] : stepTitle(step).split(/ of \d+/)
  const warned = painText(event.pain ? null : event.text, event.pain ? event.text : null, place)
  if (warned !== null) return warned
  return `noted: ${event.about === null ? 'day: ' : ''}${event.pain ? 'pain ' : ''}${event.text}`
}

function unquoted(text: string): string {
  return text.trim().replace(/^"(.*)"$/, '$1')
}

/** The part of the last result; before the first result the current part. */
function partOfLast(model: RecorderModel): number | null {
  const latest = latestStep(model)
  const step = latest === null ? stepNow(model.state) : stepOf(model.state, latest)
  return step?.part ?? null
}

/** The result a note is about: the last one that was recorded or is pending, never one that was skipped or cut. */
function latestStep({ state }: RecorderModel): string | null {
  const done = state.steps.filter(
    (step) => state.recorded.has(step.id) || (state.passed.has(step.id) && !state.skipped.has(step.id)),
  )
  return done.filter(isPrompted).at(-1)?.id ?? null
}

/** The minutes that Enter alone records for a part: those from an earlier closing, else the live ones, else
 * work and recoveries; null if nothing is known. */
export function minutesOffered(state: SessionState, part: number): number | null {
  const said = state.partStates[part]?.minutes ?? null
  if (said !== null) return said
  const minutes = minutesMeasured(state, part)
  return minutes === null ? null : Math.max(1, Math.round(minutes))
}

/** The minutes of a part that closes without a question: those of its clock; null for a meal. */
export function minutesUnasked(state: SessionState, part: number): number | null {
  return state.parts[part]?.kind === 'fuel' ? null : minutesOffered(state, part)
}

/** Closes a part and says so; closing the last one finishes the session. */
export function closePart(
  model: RecorderModel,
  part: number,
  effort: number | null,
  minutes: number | null,
  context: RecorderContext,
): Updated {
  const when = whenOf(model.now)
  const closed = (index: number) => index === part || model.state.partStates[index]?.closed === true
  // Prep and fuel have nothing to ask: close finished ones, together with the next part that is finished.
  const done = model.state.parts.flatMap((_, index) =>
    closed(index) || asksForEffort(model.state, index) || !isPartDone(model.state, index) ? [] : [index],
  )
  const events: SessionEvent[] = [
    ...done.map((each) => ({
      type: 'partClosed' as const,
      ...when,
      part: each,
      effort: null,
      minutes: minutesUnasked(model.state, each),
    })),
    { type: 'partClosed', ...when, part, effort, minutes },
  ]
  const isLast = model.state.partStates.every((_, index) => closed(index) || done.includes(index))
  if (isLast) events.push({ type: 'sessionFinished', ...when })
  return applyEvents({ ...model, notice: closedText(model.state, part, effort, minutes) }, events, context)
}

/** `lift: legs is closed: effort 7, 62 min` */
function closedText(
  state: SessionState,
  part: number,
  effort: number | null,
  minutes: number | null,
): string {
  const bits = [
    ...(effort === null ? [] : [`effort ${effort}`]),
    ...(minutes === null ? [] : [`${Math.round(minutes)} min`]),
  ]
  const isAsked = asksForEffort(state, part) && bits.length > 0
  return `${partTitle(state, part)} is closed${isAsked ? `: ${bits.join(', ')}` : ''}`
}

/** Whether nothing of a part is left to do. */
export function isPartDone(state: SessionState, part: number): boolean {
  return state.steps.every((step) => step.part !== part || state.passed.has(step.id))
}

/** The remaining minutes were typed, or `25 run` or `25 lift` to do only one of the two: shows what would be cut
 * before cutting it. */
export function offerCut(model: RecorderModel): Updated {
  const [, typed = model.draft, word = null] = /^(.*\S)\s+(run|lift)$/i.exec(model.draft.trim()) ?? []
  const only = word === null ? null : (word.toLowerCase() as Only)
  const reading = readMinutes(typed)
  if (reading.outcome === 'error') return withNotice(model, reading.message)
  const minutes = reading.value ?? 0
  if (minutes <= 0) return withNotice(model, 'type the minutes that are left; Escape cancels')
  const { state } = model
  const underWay = stepUnderWay(state)
  const ahead = state.steps.filter((step) => !state.passed.has(step.id) && step !== underWay)
  const minutesOf = (cut: readonly Step[]) =>
    Math.ceil(
      expectedSecondsOf(
        ahead.filter((step) => !cut.includes(step)),
        state.prescription,
      ) / 60,
    )
  const needed = minutesOf([])
  if (needed <= minutes && only === null) {
    const notice = `about ${needed} min left: nothing needs to be cut`
    return withNotice(recording(model), notice)
  }
  const cut = cutToMinutes(ahead, minutes, state.prescription, only)
  const left = minutesOf(cut)
  if (left > minutes && only === null) {
    const choices = (['run', 'lift'] as const)
      .filter((each) => ahead.some(({ part }) => kindOf(state, part) === each))
      .map((each) => ({ each, taken: minutesOf(cutToMinutes(ahead, minutes, state.prescription, each)) }))
    const fitting = choices.filter(({ taken }) => taken <= minutes)
    if (choices.length > 1 && fitting.length > 0)
      return withNotice(
        model,
        `${minutes} min is too short for both: type ${fitting.map(({ each, taken }) => `${minutes} ${each} (${taken} min)`).join(' or ')}`,
      )
  }
  if (left > minutes)
    return withNotice(
      model,
      `${minutes} min is too short for what is left: cut as far as it goes it takes about ${left} min`,
    )
  const lines = [...linesOf(cut), `then about ${left} min, of ${needed}`]
  const steps = cut.map((step) => step.id)
  return stay({ ...model, mode: { kind: 'cutOffered', minutes, steps, lines }, draft: '', notice: null })
}

function kindOf(state: SessionState, part: number): Only | null {
  const kind = state.parts[part]?.kind
  return kind === 'lift' ? 'lift' : kind === 'run' || kind === 'cross' ? 'run' : null
}

/** "plank: 2 sets fewer", one line for each exercise or interval. */
function linesOf(cut: ReturnType<typeof cutToMinutes>): string[] {
  const counts = new Map<string, { sets: number; what: string }>()
  for (const step of cut) {
    if (step.kind === 'recovery') continue
    const name = step.kind === 'set' ? step.name : stepTitle(step)
    const what = step.kind === 'set' ? 'set' : 'result'
    counts.set(name, { sets: (counts.get(name)?.sets ?? 0) + 1, what })
  }
  return [...counts].map(([name, { sets, what }]) => `${name}: ${sets} ${what}${sets === 1 ? '' : 's'} fewer`)
}

/** Seconds per repetition: the sum of its written tempo (X, as fast as possible, is 1 s), else the setting. */
export function secondsPerRepOf(step: SetStep, usual: number): number {
  if (!step.tempo) return usual
  const counts = [...step.tempo]
    .filter((each) => /[0-9X]/i.test(each))
    .map((each) => (/x/i.test(each) ? 1 : Number(each)))
  const sum = counts.reduce((total, each) => total + each, 0)
  return sum > 0 ? sum : usual
}
