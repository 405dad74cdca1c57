import type { Session } from '../session/model.ts'
import { formatPace } from '../units/duration.ts'
import { type Block, blocksOf, type Row } from './blocks.ts'
import type { SummaryContext } from './estimate.ts'
import { plainOf, wrapped } from './plain.ts'
import { splitBarsOf } from './splitBars.ts'
import { type SummaryOptions, type SummaryView, viewOf } from './summarise.ts'

const indent = 2

/** Writes a session as a note: plain text in lines of at most 44 characters (72 in full) that fits any notes app.
 * Deviations and pain come before the figures. Ends with a line feed. */
export function summaryText(session: Session, context: SummaryContext, options: SummaryOptions): string {
  const view = viewOf(session, context, options)
  const lines = blocksOf(view).flatMap((block, index) => [
    ...(index === 0 ? [] : ['']),
    ...written(block, view),
  ])
  return `${lines.join('\n')}\n`
}

function written({ kind, title, says }: Block, view: SummaryView): string[] {
  const at = kind === 'list' ? indent : 0
  return [
    ...wrapped(plainOf(title), view.columns),
    ...says.flatMap((each) =>
      typeof each === 'string' ? wrapped(plainOf(each), view.columns, at) : rowLines(each, view),
    ),
  ]
}

/** `2 km easy: 8:02, 4:01/km`, then its splits in a row or as bars, then what the figures say. */
function rowLines(row: Row, view: SummaryView): string[] {
  const lead = row.lead === '' ? row.name : `${row.name}: ${row.lead}`
  return [
    ...wrapped(plainOf(lead), view.columns),
    ...wrapped(row.inARow, view.columns, indent),
    ...barRows(row, view),
    ...row.figures.flatMap((phrase) => wrapped(plainOf(phrase), view.columns, indent)),
  ]
}

/** The splits below each other, each with the bar of its pace where two paces are known and there is room. */
function barRows({ splits }: Row, view: SummaryView): string[] {
  if (splits.length === 0) return []
  const labelWidth = Math.max(...splits.map(({ text }) => text.length))
  const besideWidth = Math.max(...splits.map(({ beside }) => beside.length))
  const cells = Math.min(28, view.columns - indent - labelWidth - besideWidth - 6)
  const known = splits.flatMap(({ bar }) => (bar === null ? [] : [bar]))
  const isDrawn = known.length > 1 && cells >= 8
  const bars = isDrawn ? splitBarsOf(known, cells) : []
  const barWidth = Math.max(0, ...bars.map((bar) => bar.length))
  const rows = splits.map(({ text, beside, bar }) => {
    const drawn = bar === null ? '' : (bars[known.indexOf(bar)] ?? '')
    const cell = isDrawn ? `${drawn.padEnd(barWidth)}  ` : ''
    return `${' '.repeat(indent)}${text.padEnd(labelWidth)}  ${cell}${beside}`.trimEnd()
  })
  if (!isDrawn) return rows
  const paces = known.map(({ value }) => value)
  const [longest, shortest] = [Math.max(...paces), Math.min(...paces)].map((pace) =>
    formatPace(pace, known[0]?.unit ?? view.distance, 1),
  )
  const scale = `the longest bar is ${longest}, the shortest ${shortest}; longer is slower`
  return [...rows, ...wrapped(scale, view.columns, indent)]
}
