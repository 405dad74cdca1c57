import type { Step } from '../../prescription/step.ts'
import { elapsedSeconds, localTimeOf, momentOf } from '../../session/clock.ts'
import { describeEmpty } from '../../session/entry/entry.ts'
import { promptedStep, promptOf, stepsToPrompt } from '../../session/prompt.ts'
import { pendingSteps, type SessionState, stepOf, stepUnderWay } from '../../session/state.ts'
import { changeRest } from '../apply.ts'
import { advanceLabel, command, keyRows } from '../keys.ts'
import { entryTitle, stepTitle, warmUpPlace } from '../labels.ts'
import {
  closesText,
  holdUnderWay,
  isOffered,
  type RecorderModel,
  stay,
  stepNow,
  withNotice,
} from '../model.ts'
import { readTyped } from '../record.ts'
import { insteadOfResult } from './insteadOfResult.ts'
import type { ModeObject } from './mode.ts'

/** What goes on with the day, and what takes a wrong key back. */
const vital = new Set(['Space', 'Enter', 'u'])

/** Keys that act even while the field holds something, because they are not text. */
const typing = new Set(['Enter', '↑ ↓'])

/** The field is about the next result; a letter in the empty field is a command. */
export const recordingMode: ModeObject<'recording'> = {
  prompt: ({ state, draft }) => {
    const step = promptedStep(state)
    const warmUp = stepNow(state)
    if (warmUp?.kind === 'warm-up' && draft === '' && pendingSteps(state).length === 0) {
      const { number, of } = warmUpPlace(state, warmUp)
      return {
        label: `warm-up set ${number} of ${of}`,
        short: `warm-up ${number}/${of}`,
        placeholder: `no result: Space ${stepUnderWay(state) === warmUp ? 'ends it' : 'begins'}`,
        isField: true,
      }
    }
    const prompt = step ? promptOf(state, step.id) : null
    if (!step || !prompt) return { label: 'all recorded', placeholder: closesText(state), isField: true }
    const isHeld = holdUnderWay(state)?.id === step.id
    const offered = isHeld ? 'as long as held' : isOffered(state, step) ? describeEmpty(prompt) : null
    return {
      ...entryTitle(state, step),
      placeholder: offered === null ? 'type the result' : `Enter: ${offered}`,
      isField: true,
    }
  },
  hints: (model) => {
    const does = keyRows.filter((row) => row.unavailable(model) === null).sort((a, b) => a.rank - b.rank)
    if (model.draft !== '')
      return [
        ...does.filter(({ key }) => typing.has(key)).map(({ key, label }) => ({ key, label })),
        { key: 'Esc', label: 'clear' },
      ]
    return does.map(({ key, label }) => ({
      key,
      label: labelNow(key, label, model),
      ...(vital.has(key) ? { isVital: true } : {}),
    }))
  },
  onKey: (model, _, pressed, context) =>
    pressed === 'up' || pressed === 'down'
      ? changeRest(model, pressed === 'up' ? 1 : -1, context)
      : command(model, pressed, context),
  onEnter: (model, _, context) => {
    const step = promptedStep(model.state)
    if (!step) return withNotice(model, 'no result is asked for now')
    if (model.draft.trim() === '' && (!isOffered(model.state, step) || isPressedTwice(model, step)))
      return withNotice(model, nothingToEnter(model.state, step))
    const done = doneBySpace(model)
    const already = done && `done already: ${stepTitle(done)}; Enter again: ${stepTitle(step)} too`
    if (already && model.draft.trim() === '' && step.kind === 'prep' && model.notice !== already)
      return withNotice(model, already)
    const instead = insteadOfResult(model, step, context)
    if (instead) return instead
    // A result has at least one character: a day of thousands of repeats would take seconds otherwise.
    const others = stepsToPrompt(model.state)
      .slice(0, model.draft.length + 1)
      .filter((each) => each.id !== step.id)
    return readTyped(model, [step, ...others], context)
  },
  onEscape: (model) => stay({ ...model, draft: '', notice: null }),
}

/** What a key does now, where that is not always the same. */
function labelNow(key: string, label: string, model: RecorderModel): string {
  if (key === 'Space') return advanceLabel(model)
  return key === 'h' && model.state.stopped ? 'start clock' : label
}

/** So long after a result another Enter is the same key pressed twice, in seconds. This program's own rule. */
const twiceSeconds = 2

/** Whether a result was recorded just now and the set after it has not begun. */
function isPressedTwice({ state, echo, now }: RecorderModel, step: Step): boolean {
  if (pendingSteps(state).length > 0 || stepUnderWay(state)?.id === step.id || step.kind !== 'set')
    return false
  return echo !== null && elapsedSeconds(echo.at, now) < twiceSeconds
}

/** Seconds after Space in which Enter is taken for the usual Enter after a set (this program's own rule). */
const habitSeconds = 5

/** The prep item that Space has just ended and recorded: an Enter right after it is meant for that item. */
function doneBySpace({ events, state, now, echo }: RecorderModel): Step | null {
  const [ended, recorded] = events.slice(-2)
  if (ended?.type !== 'effortEnded' || recorded?.type !== 'prepRecorded') return null
  const at = momentOf(recorded, state.boot)
  if (at === null || elapsedSeconds(at, now) > habitSeconds) return null
  // Enter echoes what it records, Space does not.
  const isByEnter = echo !== null && localTimeOf(echo.at) === recorded.at
  return isByEnter ? null : stepOf(state, recorded.step)
}

function nothingToEnter(state: SessionState, step: Step): string {
  const title = stepTitle(step)
  const underWay = stepUnderWay(state)
  if (underWay?.id === step.id) return `${title} is under way: Space ends it, or type its time`
  if (underWay)
    return `nothing to enter yet: Space ends the ${stepTitle(underWay)}, or type the result of ${title}`
  const now = stepNow(state)
  if (now?.kind === 'warm-up')
    return `nothing to enter yet: Space begins the ${stepTitle(now)}, or type the result of ${title}`
  return `nothing to enter yet: Space begins ${title}, or type its result`
}
