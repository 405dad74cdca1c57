import { cutCount } from '../figures/fuel.ts'
import { type Cut, type CutLine, cutItem, cutOf, withSets } from './cut.ts'
import { expectedSeconds, recoverySecondsPerMeter, secondsOfSet } from './estimate.ts'
import type { LiftItem, Prescription, RunItem } from './model.ts'
import { itemsOf } from './print.ts'
import type { PieceStep, SetStep, Step } from './step.ts'

/* A day cut to the minutes there are. Invented, after the common advice: the main piece and the main lift
 * stay, accessories are paired, lose sets from the end, and go; then easy running; then the main lift's sets. */

type Minutes = (prescription: Prescription) => number

/** The day cut until it is expected to fit, and whether it does.
 * @param minutes more than 0
 * @param expectedMinutes how long a day is expected to take */
export function cutToTime(
  prescription: Prescription,
  minutes: number,
  expectedMinutes: Minutes,
): Cut & { fits: boolean } {
  if (!(minutes > 0)) throw new RangeError(`The minutes must be more than 0, but are ${minutes}.`)
  const lines = prescription.parts.map((part) =>
    itemsOf(part).map((was): CutLine => ({ was, is: was, changes: [] })),
  )
  const isEnough = () => expectedMinutes(cutOf(prescription, lines).prescription) <= minutes
  const ways = [pairs, accessorySets, accessories, easyRunning, mainSets]
  for (const way of ways)
    for (const cutOnce of way(lines, prescription)) {
      if (isEnough()) break
      cutOnce()
    }
  return { ...cutOf(prescription, lines), fits: isEnough() }
}

type CutOnce = () => void

function liftLines(lines: CutLine[][]): CutLine[] {
  return lines.flat().filter(({ was }) => 'exercises' in was)
}

/** All lift lines but the first of the day, the last first. */
function accessoryLines(lines: CutLine[][]): CutLine[] {
  return liftLines(lines).slice(1).reverse()
}

/** Two accessories one after the other, each an exercise of its own with nothing but a rest, become a superset. */
function pairs(lines: CutLine[][]): CutOnce[] {
  const main = liftLines(lines)[0]
  return lines.flatMap((part) =>
    part.map((second, index) => () => {
      const first = part[index - 1]
      if (first === undefined || first === main || first.is === null || second.is === null) return
      if (!isPlain(first.is) || !isPlain(second.is)) return
      const rests = [first.is.rest, second.is.rest].flatMap((rest) => (rest === null ? [] : [rest]))
      const rest = rests.sort((a, b) => b.to - a.to)[0] ?? null
      const notes = [...first.is.notes, ...second.is.notes]
      first.is = { ...first.is, exercises: [...first.is.exercises, ...second.is.exercises], rest, notes }
      first.changes.push('paired with the next')
      second.is = null
      second.gone = 'paired with the one before'
    }),
  )
}

function isPlain(item: CutLine['was']): item is LiftItem {
  if (!('exercises' in item) || item.exercises.length > 1) return false
  const isCluster = item.exercises.some(({ sets }) => sets.some(({ dose }) => dose.kind === 'cluster'))
  return (
    !isCluster && item.every === null && item.tempo === null && item.buildFrom === null && item.pause === null
  )
}

/** One set, or round, off the end of each accessory after the other, the last first, down to one. */
function accessorySets(lines: CutLine[][]): CutOnce[] {
  return setByset(accessoryLines(lines), () => 1)
}

/** The main lift down to half its sets. */
function mainSets(lines: CutLine[][]): CutOnce[] {
  return setByset(liftLines(lines).slice(0, 1), (count) => cutCount(count, 0.5))
}

const mostCuts = 100

function setByset(lines: CutLine[], leastOf: (count: number) => number): CutOnce[] {
  const setsOf = (item: CutLine['is']) =>
    item !== null && 'exercises' in item ? Math.max(...item.exercises.map(({ sets }) => sets.length)) : 0
  const most = Math.max(0, ...lines.map(({ was, is }) => Math.max(setsOf(was), setsOf(is))))
  const step = Math.max(1, Math.ceil((most * lines.length) / mostCuts))
  const rounds = Array.from({ length: Math.ceil(most / step) }, (_, round) => most - (round + 1) * step)
  return rounds.flatMap((left) =>
    lines.map((line) => () => {
      const { is } = line
      if (is === null || !('exercises' in is)) return
      const cut = withSets(is, (count) => Math.min(count, Math.max(leastOf(setsOf(line.was)), left, 1)))
      if (cut.changes.length === 0) return
      const others = line.changes.filter((change) => !change.startsWith('was '))
      const was = line.changes.find((change) => change.startsWith('was ')) ?? cut.changes[0] ?? ''
      line.changes = [was, ...others]
      line.is = cut.item
    }),
  )
}

/** Whole accessories, the last first. */
function accessories(lines: CutLine[][]): CutOnce[] {
  return accessoryLines(lines).map((line) => () => {
    line.is = null
    line.gone = 'left out'
  })
}

/** Running without a target to hold: first half of it, then all of it, the last first. One piece of running
 * stays in any case. */
function easyRunning(lines: CutLine[][], prescription: Prescription): CutOnce[] {
  const runs = lines.flat().filter(({ was }) => 'step' in was && was.step.kind === 'work')
  const easy = runs.filter(({ was }) => 'step' in was && isEasy(was)).reverse()
  const halves = easy.map((line) => () => {
    if (line.is !== null) Object.assign(line, renamed(cutItem(line.is, 0.5, prescription)))
  })
  const gone = easy.map((line) => () => {
    if (runs.filter(({ is }) => is !== null).length <= 1) return
    line.is = null
    line.changes = []
  })
  return [...halves, ...gone]
}

function renamed({ item, changes }: { item: CutLine['is']; changes: string[] }) {
  return { is: item, changes }
}

function isEasy({ step }: RunItem): boolean {
  if (step.kind === 'recovery' || step.body.kind === 'group') return false
  const { target } = step.body
  return (
    target === null || (target.kind === 'word' && /easy|relaxed|steady|warm-up|cool-down/.test(target.word))
  )
}

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
