import { join } from 'node:path'
import { defineConfig } from 'vitest/config'
import { shared } from './vitest.config.ts'

const room =
  process.env.PAUSEBOOK_ROOM ?? '{figures,published,session,summary,progress,logbook,recorder,app,screens}'

/** The tests that run against mutants: one project, in threads, as Stryker runs them. */
export default defineConfig({
  root: join(import.meta.dirname, '..'),
  test: {
    ...shared,
    include: [`tests/${room}/**/*.test.{ts,tsx}`, 'tests/commands/explain*.test.ts'],
    // It changes the user of its process, which a thread cannot.
    exclude: ['tests/logbook/damage.test.ts'],
  },
})
