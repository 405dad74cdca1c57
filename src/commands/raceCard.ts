import { type CardSplit, carbsWhileRacing, cardSplits } from '../figures/race.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { jsonOf } from '../summary/json.ts'
import { formatClock, formatClockShort, formatPace } from '../units/duration.ts'
import { metersOf, printLength, readLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { type CommandInput, commandLineError } from './command.ts'

interface RaceCard {
  race: { distance: string; meters: number; seconds: number }
  /** By how much the second half is faster; 0 when even. */
  negativePercent: number
  splits: CardSplit[]
  /** Null up to an hour. */
  carbsGAnHour: { from: number; to: number } | null
}

const narrowColumns = 14
const mostSplits = 500

/** The card of a race: a split and the running time for each kilometre, mile or lap.
 * @throws CommandError for an invalid percentage or lap */
export function raceCardOf(input: CommandInput, distance: Length, seconds: number): string {
  const { values, flags, json, units } = input
  const meters = metersOf(distance)
  const unit = units.distance ?? (distance.unit === 'mi' ? 'mi' : 'km')
  const split = values.lap === undefined ? metersOf({ value: 1, unit }) : lapMeters(values.lap, meters)
  const negativePercent = values.negative === undefined ? 0 : percentOf(values.negative)
  const card: RaceCard = {
    race: { distance: printLength(distance), meters, seconds },
    negativePercent,
    splits: cardSplits(meters, seconds, split, negativePercent),
    carbsGAnHour: carbsWhileRacing(seconds),
  }
  if (json) return jsonOf(card)
  const place = values.lap === undefined ? unit : 'lap'
  const lines = flags.has('narrow') ? narrowLines(card, place, split) : cardLines(card, place, split, unit)
  return `${lines.join('\n')}\n`
}

function lapMeters(text: string, raceMeters: number): number {
  const lap = readLength(/^\d+(\.\d+)?$/.test(text.trim()) ? `${text} m` : text)
  const meters = lap === null ? null : metersOf(lap)
  if (meters === null || meters < 50) {
    throw commandLineError(`Invalid lap "${text}". Write its length, at least 50 m: --lap 400.`)
  }
  if (meters > raceMeters)
    throw commandLineError(`A lap of ${text} is longer than the race. Write a shorter one.`)
  if (raceMeters / meters > mostSplits) {
    throw commandLineError(`That makes more than ${mostSplits} laps. Write a longer one: --lap 1000.`)
  }
  return meters
}

function percentOf(text: string): number {
  const parts = /^(\d{1,2}(?:\.\d{1,2})?)\s?%?$/.exec(text.trim())
  const percent = Number(parts?.[1])
  if (parts !== null && percent <= 10) return percent
  throw commandLineError(`Invalid percentage "${text}". Write 0 to 10, as in --negative 1%.`)
}

/** Whole seconds, tenths for splits below 600 m; the printed splits add up to the printed running times. */
function rowsOf(
  { splits }: RaceCard,
  place: string,
  split: number,
): { at: string; split: string; running: string }[] {
  const decimals = split < 600 ? 1 : 0
  const scale = 10 ** decimals
  let before = 0
  return splits.map(({ meters, runningSeconds }) => {
    const running = Math.round(runningSeconds * scale) / scale
    const one = running - before
    before = running
    const unit = place === 'lap' ? split : metersOf({ value: 1, unit: place === 'mi' ? 'mi' : 'km' })
    return {
      at: String(Number((meters / unit).toFixed(1))),
      split: formatClock(one, decimals),
      running: formatClock(running, decimals),
    }
  })
}

function cardLines(card: RaceCard, place: string, split: number, unit: 'km' | 'mi'): string[] {
  const { race, negativePercent, carbsGAnHour } = card
  const pace = secondsPerKm(race.meters, race.seconds)
  const first = pace / (1 - negativePercent / 200)
  const second = first * (1 - negativePercent / 100)
  const halves =
    negativePercent === 0
      ? 'even'
      : `first half ${formatPace(first, unit, 1)}, second ${formatPace(second, unit, 1)}`
  return [
    `${race.distance} in ${formatClockShort(race.seconds)}: ${formatPace(pace, unit)}, ${halves}`,
    `${place.padStart(6)}${'split'.padStart(9)}${'running'.padStart(10)}`,
    ...rowsOf(card, place, split).map(
      (row) => `${row.at.padStart(6)}${row.split.padStart(9)}${row.running.padStart(10)}`,
    ),
    ...(carbsGAnHour === null
      ? []
      : [`carbohydrate: ${carbsGAnHour.from}-${carbsGAnHour.to} g an hour (explain race-card)`]),
    'for the goal, not for training',
  ]
}

/** Lines of 14 columns: if split and running time do not both fit, only the running time. */
function narrowLines(card: RaceCard, place: string, split: number): string[] {
  const { race, carbsGAnHour } = card
  const rows = rowsOf(card, place, split)
  const widest = (of: (row: (typeof rows)[number]) => string) =>
    Math.max(...rows.map((row) => of(row).length))
  const [at, one, all] = [widest((row) => row.at), widest((row) => row.split), widest((row) => row.running)]
  const fits = at + one + all + 2 <= narrowColumns
  return [
    ...cut(`${race.distance} ${formatClockShort(race.seconds)}`),
    ...rows.map((row) =>
      fits
        ? `${row.at.padStart(at)} ${row.split.padStart(one)} ${row.running.padStart(all)}`
        : `${row.at.padStart(at)} ${row.running.padStart(all)}`,
    ),
    ...(carbsGAnHour === null ? [] : ['carbohydrate', `${carbsGAnHour.from}-${carbsGAnHour.to} g/h`]),
    'for the goal,',
    'not training',
  ]
}

function cut(text: string): string[] {
  if (text.length <= narrowColumns) return [text]
  const at = text.lastIndexOf(' ', narrowColumns)
  return [text.slice(0, at).slice(0, narrowColumns), text.slice(at + 1)]
}
