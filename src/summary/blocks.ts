import { secondsPerKm } from '../figures/splits.ts'
import { workName } from '../session/names.ts'
import type { PaceUnit } from '../units/duration.ts'
import { joined } from '../units/lists.ts'
import { isAmongChanges } from './changes.ts'
import type { ExerciseView } from './lifting.ts'
import { estimatePhrases, restPhrases, setsText } from './liftingText.ts'
import { notePhrases } from './notes.ts'
import type { DoneSplit } from './performed.ts'
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
  sleptPhrase,
  whenPhrase,
} from './phrases.ts'
import { hasBoth, type WorkView } from './running.ts'
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
import type { SummaryView } from './summarise.ts'

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
  const lists = {
    fuel: fuelPhrases(view),
    notes: notesLeft(view),
    'next time': changed.map(({ item, reason }) => `${item}: ${reason}`),
    besides: view.full ? fullPhrases(view) : [],
  }
  return [
    headOf(view),
    ...summary.parts.flatMap((_, index) => partOf(index, view)),
    ...Object.entries(lists).flatMap(([title, says]): Block[] =>
      says.length === 0 ? [] : [{ kind: 'list', title, says }],
    ),
  ]
}

function headOf(view: SummaryView): Block {
  const { summary, state } = view
  const says = [
    whenPhrase(view),
    doctorPhrase(summary.pain),
    donePhrase(view),
    ...notePhrases(state, 'pain'),
    joined(' · ', [loadPhrase(view), conditionsPhrase(summary)]),
  ]
  return { kind: 'head', title: summary.session.title, says: said(says) }
}

function said<T>(says: readonly (T | string)[]): (T | string)[] {
  return says.filter((each) => each !== '')
}

/** The notes that no line above has already: not how long the athlete slept, nor why a set fell short, nor what was
 * eaten. */
function notesLeft(view: SummaryView): string[] {
  const named = view.meals.filter(({ name, result }) => name !== null && name === result.note)
  const told = new Set([...fallenShort(view).map(({ step }) => step), ...named.map(({ id }) => id)])
  const slept = sleptPhrase(view.context.sleepSeconds, view.summary.notes)
  return notePhrases(view.state, 'words', told).filter((note) => note !== slept)
}

/** A part with what was done in it. Fuel has a list of its own; prep appears only with its minutes, effort or
 * conditions. */
function partOf(index: number, view: SummaryView): Block[] {
  const part = view.summary.parts[index]
  if (!part || part.kind === 'fuel') return []
  if (part.kind === 'prep' && part.minutes === null && part.effort === null && part.with === null) return []
  const isSaidAbove = part.with === null || conditionsPhrase(view.summary) !== ''
  const [distance, done] =
    part.kind === 'run' || part.kind === 'cross'
      ? running(index, part.kind, view)
      : ['', part.kind === 'lift' ? lifting(index, view) : []]
  const says = [isSaidAbove ? '' : `with ${part.with}`, ...done]
  return [{ kind: 'part', title: partPhrase(part, distance), says: said(says) }]
}

/** The distance for the heading, and what is below it: a race comes first, then what the heading does not say of the
 * distance, then the work. */
function running(
  index: number,
  kind: 'run' | 'cross',
  view: SummaryView,
): [heading: string, says: (string | Row)[]] {
  const works = view.works[kind].filter(({ done }) => done.part === index)
  const [heading, left] = distances(index, kind, view)
  const isTold = ({ done }: WorkView) => isAmongChanges(done, view.state)
  const rows = works.filter((work) => !isTold(work)).map((work) => workRow(work, view))
  return [heading, [...works.flatMap((work) => raceRow(work, view)), left, ...rows]]
}

/** The distance of the only part of its kind is in its heading; below it a note tells only what was run in a lift part,
 * the full summary also what the jogs make of it. What several parts ran together is below the first of them. */
function distances(index: number, kind: 'run' | 'cross', view: SummaryView): [heading: string, left: string] {
  const { parts } = view.summary
  const distance = distanceOf(kind, view)
  if (distance === null || parts.findIndex((part) => part.kind === kind) !== index) return ['', '']
  const { whole, withoutJogs, inLifts } = distance
  const isShared = parts.filter((part) => part.kind === kind).length > 1
  if (!isShared) return [whole, inLifts || (view.full ? withoutJogs : '')]
  return ['', joined(', ', [inLifts || withoutJogs ? whole : `${whole} in all`, inLifts || withoutJogs])]
}

function rowOf(name: string, lead: string, figures: string[]): Row {
  return { name, lead, inARow: '', splits: [], figures: figures.filter((figure) => figure !== '') }
}

function raceRow(work: WorkView, view: SummaryView): Row[] {
  const [finish, ...figures] = racePhrases(work, view)
  return finish === undefined ? [] : [rowOf(nameOf(work, view), finish, figures)]
}

function workRow(work: WorkView, view: SummaryView): Row {
  const { splits } = work.done
  const name = nameOf(work, view)
  const [only, ...others] = splits
  if (!only) return rowOf(name, 'nothing recorded', itemPhrases(work, view))
  if (others.length === 0) return rowOf(name, onlySplit(only, work, view), itemPhrases(work, view))
  if (!view.bars) {
    const row = rowOf(name, leadPhrase(work, view), shortPhrases(work, view))
    return { ...row, inARow: splitsPhrase(work.done, view) }
  }
  return {
    ...rowOf(name, '', itemPhrases(work, view)),
    splits: splits.map((split) => ({
      text: splitText(split, view.distance),
      beside: besideText(split),
      bar: barOf(split, paceUnitOf(work.done, view)),
    })),
  }
}

/** In a note up to its first comma, in full as it was written. */
function nameOf({ item }: WorkView, view: SummaryView): string {
  return view.bars ? item.text : workName(item.text)
}

/** `20:35, 4:07/km, in range, hr 171` */
function onlySplit(split: DoneSplit, { done, item: { secondsPerKm } }: WorkView, view: SummaryView): string {
  return joined(', ', [
    splitText(split, view.distance),
    secondsPerKm !== null && paceText(secondsPerKm, done, view),
    split.target === 'in' && 'in range',
    besideText(split),
  ])
}

/** A pace, so that splits of different lengths compare; null if unknown. */
function barOf({ result, range, target }: DoneSplit, unit: PaceUnit): PaceBar | null {
  if (!hasBoth(result)) return null
  const pace = (seconds: number) => secondsPerKm(result.meters, seconds)
  return {
    value: pace(result.seconds),
    range: range && { from: pace(range.from), to: pace(range.to) },
    target,
    unit,
  }
}

/** What a part has of each exercise. The figures are those of the session, so they follow the exercise's last sets;
 * only the main lift's estimate is in a short summary. */
function lifting(index: number, view: SummaryView): Row[] {
  const main = view.exercises.find(({ figures }) => figures.oneRepMax !== null)
  const rows = view.exercises.flatMap((each) => {
    const { name, sets } = each.exercise
    const here = sets.filter(({ step }) => step.part === index)
    const [first] = here
    if (first === undefined) return []
    const figures = here.at(-1) === sets.at(-1) ? figuresOf(each, each === main, view) : []
    const row = rowOf(name, setsText({ name, sets: here }, view), figures)
    return [{ at: view.state.steps.indexOf(first.step), row }]
  })
  return rows.sort((one, other) => one.at - other.at).map(({ row }) => row)
}

function figuresOf({ exercise, figures }: ExerciseView, isMain: boolean, view: SummaryView): string[] {
  const estimate = isMain || view.full ? estimatePhrases(figures, exercise, view) : []
  const tonnage = view.full && figures.tonnageKg > 0 ? [`${massText(figures.tonnageKg, view)} in all`] : []
  return [...estimate, ...tonnage, ...restPhrases(figures, view)]
}
