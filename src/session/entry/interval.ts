import type { Span } from '../../prescription/model.ts'
import { speedLimits } from '../../prescription/plausible.ts'
import { roundTo } from '../../units/decimal.ts'
import { formatClockShort, formatClockSpan } from '../../units/duration.ts'
import { formatMeters, metersIn } from '../../units/length.ts'
import { wordsFor } from '../../units/words.ts'
import type { IntervalResult } from '../model.ts'
import { amountText } from '../names.ts'
import type { Answer, IntervalPrompt } from '../prompt.ts'
import { noEffort, takeEffort } from './effort.ts'
import {
  type Cursor,
  clock,
  type Edit,
  number,
  otherTimes,
  type Parsed,
  phrase,
  precisionOf,
  unitOf,
  valueIn,
} from './lex.ts'

/* Parses a split, a repeat or an interval: a time, a distance, a heart rate, an effort. */

/** Hard limits in metres and seconds: not even insisting records more. */
export const farthest = 1e6
const longest = 4 * 24 * 3600

/** `2.9 km`. */
const length = phrase(`(${number}) (${wordsFor('m', 'km', 'mi', 'yd', 'lap')}) `)
/** `6:07`, `88.4`, `90 s`. */
const time = phrase(`(${clock}) |(${number}) (?:(${wordsFor('s', 'min', 'h')}) )?`)
/** `3:42/km`. */
const paceTyped = phrase(`(${clock}) / (?:(${wordsFor('m', 'km', 'mi', 'yd')}) )?`)
const between = phrase('(?:in|for) ')

/** A time or a distance and its place in the entry. */
interface Figure extends Edit {
  value: number
  /** The seconds were typed without a colon or a unit. */
  bare: boolean
}

interface Typed {
  time: Figure | null
  distance: Figure | null
}

export function parseInterval(cursor: Cursor, prompt: IntervalPrompt): Parsed<Answer> {
  let effort = noEffort
  const typed: Typed = { time: null, distance: null }
  while (cursor.goOn()) {
    const taken = takeEffort(cursor, effort, 'interval')
    effort = taken ?? effort
    const isTaken =
      taken !== null ||
      cursor.take(between) !== null ||
      takePace(cursor, prompt) ||
      takeDistance(cursor, typed, prompt) ||
      takeTime(cursor, typed, prompt)
    if (!isTaken) cursor.refuseToken(example(prompt))
  }
  const rates = effort.heartRate === null && prompt.before ? prompt.before : effort
  const result: IntervalResult = {
    ...resultOf(typed, prompt, cursor),
    rpe: effort.rpe ?? prompt.before?.rpe ?? null,
    heartRate: rates.heartRate,
    heartRateMax: rates.heartRateMax,
    ...cursor.remarks,
  }
  questionSpeed(result, typed, prompt, cursor)
  return cursor.parsed({ kind: 'interval', result })
}

function takeDistance(cursor: Cursor, typed: Typed, prompt: IntervalPrompt): boolean {
  const found = cursor.take(length)
  if (found === null) return false
  const [value = '', word = ''] = found.parts
  const unit = unitOf(word)
  const figure = { ...found, value: Number(value) * (unit?.size ?? 0), bare: false }
  const { text } = found
  if (unit === null) cursor.refuse('laps differ in length; type the distance in m, km or mi')
  if (typed.distance !== null)
    cursor.refuse(`there are two distances, ${typed.distance.text} and ${text}; type one`)
  if (figure.value > farthest) {
    const meant = text.endsWith(' km') ? { ...found, text: `${value} m` } : null
    cursor.refuse(`${text} is farther than the 1000 km that one interval may be`, meant)
  }
  if (figure.value < 1) cursor.refuse(`${text} is less than a metre; ${example(prompt)}`)
  typed.distance = figure
  return true
}

function takeTime(cursor: Cursor, typed: Typed, prompt: IntervalPrompt): boolean {
  const found = cursor.take(time)
  if (found === null) return false
  const [clockTime, value = clockTime ?? '', word] = found.parts
  const seconds = roundTo(valueIn(value) * (unitOf(word ?? 's')?.size ?? 1), 2)
  const figure = { ...found, value: seconds, bare: clockTime === undefined && word === undefined }
  const { text } = found
  if (typed.time !== null) {
    const isRate = figure.bare && seconds >= 80 && seconds <= 230
    cursor.refuse(
      `there are two times, ${typed.time.text} and ${text}; type one`,
      isRate ? { ...found, text: `hr ${text}` } : null,
    )
  }
  if (seconds > longest) cursor.refuse(`${text} is longer than the four days that one interval may take`)
  if (seconds <= 0) cursor.refuse(`a time must be more than ${text}; ${example(prompt)}`)
  const isDistance = figure.bare && prompt.seconds !== null && typed.distance === null
  if (isDistance && !isAbout(seconds, prompt.seconds ?? 0)) refuseBareNumber(cursor, figure, prompt)
  typed.time = figure
  return true
}

/** Refuses a pace and suggests the time that it gives over the distance, or how far it leads in the time. */
function takePace(cursor: Cursor, prompt: IntervalPrompt): boolean {
  const found = cursor.take(paceTyped)
  if (found === null) return false
  const [perUnit = '', word = ''] = found.parts
  const unit = unitOf(word)
  const { before, unit: dayUnit } = prompt
  const meters = prompt.meters === null ? null : (before?.meters ?? prompt.meters)
  const seconds = before?.seconds ?? prompt.seconds
  const pace = valueIn(perUnit)
  if (unit === null || pace === 0) {
    cursor.refuse(
      `type ${meters === null ? 'how far it was' : 'the time of the whole interval'}, not its pace`,
    )
    return true
  }
  const text =
    meters === null
      ? `${roundTo((seconds ?? 0) / pace, 2)} ${word}`
      : formatClockShort(roundTo((pace * meters) / unit.size, 1))
  cursor.refuse(`${perUnit}/${word} over ${amountText({ meters, seconds }, dayUnit)} is ${text}`, {
    ...found,
    text,
  })
  return true
}

type Done = Pick<IntervalResult, 'meters' | 'seconds' | 'precision' | 'byKey'>

/** The result; what was not typed is that of the result to correct, else as prescribed, or stays unknown. */
function resultOf({ time, distance }: Typed, prompt: IntervalPrompt, cursor: Cursor): Done {
  const before = cursor.isAsPrescribed ? undefined : prompt.before
  const timed = timeOf(time, before, prompt)
  if (timed.seconds === null && prompt.hasTarget) {
    if (distance !== null) cursor.refuse(`type the time as well: ${distance.text} in 14:30`)
    cursor.refuse(`a target is never a result: ${example(prompt)}`)
  }
  const isElsewhere = before && before.meters !== metersKnown(before.seconds, prompt)
  const meters = isElsewhere ? before.meters : metersKnown(timed.seconds, prompt)
  return { meters: distance?.value ?? meters, ...timed }
}

/** The time as typed, else as before, as measured by key or as prescribed. */
function timeOf(
  time: Figure | null,
  before: IntervalResult | undefined,
  { offered, seconds }: IntervalPrompt,
): Omit<Done, 'meters'> {
  if (time !== null) return { seconds: time.value, precision: precisionOf(time.text), byKey: false }
  if (before) return { seconds: before.seconds, precision: before.precision, byKey: before.byKey }
  if (offered !== null) return { seconds: offered, precision: 0.1, byKey: true }
  return { seconds, precision: seconds === null ? null : precisionOf(String(seconds)), byKey: false }
}

/** The metres that need not be typed: as prescribed, or on a treadmill speed times time. */
export function metersKnown(
  seconds: number | null,
  { meters, treadmillSpeed }: IntervalPrompt,
): number | null {
  return meters ?? (seconds === null || treadmillSpeed === null ? null : treadmillSpeed * seconds)
}

/** Refuses a number without a unit, and suggests it in the day's unit or in metres, whichever somebody could cover in
 * that time, else in minutes or seconds, whichever is nearer to that time by ratio. */
function refuseBareNumber(cursor: Cursor, figure: Figure, prompt: IntervalPrompt): void {
  const { text, value } = figure
  const seconds = prompt.seconds ?? 0
  const length = ([prompt.unit, 'm'] as const).find((unit) =>
    isLikely(prompt, value * metersIn[unit], seconds),
  )
  const unit = length ?? ((60 * value) / seconds < seconds / value ? 'min' : 's')
  cursor.refuse('the unit is missing', { ...figure, text: `${text} ${unit}` })
}

/** Whether a bare number probably repeats the time instead of giving a distance: within a fifth of it, or 2 s. */
function isAbout(value: number, seconds: number): boolean {
  return Math.abs(value - seconds) <= Math.max(2, seconds / 5)
}

/** What to type, with an example at 5:00/km. */
function example({ meters, seconds, offered, unit, label }: IntervalPrompt): string {
  if (meters !== null)
    return `type the time of ${label}, such as ${formatClockShort(Math.round(meters * 0.3))}`
  const distance = Math.ceil((offered ?? seconds ?? 0) / 0.3)
  return `type how far it was, such as ${formatMeters(distance, unit)}`
}

/* Questions a time that nobody runs, and suggests what was probably meant. All limits but the speeds are this program's
 * own rules. */

/** Metres a second: a suggestion slower than this would be as doubtful as the entry. */
const slowestSuggested = 1
/** Shares of the ends of a target. A time beyond them was mistyped, is that of the whole run instead of one split, or
 * the interval was not run as written. */
const [leastOfTarget, mostOfTarget] = [0.6, 3]
/** Bare seconds are doubted beyond this many times the slow end of the target, if a clock reading is near it. */
const farFromTarget = 1.3
/** A clock reading within this share of the target was probably meant. */
const nearTarget = 0.15
/** Without a target, hardly anybody types bare seconds from here on. */
const longInSeconds = 200

function questionSpeed(result: Done, typed: Typed, prompt: IntervalPrompt, cursor: Cursor): void {
  const { meters, seconds, precision } = result
  const { time, distance } = typed
  if (time !== null && prompt.seconds !== null && time.value > mostOfTarget * prompt.seconds)
    cursor.query(`${formatClockShort(time.value)} instead of ${formatClockShort(prompt.seconds)}`)
  if (meters === null || seconds === null) return
  const { slow, fast } = speedLimits(prompt.part, meters)
  const speed = meters / seconds
  const far = distance?.text ?? (prompt.meters === null ? `${Math.round(meters)} m` : prompt.label)
  const shown = time?.bare ? `${time.text} s` : (time?.text ?? formatClockShort(seconds, precision))
  const other = otherTime(time, prompt, meters)
  if (speed > fast || speed < slow) {
    const tooFast = prompt.part === 'run' ? 'faster than any human' : `faster than ${fast} m/s`
    const verdict = speed > fast ? tooFast : `slower than ${slow} m/s`
    cursor.query(`${shown} for ${far} is ${verdict}`, other ?? inOtherUnit(distance, prompt, seconds))
    return
  }
  if (time === null || prompt.seconds !== null) return
  const target = distance === null ? prompt.target : null
  if (time.bare && other !== null && isClockMeant(seconds, other.seconds, target)) {
    cursor.query(`${shown} for ${far} is ${formatClockShort(seconds)}`, other)
  } else if (
    target !== null &&
    (seconds < target.from * leastOfTarget || seconds > target.to * mostOfTarget)
  ) {
    const aim = formatClockSpan(target, null)
    cursor.query(`${formatClockShort(seconds)} for ${far} is far from its target of ${aim}`)
  }
}

/** Another reading of a typed time that somebody could run; null without any. */
function otherTime(
  time: Figure | null,
  prompt: IntervalPrompt,
  meters: number,
): (Edit & { seconds: number }) | null {
  const other = otherTimes(time?.text ?? '').find(({ seconds }) => isLikely(prompt, meters, seconds))
  return time && other ? { ...time, ...other } : null
}

function inOtherUnit(distance: Figure | null, prompt: IntervalPrompt, seconds: number): Edit | null {
  const [value = '', unit = ''] = distance?.text.split(' ') ?? []
  const other = unit === 'm' ? prompt.unit : 'm'
  const isMeant = isLikely(prompt, Number(value) * metersIn[other], seconds)
  return distance && isMeant ? { ...distance, text: `${value} ${other}` } : null
}

/** Whether a suggestion is worth making: the time is beyond doubt for this length. */
function isLikely({ part }: IntervalPrompt, meters: number, seconds: number): boolean {
  const speed = meters / seconds
  return seconds > 0 && speed <= speedLimits(part, meters).fast && speed >= slowestSuggested
}

/** Whether bare digits only lack their colon: `1110` is 11:10, not 1110 s, and without a target `412` is 4:12. A target
 * decides between the two. */
function isClockMeant(seconds: number, clock: number, target: Span | null): boolean {
  if (clock >= seconds) return false
  if (target === null) return seconds >= longInSeconds
  const isNear = clock >= target.from * (1 - nearTarget) && clock <= target.to * (1 + nearTarget)
  return isNear && seconds > target.to * farFromTarget
}
