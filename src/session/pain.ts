import { notesIn, type SessionState } from './state.ts'

/* Where it hurt and how much. Pain is kept as it was typed: `left calf 4`; sessions of older versions have it without
 * a number. */

export interface Pain {
  place: string
  /** From 0 to 10; null where none was typed. */
  level: number | null
}

/** A pain and the step it was typed for; null for the whole day. */
export interface PainNoted extends Pain {
  step: string | null
}

/** The pains in what was typed, one a place: `left calf 4; right elbow`, `pain: left calf, sharp`. */
export function painsIn(text: string): Pain[] {
  return text.split(';').flatMap((each) => {
    const bare = each.replace(/^\s*pain\s*:?\s*/i, '').trim()
    if (bare === '') return []
    const [, place = bare, level] = /^(.*?)[\s,:]*\b(10|\d)(?:\s*\/\s*10)?$/.exec(bare) ?? []
    return [{ place: place.trim() || 'pain', level: level === undefined ? null : Number(level) }]
  })
}

/** `left calf 4`, or the place alone. */
export function painPhrase({ place, level }: Pain): string {
  return level === null ? place : `${place} ${level}`
}

/** Every pain of a session: those typed with results in their order, then those of notes. */
export function painsNoted(state: SessionState): PainNoted[] {
  const typed = [
    ...[...state.recorded].map(([step, { result }]) => ({ step, text: result.pain })),
    ...state.meals.map(({ result }) => ({ step: null, text: result.pain })),
    ...notesIn(state).map(({ about, text, pain }) => ({ step: about, text: pain ? text : null })),
  ]
  return typed.flatMap(({ step, text }) =>
    text === null ? [] : painsIn(text).map((pain) => ({ ...pain, step })),
  )
}

/** Places are the same whatever their case and spaces. */
export function placeKey({ place }: Pain): string {
  return place.toLowerCase().replace(/\s+/g, ' ').trim()
}
