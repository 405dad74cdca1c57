import { join } from 'node:path'
import { defineConfig } from 'vitest/config'
import { drawsFast, shared } from './vitest.config.ts'

/* npm run soak: the tests that need real seconds, those of faults with every case instead of
 * some, and properties with thirty times as many drawn cases, one after the other. */

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  ...drawsFast,
  test: {
    ...shared,
    env: { ...shared.env, PAUSEBOOK_FAULTS: 'all', PAUSEBOOK_FUZZ: '30' },
    include: [
      'tests/**/*.soak.{ts,tsx}',
      'tests/faults/*.test.ts',
      'tests/commands/{import,sync,syncTrouble}.test.ts',
      'tests/logbook/{checksum,hostile,index,settings}.test.ts',
      'tests/prescription/{cut,hostile,roundTrip,scribbled}.test.ts',
      'tests/setup/{madeUp,shapes}.test.ts',
      'tests/session/{entryProperty,paper,walkProperty}.test.ts',
      'tests/summary/schema.test.ts',
    ],
    testTimeout: 3_600_000,
    fileParallelism: false,
    reporters: ['verbose'],
  },
})
