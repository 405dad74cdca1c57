import { sum, transpose } from 'd3-array'
import {
  carbsWhileRacing,
  cardSplits,
  equalTime,
  halfPaces,
  lanes,
  lapMetersOfLane,
  lapSeconds,
} from '../figures/race.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { implausibleTime } from '../prescription/plausible.ts'
import { wrapped } from '../summary/plain.ts'
import { roundTo } from '../units/decimal.ts'
import { formatClock, formatClockShort, formatPace, paceIn, readDuration } from '../units/duration.ts'
import { metersOf, printLength, readLength } from '../units/length.ts'
import type { DistanceUnit, Length } from '../units/model.ts'
import { CommandError, type CommandInput, commandLineError, type ExitCode, invalid, show } from './command.ts'
import { contextOf, parsePlan } from './context.ts'

/** Race pace, one lap (with --lap of another track, with --lanes in eight lanes), equal performances of a race; with
 * --card its splits, of the plan's race if none is given.
 * @throws CommandError for a distance or a time that cannot be read or is implausible */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { flags, values } = input
  const [distance, seconds] = parseRace(input)
  const isCard = flags.has('card')
  if (flags.has('lanes') && isCard)
    throw commandLineError('--lanes is not for the race card. Leave out --lanes or --card.')
  if (flags.has('lanes') && values.lap !== undefined)
    throw commandLineError('--lanes are those of a 400 m track. Leave out --lanes or --lap.')
  const onlyOnCard = ['negative', 'narrow'].find((name) => name in values || flags.has(name))
  if (!isCard && onlyOnCard !== undefined)
    throw commandLineError(`--${onlyOnCard} is for the race card. Add --card.`)
  if (isCard) {
    const layout = layoutOf(input, distance)
    const card = cardOf(distance, seconds, layout.split, percentOf(values.negative))
    show(input, card, `${cardLines(card, layout, flags.has('narrow')).join('\n')}\n`)
  } else {
    const paces = pacesOf(distance, seconds, values.lap)
    show(input, paces, pacesText(paces, flags.has('lanes')))
  }
  return 0
}

function parseRace({ values, flags, logbookDir }: CommandInput): [Length, number] {
  const { race, time } = values
  const isOfPlan = race === undefined && time === undefined && flags.has('card')
  const planned = isOfPlan ? parsePlan(logbookDir)?.plan.race : null
  if (planned) return [planned.length, planned.seconds]
  if (race === undefined || time === undefined) {
    const example = 'Write --race "10 km" --time 40:00'
    const message = isOfPlan
      ? `plan.txt names no race. ${example}, or write the race there: race: 10 km in 39:30 on 2027-04-18.`
      : `paces needs a race and its time. ${example}.`
    throw new CommandError('no_race', message, { exit: 2 })
  }
  const distance = readLength(race)
  if (distance === null)
    throw invalid('distance', race, 'Example: "10 km", "1 mi" or "half marathon".', 'bad_distance')
  const seconds = readDuration(time)
  if (seconds === null) throw invalid('time', time, 'Example: 40:00 or 1:28:30.', 'bad_time')
  const taken = { from: seconds, to: seconds }
  const wrong = implausibleTime(printLength(distance), metersOf(distance), taken, 'run')
  if (wrong !== null) {
    const advice = wrong.meant === null ? '. Check the distance and the time.' : ''
    throw new CommandError('implausible', `${wrong.message}${advice}`)
  }
  return [distance, seconds]
}

const usualDistances: readonly Length[] = [
  { value: 1500, unit: 'm' },
  { value: 1, unit: 'mi' },
  { value: 3, unit: 'km' },
  { value: 5, unit: 'km' },
  { value: 10, unit: 'km' },
  { value: 1, unit: 'half marathon' },
  { value: 1, unit: 'marathon' },
]

type Paces = ReturnType<typeof pacesOf>

/** @param lap length of a lap of another track than that of 400 m, as typed */
function pacesOf(distance: Length, seconds: number, lap: string | undefined) {
  const meters = metersOf(distance)
  const pace = secondsPerKm(meters, seconds)
  const lapLength = lap === undefined ? metersOf({ value: 1, unit: 'lap' }) : lapMeters(lap, meters)
  return {
    race: {
      distance: printLength(distance),
      meters,
      seconds,
      secondsPerKm: pace,
      secondsPerMile: paceIn(pace, 'mi'),
    },
    lap: { meters: lapLength, seconds: (pace * lapLength) / 1000 },
    laps: lanes.map((lane) => ({ lane, meters: lapMetersOfLane(lane), seconds: lapSeconds(pace, lane) })),
    equalPerformances: usualDistances.map((length) => {
      const other = metersOf(length)
      return {
        distance: printLength(length),
        meters: other,
        danielsGilbert: equalTime('danielsGilbert', meters, seconds, other),
        riegel: equalTime('riegel', meters, seconds, other),
      }
    }),
  }
}

/** The figures of a race as text of at most 80 columns; one lap in lane 1, or with `inLanes` in all eight. */
function pacesText(paces: Paces, inLanes: boolean): string {
  const { race, lap } = paces
  const pace = (unit: DistanceUnit) => formatPace(race.secondsPerKm, unit, 1)
  const heading = `${race.distance} in ${formatClockShort(race.seconds)} is ${pace('km')}, ${pace('mi')}`
  const oneLap = `One lap of a ${roundTo(lap.meters, 2)} m track: ${formatClock(lap.seconds, 1)}`
  const sections = inLanes ? [[heading], lapLines(paces)] : [[heading, oneLap]]
  return `${[...sections, equalLines(paces)].map((lines) => lines.join('\n')).join('\n\n')}\n`
}

function lapLines({ laps }: Paces): string[] {
  const row = (name: string, cellOf: (lap: Paces['laps'][number]) => string) =>
    `  ${name.padEnd(6)}${laps.map((lap) => cellOf(lap).padStart(8)).join('')}`
  return [
    'One lap of a 400 m track at that pace',
    row('lane', ({ lane }) => String(lane)),
    row('metres', ({ meters }) => meters.toFixed(2)),
    row('time', ({ seconds }) => formatClock(seconds, 1)),
  ]
}

function equalLines({ equalPerformances }: Paces): string[] {
  const row = (distance: string, first: string, second: string) =>
    `  ${distance.padEnd(14)}${first.padStart(22)} ${second.padStart(15)}`
  const rows = equalPerformances.map(({ distance, danielsGilbert, riegel }) => {
    const [first, second] = [formatClock(danielsGilbert.seconds), formatClock(riegel.seconds)]
    // Daniels and Gilbert holds wherever Riegel does.
    const mark = riegel.holds ? '' : danielsGilbert.holds ? ' (*)' : ' *'
    return `${row(distance, first, second)}${mark}`
  })
  const isUnsure = equalPerformances.some(({ riegel }) => !riegel.holds)
  return [
    'Equal performances',
    row('distance', 'Daniels & Gilbert 1979', 'Riegel 1981'),
    ...rows,
    ...(isUnsure ? ['  * neither holds there, (*) Riegel does not: 3.5 min to 4 h, Riegel to 230 min'] : []),
    '  Only from a race or a time trial, and no promise: half of all marathon runners',
    '  are at least ten minutes slower than Riegel says (Vickers & Vertosick 2016).',
    '  From a goal time: goals for a race, not training paces.',
  ]
}

/* The race card: a split and the running time for each kilometre, mile or lap. */

const narrowColumns = 14

type Layout = ReturnType<typeof layoutOf>

/** The unit of the paces, and the metres of one split with what it is called. */
function layoutOf(input: CommandInput, distance: Length) {
  const { lap } = input.values
  const unit = input.units.distance ?? (distance.unit === 'mi' ? 'mi' : contextOf(input).units.distance)
  if (lap === undefined) return { unit, place: unit, split: metersOf({ value: 1, unit }) }
  return { unit, place: 'lap', split: lapMeters(lap, metersOf(distance)) }
}

type RaceCard = ReturnType<typeof cardOf>

/** @param negativePercent by how much the second half is faster; 0 when even */
function cardOf(distance: Length, seconds: number, split: number, negativePercent: number) {
  const meters = metersOf(distance)
  return {
    race: { distance: printLength(distance), meters, seconds },
    negativePercent,
    splits: cardSplits(meters, seconds, split, negativePercent),
    /** Null up to an hour. */
    carbsGAnHour: carbsWhileRacing(seconds),
  }
}

/** 100 miles on a 400 m track have 403 laps; nobody reads 2000 of 50 m. */
const mostLaps = 500

function lapMeters(text: string, raceMeters: number): number {
  const lap = readLength(/^\d+(\.\d+)?$/.test(text.trim()) ? `${text} m` : text)
  const meters = lap === null ? 0 : metersOf(lap)
  const shortest = Math.ceil(raceMeters / mostLaps)
  if (meters >= shortest && meters <= raceMeters) return meters
  const example = `--lap ${Math.max(400, shortest)}`
  throw invalid('lap', text, `Write its length, from ${shortest} m to the whole race: ${example}.`)
}

function percentOf(text = '0'): number {
  const parts = /^(\d{1,2}(?:\.\d{1,2})?)\s?%?$/.exec(text.trim())
  const percent = Number(parts?.[1])
  if (parts !== null && percent <= 10) return percent
  throw invalid('percentage', text, 'Write 0 to 10, as in --negative 1%.')
}

/** Place, split and running time. Whole seconds, tenths for splits below 600 m; the printed splits add up to the
 * printed running times. */
function rowsOf({ splits }: RaceCard, { split }: Layout): string[][] {
  const decimals = split < 600 ? 1 : 0
  const running = splits.map(({ runningSeconds }) => roundTo(runningSeconds, decimals))
  return splits.map(({ meters }, index) => {
    const [all = 0, before = 0] = [running[index], running[index - 1]]
    const place = String(Number((meters / split).toFixed(2)))
    return [place, formatClock(all - before, decimals), formatClock(all, decimals)]
  })
}

/** @param isNarrow in 14 columns, for a wrist: if split and running time do not both fit, only the running time */
function cardLines(card: RaceCard, layout: Layout, isNarrow: boolean): string[] {
  const { race, negativePercent, carbsGAnHour } = card
  const { place, unit } = layout
  const carbs = carbsGAnHour && `${carbsGAnHour.from}-${carbsGAnHour.to} g`
  const rows = rowsOf(card, layout)
  if (isNarrow) {
    const columns = transpose(rows).map((cells) => {
      const width = Math.max(...cells.map((cell) => cell.length))
      return cells.map((cell) => cell.padStart(width))
    })
    const isAllShown = sum(columns, ([cell = '']) => cell.length) + 2 <= narrowColumns
    const shown = columns.filter((_, column) => isAllShown || column !== 1)
    const inColumns = (text: string) => wrapped(text, narrowColumns, 0, 0)
    return [
      ...inColumns(`${race.distance} ${formatClockShort(race.seconds)}`),
      ...transpose(shown).map((row) => row.join(' ')),
      ...inColumns(carbs === null ? '' : `carbohydrate ${carbs}/h`),
      ...inColumns('for the goal, not training'),
    ]
  }
  const pace = secondsPerKm(race.meters, race.seconds)
  const width = Math.max(10, ...rows.map(([, , running = '']) => 2 + running.length))
  const [first, second] = halfPaces(race.meters / 1000, race.seconds, negativePercent)
  const halves =
    negativePercent === 0
      ? 'even'
      : `first half ${formatPace(first, unit, 1)}, second ${formatPace(second, unit, 1)}`
  return [
    `${race.distance} in ${formatClockShort(race.seconds)}: ${formatPace(pace, unit)}, ${halves}`,
    ...[[place, 'split', 'running'], ...rows].map(
      ([at = '', split = '', running = '']) => at.padStart(6) + split.padStart(9) + running.padStart(width),
    ),
    ...(carbs === null ? [] : [`carbohydrate: ${carbs} an hour (explain race-card)`]),
    'for the goal, not for training',
  ]
}
