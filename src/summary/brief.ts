import type { Brief, Summary } from './model.ts'

export function briefOf({ session, parts, running, cross, lifting }: Summary): Brief {
  return {
    title: session.title,
    runMeters: running.meters,
    crossMeters: cross.meters,
    sets: lifting.sets,
    tonnageKg: lifting.tonnageKg,
    exercises: lifting.exercises.map((exercise) => exercise.name),
    minutes: session.minutes,
    effortMinutes: session.effortMinutes,
    parts: parts.map(({ kind, name, effort, minutes, effortMinutes }) => ({
      kind,
      name,
      effort,
      minutes,
      effortMinutes,
    })),
  }
}
