/** A split on a line of its own. */
export interface SplitRow {
  /** Its time, as typed: `4:07.2`. */
  text: string
  /** Null where its pace is unknown. */
  bar: SplitBar | null
  /** Remarks, shown after the bar; may be empty. */
  beside: string
}

/** One bar: a pace, so that splits of different lengths compare, and its target range in the same unit. */
export interface SplitBar {
  value: number
  range: { from: number; to: number } | null
  /** The verdict; a value slightly outside that still counts as in range is drawn inside. */
  target: 'fast' | 'in' | 'slow' | null
}

const filled = '='
/** The share of the width that the fastest value fills, so that no bar is empty. */
const lead = 0.3

/** The longest bar, in cells. */
const mostCells = 28

/** Splits below each other, with bars where there is room for them.
 * @param columns the most cells of a line */
export function barLines(rows: readonly SplitRow[], columns: number): { lines: string[]; hasBars: boolean } {
  const widest = (texts: readonly string[]) => Math.max(0, ...texts.map((text) => text.length))
  const textWidth = widest(rows.map(({ text }) => text))
  const cells = Math.min(mostCells, columns - textWidth - widest(rows.map(({ beside }) => beside)) - 6)
  const known = rows.flatMap(({ bar }) => bar ?? [])
  const hasBars = known.length > 0 && cells >= 8
  const bars = hasBars ? splitBarsOf(known, cells) : []
  const lines = rows.map(({ text, beside, bar }) => {
    const drawn = bar === null ? '' : (bars[known.indexOf(bar)] ?? '')
    const cell = hasBars ? `${drawn.padEnd(widest(bars))}  ` : ''
    return `${text.padEnd(textWidth)}  ${cell}${beside}`.trimEnd()
  })
  return { lines, hasBars }
}

/** Bars in plain characters, one for each split: the longer, the slower. `[` and `]` mark the range;
 * `===[==  ]` ends inside it. All bars share one scale, which does not begin at 0.
 * @param bars at least one value above 0 in each
 * @param width cells of the longest bar, at least 8; the brackets come on top
 * @returns as many rows as bars, without spaces at their ends */
export function splitBarsOf(bars: readonly SplitBar[], width: number): string[] {
  const ends = bars.flatMap(({ value, range }) => [value, ...(range ? [range.from, range.to] : [])])
  const low = Math.min(...ends)
  const span = Math.max(Math.max(...ends) - low, low * 0.01)
  const cell = span / ((1 - lead) * width)
  return bars.map((bar) => rowOf(bar, (value) => Math.round((value - low) / cell + lead * width)))
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
