import { massUnitOf, wordsFor } from '../../units/words.ts'
import { sanitize } from '../../validate/unsafe.ts'
import { asLoad, Cursor, entryTextOf, type Read, type Token } from './lex.ts'

/* Effort and heart rate, which may be typed in any order after the figures. */

export interface Effort {
  rpe: number | null
  heartRate: number | null
  heartRateMax: number | null
}

export const noEffort: Effort = { rpe: null, heartRate: null, heartRateMax: null }

/** From here on, a number after `@` is probably a load, not a mistyped effort. */
const lightestLoad = 15

const isHalf = (value: number) => Number.isInteger(value * 2)

/** Takes one effort or heart rate and returns the result with it; null if the next words are neither.
 * @param isSet treats a number over 10 after `@` as a load */
export function takeEffort(cursor: Cursor, known: Effort, isSet: boolean): Effort | null {
  const start = cursor.peek()
  if (start === null) return null
  if (cursor.takeIf('@', 'rpe', 'rir')) {
    if (start.text === '@') cursor.takeIf('rpe')
    cursor.takeIf(':')
    if (known.rpe !== null) cursor.refuse('two efforts typed; type one')
    const rpe = start.text === 'rir' ? readReserve(cursor) : readRpe(cursor, start, isSet)
    if (start.text === '@' && cursor.peek(1)?.kind !== 'number') cursor.takeIf('rpe')
    return { ...known, rpe }
  }
  const isRate = start.kind === 'word' && start.text === 'hr'
  if (!isRate && !isBeats(cursor)) return null
  if (isSet) cursor.refuse('a heart rate belongs to running, not to a set; type it as a note: "hr 150"')
  if (known.heartRate !== null) cursor.refuse('two heart rates typed; type one')
  if (isRate) cursor.take()
  cursor.takeIf(':')
  const rates = takeRates(cursor)
  cursor.takeIf('bpm')
  return { ...known, ...rates }
}

/** Whether an entry has only efforts and heart rates: `hr 150`, `rpe 6 hr 150 "windy"`. */
export function isEffortAlone(typed: string): boolean {
  const text = entryTextOf(typed)
  if ('error' in text || text.body === '') return false
  const cursor = new Cursor(text.body)
  let effort: Effort | null = noEffort
  while (effort !== null && cursor.peek() !== null)
    effort = cursor.takeIf(',') ? effort : takeEffort(cursor, effort, false)
  return effort !== null && !cursor.isRefused
}

/** `171 bpm`, `171/183 bpm` */
function isBeats(cursor: Cursor): boolean {
  if (cursor.peek()?.kind !== 'number') return false
  if (cursor.peek(1)?.text === 'bpm') return true
  return cursor.peek(1)?.text === '/' && cursor.peek(2)?.kind === 'number' && cursor.peek(3)?.text === 'bpm'
}

function readReserve(cursor: Cursor): number | null {
  const number = cursor.takeNumber()
  if (number === null) return cursor.refuse('rir needs the repetitions left in reserve: rir 2')
  return rpeOfReserve(number, cursor)
}

function rpeOfReserve(reserve: Token, cursor: Cursor): number | null {
  if (reserve.value > 9 || !isHalf(reserve.value))
    return cursor.refuse(`rir ${reserve.text} is out of range: repetitions in reserve run from 0 to 9`)
  return 10 - reserve.value
}

/** Takes `2 rir` or `@ 2 rir`, with the number before its word; null if the next words are something else. */
export function takeReserveFirst(cursor: Cursor, known: Effort): Effort | null {
  const ahead = cursor.peek()?.text === '@' ? 1 : 0
  const number = cursor.peek(ahead)
  if (number?.kind !== 'number' || cursor.peek(ahead + 1)?.text !== 'rir') return null
  // 6 rir 2: the number after the word is the reserve.
  if (ahead === 0 && cursor.peek(2)?.kind === 'number') return null
  if (known.rpe !== null) cursor.refuse('two efforts typed; type one')
  for (let taken = 0; taken < ahead + 2; taken++) cursor.take()
  return { ...known, rpe: rpeOfReserve(number, cursor) }
}

function readRpe(cursor: Cursor, start: Token, isSet: boolean): number | null {
  const number = cursor.takeNumber()
  if (number === null) return cursor.refuse(`${start.text} needs an effort from 1 to 10: @8`)
  const end = cursor.peek()?.text === '-' && cursor.peek(1)?.kind === 'number' ? cursor.peek(1) : null
  const { value } = number
  if (end !== null && value <= 10 && end.value <= 10) {
    const text = `@${Math.round(value + end.value) / 2}`
    return cursor.refuse('an effort is one number', { text, start: start.start, end: end.end })
  }
  if (value >= 1 && value <= 10 && isHalf(value) && !isUnit(cursor)) return value
  const place = { start: start.start, end: number.end }
  if (isSet && (value >= lightestLoad || isUnit(cursor))) {
    const text = ` x ${number.text}`
    return cursor.refuse(`${number.text} is not an RPE`, { text, ...place }, asLoad)
  }
  const half = Math.round(value * 2) / 2
  const meant = value > 1 && value < 10 ? { text: `@${half}`, ...place } : null
  return cursor.refuse(`${number.text} is not an RPE: it runs from 1 to 10, in halves`, meant)
}

function isUnit(cursor: Cursor): boolean {
  return massUnitOf(cursor.peek()?.text ?? '') !== null
}

function takeRates(cursor: Cursor): Partial<Effort> {
  const average = takeRate(cursor)
  if (average === null) return {}
  if (!cursor.takeIf('/')) return { heartRate: average.value }
  const highest = takeRate(cursor)
  if (highest === null) return {}
  if (highest.value < average.value) {
    const swapped = { text: `${highest.text}/${average.text}`, start: average.start, end: highest.end }
    cursor.query(`the highest heart rate, ${highest.text}, is below the average`, swapped)
  }
  return { heartRate: average.value, heartRateMax: highest.value }
}

function takeRate(cursor: Cursor): Token | null {
  const number = cursor.takeNumber()
  if (number === null) return cursor.refuse('hr needs a heart rate: hr 171, or with the highest hr 171/183')
  const { value, text } = number
  if (!Number.isInteger(value))
    return cursor.refuse('a heart rate is a whole number', { ...number, text: String(Math.round(value)) })
  if (value < 1 || value > 999)
    return cursor.refuse(`a heart rate of ${text} cannot be stored: it runs from 30 to 250`)
  if (value < 30 || value > 250) cursor.query(`a heart rate of ${text} is outside 30 to 250`)
  return number
}

/* How hard and how long a part was, as typed when the part is closed. */

/** The wording of the 0 to 10 scale of Foster 1998 and Foster et al. 2001. */
export const effortWording: readonly { value: number; words: string }[] = [
  { value: 0, words: 'rest' },
  { value: 1, words: 'very, very easy' },
  { value: 2, words: 'easy' },
  { value: 3, words: 'moderate' },
  { value: 4, words: 'somewhat hard' },
  { value: 5, words: 'hard' },
  { value: 7, words: 'very hard' },
  { value: 10, words: 'maximal' },
]

/** The effort of a part, 0 to 10 in halves or in words; null when nothing was typed. Its scale differs
 * from the RPE of a set. */
export function readSessionRpe(text: string): Read<number | null> {
  const typed = tidied(text)
  if (typed === '' || typed === '-') return { outcome: 'answer', value: null }
  const words = effortWording.find((each) => tidied(each.words) === typed)
  if (words !== undefined) return { outcome: 'answer', value: words.value }
  if (/^\d{1,3}(\.\d{1,3})?$/.test(typed)) {
    const value = Number(typed)
    if (value <= 10 && Number.isInteger(value * 2)) return { outcome: 'answer', value }
  }
  const message = `invalid effort "${shown(text)}"; write 0 (rest) to 10 (maximal), halves allowed`
  return { outcome: 'error', message }
}

const mostMinutes = 24 * 60

/** More minutes than this for one part are questioned; this program's own limit. */
const mostUsualMinutes = 300

/** The beginning of a question about minutes that are probably mistyped; null for any other. */
export function tooManyMinutes(minutes: number | null): string | null {
  return minutes !== null && minutes > mostUsualMinutes ? `${minutes} minutes are more than 5 hours` : null
}

/** Minutes: `62`, `62 min`, `1:02` or `1 h 2 min`; null when nothing was typed. */
export function readMinutes(text: string): Read<number | null> {
  const typed = tidied(text)
  if (typed === '' || typed === '-') return { outcome: 'answer', value: null }
  const value = minutesIn(typed)
  if (value !== null && value <= mostMinutes) return { outcome: 'answer', value }
  const message =
    value === null
      ? `invalid minutes "${shown(text)}"; write 62 or 1:02`
      : `"${shown(text)}" is longer than a day; 62 is minutes, 1:02 hours and minutes`
  return { outcome: 'error', message }
}

const min = `${wordsFor('min')}|m`
const plainMinutes = new RegExp(`^(\\d{1,6}(?:\\.\\d{1,3})?)(?: ?(?:${min}))?$`)
const hoursAndMinutes = new RegExp(
  `^(\\d{1,4}(?:\\.\\d{1,3})?) ?(?:${wordsFor('h')})(?: ?(\\d{1,2}))?(?: ?(?:${min}))?$`,
)

function minutesIn(typed: string): number | null {
  const plain = plainMinutes.exec(typed)
  if (plain !== null) return Number(plain[1])
  const clock = /^(\d{1,4}):(\d\d)(?::(\d\d))?$/.exec(typed)
  const words = hoursAndMinutes.exec(typed)
  const [, hours = '0', minutes = '0', seconds = '0'] = clock ?? words ?? []
  if ((clock ?? words) === null || Number(minutes) > 59 || Number(seconds) > 59) return null
  return Number(hours) * 60 + Number(minutes) + Number(seconds) / 60
}

function tidied(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/(\d),(?=\d)/g, '$1.')
    .replace(/,/g, ' ')
    .replace(/\s+/g, ' ')
}

function shown(text: string): string {
  const printable = sanitize(text.trim())
  return printable.length > 40 ? `${printable.slice(0, 40)}…` : printable
}
