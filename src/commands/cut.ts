import { equipmentWith } from '../app/earlierDays.ts'
import { maximaOn } from '../logbook/basis.ts'
import { localTimeOf } from '../logbook/machine.ts'
import type { Settings } from '../logbook/settings.ts'
import { openLogbook } from '../logbook/store.ts'
import { type Cut, cutPrescription, printCut } from '../prescription/cut.ts'
import { cutToTime, expectedSecondsOf } from '../prescription/cutToTime.ts'
import { expand, warmUpWith } from '../prescription/expand.ts'
import type { Prescription } from '../prescription/model.ts'
import { type KnownMaxima, stepsOf, usesPercent } from '../prescription/plan.ts'
import { lapMetersOf } from '../prescription/step.ts'
import { jsonOf } from '../summary/json.ts'
import { metersOf, readLength } from '../units/length.ts'
import { CommandError, type CommandInput, type ExitCode } from './command.ts'
import { printableOf } from './io.ts'
import { loadSettings } from './loadSettings.ts'
import { parsePrescription } from './prescriptionRead.ts'
import { indexOf } from './sessionsRead.ts'

/** Prints a prescription cut down, as notation, with each change a comment. Nothing is stored.
 * @throws CommandError for a prescription that cannot be read, a fraction, distance or minutes that are none, and
 * `no_goal` where a race is given and the day has no goal */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, values } = input
  const how = howGiven(values)
  const settings = loadSettings(input)
  const logbook = openLogbook(input.logbookDir)
  const today = localTimeOf(io.now()).slice(0, 10)
  const [path = ''] = input.words
  const known = () => maximaOn(indexOf(io, logbook), today)
  const { prescription } = parsePrescription(input, path, settings, known)
  const maxima = usesPercent(prescription) ? known() : []
  const expected = expectedMinutesWith(settings, maxima)
  const cut = cutAs(prescription, how, expected)
  const text = printCut(cut)
  const minutes = { before: expected(prescription), after: expected(cut.prescription) }
  io.out(input.json ? jsonOf({ text, expectedMinutes: minutes }) : text)
  if (how.by === 'minutes' && minutes.after > how.value) {
    io.err(
      `pausebook: The day is still expected to take about ${Math.round(minutes.after)} min: what is left is not cut further.\n`,
    )
  }
  return 0
}

type How =
  | { by: 'fraction'; value: number }
  | { by: 'minutes'; value: number }
  | { by: 'race'; meters: (lapMeters: number) => number }

function howGiven(values: CommandInput['values']): How {
  const given = (['by', 'for', 'minutes'] as const).filter((name) => values[name] !== undefined)
  const [name] = given
  if (name === undefined || given.length > 1) {
    const message = `${name === undefined ? 'It is not said how to cut' : 'Only one way to cut can be taken'}. Give --by FRACTION, --for DISTANCE or --minutes N.`
    throw new CommandError('command_line', message, { exit: 2 })
  }
  const text = (values[name] ?? '').trim()
  if (name === 'by') return { by: 'fraction', value: fractionOf(text) }
  if (name === 'minutes') return { by: 'minutes', value: minutesOf(text) }
  const length = readLength(text)
  if (length === null) throw wrong(text, 'distance', '--for 5km or --for "half marathon"')
  return { by: 'race', meters: (lapMeters) => metersOf(length, lapMeters) }
}

function fractionOf(text: string): number {
  const [, number = '', percent] = /^(\d{1,3}(?:\.\d+)?|\.\d+)( ?%)?$/.exec(text) ?? []
  const value = number === '' ? 0 : Number(number) / (percent === undefined ? 1 : 100)
  if (value > 0 && value <= 1) return value
  throw wrong(text, 'fraction above 0 and at most 1', '--by 0.6 or --by 60%')
}

function minutesOf(text: string): number {
  const value = /^\d{1,4}(\.\d{1,3})?( ?min)?$/.test(text) ? Number.parseFloat(text) : 0
  if (value > 0) return value
  throw wrong(text, 'number of minutes above 0', '--minutes 45')
}

function wrong(text: string, what: string, example: string): CommandError {
  const message = `"${printableOf(text)}" is no ${what}. Write one as in ${example}.`
  return new CommandError('command_line', message, { exit: 2 })
}

function cutAs(prescription: Prescription, how: How, expected: (prescription: Prescription) => number): Cut {
  switch (how.by) {
    case 'fraction':
      return cutPrescription(prescription, { fraction: how.value })
    case 'minutes':
      return cutToTime(prescription, how.value, expected)
    case 'race':
      if (prescription.goal !== null)
        return cutPrescription(prescription, { raceMeters: how.meters(lapMetersOf(prescription)) })
      throw new CommandError(
        'no_goal',
        'The day has no goal, so nothing says for which race it is. Write a line as in "goal: 10 km in 39:30", or cut it with --by.',
      )
  }
}

/** Expected minutes of a day, warm-up sets included; not rounded. */
function expectedMinutesWith(
  settings: Settings,
  maxima: KnownMaxima,
): (prescription: Prescription) => number {
  const rampOf = warmUpWith(equipmentWith(settings), maxima)
  return (prescription) => expectedSecondsOf(stepsOf(expand(prescription, rampOf)), prescription) / 60
}
