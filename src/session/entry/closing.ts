import { wordsFor } from '../../units/words.ts'
import { clipped } from '../../validate/unsafe.ts'
import { isHalf } from './effort.ts'
import type { Read } from './lex.ts'

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

/** The effort of a part, 0 to 10 in halves, in words or in both; null when nothing was typed. Its scale differs
 * from the RPE of a set. */
export function readSessionRpe(text: string): Read<number | null> {
  return readOptional(text, effortIn, 'invalid effort', 'write 0 (rest) to 10 (maximal), halves allowed')
}

function effortIn(typed: string): number | null {
  const words = effortWording.find((each) => tidied(each.words) === typed.replace(`${each.value} `, ''))
  if (words !== undefined) return words.value
  const value = /^\d{1,3}(\.\d{1,3})?$/.test(typed) ? Number(typed) : null
  return value !== null && value <= 10 && isHalf(value) ? value : null
}

const mostMinutes = 24 * 60

/** More minutes than this for one part are questioned where they are typed, and unknown where a clock ran on for as
 * long, which was then left overnight; this program's own limit. */
export const mostUsualMinutes = 300

/** The beginning of a question about minutes that are probably mistyped; null for any other. */
export function tooManyMinutes(minutes: number | null): string | null {
  return minutes !== null && minutes > mostUsualMinutes ? `${minutes} minutes are more than 5 hours` : null
}

/** Minutes: `62`, `62 min`, `1:02` or `1 h 2 min`, at most a day; null when nothing was typed. */
export function readMinutes(text: string): Read<number | null> {
  return readOptional(text, minutesIn, 'invalid minutes', 'write 62 or 1:02')
}

function readOptional(
  text: string,
  valueIn: (typed: string) => number | null,
  wrong: string,
  example: string,
): Read<number | null> {
  const typed = tidied(text)
  if (typed === '' || typed === '-') return { outcome: 'answer', value: null }
  const value = valueIn(typed)
  if (value !== null) return { outcome: 'answer', value }
  return { outcome: 'error', message: `${wrong} "${clipped(text.trim(), 40)}"; ${example}` }
}

const decimal = String.raw`\d{1,6}(?:\.\d{1,3})?`
/** `62`, `62 min`, `1 h`, `1 h 2 min`, `1h02`. */
const hoursAndMinutes = new RegExp(
  `^(?:(${decimal}) ?(?:${wordsFor('h')}) ?)?(?:(${decimal}) ?(?:${wordsFor('min')}|m)?)?$`,
)

function minutesIn(typed: string): number | null {
  const parts = /^(\d{1,4}):(\d\d)(?::(\d\d))?$/.exec(typed) ?? hoursAndMinutes.exec(typed)
  if (parts === null) return null
  const [hours, minutes = '0', seconds = '0'] = parts.slice(1)
  if (hours !== undefined && (Number(minutes) > 59 || Number(seconds) > 59)) return null
  const value = Number(hours ?? 0) * 60 + Number(minutes) + Number(seconds) / 60
  return value <= mostMinutes ? value : null
}

function tidied(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/(\d),(?=\d)/g, '$1.')
    .replace(/,/g, ' ')
    .replace(/\s+/g, ' ')
}
