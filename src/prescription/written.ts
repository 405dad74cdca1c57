import type { Load, PartKind, Prescription } from './model.ts'

/* Where on a line each value of the model is written, and what is wrong there. */

/** From and to, in the characters (UTF-16) of the line. */
export type Place = readonly [from: number, to: number]

/** What is wrong at a place of a line. `fixed`: the value was replaced with what was probably meant. */
export interface Mark {
  at: Place
  message: string
  fixed?: boolean
  /** It can be read, but is probably not meant. */
  isWarning?: true
  /** Hardly anyone does this: a line with it is never suggested. */
  isDoubt?: true
  /** The line is read as it is meant, so that no other words are tried. */
  isRead?: true
  /** The whole line to write; null or absent if it is not known. */
  suggestion?: string | null
}

export function wholeOf(text: string): Place {
  return [0, text.length]
}

/** A value as the grammar makes it: with its place, and a mark if it is invalid. A number or a name is in a box. */
interface Parsed {
  at: Place
  wrong?: Mark
  value?: unknown
  /** A mass or a pace without a unit, so the file's unit applies. */
  bare?: boolean
  [field: string]: unknown
}

/** What is not of the model. */
const hidden: readonly string[] = ['at', 'wrong', 'bare', 'secondsInUnit', 'twice']

const parsedOf = new WeakMap<object, Parsed>()

/** The value of the model in what the grammar made of a line. */
export function unpacked<T>(parsed: unknown): T {
  const modelOf = (inner: unknown): unknown => {
    if (typeof inner !== 'object' || inner === null) return inner
    if ('value' in inner && !('unit' in inner)) return inner.value
    const value = Array.isArray(inner)
      ? inner.map(modelOf)
      : Object.fromEntries(
          Object.entries(inner).flatMap(([key, each]) =>
            hidden.includes(key) ? [] : [[key, modelOf(each)]],
          ),
        )
    parsedOf.set(value, inner as Parsed)
    return value
  }
  return modelOf(parsed) as T
}

/** Where an unpacked value, or one of its fields, is written: for a field that a clause gives, the whole clause. */
export function placeOf<T extends object>(value: T, field?: keyof T & string): Place {
  const parsed = parsedOf.get(value)
  const inner = field === undefined ? parsed : (parsed?.[field] as Parsed | undefined)
  return inner?.at ?? [0, 0]
}

/** Whether an unpacked value was written without its unit. */
export function isBare(value: object): boolean {
  return parsedOf.get(value)?.bare === true
}

/** What is wrong in an unpacked value by itself. */
export function marksOf(value: object): Mark[] {
  return marksIn(parsedOf.get(value))
}

/** Whether an unpacked value can be judged further: it is as written, or as probably meant. */
export function isSound(value: object): boolean {
  return marksOf(value).every(({ fixed }) => fixed)
}

/** Every mark in what the grammar made of a line, in order, each once. */
export function marksIn(parsed: unknown): Mark[] {
  const marks = new Set<Mark>()
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return
    if ('wrong' in value && value.wrong !== undefined) marks.add(value.wrong as Mark)
    for (const [key, inner] of Object.entries(value)) if (key !== 'wrong' && key !== 'at') visit(inner)
  }
  visit(parsed)
  return [...marks].sort((a, b) => a.at[0] - b.at[0])
}

/** What the checks of a line need to know about the day, and where they report problems. */
export interface Context {
  units: Prescription['units']
  goal: Prescription['goal']
  lapMeters: number
  /** The mass that a percentage of a known maximum is; any other load as it is. */
  knownLoad(load: Load, name: string): Load
  /** Kind and name of the item's part. */
  part: { kind: PartKind; name: string | null }
  found: Mark[]
  /** Reports what cannot be right. `fixed`: the value is now as it was probably meant. */
  report(at: Place, message: string, how?: { fixed: boolean }): void
  warn(at: Place, message: string): void
  /** Warns of what hardly anyone does. */
  doubt(at: Place, message: string): void
}
