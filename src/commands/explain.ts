import { type ExplainedFigure, figureNames, figureOf } from '../figures/catalogue.ts'
import { type SourceName, sourceLine } from '../figures/sources.ts'
import { explanationText, listText } from './explainText.ts'
import { printableOf } from './io.ts'
import { CommandError, type CommandInput, type ExitCode } from './port.ts'

type Named = NonNullable<ReturnType<typeof figureOf>>

/** How a figure is computed: equation, symbols and units, sources, where it holds and where it does not, and
 * a worked example, or with a session its numbers put in. Without a figure the list of them, or with a
 * session all of its figures.
 * @throws CommandError `no_such_figure`, `not_of_a_session`; LogbookError for a session that is not there */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, words, json, values } = input
  const asked = words.length === 0 ? null : figureAsked(words.join(' '))
  if (values.session !== undefined) {
    const { explainSession } = await import('./explainSession.ts')
    io.out(explainSession(input, values.session, asked?.name ?? null))
    return 0
  }
  if (asked !== null) io.out(json ? `${JSON.stringify(dataOf(asked), null, 2)}\n` : explanationText(asked))
  else io.out(json ? listJson() : listText(allFigures()))
  return 0
}

function allFigures(): ExplainedFigure[] {
  return figureNames.map((name) => figureOf(name) as Named)
}

function listJson(): string {
  const listed = allFigures().map(({ name, title, aliases }) => ({ name, title, aliases }))
  return `${JSON.stringify(listed, null, 2)}\n`
}

function figureAsked(word: string): Named {
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
