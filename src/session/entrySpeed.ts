import { printNumber } from '../units/decimal.ts'
import type { PieceAsked } from './asked.ts'
import type { Doubt } from './entryEffort.ts'
import { typedTimeOf } from './entryTime.ts'
import { rewritten } from './entryTokens.ts'

/* A time that nobody runs is questioned, with the time that was probably meant. */

/** A time or a distance and where it stands in the entry. */
export interface Figure {
  value: number
  text: string
  start: number
  end: number
  /** The seconds were typed without a colon and without a unit. */
  bare: boolean
}

/** Metres a second: no human has run faster, and slower is no walk. */
const fastest = 12.5
const slowest = 0.5
/** A slower suggestion than this would be as doubtful as what was typed. */
const slowestSuggested = 1

/** Whether somebody may run, or walk, so many metres in so many seconds. */
export function isRunIn(meters: number, seconds: number): boolean {
  const speed = meters / seconds
  return speed <= fastest && speed >= slowest
}

interface Typed {
  result: { meters: number | null; seconds: number | null; precision: number | null; byKey: boolean }
  time: Figure | null
  distance: Figure | null
  body: string
  asked: PieceAsked
}

export function questionSpeed(typed: Typed, doubts: Doubt[]): void {
  const { meters, seconds } = typed.result
  if (meters === null || seconds === null) return
  if (isRunIn(meters, seconds)) return
  const speed = meters / seconds
  const what = `${timeText(typed)} for ${distanceText(typed)}`
  const verdict = speed > fastest ? 'is faster than any human' : `is slower than ${slowest} m/s`
  const meant = meantBy(typed, meters, seconds)
  doubts.push({
    message: meant === null ? `${what} ${verdict}` : `${what} ${verdict}; did you mean ${meant.text}?`,
    suggestion: meant === null ? null : rewritten(typed.body, meant.place, meant.text),
  })
}

function timeText({ time, result }: Typed): string {
  if (time === null) return typedTimeOf(result.seconds ?? 0, result.precision)
  return time.bare ? `${time.text} s` : time.text
}

function distanceText({ distance, asked, result }: Typed): string {
  if (distance !== null) return distance.text
  return asked.meters === null ? `${printNumber(Math.round(result.meters ?? 0))} m` : asked.label
}

function meantBy(typed: Typed, meters: number, seconds: number): { text: string; place: Figure } | null {
  const { time, distance } = typed
  const isLikely = (length: number, duration: number) =>
    duration > 0 && length / duration <= fastest && length / duration >= slowestSuggested
  if (time !== null) {
    const clock = meters / seconds > fastest ? slowerReading(time.text) : quickerReading(time.text)
    if (clock !== null && isLikely(meters, clock.seconds)) return { text: clock.text, place: time }
  }
  if (distance === null) return null
  const [number = '', unit = ''] = distance.text.split(' ')
  const other = unit === 'm' ? 'km' : 'm'
  const inOther = unit === 'm' ? Number(number) * 1000 : Number(number)
  return isLikely(inOther, seconds) ? { text: `${number} ${other}`, place: distance } : null
}

type Clock = { text: string; seconds: number }

/** A point typed for a colon, or a clock whose hours were taken for minutes. */
function slowerReading(text: string): Clock | null {
  const number = /^(\d{1,3})(?:\.(\d\d?))?$/.exec(text)
  if (number !== null) {
    const [, minutes = '', behind = '00'] = number
    const seconds = behind.padEnd(2, '0')
    return Number(seconds) > 59
      ? null
      : { text: `${minutes}:${seconds}`, seconds: Number(minutes) * 60 + Number(seconds) }
  }
  const clock = /^(\d{1,2}):(\d\d)$/.exec(text)
  if (clock === null) return null
  return { text: `${text}:00`, seconds: Number(clock[1]) * 3600 + Number(clock[2]) * 60 }
}

/** A watch that shows hours, minutes and seconds was read one field too high. */
function quickerReading(text: string): Clock | null {
  const clock = /^(\d{1,3}):(\d\d):00$/.exec(text)
  if (clock === null) return null
  return { text: `${clock[1]}:${clock[2]}`, seconds: Number(clock[1]) * 60 + Number(clock[2]) }
}
