import { runProgram } from './runProgram.ts'

/** Stores a day that was kept on paper, with the results one a line. Throws what `backfill` says where it refuses them.
 * @param date of the day, if neither text has it
 * @returns the id of the session */
export async function keepOnPaper(
  logbook: string,
  day: string,
  results: string,
  { date, now }: { date?: string; now?: Date } = {},
): Promise<string> {
  const command = ['backfill', 'day.txt', 'results.txt', ...(date === undefined ? [] : ['--date', date])]
  const files = { 'day.txt': day, 'results.txt': results }
  const { code, stdout, stderr } = await runProgram(command, { files, logbook, ...(now && { now }) })
  if (code !== 0) throw new Error(stderr)
  return stdout.trim()
}
