import { hasResult, type Step } from '../../prescription/step.ts'
import type { RecentPain } from '../../progress/pain.ts'
import { elapsedSeconds } from '../../session/clock.ts'
import { entryTextOf, isWarning } from '../../session/entry/lex.ts'
import { type Fact, remarkFacts } from '../../session/newEvents.ts'
import { hasSign, levelPattern, noteOf, unquoted } from '../../session/pain.ts'
import { lastPassed, pendingSteps, stepNow, stepUnderWay } from '../../session/state.ts'
import { applyFacts, recording } from '../apply.ts'
import { entryTitle, partTitle } from '../labels.ts'
import { type Mode, type ModeKey, type RecorderModel, stay, type Updated, withNotice } from '../model.ts'
import { painText } from '../record.ts'
import { ask, beginsEntry, clearKey, leaveKey, panelWith, saveOrCancel } from './keysAndPanels.ts'

export const noting: Mode = {
  kind: 'noting',
  prompt: () => ({ label: 'note', placeholder: 'pain left knee; with: flats, windy; day: slept 5 h' }),
  keys: ({ draft }) =>
    saveOrCancel((model) => (isPlaceAsked(model) ? askPlace(model) : noted(model, 'result')), draft !== ''),
  // `note: felt good` spelt out: its first letter was the key.
  onText: (model, value) => (/^ote[:\s]$/i.test(value) ? stay({ ...model, draft: '' }) : null),
}

/** A pain is about what is done now; any other note on a result about the last one. */
function noted(model: RecorderModel, place: NotePlace): Updated {
  const facts = noteFacts(model, place, noteOf(model.draft).pain ? stepToNote(model) : latestStep(model))
  return applyFacts({ ...recording(model), notice: notedText(facts) }, ...facts)
}

/** Asks what a note is about: the last result where there is one, its part, the day. */
function askPlace(model: RecorderModel): Updated {
  const { state, draft } = model
  const step = latestStep(model)
  const part = partOfLast(model)
  const places: [key: string, place: NotePlace, text: string][] = []
  if (step) places.push(['r', 'result', entryTitle(state, step).label])
  if (part !== null) places.push(['p', 'part', partTitle(state, part)])
  places.push(['d', 'day', 'the day'])
  const keys = places.map(([key, label]): ModeKey => {
    return { key, label, run: (now) => noted({ ...now, draft }, label) }
  })
  // Enter: the result, else the day.
  const byEnter = (step ? keys[0] : keys.at(-1)) as ModeKey
  const others = keys.filter((each) => each !== byEnter)
  const goBack = (now: RecorderModel) => stay({ ...now, mode: noting, draft, notice: null })
  return ask(
    { ...model, draft: '' },
    { title: `what is "${draft.trim()}" about?`, lines: places.map(([key, , text]) => `${key} ${text}`) },
    [{ ...byEnter, key: 'Enter', also: byEnter.key }, ...others, { key: 'Esc', label: 'back', run: goBack }],
    // Who types a result instead has not seen the question: the note goes where Enter would put it.
    (now, pressed) => {
      if (!beginsEntry.test(pressed)) return null
      const { model: saved, effects } = byEnter.run(now, pressed)
      return { model: { ...saved, draft: pressed }, effects }
    },
  )
}

type NotePlace = 'result' | 'part' | 'day'

/** For this many seconds after a result, a note is taken to be about it. This program's own rule. */
const noteSeconds = 120

const wordsAlone = new RegExp(String.raw`^\p{L}[\p{L}'’ ,;.!-]*(?:${levelPattern})?\s*$`, 'u')

/** Whether to ask what the note in the field is about. A pain and a sign that needs a doctor are kept at once. */
function isPlaceAsked(model: RecorderModel): boolean {
  const typed = unquoted(model.draft)
  if (typed === '' || /^(with:?\s|day:)/i.test(typed) || isWarning(typed) || noteOf(typed).pain) return false
  const latest = latestStep(model)
  if (latest === null) return true
  const { recorded, measured } = model.state
  const at = recorded.get(latest.id)?.at ?? measured.get(latest.id)?.ended ?? null
  return at === null || elapsedSeconds(at, model.now) >= noteSeconds
}

/** Records remarks alone, `pain left knee`, `"felt light" pain left knee 3`, or a sign that needs a doctor, `dizzy`,
 * `chest pain 5`, as notes about the step under way, else about the last result. Null for any other text.
 * @param about another step */
export function noteAlone(model: RecorderModel, about = stepToNote(model)): Updated | null {
  const { draft } = model
  const typed = entryTextOf(draft)
  const isRemark = (typed.note !== null || typed.pain !== null) && typed.body.trim() === ''
  const isSign = wordsAlone.test(draft) && hasSign(draft)
  if (!isRemark && !isSign && !/^\s*pain\b/i.test(draft)) return null
  const facts = isRemark ? remarkFacts(typed, about?.id ?? null) : noteFacts(model, 'result', about)
  return applyFacts({ ...model, draft: '', notice: notedText(facts) }, ...facts)
}

function stepToNote(model: RecorderModel): Step | null {
  const now = stepUnderWay(model.state)
  return now && hasResult(now) ? now : latestStep(model)
}

/** Records the remarks after an answer, `7 pain left knee`, or a warning sign, `7 dizzy`, and leaves the answer in the
 * field; null without any. */
export function noteBeside(model: RecorderModel): Updated | null {
  const [, body = '', note = ''] = /^\s*([\d.]+)\s+(\p{L}[\p{L}'’ ]*)$/u.exec(model.draft) ?? []
  const typed = hasSign(note) ? { body, note, pain: null } : entryTextOf(model.draft)
  // A set or a run may be just `easy`, so the word stays among the figures of an entry.
  const answer = typed.body.replace(/\beasy\b/g, ' ').trim() || typed.body.trim()
  if (answer === '' || answer === model.draft.trim()) return null
  const facts = remarkFacts(typed, latestStep(model)?.id ?? null)
  if (facts.length === 0) return null
  return applyFacts({ ...model, draft: answer, notice: notedText(facts) }, ...facts)
}

/** The events of a typed note: it goes to the last result, or to the chosen place; `with: flats, windy` to the part,
 * `day: slept 5 h` to the day. `pain left knee` is a pain, which later advice respects. Empty for an empty field.
 * @param result the step that a note on a result is about */
function noteFacts(model: RecorderModel, place: NotePlace, result = latestStep(model)): Fact[] {
  const typed = unquoted(model.draft)
  if (typed === '') return []
  const part = partOfLast(model)
  const conditions = /^with:?\s+(\S.*)/i.exec(typed)?.[1]
  if (conditions !== undefined && part !== null)
    return [{ type: 'conditionsNoted', part, text: unquoted(conditions) }]
  const ofDay = /^day:\s*(\S.*)/i.exec(typed)?.[1]
  const note = noteOf(ofDay ?? typed)
  const about = ofDay === undefined && place === 'result' ? (result?.id ?? null) : null
  const text = place === 'part' && part !== null ? `${partTitle(model.state, part)}: ${note.text}` : note.text
  return [{ type: 'noteAdded', about, text, pain: note.pain }]
}

/** The echo of the last of these notes, as it would be typed; null for no note. */
function notedText(facts: readonly Fact[]): string | null {
  const fact = facts.at(-1)
  if (fact?.type === 'conditionsNoted') return `noted: with ${fact.text}`
  if (fact?.type !== 'noteAdded') return null
  const textOf = (pain: boolean) =>
    facts.flatMap((each) => (each.type === 'noteAdded' && each.pain === pain ? [each.text] : []))[0] ?? null
  const noted = `noted${fact.about === null ? ' for the day' : ''}: ${fact.pain ? 'pain ' : ''}${fact.text}`
  return painText(textOf(false), textOf(true)) ?? noted
}

/** The part of the last result; before the first result the current part. */
function partOfLast(model: RecorderModel): number | null {
  return (latestStep(model) ?? stepNow(model.state))?.part ?? null
}

/** The step a note is about: the last one that was recorded or is pending, never one that was skipped, cut or not done
 * when its part was closed. */
function latestStep({ state }: RecorderModel): Step | null {
  const pending = pendingSteps(state)
  return lastPassed(state, ({ id }) => state.recorded.has(id) || pending.some((each) => each.id === id))
}

/** At the start of a day: asks for today's number of the places that hurt lately, one after the other. */
export function painToday(pains: readonly RecentPain[]): Mode {
  return {
    kind: 'painToday',
    panel: () => {
      const lines = pains.map(({ place, text }) => `${place}: ${text}`)
      return panelWith({ title: 'pain lately, from 0 to 10', lines })
    },
    prompt: () => {
      const short = pains[0]?.place ?? 'pain'
      return { label: `${short} today`, short, placeholder: '0 to 10, Enter skips' }
    },
    keys: ({ draft }) => [
      { key: 'Enter', label: draft === '' ? 'skip' : 'save', run: (model) => levelTyped(model, pains) },
      draft === '' ? leaveKey('skip all') : clearKey,
    ],
  }
}

const levelAlone = new RegExp(`^${levelPattern}$`)

function levelTyped(model: RecorderModel, [pain, ...others]: readonly RecentPain[]): Updated {
  const typed = model.draft.trim()
  if (typed !== '' && !levelAlone.test(typed))
    return (
      noteAlone(model) ?? withNotice(model, `type a number from 0 to 10, not "${typed}"; Enter alone skips`)
    )
  const next: RecorderModel = {
    ...recording(model),
    mode: others.length > 0 ? painToday(others) : { kind: 'recording' },
  }
  if (typed === '' || !pain) return stay(next)
  const text = `${pain.place} ${typed}`
  const notice = painText(null, text)
  return applyFacts({ ...next, notice }, { type: 'noteAdded', about: null, text, pain: true })
}
