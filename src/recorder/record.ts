import type { ResultStep } from '../prescription/step.ts'
import { whenOf } from '../session/clock.ts'
import { printEntry } from '../session/entry/entry.ts'
import type { LiftedLoad, SessionEvent } from '../session/model.ts'
import { answerFacts, dated } from '../session/newEvents.ts'
import { isPainOver, noPain } from '../session/pain.ts'
import { type Answer, type Prompt, promptOf, type SetPrompt } from '../session/prompt.ts'
import { applyEvent } from '../session/reduce.ts'
import type { Recorded } from '../session/state.ts'
import { printNumber, roundTo } from '../units/decimal.ts'
import { applyEvents, recording } from './apply.ts'
import type { RecorderModel, Updated } from './model.ts'

/** Records answers for steps, in order, echoes them, and clears the field. */
export function record(model: RecorderModel, steps: readonly ResultStep[], answers: Answer[]): Updated {
  const { draft, now } = model
  const texts: string[] = []
  let painNotice: string | null = null
  let change: string | null = null
  const events: SessionEvent[] = []
  let { state } = model
  answers.forEach((typed, index) => {
    const step = steps[index]
    if (step === undefined) return
    const prompt = promptOf(state, step)
    const answer = asTimed(typed, state.recorded.get(step.id))
    const { note, pain } = answer.kind === 'skipped' ? answer : answer.result
    painNotice ??= painText(note, pain)
    const load = answer.kind === 'set' ? answer.result.load : null
    if (index === 0 && prompt.kind === 'set' && load) change = changeText(draft, prompt, load)
    texts.push(echoText(answer, prompt))
    const added = dated(answerFacts(state, step, answer), whenOf(now))
    state = added.reduce(applyEvent, state)
    events.push(...added)
  })
  const echo = { text: texts.join('  '), at: now }
  return applyEvents({ ...recording(model), notice: painNotice ?? change, echo, pressedOnce: null }, events)
}

/** A time taken by key remains one where a correction does not change it. */
function asTimed(answer: Answer, before: Recorded | undefined): Answer {
  if (answer.kind !== 'interval' || before?.kind !== 'interval') return answer
  const isKept = before.result.byKey && answer.result.seconds === before.result.seconds
  return isKept ? { ...answer, result: { ...answer.result, byKey: true } } : answer
}

/** `72.5 kg is 2.5 kg more than 70 kg`, if the load was typed as a change to the shown one; else
 * null. */
export function changeText(draft: string, { shown }: SetPrompt, load: LiftedLoad): string | null {
  if (shown?.kind !== 'mass' || load.kind !== 'mass' || !/(^|x|\s)\s*[+-]\s*\d/i.test(draft)) return null
  const by = roundTo(load.value - shown.value, 3)
  if (by === 0) return null
  const text = (value: number) => `${printNumber(value)} ${load.unit}`
  return `${text(load.value)} is ${text(Math.abs(by))} ${by > 0 ? 'more' : 'less'} than ${text(shown.value)}`
}

/** The echo of a result; a failure with the repetition that failed, `3 x 100, failed at 4`. */
export function echoText(answer: Answer, prompt: Prompt): string {
  if (answer.kind === 'skipped') return 'skipped'
  const text = printEntry(answer, prompt).replace(/^=/, 'done')
  if (answer.kind !== 'set' || !answer.result.failed) return text
  const { reps } = answer.result
  const lifted = printEntry({ ...answer, result: { ...answer.result, failed: false } }, prompt)
  return `${lifted}, failed${reps === null ? '' : ` at ${reps + 1}`}`
}

const painWords = String.raw`\b(pain(ful)?|hurt(s|ing)?|twinges?|limp(ed|ing)?|popped)\b`
const saysPain = new RegExp(painWords, 'i')
const saysNoPain = new RegExp(
  String.raw`\b(no|nothing|not|without|\w+n['’]t) (\w+ )?${painWords}|\b${noPain}\b`,
  'gi',
)

/** The message after a result or a note with a pain, or after one whose words only mention a pain; null for any other. */
export function painText(note: string | null, pain: string | null): string | null {
  if (pain !== null && !isPainOver(pain)) return `Pain noted: ${pain}. Stop if it is sharp or gets worse.`
  return note !== null && saysPain.test(note.replace(saysNoPain, ''))
    ? 'Kept as a note. For it to count as pain, type pain and the place: pain left calf'
    : null
}
