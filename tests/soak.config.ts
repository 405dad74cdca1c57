import { join } from 'node:path'
import { defineConfig } from 'vitest/config'
import { shared } from './vitest.config.ts'

/* npm run soak: the tests that need real seconds, one after the other. */

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  test: { ...shared, include: ['tests/**/*.soak.{ts,tsx}'], testTimeout: 600_000, fileParallelism: false },
})
