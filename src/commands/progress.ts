import { goalOn } from '../app/overWeeks.ts'
import { todayOf } from '../logbook/machine.ts'
import { readMornings } from '../logbook/mornings.ts'
import { openLogbook } from '../logbook/store.ts'
import { bodyLines, bodyProgress } from '../progress/body.ts'
import { type Subject, shownLines, shownOf } from '../progress/overview.ts'
import { jsonOf } from '../summary/json.ts'
import { sanitize } from '../validate/unsafe.ts'
import { type CommandInput, commandLineError, type ExitCode, pageColumns } from './command.ts'
import { historyUnitsOf, loadSettings, unitsOf } from './loadSettings.ts'
import {
  liftMeant,
  parseDates,
  refuseUnknownLift,
  reportDamages,
  sessionsDone,
  statusOf,
} from './sessionsRead.ts'

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
  const settings = loadSettings(input)
  const logbook = openLogbook(input.logbookDir)
  const sessions = sessionsDone(input, logbook)
  const subject = given.kind === 'lift' ? { ...given, name: liftMeant(given.name, sessions) } : given
  if (subject.kind === 'lift' && given.kind === 'lift') {
    refuseUnknownLift(subject.name, sessions)
    if (subject.name !== given.name)
      io.err(
        `pausebook: "${sanitize(given.name)}" is read as "${sanitize(subject.name)}", the only lift with it\n`,
      )
  }
  const today = todayOf(io.now())
  const goal = () => goalOn(today, logbook, sessions)
  const shown = shownOf(sessions, subject, {
    asked,
    today,
    goal,
    mornings: () => readMornings(input.logbookDir).typed,
  })
  const units = historyUnitsOf(input, settings)
  if (input.json) io.out(jsonOf(shown.figures))
  else if (isPicture) {
    const { pictureOf } = await import('./progressPicture.ts')
    io.out(pictureOf(shown, units))
  } else {
    const columns = pageColumns(io)
    io.out(`${shownLines(shown, units, columns, today, input.flags.has('full')).join('\n')}\n`)
  }
  return statusOf(logbook)
}

/** From the mornings; works without sessions. */
function body(input: CommandInput): ExitCode {
  const { io, logbookDir, words, values } = input
  if (words.length > 1)
    throw commandLineError(`progress body takes no further words. Leave "${words.slice(1).join(' ')}" out.`)
  if (values.format === 'svg') throw commandLineError('progress body has no picture. Leave --format svg out.')
  const { mornings, damages } = readMornings(logbookDir)
  const status = reportDamages(io, { damages })
  const today = parseDates(values).to ?? todayOf(io.now())
  const figures = bodyProgress(mornings, today)
  const { mass } = unitsOf(input, loadSettings(input))
  const columns = pageColumns(io)
  io.out(input.json ? jsonOf(figures) : `${bodyLines(figures, mass, columns).join('\n')}\n`)
  return status
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
