import type { Step } from '../prescription/step.ts'
import { whenOf } from '../session/clock.ts'
import { readEntry } from '../session/entry/entry.ts'
import { sumOfFoods } from '../session/entry/foods.ts'
import { printEntry } from '../session/entry/print.ts'
import { type EntriesReading, readEntries } from '../session/entry/several.ts'
import type { SessionEvent } from '../session/model.ts'
import { answerEvents } from '../session/press.ts'
import { type Answer, type Prompt, promptOf } from '../session/prompt.ts'
import { applyEvent } from '../session/reduce.ts'
import { openSteps, type SessionState, stepOf } from '../session/state.ts'
import { formatClockShort } from '../units/duration.ts'
import { applied } from './apply.ts'
import { holdUnderWay } from './availability.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { painText } from './warnings.ts'

/** Records answers for steps, in order, and echoes what was taken. The field is free again. */
export function record(
  model: RecorderModel,
  steps: string[],
  answers: Answer[],
  context: RecorderContext,
): Updated {
  const texts: string[] = []
  const events: SessionEvent[] = []
  let { state } = model
  answers.forEach((answer, index) => {
    const step = stepOf(state, steps[index] ?? '')
    const asked = step ? promptOf(state, step.id) : null
    if (!step || !asked) return
    texts.push(
      answer.kind === 'skipped' ? 'skipped' : printEntry(answer, withoutOffer(asked)).replace(/^=/, 'done'),
    )
    const made = answerEvents(state, step, answer, model.now)
    state = made.reduce((before, event) => applyEvent(before, event).state, state)
    events.push(...made)
  })
  const echo = { text: texts.join('  '), at: model.now }
  const free = {
    ...model,
    mode: { kind: 'recording' as const },
    draft: '',
    notice: answers.map(painOf).find((text) => text !== null) ?? null,
    echo,
    pressedOnce: null,
  }
  return applied(free, events, context)
}

function painOf(answer: Answer): string | null {
  return answer.kind === 'skipped'
    ? painText(answer.note, answer.pain)
    : painText(answer.result.note, answer.result.pain)
}

/** What was measured is echoed as a time, not as "the offer was taken". */
function withoutOffer<A extends ReturnType<typeof promptOf>>(asked: A): A {
  return asked?.kind === 'piece' ? { ...asked, offered: null } : asked
}

/** Reads the field for these steps, in order, and records, shows or questions what it says. */
export function readTyped(model: RecorderModel, steps: Step[], context: RecorderContext): Updated {
  const ended = withHoldEnded(model)
  const asked = steps.map((step) => promptOf(ended, step.id)).filter((each): each is Prompt => each !== null)
  const reading =
    mealOfFoods(model.draft, asked, context) ??
    repetitionsInRow(model, asked) ??
    readEntries(model.draft, asked)
  const ids = steps.map((step) => step.id)
  switch (reading.outcome) {
    case 'error':
      return said(model, reading.message)
    case 'answers':
      return reading.answers.length === 1
        ? record(model, ids, reading.answers, context)
        : {
            model: {
              ...model,
              mode: { kind: 'several', steps: ids, answers: reading.answers, back: model.mode },
              notice: null,
            },
            effects: [],
          }
    case 'question':
      return {
        model: {
          ...model,
          mode: {
            kind: 'question',
            ...questionOf(model.draft, asked, reading),
            steps: ids,
            back: model.mode,
          },
          notice: null,
        },
        effects: [],
      }
  }
}

/** `2 eggs, banana, 80 g oats`: a question with the sum and what is not known. Null for anything else. */
function mealOfFoods(
  draft: string,
  asked: readonly Prompt[],
  { foods }: RecorderContext,
): EntriesReading | null {
  const [prompt] = asked
  if (prompt?.kind !== 'fuel' || foods === undefined) return null
  const sum = sumOfFoods(draft, foods())
  if (sum === null) return null
  const caffeine = sum.caffeineMg === null ? '' : `; caffeine ${sum.caffeineMg} mg`
  const unknown = sum.unknown.length === 0 ? '' : `; not known, so not in it: ${sum.unknown.join(', ')}`
  const text = `${sum.text} "${draft.trim()}"`
  const reading = readEntry(text, prompt)
  if (reading.outcome !== 'answer') return null
  return {
    outcome: 'question',
    message: `${sum.text}${caffeine}${unknown}?`,
    suggested: { text, answers: [reading.answer] },
    insisted: null,
  }
}

/** Bare numbers for as many sets that are open, `3 3`, each near what was asked: a question, for it may be a load that
 * lacks its x. Null for anything else. */
function repetitionsInRow(model: RecorderModel, asked: readonly Prompt[]): EntriesReading | null {
  const typed = /^\d+(\s+\d+)+$/.test(model.draft.trim()) ? model.draft.trim().split(/\s+/) : []
  if (typed.length < 2 || typed.length > openSteps(model.state).length) return null
  const answers: Answer[] = []
  for (const [index, count] of typed.entries()) {
    const prompt = asked[index]
    if (prompt?.kind !== 'set' || prompt.dose.kind !== 'reps' || Number(count) > 2 * prompt.dose.to)
      return null
    const reading = readEntry(count, prompt)
    if (reading.outcome !== 'answer') return null
    answers.push(reading.answer)
  }
  const text = answers.map((answer, index) => printEntry(answer, asked[index] as Prompt)).join(', ')
  return {
    outcome: 'question',
    message: `${typed.map((count) => `${count} ${count === '1' ? 'rep' : 'reps'}`).join(' and ')}?`,
    suggested: { text, answers },
    insisted: null,
  }
}

type Question = Extract<EntriesReading, { outcome: 'question' }>

/** A question about the empty field is not about what was typed: Enter keeps what the clock took. */
function questionOf(
  draft: string,
  asked: readonly Prompt[],
  { message, suggested, insisted }: Question,
): Pick<
  Extract<RecorderModel['mode'], { kind: 'question' }>,
  'message' | 'suggested' | 'insisted' | 'byClock'
> {
  const [prompt] = asked
  const offered = prompt?.kind === 'piece' || prompt?.kind === 'set' ? prompt.offered : null
  if (draft.trim() !== '' || offered === null || !insisted) return { message, suggested, insisted }
  const clock = formatClockShort(offered)
  return {
    message: `${clock} by the clock: ${message}`,
    suggested: { text: `${clock}, timed by you`, answers: insisted },
    insisted: null,
    byClock: true,
  }
}

/** Enter ends a hold that is under way: what it then was is what the clock says now. */
function withHoldEnded({ state, now }: RecorderModel): SessionState {
  const step = holdUnderWay(state)
  return step
    ? applyEvent(state, { type: 'effortEnded', ...whenOf(now), step: step.id, auto: false }).state
    : state
}

/** Takes these answers for these steps. */
export function take(
  model: RecorderModel,
  steps: string[],
  answers: Answer[] | null,
  context: RecorderContext,
): Updated {
  return answers ? record(model, steps, answers, context) : said(model, 'it cannot be taken as it stands')
}

function said(model: RecorderModel, notice: string): Updated {
  return { model: { ...model, notice }, effects: [] }
}
