import * as z from 'zod'
import { Brief, briefOf } from '../summary/brief.ts'
import { Summary } from '../summary/model.ts'
import { DigestDay } from './digestDay.ts'
import { type Packing, packingOf } from './packing.ts'

/* A day lies in its line in sections, so that a question about ten thousand days reads of each only what it
 * is about. */

const { session, parts, running, cross, lifting, fuel, notes, changes } = Summary.shape

const schemas = {
  brief: Brief,
  lifting: z.strictObject({ figures: lifting, lifts: DigestDay.shape.lifts }),
  running: z.strictObject({ figures: running, kinds: DigestDay.shape.running }),
  rest: z.strictObject({ session, parts, cross, crossKinds: DigestDay.shape.cross, fuel, notes, changes }),
}

export type Sections = { [Name in keyof typeof schemas]: z.infer<(typeof schemas)[Name]> }
export type SectionName = keyof Sections

export const sectionNames = Object.keys(schemas) as SectionName[]

const packings = new Map<SectionName, Packing<unknown>>()

/** Made when it is first asked for: a question needs one or two of them. */
export function packingOfSection<Name extends SectionName>(name: Name): Packing<Sections[Name]> {
  const packing = packings.get(name) ?? (packingOf(schemas[name] as z.ZodType) as Packing<unknown>)
  packings.set(name, packing)
  return packing as Packing<Sections[Name]>
}

export function sectionsOf({ summary, lifts, running, cross }: DigestDay): Sections {
  const { session, parts, fuel, notes, changes } = summary
  return {
    brief: briefOf(summary),
    lifting: { figures: summary.lifting, lifts },
    running: { figures: summary.running, kinds: running },
    rest: { session, parts, cross: summary.cross, crossKinds: cross, fuel, notes, changes },
  }
}

export function dayOfSections({ lifting, running, rest }: Omit<Sections, 'brief'>): DigestDay {
  const { session, parts, cross, crossKinds, fuel, notes, changes } = rest
  return {
    summary: {
      session,
      parts,
      running: running.figures,
      cross,
      lifting: lifting.figures,
      fuel,
      notes,
      changes,
    },
    lifts: lifting.lifts,
    running: running.kinds,
    cross: crossKinds,
  }
}
