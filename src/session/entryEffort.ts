import { NotTaken } from './entryText.ts'
import { type Cursor, rewritten, type Token } from './entryTokens.ts'

/* Effort and heart rate, which stand in any order behind what was done. */

/** Something implausible that can be insisted on. `suggestion`: a whole entry that is probably meant. */
export interface Doubt {
  message: string
  suggestion: string | null
}

export interface Effort {
  rpe: number | null
  heartRate: number | null
  heartRateMax: number | null
}

/** A number behind `@` from here on is rather a load than an effort that was typed wrongly. */
const lightestLoad = 15

const isHalf = (value: number) => Number.isInteger(value * 2)

/** Takes one effort or heart rate, when the next words are one.
 * @param isSet a number over 10 behind `@` is a load that was meant */
export function takeEffort(cursor: Cursor, effort: Effort, doubts: Doubt[], isSet: boolean): boolean {
  const start = cursor.peek()
  if (start === null) return false
  if (cursor.takeIf('@', 'rpe', 'rir')) {
    if (start.text === '@') cursor.takeIf('rpe')
    if (effort.rpe !== null) throw new NotTaken('the effort is there twice; type it once')
    effort.rpe = start.text === 'rir' ? reserve(cursor) : perceived(cursor, start, isSet)
    return true
  }
  const isRate = start.kind === 'word' && start.text === 'hr'
  if (!isRate && !isBeats(cursor)) return false
  if (isSet)
    throw new NotTaken('a heart rate is kept for running, not for a set; write it as a note: "hr 150"')
  if (effort.heartRate !== null) throw new NotTaken('the heart rate is there twice; type it once')
  if (isRate) cursor.take()
  takeRates(cursor, effort, doubts)
  cursor.takeIf('bpm')
  return true
}

/** `171 bpm`, `171/183 bpm` */
function isBeats(cursor: Cursor): boolean {
  if (cursor.peek()?.kind !== 'number') return false
  if (cursor.peek(1)?.text === 'bpm') return true
  return cursor.peek(1)?.text === '/' && cursor.peek(2)?.kind === 'number' && cursor.peek(3)?.text === 'bpm'
}

function reserve(cursor: Cursor): number {
  const number = cursor.takeNumber()
  if (number === null) throw new NotTaken('rir wants the repetitions that were left: rir 2')
  if (number.value > 9 || !isHalf(number.value)) {
    throw new NotTaken(`rir ${number.text} is not known: repetitions in reserve run from 0 to 9`)
  }
  return 10 - number.value
}

function perceived(cursor: Cursor, start: Token, isSet: boolean): number {
  const number = cursor.takeNumber()
  if (number === null) throw new NotTaken(`${start.text} wants an effort from 1 to 10: @8`)
  const upTo = cursor.peek()?.text === '-' && cursor.peek(1)?.kind === 'number' ? cursor.peek(1) : null
  const { value } = number
  if (upTo !== null && value <= 10 && upTo.value <= 10) {
    const middle = `@${Math.round(value + upTo.value) / 2}`
    throw new NotTaken(
      `an effort is one number; did you mean ${middle}?`,
      rewritten(cursor.body, { start: start.start, end: upTo.end }, middle),
    )
  }
  if (value >= 1 && value <= 10 && isHalf(value) && !isUnit(cursor)) return value
  const place = { start: start.start, end: number.end }
  if (isSet && (value >= lightestLoad || isUnit(cursor))) {
    const load = rewritten(cursor.body, place, ` x ${number.text}`)
    throw new NotTaken(`${number.text} is not an RPE; a load is written ${load}`, load)
  }
  const half = Math.round(value * 2) / 2
  const suggestion = value > 1 && value < 10 ? rewritten(cursor.body, place, `@${half}`) : null
  throw new NotTaken(`${number.text} is not an RPE: it runs from 1 to 10, in halves`, suggestion)
}

function isUnit(cursor: Cursor): boolean {
  return ['kg', 'kgs', 'lb', 'lbs', 'pounds'].includes(cursor.peek()?.text ?? '')
}

function takeRates(cursor: Cursor, effort: Effort, doubts: Doubt[]): void {
  const average = rate(cursor, doubts)
  effort.heartRate = average.value
  if (!cursor.takeIf('/')) return
  const highest = rate(cursor, doubts)
  effort.heartRateMax = highest.value
  if (highest.value >= average.value) return
  const place = { start: average.start, end: highest.end }
  const swapped = `${highest.text}/${average.text}`
  doubts.push({
    message: `the highest heart rate, ${highest.text}, is below the average; did you mean hr ${swapped}?`,
    suggestion: rewritten(cursor.body, place, swapped),
  })
}

function rate(cursor: Cursor, doubts: Doubt[]): Token {
  const number = cursor.takeNumber()
  if (number === null) throw new NotTaken('hr wants a heart rate: hr 171, or with the highest hr 171/183')
  const { value, text } = number
  if (!Number.isInteger(value)) {
    const whole = String(Math.round(value))
    throw new NotTaken(
      `a heart rate is a whole number; did you mean ${whole}?`,
      rewritten(cursor.body, number, whole),
    )
  }
  if (value < 1 || value > 999)
    throw new NotTaken(`a heart rate of ${text} cannot be kept: it lies between 30 and 250`)
  if (value < 30 || value > 250) {
    doubts.push({ message: `a heart rate of ${text} lies outside 30 to 250`, suggestion: null })
  }
  return number
}
