import type { Session } from '../session/model.ts'
import { formatPace } from '../units/pace.ts'
import { isAmongChanges } from './changes.ts'
import type { SummaryContext } from './estimate.ts'
import type { RunningItem } from './model.ts'
import { notePhrases } from './notes.ts'
import type { DoneSplit, DoneWork } from './performed.ts'
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
import { plainOf, wrapped } from './plain.ts'
import { racePhrases } from './race.ts'
import { type ExerciseView, type SummaryOptions, type SummaryView, viewOf } from './summarise.ts'

/** Writes a session as a note: plain text in lines of at most 44 characters (72 in full) that fits any notes app.
 * Deviations and pain come before the figures. Ends with a line feed. */
export function summaryText(session: Session, context: SummaryContext, options: SummaryOptions): string {
  return `${textLines(viewOf(session, context, options)).join('\n')}\n`
}

/** The lines of the note. */
export function textLines(view: SummaryView): string[] {
  const { summary } = view
  const blocks = [
    head(view),
    ...summary.parts.map((_, index) => partBlock(index, view)),
    list('fuel', fuelPhrases(view), view),
    list('notes', notePhrases(view.state, 'words'), view),
    nextBlock(view),
    view.full ? list('besides', fullPhrases(view), view) : [],
  ]
  return blocks
    .filter((block) => block.length > 0)
    .flatMap((block, index) => (index === 0 ? block : ['', ...block]))
}

/** The lines about next time that change something; empty if none does. */
function nextBlock(view: SummaryView): string[] {
  const changed = view.summary.next.filter(({ decision }) => decision !== 'same')
  return list(
    'next time',
    changed.map(({ item, reason }) => `${item}: ${reason}`),
    view,
  )
}

function head(view: SummaryView): string[] {
  const { summary, state } = view
  const lines = [
    plainOf(summary.session.title),
    whenPhrase(summary),
    donePhrase(view),
    ...notePhrases(state, 'pain'),
    loadPhrase(summary),
  ]
  return lines.filter((line) => line !== '').flatMap((line) => wrapped(plainOf(line), 0, view.columns))
}

/** A part with its results; fuel has a block of its own, and a prep part shows only its minutes. */
function partBlock(index: number, view: SummaryView): string[] {
  const part = view.summary.parts[index]
  if (!part || part.kind === 'fuel') return []
  const isToldBare = part.minutes !== null || part.effort !== null || part.with !== null
  if (part.kind === 'prep' && !isToldBare) return []
  const conditions = part.with === null ? [] : wrapped(`with ${plainOf(part.with)}`, 0, view.columns)
  const lines = [...wrapped(plainOf(partPhrase(part)), 0, view.columns), ...conditions]
  if (part.kind === 'run' || part.kind === 'cross') return [...lines, ...runLines(index, part.kind, view)]
  return part.kind === 'lift' ? [...lines, ...liftLines(index, view)] : lines
}

function runLines(index: number, kind: 'run' | 'cross', view: SummaryView): string[] {
  const works = view.works[kind].filter(({ done }) => done.part === index)
  const isFirst = view.summary.parts.findIndex((part) => part.kind === kind) === index
  const distance = isFirst ? distancePhrase(kind, view) : ''
  const races = works.flatMap(({ done, item }) => {
    const [first, ...others] = racePhrases(item, done, view)
    if (first === undefined) return []
    return [
      ...wrapped(`${plainOf(done.work.text)}: ${first}`, 0, view.columns),
      ...others.flatMap((phrase) => wrapped(phrase, indent, view.columns)),
    ]
  })
  return [
    ...races,
    ...(distance === '' ? [] : wrapped(distance, 0, view.columns)),
    ...works.flatMap(({ done, item }) =>
      isAmongChanges(done, view.summary) ? [] : workText(done, item, view),
    ),
  ]
}

/** Lists each exercise in the part in which it was first done. */
function liftLines(index: number, view: SummaryView): string[] {
  const main = view.exercises.find(({ figures }) => figures.oneRepMax !== null)
  return view.exercises
    .filter(({ exercise }) => exercise.sets[0]?.step.part === index)
    .flatMap((each) => exerciseLines(each, each === main, view))
}

function exerciseLines({ exercise, figures }: ExerciseView, isMain: boolean, view: SummaryView): string[] {
  const tonnage = view.full && figures.tonnageKg > 0 ? [`${massText(figures.tonnageKg, view)} in all`] : []
  const estimate = isMain || view.full ? estimatePhrases(figures, exercise, view) : []
  return [
    ...wrapped(`${plainOf(exercise.name)}: ${setsText(exercise, view)}`, 0, view.columns),
    ...[...estimate, ...tonnage, ...restPhrases(figures, view)].flatMap((phrase) =>
      wrapped(phrase, indent, view.columns),
    ),
  ]
}

function list(title: string, lines: readonly string[], view: SummaryView): string[] {
  return lines.length === 0
    ? []
    : [title, ...lines.flatMap((line) => wrapped(plainOf(line), indent, view.columns))]
}

const indent = 2

/** A work: its name, its splits (in a row or as bars), its figures. */
export function workText(done: DoneWork, item: RunningItem, view: SummaryView): string[] {
  const name = plainOf(done.work.text)
  const [only, ...others] = done.splits
  if (!only) return wrapped(`${name}: nothing recorded`, 0, view.columns)
  if (others.length > 0) {
    const rows = view.bars ? barRows(done, view) : wrapped(splitsInARow(done, view), indent, view.columns)
    return [...wrapped(name, 0, view.columns), ...rows, ...phrases(item, done, view)]
  }
  const pace = item.secondsPerKm === null ? [] : [formatPace(item.secondsPerKm, view.distance)]
  const beside = besideText(only)
  const said = [
    splitText(only, view.distance),
    ...pace,
    ...(only.target === 'in' ? ['in range'] : []),
    ...(beside === '' ? [] : [beside]),
  ]
  return [...wrapped(`${name}: ${said.join(', ')}`, 0, view.columns), ...phrases(item, done, view)]
}

function phrases(item: RunningItem, done: DoneWork, view: SummaryView): string[] {
  return itemPhrases(item, done, view).flatMap((phrase) => wrapped(phrase, indent, view.columns))
}

/** `4:09, 4:08, 4:14 slow hr 171` */
function splitsInARow(done: DoneWork, view: SummaryView): string {
  return done.splits
    .map((split) =>
      [splitText(split, view.distance), besideText(split)].filter((text) => text !== '').join(' '),
    )
    .join(', ')
}

function barRows(done: DoneWork, view: SummaryView): string[] {
  const labels = done.splits.map((split) => splitText(split, view.distance))
  const besides = done.splits.map(besideText)
  const labelWidth = Math.max(...labels.map((label) => label.length))
  const besideWidth = Math.max(...besides.map((beside) => beside.length))
  const cells = Math.min(28, view.columns - indent - labelWidth - besideWidth - 6)
  const values = barValues(done.splits)
  const bars = barsOf(values, cells)
  const barWidth = Math.max(0, ...bars.map((bar) => bar.length))
  const rows = done.splits.map((_, index) => {
    const label = (labels[index] ?? '').padEnd(labelWidth)
    const bar = (bars[index] ?? '').padEnd(barWidth)
    return `${' '.repeat(indent)}${label}  ${bar}${barWidth === 0 ? '' : '  '}${besides[index]}`.trimEnd()
  })
  return barWidth > 0 ? [...rows, ...wrapped(scaleText(values, cells, view), indent, view.columns)] : rows
}

/** The scale of the bars, which do not begin at 0. */
function scaleText(values: readonly (SplitBar | null)[], cells: number, { distance }: SummaryView): string {
  const known = values.filter((bar) => bar !== null)
  const { begin, cell } = splitScaleOf(known, cells)
  const worth = `${(cell * (distance === 'km' ? 1 : 1.609344)).toFixed(1)} s/${distance}`
  return `bars begin at ${formatPace(begin, distance, 1)}, one character is ${worth}`
}

/** Paces, so that splits of different lengths can be compared; null if one is unknown. */
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

/** Bars of the paces; empty if a pace is unknown, or there is no room. */
function barsOf(bars: readonly (SplitBar | null)[], cells: number): string[] {
  const known = bars.filter((bar) => bar !== null)
  if (known.length < 2 || cells < 8) return bars.map(() => '')
  const drawn = splitBarsOf(known, cells)
  return bars.map((bar) => (bar === null ? '' : (drawn[known.indexOf(bar)] ?? '')))
}

/** One bar: a pace or a time, and its target range in the same unit. */
export interface SplitBar {
  value: number
  range: { from: number; to: number } | null
  /** The verdict; a value slightly outside that still counts as in range is drawn inside. */
  target: 'fast' | 'in' | 'slow' | null
}

const filled = '='
/** The share of the width that the fastest value fills, so that no bar is empty. */
const lead = 0.3

/** Bars in plain characters, one for each split: the longer, the slower. `[` and `]` mark the range;
 * `===[==  ]` ends inside it. All bars share one scale, which does not begin at 0.
 * @param bars at least one value above 0 in each
 * @param width cells of the longest bar, at least 8; the brackets come on top
 * @returns as many rows as bars, without spaces at their ends */
export function splitBarsOf(bars: readonly SplitBar[], width = 28): string[] {
  const { begin, cell } = splitScaleOf(bars, width)
  const cellOf = (value: number) => Math.round((value - begin) / cell)
  return bars.map((bar) => rowOf(bar, cellOf))
}

/** The shared scale of these bars, in their unit: the value at which a bar begins, and the value of a cell. */
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
