import type { Mode } from './model.ts'

const textModes = new Set<Mode['kind']>(['closing', 'correcting', 'swapping', 'timeLeft', 'noting'])

/** Whether the field holds free text, so that a letter is never a command. */
export function takesText(mode: Mode): boolean {
  return textModes.has(mode.kind)
}
