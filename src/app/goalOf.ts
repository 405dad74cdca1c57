import { LogbookError } from '../logbook/errors.ts'
import type { DigestEntry, Logbook } from '../logbook/model.ts'
import type { RaceGoal } from '../progress/runModel.ts'

/** The goal of the newest session that names one, with the date of its race, which only the session itself
 * has; null without any. */
export function goalOf(
  logbook: Logbook,
  entries: readonly DigestEntry[],
): Omit<RaceGoal, 'secondsPerKm'> | null {
  for (const entry of entries) {
    if (entry.brief.runMeters === 0) continue
    const { goal } = entry.running.figures
    if (goal !== null) return { meters: goal.meters, seconds: goal.seconds, date: dateIn(logbook, entry) }
  }
  return null
}

function dateIn(logbook: Logbook, { id }: DigestEntry): string | null {
  try {
    return logbook.read(id).session.prescription.goal?.on ?? null
  } catch (error) {
    if (error instanceof LogbookError) return null
    throw error
  }
}
