import type { ResultStep, Step } from '../prescription/step.ts'
import { whenOf } from '../session/clock.ts'
import { printEntries, printEntry, readEntries, readEntry } from '../session/entry/entry.ts'
import { sumOfFoods } from '../session/entry/fuel.ts'
import type { Reading } from '../session/entry/lex.ts'
import { figuresOf, sameAsBefore } from '../session/entry/same.ts'
import { type Answer, type Prompt, promptOf } from '../session/prompt.ts'
import { applyEvent } from '../session/reduce.ts'
import { pendingSteps, type Recorded, type SessionState } from '../session/state.ts'
import { counted } from '../units/decimal.ts'
import { formatClockShort } from '../units/duration.ts'
import type { RecorderContext, RecorderModel } from './model.ts'
import { holdUnderWay } from './targets.ts'

/* What the text in the field means for the steps it is about. */

/** The field, read for these steps in order.
 * @param before the earlier result of the first step, whose figures stay where none are typed */
export function readField(
  model: RecorderModel,
  steps: readonly ResultStep[],
  before?: Recorded,
): Reading<Answer[]> & { isByClock?: true } {
  const ended = withHoldEnded(model)
  const draft = sameAsBefore(model.draft, model.state, steps[0])
  const prompts = steps.map((step) => withLoadOf(promptOf(ended, step), before))
  const reading =
    mealOfFoods(draft.trim() || mealAsWritten(steps[0]), prompts, model.context) ??
    repetitionsInRow(model.state, draft, prompts) ??
    addedTo(before, draft, prompts) ??
    readEntries(draft, prompts)
  return reading.outcome === 'question' && draft.trim() === '' ? ofClock(reading, prompts[0]) : reading
}

/** Shows the load of an earlier result. */
function withLoadOf(prompt: Prompt, before: Recorded | undefined): Prompt {
  const load = before?.kind === 'set' ? before.result.load : null
  return prompt.kind === 'set' && load ? { ...prompt, shown: load, loadUnknown: false } : prompt
}

/** What was typed, read as an addition to the figures of an earlier result: `@9` to `4! x 95`, `x 92.5` to `4!`,
 * `hr 175` to `1:21.4`. Null if it has figures of its own, or there is no earlier result. */
function addedTo(before: Recorded | undefined, draft: string, prompts: Prompt[]): Reading<Answer[]> | null {
  const [prompt] = prompts
  if (!before || !prompt) return null
  for (const figures of figuresOf(before)) {
    const reading = readEntries(`${printEntry(figures, prompt)}, ${draft}`, prompts)
    // A question about the addition itself can be insisted on; one about two figures of a kind cannot.
    if (reading.outcome === 'answer' && reading.value.length === 1) return reading
    if (reading.outcome === 'question' && reading.insisted?.length === 1) return reading
  }
  return null
}

/** The effort, the heart rate and the remarks of an earlier result stay where none are typed. */
export function withEarlier(answer: Answer, { result: before }: Recorded): Answer {
  if (answer.kind === 'skipped') return answer
  const remarks = { note: answer.result.note ?? before.note, pain: answer.result.pain ?? before.pain }
  const rpe = 'rpe' in before ? before.rpe : null
  if (answer.kind === 'set') {
    // A repetition that failed says more than the earlier effort.
    const effort = answer.result.rpe ?? (answer.result.failed ? null : rpe)
    return { ...answer, result: { ...answer.result, rpe: effort, ...remarks } }
  }
  if (answer.kind === 'interval') {
    const rates = answer.result.heartRate === null && 'heartRate' in before ? before : answer.result
    const { heartRate, heartRateMax } = rates
    const result = { ...answer.result, rpe: answer.result.rpe ?? rpe, heartRate, heartRateMax, ...remarks }
    return { ...answer, result }
  }
  return { ...answer, result: { ...answer.result, ...remarks } } as Answer
}

/** The words of a meal that is prescribed without amounts, which may be foods; empty for anything else. */
function mealAsWritten(step: Step | undefined): string {
  if (step?.kind !== 'fuel') return ''
  const { carbsG, proteinG, fatG, kcal, notes } = step.fuel
  return [carbsG, proteinG, fatG, kcal].every((amount) => amount === null) ? notes.join(', ') : ''
}

/** `2 eggs, banana, 80 g oats`: a question with the sum and the unknown foods. Null for anything else. */
function mealOfFoods(
  meal: string,
  prompts: readonly Prompt[],
  { foods }: RecorderContext,
): Reading<Answer[]> | null {
  const [prompt] = prompts
  if (prompt?.kind !== 'fuel') return null
  const sum = sumOfFoods(meal, foods())
  if (sum === null) return null
  const unknown = sum.unknown.length === 0 ? '' : `; unknown, so not counted: ${sum.unknown.join(', ')}`
  const text = `${sum.text} "${meal}"`
  const reading = readEntry(text, prompt)
  if (reading.outcome !== 'answer') return null
  return meant(`${sum.text}${unknown}?`, text, [reading.value])
}

function meant(message: string, text: string, value: Answer[]): Reading<Answer[]> {
  return { outcome: 'question', message, suggested: { text, value }, insisted: null }
}

/** Bare numbers for as many pending sets, `3 3`, each close to the prescription: a question, since one may be a load
 * without its x. Null for anything else. */
function repetitionsInRow(
  state: SessionState,
  draft: string,
  prompts: readonly Prompt[],
): Reading<Answer[]> | null {
  const typed = /^\s*\d+(\s+\d+)+\s*$/.test(draft) ? draft.trim().split(/\s+/) : []
  if (typed.length < 2 || typed.length > pendingSteps(state).length) return null
  const answers: Answer[] = []
  for (const [index, count] of typed.entries()) {
    const prompt = prompts[index]
    if (prompt?.kind !== 'set' || prompt.dose.kind !== 'reps' || Number(count) > 2 * prompt.dose.to)
      return null
    const reading = readEntry(count, prompt)
    if (reading.outcome !== 'answer') return null
    answers.push(reading.value)
  }
  const text = printEntries(answers, prompts).join(', ')
  return meant(`${typed.map((count) => counted(Number(count), 'rep')).join(' and ')}?`, text, answers)
}

/** A question about the empty field is not about anything typed: Enter keeps what the clock measured. */
function ofClock(
  question: Extract<Reading<Answer[]>, { outcome: 'question' }>,
  prompt: Prompt | undefined,
): ReturnType<typeof readField> {
  const { message, insisted } = question
  const offered = prompt?.kind === 'interval' || prompt?.kind === 'set' ? prompt.offered : null
  if (offered === null || !insisted) return question
  const clock = formatClockShort(offered)
  return {
    ...meant(`${clock} by the clock: ${message}`, `${clock}, timed by you`, insisted),
    isByClock: true,
  }
}

/** Enter ends a hold that is under way: its length is what the clock shows now. */
export function withHoldEnded({ state, now }: RecorderModel): SessionState {
  const step = holdUnderWay(state)
  return step ? applyEvent(state, { type: 'effortEnded', ...whenOf(now), step: step.id, auto: false }) : state
}
