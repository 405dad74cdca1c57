import type { MassUnit } from '../units/model.ts'
import type { Prescription } from './model.ts'
import type { Mark, Node, Place } from './syntax.ts'

/* What the builders of items need to know about the file, and where they report problems. */

export interface LineDiagnostic extends Mark {
  severity: 'error' | 'warning'
}

export interface Building {
  units: { distance: 'km' | 'mi'; mass: MassUnit }
  goal: Prescription['goal']
  lapMeters: number
  /** A one-repetition maximum of the file; null if it has none. */
  writtenMaximumKgOf(name: string): number | null
  /** A one-repetition maximum of the file or of earlier days; null if unknown. */
  maximumKgOf(name: string): number | null
  /** Kind and name of the item's part. */
  part: { kind: string; name: string | null }
  found: LineDiagnostic[]
  /** The paces of the line, to compare all those of the day. */
  paces: Pace[]
}

/** A pace as written. `isBare`: without a unit, so that the file's unit applies. */
export interface Pace {
  at: Place
  secondsPerKm: number
  text: string
  isBare: boolean
}

/** Reports what cannot be right. `fixed`: the item was built as it was probably meant. */
export function report(building: Building, at: Place, message: string, fixed = false): void {
  building.found.push({ at, message, fixed, severity: 'error' })
}

export function warn(building: Building, at: Place, message: string): void {
  building.found.push({ at, message, fixed: false, severity: 'warning' })
}

/** Whether a value can be judged further: it is as written, or as probably meant. */
export function isSound(node: Node): boolean {
  return node.wrong === undefined || node.wrong.fixed
}

/** A length or a mass without its place on the line. */
export function measureOf<U>({ value, unit }: Node & { value: number; unit: U }): { value: number; unit: U } {
  return { value, unit }
}

/** Every mark in the syntax of a line, in order, each once. */
export function marksIn(syntax: unknown): Mark[] {
  const marks = new Set<Mark>()
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return
    if ('wrong' in value && value.wrong !== undefined) marks.add(value.wrong as Mark)
    for (const [key, inner] of Object.entries(value)) if (key !== 'wrong' && key !== 'at') visit(inner)
  }
  visit(syntax)
  return [...marks].sort((a, b) => a.at[0] - b.at[0])
}

/** Takes each clause once, and reports a second clause of the same kind (except texts). */
export function onlyOnce<C extends Node & { clause: string }>(
  building: Building,
  clauses: readonly C[],
): void {
  const seen = new Set<string>()
  for (const { clause, at } of clauses) {
    if (clause === 'text' || clause === 'rpe') continue
    if (seen.has(clause))
      report(building, at, `${clauseNames[clause] ?? clause} is given twice: leave one out`)
    seen.add(clause)
  }
}

const clauseNames: Record<string, string> = {
  recovery: 'the recovery',
  heartRate: 'hr',
  side: 'the side',
  buildFrom: 'build from',
}
