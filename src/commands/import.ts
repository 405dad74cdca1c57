import { groups, sort, sum } from 'd3-array'
import { contextOn, indexedOf } from '../logbook/index.ts'
import { localTimeOf } from '../logbook/machine.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { bodyMassKgOn, type Settings } from '../logbook/settings.ts'
import type { NewSession } from '../logbook/store.ts'
import { type Diagnostic, mostDiagnostics } from '../prescription/lines.ts'
import { maximaOn } from '../progress/earlierLoads.ts'
import type { Session } from '../session/model.ts'
import { typedIn } from '../session/newEvents.ts'
import { sessionFormat } from '../session/replay.ts'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, type CommandInput, type ExitCode, fileName, problemsError, show } from './command.ts'
import { type Context, contextOf } from './context.ts'
import { dayOf, type ImportedDay, rowsOf } from './importSessions.ts'
import { columnsOf, type Field, problemIn, type Row, RowError, readTable, type Table } from './importTable.ts'

const mostBytes = 16 * 1024 * 1024

/** Stores the sessions of a table of sets or splits, all of them or none, and prints their ids. It first says on stderr
 * how each column was read. With --dry it stores nothing.
 * @throws CommandError for a table that cannot be read, with each bad row */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, values, flags } = input
  const [path = ''] = input.words
  const context = contextOf(input)
  const { units, today } = context
  const table = readTable(io.readText(path, 'table', mostBytes))
  const columns = columnsOf(table.names, values.map?.split('\n') ?? [])
  const what = kindOf(columns, table)
  const days = daysIn(table, columns, units, path)
  const [first, latest] = [days[0]?.date ?? today, days.at(-1)?.date ?? today]
  if (latest > today) io.err(`pausebook: ${latest} is in the future. Check the dates.\n`)
  const count = `${counted(
    sum(days, ({ results }) => results),
    what.slice(0, -1),
  )} in ${counted(days.length, 'session')}`
  const span = first === latest ? `on ${latest}` : `from ${first} to ${latest}`
  const isBare = what === 'sets' && columns.includes('load') && !columns.includes('unit')
  const duplicates = countDuplicates(days, context.entries)
  const report = [
    `${fileName(path)}: ${count} ${span}. Columns read as:`,
    ...table.names.map((name, index) => `  ${name}: ${columns[index] ?? 'not used'}`),
    ...(isBare ? [`  loads without a unit are in ${units.mass}`] : []),
    ...new Set(days.flatMap(({ renamed }) => renamed.map((text) => `  ${text}`))),
    ...(duplicates === 0
      ? []
      : [
          `The logbook already has sessions with the title and date of ${duplicates} of them; import keeps both.`,
        ]),
  ].map((line) => `${sanitize(line)}\n`)
  const isDry = flags.has('dry')
  if (!isDry || input.json) io.err(report.join(''))
  const ids = isDry ? [] : store(context, days)
  const figures = {
    what,
    columns: Object.fromEntries(columns.flatMap((name, index) => (name ? [[name, table.names[index]]] : []))),
    sessions: days.map(({ date, prescription: { title }, results }, index) => {
      return { id: ids[index] ?? null, date, title, results }
    }),
  }
  show(input, figures, isDry ? `${report.join('')}Nothing was stored.\n` : `${ids.join('\n')}\n`)
  return 0
}

function kindOf(columns: readonly (Field | null)[], { names }: Table): 'sets' | 'splits' {
  const isSets = columns.includes('exercise')
  const isSplits = (['time', 'distance', 'meters', 'km', 'mi'] as const).some((name) =>
    columns.includes(name),
  )
  const hasDate = columns.includes('date')
  if (hasDate && (isSets || isSplits)) return isSets ? 'sets' : 'splits'
  const [missing, field] = hasDate ? ['an exercise, a distance or a time', 'exercise'] : ['a date', 'date']
  const shown = names.map((name) => `"${sanitize(name)}"`).join(', ')
  const message = `No column is recognised as ${missing}. The columns are ${shown}. Say which one it is, as in --map "COLUMN=${field}".`
  throw new CommandError('no_column', message)
}

/** The sessions of a table, the earliest first. */
function daysIn(
  table: Table,
  columns: readonly (Field | null)[],
  units: Settings['units'],
  path: string,
): ImportedDay[] {
  const problems: Diagnostic[] = []
  /** Collects the problem of a bad row and returns nothing for it. */
  const unlessBad = <T>(row: Row, read: () => T[]): T[] => {
    if (problems.length > mostDiagnostics) return []
    try {
      return read()
    } catch (error) {
      if (!(error instanceof RowError)) throw error
      problems.push(problemIn(error.row ?? row, sanitize(error.message)))
      return []
    }
  }
  const rows = table.rows.flatMap((row) => unlessBad(row, () => rowsOf(row, columns, units.mass)))
  const sessions = problems.length > 0 ? [] : groups(rows, ({ session }) => session)
  const days = sessions.flatMap(([, session]) => unlessBad(session[0]!.row, () => [dayOf(session, units)]))
  if (problems.length > 0)
    throw problemsError('bad_table', 'table', path, problems, 'Nothing was stored; correct the file.')
  return sort(days, ({ date }) => date)
}

/** Stores all sessions or none; returns their ids. */
function store(context: Context, days: readonly ImportedDay[]): string[] {
  const { logbook } = context
  const ids = logbook.createAll(sessionsOf(days, context))
  // Add the sessions to the index now, when waiting is acceptable.
  logbook.index()
  return ids
}

/** Each day with what was known when it began: the body mass, and the maxima of the logbook and of the days of the
 * table up to it.
 * @param days the earliest first */
function sessionsOf(days: readonly ImportedDay[], { entries, settings, io }: Context): NewSession[] {
  const now = io.now().getTime()
  const before: Lifted[] = [...entries]
  return days.map(({ date, prescription, events }, index) => {
    const bodyMassKg = bodyMassKgOn(settings, date, prescription.athlete)
    const start = { type: 'sessionStarted', at: null, up: null, date, bodyMassKg, fromPaper: true } as const
    // Those of one date stay in the order of the table.
    const typed = typedIn(localTimeOf(new Date(now + index)))
    const all = [...events, typed]
    const session = { prescription, start: { ...start, maxima: maximaOn(before, date) }, events: all }
    before.push({ date, lifts: liftsOf(session, settings) })
    return session
  })
}

type Lifted = Parameters<typeof maximaOn>[0][number]

function liftsOf({ prescription, start, events }: NewSession, settings: Settings): Lifted['lifts'] {
  const session: Session = { format: sessionFormat, id: '', prescription, events: [start, ...events] }
  return indexedOf(session, contextOn(settings, start.date)).lifts
}

/** How many of the days the logbook has already, by title and date. */
function countDuplicates(days: readonly ImportedDay[], known: readonly IndexEntry[]): number {
  const nameOf = (date: string, title: string) => `${date} ${title}`
  const names = new Set(known.map(({ date, brief }) => nameOf(date, brief.title)))
  return days.filter(({ date, prescription }) => names.has(nameOf(date, prescription.title))).length
}
