import { readFileSync, statfsSync } from 'node:fs'
import { createRequire } from 'node:module'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { setFlagsFromString } from 'node:v8'
import { defineConfig } from 'vitest/config'

// Also generates code when a single test file is run.
const { generate } = createRequire(import.meta.url)('../src/setup/generate.cjs')
await generate()

const covered = Object.fromEntries(
  ['figures', 'prescription', 'session'].map((room) => [`src/${room}/**`, { branches: 95 }]),
)

/** Temporary folders in memory, where a flush costs nothing; only if there is room and programs can be started from
 * there. The tests of the logbook take a tenth less time than on a disk that flushes within 0.1 ms. */
function temporaryInMemory(): { TMPDIR?: string } {
  try {
    const [, , , options = 'noexec'] =
      / (\/dev\/shm) (\S+) (\S+)/.exec(readFileSync('/proc/mounts', 'utf8')) ?? []
    const { bavail, bsize } = statfsSync('/dev/shm')
    return options.includes('noexec') || bavail * bsize < 2 ** 29 ? {} : { TMPDIR: '/dev/shm' }
  } catch {
    return {}
  }
}

// Node 20 optimises a function after some hundred calls, which in a test seldom pays: at a seventh of this eagerness
// the tests take a sixth less processor time. Later releases are less eager by themselves, and do not know the flag.
if (Number.parseInt(process.versions.node, 10) < 22) setFlagsFromString('--interrupt-budget=1000000')

// That of the samples' athlete. A thread has the time zone of its process.
process.env.TZ = 'Europe/Berlin'

export const shared = {
  // Loaded by node itself: to transform the parser, twenty thousand lines, costs more than to load all the rest.
  server: { deps: { external: [/\/src\/\w+\/generated\//] } },
  // In CI Ink draws only its last frame, so every machine tests as outside of it.
  env: { CI: 'false', FORCE_COLOR: '0', NODE_ENV: 'production', ...temporaryInMemory() },
  // Only ends a test that hangs: on a busy machine everything takes several times as long.
  testTimeout: 120_000,
  hookTimeout: 120_000,
  // A missing golden file fails instead of being written; `-u` writes it.
  update: 'none' as const,
}

/** React as the program bundles it: its development build draws three times as slowly. */
export const drawsFast = { oxc: { jsx: { runtime: 'automatic' as const, development: false } } }

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  ...drawsFast,
  test: {
    ...shared,
    // They load the modules faster than processes do.
    pool: 'threads',
    maxWorkers: Math.max(2, availableParallelism()),
    include: ['tests/**/*.test.{ts,tsx}'],
    // An interrupted run of mutants leaves its copy there.
    exclude: ['tests/.mutants/**'],
    // Test files share the loaded modules, which saves more than half of the processor time. So they may mock none,
    // and what a thread cannot do is done in a process apart.
    isolate: false,
    coverage: {
      include: ['src/**/*.{ts,tsx}'],
      exclude: ['src/**/generated/**', 'src/setup/**'],
      reporter: ['text-summary'],
      thresholds: covered,
    },
  },
})
