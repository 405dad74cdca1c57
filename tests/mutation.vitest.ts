import { join } from 'node:path'
import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'
import { drawsFast, shared } from './vitest.config.ts'

/** The tests closest to each room. A mutant meets no others, and the first that fails kills it, so the room's own come
 * first and the slow ones last. Tests of the built program are left out: it does not contain the mutants. */
const testsOf: Record<string, string[]> = {
  units: ['units/*'],
  figures: ['figures/*', 'published/*', 'commands/explain'],
  prescription: ['prescription/*'],
  plan: ['plan/*', 'commands/plan'],
  session: ['session/*', 'recorder/*'],
  summary: ['summary/*', 'commands/{summary,explainSession,export}'],
  progress: ['progress/*', 'commands/{progress,next,week}'],
  logbook: ['logbook/*', 'commands/morning', 'faults/crash'],
  recorder: ['recorder/*'],
  app: ['app/*', 'commands/{reopen,next}'],
  ui: ['widgets/*', 'screens/*', 'terminal/{frame,keyboard,capabilities}', 'app/*'],
}
const slow = /logbook\/(backup|index|checksum)\.|faults\/|commands\/|app\/today/
/** Takes ten seconds. */
const exclude = ['tests/logbook/hostile.test.ts']

const { PAUSEBOOK_ROOM: room } = process.env
const near = room === undefined ? Object.values(testsOf).flat() : (testsOf[room] ?? [])

class OwnFirstSlowLast extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = (path: string) => near.findIndex((each) => path.includes(`/tests/${each.split('/')[0]}/`))
    const place = ({ moduleId }: TestSpecification) =>
      `${slow.test(moduleId) ? 9 : rank(moduleId)} ${moduleId}`
    return files.toSorted((a, b) => (place(a) < place(b) ? -1 : 1))
  }
}

/** One project, in threads, as Stryker runs them. A mutant loads the modules once for all its tests. */
export default defineConfig({
  root: join(import.meta.dirname, '..'),
  ...drawsFast,
  test: {
    ...shared,
    include: near.map((path) => `tests/${path}.test.{ts,tsx}`),
    exclude,
    isolate: false,
    sequence: { sequencer: OwnFirstSlowLast },
  },
})
