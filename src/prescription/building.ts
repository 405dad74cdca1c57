import type { MassUnit } from '../units/model.ts'
import type { Prescription } from './model.ts'
import type { Node, Place, Wrong } from './syntax.ts'

/* What building an item from its syntax needs to know of the file, and where it reports to. */

export interface Found extends Wrong {
  severity: 'error' | 'warning'
}

export interface Building {
  units: { distance: 'km' | 'mi'; mass: MassUnit }
  goal: Prescription['goal']
  lapMeters: number
  /** A one-repetition maximum that is known; null for one that is not. */
  maximumKgOf(name: string): number | null
  /** Kind and name of the part that the item is in. */
  part: { kind: string; name: string | null }
  found: Found[]
}

/** Reports what cannot be meant. `fixed`: the item stands as it was most likely meant. */
export function report(building: Building, at: Place, message: string, fixed = false): void {
  building.found.push({ at, message, fixed, severity: 'error' })
}

export function warn(building: Building, at: Place, message: string): void {
  building.found.push({ at, message, fixed: false, severity: 'warning' })
}

/** Whether something can be said of this value: it is as written, or as most likely meant. */
export function isSound(node: Node): boolean {
  return node.wrong === undefined || node.wrong.fixed
}

/** Every mark in the syntax of a line, in the order of the line, each once. */
export function marksIn(syntax: unknown): Wrong[] {
  const marks = new Set<Wrong>()
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return
    if ('wrong' in value && value.wrong !== undefined) marks.add(value.wrong as Wrong)
    for (const [key, inner] of Object.entries(value)) if (key !== 'wrong' && key !== 'at') visit(inner)
  }
  visit(syntax)
  return [...marks].sort((a, b) => a.at[0] - b.at[0])
}

/** Takes each clause once, and reports the second of a kind (texts excepted). */
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
