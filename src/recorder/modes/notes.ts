import type { Step } from '../../prescription/step.ts'
import { remarkEvents } from '../../session/advance.ts'
import { elapsedSeconds, whenOf } from '../../session/clock.ts'
import { entryTextOf } from '../../session/entry/lex.ts'
import type { SessionEvent } from '../../session/model.ts'
import { isPrompted, type SessionState, stepOf } from '../../session/state.ts'
import { applyEvents, recording } from '../apply.ts'
import { entryTitle, stepTitle } from '../labels.ts'
import { partTitle, type RecorderContext, type RecorderModel, stay, stepNow, type Updated } from '../model.ts'
import { painText } from '../warnings.ts'
import { type ModeObject, panelWith, refused, saveOrCancel } from './mode.ts'

export const noting: ModeObject<'noting'> = {
  prompt: () => ({
    label: 'note',
    placeholder: 'pain left knee; with: flats, windy; day: slept 5 h',
    isField: true,
  }),
  hints: saveOrCancel,
  onEnter: (model, _, context) =>
    isPlaceAsked(model)
      ? stay({ ...model, mode: { kind: 'placingNote', text: model.draft }, draft: '', notice: null })
      : noted(model, 'result', context),
}

function noted(model: RecorderModel, place: NotePlace, context: RecorderContext): Updated {
  const events = noteEvents(model, place)
  return applyEvents({ ...recording(model), notice: notedText(events, model.state) }, events, context)
}

function placeByEnter(model: RecorderModel): NotePlace {
  return notePlaces(model).some(({ place }) => place === 'result') ? 'result' : 'day'
}

export const placingNote: ModeObject<'placingNote'> = {
  panel: (model, mode) =>
    panelWith({
      title: `what is "${mode.text.trim()}" about?`,
      lines: notePlaces(model).map(({ key, text }) => `${key} ${text}`),
    }),
  hints: (model) => [
    { key: 'Enter', label: placeByEnter(model) },
    ...notePlaces(model)
      .filter(({ place }) => place !== placeByEnter(model))
      .map(({ key, place }) => ({ key, label: place })),
    { key: 'Esc', label: 'back' },
  ],
  onKey: (model, mode, pressed, context) => {
    const places = notePlaces(model)
    const picked = places.find(({ key }) => key === pressed)
    if (picked) return noted({ ...model, draft: mode.text }, picked.place, context)
    return refused(
      model,
      [...places.map(({ key, place }) => `${key}: ${place}`), 'Esc: back to the field'].join(', '),
    )
  },
  onEnter: (model, mode, context) => noted({ ...model, draft: mode.text }, placeByEnter(model), context),
  onEscape: (model, mode) => stay({ ...model, mode: { kind: 'noting' }, draft: mode.text, notice: null }),
}

/** What a note is about. */
type NotePlace = 'result' | 'part' | 'day'

/** So long after a result a note is taken to be about it, in seconds. This program's own rule. */
const noteSeconds = 120

/** Whether it must be asked what the note in the field is about. */
function isPlaceAsked(model: RecorderModel): boolean {
  const typed = unquoted(model.draft)
  if (typed === '' || /^(with:?\s|day:)/i.test(typed)) return false
  const latest = latestStep(model)
  if (latest === null) return true
  const { recorded, measured } = model.state
  const at = recorded.get(latest)?.at ?? measured.get(latest)?.ended ?? null
  return at === null || elapsedSeconds(at, model.now) >= noteSeconds
}

/** Where a note can go: the last result where there is one, its part, the day. */
function notePlaces(model: RecorderModel): { place: NotePlace; key: string; text: string }[] {
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

/** An entry of remarks alone, `pain left knee`, `"felt light" pain left knee 3`, as notes about the step under way, else
 * about the last result. Null for any other entry. */
export function remarksAlone(model: RecorderModel, underWay: Step | null): SessionEvent[] | null {
  const about = underWay?.id ?? latestStep(model)
  const typed = entryTextOf(model.draft)
  const isBare = !('error' in typed) && typed.body === ''
  if (isBare && typed.note !== null && typed.pain !== null)
    return remarkEvents(typed, about, whenOf(model.now))
  const isAlone = isBare ? typed.note !== null || typed.pain !== null : /^\s*pain\b/i.test(model.draft)
  return isAlone ? noteEvents(model, 'result', about) : null
}

/** A note as it was typed: to the last result, or to where it was said to go; `with: flats, windy` to the part,
 * `day: slept 5 h` to the day. `pain left knee` is one that later advice respects. Empty for an empty field.
 * @param result the step that a note on a result is about */
function noteEvents(
  model: RecorderModel,
  place: NotePlace,
  result: string | null = latestStep(model),
): SessionEvent[] {
  const typed = unquoted(model.draft)
  if (typed === '') return []
  const when = whenOf(model.now)
  const part = partOfLast(model)
  const conditions = /^with:?\s+(\S.*)/i.exec(typed)?.[1]
  if (conditions !== undefined && part !== null)
    return [{ type: 'conditionsNoted', ...when, part, text: unquoted(conditions) }]
  const ofDay = /^day:\s*(\S.*)/i.exec(typed)?.[1]
  const pain = /^pain:?\s+(\S.*)/i.exec(ofDay ?? typed)?.[1]
  const about = ofDay === undefined && place === 'result' ? result : null
  const words = unquoted((pain ?? ofDay ?? typed).replace(/^"([^"]*)"\s*((?:10|\d)(?:\/10)?)$/, '$1 $2'))
  const text = place === 'part' && part !== null ? `${partTitle(model.state, part)}: ${words}` : words
  return [{ type: 'noteAdded', ...when, about, text, pain: pain !== undefined }]
}

/** The echo of the last of these notes, as it would be typed; a pain with the step it went to, if that has no result
 * yet. Null for no note. */
export function notedText(events: readonly SessionEvent[], state: SessionState): string | null {
  const event = events.at(-1)
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
  const isDone = ({ id }: Step) => state.recorded.has(id) || (state.passed.has(id) && !state.skipped.has(id))
  return state.steps.findLast((step) => isPrompted(step) && isDone(step))?.id ?? null
}
