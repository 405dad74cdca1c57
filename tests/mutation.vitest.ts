import { join } from 'node:path'
import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'
import { drawsFast, isolated, shared } from './vitest.config.ts'

/** The tests closest to each room, in the order in which they run. A mutant meets no others, and the first that fails
 * kills it, so the slow ones come last. */
const testsOf: Record<string, string[]> = {
  figures: ['figures/**/*', 'published/*', 'commands/explain'],
  session: ['session/*', 'recorder/*'],
  summary: ['summary/*', 'commands/{summary,explainSession,export}'],
  progress: ['progress/*', 'commands/{progress,progressLine,next,week}'],
  logbook: ['logbook/*', 'commands/morning'],
  recorder: ['recorder/*'],
  app: ['app/*', 'commands/reopen'],
  ui: [
    'widgets/*',
    'screens/*',
    'terminal/{frame,asciiFrame,runScreens,spoken,splitter,capabilities}',
    'app/*',
  ],
}
/** The tests that need modules of their own, which `isolated` lists. */
const apartOf: Record<string, string[]> = {
  logbook: ['faults/crash'],
  app: ['app/resumeQuestion'],
  ui: ['screens/clock', 'app/resumeQuestion'],
}
const slow = /logbook\/(backup|index|checksum)\.|faults\/|commands\//
/** One changes its process's time zone, which a thread cannot do; the other takes ten seconds. */
const left = ['tests/logbook/{moving,hostile}.test.ts']

class SlowLast extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => `${slow.test(moduleId) ? 1 : 0} ${moduleId}`
    return files.toSorted((a, b) => (place(a) < place(b) ? -1 : 1))
  }
}

const { PAUSEBOOK_ROOM: room } = process.env
const paths = (of: Record<string, string[]>) =>
  (room === undefined ? Object.values(of).flat() : (of[room] ?? [])).map(
    (path) => `tests/${path}.test.{ts,tsx}`,
  )

// A thread has the time zone of its process.
process.env.TZ = shared.env.TZ

/** In threads, as Stryker runs them. */
export default defineConfig({
  root: join(import.meta.dirname, '..'),
  ...drawsFast,
  test: {
    ...shared,
    pool: 'threads',
    sequence: { sequencer: SlowLast },
    projects: [
      {
        extends: true,
        test: {
          name: 'sharing',
          include: paths(testsOf),
          exclude: [...isolated, ...left],
          isolate: false,
        },
      },
      { extends: true, test: { name: 'isolated', include: paths(apartOf) } },
    ],
  },
})
