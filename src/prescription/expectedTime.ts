import { sum } from 'd3-array'
import { riegelSeconds } from '../figures/race.ts'
import { metersOf } from '../units/length.ts'
import { isRiding, isRowing, isRunning } from './exercise.ts'
import type { Dose, Prescription } from './model.ts'
import {
  goalIn,
  goalSecondsPerKm,
  type IntervalStep,
  isSet,
  repsOf,
  type SetStep,
  type Step,
} from './step.ts'
import { isRaceWord } from './words.ts'

/* Estimates how long things take. Apart from prescribed times, the values are this program's own and rough. */

const secondsPerRep = 4
/** Repetitions assumed for an AMRAP set. */
export const repsWhenOpen = 10
const missingRest = 90
const prepItem = 60
const easyFactor = 1.25
/** The pace of easy running on a day without a goal. */
export const easySecondsPerKm = 360
const carriedSecondsPerMeter = 0.6

/** Seconds a metre of a recovery: jogging at 7:00 and walking at 10:00 a kilometre. */
export const recoverySecondsPerMeter = { jog: 0.42, walk: 0.6, stand: 0, rest: 0 } as const

/** Seconds a step takes; for a warm-up set with the rest after it. */
export function expectedSeconds(step: Exclude<Step, SetStep>, prescription: Prescription): number {
  switch (step.kind) {
    case 'prep':
      return secondsOfPrep(step)
    case 'fuel':
      return 0
    case 'interval':
      return secondsOfInterval(step, prescription)
    case 'recovery':
      return step.expectedSeconds ?? 0
    case 'warm-up':
      return 60 + step.restSeconds
  }
}

function secondsOfPrep({ prep }: Extract<Step, { kind: 'prep' }>): number {
  const times = (prep.count ?? 1) * (prep.side ? 2 : 1)
  if (prep.amount?.kind === 'time') return prep.amount.seconds * times
  if (prep.amount?.kind === 'reps') return prep.amount.reps * secondsPerRep * times
  return prepItem
}

function secondsOfInterval(step: IntervalStep, prescription: Prescription): number {
  if (step.seconds !== null) return step.seconds
  if (step.meters === null) return 0
  const range = step.target?.seconds
  if (range) return (range.from + range.to) / 2
  const word = step.target?.word
  if (isRaceWord(word)) return secondsOfRace(step.meters, prescription)
  const part = prescription.parts[step.part]
  if (part?.kind === 'cross') {
    const name = part.name ?? part.items[step.item]?.text ?? ''
    return (step.meters / 1000) * crossSecondsPerKm(name)
  }
  return secondsOfEasyRunning(step.meters, prescription)
}

function secondsOfEasyRunning(meters: number, prescription: Prescription): number {
  const goal = goalSecondsPerKm(prescription)
  return (meters / 1000) * (goal === null ? easySecondsPerKm : goal * easyFactor)
}

/** By the name of a cross part or its item: 2:15 for 500 m of rowing, 24 km/h on a bike, 2:00 for 100 m of swimming;
 * else as easy running. */
function crossSecondsPerKm(name: string): number {
  if (isRiding(name)) return 150
  if (isRowing(name)) return 270
  return /swim|pool/i.test(name) ? 1200 : easySecondsPerKm
}

/** The goal time, converted to the length of the race with Riegel's formula; without a goal, as much faster than easy
 * running as goal pace would be. */
function secondsOfRace(meters: number, prescription: Prescription): number {
  const goal = goalIn(prescription)
  if (!goal) return (meters / 1000) * (easySecondsPerKm / easyFactor)
  return riegelSeconds(goal.meters, goal.seconds, meters)
}

/** Seconds of the set itself, including its pauses. */
function secondsOfSet(step: SetStep, prescription: Prescription): number {
  const sides = step.side ? 2 : 1
  const pauses = step.dose.kind === 'cluster' ? (step.dose.groups.length - 1) * (step.pauseInSet ?? 0) : 0
  return secondsOfDose(step, prescription) * sides + pauses
}

/** Seconds of a dose, once and on one side. A distance is run or carried. */
function secondsOfDose({ name, dose }: { name: string; dose: Dose }, prescription: Prescription): number {
  switch (dose.kind) {
    case 'reps':
      return ((dose.from + dose.to) / 2) * secondsPerRep
    case 'time':
    case 'roundsIn':
      return dose.seconds
    case 'distance': {
      const meters = metersOf(dose.length)
      return isRunning(name) ? secondsOfEasyRunning(meters, prescription) : meters * carriedSecondsPerMeter
    }
    case 'forTime':
      return (
        dose.rounds * sum(dose.stations, (each) => secondsOfDose(each, prescription) * (each.side ? 2 : 1))
      )
    default:
      return (repsOf(dose, repsWhenOpen) ?? 0) * secondsPerRep
  }
}

/** Seconds of rest after a set: in a round the pause, with `every` what is left of that time.
 * @param since seconds since the set, or its round, began */
function restOf({ pauseAfter, every, restAfter }: SetStep, since: number): number {
  if (pauseAfter !== null) return pauseAfter
  if (every !== null) return Math.max(0, every - since)
  return restAfter ? (restAfter.from + restAfter.to) / 2 : missingRest
}

/** Seconds these steps take together, including rests; a rough estimate. */
export function expectedSecondsOf(steps: readonly Step[], prescription: Prescription): number {
  let seconds = 0
  let round = 0
  let ran = 0
  const ends = new Map(steps.filter(isSet).map((step) => [`${step.part}.${step.item}`, step]))
  for (const step of steps) {
    if (step.kind === 'set') {
      const lifting = secondsOfSet(step, prescription)
      round += lifting
      // The last set of an item has no rest after it, even after a cut.
      const isEnd = ends.get(`${step.part}.${step.item}`) === step
      const rest = isEnd ? 0 : restOf(step, round)
      seconds += lifting + rest
      round = step.pauseAfter === null ? 0 : round + rest
      continue
    }
    seconds += expectedSeconds(step, prescription)
    // The way back of an interval by time.
    if (step.kind === 'interval') ran = step.seconds ?? 0
    if (step.kind === 'recovery' && step.way !== null && step.meters === null)
      seconds += (ran / secondsOfEasyRunning(1, prescription)) * recoverySecondsPerMeter[step.move]
  }
  return seconds
}
