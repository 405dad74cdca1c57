import type { Answer } from '../session/asked.ts'
import { askedOf } from '../session/asking.ts'
import { printEntry } from '../session/entryPrint.ts'
import type { SessionEvent } from '../session/model.ts'
import { answerEvents } from '../session/press.ts'
import { stepOf } from '../session/state.ts'
import { walk } from '../session/walk.ts'
import { applied } from './apply.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'

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
    const asked = step ? askedOf(state, step.id) : null
    if (!step || !asked) return
    texts.push(
      answer.kind === 'skipped' ? 'skipped' : printEntry(answer, withoutOffer(asked)).replace(/^=/, 'done'),
    )
    const made = answerEvents(state, step, answer, model.now)
    state = made.reduce((before, event) => walk(before, event).state, state)
    events.push(...made)
  })
  const echo = { text: texts.join('  '), at: model.now }
  const free = {
    ...model,
    mode: { kind: 'recording' as const },
    draft: '',
    notice: null,
    echo,
    pressedOnce: null,
  }
  return applied(free, events, context)
}

/** What was measured is echoed as a time, not as "the offer was taken". */
function withoutOffer<A extends ReturnType<typeof askedOf>>(asked: A): A {
  return asked?.kind === 'piece' ? { ...asked, offered: null } : asked
}
