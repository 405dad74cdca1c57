import { readdirSync } from 'node:fs'
import { join } from 'node:path'

/** The prescriptions that lie ready in a folder, by name. */
export function prescriptionsIn(folder: string): { name: string; path: string }[] {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter((entry) => !entry.isDirectory() && /^[^.].*\.(txt|json)$/.test(entry.name))
      .map((entry) => ({ name: entry.name, path: join(folder, entry.name) }))
      .sort((a, b) => a.name.localeCompare(b.name))
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return []
    throw error
  }
}
