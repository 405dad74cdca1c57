import { cutCount } from '../figures/cutting.ts'
import { type Cut, type CutLine, cutOf } from './cut.ts'
import { cutItem, withSets } from './cutItem.ts'
import type { LiftItem, Prescription, RunItem } from './model.ts'
import { itemsOf } from './print.ts'

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
