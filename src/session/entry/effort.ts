import { wordsFor } from '../../units/words.ts'
import type { IntervalResult } from '../model.ts'
import { asLoad, Cursor, entryTextOf, number, type Phrase, phrase } from './lex.ts'

/* Effort and heart rate, which may be typed in any order after the figures. */

export type Effort = Pick<IntervalResult, 'rpe' | 'heartRate' | 'heartRateMax'>

export const noEffort: Effort = { rpe: null, heartRate: null, heartRateMax: null }

/** From here on, a number after `@` is probably a load, not a mistyped effort. */
const lightestLoad = 15

/** Beats a minute; a heart rate outside is probably a slip. */
export const heartRates = { from: 30, to: 250 }

/** Efforts are in halves. */
export const isHalf = (value: number) => Number.isInteger(value * 2)

/** `rir 2`, `@ rir 2`, `2 rir`, `@ 2 rir`; in `6 rir 2` the number after the word is the reserve. */
const reserve = phrase(`(?:@ )?rir (?:: )?(${number}) |@ (${number}) rir |(${number}) rir (?!${number} )`)
/** `@8`, `rpe 8`, `@ 8 rpe`, `@7-8`, and with its unit a load. */
const effort = phrase(
  `(?:@ (?:rpe )?|rpe )(?:: )?(${number}) (?:- (${number}) )?(?:rpe (?!${number} ))?(?:(${wordsFor('kg', 'lb')}) )?`,
)
/** `hr 171`, `hr 171/183`, `171 bpm`. */
const rates = phrase(`hr (?:: )?(${number}) (?:/ (${number}) )?(?:bpm )?|(${number}) (?:/ (${number}) )?bpm `)

/** Takes one effort or heart rate and returns the result with it; null if the next words are neither.
 * @param of a set: a number over 10 after `@` is probably a load, and there is no heart rate */
export function takeEffort(cursor: Cursor, known: Effort, of: 'set' | 'interval'): Effort | null {
  const left = cursor.take(reserve)
  const typed = left ?? cursor.take(effort)
  if (typed !== null) {
    if (known.rpe !== null) cursor.refuse('two efforts typed; type one')
    return { ...known, rpe: left === null ? rpeOf(typed, cursor, of) : rpeOfReserve(left, cursor) }
  }
  const beats = cursor.take(rates)
  if (beats === null) return null
  if (of === 'set')
    cursor.refuse('a heart rate belongs to running, not to a set; type it as a note: "hr 150"')
  if (known.heartRate !== null) cursor.refuse('two heart rates typed; type one')
  return { ...known, ...ratesOf(beats, cursor) }
}

/** Whether an entry has only efforts and heart rates: `hr 150`, `rpe 6 hr 150 "windy"`. */
export function isEffortAlone(typed: string): boolean {
  const cursor = new Cursor(entryTextOf(typed))
  let effort: Effort | null = noEffort
  while (effort !== null && cursor.goOn()) effort = takeEffort(cursor, effort, 'interval')
  return effort !== noEffort && effort !== null && !cursor.isRefused
}

function rpeOfReserve({ parts }: Phrase, cursor: Cursor): number | null {
  const typed = parts.find((each) => each !== undefined) ?? ''
  const left = Number(typed)
  if (left <= 9 && isHalf(left)) return 10 - left
  return cursor.refuse(`rir ${typed} is out of range: repetitions in reserve run from 0 to 9`)
}

function rpeOf(typed: Phrase, cursor: Cursor, of: 'set' | 'interval'): number | null {
  const [text = '', to, unit] = typed.parts
  const value = Number(text)
  if (to !== undefined) {
    const mean = Math.round(value + Number(to)) / 2
    return cursor.refuse('an effort is one number', { ...typed, text: `@${mean}` })
  }
  if (value >= 1 && value <= 10 && isHalf(value) && unit === undefined) return value
  if (of === 'set' && (value >= lightestLoad || unit !== undefined)) {
    const load = unit === undefined ? text : `${text} ${unit}`
    return cursor.refuse(`${text} is not an RPE`, { ...typed, text: `x ${load}` }, asLoad)
  }
  const meant = value > 1 && value < 10 ? { ...typed, text: `@${Math.round(value * 2) / 2}` } : null
  return cursor.refuse(`${text} is not an RPE: it runs from 1 to 10, in halves`, meant)
}

/** The average and the highest, in whichever order they were typed. */
function ratesOf(beats: Phrase, cursor: Cursor): Partial<Effort> {
  const typed = beats.parts.filter((each) => each !== undefined).map(Number)
  const { from, to } = heartRates
  for (const rate of typed) {
    if (!Number.isInteger(rate)) cursor.refuse('a heart rate is a whole number')
    else if (rate < 1 || rate > 999)
      cursor.refuse(`a heart rate of ${rate} cannot be stored: it runs from ${from} to ${to}`)
    else if (rate < from || rate > to) cursor.query(`a heart rate of ${rate} is outside ${from} to ${to}`)
  }
  return { heartRate: Math.min(...typed), heartRateMax: typed.length > 1 ? Math.max(...typed) : null }
}
