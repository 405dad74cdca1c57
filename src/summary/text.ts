import type { Session } from '../session/model.ts'
import { formatPace } from '../units/pace.ts'
import { type Block, blocksOf, type Row } from './blocks.ts'
import type { SummaryContext } from './estimate.ts'
import { plainOf, wrapped } from './plain.ts'
import { splitBarsOf, splitScaleOf } from './splitBars.ts'
import { type SummaryOptions, type SummaryView, viewOf } from './summarise.ts'

const indent = 2

/** A session as a note: plain text in lines of at most 44 characters (72 in full) that survives any notes app. What
 * was done otherwise, and pain, come before the figures. Ends with a line feed. */
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
    ...wrapped(plainOf(title), 0, view.columns),
    ...says.flatMap((each) =>
      typeof each === 'string' ? wrapped(plainOf(each), at, view.columns) : rowLines(each, view),
    ),
  ]
}

/** `2 km easy: 8:02, 4:01/km`; several splits are on lines of their own, as bars where the view has them. */
function rowLines(row: Row, view: SummaryView): string[] {
  const name = plainOf(row.name)
  const [only, ...others] = row.done
  const figures = row.figures.flatMap((phrase) => wrapped(plainOf(phrase), indent, view.columns))
  if (others.length > 0) {
    const splits = view.bars ? barRows(row, view) : wrapped(splitsInARow(row), indent, view.columns)
    return [...wrapped(name, 0, view.columns), ...splits, ...figures]
  }
  const done = only ? [only.text, only.beside].filter((text) => text !== '').join(', ') : 'nothing recorded'
  return [...wrapped(`${name}: ${plainOf(done)}`, 0, view.columns), ...figures]
}

/** `4:09, 4:08, 4:14 slow hr 171` */
function splitsInARow({ done }: Row): string {
  return done.map(({ text, beside }) => `${text} ${beside}`.trim()).join(', ')
}

/** The splits below each other, each with the bar of its pace where two paces are known and there is room. */
function barRows({ done }: Row, view: SummaryView): string[] {
  const labelWidth = Math.max(...done.map(({ text }) => text.length))
  const besideWidth = Math.max(...done.map(({ beside }) => beside.length))
  const cells = Math.min(28, view.columns - indent - labelWidth - besideWidth - 6)
  const known = done.flatMap(({ bar }) => (bar === null ? [] : [bar]))
  const isDrawn = known.length > 1 && cells >= 8
  const bars = isDrawn ? splitBarsOf(known, cells) : []
  const barWidth = Math.max(0, ...bars.map((bar) => bar.length))
  const rows = done.map(({ text, beside, bar }) => {
    const drawn = bar === null ? '' : (bars[known.indexOf(bar)] ?? '')
    const cell = isDrawn ? `${drawn.padEnd(barWidth)}  ` : ''
    return `${' '.repeat(indent)}${text.padEnd(labelWidth)}  ${cell}${beside}`.trimEnd()
  })
  if (!isDrawn) return rows
  const { begin, cell } = splitScaleOf(known, cells)
  const worth = `${(cell * (view.distance === 'km' ? 1 : 1.609344)).toFixed(1)} s/${view.distance}`
  const scale = `bars begin at ${formatPace(begin, view.distance, 1)}, one character is ${worth}`
  return [...rows, ...wrapped(scale, indent, view.columns)]
}
