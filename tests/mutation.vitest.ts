import { join } from 'node:path'
import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'
import { drawsFast, shared } from './vitest.config.ts'

/** The tests closest to each room. A mutant meets no others, and the first that fails kills it, so the slow ones come
 * last. Tests of the built program are left out: it does not contain the mutants. */
const testsOf: Record<string, string[]> = {
  figures: ['figures/**/*', 'published/*', 'commands/explain'],
  session: ['session/*', 'recorder/*'],
  summary: ['summary/*', 'commands/{summary,explainSession,export}'],
  progress: ['progress/*', 'commands/{progress,progressLine,next,week}'],
  logbook: ['logbook/*', 'commands/morning', 'faults/crash'],
  recorder: ['recorder/*'],
  app: ['app/*', 'commands/reopen'],
  ui: ['widgets/*', 'screens/*', 'terminal/{frame,asciiFrame,splitter,capabilities}', 'app/*'],
}
const slow = /logbook\/(backup|index|checksum)\.|faults\/|commands\/|app\/today/
/** These mock a module that the others load, so they come first; otherwise those of widgets come before those of
 * screens, and these before those of the whole app. */
const mocking = ['screens/clock', 'app/resumeQuestion']
/** One changes its process's time zone, which a thread cannot do; the other takes ten seconds. */
const exclude = ['tests/logbook/{moving,hostile}.test.ts']

class SlowLast extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => {
      const first = mocking.findIndex((path) => moduleId.includes(path))
      return `${first >= 0 ? 9 - first : slow.test(moduleId) ? 0 : 1} ${moduleId}`
    }
    return files.toSorted((a, b) => (place(a) < place(b) ? 1 : -1))
  }
}

const { PAUSEBOOK_ROOM: room } = process.env
const near = room === undefined ? Object.values(testsOf).flat() : (testsOf[room] ?? [])

// A thread has the time zone of its process.
process.env.TZ = shared.env.TZ

/** One project, in threads, as Stryker runs them. */
export default defineConfig({
  root: join(import.meta.dirname, '..'),
  ...drawsFast,
  test: {
    ...shared,
    include: near.map((path) => `tests/${path}.test.{ts,tsx}`),
    exclude,
    // Loading every module anew for every file would take most of the time.
    isolate: false,
    sequence: { sequencer: SlowLast },
  },
})
