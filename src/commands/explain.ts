import { type ExplainedFigure, figureNames, figureOf, figures } from '../figures/catalogue.ts'
import { sourceLine } from '../figures/figure.ts'
import { jsonOf } from '../summary/json.ts'
import { CommandError, type CommandInput, type ExitCode } from './command.ts'
import { explanationText, listText } from './explainText.ts'

/** Explains one or several figures: equation, symbols and units, sources, limits, and a worked example, or the numbers
 * of a session. Without a figure it lists all of them, or all figures of a session.
 * @throws CommandError `no_such_figure`, `not_of_a_session`; LogbookError for an unknown session */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, words, json, values } = input
  const asked = words.length === 0 ? [] : figuresAsked(words)
  if (values.session !== undefined) {
    const { explainSession } = await import('./explainSession.ts')
    io.out(explainSession(input, values.session, asked.length === 0 ? null : asked.map(({ name }) => name)))
    return 0
  }
  if (asked.length === 0) io.out(json ? listJson() : listText(figures))
  else io.out(json ? explanationsJson(asked) : asked.map(explanationText).join('\n'))
  return 0
}

function listJson(): string {
  return jsonOf(figures.map(({ name, title, aliases }) => ({ name, title, aliases })))
}

/** One figure's data, or of several a list. */
function explanationsJson(asked: readonly ExplainedFigure[]): string {
  const data = asked.map(dataOf)
  return jsonOf(data.length === 1 ? data[0] : data)
}

/** The words of one figure, or else each word a figure. */
function figuresAsked(words: readonly string[]): ExplainedFigure[] {
  const word = words.join(' ')
  const figure = figureOf(word)
  if (figure !== null) return [figure]
  const each = words.flatMap((name) => figureOf(name) ?? [])
  if (each.length === words.length) return [...new Map(each.map((found) => [found.name, found])).values()]
  const near = figureNames.filter((name) => name.split('-').some((part) => isNear(part, word.toLowerCase())))
  const advice = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : 'pausebook explain lists them all.'
  throw new CommandError('no_such_figure', `There is no figure "${word}". ${advice}`)
}

function isNear(part: string, word: string): boolean {
  return word.length >= 3 && part.length >= 4 && (part.startsWith(word.slice(0, 4)) || word.startsWith(part))
}

function dataOf(figure: ExplainedFigure) {
  const { name, title, aliases, equation, symbols, holds, holdsNot } = figure
  const sources = figure.sources.map((source) => ({ name: source, text: sourceLine(source) }))
  return { name, title, aliases, equation, symbols, holds, holdsNot, sources, example: figure.example() }
}
