import type { Span } from '../../prescription/model.ts'
import { speedLimits } from '../../prescription/plausible.ts'
import { printNumber } from '../../units/decimal.ts'
import { formatClockShort, formatClockSpan } from '../../units/duration.ts'
import { metersIn as metersInUnit } from '../../units/length.ts'
import { lengthUnitOf, secondsIn } from '../../units/words.ts'
import type { IntervalResult } from '../model.ts'
import type { IntervalPrompt } from '../prompt.ts'
import { noEffort, takeEffort } from './effort.ts'
import {
  type Clock,
  Cursor,
  type Edit,
  type EntryText,
  metersIn,
  type Parsed,
  precisionOf,
  slowerReading,
  type Token,
  withColons,
} from './lex.ts'

/* Parses a split, a repeat or an interval: a time, a distance, a heart rate, an effort. */

/** Hard limits in metres and seconds: not even insisting records more. */
const farthest = 1e6
const longest = 4 * 24 * 3600

export function parseInterval(text: EntryText, prompt: IntervalPrompt): Parsed<IntervalResult> {
  const cursor = new Cursor(text.body)
  let effort = noEffort
  let time: Figure | null = null
  let distance: Figure | null = null
  for (let token = cursor.peek(); token !== null; token = cursor.peek()) {
    const taken = takeEffort(cursor, effort, false)
    if (taken !== null) {
      effort = taken
      continue
    }
    if (cursor.takeIf(',', 'in', 'for')) continue
    const figure = takeFigure(cursor, prompt)
    if (figure === null) {
      cursor.refuse(`"${token.text}" is not understood; ${example(prompt)}`)
    } else if (figure.is === 'distance') {
      checkDistance(figure, distance, prompt, cursor)
      distance = figure
    } else {
      checkTime(figure, { time, distance }, prompt, cursor)
      time = figure
    }
  }
  const result = { ...resultOf(time, distance, prompt, cursor), ...effort, note: text.note, pain: text.pain }
  questionSpeed({ result, time, distance, prompt }, cursor)
  return cursor.parsed(result)
}

function checkDistance(figure: Figure, before: Figure | null, prompt: IntervalPrompt, cursor: Cursor): void {
  if (before !== null) cursor.refuse(`there are two distances, ${before.text} and ${figure.text}; type one`)
  if (figure.value > farthest) refuseTooFar(cursor, figure)
  if (figure.value < 1) cursor.refuse(`${figure.text} is less than a metre; ${example(prompt)}`)
}

function checkTime(
  figure: Figure,
  before: { time: Figure | null; distance: Figure | null },
  prompt: IntervalPrompt,
  cursor: Cursor,
): void {
  if (before.time !== null) {
    const isRate = figure.bare && figure.value >= 80 && figure.value <= 230
    const rate = isRate ? { ...figure, text: `hr ${figure.text}` } : null
    cursor.refuse(`there are two times, ${before.time.text} and ${figure.text}; type one`, rate)
  }
  if (figure.value > longest)
    cursor.refuse(`${figure.text} is longer than the four days that one interval may take`)
  if (figure.value <= 0) cursor.refuse(`a time must be more than ${figure.text}; ${example(prompt)}`)
  const isDistance = figure.bare && prompt.seconds !== null && before.distance === null
  if (isDistance && !isAbout(figure.value, prompt.seconds ?? 0)) refuseBareNumber(cursor, figure, prompt)
}

type Done = Pick<IntervalResult, 'meters' | 'seconds' | 'precision' | 'byKey'>

/** The result; what was not typed is taken from the prescription or the offered time, or stays unknown. */
function resultOf(
  time: Figure | null,
  distance: Figure | null,
  prompt: IntervalPrompt,
  cursor: Cursor,
): Done {
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

function takeFigure(cursor: Cursor, prompt: IntervalPrompt): (Figure & { is: 'time' | 'distance' }) | null {
  const token = cursor.peek()
  if (token?.kind !== 'number' && token?.kind !== 'clock') return null
  cursor.take()
  if (token.kind === 'clock') {
    if (cursor.peek()?.text === '/') refusePace(cursor, token, prompt)
    return { ...token, is: 'time', bare: false }
  }
  const unit = cursor.peek()
  const word = unit?.text ?? ''
  if (lengthUnitOf(word) === 'lap') cursor.refuse('laps differ in length; type the distance in m, km or mi')
  const [inMeters, inSeconds] = [metersIn(word), secondsIn(word)]
  if (unit === null || (inMeters ?? inSeconds) === null)
    return { ...token, is: 'time', value: hundredthsOf(token.value), bare: true }
  cursor.take()
  const place = { text: `${token.text} ${unit.text}`, start: token.start, end: unit.end, bare: false }
  return inMeters !== null
    ? { ...place, is: 'distance', value: token.value * inMeters }
    : { ...place, is: 'time', value: hundredthsOf(token.value * (inSeconds ?? 1)) }
}

/** Refuses a pace and suggests the time that it gives over the distance. */
function refusePace(cursor: Cursor, pace: Token, prompt: IntervalPrompt): null {
  const unit = cursor.peek(1)
  const per = metersIn(unit?.text ?? '')
  if (per === null || unit === null || prompt.meters === null)
    return cursor.refuse('type the time of the whole interval, not its pace')
  const seconds = Math.round(((pace.value * prompt.meters) / per) * 10) / 10
  const text = formatClockShort(seconds)
  const message = `${pace.text}/${unit.text} over ${prompt.label} is ${text}`
  return cursor.refuse(message, { text, start: pace.start, end: unit.end })
}

function hundredthsOf(seconds: number): number {
  return Math.round(seconds * 100) / 100
}

/** Refuses a number without a unit where the time is prescribed, and suggests it in the day's unit or in metres,
 * whichever somebody could cover in that time. */
function refuseBareNumber(cursor: Cursor, figure: Figure, prompt: IntervalPrompt): void {
  const { text, value } = figure
  const seconds = prompt.seconds ?? 0
  const isMinutes = isAbout(value * 60, seconds)
  const meant = isPossible(prompt, value * metersInUnit[prompt.unit], seconds)
    ? `${text} ${prompt.unit}`
    : isPossible(prompt, value, seconds)
      ? `${text} m`
      : `${text} ${isMinutes ? 'min' : 's'}`
  cursor.refuse('the time is prescribed', { ...figure, text: meant })
}

/** Whether a bare number probably repeats the time instead of giving a distance: within a fifth of it, or 2 s. */
function isAbout(value: number, seconds: number): boolean {
  return Math.abs(value - seconds) <= Math.max(2, seconds / 5)
}

function refuseTooFar(cursor: Cursor, figure: Figure): null {
  const what = `${figure.text} is farther than the 1000 km that one interval may be`
  if (!figure.text.endsWith(' km')) return cursor.refuse(what)
  return cursor.refuse(what, { ...figure, text: figure.text.replace(' km', ' m') })
}

function example(prompt: IntervalPrompt): string {
  if (prompt.seconds !== null) return `type how far it was, such as 2.1 ${prompt.unit}`
  return `type the time of ${prompt.label}, such as 1:52.4`
}

/* Questions a time that nobody runs, and suggests what was probably meant. */

/** A time or a distance and its place in the entry. */
interface Figure extends Edit {
  value: number
  /** The seconds were typed without a colon or a unit. */
  bare: boolean
}

/** Metres a second: a suggestion slower than this would be as doubtful as the entry. */
const slowestSuggested = 1

/** Whether somebody could cover this many metres in this many seconds. */
function isPossible({ part }: IntervalPrompt, meters: number, seconds: number): boolean {
  const { slow, fast } = speedLimits(part, meters)
  return meters / seconds <= fast && meters / seconds >= slow
}

interface Typed {
  result: { meters: number | null; seconds: number | null; precision: number | null; byKey: boolean }
  time: Figure | null
  distance: Figure | null
  prompt: IntervalPrompt
}

function questionSpeed(typed: Typed, cursor: Cursor): void {
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

function questionTarget(typed: Typed, seconds: number, cursor: Cursor): void {
  const { distance, prompt, time } = typed
  const { target } = prompt
  if (target === null || distance !== null || time === null || prompt.seconds !== null) return
  if (seconds >= target.from * leastOfTarget && seconds <= target.to * mostOfTarget) return
  const aim = formatClockSpan(target, null)
  cursor.query(`${formatClockShort(seconds)} for ${distanceText(typed)} is far from its target of ${aim}`)
}

function timeText({ time, result }: Typed): string {
  if (time === null) return formatClockShort(result.seconds ?? 0, result.precision)
  return time.bare ? `${time.text} s` : time.text
}

function distanceText({ distance, prompt, result }: Typed): string {
  if (distance !== null) return distance.text
  return prompt.meters === null ? `${printNumber(Math.round(result.meters ?? 0))} m` : prompt.label
}

function meantBy(typed: Typed, meters: number, seconds: number): Edit | null {
  const { time, distance, prompt } = typed
  if (time !== null) {
    const clock =
      meters / seconds > speedLimits(prompt.part, meters).fast
        ? slowerReading(time.text)
        : quickerReading(time.text)
    if (clock !== null && isLikely(prompt, meters, clock.seconds)) return { ...time, text: clock.text }
  }
  if (distance === null) return null
  const [number = '', unit = ''] = distance.text.split(' ')
  const other = unit === 'm' ? prompt.unit : 'm'
  const inOther = Number(number) * metersInUnit[other]
  return isLikely(prompt, inOther, seconds) ? { ...distance, text: `${number} ${other}` } : null
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
/** From here on nobody types bare seconds, or without a target hardly anybody does. */
const longInSeconds = { withTarget: 1000, without: 200 }

/** The time that bare digits mean if only the colon is missing: `1110` is 11:10, not 1110 s, and without a target
 * `412` is 4:12. A target decides between the two. Null if the seconds are not doubted. This program's own rule. */
function clockMeant({ time, distance, prompt }: Typed, meters: number, seconds: number): Edit | null {
  const clock = time?.bare ? withColons(time.text) : null
  if (time === null || clock === null || clock.seconds >= seconds || !isLikely(prompt, meters, clock.seconds))
    return null
  const target = distance === null || prompt.seconds !== null ? targetOf(prompt) : null
  const isDoubted =
    target === null
      ? seconds >= longInSeconds.without
      : seconds > target.to * farFromTarget &&
        (seconds >= longInSeconds.withTarget || isNear(clock.seconds, target))
  return isDoubted ? { ...time, text: clock.text } : null
}

/** The target range of the time; for an interval by time, the time itself. */
function targetOf({ seconds, target }: IntervalPrompt): Span | null {
  return seconds === null ? target : { from: seconds, to: seconds }
}

function isNear(seconds: number, target: Span): boolean {
  return seconds >= target.from * (1 - nearTarget) && seconds <= target.to * (1 + nearTarget)
}

/** A watch's `m:ss:00` that was read as hours, or digits without their colon. */
function quickerReading(text: string): Clock | null {
  const clock = /^(\d{1,3}):(\d\d):00$/.exec(text)
  if (clock === null) return withColons(text)
  return { text: `${clock[1]}:${clock[2]}`, seconds: Number(clock[1]) * 60 + Number(clock[2]) }
}
