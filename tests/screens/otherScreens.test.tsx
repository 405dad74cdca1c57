import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { firstStart } from '../../src/app/firstStart.ts'
import { knownOn } from '../../src/app/known.ts'
import { showHistory, showSubject, showSummary } from '../../src/app/lookBack.ts'
import { showDecisions } from '../../src/app/nextDay.ts'
import { ScreenOf } from '../../src/app/openApp.tsx'
import { progressContent } from '../../src/app/overWeeks.ts'
import type { Screen, Screens } from '../../src/app/screens.ts'
import { showToday } from '../../src/app/today.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { atTime, logbookWith } from '../app/appOnGlass.ts'
import { legs, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { walkedThursday } from '../walkedDay.ts'
import { drawn } from './frame.tsx'

/* Golden frames of the screens other than the recorder, at three sizes. After an intended change, rewrite a frame
 * with `npx vitest run -c tests/vitest.config.ts tests/screens -u`. */

const sizes = [
  [80, 24],
  [40, 12],
  [200, 60],
] as const

const weeks = join(temporaryFolder(afterAll), 'book')
beforeAll(() => writeMadeUpLogbook(weeks, { seed: 1, weeks: 16, last: '2026-11-25' }))

function frameOf(screen: Screen, columns: number, rows: number): string {
  const shown = drawn(<ScreenOf screen={screen} />, columns, rows)
  const frame = shown.text()
  shown.unmount()
  return frame
}

/** What is shown on the made-up logbook. */
function shownBy(act: (screens: Screens) => void): Screen {
  const shown: Screen[] = []
  const logbook = openLogbook(weeks)
  act({
    logbook,
    samples: null,
    env: {},
    known: () => knownOn(logbook, defaultSettings, '2026-11-25'),
    show: (screen: Screen) => void shown.push(screen),
  } as unknown as Screens)
  return shown[0] as Screen
}

/** The first screen of a logbook with an unfinished session, a day and a sample, all of them drawn at once. */
function today(changed: Partial<Screens['logbook']> = {}): Screen {
  atTime('2026-11-28T06:54:00+01:00')
  const folder = logbookWith({
    'push.txt': 'Saturday: push\ndate: 2026-11-28\n\nlift: push\n  bench press: 3 x 5 @ 70 kg\n',
  })
  const samples = join(folder, 'samples')
  mkdirSync(samples)
  writeFileSync(join(samples, 'easy.txt'), 'Sunday: long and easy\ndate: 2026-11-29\n\nrun\n  14 km easy\n')
  const logbook = openLogbook(folder)
  logbook.create(legs, { ...started, date: '2026-11-28', at: '2026-11-28T06:40:00+01:00' }).close()
  const shownOn = { ...logbook, ...changed }
  const known = () => knownOn(shownOn, { ...defaultSettings, rotation: ['push'] }, '2026-11-28')
  const given = { samples, known, logbook: shownOn }
  const shown = shownBy((screens) => showToday({ ...screens, ...given }, null, null))
  expect(shown).toMatchObject({ isSlow: true })
  return { ...shown, isSlow: false } as Screen
}

const nothing = () => null
const decisions = (rows: { id: string; text: string }[]) =>
  shownBy(({ show }) => {
    showDecisions({ rows, dateText: () => 'Thu 3 Dec 2026', earliest: -7, save: nothing }, show, () => {})
  })
const screens: Record<string, () => Screen> = {
  firstStart: () => shownBy((screens) => firstStart(screens, () => {})),
  today,
  summary: () =>
    shownBy((screens) => {
      const logbook = {
        directory: join(weeks, 'empty'),
        read: () => ({ session: walkedThursday(), entry: { date: '2026-11-26' } }),
      }
      showSummary('', { ...screens, logbook } as unknown as Screens)
    }),
  decisions: () =>
    decisions([
      {
        id: '0.1',
        text: 'front squat: complete at 8, twice in a row: 95 kg; 5 at 95 kg is an estimated 76 to 81 %',
      },
      { id: '0.2', text: 'pull-up: 5 of 6 in set 4: the same again' },
      { id: '0.3', text: 'plank: 40 s of 45 in set 3: the same again' },
    ]),
  history: () => shownBy((screens) => showHistory(screens)),
  editor: () => ({
    kind: 'editor',
    title: '2026-11-28-push.txt',
    text: 'Saturday: push\ndate: 2026-11-28\n\nlift: push\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n  dips 3 x\n',
    problemOf: () => ({ line: 6, message: 'The number of repetitions is missing. Example: 3 x 8.' }),
    save: nothing,
    leave: () => {},
  }),
  progress: () =>
    shownBy(({ show }) => {
      const subjects = progressContent(knownOn(openLogbook(weeks), defaultSettings, '2026-11-25')) ?? []
      showSubject(subjects, 0, show, () => {})
    }),
}

describe.each(sizes)('at %i x %i', (columns, rows) => {
  test.each(Object.keys(screens))('the screen %s', async (name) => {
    const frame = frameOf(screens[name]?.() as Screen, columns, rows)
    expect(frame.split('\n').length).toBeLessThan(rows)
    for (const line of frame.split('\n')) expect([...line].length).toBeLessThanOrEqual(columns)
    await expect(frame).toMatchFileSnapshot(`golden/${name}-${columns}x${rows}.txt`)
  })
})

test.each([
  [80, 24, 1],
  [40, 12, 2],
] as const)(
  'at %i x %i the first screen shows a complete reason, and how to leave',
  (columns, rows, lines) => {
    const damages = [1, 2].map(() => ({ file: 'settings.json', wrong: '', done: '' }))
    const reason = 'damaged: settings.json and 1 more; "pausebook verify" says what is wrong'
    const frame = frameOf(today({ damages }), columns, rows).split('\n')
    expect(frame).toHaveLength(rows - 1)
    expect(frame.slice(-1 - lines, -1).join(' ')).toBe(reason)
    expect(frame.at(-1)).toMatch(/ {3}q quit$/)
  },
)

test('the decisions show each line whole, and all of the picked one where not all fit', () => {
  const rows = ['one', 'two', 'three', 'four'].map((id) => ({
    id,
    text: `${id} ${'word '.repeat(24)}end of ${id}`,
  }))
  const shown = (columns: number, lines: number) => frameOf(decisions(rows), columns, lines)
  for (const { id } of rows) expect(shown(80, 24)).toContain(`end of ${id}`)
  expect(shown(80, 24)).not.toContain('…')
  expect(shown(40, 12)).toContain('end of one')
})
