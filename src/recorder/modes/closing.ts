import { hasResult, type Step } from '../../prescription/step.ts'
import { effortWording, readMinutes, readSessionRpe, tooManyMinutes } from '../../session/entry/closing.ts'
import { stepTitle } from '../../session/names.ts'
import type { Fact } from '../../session/newEvents.ts'
import { type PartState, pendingSteps, type SessionState, stepUnderWay } from '../../session/state.ts'
import { minutesMeasured } from '../../session/timers.ts'
import { joined } from '../../units/lists.ts'
import { applyFacts, recording } from '../apply.ts'
import { closingText, partInWords, partTitle } from '../labels.ts'
import {
  type EntryLabel,
  type Mode,
  type RecorderModel,
  type Updated,
  withMode,
  withNotice,
} from '../model.ts'
import { asksForEffort, isPartDone } from '../targets.ts'
import { panelWith, type Question, saveOrCancel } from './keysAndPanels.ts'
import { noteAlone, noteBeside } from './notes.ts'

/** Closes a part at once if there is nothing to ask, else asks for its effort and its minutes. */
export function closeOrAsk(model: RecorderModel, part: number): Updated {
  const { state } = model
  const asks = asksForEffort(state, part)
  if (!asks && isPartDone(state, part)) return closePart(model, part, figuresUnasked(state, part))
  const now = stepUnderWay(state)
  const notice =
    now && now.part > part
      ? `${partTitle(state, now.part)} goes on; this closes ${partTitle(state, part)}`
      : null
  return withMode({ ...model, notice }, asks ? effortOf(state, part) : closingOf(state, part))
}

/** A question about a part before it closes.
 * @param answered takes what is in the field */
function question(
  part: number,
  { title, lines }: Question,
  prompt: (model: RecorderModel) => EntryLabel,
  answered: (model: RecorderModel) => Updated,
): Mode {
  return {
    kind: 'closing',
    panel: (model) => panelWith({ title, lines: [...notRecorded(model, part), ...lines], hang: 4 }),
    prompt,
    keys: ({ draft }) => saveOrCancel((model) => noteAlone(model) ?? answered(model), draft !== ''),
  }
}

/** Asks how hard it was; offers the effort of an earlier closing. */
function effortOf(state: SessionState, part: number): Mode {
  const offered = state.partStates[part]?.effort ?? null
  const title = `how hard was ${partInWords(state, part)}, as a whole?`
  const lines = effortWording.map(({ value, words }) => `${String(value).padStart(2)}  ${words}`)
  const label = `effort of ${partTitle(state, part)}`
  const placeholder = `Enter: ${offered ?? 'none'}, or 0 to 10`
  const answered = (model: RecorderModel): Updated => {
    const reading = readSessionRpe(model.draft)
    if (reading.outcome === 'error') return withoutRemarks(model, reading.message, answered)
    const effort = isEmpty(model) ? offered : reading.value
    return withMode({ ...model, draft: '', notice: null }, minutesOf(model.state, part, effort))
  }
  return question(part, { title, lines }, () => ({ label, short: 'effort', placeholder }), answered)
}

function minutesOf(state: SessionState, part: number, effort: number | null): Mode {
  const title = `how many minutes did ${partInWords(state, part)} take?`
  const prompt = (model: RecorderModel) => ({
    label: 'minutes',
    placeholder: `Enter: ${minutesOffered(model.state, part) ?? 'not known'}`,
  })
  const answered = (model: RecorderModel): Updated => {
    const reading = readMinutes(model.draft)
    if (reading.outcome === 'error') return withoutRemarks(model, reading.message, answered)
    const many = tooManyMinutes(reading.value ?? 0)
    const query = `${many}: Enter again accepts them, or type them again`
    if (many !== null && model.notice !== query) return withNotice(model, query)
    const minutes = isEmpty(model) ? minutesOffered(model.state, part) : reading.value
    return closePart(recording(model), part, { effort, minutes })
  }
  return question(part, { title, lines: [] }, prompt, answered)
}

/** Prep and fuel have neither an effort nor minutes to ask for. */
function closingOf(state: SessionState, part: number): Mode {
  const panel = { title: `close ${partInWords(state, part)}`, lines: [] }
  const label = `close ${partTitle(state, part)}`
  return question(
    part,
    panel,
    () => ({ label, placeholder: 'Enter closes it' }),
    (model) =>
      isEmpty(model)
        ? closePart(recording(model), part, figuresUnasked(model.state, part))
        : withNotice(model, 'Enter in the empty field closes it; Esc clears, then goes back'),
  )
}

function isEmpty({ draft }: RecorderModel): boolean {
  return draft.trim() === ''
}

/** Notes what was typed beside an answer, and takes the answer without it; refuses it if there is nothing beside. */
function withoutRemarks(
  model: RecorderModel,
  message: string,
  answered: (model: RecorderModel) => Updated,
): Updated {
  const noted = noteBeside(model)
  if (!noted) return withNotice(model, message)
  const next = answered(noted.model)
  // What the answer itself brings up is shown at the next Enter.
  const { notice } = noted.model
  return { model: { ...next.model, notice }, effects: [...noted.effects, ...next.effects] }
}

/** A line about what a part has no result for: of prep and fuel anything, of other parts what is pending or under way.
 * None if every result is recorded. */
function notRecorded({ state }: RecorderModel, part: number): string[] {
  const pending = [...pendingSteps(state), stepUnderWay(state)]
  const isLeft = (step: Step) =>
    asksForEffort(state, part)
      ? pending.includes(step) && hasResult(step)
      : !state.recorded.has(step.id) && !state.skipped.has(step.id)
  const left = state.steps.filter((step) => step.part === part && isLeft(step))
  if (left.length === 0) return []
  return [`not recorded, so not done: ${left.map((step) => stepTitle(state, step)).join(', ')}`]
}

/** The minutes that Enter alone records for a part: those from an earlier closing, else the measured ones, rounded;
 * null if nothing is known. */
function minutesOffered(state: SessionState, part: number): number | null {
  const typed = state.partStates[part]?.minutes ?? null
  if (typed !== null) return typed
  const minutes = minutesMeasured(state, part)
  return minutes === null ? null : Math.max(1, Math.round(minutes))
}

type Figures = Pick<PartState, 'effort' | 'minutes'>

/** The figures of a part that closes without a question: the minutes of its clock, but none for a meal. */
function figuresUnasked(state: SessionState, part: number): Figures {
  return { effort: null, minutes: state.parts[part]?.kind === 'fuel' ? null : minutesOffered(state, part) }
}

/** Closes a part and says so; closing the last one finishes the session. */
function closePart(model: RecorderModel, part: number, figures: Figures): Updated {
  const { state } = model
  const others = state.partStates.flatMap((each, index) => (each.closed || index === part ? [] : [index]))
  // Prep and fuel have nothing to ask: close finished ones, together with the next part that is finished.
  const done = others.filter((each) => !asksForEffort(state, each) && isPartDone(state, each))
  const facts: Fact[] = [
    ...done.map((each): Fact => ({ type: 'partClosed', part: each, ...figuresUnasked(state, each) })),
    { type: 'partClosed', part, ...figures },
  ]
  if (done.length === others.length) facts.push({ type: 'sessionFinished' })
  // `lift: legs is closed: effort 7, 62 min`
  const text = asksForEffort(state, part) && closingText(figures)
  const notice = joined(': ', [`${partTitle(state, part)} is closed`, text])
  return applyFacts({ ...model, notice }, ...facts)
}
