import { join } from 'node:path'
import { defineConfig } from 'vitest/config'
import { shared } from './vitest.config.ts'

/* npm run soak: the tests that need real seconds, and those of faults and of hostile files with every case instead of
 * some, one after the other. */

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  test: {
    ...shared,
    env: { ...shared.env, PAUSEBOOK_FAULTS: 'all', PAUSEBOOK_FUZZ: '5000' },
    include: [
      'tests/**/*.soak.{ts,tsx}',
      'tests/faults/*.test.ts',
      'tests/commands/{import,sync}.test.ts',
      'tests/logbook/hostile.test.ts',
      'tests/setup/{madeUp,shapes}.test.ts',
    ],
    testTimeout: 3_600_000,
    fileParallelism: false,
    reporters: ['verbose'],
  },
})
