import * as z from 'zod'
import { Summary } from './model.ts'

const figure = z.number().nullable()
const { kind, name, effort, minutes, effortMinutes } = Summary.shape.parts.element.shape

/** A session in one line: what its title is, what was run and lifted, how hard it was. */
export const Brief = z.strictObject({
  title: z.string(),
  runMeters: z.number(),
  crossMeters: z.number(),
  sets: z.int(),
  tonnageKg: z.number(),
  /** Names of what was lifted, in the order in which it was first done. */
  exercises: z.array(z.string()),
  minutes: figure,
  effortMinutes: figure,
  parts: z.array(z.strictObject({ kind, name, effort, minutes, effortMinutes })),
})
export type Brief = z.infer<typeof Brief>

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
