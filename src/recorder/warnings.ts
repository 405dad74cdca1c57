import { painsIn } from '../session/pain.ts'
import { notesIn, type Recorded, type SessionState } from '../session/state.ts'

/* Pain and warning signs in what was typed: what is said at once, and what is not advised any more. */

const inPain = /\b(chest|heart|breath\w*|faint\w*|dizz\w*|numb\w*)\b/i
const inNotes = new RegExp(
  [
    'chest (pains?|(was |felt |feels |is )?tight\\w*|hurts?|hurting)',
    '(pain|tight(ness)?)( in (the|my))? chest',
    'faint(ed|ing|ness)?',
    'dizz(y|iness)',
    'black(ed)?[ -]?outs?',
    "(can['’]?t|cannot|could(n['’]?t| not)) breathe",
    'heart (\\w+ )?(racing|raced|skipp\\w*)',
    'racing heart',
    'numb(ness)?( \\w+){0,2} (arms?|legs?)',
    '(arms?|legs?)( \\w+){0,3} numb',
  ]
    .map((words) => `\\b(${words})\\b`)
    .join('|'),
  'i',
)

export const warningText = 'Stop. Chest pain, faintness or unusual breathlessness need a doctor now.'

/** Whether words typed for pain, or as a note, name a sign that needs a doctor. */
export function isWarning(text: string, pain: boolean): boolean {
  return (pain ? inPain : inNotes).test(text)
}

/** A number of 0 says that a pain is over. */
function isOver(pain: string): boolean {
  return painsIn(pain).every(({ level }) => level === 0)
}

/** What is said when a result or a note with pain, or with a warning sign, is taken; null for any other. */
export function painText(note: string | null, pain: string | null): string | null {
  const isFelt = pain !== null && !isOver(pain)
  if ((isFelt && isWarning(pain, true)) || (note !== null && isWarning(note, false))) return warningText
  return !isFelt ? null : `Pain noted: ${pain}. Stop if it is sharp or gets worse.`
}

function remarksOf(state: SessionState): { note: string | null; pain: string | null }[] {
  const results = [...state.recorded.values()].map(({ result }: Recorded) => result)
  const notes = notesIn(state).map(({ text, pain }) =>
    pain ? { note: null, pain: text } : { note: text, pain: null },
  )
  return [...results, ...notes]
}

export function isPainNoted(state: SessionState): boolean {
  return remarksOf(state).some(({ pain }) => pain !== null && !isOver(pain))
}

export function isWarningNoted(state: SessionState): boolean {
  return remarksOf(state).some(({ note, pain }) => painText(note, pain) === warningText)
}
