import { briefOf } from '../summary/json.ts'
import type { DigestDay, Section } from './digestModel.ts'

/** A whole day; `lifts` in the order in which they were first done. */
export interface Sections {
  brief: Section<'brief'>
  lifts: Section<'lift'>[]
  running: Section<'running'>
  rest: Section<'rest'>
}

export function sectionsOf({ summary, lifts, running, cross }: DigestDay): Sections {
  const { session, parts, lifting, fuel, notes, changes } = summary
  const { exercises, ...totals } = lifting
  return {
    brief: briefOf(summary),
    lifts: exercises.map((figures, index) => ({ figures, sets: lifts[index]?.sets ?? [] })),
    running: { figures: summary.running, kinds: running },
    rest: { session, parts, totals, cross: summary.cross, crossKinds: cross, fuel, notes, changes },
  }
}

export function dayOfSections({ lifts, running, rest }: Omit<Sections, 'brief'>): DigestDay {
  const { session, parts, totals, cross, crossKinds, fuel, notes, changes } = rest
  const lifting = { ...totals, exercises: lifts.map(({ figures }) => figures) }
  return {
    summary: { session, parts, running: running.figures, cross, lifting, fuel, notes, changes },
    lifts: lifts.map(({ figures: { name }, sets }) => ({ name, sets })),
    running: running.kinds,
    cross: crossKinds,
  }
}
