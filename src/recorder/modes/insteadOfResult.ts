import { isSameItem, type SetStep, type Step } from '../../prescription/step.ts'
import { whenOf } from '../../session/clock.ts'
import { describeEmpty, readEntries } from '../../session/entry/entry.ts'
import { entryTextOf, type Reading } from '../../session/entry/lex.ts'
import { printEntry } from '../../session/entry/print.ts'
import { figuresIn } from '../../session/entry/set.ts'
import { type Answer, handIsLate, type Prompt, promptOf } from '../../session/prompt.ts'
import type { LiftedLoad, SetResult } from '../../session/result.ts'
import { pendingSteps, stepOf, stepUnderWay } from '../../session/state.ts'
import { clockSeconds } from '../../session/timers.ts'
import { inWords } from '../../units/decimal.ts'
import { formatClock } from '../../units/duration.ts'
import { applyEvents } from '../apply.ts'
import { stepTitle, warmUpPlace } from '../labels.ts'
import { type RecorderContext, type RecorderModel, stay, stepNow, type Updated } from '../model.ts'
import { changeText } from '../record.ts'
import { notedText, remarksAlone } from './notes.ts'

/* Enter while no result waits to be entered: what is typed need not be the result of the step that has hardly begun, or
 * not at all. */

interface Situation {
  model: RecorderModel
  context: RecorderContext
  /** The step that the field is about. */
  step: Step
  prompt: Prompt
  /** The field without the spaces around its text. */
  typed: string
  /** What would be recorded; null if that is no result, or several. */
  answer: Answer | null
  isUnderWay: boolean
  /** What is typed of a set; null for anything else. */
  figures: { hasCount: boolean; hasLoad: boolean } | null
  /** The step, if it is a set that has not begun. */
  setAhead: SetStep | null
  /** The step of the last result, if it is of the same item: what is typed may belong there. */
  before: Step | null
}

type Rule = (situation: Situation) => Updated | null

/** The first rule that applies decides. */
const rules: readonly Rule[] = [
  offerBeforeSet,
  remarksOnly,
  setTooEarly,
  intervalTooEarly,
  loadOfComingSet,
  resultBeforeWarmUp,
  loadAndMoreBeforeSet,
  effortBeforeSet,
  timeInRecovery,
]

/** Asks before Enter records a result, or records a note or a chosen load instead; null if it is simply a result.
 * @param accepted what a question about the field was answered with */
export function insteadOfResult(
  model: RecorderModel,
  step: Step,
  context: RecorderContext,
  accepted: Answer | null = null,
): Updated | null {
  const { state } = model
  const prompt = promptOf(state, step.id)
  if (!prompt || pendingSteps(state).length > 0) return null
  const typed = model.draft.trim()
  const isUnderWay = stepUnderWay(state)?.id === step.id
  const last = stepOf(state, [...state.recorded.keys()].at(-1) ?? '')
  const situation: Situation = {
    model,
    context,
    step,
    prompt,
    typed,
    answer: accepted ?? onlyAnswer(readEntries(typed, [prompt])),
    isUnderWay,
    figures: figuresTyped(typed, prompt),
    setAhead: step.kind === 'set' && !isUnderWay ? step : null,
    before: last && isSameItem(last, step) ? last : null,
  }
  for (const rule of rules) {
    const updated = rule(situation)
    if (updated) return updated
  }
  return null
}

/** The answer of an entry; null for a doubtful one, or for several. */
function onlyAnswer(reading: Reading<Answer[]>): Answer | null {
  return reading.outcome === 'answer' && reading.value.length === 1 ? (reading.value[0] ?? null) : null
}

/** Asks whether to record an answer.
 * @param text the answer in words
 * @param corrects the step whose result `e` corrects instead */
function ask(
  { model, step }: Situation,
  message: string,
  answer: Answer,
  text: string,
  corrects: Step | null = null,
): Updated {
  return stay({
    ...model,
    mode: {
      kind: 'question',
      message,
      steps: [step.id],
      suggested: { text, value: [answer] },
      insisted: null,
      back: model.mode,
      isLast: true,
      ...(corrects ? { corrects: corrects.id } : {}),
    },
    notice: null,
  })
}

/** Enter alone before a set begins. */
function offerBeforeSet(situation: Situation): Updated | null {
  const { typed, answer, setAhead, prompt } = situation
  if (typed !== '' || !answer || !setAhead) return null
  const offered = describeEmpty(prompt) ?? ''
  return ask(
    situation,
    `Set ${setAhead.number} has not begun. Record ${offered}? Enter yes, Esc back`,
    answer,
    offered,
  )
}

/** `pain left knee`, `"felt light"` before a set or a repeat, or during any effort: a note, which ends no effort. */
function remarksOnly({ model, context, step, isUnderWay }: Situation): Updated | null {
  const isAhead = step.kind === 'set' || step.kind === 'interval'
  const events = isAhead || isUnderWay ? remarksAlone(model, isUnderWay ? step : null) : null
  if (!events) return null
  return applyEvents({ ...model, draft: '', notice: notedText(events, model.state) }, events, context)
}

/** Enter alone, `@8` or `x 100` when the set that is under way cannot be over yet. */
function setTooEarly(situation: Situation): Updated | null {
  const { model, step, typed, answer, isUnderWay, figures, prompt, before } = situation
  if (!figures || figures.hasCount || answer?.kind !== 'set' || !isUnderWay || step.kind !== 'set')
    return null
  const early = notDoneYet(model, step)
  if (early === null) return null
  if (typed === '')
    return ask(situation, `Record ${early}? Enter yes, Esc back`, answer, describeEmpty(prompt) ?? '')
  const whole = printEntry(answer, prompt)
  const message = `Record ${early} with ${typed}? Enter yes, Esc back${orCorrects(before)}`
  return ask(situation, message, answer, whole, before)
}

/** A result of the repeat or run under way that has lasted longer than its clock shows, or that has no time although its
 * clock runs: `hr 150` soon after the start, the time of the repeat before. */
function intervalTooEarly(situation: Situation): Updated | null {
  const { model, step, answer, isUnderWay, prompt, before } = situation
  if (!isUnderWay || step.kind !== 'interval' || answer?.kind !== 'interval') return null
  const clock = clockSeconds(model.state, model.now)
  const { seconds } = answer.result
  if (seconds !== null && seconds <= clock + handIsLate) return null
  const text = printEntry(answer, prompt).replace(/^=/, 'done')
  const what = text.startsWith('done') ? `it as ${text}` : text
  const title = step.of === 1 ? stepTitle(step) : `${step.split ? 'Split' : 'Repeat'} ${step.number}`
  return ask(
    situation,
    `${title} is at ${formatClock(clock)}. Save ${what}? Enter yes, Esc back${orCorrects(before)}`,
    answer,
    text,
    before,
  )
}

/** `x 102.5` before a set begins: the load that the coming set will have. */
function loadOfComingSet(situation: Situation): Updated | null {
  const { model, context, setAhead, prompt, typed } = situation
  const chosen = setAhead && loadTyped(situation)
  if (!chosen || prompt.kind !== 'set' || saysHowItWent(chosen)) return null
  const { load } = chosen
  const next = `next: ${describeEmpty({ ...prompt, shown: load, loadUnknown: false })}`
  const change = changeText(typed, prompt, load)
  const notice = change === null ? next : `${next}; ${change}`
  const event = { type: 'loadChosen' as const, ...whenOf(model.now), step: setAhead.id, load }
  return applyEvents({ ...model, draft: '', notice }, [event], context)
}

/** A result typed while a warm-up set is next or under way. */
function resultBeforeWarmUp(situation: Situation): Updated | null {
  const { model, setAhead, typed, answer } = situation
  const warmUp = stepNow(model.state)
  if (!answer || !setAhead || warmUp?.kind !== 'warm-up') return null
  const { number, of } = warmUpPlace(model.state, warmUp)
  const title = stepTitle(setAhead)
  return ask(
    situation,
    `Warm-up set ${number} of ${of} has no result. Record ${typed} for ${title}? Enter yes, Esc back`,
    answer,
    `${title}: ${typed}`,
  )
}

/** `x 80 pain left knee` before a set begins: of which set? */
function loadAndMoreBeforeSet(situation: Situation): Updated | null {
  const { setAhead, prompt, answer, before } = situation
  if (!answer || !setAhead || !loadTyped(situation)) return null
  const whole = printEntry(answer, prompt)
  return ask(
    situation,
    `Set ${setAhead.number} has not begun. Record ${whole}? Enter yes, Esc back${orCorrects(before)}`,
    answer,
    whole,
    before,
  )
}

/** `@8` before a set begins: of which set? */
function effortBeforeSet(situation: Situation): Updated | null {
  const { setAhead, prompt, typed, answer, figures, before } = situation
  if (answer?.kind !== 'set' || answer.result.rpe === null || !setAhead) return null
  if (!figures || figures.hasCount || figures.hasLoad) return null
  return ask(
    situation,
    `Set ${setAhead.number} has not begun. Save it with ${typed}? Enter yes, Esc back${orCorrects(before)}`,
    answer,
    `${describeEmpty(prompt) ?? stepTitle(setAhead)} ${typed}`,
    before,
  )
}

/** A time typed in the recovery after a repeat: of which repeat? */
function timeInRecovery(situation: Situation): Updated | null {
  const { model, step, typed, answer, before } = situation
  const isLate = typed !== '' && model.state.phase.kind === 'recovery' && step.kind === 'interval'
  if (!isLate || answer?.kind !== 'interval' || !before) return null
  return ask(
    situation,
    `Repeat ${step.number} has not started. Save this time for it? Enter yes${orCorrects(before)}`,
    answer,
    `${typed} for repeat ${step.number}`,
    before,
  )
}

function orCorrects(before: Step | null): string {
  return before ? `, e corrects ${stepTitle(before)}` : ''
}

/** What is typed of a set; null for the answer of another step, or what cannot be read. */
function figuresTyped(typed: string, prompt: Prompt): Situation['figures'] {
  const text = entryTextOf(typed)
  return prompt.kind !== 'set' || 'error' in text ? null : figuresIn(text, prompt)
}

/** Whether a load is typed without repetitions, perhaps with what else is said of the set: `x 100`, `102.5 kg`, `+2.5`,
 * `bw+10`, `x 72.5 kg @9`, `x 80 pain left knee`. */
export function isLoadAlone(typed: string, prompt: Prompt): boolean {
  return isOnlyLoad(figuresTyped(typed, prompt))
}

function isOnlyLoad(figures: Situation['figures']): boolean {
  return figures?.hasLoad === true && !figures.hasCount
}

/** The result of a set whose load was typed without repetitions; null for any other entry. */
function loadTyped({ figures, answer }: Situation): (SetResult & { load: LiftedLoad }) | null {
  if (answer?.kind !== 'set' || !isOnlyLoad(figures)) return null
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
    return isLast ? null : `all ${inWords(count)} groups`
  }
  if (dose.kind !== 'reps' || phase.kind !== 'effort' || clockSeconds(state, now) >= dose.from) return null
  return `all ${dose.from} ${dose.from === 1 ? 'repetition' : 'repetitions'}`
}
