import { createRequire } from 'node:module'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { defineConfig } from 'vitest/config'

// A single test file finds fresh generated code, too.
const { generate } = createRequire(import.meta.url)('../src/setup/generate.cjs')
await generate()

/** Rooms of pure functions: their test files can share a process, which saves loading everything for each. */
const pure = '{units,figures,prescription,session,summary,progress,recorder,shapes,validate}'
const covered = Object.fromEntries(
  ['figures', 'prescription', 'session'].map((room) => [`src/${room}/**`, { branches: 95 }]),
)

export const shared = {
  // The athlete of the samples lives there.
  env: { TZ: 'Europe/Berlin', FORCE_COLOR: '0' },
  testTimeout: 20_000,
  // A hook may have to build the program.
  hookTimeout: 60_000,
  // A golden file that is missing fails instead of being written; `-u` writes them.
  update: 'none' as const,
}

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  test: {
    ...shared,
    // Tests of a real terminal mostly wait.
    maxWorkers: availableParallelism() + 1,
    projects: [
      {
        extends: true,
        test: { name: 'pure', include: [`tests/${pure}/**/*.test.{ts,tsx}`], isolate: false },
      },
      {
        extends: true,
        test: { name: 'rest', include: ['tests/**/*.test.{ts,tsx}'], exclude: [`tests/${pure}/**`] },
      },
    ],
    coverage: {
      include: ['src/**/*.{ts,tsx}'],
      exclude: ['src/**/generated/**', 'src/setup/**', 'src/cli.ts'],
      reporter: ['text-summary'],
      thresholds: covered,
    },
  },
})
