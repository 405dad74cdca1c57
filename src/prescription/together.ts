import { nameless, stationText } from './hastyLifts.ts'
import { type Line, withoutGaps } from './lines.ts'
import { isReadable } from './readLine.ts'

/* What the notation has on one line, written on several: stations below `3 rounds:`, A1 and A2, or a name above its
 * sets. These lines are answered together, with the one line. */

/** The lines of one group so far. */
export interface Together {
  first: Line
  others: Line[]
  kind: 'below a heading' | 'labelled' | 'name'
}

const heading =
  /^ *(?:(super ?set|tri-?set|giant ?set|circuit|round)s?\b)?[ ,:]*(?:x *)?(\d{1,2})? *(?:(rounds?|x|times|sets?)\b)?(?: *of\b)?[ ,:]*((?:rest|pause)\b.*)?$/i

/** Rounds and clauses of a line such as `superset, 3 rounds, rest 1:00`; null for any other line. */
function headingOf(text: string): { rounds: string | null; clauses: string } | null {
  const [, word, rounds, unit, clauses = ''] = heading.exec(withoutGaps(text)) ?? []
  if (word === undefined && (rounds === undefined || unit === undefined)) return null
  return { rounds: rounds ?? null, clauses }
}

/** `circuit`, `3 rounds:`: a heading of exercises done in turn; `circuit: ...` lacks the number of rounds. */
export function isRounds(text: string): boolean {
  return headingOf(text) !== null || /^ *circuits? *:/i.test(text)
}

/** The letter and the number of `A1) squat 3 x 5`; null without a label. The grammar leaves it out of the name. */
function labelOf(text: string): { letter: string; number: number } | null {
  const [, letter = '', number] = /^ *([a-h])(\d)[.):]? +/i.exec(text) ?? []
  return number === undefined ? null : { letter: letter.toUpperCase(), number: Number(number) }
}

const nameAlone = /^[^\d@,+"]*\p{L}[^\d@,+"]*$/u

function isSets(text: string): boolean {
  return nameless.test(text) || isReadable(`x ${text}`, 'liftItem')
}

/** Begins a group with a line; null if it begins none. */
export function beginTogether(line: Line): Together | null {
  if (labelOf(line.text)?.number === 1) return { first: line, others: [], kind: 'labelled' }
  if (headingOf(line.text) !== null) return { first: line, others: [], kind: 'below a heading' }
  return nameAlone.test(line.text) ? { first: line, others: [], kind: 'name' } : null
}

/** Whether a line continues a group: the next label of the same letter, or a line below the heading, indented if the
 * first one was, or sets below a name. */
export function continues({ first, others, kind }: Together, line: Line): boolean {
  if (kind === 'name') return others.length === 0 && /^ *\d/.test(line.text) && isSets(line.text.trim())
  if (kind === 'labelled') {
    const [before, label] = [labelOf((others.at(-1) ?? first).text), labelOf(line.text)]
    return label !== null && label.letter === before?.letter && label.number === before.number + 1
  }
  if (headingOf(line.text) !== null || labelOf(line.text)?.number === 1) return false
  const isIndented = indentOf(others[0] ?? line) > indentOf(first)
  return !isIndented || indentOf(line) > indentOf(first)
}

function indentOf({ shown }: Line): number {
  return shown.search(/\S|$/)
}

/** What is wrong with a group of several lines, and its exercises on one line, which may not be readable; null where
 * only the athlete knows the number of rounds. */
export function answerTogether({ first, others, kind }: Together): { message: string; line: string | null } {
  const lines = others.map(({ text }) => text.trim())
  if (kind === 'name')
    return {
      message: 'an exercise and its sets are on one line',
      line: `${first.text.replace(/[ :]+$/, '').trim()} ${lines[0]}`,
    }
  const message = 'exercises done in turn are on one line'
  if (kind === 'labelled')
    return {
      message: `${message}, with a + between them`,
      line: supersetOf([first.text.trim(), ...lines].map((text) => text.replace(/^([a-h]\d):/i, '$1'))),
    }
  const { rounds, clauses } = headingOf(first.text) ?? { rounds: null, clauses: '' }
  const isRest = (text: string) => /^rest\b/i.test(text)
  const stations = lines.filter((text) => !isRest(text))
  const end = [clauses, ...lines.filter(isRest)].map((clause) => clause && `, ${clause}`).join('')
  if (stations.every((text) => /\d *x *\d/i.test(text)))
    return { message, line: `${supersetOf(stations)}${end}` }
  if (rounds === null)
    return {
      message: `${message}, with the number of rounds first: 3 rounds: 10 push-up, 8 row @ 40 kg`,
      line: null,
    }
  return { message, line: `${rounds} rounds: ${stations.map(stationText).join(', ')}${end}` }
}

const restAtEnd = /,? *\brest +([\d:.]+ *(?:s|min)?) *$/i

/** The exercises with a + between them; the rest after each but the last becomes the pause in a round. */
function supersetOf(exercises: readonly string[]): string {
  const rests = exercises.map((text) => restAtEnd.exec(text)?.[1])
  const last = rests.pop()
  const [pause] = rests
  if (pause === undefined || rests.some((rest) => rest !== pause)) return exercises.join(' + ')
  const bare = exercises.map((text) => text.replace(restAtEnd, ''))
  return `${bare.join(' + ')}, pause ${pause}${last === undefined ? '' : `, rest ${last}`}`
}
