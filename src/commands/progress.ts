import { goalOn } from '../app/overWeeks.ts'
import { bodyLines, bodyProgress } from '../progress/body.ts'
import { type Subject, shownLines, shownOf } from '../progress/overview.ts'
import { jsonOf } from '../summary/plain.ts'
import {
  type CommandInput,
  commandLineError,
  type ExitCode,
  pageColumns,
  parseDates,
  show,
} from './command.ts'
import { contextOf, liftMeant, sessionsDone } from './context.ts'

/** Shows how a lift, the running or the session load has developed; without a word, all on one page.
 * @throws CommandError for an unknown lift, an invalid date, a logbook without sessions */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  if (input.words[0] === 'body') return body(input)
  const given = parseSubject(input.words)
  const isPicture = input.values.format === 'svg'
  if (isPicture && (given.kind === 'all' || given.kind === 'pain')) {
    const what = given.kind === 'all' ? 'The overview' : 'Pain'
    throw commandLineError(`${what} has no picture. Write progress lift NAME, progress run or progress load.`)
  }
  const asked = parseDates(input.values)
  const context = contextOf(input)
  const { logbook, today, historyUnits: units } = context
  const hasMornings = given.kind === 'pain' && context.mornings.typed.length > 0
  const { sessions, status } = sessionsDone(context, hasMornings)
  const subject = given.kind === 'lift' ? { ...given, name: liftMeant(given.name, sessions, io) } : given
  const shown = shownOf(sessions, subject, {
    asked,
    today,
    goal: () => goalOn(today, logbook, sessions),
    mornings: () => context.mornings.typed,
  })
  if (input.json) io.out(jsonOf(shown.figures))
  else if (isPicture) {
    const { pictureOf } = await import('./progressPicture.ts')
    io.out(pictureOf(shown, units))
  } else {
    const columns = pageColumns(io)
    io.out(`${shownLines(shown, units, columns, today, input.flags.has('full')).join('\n')}\n`)
  }
  return status
}

/** From the mornings; works without sessions. */
function body(input: CommandInput): ExitCode {
  const { io, words, values } = input
  if (words.length > 1)
    throw commandLineError(`progress body takes no further words. Leave "${words.slice(1).join(' ')}" out.`)
  if (values.format === 'svg') throw commandLineError('progress body has no picture. Leave --format svg out.')
  const { today, units, mornings } = contextOf(input)
  const figures = bodyProgress(mornings.mornings, parseDates(values).to ?? today)
  const columns = pageColumns(io)
  show(input, figures, `${bodyLines(figures, units.mass, columns).join('\n')}\n`)
  return 0
}

function parseSubject([what, ...words]: readonly string[]): Subject {
  const name = words.join(' ').trim()
  if (what === 'lift') {
    if (name !== '') return { kind: 'lift', name }
    throw commandLineError(
      'progress lift needs the name of a lift. Write one as in progress lift front squat.',
    )
  }
  if (name !== '') {
    throw commandLineError(
      `progress ${what} takes no further words. Leave "${name}" out, or write progress lift ${name}.`,
    )
  }
  return { kind: what === 'run' || what === 'load' || what === 'pain' ? what : 'all' }
}
