import type { ResultStep, Step } from '../prescription/step.ts'
import { whenOf } from '../session/clock.ts'
import { printEntries, readEntries, readEntry, sameAsBefore } from '../session/entry/entry.ts'
import { sumOfFoods, unknownMeal } from '../session/entry/fuel.ts'
import type { Reading } from '../session/entry/lex.ts'
import { type Answer, type Prompt, promptOf, promptToCorrect } from '../session/prompt.ts'
import { applyEvent } from '../session/reduce.ts'
import { pendingSteps, type Recorded, type SessionState } from '../session/state.ts'
import { counted } from '../units/decimal.ts'
import { formatClockShort } from '../units/duration.ts'
import type { RecorderContext, RecorderModel } from './model.ts'
import { holdUnderWay } from './targets.ts'

/* What the text in the field means for the steps it is about. */

/** The field, read for these steps in order.
 * @param before the result of the only step, which the field corrects */
export function readField(
  model: RecorderModel,
  steps: readonly ResultStep[],
  before?: Recorded,
): Reading<Answer[]> & { isByClock?: true } {
  const { state } = model
  const ended = withHoldEnded(model)
  const draft = sameAsBefore(model.draft, state, steps[0])
  const prompts = steps.map((step) => {
    const prompt = promptOf(ended, step)
    return before ? promptToCorrect(prompt, before) : prompt
  })
  const reading =
    mealOfFoods(draft.trim() || mealAsWritten(steps[0]), prompts, model.context) ??
    repetitionsInRow(state, draft, prompts) ??
    readEntries(draft, prompts, pendingSteps(state).length || Number(state.phase.since !== null))
  return reading.outcome === 'question' && draft.trim() === '' ? ofClock(reading, prompts[0]) : reading
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
  // In a correction, foods replace all amounts.
  const before = prompt.before && { ...unknownMeal, pain: prompt.before.pain }
  const reading = readEntry(text, { ...prompt, before })
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
