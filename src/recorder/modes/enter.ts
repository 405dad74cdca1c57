import { isSameItem, type SetStep, type Step } from '../../prescription/step.ts'
import { elapsedSeconds } from '../../session/clock.ts'
import { isEffortAlone } from '../../session/entry/effort.ts'
import { describeEmpty, printEntry, readEntries } from '../../session/entry/entry.ts'
import { entryTextOf } from '../../session/entry/lex.ts'
import { figuresIn } from '../../session/entry/set.ts'
import type { LiftedLoad, SetResult } from '../../session/model.ts'
import { stepTitle } from '../../session/names.ts'
import {
  type Answer,
  keyTolerance,
  type Prompt,
  promptedStep,
  promptOf,
  stepsToPrompt,
} from '../../session/prompt.ts'
import { pendingSteps, type SessionState, stepOf, stepUnderWay } from '../../session/state.ts'
import { clockSeconds } from '../../session/timers.ts'
import { counted, inWords } from '../../units/decimal.ts'
import { formatClock } from '../../units/duration.ts'
import { applyFacts } from '../apply.ts'
import {
  isOffered,
  type RecorderModel,
  stay,
  stepNow,
  type Updated,
  whyNotOffered,
  withNotice,
} from '../model.ts'
import { changeText, readTyped, sameAsBefore } from '../record.ts'
import { noteAlone } from './notes.ts'

/** Why Enter has nothing to record now; null if it has, or if something is typed. */
export function whyNothingToEnter({ state, draft }: RecorderModel): string | null {
  if (draft.trim() !== '') return null
  const step = promptedStep(state)
  if (!step) return 'there is no result to enter now'
  return isOffered(state, step) ? whyNotOffered(state, step) : nothingToEnter(state, step)
}

/** Enter while recording: records what is typed or offered, or asks about it. */
export function enter(model: RecorderModel): Updated {
  const { state, draft } = model
  const step = promptedStep(state)
  const everyResult = 'not recorded: every result is entered; a note goes in quotes, pain as pain left knee'
  if (!step) return noteAlone(model, null) ?? withNotice(model, everyResult)
  const isEmpty = draft.trim() === ''
  if (isEmpty && isPressedTwice(model, step)) return withNotice(model, nothingToEnter(state, step))
  const instead = insteadOfResult(model, step)
  if (instead) return instead
  // A result has at least one character: a day of thousands of repeats would take seconds otherwise.
  const others = stepsToPrompt(state)
    .slice(0, draft.length + 1)
    .filter((each) => each.id !== step.id)
  return readTyped(model, [step, ...others])
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
  if (underWay)
    return `nothing to enter yet: Space ends the ${stepTitle(state, underWay)}, or type the result of ${title}`
  const now = stepNow(state)
  if (now?.kind === 'warm-up')
    return `nothing to enter yet: Space begins the ${stepTitle(state, now)}, or type the result of ${title}`
  return `nothing to enter yet: Space begins ${title}, or type its result`
}

/* While no result is pending, what is typed need not belong to a step that has only just begun, or not even that. */

interface Situation {
  model: RecorderModel
  /** The step that the field is about. */
  step: Step
  prompt: Prompt
  /** The field without the spaces around its text. */
  typed: string
  /** The result that would be recorded; null if there is none, or several. */
  answer: Answer | null
  isUnderWay: boolean
  /** Which figures of a set are typed; null for anything else. */
  figures: { hasCount: boolean; hasLoad: boolean } | null
  /** The step, if it is a set that has not begun. */
  setAhead: SetStep | null
  /** The step of the last result, if it is of the same item: what is typed may belong there. */
  before: Step | null
}

/** A question about an answer. */
interface Asked {
  question: string
  /** The answer in words. */
  text: string
  /** What was typed may belong to the step before: `e` corrects its result instead. */
  mayCorrect: boolean
}

/** What to do or ask instead; null where the rule does not apply. */
type Rule = (situation: Situation) => Updated | Asked | null

/** The first rule that applies decides. */
const rules: readonly Rule[] = [remarksOnly, setTooEarly, intervalTooEarly, loadOfComingSet, resultBeforeSet]

/** Asks before Enter records a result, or records a note or a chosen load instead; null if it is simply a result.
 * @param accepted the answer that a question about the field has already confirmed */
export function insteadOfResult(
  model: RecorderModel,
  step: Step,
  accepted: Answer | null = null,
): Updated | null {
  const { state } = model
  const prompt = promptOf(state, step.id)
  if (!prompt || pendingSteps(state).length > 0) return null
  const typed = sameAsBefore(model, step).trim()
  const isUnderWay = stepUnderWay(state)?.id === step.id
  const last = stepOf(state, [...state.recorded.keys()].at(-1) ?? '')
  const situation: Situation = {
    model,
    step,
    prompt,
    typed,
    answer: accepted ?? onlyAnswer(typed, prompt),
    isUnderWay,
    figures: figuresTyped(typed, prompt),
    setAhead: step.kind === 'set' && !isUnderWay ? step : null,
    before: last && isSameItem(last, step) ? last : null,
  }
  for (const rule of rules) {
    const found = rule(situation)
    if (found) return 'question' in found ? ask(situation, found) : found
  }
  return null
}

/** The answer of an entry; null for a doubtful one, or for several. */
function onlyAnswer(typed: string, prompt: Prompt): Answer | null {
  const reading = readEntries(typed, [prompt])
  return reading.outcome === 'answer' && reading.value.length === 1 ? (reading.value[0] ?? null) : null
}

function ask({ model, step, answer, before }: Situation, { question, text, mayCorrect }: Asked): Updated {
  const corrects = mayCorrect ? before : null
  const keys = `Enter yes, Esc no${corrects ? `, e corrects ${stepTitle(model.state, corrects)}` : ''}`
  return stay({
    ...model,
    mode: {
      kind: 'question',
      message: `${question}? ${keys}`,
      steps: [step.id],
      suggested: answer && { text, value: [answer] },
      insisted: null,
      back: model.mode,
      isLast: true,
      ...(corrects ? { corrects: corrects.id } : {}),
    },
    notice: null,
  })
}

/** `pain left knee`, `"felt light"` before a set or a repeat, or during any effort: a note, which ends no effort. */
function remarksOnly({ model, step, isUnderWay }: Situation): Updated | null {
  const isAhead = step.kind === 'set' || step.kind === 'interval'
  return isAhead || isUnderWay ? noteAlone(model, isUnderWay ? step : null) : null
}

/** Enter alone, `@8` or `x 100` when the set that is under way cannot be over yet. */
function setTooEarly({ model, step, typed, answer, isUnderWay, figures, prompt }: Situation): Asked | null {
  if (!figures || figures.hasCount || answer?.kind !== 'set' || !isUnderWay || step.kind !== 'set')
    return null
  const early = notDoneYet(model, step)
  if (early === null) return null
  const isTyped = typed !== ''
  return {
    question: `Record ${early}${isTyped ? ` with ${typed}` : ''}`,
    text: isTyped ? printEntry(answer, prompt) : (describeEmpty(prompt) ?? ''),
    mayCorrect: isTyped,
  }
}

/** A result for the repeat or run under way with a longer time than its clock shows, as for the repeat before, or
 * without a time, as `hr 150` soon after the start. Before it begins, only `hr 150`; in the recovery before it a time,
 * too. */
function intervalTooEarly(situation: Situation): Asked | null {
  const { model, step, typed, answer, isUnderWay, prompt } = situation
  if (step.kind !== 'interval' || answer?.kind !== 'interval') return null
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
  return { question: `${title} ${where}. Save ${what} for it`, text, mayCorrect: true }
}

/** `x 102.5` before a set begins: the load that the coming set will have. */
function loadOfComingSet(situation: Situation): Updated | null {
  const { model, setAhead, prompt, typed } = situation
  const chosen = setAhead && loadTyped(situation)
  if (!chosen || prompt.kind !== 'set' || saysHowItWent(chosen)) return null
  const { load } = chosen
  const next = `next: ${describeEmpty({ ...prompt, shown: load, loadUnknown: false })}`
  const change = changeText(typed, prompt, load)
  const notice = change === null ? next : `${next}; ${change}`
  return applyFacts({ ...model, draft: '', notice }, { type: 'loadChosen', step: setAhead.id, load })
}

/** Enter alone, `@8` or `x 80 pain left knee` before a set begins, or any result while a warm-up set is next or under
 * way: is it about that set? */
function resultBeforeSet({ model, setAhead, prompt, typed, answer, figures }: Situation): Asked | null {
  if (!answer || !setAhead) return null
  const isTyped = typed !== ''
  const saysHow = answer.kind === 'set' && (figures?.hasLoad || answer.result.rpe !== null)
  const isDoubtful = !isTyped || (saysHow && !figures?.hasCount)
  if (!isDoubtful && stepNow(model.state)?.kind !== 'warm-up') return null
  const text = isTyped ? printEntry(answer, prompt) : (describeEmpty(prompt) ?? '')
  return { question: `Set ${setAhead.number} has not begun. Record ${text}`, text, mayCorrect: isTyped }
}

/** What is typed of a set; null for the answer of another step, or what cannot be read. */
function figuresTyped(typed: string, prompt: Prompt): Situation['figures'] {
  return prompt.kind === 'set' ? figuresIn(entryTextOf(typed), prompt) : null
}

/** The result of a set whose load was typed without repetitions, perhaps with more about the set: `x 100`, `102.5 kg`,
 * `+2.5`, `bw+10`, `x 72.5 kg @9`, `x 80 pain left knee`. Null for any other entry. */
function loadTyped({ figures, answer }: Situation): (SetResult & { load: LiftedLoad }) | null {
  if (answer?.kind !== 'set' || !figures?.hasLoad || figures.hasCount) return null
  const { load } = answer.result
  return load ? { ...answer.result, load } : null
}

/** Whether a result says more of a set than its load, so that the set must be over. */
function saysHowItWent({ rpe, failed, note, pain }: SetResult): boolean {
  return rpe !== null || failed || note !== null || pain !== null
}

/** What Enter would record for a set that cannot be over yet, in words; null for one that can. */
function notDoneYet({ state, now }: RecorderModel, { dose }: SetStep): string | null {
  const { phase } = state
  if (phase.kind !== 'effort' && phase.kind !== 'pause') return null
  if (dose.kind === 'cluster') {
    const count = dose.groups.length
    const isLast = phase.kind === 'effort' && phase.group >= count - 1
    return isLast ? null : count === 2 ? 'both groups' : `all ${inWords(count)} groups`
  }
  if (dose.kind !== 'reps' || phase.kind !== 'effort' || clockSeconds(state, now) >= dose.from) return null
  return `all ${counted(dose.from, 'repetition')}`
}
