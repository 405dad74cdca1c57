import { pageInputOf } from '../app/overWeeks.ts'
import { pageAbout, pageNames, type Subject } from '../progress/overview.ts'
import { type CommandInput, commandLineError, type ExitCode, parseDates, showPage } from './command.ts'
import { contextOf, liftMeant, sessionsDone } from './context.ts'

/** Shows how a lift, the running, the session load, pain or the body have developed; without a word, lifts and weeks on
 * one page.
 * @throws CommandError for an unknown lift, an invalid date, a logbook without sessions */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const given = parseSubject(input.words)
  const asked = parseDates(input.values)
  const context = contextOf(input)
  const hasMornings = given.kind === 'pain' && context.mornings.typed.length > 0
  const sessions = sessionsDone(context, hasMornings || given.kind === 'body')
  const subject = given.kind === 'lift' ? { ...given, name: liftMeant(given.name, sessions, io) } : given
  await showPage(input, pageAbout(subject, pageInputOf(context, asked, input.flags.has('full'))))
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
  return { kind: pageNames.find((name) => name === what) ?? 'all' }
}
