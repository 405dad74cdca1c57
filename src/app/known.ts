import type { IndexEntry } from '../logbook/model.ts'
import { readMornings } from '../logbook/mornings.ts'
import { planIn } from '../logbook/ownTexts.ts'
import { bodyMassKgOn, type Settings } from '../logbook/settings.ts'
import type { Logbook } from '../logbook/store.ts'
import type { Plan } from '../plan/model.ts'
import type { WarmUpOf } from '../prescription/expand.ts'
import type { Prescription } from '../prescription/model.ts'
import type { SourcedMaxima } from '../prescription/planned.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { lastLoadsOf, maximaOn } from '../progress/earlierLoads.ts'
import type { HistoryUnits } from '../progress/history.ts'
import { allPains, type PastPain } from '../progress/pain.ts'
import type { AskedUnits } from '../summary/view.ts'
import { warmUpFor } from './equipment.ts'

/** What a logbook says on a day, each part read when it is first asked for, and only once. */
export interface Known {
  /** Local date. */
  readonly today: string
  readonly logbook: Logbook
  readonly settings: Settings
  /** What `--units` asks for. */
  readonly asked: AskedUnits
  /** The units of `--units`, as far as given, else those of the settings. */
  readonly units: Settings['units']
  /** The units of figures over many sessions; `convert`: the athlete asked for them, so that sets in other units are
   * converted. */
  readonly historyUnits: HistoryUnits
  readonly mornings: ReturnType<typeof readMornings>
  /** Null without one, and for one with problems, which "pausebook plan" shows. */
  readonly plan: Plan | null
  /** Every session with its figures, newest first. */
  readonly entries: readonly IndexEntry[]
  /** Every pain, oldest first. */
  readonly pains: readonly PastPain[]
  /** One-repetition maxima of earlier days. */
  readonly maxima: SourcedMaxima[number][]
  /** What a prescription may leave open: its units, and those maxima. */
  readonly defaults: ReadingDefaults
  /** The warm-up sets of a day with those maxima. */
  readonly warmUpOf: WarmUpOf
}

/** How each property of an object is computed. */
type Reads<T> = { [Key in keyof T]: () => T[Key] }

/** An object whose properties are computed when they are first asked for, and only once.
 * @param readsOf is given that object */
export function lazily<T extends object>(readsOf: (self: T) => Reads<T>): T {
  const self = {} as T
  for (const [key, read] of Object.entries(readsOf(self)))
    Object.defineProperty(self, key, { get: remembered(read as () => unknown), enumerable: true })
  return self
}

type Derived = Pick<Known, 'units' | 'historyUnits' | 'plan' | 'pains' | 'maxima' | 'defaults' | 'warmUpOf'>

/** What follows from the settings, the sessions and the mornings of a logbook.
 * @param dates a date-fns format for the dates of the maxima */
export function derivedOf(known: Known, dates?: string): Reads<Derived> {
  return {
    units: () => {
      const { distance, mass } = known.settings.units
      return { distance: known.asked.distance ?? distance, mass: known.asked.mass ?? mass }
    },
    historyUnits: () => {
      const { distance, mass } = known.asked
      return { ...known.units, convert: distance !== null || mass !== null }
    },
    plan: () => planIn(known.logbook.directory),
    pains: () => allPains(known.entries, known.mornings.typed),
    maxima: () => maximaOn(known.entries, known.today, dates),
    defaults: () => lazily(() => ({ units: () => known.settings.units, maxima: () => known.maxima })),
    warmUpOf: () => warmUpFor(known.settings, known.maxima),
  }
}

/** What an open logbook says on a day.
 * @param except the session being recorded; null for a new one */
export function knownOn(
  logbook: Logbook,
  settings: Settings,
  today: string,
  except: string | null = null,
  asked: AskedUnits = { distance: null, mass: null },
): Known {
  return lazily((known) => ({
    today: () => today,
    logbook: () => logbook,
    settings: () => settings,
    asked: () => asked,
    mornings: () => readMornings(logbook.directory),
    entries: () => logbook.index().filter((entry) => entry.id !== except),
    ...derivedOf(known, 'd MMM'),
  }))
}

/** What the start of a session keeps of what is known before it. */
export function knownBefore(
  prescription: Prescription,
  known: Pick<Known, 'settings' | 'entries' | 'pains'>,
  date: string,
  maxima: Known['maxima'],
) {
  const bodyMassKg = bodyMassKgOn(known.settings, date, prescription.athlete)
  const lastLoads = lastLoadsOf(prescription, known, date)
  return { bodyMassKg, maxima, ...(lastLoads.length === 0 ? {} : { lastLoads }) }
}

/** Remembers each result: the screen asks every second, and a command in several places. */
export function remembered<K extends unknown[], V>(look: (...key: K) => V): (...key: K) => V {
  const known = new Map<string, V>()
  return (...key) => {
    const name = JSON.stringify(key)
    if (!known.has(name)) known.set(name, look(...key))
    return known.get(name) as V
  }
}
