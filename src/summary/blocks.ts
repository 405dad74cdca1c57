import { formatPace } from '../units/pace.ts'
import { isAmongChanges } from './changes.ts'
import { notePhrases } from './notes.ts'
import type { DoneSplit } from './performed.ts'
import {
  besideText,
  distancePhrase,
  donePhrase,
  estimatePhrases,
  fuelPhrases,
  fullPhrases,
  itemPhrases,
  loadPhrase,
  massText,
  partPhrase,
  restPhrases,
  setsText,
  splitText,
  whenPhrase,
} from './phrases.ts'
import { racePhrases } from './race.ts'
import type { SplitBar } from './splitBars.ts'
import type { ExerciseView, SummaryView, WorkView } from './summarise.ts'

/** A heading and what a reader finds under it, in this order. Texts may hold anything that was typed: the writer makes
 * them safe for its format. */
export interface Block {
  kind: 'head' | 'part' | 'list'
  title: string
  says: (string | Row)[]
}

/** Work or an exercise: what was done, and a line for each thing the figures say. */
export interface Row {
  name: string
  /** One for each split; all sets of an exercise are one; empty when nothing was recorded. */
  done: { text: string; beside: string; bar: SplitBar | null }[]
  figures: string[]
}

/** A session in reading order: what went otherwise than planned, and pain, before any figure. The text and the Markdown
 * both write these blocks. */
export function blocksOf(view: SummaryView): Block[] {
  const { summary, state } = view
  const changed = summary.next.filter(({ decision }) => decision !== 'same')
  return [
    headOf(view),
    ...summary.parts.flatMap((_, index) => partOf(index, view)),
    ...listOf('fuel', fuelPhrases(view)),
    ...listOf('notes', notePhrases(state, 'words')),
    ...listOf(
      'next time',
      changed.map(({ item, reason }) => `${item}: ${reason}`),
    ),
    ...listOf('besides', view.full ? fullPhrases(view) : []),
  ]
}

function headOf(view: SummaryView): Block {
  const { summary, state } = view
  const says = [whenPhrase(summary), donePhrase(view), ...notePhrases(state, 'pain'), loadPhrase(summary)]
  return { kind: 'head', title: summary.session.title, says: says.filter((line) => line !== '') }
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
  const conditions = part.with === null ? [] : [`with ${part.with}`]
  const done =
    part.kind === 'run' || part.kind === 'cross'
      ? running(index, part.kind, view)
      : part.kind === 'lift'
        ? lifting(index, view)
        : []
  return [{ kind: 'part', title: partPhrase(part), says: [...conditions, ...done] }]
}

/** A race comes first, then the distance of all parts of the kind in the first of them, then the work. */
function running(index: number, kind: 'run' | 'cross', view: SummaryView): (string | Row)[] {
  const works = view.works[kind].filter(({ done }) => done.part === index)
  const isFirst = view.summary.parts.findIndex((part) => part.kind === kind) === index
  const distance = isFirst ? distancePhrase(kind, view) : ''
  return [
    ...works.flatMap((work) => raceRow(work, view)),
    ...(distance === '' ? [] : [distance]),
    ...works.filter(({ done }) => !isAmongChanges(done, view.summary)).map((work) => workRow(work, view)),
  ]
}

function raceRow({ done, item }: WorkView, view: SummaryView): Row[] {
  const [finish, ...figures] = racePhrases(item, done, view)
  if (finish === undefined) return []
  return [{ name: done.work.text, done: [{ text: finish, beside: '', bar: null }], figures }]
}

function workRow({ done, item }: WorkView, view: SummaryView): Row {
  const splits = done.splits.map((split) => ({
    text: splitText(split, view.distance),
    beside: besideText(split),
    bar: barOf(split),
  }))
  const [only, ...others] = splits
  // A run without splits has no row of figures to say its pace in.
  if (only && others.length === 0) {
    const pace = item.secondsPerKm === null ? [] : [formatPace(item.secondsPerKm, view.distance)]
    const judged = done.splits[0]?.target === 'in' ? ['in range'] : []
    only.text = [only.text, ...pace, ...judged].join(', ')
  }
  return { name: done.work.text, done: splits, figures: itemPhrases(item, done, view) }
}

/** A pace, so that splits of different lengths compare; null where it is not known. */
function barOf({ result, range, target }: DoneSplit): SplitBar | null {
  if (result.meters === null || result.seconds === null) return null
  const scale = 1000 / result.meters
  return {
    value: result.seconds * scale,
    range: range && { from: range.from * scale, to: range.to * scale },
    target,
  }
}

/** Each exercise appears in the part in which it was first done; only the main lift's estimate is in a short summary. */
function lifting(index: number, view: SummaryView): Row[] {
  const main = view.exercises.find(({ figures }) => figures.oneRepMax !== null)
  return view.exercises
    .filter(({ exercise }) => exercise.sets[0]?.step.part === index)
    .map((each) => exerciseRow(each, each === main, view))
}

function exerciseRow({ exercise, figures }: ExerciseView, isMain: boolean, view: SummaryView): Row {
  const estimate = isMain || view.full ? estimatePhrases(figures, exercise, view) : []
  const tonnage = view.full && figures.tonnageKg > 0 ? [`${massText(figures.tonnageKg, view)} in all`] : []
  return {
    name: exercise.name,
    done: [{ text: setsText(exercise, view), beside: '', bar: null }],
    figures: [...estimate, ...tonnage, ...restPhrases(figures, view)],
  }
}
