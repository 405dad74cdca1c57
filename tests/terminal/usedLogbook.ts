import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { temporaryFolder } from '../temporaryFolder.ts'

/** The logbook of a user who has seen the first start, with these settings. */
export function usedLogbook(settings: Record<string, unknown> = {}): string {
  const folder = join(temporaryFolder(), 'book')
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  writeFileSync(
    join(folder, 'settings.json'),
    JSON.stringify({ format: 1, firstStartSeen: true, ...settings }),
  )
  return folder
}
