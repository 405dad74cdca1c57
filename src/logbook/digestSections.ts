import * as z from 'zod'
import { Brief, briefOf } from '../summary/brief.ts'
import { Summary } from '../summary/model.ts'
import { DigestDay } from './digestDay.ts'
import { type Packing, packingOf } from './packing.ts'

/* A day lies in its line in sections, one for each exercise among them, so that a question about ten thousand
 * days reads of each only what it is about. */

const { session, parts, running, cross, lifting, fuel, notes, changes } = Summary.shape
const { sets, reps, tonnageKg } = lifting.shape

const schemas = {
  brief: Brief,
  lift: z.strictObject({
    figures: lifting.shape.exercises.element,
    sets: DigestDay.shape.lifts.element.shape.sets,
  }),
  running: z.strictObject({ figures: running, kinds: DigestDay.shape.running }),
  rest: z.strictObject({
    session,
    parts,
    totals: z.strictObject({ sets, reps, tonnageKg }),
    cross,
    crossKinds: DigestDay.shape.cross,
    fuel,
    notes,
    changes,
  }),
}

type Schemas = typeof schemas
export type SectionName = keyof Schemas
export type Section<Name extends SectionName> = z.infer<Schemas[Name]>

/** A whole day; `lifts` in the order in which they were first done. */
export interface Sections {
  brief: Section<'brief'>
  lifts: Section<'lift'>[]
  running: Section<'running'>
  rest: Section<'rest'>
}

const packings = new Map<SectionName, Packing<unknown>>()

/** Made when it is first asked for: a question needs one or two of them. */
export function packingOfSection<Name extends SectionName>(name: Name): Packing<Section<Name>> {
  const packing = packings.get(name) ?? (packingOf(schemas[name] as z.ZodType) as Packing<unknown>)
  packings.set(name, packing)
  return packing as Packing<Section<Name>>
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
