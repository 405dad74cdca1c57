import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { drive } from './harness.ts'

/** The system calls that make up a save. */
export const tracedCalls = ['write', 'fsync', 'rename', 'link'] as const
export type Call = (typeof tracedCalls)[number]

/** The first call of each kind that is the logbook's: Node writes twice before. */
export const firstSave: Record<Call, number> = { write: 3, fsync: 1, rename: 1, link: 1 }

/** How often each is called on the main thread while the driver records, from a run without faults. */
export async function callsIn(driver: string, results: number): Promise<Record<Call, number>> {
  const place = temporaryPlace()
  try {
    const trace = join(place.path, 'trace')
    const program = [process.execPath, driver, 'record', join(place.path, 'logbook'), String(results)]
    await drive('strace', ['-o', trace, '-e', `trace=${tracedCalls.join(',')}`, ...program])
    const text = readFileSync(trace, 'utf8')
    const counted = tracedCalls.map((call) => [
      call,
      text.match(new RegExp(`^${call}\\(`, 'gm'))?.length ?? 0,
    ])
    return Object.fromEntries(counted)
  } finally {
    place.remove()
  }
}

export function temporaryPlace(): { path: string; remove: () => void } {
  const path = mkdtempSync(join(tmpdir(), 'pausebook-fault-'))
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) }
}
