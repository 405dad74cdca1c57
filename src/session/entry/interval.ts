import type { Span } from '../../prescription/model.ts'
import { speedLimits } from '../../prescription/plausible.ts'
import { printNumber } from '../../units/decimal.ts'
import { formatClockShort, formatClockSpan } from '../../units/duration.ts'
import { metersIn } from '../../units/length.ts'
import { wordsFor } from '../../units/words.ts'
import type { IntervalResult } from '../model.ts'
import type { IntervalPrompt } from '../prompt.ts'
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
const farthest = 1e6
const longest = 4 * 24 * 3600

/** `2.9 km`. */
const length = phrase(`(${number}) (${wordsFor('m', 'km', 'mi', 'yd', 'lap')}) `)
/** `6:07`, `88.4`, `90 s`. */
const time = phrase(`(${clock}) |(${number}) (?:(${wordsFor('s', 'min', 'h')}) )?`)
const pace = phrase(`(${clock}) / (?:(${wordsFor('m', 'km', 'mi', 'yd')}) )?`)
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

export function parseInterval(cursor: Cursor, prompt: IntervalPrompt): Parsed<IntervalResult> {
  let effort = noEffort
  const typed: Typed = { time: null, distance: null }
  while (!cursor.isAtEnd) {
    const taken = takeEffort(cursor, effort, false)
    effort = taken ?? effort
    const isTaken =
      taken !== null ||
      cursor.take(between) !== null ||
      takePace(cursor, prompt) ||
      takeDistance(cursor, typed, prompt) ||
      takeTime(cursor, typed, prompt)
    if (!isTaken) cursor.refuseToken(example(prompt))
  }
  const result = { ...resultOf(typed, prompt, cursor), ...effort, ...cursor.remarks }
  questionSpeed({ result, ...typed, prompt }, cursor)
  return cursor.parsed(result)
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
  const seconds = Math.round(valueIn(value) * (unitOf(word ?? 's')?.size ?? 1) * 100) / 100
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

/** Refuses a pace and suggests the time that it gives over the distance. */
function takePace(cursor: Cursor, prompt: IntervalPrompt): boolean {
  const found = cursor.take(pace)
  if (found === null) return false
  const [perUnit = '', word = ''] = found.parts
  const unit = unitOf(word)
  if (unit === null || prompt.meters === null) {
    cursor.refuse('type the time of the whole interval, not its pace')
    return true
  }
  const text = formatClockShort(Math.round(((valueIn(perUnit) * prompt.meters) / unit.size) * 10) / 10)
  cursor.refuse(`${perUnit}/${word} over ${prompt.label} is ${text}`, { ...found, text: `${text}` })
  return true
}

type Done = Pick<IntervalResult, 'meters' | 'seconds' | 'precision' | 'byKey'>

/** The result; what was not typed is taken from the prescription or the offered time, or stays unknown. */
function resultOf({ time, distance }: Typed, prompt: IntervalPrompt, cursor: Cursor): Done {
  if (prompt.seconds !== null) {
    const measured = time === null ? prompt.offered : null
    const seconds = time?.value ?? measured ?? prompt.seconds
    const treadmill = prompt.treadmillSpeed === null ? null : prompt.treadmillSpeed * seconds
    return {
      meters: distance?.value ?? treadmill,
      seconds,
      precision: measured === null ? precisionOf(time?.text ?? String(seconds)) : 0.1,
      byKey: measured !== null,
    }
  }
  const meters = distance?.value ?? prompt.meters
  if (time !== null) return { meters, seconds: time.value, precision: precisionOf(time.text), byKey: false }
  const offered = prompt.offered === null ? 0 : Math.round(prompt.offered * 10) / 10
  if (offered > 0) return { meters, seconds: offered, precision: 0.1, byKey: true }
  if (!prompt.hasTarget) return { meters, seconds: null, precision: null, byKey: false }
  if (distance !== null) cursor.refuse(`type the time as well: ${distance.text} in 14:30`)
  cursor.refuse(`a target is never a result: type the time of ${prompt.label}, such as 1:52.4`)
  return { meters, seconds: null, precision: null, byKey: false }
}

/** Refuses a number without a unit where the time is prescribed, and suggests it in the day's unit or in metres,
 * whichever somebody could cover in that time. */
function refuseBareNumber(cursor: Cursor, figure: Figure, prompt: IntervalPrompt): void {
  const { text, value } = figure
  const seconds = prompt.seconds ?? 0
  const length = ([prompt.unit, 'm'] as const).find((unit) =>
    isPossible(prompt, value * metersIn[unit], seconds),
  )
  const unit = length ?? (isAbout(value * 60, seconds) ? 'min' : 's')
  cursor.refuse('the time is prescribed', { ...figure, text: `${text} ${unit}` })
}

/** Whether a bare number probably repeats the time instead of giving a distance: within a fifth of it, or 2 s. */
function isAbout(value: number, seconds: number): boolean {
  return Math.abs(value - seconds) <= Math.max(2, seconds / 5)
}

function example(prompt: IntervalPrompt): string {
  if (prompt.seconds !== null) return `type how far it was, such as 2.1 ${prompt.unit}`
  return `type the time of ${prompt.label}, such as 1:52.4`
}

/* Questions a time that nobody runs, and suggests what was probably meant. */

/** Metres a second: a suggestion slower than this would be as doubtful as the entry. */
const slowestSuggested = 1

/** Whether somebody could cover this many metres in this many seconds. */
function isPossible({ part }: IntervalPrompt, meters: number, seconds: number): boolean {
  const { slow, fast } = speedLimits(part, meters)
  return meters / seconds <= fast && meters / seconds >= slow
}

interface Questioned extends Typed {
  result: Done
  prompt: IntervalPrompt
}

function questionSpeed(typed: Questioned, cursor: Cursor): void {
  const { meters, seconds } = typed.result
  if (meters === null || seconds === null) return
  const { part } = typed.prompt
  const { slow, fast } = speedLimits(part, meters)
  if (isPossible(typed.prompt, meters, seconds)) {
    const clock = clockMeant(typed, meters, seconds)
    if (clock === null) {
      questionTarget(typed, seconds, cursor)
      return
    }
    const what = `${timeText(typed)} for ${distanceText(typed)} is ${formatClockShort(seconds)}`
    cursor.query(what, clock)
    return
  }
  const speed = meters / seconds
  const what = `${timeText(typed)} for ${distanceText(typed)}`
  const tooFast = part === 'run' ? 'is faster than any human' : `is faster than ${fast} m/s`
  const verdict = speed > fast ? tooFast : `is slower than ${slow} m/s`
  cursor.query(`${what} ${verdict}`, meantBy(typed, meters, seconds))
}

/** Shares of the ends of a target. A time beyond them was mistyped, is that of the whole run instead of one split, or
 * the interval was not run as written. */
const leastOfTarget = 0.6
const mostOfTarget = 3

function questionTarget(typed: Questioned, seconds: number, cursor: Cursor): void {
  const { distance, prompt, time } = typed
  const { target } = prompt
  if (target === null || distance !== null || time === null || prompt.seconds !== null) return
  if (seconds >= target.from * leastOfTarget && seconds <= target.to * mostOfTarget) return
  const aim = formatClockSpan(target, null)
  cursor.query(`${formatClockShort(seconds)} for ${distanceText(typed)} is far from its target of ${aim}`)
}

function timeText({ time, result }: Questioned): string {
  if (time === null) return formatClockShort(result.seconds ?? 0, result.precision)
  return time.bare ? `${time.text} s` : time.text
}

function distanceText({ distance, prompt, result }: Questioned): string {
  if (distance !== null) return distance.text
  return prompt.meters === null ? `${printNumber(Math.round(result.meters ?? 0))} m` : prompt.label
}

function meantBy(typed: Questioned, meters: number, seconds: number): Edit | null {
  const { time, distance, prompt } = typed
  const other = otherTimes(time?.text ?? '').find((each) => isLikely(prompt, meters, each.seconds))
  if (time !== null && other !== undefined) return { ...time, text: other.text }
  if (distance === null) return null
  const [value = '', unit = ''] = distance.text.split(' ')
  const otherUnit = unit === 'm' ? prompt.unit : 'm'
  const inOther = Number(value) * metersIn[otherUnit]
  return isLikely(prompt, inOther, seconds) ? { ...distance, text: `${value} ${otherUnit}` } : null
}

/** Whether a suggestion is worth making: the time is beyond doubt for this length. */
function isLikely({ part }: IntervalPrompt, meters: number, seconds: number): boolean {
  return (
    seconds > 0 && meters / seconds <= speedLimits(part, meters).fast && meters / seconds >= slowestSuggested
  )
}

/** Bare seconds are doubted beyond this many times the slow end of the target. */
const farFromTarget = 1.3
/** A clock reading within this share of the target was probably meant. */
const nearTarget = 0.15
/** From here on hardly anybody types bare seconds. */
const longInSeconds = 200

/** The time that bare digits mean if only the colon is missing: `1110` is 11:10, not 1110 s, and without a target
 * `412` is 4:12. A target decides between the two. Null if the seconds are not doubted. This program's own rule. */
function clockMeant({ time, distance, prompt }: Questioned, meters: number, seconds: number): Edit | null {
  if (!time?.bare || prompt.seconds !== null) return null
  const clock = otherTimes(time.text).find(
    (each) => each.seconds < seconds && isLikely(prompt, meters, each.seconds),
  )
  if (clock === undefined) return null
  const target = distance === null ? prompt.target : null
  const isDoubted =
    target === null
      ? seconds >= longInSeconds
      : seconds > target.to * farFromTarget && isNear(clock.seconds, target)
  return isDoubted ? { ...time, text: clock.text } : null
}

function isNear(seconds: number, target: Span): boolean {
  return seconds >= target.from * (1 - nearTarget) && seconds <= target.to * (1 + nearTarget)
}
