import { metersOf } from '../units/length.ts'
import type { PieceAsked } from './asked.ts'
import { type Doubt, type Effort, takeEffort } from './entryEffort.ts'
import { type Figure, isRunIn, questionSpeed } from './entrySpeed.ts'
import { type EntryText, NotTaken } from './entryText.ts'
import { Cursor, precisionOf, rewritten, type Token } from './entryTokens.ts'
import type { PieceResult } from './result.ts'

/* A split, a repeat or a piece as it is typed: a time, a distance, a heart rate, an effort. */

const metersIn = new Map<string, number>([
  ...['m', 'meter', 'meters', 'metre', 'metres'].map((word) => [word, 1] as const),
  ...['km', 'kms', 'k'].map((word) => [word, 1000] as const),
  ...['mi', 'mile', 'miles'].map((word) => [word, metersOf({ value: 1, unit: 'mi' })] as const),
  ['yd', metersOf({ value: 1, unit: 'yd' })],
])
const secondsIn = new Map<string, number>([
  ...['s', 'sec', 'secs', 'second', 'seconds'].map((word) => [word, 1] as const),
  ...['min', 'mins', 'minute', 'minutes'].map((word) => [word, 60] as const),
  ...['h', 'hour', 'hours'].map((word) => [word, 3600] as const),
])

/** Metres and seconds that no insisting makes a result. */
const farthest = 1e6
const longest = 4 * 24 * 3600

/** @throws NotTaken when it cannot be taken as it stands */
export function readPiece(text: EntryText, asked: PieceAsked, doubts: Doubt[]): PieceResult {
  const cursor = new Cursor(text.body)
  const effort: Effort = { rpe: null, heartRate: null, heartRateMax: null }
  let time: Figure | null = null
  let distance: Figure | null = null
  for (let token = cursor.peek(); token !== null; token = cursor.peek()) {
    if (takeEffort(cursor, effort, doubts, false) || cursor.takeIf(',', 'in', 'for')) continue
    const figure = takeFigure(cursor)
    if (figure === null) throw new NotTaken(`"${token.text}" is not understood; ${example(asked)}`)
    if (figure.is === 'distance') {
      if (distance !== null)
        throw new NotTaken(`there are two distances, ${distance.text} and ${figure.text}; type one`)
      distance = figure
      if (figure.value > farthest) throw tooFar(text.body, figure)
      if (figure.value < 1) throw new NotTaken(`${figure.text} is less than a metre; ${example(asked)}`)
    } else {
      if (time !== null)
        throw new NotTaken(`there are two times, ${time.text} and ${figure.text}; one is asked for`)
      if (figure.value > longest)
        throw new NotTaken(`${figure.text} is longer than the four days that one piece may take`)
      if (figure.value <= 0) throw new NotTaken(`a time of ${figure.text} is none; ${example(asked)}`)
      if (figure.bare && asked.seconds !== null && distance === null && !isAbout(figure.value, asked.seconds))
        throw bareNumber(cursor.body, figure, asked.seconds)
      time = figure
    }
  }
  const result = { ...resultOf(time, distance, asked), ...effort, note: text.note, pain: text.pain }
  questionSpeed({ result, time, distance, body: text.body, asked }, doubts)
  return result
}

type Done = Pick<PieceResult, 'meters' | 'seconds' | 'precision' | 'byKey'>

/** What was done; what was not typed is as prescribed, as offered, or not known. */
function resultOf(time: Figure | null, distance: Figure | null, asked: PieceAsked): Done {
  if (asked.seconds !== null) {
    const measured = time === null ? asked.offered : null
    const seconds = time?.value ?? measured ?? asked.seconds
    const treadmill = asked.treadmillSpeed === null ? null : asked.treadmillSpeed * seconds
    return {
      meters: distance?.value ?? treadmill,
      seconds,
      precision: measured === null ? precisionOf(time?.text ?? String(seconds)) : 0.1,
      byKey: measured !== null,
    }
  }
  const meters = distance?.value ?? asked.meters
  if (time !== null) return { meters, seconds: time.value, precision: precisionOf(time.text), byKey: false }
  const offered = asked.offered === null ? 0 : Math.round(asked.offered * 10) / 10
  if (offered > 0) return { meters, seconds: offered, precision: 0.1, byKey: true }
  if (!asked.hasTarget) return { meters, seconds: null, precision: null, byKey: false }
  if (distance !== null) throw new NotTaken(`type the time as well: ${distance.text} in 14:30`)
  throw new NotTaken(`a target is never a result: type the time of ${asked.label}, such as 1:52.4`)
}

function takeFigure(cursor: Cursor): (Figure & { is: 'time' | 'distance' }) | null {
  const token = cursor.peek()
  if (token?.kind !== 'number' && token?.kind !== 'clock') return null
  cursor.take()
  if (token.kind === 'clock') {
    if (cursor.peek()?.text === '/') throw new NotTaken('type the time of the whole piece, not its pace')
    return { is: 'time', ...figureOf(token, token.value, token), bare: false }
  }
  const unit = cursor.peek()
  const word = unit?.kind === 'word' ? unit.text : ''
  if (word === 'lap' || word === 'laps')
    throw new NotTaken('laps are of many lengths; type the distance in m, km or mi')
  const inMeters = metersIn.get(word)
  const inSeconds = secondsIn.get(word)
  if (unit === null || (inMeters === undefined && inSeconds === undefined)) {
    return { is: 'time', ...figureOf(token, hundredthsOf(token.value), token), bare: true }
  }
  cursor.take()
  if (inMeters !== undefined)
    return { is: 'distance', ...figureOf(token, token.value * inMeters, unit), bare: false }
  return { is: 'time', ...figureOf(token, hundredthsOf(token.value * (inSeconds ?? 1)), unit), bare: false }
}

function figureOf(first: Token, value: number, last: Token): Omit<Figure, 'bare'> {
  const text = first === last ? first.text : `${first.text} ${last.text}`
  return { value, text, start: first.start, end: last.end }
}

/** Times are kept to a hundredth of a second. */
function hundredthsOf(seconds: number): number {
  return Math.round(seconds * 100) / 100
}

/** A number without a unit, where the time is prescribed and the distance is what is not known: far, or long, as
 * somebody may run in that time. */
function bareNumber(body: string, figure: Figure, seconds: number): NotTaken {
  const { text, value } = figure
  const isMinutes = isAbout(value * 60, seconds)
  const meant = isRunIn(value * 1000, seconds)
    ? `${text} km`
    : isRunIn(value, seconds)
      ? `${text} m`
      : `${text} ${isMinutes ? 'min' : 's'}`
  return new NotTaken(`the time is prescribed; did you mean ${meant}?`, rewritten(body, figure, meant))
}

/** Whether a bare number is rather the time again than a distance: within a fifth of it, or 2 s. */
function isAbout(value: number, seconds: number): boolean {
  return Math.abs(value - seconds) <= Math.max(2, seconds / 5)
}

function tooFar(body: string, figure: Figure): NotTaken {
  const what = `${figure.text} is farther than the 1000 km that one piece may be`
  if (!figure.text.endsWith(' km')) return new NotTaken(what)
  const meant = figure.text.replace(' km', ' m')
  return new NotTaken(`${what}; did you mean ${meant}?`, rewritten(body, figure, meant))
}

function example(asked: PieceAsked): string {
  if (asked.seconds !== null) return 'type how far it was, such as 2.1 km'
  return `type the time of ${asked.label}, such as 1:52.4`
}
