/* How hard and how long a part was, as it is typed when the part is closed. */

export type FigureReading =
  | { outcome: 'answer'; value: number | null }
  | { outcome: 'error'; message: string }

/** The wording of the scale: Foster 1998 and Foster et al. 2001, after Borg's CR-10. */
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

/** The effort of a part, 0 to 10 in halves or in words; null when nothing was typed. It is another scale
 * than the RPE of a set. */
export function readPartEffort(text: string): FigureReading {
  const typed = tidied(text)
  if (typed === '' || typed === '-') return { outcome: 'answer', value: null }
  const words = effortWording.find((each) => tidied(each.words) === typed)
  if (words !== undefined) return { outcome: 'answer', value: words.value }
  if (/^\d{1,3}(\.\d{1,3})?$/.test(typed)) {
    const value = Number(typed)
    if (value <= 10 && Number.isInteger(value * 2)) return { outcome: 'answer', value }
  }
  return {
    outcome: 'error',
    message: `an effort runs from 0 (rest) over 5 (hard) to 10 (maximal), in halves; "${shown(text)}" is none`,
  }
}

const mostMinutes = 24 * 60

/** Minutes: `62`, `62 min`, `1:02` or `1 h 2 min`; null when nothing was typed. */
export function readMinutes(text: string): FigureReading {
  const typed = tidied(text)
  if (typed === '' || typed === '-') return { outcome: 'answer', value: null }
  const value = minutesIn(typed)
  if (value === null) {
    return {
      outcome: 'error',
      message: `minutes are written 62, or 1:02 for an hour and two; "${shown(text)}" is neither`,
    }
  }
  if (value > mostMinutes) {
    return {
      outcome: 'error',
      message: `"${shown(text)}" is longer than a day; 62 is minutes, 1:02 hours and minutes`,
    }
  }
  return { outcome: 'answer', value }
}

function minutesIn(typed: string): number | null {
  const plain = /^(\d{1,6}(?:\.\d{1,3})?)( ?(?:min|mins|minutes|m))?$/.exec(typed)
  if (plain !== null) return Number(plain[1])
  const clock = /^(\d{1,4}):(\d\d)(?::(\d\d))?$/.exec(typed)
  const words = /^(\d{1,4}(?:\.\d{1,3})?) ?h(?: ?(\d{1,2}))?(?: ?(?:min|mins|m))?$/.exec(typed)
  const [, hours = '0', minutes = '0', seconds = '0'] = clock ?? words ?? []
  if ((clock ?? words) === null || Number(minutes) > 59 || Number(seconds) > 59) return null
  return Number(hours) * 60 + Number(minutes) + Number(seconds) / 60
}

function tidied(text: string): string {
  return text
    .slice(0, 100)
    .trim()
    .toLowerCase()
    .replace(/(\d),(?=\d)/g, '$1.')
    .replace(/,/g, ' ')
    .replace(/\s+/g, ' ')
}

function shown(text: string): string {
  const printable = text.trim().replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, '\uFFFD')
  return printable.length > 40 ? `${printable.slice(0, 40)}…` : printable
}
