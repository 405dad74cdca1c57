import type { SummaryContext } from '../summary/estimate.ts'
import { kilogramsOf } from '../units/mass.ts'
import { bodyMassOn, type Settings } from './settings.ts'

/** Raised whenever the digest's lines get another form or a figure in them another meaning. */
const form = 5

/** What a session's figures need besides the session: the chosen equation and the body mass that held on its date. */
export function contextOn(settings: Settings, date: string): SummaryContext {
  const mass = bodyMassOn(settings, date)
  return { equation: settings.equation, bodyMassKg: mass === null ? null : kilogramsOf(mass) }
}

/** A name for all that the digest's figures depend on besides the files: another, and they are made anew. */
export function basisOf(settings: Settings): string {
  const masses = JSON.stringify(settings.bodyMasses)
  // FNV-1a, 32 bits: a name, no protection.
  let hash = 0x811c9dc5
  for (let index = 0; index < masses.length; index += 1) {
    hash = Math.imul(hash ^ masses.charCodeAt(index), 0x01000193) >>> 0
  }
  return `${form}-${settings.equation}-${hash.toString(36)}`
}
