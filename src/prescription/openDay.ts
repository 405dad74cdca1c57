import { kilogramsOf } from '../units/mass.ts'
import type { Building } from './building.ts'
import { exerciseKey } from './exerciseKey.ts'
import type { Line } from './line.ts'
import type { Prescription } from './model.ts'
import { closedPart, type OpenPart } from './openPart.ts'
import type { Problem } from './problem.ts'
import { type Headers, noHeaders } from './readHeaders.ts'

/* A day while its lines are being read. */

export interface ReadingDefaults {
  /** Units of a file that says none. */
  units?: Prescription['units']
  /** One-repetition maxima known besides those of the file. */
  maxima?: readonly { name: string; kg: number }[]
}

export interface Day {
  building: Building
  title: Line | null
  headerLines: Line[]
  /** Null until the first part begins. */
  headers: Headers | null
  maximaLines: { line: Line; name: string }[]
  parts: OpenPart[]
  problems: Problem[]
  items: number
  steps: number
  /** A line before the first part stood nowhere, which has been said. */
  isStray: boolean
  /** Below the line of a part that is none: what stands there is not read. */
  isUnread: boolean
  /** A limit is passed: nothing more is read. */
  isOver: boolean
}

export function newDay(defaults: ReadingDefaults): Day {
  const known = defaults.maxima ?? []
  const day: Day = {
    building: {
      units: defaults.units ?? { distance: 'km', mass: 'kg' },
      goal: null,
      lapMeters: 400,
      maximumKgOf(name) {
        const isSame = (each: { name: string }) => exerciseKey(each.name) === exerciseKey(name)
        const written = day.headers?.maxima.find(isSame)
        return written === undefined ? (known.find(isSame)?.kg ?? null) : kilogramsOf(written.mass)
      },
      part: { kind: 'run', name: null },
      found: [],
    },
    title: null,
    headerLines: [],
    headers: null,
    maximaLines: [],
    parts: [],
    problems: [],
    items: 0,
    steps: 0,
    isStray: false,
    isUnread: false,
    isOver: false,
  }
  return day
}

/** What has been read of the day, as the model has it. */
export function prescriptionOf(day: Day): Prescription {
  const headers = day.headers ?? noHeaders(day.building.units)
  return { title: day.title?.shown.trim() ?? '', ...headers, parts: day.parts.map(closedPart) }
}
