import type { Line } from './lines.ts'
import { numberFirst } from './synonyms.ts'

/* Exercises done in turn that are written on lines of their own: stations below `3 rounds:`, or A1 and A2. The notation
 * has them on one line, so these lines are answered together, with that line. */

/** The lines of one group so far. */
export interface Together {
  first: Line
  others: Line[]
  kind: 'below a heading' | 'labelled'
}

const heading =
  /^ *(?:(super ?set|tri-?set|giant ?set|circuit|round)s?\b)?[ ,:]*(?:x *)?(\d{1,2})? *(?:(rounds?|x|times|sets?)\b)?(?: *of\b)?[ ,:]*((?:rest|pause)\b.*)?$/i

/** Rounds and clauses of a line such as `superset, 3 rounds, rest 1:00`; null for any other line. */
function headingOf(text: string): { rounds: string | null; clauses: string } | null {
  const [, word, rounds, unit, clauses = ''] = heading.exec(text) ?? []
  if (word === undefined && (rounds === undefined || unit === undefined)) return null
  return { rounds: rounds ?? null, clauses }
}

/** The letter, the number and the exercise of `A1) squat 3 x 5`; null without a label. */
function labelOf(text: string): { letter: string; number: number; exercise: string } | null {
  const [, letter = '', number, exercise = ''] =
    /^ *([a-h]) ?([1-6])(?: *[.):-] *| +)(\p{L}.*)$/iu.exec(text) ?? []
  return number === undefined ? null : { letter: letter.toUpperCase(), number: Number(number), exercise }
}

/** Begins a group with a line that cannot be read alone; null if it begins none. */
export function beginTogether(line: Line): Together | null {
  if (labelOf(line.text)?.number === 1) return { first: line, others: [], kind: 'labelled' }
  return headingOf(line.text) === null ? null : { first: line, others: [], kind: 'below a heading' }
}

/** Whether a line continues a group: the next label of the same letter, or a line below the heading, indented if the
 * first one was. */
export function continues({ first, others, kind }: Together, line: Line): boolean {
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

/** Whether the first line of a group is read as an item if no other follows. `A1. squat 3 x 5` is, without its label;
 * of `A1 squat 3 x 5` the label would become part of the name. */
export function canStandAlone({ first, kind }: Together): boolean {
  return kind === 'below a heading' || /^ *\p{L} ?\d *[.):-]/u.test(first.text)
}

/** What is wrong with a group, and its exercises on one line, which may not be readable; null where only the athlete
 * knows the number of rounds. A heading without lines below it is no group. */
export function answerTogether({ first, others, kind }: Together): { message: string; line: string | null } {
  const lines = others.map(({ text }) => (labelOf(text)?.exercise ?? text).replace(/^ *[-*•] */, '').trim())
  if (kind === 'labelled') {
    const all = [labelOf(first.text)?.exercise.trim() ?? '', ...lines]
    const message =
      all.length === 1
        ? 'a label would become part of the name of the exercise: leave it out'
        : 'exercises done in turn are on one line, with a + between them'
    return { message, line: joined(all) }
  }
  const { rounds, clauses } = headingOf(first.text) ?? { rounds: null, clauses: '' }
  const end = clauses === '' ? '' : `, ${clauses}`
  const haveSets = lines.every((text) => /\d *x *\d/i.test(text))
  const message = 'exercises done in turn are on one line'
  if (haveSets) return { message, line: `${joined(lines)}${end}` }
  if (rounds === null)
    return {
      message: `${message}, with the number of rounds first: 3 rounds: 10 push-up, 8 row @ 40 kg`,
      line: null,
    }
  return { message, line: `${rounds} rounds: ${lines.map(numberFirst).join(', ')}${end}` }
}

/** With a + between them; the rest after each but the last becomes the pause in a round. */
function joined(exercises: readonly string[]): string {
  const rests = exercises.map((text) => /,? *\brest +([\d:.]+ *(?:s|min)?) *$/i.exec(text)?.[1] ?? null)
  const [rest, ...others] = rests
  const isSame = rest && others.slice(0, -1).every((each) => each === rest)
  if (!isSame || exercises.length === 1) return exercises.join(' + ')
  const bare = exercises.map((text) => text.replace(/,? *\brest +[\d:.]+ *(?:s|min)? *$/i, ''))
  const last = rests.at(-1)
  return `${bare.join(' + ')}, pause ${rest}${last ? `, rest ${last}` : ''}`
}
