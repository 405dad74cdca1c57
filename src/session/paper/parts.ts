import type { Prescription } from '../../prescription/model.ts'
import { readMinutes, readSessionRpe } from '../entry/effort.ts'

/* How a results file names the parts of a day, and what it says about them. */

/** Parts by their possible names, in lower case with single spaces: `run`, `evening`, `run evening`. */
export type PartNames = ReadonlyMap<string, readonly number[]>

/** A part is named by its kind, or by its own name if a day has two of a kind; case does not matter. */
export function partNamesOf(prescription: Prescription): PartNames {
  const names = new Map<string, number[]>()
  const parts = prescription.parts
    .map((part, index) => ({ ...part, index }))
    .filter((part) => part.kind !== 'fuel')
  const call = (name: string, index: number) => names.set(name, [...(names.get(name) ?? []), index])
  for (const part of parts) {
    const isOnly = parts.filter((other) => other.kind === part.kind).length === 1
    if (isOnly || part.name === null) call(part.kind, part.index)
  }
  const kinds = new Set(names.keys())
  for (const part of parts) {
    if (part.name === null) continue
    const name = calledOf(part.name)
    if (!kinds.has(name)) call(name, part.index)
    call(`${part.kind} ${name}`, part.index)
  }
  return names
}

/** A name normalised for comparing: lower case, single spaces. */
export function calledOf(name: string): string {
  return name.trim().toLowerCase().replace(/\s+/g, ' ')
}

/** The possible names, for messages. */
export function partNamesText(prescription: Prescription): string {
  const kinds = prescription.parts.filter((part) => part.kind !== 'fuel')
  const texts = kinds.map((part) => {
    const isOnly = kinds.filter((other) => other.kind === part.kind).length === 1
    return `"${isOnly || part.name === null ? part.kind : part.name}:"`
  })
  return [...new Set(texts)].join(', ')
}

export type ClosingReading =
  | { outcome: 'answer'; effort: number | null; minutes: number | null }
  | { outcome: 'error'; message: string }

const minutesShape =
  /(?:^|[\s,])(\d[\d.:]*(?: ?h(?: ?\d+)?)?(?: ?min(?:s|utes)?| ?h)|\d+h\d+|\d+:\d\d(?::\d\d)?)(?=$|,)/i

/** `effort 8, 62 min`, either of them, in any order. */
export function readClosing(text: string): ClosingReading {
  const found = minutesShape.exec(text)
  const rest = (found === null ? text : text.replace(minutesShape, '')).replace(/^[\s,]+|[\s,]+$/g, '')
  const minutes = readMinutes(found?.[1] ?? '')
  if (minutes.outcome === 'error') return minutes
  if (rest === '' && minutes.value !== null)
    return { outcome: 'answer', effort: null, minutes: minutes.value }
  const effort = /^effort:?\s+(\S.*)$/i.exec(rest)
  if (effort === null) {
    return {
      outcome: 'error',
      message: `how a part was is written "effort 8, 62 min"; "${text}" is not understood`,
    }
  }
  const value = readSessionRpe(effort[1] ?? '')
  if (value.outcome === 'error') return value
  return { outcome: 'answer', effort: value.value, minutes: minutes.value }
}
