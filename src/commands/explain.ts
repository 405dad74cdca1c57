import { catalogue, type ExplainedFigure, figureNames, figureOf, figures } from '../figures/catalogue.ts'
import { sourceLine } from '../figures/figure.ts'
import { contextOn } from '../logbook/index.ts'
import { pageOf } from '../progress/chart.ts'
import { sessionFigures, sessionSteps } from '../summary/explain.ts'
import { jsonOf, wrapped } from '../summary/plain.ts'
import { figuresOf } from '../summary/summarise.ts'
import { hanging } from '../ui/widgets/wrapped.ts'
import { inSentence, wordsAlike } from '../units/lists.ts'
import { CommandError, type CommandInput, type ExitCode, fitted } from './command.ts'
import { contextOf } from './context.ts'

/** Explains one or several figures: equation, symbols and units, sources, limits, and a worked example, or the numbers
 * of a session. Without a figure it lists all of them, or all figures of a session.
 * @throws CommandError `no_such_figure`, `not_of_a_session`; LogbookError for an unknown session */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, words, json, values } = input
  const asked = words.length === 0 ? [] : figuresAsked(words)
  if (values.session !== undefined) io.out(explainSession(input, values.session, asked))
  else if (json) io.out(figuresJson(asked))
  else io.out(fitted(asked.length === 0 ? listText() : asked.map(explanationText).join('\n'), io))
  return 0
}

/** The list of all figures, or the data of one figure, or a list of the data of several. */
function figuresJson(asked: readonly ExplainedFigure[]): string {
  if (asked.length === 0) return jsonOf(figures.map(({ name, title, aliases }) => ({ name, title, aliases })))
  const data = asked.map((figure) => {
    const { name, title, aliases, equation, holds, holdsNot } = figure
    const symbols = figure.symbols.map(([symbol, meaning, unit]) => ({ symbol, meaning, unit }))
    const sources = figure.sources.map((source) => ({ name: source, text: sourceLine(source) }))
    return { name, title, aliases, equation, symbols, holds, holdsNot, sources, example: figure.example() }
  })
  return jsonOf(data.length === 1 ? data[0] : data)
}

/** All words together name a figure, or else each word names one. */
function figuresAsked(words: readonly string[]): ExplainedFigure[] {
  const word = words.join(' ')
  const figure = figureOf(word)
  if (figure !== null) return [figure]
  const each = words.flatMap((name) => figureOf(name) ?? [])
  if (each.length === words.length) return [...new Map(each.map((found) => [found.name, found])).values()]
  const near = namesNear(words)
  const advice =
    near.length > 0 ? `Did you mean ${inSentence(near, 'or')}?` : '"pausebook explain" lists them all.'
  throw new CommandError('no_such_figure', `There is no figure "${word}". ${advice}`)
}

/** The figures with a word in their names or aliases that begins with one of these words, or that one is a misspelling
 * of. */
function namesNear(words: readonly string[]): string[] {
  const wordsOf = ({ name, aliases }: ExplainedFigure) => [name, ...aliases].join('-').split('-')
  const known = figures.flatMap(wordsOf)
  const meant = words.flatMap((word) => [
    ...known.filter((each) => word.length >= 3 && each.startsWith(word.toLowerCase())),
    ...wordsAlike(word, known).slice(0, 1),
  ])
  const near = figures.filter((figure) => wordsOf(figure).some((word) => meant.includes(word)))
  return near.map(({ name }) => name)
}

const width = 80

/** The figures asked for, or all that a session has, each step with the session's numbers. */
function explainSession(input: CommandInput, which: string, asked: readonly ExplainedFigure[]): string {
  const strange = asked.find(({ name }) => !sessionFigures.includes(name))
  if (strange !== undefined) {
    const message = `${strange.name} is not a figure of one session. "pausebook explain ${strange.name}" shows how it is computed.`
    throw new CommandError('not_of_a_session', message)
  }
  const { settings, logbook, plan } = contextOf(input)
  const { entry, session } = logbook.read(which)
  const explained = figuresOf(session, contextOn(settings, entry.date, plan?.race))
  const workedOf = (name: ExplainedFigure['name']) => {
    return { name, title: catalogue[name].title, worked: sessionSteps(name, explained) }
  }
  const shown =
    asked.length > 0
      ? asked.map(({ name }) => workedOf(name))
      : sessionFigures.map(workedOf).filter(({ worked }) => worked.length > 0)
  if (input.json) return jsonOf({ session: session.id, figures: shown })
  const heading = wrapped(`${entry.date} ${session.prescription.title} (${session.id})`, width, 0, 0)
  const sections = shown.map(({ name, title, worked }) => [
    `${title} (${name})`,
    ...(worked.length === 0 ? ['  This session has none.'] : []),
    ...worked.flatMap(({ of, steps }) => [...stepLines([of]), ...stepLines(steps, 4)]),
  ])
  const page = [heading, ...(sections.length > 0 ? sections : [['Nothing was recorded that has a figure.']])]
  return fitted(textOf(page), input.io)
}

/** A figure explained, in lines of at most 80 columns. */
function explanationText(figure: ExplainedFigure): string {
  const { title, name, equation, symbols, holds, holdsNot, sources } = figure
  const indent = Math.max(8, ...symbols.map(([symbol]) => symbol.length)) + 4
  return textOf([
    [`${title} (${name})`],
    stepLines(equation),
    symbols.flatMap(([symbol, meaning, unit]) =>
      hanging(`  ${symbol}`, unit === '-' ? meaning : `${meaning} (${unit})`, indent, width),
    ),
    ['Holds', ...wrapped(holds, width, 2, 0)],
    ['Does not hold', ...wrapped(holdsNot, width, 2, 0)],
    ['Example, worked out just now', ...stepLines(figure.example())],
    ['Sources', ...stepLines(sources.map((source) => `- ${sourceLine(source)}`))],
  ])
}

/** The steps of a figure, indented; a long step continues below, indented further. */
function stepLines(steps: readonly string[], indent = 2): string[] {
  return steps.flatMap((step) => wrapped(step, width, indent))
}

function listText(): string {
  const indent = Math.max(...figureNames.map((name) => name.length)) + 4
  return textOf([
    ['Figures that can be explained (pausebook explain FIGURE)'],
    figures.flatMap(({ name, title }) => hanging(`  ${name}`, title, indent, width)),
  ])
}

function textOf(sections: readonly string[][]): string {
  return `${pageOf(sections, width).join('\n')}\n`
}
