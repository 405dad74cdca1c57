import { formatPace } from '../units/pace.ts'
import type { RunningItem } from './model.ts'
import type { DoneSplit, DoneWork } from './performed.ts'
import { plainOf, wrapped } from './plain.ts'
import { itemPhrases } from './runPhrases.ts'
import { type SplitBar, splitBarsOf, splitScaleOf } from './splitBars.ts'
import { besideText, splitText } from './splitText.ts'
import type { SummaryView } from './view.ts'

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
