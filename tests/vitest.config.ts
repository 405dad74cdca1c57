import { defineConfig } from 'vitest/config'

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    // The athlete of the samples lives there; a test that depends on the zone says so by this.
    env: { TZ: 'Europe/Berlin', FORCE_COLOR: '0' },
    testTimeout: 20_000,
    // By itself it leaves one core idle, which is half of two.
    maxWorkers: '100%',
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
