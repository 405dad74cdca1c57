import { createRequire } from 'node:module'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { defineConfig } from 'vitest/config'

// What is made of the grammar and the schemas is there, and fresh, also for a test file that is run by itself.
const { generate } = createRequire(import.meta.url)('../src/setup/generate.cjs')
await generate()

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    // The athlete of the samples lives there; a test that depends on the zone says so by this.
    env: { TZ: 'Europe/Berlin', FORCE_COLOR: '0' },
    testTimeout: 20_000,
    // One more than there are cores: tests of a real terminal mostly wait.
    maxWorkers: availableParallelism() + 1,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.{ts,tsx}'],
      exclude: ['src/**/generated/**', 'src/setup/**', 'src/cli.ts'],
      reporter: ['text-summary', 'json-summary'],
      reportsDirectory: 'coverage',
      reportOnFailure: true,
    },
  },
})
