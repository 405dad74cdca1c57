import { type ExplainedFigure, figureNames, figureOf } from '../figures/catalogue.ts'
import { type SourceName, sourceLine } from '../figures/sources.ts'
import { explanationText, listText } from './explainText.ts'
import { printableOf } from './io.ts'
import { CommandError, type CommandInput, type ExitCode } from './port.ts'

/** How a figure is computed: equation, symbols and units, sources, where it holds and where it does not, and
 * a worked example; without a figure the list of them.
 * @throws CommandError `no_such_figure` */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, words, json } = input
  if (words.length === 0) {
    const all = figureNames.map((name) => figureOf(name) as ExplainedFigure)
    const listed = all.map(({ name, title, aliases }) => ({ name, title, aliases }))
    io.out(json ? `${JSON.stringify(listed, null, 2)}\n` : listText(all))
    return 0
  }
  const figure = figureAsked(words.join(' '))
  io.out(json ? `${JSON.stringify(dataOf(figure), null, 2)}\n` : explanationText(figure))
  return 0
}

function figureAsked(word: string): NonNullable<ReturnType<typeof figureOf>> {
  const figure = figureOf(word)
  if (figure !== null) return figure
  const near = figureNames.filter((name) => name.split('-').some((part) => isNear(part, word.toLowerCase())))
  const advice = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : 'pausebook explain lists them all.'
  throw new CommandError('no_such_figure', `There is no figure "${printableOf(word)}". ${advice}`)
}

function isNear(part: string, word: string): boolean {
  return word.length >= 3 && part.length >= 4 && (part.startsWith(word.slice(0, 4)) || word.startsWith(part))
}

function dataOf(figure: ExplainedFigure) {
  const { name, title, aliases, equation, symbols, holds, holdsNot } = figure
  const sources = figure.sources.map((source: SourceName) => ({ name: source, text: sourceLine(source) }))
  return { name, title, aliases, equation, symbols, holds, holdsNot, sources, example: figure.example() }
}
