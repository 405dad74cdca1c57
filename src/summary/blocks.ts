import { workName } from '../session/names.ts'
import type { PaceUnit } from '../units/duration.ts'
import { isAmongChanges } from './changes.ts'
import { estimatePhrases, restPhrases, setsText } from './liftingText.ts'
import { notePhrases } from './notes.ts'
import { type DoneSplit, mealsDone } from './performed.ts'
import {
  conditionsPhrase,
  distanceOf,
  doctorPhrase,
  donePhrase,
  fallenShort,
  fuelPhrases,
  fullPhrases,
  loadPhrase,
  massText,
  partPhrase,
  whenPhrase,
} from './phrases.ts'
import {
  besideText,
  itemPhrases,
  leadPhrase,
  paceText,
  paceUnitOf,
  racePhrases,
  shortPhrases,
  splitsPhrase,
  splitText,
} from './runningText.ts'
import type { SplitBar } from './splitBars.ts'
import type { ExerciseView, SummaryView, WorkView } from './summarise.ts'

/** A heading and what a reader finds under it, in this order. Texts may hold anything that was typed: the writer makes
 * them safe for its format. */
export interface Block {
  kind: 'head' | 'part' | 'list'
  title: string
  says: (string | Row)[]
}

/** The bar of a pace in seconds per kilometre, and the unit in which it is told. */
interface PaceBar extends SplitBar {
  unit: PaceUnit
}

/** Work or an exercise: what was done, and a line for each thing the figures say. */
export interface Row {
  name: string
  /** Beside the name: the time and pace of a run, the mean of repeats, all sets of an exercise; may be empty. */
  lead: string
  /** All splits in one row, in a note; else empty. */
  inARow: string
  /** The splits to be drawn below each other, where the view has bars; else empty. */
  splits: { text: string; beside: string; bar: PaceBar | null }[]
  figures: string[]
}

/** A session in reading order: deviations from the plan and pain come before any figure. The text and the Markdown
 * both write these blocks. */
export function blocksOf(view: SummaryView): Block[] {
  const { summary } = view
  const changed = summary.next.filter(({ decision }) => decision !== 'same')
  return [
    headOf(view),
    ...summary.parts.flatMap((_, index) => partOf(index, view)),
    ...listOf('fuel', fuelPhrases(view)),
    ...listOf('notes', notesLeft(view)),
    ...listOf(
      'next time',
      changed.map(({ item, reason }) => `${item}: ${reason}`),
    ),
    ...listOf('besides', view.full ? fullPhrases(view) : []),
  ]
}

function headOf(view: SummaryView): Block {
  const { summary, state } = view
  const says = [
    whenPhrase(view),
    doctorPhrase(view.summary.pain),
    donePhrase(view),
    ...notePhrases(state, 'pain'),
    [loadPhrase(view), conditionsPhrase(summary)].filter((text) => text !== '').join(' · '),
  ]
  return { kind: 'head', title: summary.session.title, says: says.filter((line) => line !== '') }
}

/** The notes that no line above has already: not how long the athlete slept, nor why a set fell short, nor what was
 * eaten. */
function notesLeft(view: SummaryView): string[] {
  const named = mealsDone(view.state).filter(({ name, result }) => name !== null && name === result.note)
  const told = new Set([...fallenShort(view).map(({ step }) => step), ...named.map(({ id }) => id)])
  return notePhrases(view.state, 'words', told).filter((note) => note !== view.slept)
}

function listOf(title: string, says: string[]): Block[] {
  return says.length === 0 ? [] : [{ kind: 'list', title, says }]
}

/** A part with what was done in it. Fuel has a list of its own; prep appears only with its minutes, effort or
 * conditions. */
function partOf(index: number, view: SummaryView): Block[] {
  const part = view.summary.parts[index]
  if (!part || part.kind === 'fuel') return []
  if (part.kind === 'prep' && part.minutes === null && part.effort === null && part.with === null) return []
  const isSaidAbove = part.with === null || conditionsPhrase(view.summary) !== ''
  const conditions = isSaidAbove ? [] : [`with ${part.with}`]
  const done =
    part.kind === 'run' || part.kind === 'cross'
      ? running(index, part.kind, view)
      : part.kind === 'lift'
        ? lifting(index, view)
        : []
  return [
    { kind: 'part', title: partPhrase(part, headingDistance(index, view)), says: [...conditions, ...done] },
  ]
}

/** The distance of the only part of its kind; empty where several share it. */
function headingDistance(index: number, view: SummaryView): string {
  const kind = view.summary.parts[index]?.kind
  if (kind !== 'run' && kind !== 'cross') return ''
  const isShared = view.summary.parts.filter((part) => part.kind === kind).length > 1
  return isShared ? '' : (distanceOf(kind, view)?.whole ?? '')
}

/** A race comes first, then what the heading does not say of the distance, then the work. */
function running(index: number, kind: 'run' | 'cross', view: SummaryView): (string | Row)[] {
  const works = view.works[kind].filter(({ done }) => done.part === index)
  const distance = distanceLeft(index, kind, view)
  return [
    ...works.flatMap((work) => raceRow(work, view)),
    ...(distance === '' ? [] : [distance]),
    ...works.filter(({ done }) => !isAmongChanges(done, view.state)).map((work) => workRow(work, view)),
  ]
}

/** What several parts of a kind ran together, in the first of them. Under a heading with the distance a note tells only
 * what was run in a lift part, the full summary also what the jogs make of it. */
function distanceLeft(index: number, kind: 'run' | 'cross', view: SummaryView): string {
  if (view.summary.parts.findIndex((part) => part.kind === kind) !== index) return ''
  const distance = distanceOf(kind, view)
  if (distance === null) return ''
  const { whole, withoutJogs, inLifts } = distance
  if (headingDistance(index, view) !== '') return inLifts || (view.full ? withoutJogs : '')
  const besides = inLifts || withoutJogs
  return besides === '' ? `${whole} in all` : `${whole}, ${besides}`
}

function raceRow({ done, item }: WorkView, view: SummaryView): Row[] {
  const [finish, ...figures] = racePhrases(item, done, view)
  if (finish === undefined) return []
  return [{ name: nameOf(done.work.text, view), lead: finish, inARow: '', splits: [], figures }]
}

function workRow({ done, item }: WorkView, view: SummaryView): Row {
  const name = nameOf(done.work.text, view)
  const [only, ...others] = done.splits
  if (!only || others.length === 0) {
    const lead = only ? onlySplit(only, { done, item }, view) : 'nothing recorded'
    return { name, lead, inARow: '', splits: [], figures: itemPhrases(item, done, view) }
  }
  if (!view.bars) {
    const figures = shortPhrases(item, done, view)
    return { name, lead: leadPhrase(item, done, view), inARow: splitsPhrase(done, view), splits: [], figures }
  }
  const splits = done.splits.map((split) => ({
    text: splitText(split, view.distance),
    beside: besideText(split),
    bar: barOf(split, paceUnitOf(done, view)),
  }))
  return { name, lead: '', inARow: '', splits, figures: itemPhrases(item, done, view) }
}

/** In a note up to its first comma, in full as it was written. */
function nameOf(work: string, view: SummaryView): string {
  return view.bars ? work : workName(work)
}

/** `20:35, 4:07/km, in range, hr 171` */
function onlySplit(split: DoneSplit, { done, item: { secondsPerKm } }: WorkView, view: SummaryView): string {
  return [
    splitText(split, view.distance),
    secondsPerKm === null ? '' : paceText(secondsPerKm, done, view),
    split.target === 'in' ? 'in range' : '',
    besideText(split),
  ]
    .filter((text) => text !== '')
    .join(', ')
}

/** A pace, so that splits of different lengths compare; null if unknown. */
function barOf({ result, range, target }: DoneSplit, unit: PaceUnit): PaceBar | null {
  if (result.meters === null || result.seconds === null) return null
  const scale = 1000 / result.meters
  return {
    value: result.seconds * scale,
    range: range && { from: range.from * scale, to: range.to * scale },
    target,
    unit,
  }
}

/** What a part has of each exercise. The figures are those of the session, so they follow the exercise's last sets;
 * only the main lift's estimate is in a short summary. */
function lifting(index: number, view: SummaryView): Row[] {
  const main = view.exercises.find(({ figures }) => figures.oneRepMax !== null)
  return view.exercises
    .flatMap((each) => {
      const { name, sets } = each.exercise
      const here = sets.filter(({ step }) => step.part === index)
      const [first] = here
      if (first === undefined) return []
      const figures = here.at(-1) === sets.at(-1) ? figuresOf(each, each === main, view) : []
      const lead = setsText({ name, sets: here }, view)
      return [
        { at: view.state.steps.indexOf(first.step), row: { name, lead, inARow: '', splits: [], figures } },
      ]
    })
    .sort((one, other) => one.at - other.at)
    .map(({ row }) => row)
}

function figuresOf({ exercise, figures }: ExerciseView, isMain: boolean, view: SummaryView): string[] {
  const estimate = isMain || view.full ? estimatePhrases(figures, exercise, view) : []
  const tonnage = view.full && figures.tonnageKg > 0 ? [`${massText(figures.tonnageKg, view)} in all`] : []
  return [...estimate, ...tonnage, ...restPhrases(figures, view)]
}
