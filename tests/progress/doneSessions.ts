import { exerciseKey } from '../../src/prescription/exercise.ts'
import type { DoneSession } from '../../src/progress/weeks.ts'
import { unmeasuredSeconds } from '../../src/summary/hard.ts'
import type { IndexedFigures, RunDone, SetDone } from '../../src/summary/model.ts'

/* Sessions of the invented athlete with the properties that progress reads; figures invented. */

type Lifted = IndexedFigures['lifts'][number]['figures']

export interface Told {
  id?: string
  title?: string
  lifts?: {
    name: string
    sets: SetDone[]
    oneRepMax?: Partial<NonNullable<Lifted['oneRepMax']>> | null
    bodyKg?: number
  }[]
  runs?: (Partial<RunDone> & { of?: [meters: number, seconds: number][] })[]
  goal?: { meters: number; seconds: number } | null
  parts?: DoneSession['brief']['parts']
  pain?: DoneSession['brief']['pain']
  heavyLegSets?: number
  hardRunMeters?: number
}

/** A day on which nothing was done. */
export const restDay: DoneSession['day'] = {
  title: 'a day',
  meters: 0,
  longestMeters: 0,
  unmeasuredSeconds: 0,
  hardMeters: 0,
  hardSeconds: 0,
  sets: 0,
  heavyLegSets: 0,
  contacts: 0,
  isHard: false,
  special: null,
  harderThanMeant: null,
  minutes: null,
}

export function session(date: string, told: Told = {}): DoneSession {
  const { lifts = [], runs = [], parts = [], goal = null } = told
  const exercises = lifts.map(liftedOf)
  const items = runs.map(itemOf)
  const meters = items.reduce((sum, item) => sum + (item.meters ?? 0), 0)
  const tonnageKg = exercises.reduce((sum, each) => sum + each.tonnageKg, 0)
  const loads = parts.flatMap((part) => part.effortMinutes ?? [])
  return {
    id: told.id ?? `session-${date}`,
    date,
    begun: Date.parse(`${date}T18:00:00Z`),
    brief: {
      title: told.title ?? 'a day',
      runMeters: meters,
      crossMeters: 0,
      sets: exercises.reduce((sum, each) => sum + each.sets, 0),
      tonnageKg,
      exercises: exercises.map(({ name }) => name),
      minutes: null,
      effortMinutes: loads.length === 0 ? null : loads.reduce((sum, load) => sum + load, 0),
      effortMinutesAtLeast: parts.some((part) => part.effortMinutes === null && part.kind !== 'prep'),
      parts,
      pain: told.pain ?? [],
    },
    day: {
      ...restDay,
      meters,
      unmeasuredSeconds: unmeasuredSeconds(items.flatMap(({ splits }) => splits)),
      heavyLegSets: told.heavyLegSets ?? 0,
      hardMeters: told.hardRunMeters ?? 0,
    },
    lifted: (key) => {
      const index = lifts.findIndex(({ name }) => exerciseKey(name) === key)
      const [figures, told] = [exercises[index], lifts[index]]
      const { sets = [], bodyKg = 0 } = told ?? {}
      return figures ? { key, figures, sets, hurt: false, bodyKg } : null
    },
    running: {
      goal: goal && { ...goal, secondsPerKm: (goal.seconds / goal.meters) * 1000 },
      items,
    },
  }
}

function liftedOf({ name, sets, oneRepMax = null }: NonNullable<Told['lifts']>[number]): Lifted {
  const reps = sets.reduce((sum, set) => sum + (set.reps ?? 0), 0)
  const tonnageKg = sets.reduce(
    (sum, set) => sum + (set.reps ?? 0) * (set.load?.kind === 'mass' ? set.load.value : 0),
    0,
  )
  return {
    name,
    sets: sets.length,
    reps,
    tonnageKg,
    oneRepMax: oneRepMax && {
      kg: 100,
      lowKg: null,
      highKg: null,
      atLeast: false,
      formula: 'wathan',
      cluster: false,
      afterRun: false,
      ...oneRepMax,
    },
  }
}

function itemOf({ of = [], ...item }: NonNullable<Told['runs']>[number]): RunDone {
  const meters = of.reduce((sum, [length]) => sum + length, 0)
  const seconds = of.reduce((sum, [, time]) => sum + time, 0)
  return {
    text: 'a run',
    repeats: false,
    word: null,
    gaps: [],
    effort: null,
    splits: of.map(([length, time]) => ({
      meters: length,
      seconds: time,
      secondsPerKm: (time / length) * 1000,
      heartRate: null,
      rpe: null,
    })),
    meters,
    seconds,
    secondsPerKm: meters === 0 ? null : (seconds / meters) * 1000,
    cvPercent: null,
    halves: null,
    inRange: 0,
    judged: 0,
    gradePercent: null,
    ...item,
  }
}

export function set(reps: number, kg: number, groups: number[] | null = null): SetDone {
  return {
    reps,
    groups,
    seconds: null,
    meters: null,
    load: { kind: 'mass', value: kg, unit: 'kg', pair: false },
    rpe: null,
    failed: false,
    isShort: false,
    isTotal: false,
  }
}
