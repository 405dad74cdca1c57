import type { Step } from '../prescription/step.ts'
import type { Moment } from '../session/clock.ts'
import { effortWording } from '../session/entry/effort.ts'
import { stepOf, type WalkState } from '../session/state.ts'
import { formatClock } from '../units/duration.ts'
import { clockText } from './clockText.ts'
import { openInPart } from './command.ts'
import { keyRows } from './keys.ts'
import { partTitle, resultText, stepTitle } from './labels.ts'
import { itemsAhead, recordedSteps } from './lists.ts'
import type { RecorderModel } from './model.ts'

/** A list, a question or a page, in the place of what is now. */
export interface Panel {
  title: string
  lines: string[]
  /** The line that is picked; null where there is nothing to pick. */
  selected: number | null
  /** How far the lines of a wrapped line stand in. */
  hang: number
  /** The same in fewer lines, behind one another, for little room; null where each needs a line of its own. */
  compact: string[] | null
  /** The line at which a page that is longer than its room begins. */
  top: number
}

/** What is shown in this mode; null while recording. */
export function panelOf(model: RecorderModel, now: Moment): Panel | null {
  const panel = listOf(model, now)
  return panel && { hang: 2, compact: null, ...panel, top: model.mode.kind === 'help' ? model.mode.top : 0 }
}

type Listed = Pick<Panel, 'title' | 'lines' | 'selected'> & Partial<Pick<Panel, 'hang' | 'compact'>>

function listOf(model: RecorderModel, now: Moment): Listed | null {
  const { state, mode } = model
  const unit = state.prescription.units.distance
  switch (mode.kind) {
    case 'question':
      return {
        title: mode.message,
        lines: [...(mode.suggested ? [`meant: ${mode.suggested.text}`] : []), clockLine(state, now)],
        selected: null,
      }
    case 'several':
      return {
        title: 'these results, in order',
        lines: mode.answers.map((answer, index) => {
          const step = stepOf(state, mode.steps[index] ?? '')
          const seconds = answer.kind === 'piece' ? answer.result.seconds : null
          return `${step ? stepTitle(step, unit) : ''}  ${seconds === null ? 'done' : formatClock(seconds, 1).replace(/\.0$/, '')}`
        }),
        selected: null,
      }
    case 'undoing':
      return { title: `take back ${mode.what}?`, lines: [clockLine(state, now)], selected: null }
    case 'picking': {
      const steps = recordedSteps(state)
      return {
        title: 'correct which result?',
        lines: steps.map(
          (step) => `${itemName(state, step)}${stepTitle(step, unit)}: ${resultText(state, step) ?? ''}`,
        ),
        selected: mode.index,
      }
    }
    case 'ordering':
      return {
        title: mode.carrying ? 'move it with the arrows' : 'the order of what is left',
        lines: itemsAhead(state).map((step) => state.parts[step.part]?.items[step.item]?.text ?? ''),
        selected: mode.index,
      }
    case 'swapping':
      return { title: 'another exercise from here on', lines: namesUsed(state), selected: null }
    case 'cutOffered':
      return { title: `to fit into ${mode.minutes} min`, lines: mode.lines, selected: null }
    case 'closing': {
      const title = { effort: 'how hard was', minutes: 'how many minutes took', confirm: 'close' }[mode.stage]
      const asked = mode.stage === 'confirm' ? '' : mode.stage === 'effort' ? ', as a whole?' : '?'
      const scale = mode.stage === 'effort' ? effortWording : []
      const words = scale.map(({ value, words: said }) => `${String(value).padStart(2)}  ${said}`)
      return {
        title: openInPart(model, mode.part) ?? `${title} ${partTitle(state, mode.part)}${asked}`,
        lines: mode.stage === 'effort' ? words : mode.stage === 'confirm' ? notDown(state, mode.part) : [],
        selected: null,
        hang: 4,
        compact: scale.length > 0 ? scale.map(({ value, words: said }) => `${value} ${said}`) : null,
      }
    }
    case 'help':
      return {
        title: 'keys',
        lines: keyRows.map((row) => {
          const not = row.unavailable(model)
          return `${row.key.padEnd(6)} ${row.does}${not === null ? '' : ` (not now: ${not})`}`
        }),
        selected: null,
        hang: 7,
      }
    default:
      return null
  }
}

/** The clock runs on behind a question. */
function clockLine(state: WalkState, now: Moment): string {
  const { label, text } = clockText(state, now)
  return `${label} ${text}`
}

function itemName(state: WalkState, step: Step): string {
  if (step.kind === 'set') return step.superset ? '' : `${step.name}, `
  if (step.kind !== 'piece') return ''
  return `${state.parts[step.part]?.kind ?? ''} ${step.item + 1}, `
}

function namesUsed(state: WalkState): string[] {
  const names = state.steps.flatMap((step) => (step.kind === 'set' ? [step.name] : []))
  return [...new Set(names)]
}

/** What of a part is not put down yet, a line each. */
function notDown(state: WalkState, part: number): string[] {
  const left = state.steps.filter(
    (step) => step.part === part && !state.recorded.has(step.id) && !state.skipped.has(step.id),
  )
  return left.map((step) => `not put down: ${stepTitle(step)}`)
}
