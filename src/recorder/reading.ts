import type { Step } from '../prescription/step.ts'
import type { Answer, Asked } from '../session/asked.ts'
import { askedOf } from '../session/asking.ts'
import { whenOf } from '../session/clock.ts'
import { readEntries } from '../session/entrySeveral.ts'
import type { WalkState } from '../session/state.ts'
import { walk } from '../session/walk.ts'
import { holdUnderWay } from './availability.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { record } from './record.ts'

/** Reads the field for these steps, in order, and records, shows or questions what it says. */
export function readTyped(model: RecorderModel, steps: Step[], context: RecorderContext): Updated {
  const ended = withHoldEnded(model)
  const asked = steps.map((step) => askedOf(ended, step.id)).filter((each): each is Asked => each !== null)
  const reading = readEntries(model.draft, asked)
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
            message: reading.message,
            steps: ids,
            suggested: reading.suggested,
            insisted: reading.insisted,
            back: model.mode,
          },
          notice: null,
        },
        effects: [],
      }
  }
}

/** Enter ends a hold that is under way: what it then was is what the clock says now. */
function withHoldEnded({ state, now }: RecorderModel): WalkState {
  const step = holdUnderWay(state)
  return step ? walk(state, { type: 'effortEnded', ...whenOf(now), step: step.id, auto: false }).state : state
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
