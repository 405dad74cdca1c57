import type { ExplainedFigure } from '../figures/catalogue.ts'
import { sourceLine } from '../figures/figure.ts'
import { hanging, screenLines } from '../ui/widgets/wrapped.ts'

const width = 80

/** A figure explained, in lines of at most 80 columns. */
export function explanationText(figure: ExplainedFigure): string {
  const { title, name, equation, symbols, holds, holdsNot, sources } = figure
  const indent = Math.max(8, ...symbols.map(({ symbol }) => symbol.length)) + 4
  const sections = [
    [`${title} (${name})`],
    stepLines(equation),
    symbols.flatMap(({ symbol, meaning, unit }) =>
      hanging(`  ${symbol}`, unit === '-' ? meaning : `${meaning} (${unit})`, indent, width),
    ),
    ['Holds', ...block(holds)],
    ['Does not hold', ...block(holdsNot)],
    ['Example, worked out just now', ...stepLines(figure.example())],
    ['Sources', ...sources.flatMap((source) => hanging('  -', sourceLine(source), 4, width))],
  ]
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`
}

/** The steps of a figure, indented; a long step continues below, indented further. */
export function stepLines(steps: readonly string[], indent = 2): string[] {
  const margin = ' '.repeat(indent)
  return steps.flatMap((step) =>
    step.length <= width - indent
      ? [margin + step]
      : screenLines(step, width - indent - 2).map((line, index) => margin + (index === 0 ? '' : '  ') + line),
  )
}

/** The list of all figures. */
export function listText(figures: readonly ExplainedFigure[]): string {
  const indent = Math.max(...figures.map(({ name }) => name.length)) + 4
  const lines = figures.flatMap(({ name, title }) => hanging(`  ${name}`, title, indent, width))
  return ['Figures that can be explained (pausebook explain FIGURE)', '', ...lines, ''].join('\n')
}

function block(text: string): string[] {
  return screenLines(text, width - 2).map((line) => `  ${line}`)
}
