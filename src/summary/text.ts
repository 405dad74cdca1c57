import type { Session } from '../session/model.ts'
import { formatPace } from '../units/pace.ts'
import { isAmongChanges } from './changes.ts'
import type { SummaryContext } from './estimate.ts'
import type { RunningItem } from './model.ts'
import { notePhrases } from './notes.ts'
import { type DoneExercise, type DoneSplit, type DoneWork, exercisesDone, worksDone } from './performed.ts'
import {
  besideText,
  distancePhrase,
  estimatePhrases,
  fuelPhrases,
  fullPhrases,
  itemPhrases,
  loadPhrase,
  massText,
  partPhrase,
  racePhrase,
  restPhrases,
  setsText,
  splitText,
  whenPhrase,
} from './phrases.ts'
import { plainOf, wrapped } from './plain.ts'
import { type SummaryOptions, type SummaryView, viewOf } from './summarise.ts'

/** A session as a note: plain text in lines of at most 72 characters that survives any notes app. Ends with
 * a line feed. */
export function summaryText(session: Session, context: SummaryContext, options: SummaryOptions): string {
  return `${textLines(viewOf(session, context, options)).join('\n')}\n`
}

/** The lines of the note. */
export function textLines(view: SummaryView): string[] {
  const { summary } = view
  const blocks = [
    head(view),
    ...summary.parts.map((_, index) => partBlock(index, view)),
    list('changes', summary.changes),
    list('fuel', fuelPhrases(view)),
    list('notes', notePhrases(view.state)),
    view.full ? list('besides', fullPhrases(view)) : [],
  ]
  return blocks
    .filter((block) => block.length > 0)
    .flatMap((block, index) => (index === 0 ? block : ['', ...block]))
}

function head({ summary }: SummaryView): string[] {
  const load = loadPhrase(summary)
  return [
    ...wrapped(plainOf(summary.session.title), 0, 72, 0),
    whenPhrase(summary),
    ...(load === '' ? [] : [load]),
  ]
}

/** A part with what was done in it; fuel has a block of its own, and of a prep only its minutes are told. */
function partBlock(index: number, view: SummaryView): string[] {
  const part = view.summary.parts[index]
  if (!part || part.kind === 'fuel') return []
  const isToldBare = part.minutes !== null || part.effort !== null || part.with !== null
  if (part.kind === 'prep' && !isToldBare) return []
  const conditions = part.with === null ? [] : wrapped(`with ${plainOf(part.with)}`)
  const lines = [...wrapped(plainOf(partPhrase(part))), ...conditions]
  if (part.kind === 'run' || part.kind === 'cross') return [...lines, ...runLines(index, part.kind, view)]
  return part.kind === 'lift' ? [...lines, ...liftLines(index, view)] : lines
}

function runLines(index: number, kind: 'run' | 'cross', view: SummaryView): string[] {
  const figures = kind === 'run' ? view.summary.running : view.summary.cross
  const works = worksDone(view.state, kind)
  const isFirst = view.summary.parts.findIndex((part) => part.kind === kind) === index
  const distance = isFirst ? distancePhrase(kind, view) : ''
  const races = works.flatMap((work, place) => {
    const item = figures.items[place]
    const phrase = work.part === index && item ? racePhrase(item, view) : null
    return phrase === null ? [] : wrapped(`${plainOf(work.work.text)}: ${phrase}`)
  })
  return [
    ...races,
    ...(distance === '' ? [] : [distance]),
    ...works.flatMap((work, place) => {
      const item = figures.items[place]
      return work.part === index && item && !isAmongChanges(work, view.summary)
        ? workText(work, item, view)
        : []
    }),
  ]
}

/** Each exercise stands in the part in which it was first done. */
function liftLines(index: number, view: SummaryView): string[] {
  const exercises = exercisesDone(view.state)
  const main = view.summary.lifting.exercises.findIndex((lifted) => lifted.oneRepMax !== null)
  return exercises.flatMap((exercise, place) =>
    exercise.sets[0]?.step.part === index ? exerciseLines(exercise, place, place === main, view) : [],
  )
}

function exerciseLines(exercise: DoneExercise, place: number, isMain: boolean, view: SummaryView): string[] {
  const lifted = view.summary.lifting.exercises[place]
  if (!lifted) return []
  const tonnage = view.full && lifted.tonnageKg > 0 ? [`${massText(lifted.tonnageKg, view)} in all`] : []
  const estimate = isMain || view.full ? estimatePhrases(lifted, exercise, view) : []
  return [
    ...wrapped(`${plainOf(exercise.name)}: ${setsText(exercise, view)}`),
    ...[...estimate, ...tonnage, ...restPhrases(lifted, view)].flatMap((phrase) => wrapped(phrase, 2)),
  ]
}

function list(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines.flatMap((line) => wrapped(plainOf(line), 2))]
}

const width = 72
const indent = 2
/** More bars than these are too long for a note. */
const mostBars = 12

/** A piece of work: what it was, its splits as bars, what they say. */
export function workText(done: DoneWork, item: RunningItem, view: SummaryView): string[] {
  const name = plainOf(done.work.text)
  const [only, ...others] = done.splits
  if (!only) return wrapped(`${name}: nothing recorded`)
  if (others.length === 0) {
    const pace = item.secondsPerKm === null ? [] : [formatPace(item.secondsPerKm, view.distance)]
    const beside = besideText(only)
    const judged = only.target === 'in' ? ['in range'] : []
    const said = [
      splitText(only, view.distance),
      ...pace,
      ...judged,
      ...(beside === '' ? [] : [beside]),
    ].join(', ')
    return [...wrapped(`${name}: ${said}`), ...phrases(item, done, view)]
  }
  const rows = done.splits.length > mostBars && !view.full ? timesInARow(done, view) : barRows(done, view)
  return [...wrapped(name), ...rows, ...phrases(item, done, view)]
}

function phrases(item: RunningItem, done: DoneWork, view: SummaryView): string[] {
  return itemPhrases(item, done, view).flatMap((phrase) => wrapped(phrase, indent))
}

function timesInARow(done: DoneWork, view: SummaryView): string[] {
  const texts = done.splits.map((split) => {
    const outside = split.target === 'fast' || split.target === 'slow' ? ` ${split.target}` : ''
    return `${splitText(split, view.distance)}${outside}`
  })
  return wrapped(texts.join(', '), indent)
}

function barRows(done: DoneWork, view: SummaryView): string[] {
  const labels = done.splits.map((split) => splitText(split, view.distance))
  const besides = done.splits.map(besideText)
  const labelWidth = Math.max(...labels.map((label) => label.length))
  const besideWidth = Math.max(...besides.map((beside) => beside.length))
  const cells = Math.min(28, width - indent - labelWidth - besideWidth - 6)
  const values = barValues(done.splits)
  const bars = barsOf(values, cells)
  const barWidth = Math.max(0, ...bars.map((bar) => bar.length))
  const rows = done.splits.map((_, index) => {
    const label = (labels[index] ?? '').padEnd(labelWidth)
    const bar = (bars[index] ?? '').padEnd(barWidth)
    return `${' '.repeat(indent)}${label}  ${bar}${barWidth === 0 ? '' : '  '}${besides[index]}`.trimEnd()
  })
  return view.full && barWidth > 0 ? [...rows, ...wrapped(scaleText(values, cells, view), indent)] : rows
}

/** What the bars are drawn to: they do not begin at 0. */
function scaleText(values: readonly (SplitBar | null)[], cells: number, { distance }: SummaryView): string {
  const known = values.filter((bar) => bar !== null)
  const { begin, cell } = splitScaleOf(known, cells)
  const worth = `${(cell * (distance === 'km' ? 1 : 1.609344)).toFixed(1)} s/${distance}`
  return `bars begin at ${formatPace(begin, distance, 1)}, one character is ${worth}`
}

/** Paces, so that splits of different lengths compare; null where one is not known. */
function barValues(splits: readonly DoneSplit[]): (SplitBar | null)[] {
  return splits.map(({ result, range, target }) => {
    if (result.meters === null || result.seconds === null) return null
    const scale = 1000 / result.meters
    return {
      value: result.seconds * scale,
      range: range && { from: range.from * scale, to: range.to * scale },
      target,
    }
  })
}

/** Bars of the paces; empty where a pace is not known, or there is no room. */
function barsOf(bars: readonly (SplitBar | null)[], cells: number): string[] {
  const known = bars.filter((bar) => bar !== null)
  if (known.length < 2 || cells < 8) return bars.map(() => '')
  const drawn = splitBarsOf(known, cells)
  return bars.map((bar) => (bar === null ? '' : (drawn[known.indexOf(bar)] ?? '')))
}

/** One bar: a pace, or a time, and the range it is held against, in the same unit. */
export interface SplitBar {
  value: number
  range: { from: number; to: number } | null
  /** How it was judged; a value a hair outside that still counts as in is drawn inside. */
  target: 'fast' | 'in' | 'slow' | null
}

const filled = '='
/** How much of the width lies before the fastest value, so that no bar is empty. */
const lead = 0.3

/** Bars in plain characters, one a split: the longer, the slower. The range is drawn in as `[` and `]`;
 * `===[==  ]` ends inside it. All bars share one scale, which does not begin at 0.
 * @param bars at least one value above 0 in each
 * @param width cells of the longest bar, at least 8; the brackets come on top
 * @returns as many rows as bars, without spaces at their ends */
export function splitBarsOf(bars: readonly SplitBar[], width = 28): string[] {
  const { begin, cell } = splitScaleOf(bars, width)
  const cellOf = (value: number) => Math.round((value - begin) / cell)
  return bars.map((bar) => rowOf(bar, cellOf))
}

/** The scale that these bars share, in their unit: the value at which a bar begins, and what a cell is worth. */
export function splitScaleOf(bars: readonly SplitBar[], width = 28): { begin: number; cell: number } {
  const ends = bars.flatMap((bar) => [bar.value, ...(bar.range ? [bar.range.from, bar.range.to] : [])])
  const low = Math.min(...ends)
  const span = Math.max(Math.max(...ends) - low, low * 0.01)
  const cell = span / ((1 - lead) * width)
  return { begin: low - lead * width * cell, cell }
}

function rowOf(bar: SplitBar, cellOf: (value: number) => number): string {
  const end = cellOf(bar.value)
  if (!bar.range) return filled.repeat(end)
  const from = cellOf(bar.range.from)
  const to = Math.max(from + 1, cellOf(bar.range.to))
  const drawn = placed(end, from, to, bar.target)
  const cells = filled.repeat(drawn).padEnd(to)
  return `${cells.slice(0, from)}[${cells.slice(from, to)}]${cells.slice(to)}`.trimEnd()
}

/** Rounding to cells never puts a bar on the wrong side of a bracket. */
function placed(end: number, from: number, to: number, target: SplitBar['target']): number {
  switch (target) {
    case 'fast':
      return Math.min(end, from - 1)
    case 'slow':
      return Math.max(end, to + 1)
    case 'in':
      return Math.min(Math.max(end, from), to)
    default:
      return end
  }
}
