import type { Brief, Summary } from './model.ts'

/** Everything that is not ASCII and steers or turns text is escaped, so that the JSON means the same and is
 * safe on a terminal. */
const unsafe = /[\u007F-\u009F\u061C\u200E\u200F\u2028-\u202E\u2066-\u2069]/g

/** A value as JSON for other programs, on several lines, with a line feed at its end. */
export function jsonOf(value: unknown): string {
  const text = JSON.stringify(value, null, 2).replace(
    unsafe,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
  return `${text}\n`
}

/** A summary as JSON, for other programs. */
export function summaryJson(summary: Summary): string {
  return jsonOf(summary)
}

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
    effortMinutesAtLeast: session.effortMinutesAtLeast,
    parts: parts.map(({ kind, name, effort, minutes, effortMinutes }) => ({
      kind,
      name,
      effort,
      minutes,
      effortMinutes,
    })),
  }
}
