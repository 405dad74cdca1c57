import { printNumber } from '../units/decimal.ts'
import { printDuration, printDurationSpan } from '../units/duration.ts'
import { printLength } from '../units/length.ts'
import { printMass } from '../units/mass.ts'
import type { Dose, LiftItem, Load } from './model.ts'
import { printQuoted, printSpan } from './printRun.ts'

type Exercise = LiftItem['exercises'][number]

/** A lift line as the notation writes it. A circuit comes out as the superset that it is. */
export function printLiftItem(item: LiftItem): string {
  const clauses = []
  if (item.pause !== null) clauses.push(`pause ${printDuration(item.pause)}`)
  if (item.rest !== null) clauses.push(`rest ${printDurationSpan(item.rest)}`)
  if (item.every !== null) clauses.push(`every ${printDuration(item.every)}`)
  if (item.tempo !== null) clauses.push(`tempo ${item.tempo}`)
  if (item.buildFrom !== null) clauses.push(`build from ${printMass(item.buildFrom)}`)
  return [item.exercises.map(printExercise).join(' + '), ...clauses, ...printQuoted(item.notes)].join(', ')
}

/** `front squat 5 x (1+1+1) @ 92.5 kg`. A name with a digit in it is set apart by a colon. */
export function printExercise(exercise: Exercise): string {
  const name = /\d/.test(exercise.name) ? `${exercise.name}:` : exercise.name
  const parts = [name, printSets(exercise)]
  if (exercise.side !== null) parts.push(exercise.side)
  const loads = exercise.sets.map((set) => set.load)
  if (loads.some((load) => load !== null)) parts.push(`@ ${printLoads(loads)}`)
  const rpe = exercise.sets[0]?.rpe ?? null
  if (rpe !== null) parts.push(`${loads[0] ? '' : '@ '}rpe ${printSpan(rpe)}`)
  return parts.join(' ')
}

function printSets({ sets }: Exercise): string {
  const doses = sets.map((set) => printDose(set.dose))
  const [first = ''] = doses
  return doses.every((dose) => dose === first) ? `${sets.length} x ${first}` : doses.join('/')
}

/** One set's dose: `6`, `8-10`, `5+`, `(1+1+1)`, `max`, `45 s`, `40 m`. */
export function printDose(dose: Dose): string {
  switch (dose.kind) {
    case 'reps':
      return printSpan(dose)
    case 'atLeast':
      return `${dose.reps}+`
    case 'cluster':
      return `(${dose.groups.join('+')})`
    case 'max':
      return 'max'
    case 'time':
      return printDuration(dose.seconds)
    case 'distance':
      return printLength(dose.length)
  }
}

/** One load for all sets, or one for each, with a slash between them and their unit at the end. */
function printLoads(loads: readonly (Load | null)[]): string {
  const texts = loads.map((load) => (load === null ? '' : printLoad(load)))
  const [first = ''] = texts
  if (texts.every((text) => text === first)) return first
  const units = loads.map((load) =>
    load?.kind === 'mass' && !load.pair ? ` ${load.unit}` : load?.kind === 'percent' ? '%' : '',
  )
  const [unit = ''] = units
  if (unit === '' || units.some((other) => other !== unit)) return texts.join('/')
  return texts.map((text) => text.slice(0, -unit.length)).join('/') + unit
}

/** One load: `92.5 kg`, `90-100 kg`, `2x22.5 kg`, `80%`, `bodyweight+10 kg`. */
export function printLoad(load: Load): string {
  switch (load.kind) {
    case 'mass':
      return `${load.pair ? '2x' : ''}${printSpan(load)} ${load.unit}`
    case 'percent':
      return `${printSpan(load)}%`
    case 'bodyweight':
      if (load.added === 0) return 'bodyweight'
      return `bodyweight${load.added < 0 ? '-' : '+'}${printNumber(Math.abs(load.added))} ${load.unit}`
  }
}
