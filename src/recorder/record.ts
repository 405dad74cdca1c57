import { isSameItem, type Step } from '../prescription/step.ts'
import { answerEvents } from '../session/advance.ts'
import { whenOf } from '../session/clock.ts'
import { printEntry, readEntries, readEntry } from '../session/entry/entry.ts'
import { sumOfFoods } from '../session/entry/fuel.ts'
import type { Reading } from '../session/entry/lex.ts'
import type { LiftedLoad, SessionEvent } from '../session/model.ts'
import { isPainOver } from '../session/pain.ts'
import { type Answer, type Prompt, promptOf, type SetPrompt } from '../session/prompt.ts'
import { applyEvent } from '../session/reduce.ts'
import { pendingSteps, type Recorded, type SessionState, stepOf } from '../session/state.ts'
import { counted, printNumber } from '../units/decimal.ts'
import { formatClockShort } from '../units/duration.ts'
import { applyEvents } from './apply.ts'
import { withoutOffer } from './labels.ts'
import {
  holdUnderWay,
  type Mode,
  type RecorderContext,
  type RecorderModel,
  type Updated,
  withMode,
  withNotice,
} from './model.ts'

/** Records answers for steps, in order, echoes them, and clears the field. */
export function record(model: RecorderModel, steps: string[], answers: Answer[]): Updated {
  const { mode, draft, now } = model
  const field = 'back' in mode ? mode.back : mode
  const isRetyped = field.kind === 'correcting' && field.isRetyped
  const texts: string[] = []
  let painNotice: string | null = null
  let change: string | null = null
  const events: SessionEvent[] = []
  let { state } = model
  answers.forEach((typed, index) => {
    const step = stepOf(state, steps[index] ?? '')
    const prompt = step ? promptOf(state, step.id) : null
    if (!step || !prompt) return
    const before = state.recorded.get(step.id)
    const answer = asTimed(isRetyped && before ? withEarlier(typed, before) : typed, before)
    const { note, pain } = answer.kind === 'skipped' ? answer : answer.result
    painNotice ??= painText(note, pain)
    const load = answer.kind === 'set' ? answer.result.load : null
    if (index === 0 && prompt.kind === 'set' && load) change = changeText(draft, prompt, load)
    texts.push(echoText(answer, withoutOffer(prompt)))
    const newEvents = answerEvents(state, step, answer, now)
    state = newEvents.reduce(applyEvent, state)
    events.push(...newEvents)
  })
  const recorded: RecorderModel = {
    ...model,
    mode: { kind: 'recording' },
    draft: '',
    notice: painNotice ?? change,
    echo: { text: texts.join('  '), at: now },
    pressedOnce: null,
  }
  return applyEvents(recorded, events)
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
  const by = Math.round((load.value - shown.value) * 1000) / 1000
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
  String.raw`\b(no|nothing|not|without|\w+n['’]t) (\w+ )?${painWords}|\bpain([- ]?free|:? none| (is|was) gone)\b`,
  'gi',
)

/** The message after a result or a note with a pain, or after one whose words only mention a pain; null for any other.
 * @param place what the pain was noted with, such as `repeat 4`; null where that is obvious */
export function painText(
  note: string | null,
  pain: string | null,
  place: string | null = null,
): string | null {
  if (pain !== null && !isPainOver(pain))
    return `Pain noted: ${pain}${place === null ? '' : `, with ${place}`}. Stop if it is sharp or gets worse.`
  return note !== null && saysPain.test(note.replace(saysNoPain, ''))
    ? 'Kept as a note. For it to count as pain, type pain and the place: pain left calf'
    : null
}

/** Parses the field for these steps, in order; records, shows or questions the result.
 * @param before the earlier result of the first step; whatever is not typed keeps its value */
export function readTyped(model: RecorderModel, steps: Step[], before?: Recorded): Updated {
  const ended = withHoldEnded(model)
  const draft = sameAsBefore(model, steps[0])
  const prompts = steps
    .map((step) => promptOf(ended, step.id))
    .filter((each): each is Prompt => each !== null)
    .map((each) => withLoadOf(each, before))
  const reading =
    mealOfFoods(draft.trim() || mealAsWritten(steps[0]), prompts, model.context) ??
    repetitionsInRow(model.state, draft, prompts) ??
    addedTo(before, draft, prompts) ??
    readEntries(draft, prompts)
  const ids = steps.map((step) => step.id)
  const back = model.mode
  const asking = (mode: Mode) => withMode({ ...model, notice: null }, mode)
  switch (reading.outcome) {
    case 'error':
      return withNotice(model, reading.message)
    case 'answer':
      return reading.value.length === 1
        ? record(model, ids, reading.value)
        : asking({ kind: 'several', steps: ids, answers: reading.value, back })
    case 'question':
      return asking({ kind: 'question', ...questionOf(draft, prompts, reading), steps: ids, back })
  }
}

/** Shows the load of an earlier result. */
function withLoadOf(prompt: Prompt, before?: Recorded): Prompt {
  const load = before?.kind === 'set' ? before.result.load : null
  return prompt.kind === 'set' && load ? { ...prompt, shown: load, loadUnknown: false } : prompt
}

/** What was typed, read as an addition to the figures of an earlier result: `@9` to `4! x 95`, `x 92.5` to `4!`,
 * `hr 175` to `1:21.4`. Null if it has figures of its own, or there is no earlier result. */
function addedTo(before: Recorded | undefined, draft: string, prompts: Prompt[]): Reading<Answer[]> | null {
  const [prompt] = prompts
  if (!before || !prompt) return null
  for (const figures of figuresOf(before)) {
    const reading = readEntries(`${printEntry(figures, withoutOffer(prompt))}, ${draft}`, prompts)
    // A question about the addition itself can be insisted on; one about two figures of a kind cannot.
    if (reading.outcome === 'answer' && reading.value.length === 1) return reading
    if (reading.outcome === 'question' && reading.insisted?.length === 1) return reading
  }
  return null
}

/** A result without its effort, heart rate and remarks; a set also without its loads, in case another is typed. */
function figuresOf(before: Recorded): Recorded[] {
  const remarks = { note: null, pain: null }
  switch (before.kind) {
    case 'set': {
      const bare = { ...before.result, ...remarks, rpe: null }
      const { loads: _, ...withoutLoads } = { ...bare, load: null }
      return [bare, withoutLoads].map((result) => ({ ...before, result }))
    }
    case 'interval': {
      const result = { ...before.result, ...remarks, rpe: null, heartRate: null, heartRateMax: null }
      return [{ ...before, result }]
    }
    case 'fuel':
      return [{ ...before, result: { ...before.result, ...remarks } }]
    case 'prep':
      return []
  }
}

/** The effort, the heart rate and the remarks of an earlier result stay where none are typed. */
function withEarlier(answer: Answer, { result: before }: Recorded): Answer {
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

/** `same`, `same @9`: the figures of the previous result of the same exercise or work; as offered without one.
 * Returns the field's text if it is anything else. */
export function sameAsBefore({ draft, state }: RecorderModel, step: Step | undefined): string {
  const match = /^\s*same(?!\S)(.*)$/i.exec(draft)
  if (!match || !step) return draft
  const before = [...state.recorded.keys()]
    .map((id) => stepOf(state, id))
    .findLast(
      (each) => each && each.id !== step.id && isSameItem(each, step) && nameOf(each) === nameOf(step),
    )
  const recorded = before ? state.recorded.get(before.id) : undefined
  const prompt = before ? promptOf(state, before.id) : null
  const [whole, withoutLoads = whole] = recorded && recorded.kind !== 'fuel' ? figuresOf(recorded) : []
  // A load chosen for this set takes precedence over the previous set's.
  const figures = state.chosenLoads.has(step.id) ? withoutLoads : whole
  return (figures && prompt ? printEntry(figures, withoutOffer(prompt)) : '=') + (match[1] ?? '')
}

function nameOf(step: Step): string {
  return step.kind === 'set' ? step.name : ''
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
  const caffeine = sum.caffeineMg === null ? '' : `; caffeine ${sum.caffeineMg} mg`
  const unknown = sum.unknown.length === 0 ? '' : `; unknown, so not counted: ${sum.unknown.join(', ')}`
  const text = `${sum.text} "${meal}"`
  const reading = readEntry(text, prompt)
  if (reading.outcome !== 'answer') return null
  return {
    outcome: 'question',
    message: `${sum.text}${caffeine}${unknown}?`,
    suggested: { text, value: [reading.value] },
    insisted: null,
  }
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
  const text = answers.map((answer, index) => printEntry(answer, prompts[index] as Prompt)).join(', ')
  return {
    outcome: 'question',
    message: `${typed.map((count) => counted(Number(count), 'rep')).join(' and ')}?`,
    suggested: { text, value: answers },
    insisted: null,
  }
}

type Question = Extract<Reading<Answer[]>, { outcome: 'question' }>

/** A question about the empty field is not about anything typed: Enter keeps what the clock measured. */
function questionOf(
  draft: string,
  prompts: readonly Prompt[],
  { message, suggested, insisted }: Question,
): Pick<
  Extract<RecorderModel['mode'], { kind: 'question' }>,
  'message' | 'suggested' | 'insisted' | 'byClock'
> {
  const [prompt] = prompts
  const offered = prompt?.kind === 'interval' || prompt?.kind === 'set' ? prompt.offered : null
  if (draft.trim() !== '' || offered === null || !insisted) return { message, suggested, insisted }
  const clock = formatClockShort(offered)
  return {
    message: `${clock} by the clock: ${message}`,
    suggested: { text: `${clock}, timed by you`, value: insisted },
    insisted: null,
    byClock: true,
  }
}

/** Enter ends a hold that is under way: its length is what the clock shows now. */
function withHoldEnded({ state, now }: RecorderModel): SessionState {
  const step = holdUnderWay(state)
  return step ? applyEvent(state, { type: 'effortEnded', ...whenOf(now), step: step.id, auto: false }) : state
}
