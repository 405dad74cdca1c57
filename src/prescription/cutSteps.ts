import { cutCount } from '../figures/cutting.ts'
import { expectedSeconds, recoverySecondsPerMeter, secondsOfSet } from './expectedStep.ts'
import type { Prescription } from './model.ts'
import type { PieceStep, SetStep, Step } from './step.ts'

/** Seconds that these steps take together, rests included; to be said as rough. */
export function expectedSecondsOf(steps: readonly Step[], prescription: Prescription): number {
  let sum = 0
  let round = 0
  let meters = 0
  const ends = new Map(steps.filter(isSet).map((step) => [`${step.part}.${step.item}`, step]))
  for (const step of steps) {
    // Behind the last set of an item that is left there is no rest.
    const isEnd = step.kind === 'set' && ends.get(`${step.part}.${step.item}`) === step
    const alone = isEnd ? secondsOfSet(step) : expectedSeconds(step, prescription)
    if (step.kind === 'piece') meters = step.meters ?? 0
    // The way back is as long as what was just run.
    if (step.kind === 'recovery' && step.way !== null) sum += meters * recoverySecondsPerMeter[step.move]
    if (step.kind !== 'set' || step.every === null || !step.superset) sum += alone
    else if (step.pauseAfter !== null) {
      round += alone
      sum += alone
    } else {
      // A round begins at every such time, however many exercises are in it.
      const own = secondsOfSet(step)
      sum += isEnd ? own : Math.max(own, step.every - round)
      round = 0
    }
  }
  return sum
}

/** Which of the steps ahead go, so that the rest fits into the minutes that are left, in the order in which a
 * whole day is cut (cutToTime.ts): sets of accessories from the end, then accessories whole, then easy running
 * from the end, then sets of the main lift from the end, half of them stay. What has a target stays, and so
 * does the first running. Invented, after the common advice. */
export function cutToMinutes(ahead: readonly Step[], minutes: number, prescription: Prescription): Step[] {
  const gone = new Set<Step>()
  const left = () => ahead.filter((step) => !gone.has(step))
  const isEnough = () => expectedSecondsOf(left(), prescription) <= minutes * 60
  const drop = (steps: readonly Step[]) => {
    for (const step of steps) if (!isEnough()) for (const each of stepWithRound(step, left())) gone.add(each)
  }
  const main = mainItem(ahead)
  const sets = ahead.filter(isSet)
  const accessories = sets.filter((step) => !isOf(step, main))
  const pieces = ahead.filter((step): step is PieceStep => step.kind === 'piece')
  drop(reversed(accessories.filter((step) => step.number > 1)))
  drop(reversed(accessories))
  drop(reversed(pieces.filter((step) => step !== pieces[0] && step.target?.seconds == null)))
  drop(reversed(sets.filter((step) => isOf(step, main) && step.number > cutCount(step.of, 0.5))))
  for (const step of ahead) if (isOnlyWalked(step) && !leadsAnywhere(step, ahead, gone)) gone.add(step)
  return ahead.filter((step) => gone.has(step))
}

function isSet(step: Step): step is SetStep {
  return step.kind === 'set'
}

function isOnlyWalked(step: Step): boolean {
  return step.kind === 'recovery' || step.kind === 'ramp'
}

/** Whether a recovery or a ramp set still has something of its item behind it. */
function leadsAnywhere(step: Step, ahead: readonly Step[], gone: ReadonlySet<Step>): boolean {
  const behind = ahead.slice(ahead.indexOf(step) + 1).find((each) => !isOnlyWalked(each))
  if (!behind || behind.part !== step.part || (step.kind === 'ramp' && behind.item !== step.item))
    return false
  return !gone.has(behind)
}

/** A round goes whole. */
function stepWithRound(step: Step, left: readonly Step[]): Step[] {
  if (step.kind !== 'set') return [step]
  return left.filter(
    (each) =>
      each.kind === 'set' &&
      each.part === step.part &&
      each.item === step.item &&
      each.number === step.number,
  )
}

function mainItem(ahead: readonly Step[]): Step | null {
  return ahead.find((step) => step.kind === 'set') ?? null
}

function isOf(step: Step, main: Step | null): boolean {
  return main !== null && step.part === main.part && step.item === main.item
}

function reversed<T>(list: readonly T[]): T[] {
  return [...list].reverse()
}
