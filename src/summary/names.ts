import type { SessionState } from '../session/state.ts'

/** What a piece of work is called for short: its line up to the first comma outside brackets. */
export function workName(text: string): string {
  let depth = 0
  for (const [index, character] of [...text].entries()) {
    if (character === '(') depth++
    else if (character === ')') depth--
    else if ((character === ',' || character === '"') && depth <= 0)
      return [...text].slice(0, index).join('').trim() || text
  }
  return text
}

/** What an item of the day is called for short. */
export function itemName(state: SessionState, part: number, item: number): string {
  const step = state.steps.find((each) => each.part === part && each.item === item)
  const names = new Set(
    state.steps.flatMap((each) =>
      each.kind === 'set' && each.part === part && each.item === item ? [each.insteadOf ?? each.name] : [],
    ),
  )
  if (names.size > 0) return [...names].join(' + ')
  if (step?.kind === 'prep') return step.prep.name
  if (step?.kind === 'fuel') return `fuel ${step.fuel.when}`
  return workName(state.parts[part]?.items[item]?.text ?? '')
}

/** What a part is called: its kind, and its name behind a colon. */
export function partName(part: { kind: string; name: string | null }): string {
  return part.name === null ? part.kind : `${part.kind}: ${part.name}`
}
