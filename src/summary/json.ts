import { escapeUnsafe } from '../validate/unsafe.ts'
import type { Brief, Summary } from './model.ts'

/** Writes a value as JSON for other programs, on several lines, with a line feed at its end. Escapes
 * terminal control characters. */
export function jsonOf(value: unknown): string {
  return `${escapeUnsafe(JSON.stringify(value, null, 2))}\n`
}

export function briefOf({ session, parts, running, cross, lifting, pain }: Summary): Brief {
  return {
    title: session.title,
    runMeters: running.meters,
    crossMeters: cross.meters,
    sets: lifting.sets,
    tonnageKg: lifting.tonnageKg,
    exercises: lifting.exercises.map((exercise) => exercise.name),
    minutes: session.minutes,
    effortMinutes: session.effortMinutes,
    effortMinutesAtLeast: session.effortMinutesAtLeast,
    parts: parts.map(({ kind, name, effort, minutes, effortMinutes }) => ({
      kind,
      name,
      effort,
      minutes,
      effortMinutes,
    })),
    pain: pain.map(({ place, level }) => ({ place, level })),
  }
}
