import { type Equipment, loadBar } from '../figures/bar.ts'
import { judge } from '../figures/splits.ts'
import { exerciseKey, isOnBar } from '../prescription/exercise.ts'
import type { Dose } from '../prescription/model.ts'
import { printDose, printLoad, printSpan } from '../prescription/print.ts'
import { isSameItem, type SetStep, type Step, type WarmUpStep } from '../prescription/step.ts'
import { printEntry } from '../session/entry/entry.ts'
import { loadText, maximumOf, shortLoadText, shownLoadOf } from '../session/load.ts'
import { placeOf, stepTitle } from '../session/names.ts'
import { type Prompt, promptOf } from '../session/prompt.ts'
import type { LiftedLoad } from '../session/result.ts'
import { intervalsOf, isPrompted, resultOf, type SessionState } from '../session/state.ts'
import type { SplitBar } from '../summary/splitBars.ts'
import { printNumber } from '../units/decimal.ts'
import { formatClock, formatClockShort } from '../units/duration.ts'
import { formatMass } from '../units/mass.ts'
import { type RecorderModel, stepNow } from './model.ts'

/** Which warm-up set of its item this is, from 1. */
export function warmUpPlace(state: SessionState, warmUp: Step): { number: number; of: number } {
  const all = state.steps.filter((each) => each.kind === 'warm-up' && isSameItem(each, warmUp))
  return { number: all.indexOf(warmUp as WarmUpStep) + 1, of: all.length }
}

/** The label of the field, a set with its exercise: "front squat, set 3 of 5"; short "set 3 of 5" while that exercise is
 * shown above, else "front squat". Where another line has the same exercise, the number of the line comes before the set,
 * as in the head: "front squat, lift 2, set 1 of 1". */
export function entryTitle(state: SessionState, step: Step): { label: string; short?: string } {
  if (step.kind !== 'set') return { label: stepTitle(step, state.prescription.units.distance) }
  const isTwice = state.steps.some(
    (each) => each.kind === 'set' && each.name === step.name && !isSameItem(each, step),
  )
  const set = placeOf(step)
  const line = lineTitle(state, step).label
  if (isTwice)
    return { label: `${step.name}, ${line}, ${set}`, short: `${line}, set ${step.number}/${step.of}` }
  const shown = stepNow(state)
  const isShown = shown?.kind === 'set' && shown.name === step.name
  return { label: `${step.name}, ${set}`, short: isShown ? set : step.name }
}

/** Which line of all parts of its kind an item is, `lift 4`, and how many there are. */
export function lineTitle({ parts }: SessionState, { part, item }: Step): { label: string; of: number } {
  const kind = parts[part]?.kind ?? ''
  const countIn = (some: typeof parts) =>
    some.reduce((sum, each) => sum + (each.kind === kind ? each.items.length : 0), 0)
  return { label: `${kind} ${countIn(parts.slice(0, part)) + item + 1}`, of: countIn(parts) }
}

/** A recorded result: `1+1+1 x 92.5 @8`, `1:49.2`; `done` without figures, `-` if skipped; null if nothing is
 * recorded. */
export function resultText(state: SessionState, step: Step): string | null {
  return typedText(state, step).replace(/^=/, 'done') || null
}

/** A recorded result as it would be typed, for editing; empty if nothing is recorded. */
export function typedText(state: SessionState, step: Step): string {
  if (state.skipped.has(step.id)) return '-'
  const recorded = state.recorded.get(step.id)
  const prompt = recorded ? promptOf(state, step.id) : null
  return recorded && prompt ? printEntry(recorded, withoutOffer(prompt)) : ''
}

/** The prompt under which a measured time is printed as a time, not as "the offer was taken". */
export function withoutOffer(prompt: Prompt): Prompt {
  return prompt.kind === 'interval' ? { ...prompt, offered: null } : prompt
}

/** The results of an item in a row, equal ones merged: `1+1+1 x 92.5 @8, 3 times; 1+1+1 x 92.5 @9`. */
export function resultsText(state: SessionState, steps: readonly Step[]): string {
  const texts = steps.map((step) => resultText(state, step)).filter((text): text is string => text !== null)
  const rows: { text: string; times: number }[] = []
  for (const text of texts) {
    const last = rows.at(-1)
    if (last?.text === text) last.times += 1
    else rows.push({ text, times: 1 })
  }
  const isRepeated = rows.some(({ times }) => times > 1)
  return rows.map(({ text, times }) => repeatedText(text, times)).join(isRepeated ? '; ' : ', ')
}

function repeatedText(text: string, times: number): string {
  if (text === '-') return times > 1 ? `${times} skipped` : 'skipped'
  return times === 1 ? text : `${text}, ${times === 2 ? 'twice' : `${times} times`}`
}

/** The dose: `3`, `8-10`, `5+`, `1+1+1`, `max`, `0:45`, `40 m`. */
export function doseText(dose: Dose): string {
  switch (dose.kind) {
    case 'cluster':
      return dose.groups.join('+')
    case 'time':
      return formatClock(dose.seconds)
    case 'drop':
      return dose.reps.join('>')
    case 'complex':
      return dose.lifts.map(({ reps }) => reps).join('+')
    default:
      return printDose(dose)
  }
}

/** The bare number of a load, for the large digits; null without a load. */
export function loadNumber(load: LiftedLoad | null): string | null {
  if (!load || (load.kind === 'bodyweight' && load.added === 0)) return null
  return shortLoadText(load).replace('bw', '')
}

/** The plates for each side of the bar: `25 + 10 + 1.25 a side`, `the bar alone`; null if there is no bar, or
 * the load cannot be made. */
export function platesText(load: { value: number; unit: 'kg' | 'lb' }, equipment: Equipment): string | null {
  if (load.value < equipment.bar) return null
  const side = loadBar(load.value, equipment).exact?.side
  if (!side) return null
  return side.length === 0 ? 'the bar alone' : `${side.map(printNumber).join(' + ')} a side`
}

/** The load of a set in words, with its plates and the source of a percentage; only the effort if the load is
 * unknown. */
export function setLoadText({ state, context }: RecorderModel, step: SetStep): string {
  const { shown } = shownLoadOf(state, step)
  const effort = step.rpe ? `rpe ${printSpan(step.rpe)}` : ''
  if (!shown) return effort
  const equipment = context.equipmentOf(shown.unit, state.prescription, step.name)
  const onBar = shown.kind === 'mass' && !shown.pair && isOnBar(step.name, equipment)
  const plates = onBar ? platesText(shown, equipment) : null
  const from = fromText(state, step)
  const lower = step.dose.kind === 'drop' ? step.dose.lower.map((load) => `then ${printLoad(load)}`) : []
  return [loadText(shown) + (plates ? `: ${plates}` : ''), ...lower, from, effort].filter(Boolean).join(', ')
}

/** The source of a load by percent or from last time; empty for any other. */
function fromText(state: SessionState, { load, name }: SetStep): string {
  if (load?.kind === 'percent') return `${printSpan(load)} % of ${basisText(state, name)}`
  const isSame = (each: { name: string }) => exerciseKey(each.name) === exerciseKey(name)
  const last = load?.kind === 'last' ? state.lastLoads.find(isSame) : undefined
  if (load?.kind !== 'last' || last === undefined) return ''
  const more = last.isKept ? 'the same after a failed or painful set' : printLoad(load)
  return `${more} (${loadText(last.load)} on ${last.date})`
}

function basisText(state: SessionState, name: string): string {
  const maximum = maximumOf(state, name)
  if (!maximum) return 'an unknown maximum'
  return `${formatMass(maximum.mass)} (${maximum.basis})`
}

/** What was said of a part when it was closed: `effort 7`, `62 min`. */
export function saidOfPart(effort: number | null, minutes: number | null): string[] {
  return [
    ...(effort === null ? [] : [`effort ${effort}`]),
    ...(minutes === null ? [] : [`${Math.round(minutes)} min`]),
  ]
}

/** A recorded split of the current item, for its bar. */
export interface SplitShown extends SplitBar {
  /** Its number. */
  label: string
  /** Its time: `1:48.2`. */
  text: string
}

/** The recorded splits or repeats of the current work. */
export function splitsNow(state: SessionState): SplitShown[] {
  const now = stepNow(state)
  if (now?.kind !== 'interval' && now?.kind !== 'recovery') return []
  const intervals = intervalsOf(state, now).filter((step) => step.of > 1)
  const work = now.kind === 'interval' ? now.work : intervals[0]?.work
  return intervals.flatMap((step) => {
    const { seconds = null, precision = null } = resultOf(state, step) ?? {}
    if (step.work !== work || seconds === null) return []
    const range = step.target?.seconds ?? null
    const target = range ? judge(seconds, range, precision ?? 1) : null
    return [{ label: `${step.number}`, text: formatClockShort(seconds), value: seconds, range, target }]
  })
}

/** A part of the day on its strip. */
export interface StripPart {
  label: string
  done: number
  /** Its number of results, at least 1. */
  of: number
  isNow: boolean
}

/** How much of each part is done, for the strip of the day. */
export function partsDone(state: SessionState): StripPart[] {
  const now = stepNow(state)
  return state.parts.map((part, index) => {
    const steps = state.steps.filter((step) => step.part === index && isPrompted(step))
    const done = steps.filter((step) => state.passed.has(step.id)).length
    return {
      label: part.kind,
      done,
      of: Math.max(1, steps.length),
      isNow: now?.part === index && !state.finished,
    }
  })
}
