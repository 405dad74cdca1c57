import type { SetStep, Step, WarmUpStep } from '../../prescription/step.ts'
import { clockSeconds, elapsedSeconds, localTimeOf, momentOf, whenOf } from '../../session/clock.ts'
import { describeEmpty, printEntry } from '../../session/entry/print.ts'
import { readEntries } from '../../session/entry/several.ts'
import { type Answer, promptedStep, promptOf, stepsToPrompt } from '../../session/prompt.ts'
import type { SetResult } from '../../session/result.ts'
import { pendingSteps, type SessionState, stepOf } from '../../session/state.ts'
import { notedText, noteEvents } from '../changes.ts'
import { advanceLabel, command, keyRows } from '../keys.ts'
import { entryTitle, stepTitle } from '../labels.ts'
import {
  closesText,
  holdUnderWay,
  isOffered,
  isSameItem,
  type RecorderContext,
  type RecorderModel,
  stepNow,
  stepUnderWay,
  type Updated,
  withNotice,
} from '../model.ts'
import { applyEvents, changeRest, changeText, readTyped } from '../record.ts'
import { isWithoutReps, type ModeObject } from './mode.ts'

/** What goes on with the day, and what takes a wrong key back. */
const vital = new Set(['Space', 'Enter', 'u'])

/** Keys that act even while the field holds something, because they are not text. */
const typing = new Set(['Enter', '↑ ↓'])

/** The field is about the next result; a letter in the empty field is a command. */
export const recordingMode: ModeObject<'recording'> = {
  takesText: false,
  panel: () => null,
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
    const question = asksFirst(model, step, context)
    if (question) return question
    // A result has at least one character: a day of thousands of repeats would take seconds otherwise.
    const others = stepsToPrompt(model.state)
      .slice(0, model.draft.length + 1)
      .filter((each) => each.id !== step.id)
    return readTyped(model, [step, ...others], context)
  },
  onEscape: (model) => ({ model: { ...model, draft: '', notice: null }, effects: [] }),
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

/** Which warm-up set of its item this is, from 1. */
function warmUpPlace(state: SessionState, warmUp: Step): { number: number; of: number } {
  const all = state.steps.filter((each) => each.kind === 'warm-up' && isSameItem(each, warmUp))
  return { number: all.indexOf(warmUp as WarmUpStep) + 1, of: all.length }
}

const counts = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight']

/** Asks before Enter records a step that has hardly begun, or not at all; null without a question. */
function asksFirst(model: RecorderModel, step: Step, context: RecorderContext): Updated | null {
  const { state, draft, mode } = model
  const typed = draft.trim()
  const prompt = promptOf(state, step.id)
  if (!prompt || pendingSteps(state).length > 0) return null
  const ask = (message: string, answer: Answer, text: string, corrects?: string): Updated => ({
    model: {
      ...model,
      mode: {
        kind: 'question',
        message,
        steps: [step.id],
        suggested: { text, answers: [answer] },
        insisted: null,
        back: mode,
        ...(corrects === undefined ? {} : { corrects }),
      },
      notice: null,
    },
    effects: [],
  })
  const isUnderWay = stepUnderWay(state)?.id === step.id
  const isSetAhead = step.kind === 'set' && !isUnderWay
  const empty = typed === '' && isSetAhead ? readEntries('', [prompt]) : null
  if (empty?.outcome === 'answers' && empty.answers[0] && isSetAhead) {
    const offered = describeEmpty(prompt) ?? ''
    return ask(
      `Set ${step.number} has not begun. Record ${offered}? Enter yes, Esc back`,
      empty.answers[0],
      offered,
    )
  }
  if (state.stopped) return null
  const isAhead = (step.kind === 'set' || step.kind === 'interval') && !isUnderWay
  if (isAhead && /^(pain\b|")/i.test(typed)) {
    const events = noteEvents(model)
    return applyEvents({ ...model, draft: '', notice: notedText(events, model.state) }, events, context)
  }
  const reading = readEntries(draft, [prompt])
  const answer = reading.outcome === 'answers' && reading.answers.length === 1 ? reading.answers[0] : null
  if (!answer) return null
  if (typed === '' && isUnderWay && step.kind === 'set') {
    const what = early(model, step)
    return what === null
      ? null
      : ask(`Record ${what}? Enter yes, Esc back`, answer, describeEmpty(prompt) ?? '')
  }
  const last = [...state.recorded.keys()].at(-1)
  const before = last === undefined ? null : stepOf(state, last)
  const corrected = before && isSameItem(before, step) ? before : null
  const orCorrects = corrected ? `, e corrects ${stepTitle(corrected)}` : ''
  if (isWithoutReps(typed) && isSetAhead && answer.kind === 'set' && answer.result.load) {
    const { load } = answer.result
    if (saysHowItWent(answer.result)) {
      const whole = printEntry(answer, prompt)
      return ask(
        `Set ${step.number} has not begun. Record ${whole}? Enter yes, Esc back${orCorrects}`,
        answer,
        whole,
        corrected?.id,
      )
    }
    const next = `next: ${describeEmpty({ ...prompt, shown: load, loadUnknown: false } as typeof prompt)}`
    const change = prompt.kind === 'set' ? changeText(typed, prompt, load) : null
    const notice = change === null ? next : `${next}; ${change}`
    const event = { type: 'loadChosen' as const, ...whenOf(model.now), step: step.id, load }
    return applyEvents({ ...model, draft: '', notice }, [event], context)
  }
  const warmUp = stepNow(state)
  if (isSetAhead && warmUp?.kind === 'warm-up') {
    const { number, of } = warmUpPlace(state, warmUp)
    return ask(
      `Warm-up set ${number} of ${of} has no result. Record ${typed} for ${stepTitle(step)}? Enter yes, Esc back`,
      answer,
      `${stepTitle(step)}: ${typed}`,
    )
  }
  if (isSetAhead && isEffortAlone.test(typed)) {
    return ask(
      `Set ${step.number} has not begun. Save it with ${typed}? Enter yes, Esc back${orCorrects}`,
      answer,
      `${describeEmpty(prompt) ?? stepTitle(step)} ${typed}`,
      corrected?.id,
    )
  }
  const isLate =
    typed !== '' && state.phase.kind === 'recovery' && step.kind === 'interval' && answer.kind === 'interval'
  if (!isLate || !corrected) return null
  const title = `Repeat ${step.number}`
  return ask(
    `${title} has not started. Save this time for it? Enter yes, e corrects ${stepTitle(corrected)}`,
    answer,
    `${typed} for repeat ${step.number}`,
    corrected.id,
  )
}

/** Whether a result says more of a set than its load, so that the set must be over. */
function saysHowItWent({ rpe, failed, note, pain }: SetResult): boolean {
  return rpe !== null || failed || note !== null || pain !== null
}

/** `@8`, `rpe 8`, `2 rir`: an effort without repetitions. */
const isEffortAlone = /^((@|rpe|rir)\s*\d+([.,]5)?|\d\s*rir)$/i

/** What Enter would record for a set that cannot be over yet, in words; null for one that can. */
function early({ state, now }: RecorderModel, { dose }: SetStep): string | null {
  const { phase } = state
  if (phase.kind !== 'effort' && phase.kind !== 'pause') return null
  if (dose.kind === 'cluster') {
    const count = dose.groups.length
    const isLast = phase.kind === 'effort' && phase.group >= count - 1
    return isLast ? null : `all ${counts[count] ?? count} groups`
  }
  if (dose.kind !== 'reps' || phase.kind !== 'effort' || clockSeconds(phase, now) >= dose.from) return null
  return `all ${dose.from} ${dose.from === 1 ? 'repetition' : 'repetitions'}`
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
