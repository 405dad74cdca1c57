import { stringify } from 'csv-stringify/sync'
import { rollup } from 'd3-array'
import { unlessRefused } from '../logbook/errors.ts'
import { ownTexts, readOwnText } from '../logbook/ownTexts.ts'
import { type Morning, printMorning } from '../plan/morning.ts'
import { partName } from '../prescription/print.ts'
import { kilogramsOfLoad } from '../session/load.ts'
import type { LiftedLoad } from '../session/model.ts'
import { painPhrase, painsNoted } from '../session/pain.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import { liftsDone, worksDone } from '../summary/performed.ts'
import { jsonOf } from '../summary/plain.ts'
import { type CommandInput, commandLineError, type ExitCode } from './command.ts'
import { contextOf } from './context.ts'

/** Everything in the logbook, the oldest first: a session's summary on each line, then a morning on each, then the
 * athlete's own texts, or a table of all sets, splits or mornings. Exit status 3 if a session could not be read, which
 * is named; all others are exported.
 * @throws CommandError for options that do not go together */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { what, format = what === undefined ? 'ndjson' : 'csv' } = input.values
  if (format === 'ndjson' && what !== undefined)
    throw commandLineError(
      'A line of NDJSON is a whole session or a morning, so --what cannot be chosen. Leave it out, or write --format csv.',
    )
  const table = what === 'splits' || what === 'mornings' ? what : 'sets'
  if (format === 'ndjson') writeLines(input)
  else input.io.out(tableOf(rowsOf(input, table), headings[table]))
  return 0
}

function writeLines(input: CommandInput): void {
  const { io, logbookDir } = input
  const { entries, mornings } = contextOf(input)
  for (const entry of entries.toReversed()) {
    const summary = entry.summary()
    if (summary !== null) io.out(jsonOf(summary, 0))
  }
  for (const { date, ...typed } of mornings.mornings)
    io.out(jsonOf({ morning: { date, ...nothingTyped, ...typed } }, 0))
  for (const name of ownTexts) {
    const text = unlessRefused(
      () => readOwnText(logbookDir, name),
      ({ message }) => {
        input.sources.push({ damages: [{ file: name, wrong: message, done: 'It was left out.' }] })
        return null
      },
    )
    if (text !== null) io.out(jsonOf({ file: { name, text } }, 0))
  }
}

function rowsOf(input: CommandInput, table: keyof typeof headings): Row[] {
  const context = contextOf(input)
  if (table === 'mornings') return context.mornings.mornings.map(morningRow)
  const { entries, logbook } = context
  return entries.toReversed().flatMap((entry) => {
    const session = logbook.sessionOf(entry)
    return session === null ? [] : (table === 'sets' ? setRows : splitRows)(replay(session), entry.id)
  })
}

/** The headings of each table, which a logbook without such results has too. */
const headings = {
  sets: 'session,date,title,part,exercise,set,side,reps,groups,seconds,meters,load,unit,load_kind,load_kg,rpe,failed,note,pain',
  splits: 'session,date,title,part,work,number,meters,seconds,target,heart_rate,heart_rate_max,rpe,note,pain',
  mornings: 'date,sleep,resting heart rate,body mass,soreness,note',
}

/** Writes rows as CSV (RFC 4180), below their headings. Text that a spreadsheet would take for a formula (it
 * begins with = + - @, a tab or a carriage return) gets an apostrophe before it; numbers stay as they are; null is an
 * empty cell. */
function tableOf(rows: Row[], names: string): string {
  const columns = names.split(',')
  return stringify(rows, { header: true, columns, record_delimiter: 'windows', escape_formulas: true })
}

/* The recorded results as rows of a table, in a session's order. Null is an empty cell. SI units, except for `load`,
 * which keeps its typed unit. */

type Cell = string | number | null
type Row = Record<string, Cell>

/** No key of a morning is ever missing. */
const nothingTyped = { sleepSeconds: null, restingHeartRate: null, bodyMass: null, soreness: [], note: null }

/** A morning, each cell as it is typed, except that the note has no quotes. */
function morningRow({ date, sleepSeconds, restingHeartRate, bodyMass, soreness, note }: Morning): Row {
  return {
    date,
    sleep: printMorning({ sleepSeconds }),
    'resting heart rate': printMorning({ restingHeartRate }),
    'body mass': printMorning({ bodyMass }),
    soreness: printMorning({ soreness }),
    note: note ?? '',
  }
}

/** A row for each recorded set, or for each drop, lift or station where one entry is several. Its note and pain are
 * in the first of them, its effort and failure in the last that has any. `load_kind` is mass, pair (`load` is one of
 * the two), bodyweight (`load` is the added load) or assisted (`load` is the assistance); `load_kg` is the whole
 * external load. Rounds in a time have that time, and their stations a row each. */
export function setRows(state: SessionState, id: string): Row[] {
  const done = liftsDone(state)
  const pains = painCells(state)
  return done.map(({ step, name, side, result, number }, index) => {
    const isFirst = done[index - 1]?.step !== step
    const later = done.slice(index + 1).filter((other) => other.step === step)
    const rounds = result.groups !== null && step.dose.kind === 'roundsIn' ? step.dose : null
    const isLast = !later.some((other) => other.result.rpe !== null || other.result.failed)
    return {
      ...headOf(state, id, step.part),
      exercise: name,
      set: number,
      side,
      reps: result.reps,
      groups: result.groups?.join(rounds ? ' rounds + ' : '+') ?? null,
      seconds: rounds?.seconds ?? result.seconds,
      meters: result.meters,
      ...loadCells(result.load),
      rpe: isLast ? result.rpe : null,
      failed: isLast && result.failed ? 'yes' : null,
      note: isFirst ? result.note : null,
      pain: isFirst ? (pains.get(step.id) ?? null) : null,
    }
  })
}

/** A row for each recorded split, repeat or interval of the run and cross parts. */
export function splitRows(state: SessionState, id: string): Row[] {
  const pains = painCells(state)
  return [...worksDone(state, 'run'), ...worksDone(state, 'cross')]
    .sort((one, other) => one.part - other.part)
    .flatMap(({ part, work, splits }) =>
      splits.map(({ step, result, target }) => ({
        ...headOf(state, id, part),
        work: work.text,
        number: step.number,
        meters: result.meters,
        seconds: result.seconds,
        target,
        heart_rate: result.heartRate,
        heart_rate_max: result.heartRateMax,
        rpe: result.rpe,
        note: result.note,
        pain: pains.get(step.id) ?? null,
      })),
    )
}

/** The pains of each step: those typed with its result and those noted about it. */
function painCells(state: SessionState): Map<string | null, string> {
  return rollup(
    painsNoted(state),
    (pains) => pains.map(painPhrase).join('; '),
    ({ step }) => step,
  )
}

function headOf(state: SessionState, session: string, part: number) {
  const { title } = state.prescription
  const found = state.parts[part]
  return { session, date: state.date, title, part: found ? partName(found) : null }
}

function loadCells(load: LiftedLoad | null): Row {
  if (load === null) return { load: null, unit: null, load_kind: null, load_kg: null }
  const kg = kilogramsOfLoad(load)
  if (load.kind === 'mass')
    return { load: load.value, unit: load.unit, load_kind: load.pair ? 'pair' : 'mass', load_kg: kg }
  const isAssisted = load.added < 0
  return {
    load: Math.abs(load.added),
    unit: load.unit,
    load_kind: isAssisted ? 'assisted' : 'bodyweight',
    load_kg: isAssisted ? null : kg,
  }
}
