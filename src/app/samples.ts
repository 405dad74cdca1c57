import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** The folder of the days to try that comes with the program; null where it is not there. */
export function samplesFolder(): string | null {
  let folder = dirname(fileURLToPath(import.meta.url))
  for (;;) {
    const samples = join(folder, 'sample-sessions')
    if (existsSync(samples)) return samples
    const above = dirname(folder)
    if (above === folder) return null
    folder = above
  }
}
