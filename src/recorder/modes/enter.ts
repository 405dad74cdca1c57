import {
  type IntervalStep,
  isSameItem,
  type ResultStep,
  type SetStep,
  type Step,
} from '../../prescription/step.ts'
import { elapsedSeconds } from '../../session/clock.ts'
import { isEffortAlone } from '../../session/entry/effort.ts'
import { describeEmpty, printEntry, readEntry, sameAsBefore } from '../../session/entry/entry.ts'
import { entryTextOf } from '../../session/entry/lex.ts'
import { figuresIn } from '../../session/entry/set.ts'
import { stepTitle } from '../../session/names.ts'
import { fewestSeconds } from '../../session/newEvents.ts'
import {
  type Answer,
  keyTolerance,
  type Prompt,
  promptedStep,
  promptOf,
  stepsToPrompt,
} from '../../session/prompt.ts'
import { pendingSteps, type SessionState, stepNow, stepUnderWay } from '../../session/state.ts'
import { clockSeconds } from '../../session/timers.ts'
import { counted, inWords } from '../../units/decimal.ts'
import { formatClock } from '../../units/duration.ts'
import { applyFacts } from '../apply.ts'
import { type ModeKey, type RecorderModel, type Updated, withMode, withNotice } from '../model.ts'
import { withHoldEnded } from '../readField.ts'
import { changeText, record } from '../record.ts'
import { isOffered, recordedSteps } from '../targets.ts'
import { noteAlone } from './notes.ts'
import { askAbout, correcting, readTyped } from './questions.ts'

/** Why Enter has nothing to record now; null if it has, or if something is typed. */
export function whyNothingToEnter({ state, draft }: RecorderModel): string | null {
  if (draft.trim() !== '') return null
  const step = promptedStep(state)
  if (step === null) return 'there is no result to enter now'
  if (!isOffered(state, step)) return nothingToEnter(state, step)
  // A load or a time must be typed.
  const reading = readEntry('', promptOf(state, step))
  return reading.outcome === 'error' ? reading.message : null
}

/** Enter while recording: records what is typed or offered, or asks about it. */
export function enter(model: RecorderModel): Updated {
  const { state, draft } = model
  const step = promptedStep(state)
  const ofLast = effortOfLast(model, step)
  if (ofLast) return ofLast
  const everyResult = 'not recorded: no result is missing; put a note in quotes, or type pain left knee'
  if (!step) return noteAlone(model) ?? withNotice(model, everyResult)
  if (draft.trim() === '' && isPressedTwice(model, step))
    return withNotice(model, nothingToEnter(state, step))
  const remarks = remarksOnly(model, step)
  if (remarks) return remarks
  // A result has at least one character: a day of thousands of repeats would take seconds otherwise.
  const others = stepsToPrompt(state)
    .slice(0, draft.length + 1)
    .filter((each) => each.id !== step.id)
  const steps = [step, ...others]
  return readTyped(model, steps, (now, answers, text) => {
    const [answer] = answers
    const isOne = text !== null && answer && answers.length === 1
    const instead = isOne ? insteadOfResult({ ...now, draft: text }, step, answer) : null
    return instead ?? record(now, steps, answers)
  })
}

/** For this many seconds after a result, another Enter counts as a slip. This program's own rule. */
const twiceSeconds = 2

/** Whether a result was recorded just now and the set after it has not begun. */
function isPressedTwice({ state, echo, now }: RecorderModel, step: Step): boolean {
  if (pendingSteps(state).length > 0 || stepUnderWay(state)?.id === step.id || step.kind !== 'set')
    return false
  return echo !== null && elapsedSeconds(echo.at, now) < twiceSeconds
}

function nothingToEnter(state: SessionState, step: Step): string {
  const title = stepTitle(state, step)
  const underWay = stepUnderWay(state)
  if (underWay?.id === step.id) return `${title} is under way: Space ends it, or type its time`
  const now = stepNow(state)
  const other = underWay ?? (now?.kind === 'warm-up' ? now : null)
  if (other === null) return `nothing to enter yet: Space begins ${title}, or type its result`
  const moves = `${underWay ? 'ends' : 'begins'} the ${stepTitle(state, other)}`
  return `nothing to enter yet: Space ${moves}, or type the result of ${title}`
}

/* While no result is pending, what is typed need not belong to a step that has only just begun, or not even that. */

/** `pain left knee`, `"felt light"` before a set or a repeat, or during any effort: a note, which ends no effort. */
function remarksOnly(model: RecorderModel, step: ResultStep): Updated | null {
  if (pendingSteps(model.state).length > 0) return null
  const isUnderWay = stepUnderWay(model.state)?.id === step.id
  return isUnderWay || step.kind === 'set' || step.kind === 'interval' ? noteAlone(model) : null
}

/** `hr 170` where the next result cannot have one yet: of the run or repeat before it? */
function effortOfLast(model: RecorderModel, step: ResultStep | null): Updated | null {
  const { state, draft } = model
  const last = recordedSteps(state).at(-1)
  if (last?.kind !== 'interval' || pendingSteps(state).length > 0 || !isEffortAlone(draft)) return null
  const isItsOwn = step?.kind === 'interval' ? isUntargeted(state, step) : !/hr|bpm/i.test(draft)
  if (isItsOwn) return null
  const before = state.recorded.get(last.id)
  const save = (now: RecorderModel) =>
    readTyped({ ...now, mode: model.mode }, [last], (after, all) => record(after, [last], all), before)
  const title = `${draft.trim()} for ${stepTitle(state, last)}? Enter yes, Esc no`
  return askAbout(model, { title, lines: [] }, [{ key: 'Enter', label: 'yes', run: save }], 'no')
}

/** Whether an interval is under way that may be done without a time. */
function isUntargeted(state: SessionState, step: IntervalStep): boolean {
  const prompt = promptOf(state, step)
  return stepUnderWay(state)?.id === step.id && prompt.kind === 'interval' && !prompt.hasTarget
}

interface Situation {
  model: RecorderModel
  step: ResultStep
  prompt: Prompt
  /** The field without the spaces around its text. */
  typed: string
  /** The result that would be recorded. */
  answer: Answer
  isUnderWay: boolean
  /** Which figures of a set are typed; null for anything else. */
  figures: { hasCount: boolean; hasLoad: boolean } | null
}

/** Asks before an answer is recorded, or records a note or a chosen load instead; null if it is simply a result. */
function insteadOfResult(model: RecorderModel, step: ResultStep, answer: Answer): Updated | null {
  const { state } = model
  if (pendingSteps(state).length > 0) return null
  const prompt = promptOf(withHoldEnded(model), step)
  const typed = sameAsBefore(model.draft, state, step).trim()
  const isUnderWay = stepUnderWay(state)?.id === step.id
  const figures = prompt.kind === 'set' ? figuresIn(entryTextOf(typed), prompt) : null
  const situation: Situation = { model, step, prompt, typed, answer, isUnderWay, figures }
  return (
    remarksOnly(model, step) ??
    setTooEarly(situation) ??
    intervalTooEarly(situation) ??
    loadOfComingSet(situation) ??
    resultBeforeSet(situation)
  )
}

/** Asks before it records an answer. What was typed may belong to the result before on the same line: then `e` corrects
 * that one instead.
 * @param text the answer in words */
function askFirst({ model, step, typed, answer }: Situation, question: string, text: string): Updated {
  const { state } = model
  const last = recordedSteps(state).at(-1)
  const before = typed !== '' && last && isSameItem(last, step) ? last : null
  const keys: ModeKey[] = [{ key: 'Enter', label: 'yes', run: (now) => record(now, [step], [answer]) }]
  if (before) {
    const mode = correcting(before, state.recorded.get(before.id))
    const correct = (now: RecorderModel) => withMode({ ...now, notice: null }, mode)
    keys.push({ key: 'e', label: 'correct', run: correct })
  }
  const named = `Enter yes, Esc no${before ? `, e corrects ${stepTitle(state, before)}` : ''}`
  return askAbout(
    model,
    { title: `${question}? ${named}`, lines: [`meant: ${text}`], isOfNow: true },
    keys,
    'no',
  )
}

/** Enter alone, `@8` or `x 100` when the set that is under way cannot be over yet. */
function setTooEarly(situation: Situation): Updated | null {
  const { model, step, typed, answer, isUnderWay, figures } = situation
  if (!isUnderWay || step.kind !== 'set' || answer.kind !== 'set' || !figures || figures.hasCount) return null
  const all = notDoneYet(model, step)
  const what = typed === '' ? all : `${all} with ${typed}`
  return all === null ? null : askFirst(situation, `Record ${what}`, textOf(situation))
}

/** The answer in words. */
function textOf({ typed, answer, prompt }: Situation): string {
  return typed === '' ? (describeEmpty(prompt) ?? '') : printEntry(answer, prompt)
}

/** A result for the repeat or run under way with a longer time than its clock shows, as for the repeat before, or
 * without a time, as `hr 150` soon after the start. Before it begins, only `hr 150`; in the recovery before it a time,
 * too. */
function intervalTooEarly(situation: Situation): Updated | null {
  const { model, step, typed, answer, isUnderWay, prompt } = situation
  if (step.kind !== 'interval' || answer.kind !== 'interval') return null
  const clock = clockSeconds(model.state, model.now)
  const { seconds } = answer.result
  const isEffort = isEffortAlone(typed)
  const isPossible = isUnderWay
    ? seconds !== null && seconds <= clock + keyTolerance
    : !isEffort && model.state.phase.kind !== 'recovery'
  if (isPossible) return null
  const title =
    step.of === 1 ? stepTitle(model.state, step) : `${step.split ? 'Split' : 'Repeat'} ${step.number}`
  const text = printEntry(answer, prompt).replace(/^= ?/, '') || 'done'
  const what = isUnderWay || isEffort ? text : 'this time'
  const where = isUnderWay ? `is at ${formatClock(clock)}` : 'has not started'
  return askFirst(situation, `${title} ${where}. Save ${what} for it`, text)
}

/** `x 102.5` before a set begins: the load that the coming set will have, unless more is said of the set, which must then
 * be over. */
function loadOfComingSet({
  model,
  step,
  prompt,
  typed,
  answer,
  isUnderWay,
  figures,
}: Situation): Updated | null {
  if (isUnderWay || prompt.kind !== 'set' || answer.kind !== 'set') return null
  const { load, rpe, failed, note, pain } = answer.result
  const isMore = figures?.hasCount || rpe !== null || failed || note !== null || pain !== null
  if (load === null || !figures?.hasLoad || isMore) return null
  const next = `next: ${describeEmpty({ ...prompt, shown: load, loadUnknown: false })}`
  const change = changeText(typed, prompt, load)
  const notice = change === null ? next : `${next}; ${change}`
  return applyFacts({ ...model, draft: '', notice }, { type: 'loadChosen', step: step.id, load })
}

/** Enter alone, `@8` or `x 80 pain left knee` before a set begins, or any result while a warm-up set is next or under
 * way: is it about that set? */
function resultBeforeSet(situation: Situation): Updated | null {
  const { model, step, typed, answer, isUnderWay, figures } = situation
  if (isUnderWay || step.kind !== 'set') return null
  const saysHow = answer.kind === 'set' && (figures?.hasLoad || answer.result.rpe !== null)
  const isDoubtful = typed === '' || (saysHow && !figures?.hasCount)
  if (!isDoubtful && stepNow(model.state)?.kind !== 'warm-up') return null
  const text = textOf(situation)
  return askFirst(situation, `Set ${step.number} has not begun. Record ${text}`, text)
}

/** What Enter would record for a set that cannot be over yet, in words; null for one that can. */
function notDoneYet({ state, now }: RecorderModel, step: SetStep): string | null {
  const { dose } = step
  const { phase } = state
  if (!('group' in phase)) return null
  if (dose.kind === 'cluster') {
    const count = dose.groups.length
    const isLast = phase.kind === 'effort' && phase.group >= count - 1
    return isLast ? null : count === 2 ? 'both groups' : `all ${inWords(count)} groups`
  }
  if (phase.kind !== 'effort' || clockSeconds(state, now) >= fewestSeconds(step)) return null
  return dose.kind === 'reps' ? `all ${counted(dose.from, 'repetition')}` : 'it already'
}
