import type { WalkState } from '../session/state.ts'

/** What was said: of the day first, then along the walk. Where it hurt stands behind `pain: `. */
export function notesOf(state: WalkState): string[] {
  const steps = new Set<string | null>(state.steps.map((step) => step.id))
  const said = (about: string | null) =>
    state.notes
      .filter((note) => (steps.has(note.about) ? note.about : null) === about)
      .map((note) => (note.pain ? painText(note.text) : note.text))
  const along = state.steps.flatMap((step) => [
    ...typedWith(state.recorded.get(step.id)?.result),
    ...said(step.id),
  ])
  return [...said(null), ...along, ...state.meals.flatMap((meal) => typedWith(meal.result))]
}

/** The words that were typed with a result. */
function typedWith(result: { note: string | null; pain: string | null } | undefined): string[] {
  return [result?.note, result?.pain ? painText(result.pain) : null].filter((text) => text != null)
}

function painText(where: string): string {
  return `pain: ${where}`
}
