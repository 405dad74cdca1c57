import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type ComponentProps, cloneElement, type ReactElement, type ReactNode } from 'react'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { firstStart } from '../../src/app/firstStart.tsx'
import { showHistory, showSubject, showSummary } from '../../src/app/lookBack.tsx'
import { progressContent } from '../../src/app/overWeeks.ts'
import type { Screens } from '../../src/app/screens.ts'
import { showToday } from '../../src/app/today.tsx'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { DayEditor } from '../../src/ui/screens/DayEditor.tsx'
import { DecisionsScreen } from '../../src/ui/screens/DecisionsScreen.tsx'
import type { Choice, Today } from '../../src/ui/screens/Today.tsx'
import { walkedThursday } from '../walkedDay.ts'
import { type Drawn, drawn } from './frame.tsx'

/* Golden frames of the screens other than the recorder, at three sizes. After an intended change, rewrite a frame
 * with `npx vitest run -c tests/vitest.config.ts tests/screens -u`. */

const sizes = [
  [80, 24],
  [40, 12],
  [200, 60],
] as const

const weeks = join(mkdtempSync(join(tmpdir(), 'pausebook-')), 'book')
beforeAll(() => writeMadeUpLogbook(weeks, { seed: 1, weeks: 16, last: '2026-11-25' }))
afterAll(() => rmSync(weeks, { recursive: true, force: true }))

let open: Drawn | null = null
afterEach(() => open?.unmount())

const choices: Choice[] = [
  {
    kind: 'unfinished',
    id: 'k3j9x2m8qa',
    when: 'unfinished',
    title: 'Thursday 26 November: five hundreds, then front squat',
    detail: 'left 14 minutes ago in the rest before front squat, set 3 of 5',
    mayResume: true,
  },
  {
    kind: 'day',
    id: 'push.txt',
    when: 'today',
    date: '2026-11-28',
    title: 'Saturday: push',
    detail: '13 sets, about 47 min',
    sample: false,
  },
  {
    kind: 'day',
    id: 'easy.txt',
    when: 'sample',
    date: '2026-11-29',
    title: 'Sunday: long and easy',
    detail: '14 km, about 82 min',
    sample: true,
  },
]

/** What is shown on the made-up logbook. */
function shownBy(act: (screens: Screens) => void): ReactElement {
  const shown: ReactElement[] = []
  act({
    logbook: openLogbook(weeks),
    samples: null,
    env: {},
    settings: () => defaultSettings,
    show: (screen: ReactElement) => void shown.push(screen),
  } as unknown as Screens)
  return shown[0] as ReactElement
}

/** The first screen with its own keys and these choices. */
function today(changed: Partial<ComponentProps<typeof Today>> = {}): ReactElement {
  return cloneElement(
    shownBy((screens) => showToday(screens, null, null)),
    {
      unfinished: [],
      days: () => choices,
      damage: null,
      due: 'due: push (legs on 24 Nov)',
      pains: [],
      ...changed,
    },
  )
}

const nothing = () => null
const screens: Record<string, () => ReactNode> = {
  firstStart: () => shownBy((screens) => firstStart(screens, () => {})),
  today,
  summary: () =>
    shownBy((screens) => {
      const logbook = { directory: join(weeks, 'empty'), read: () => ({ session: walkedThursday() }) }
      showSummary('', { ...screens, logbook } as unknown as Screens, () => {})
    }),
  decisions: () => (
    <DecisionsScreen
      rows={[
        {
          id: '0.1',
          text: 'front squat: complete at 8, twice in a row: 95 kg; 5 at 95 kg is an estimated 76 to 81 %',
        },
        { id: '0.2', text: 'pull-up: 5 of 6 in set 4: the same again' },
        { id: '0.3', text: 'plank: 40 s of 45 in set 3: the same again' },
      ]}
      dateText={() => 'Thu 3 Dec 2026'}
      earliest={-7}
      save={nothing}
      leave={() => {}}
    />
  ),
  history: () => shownBy((screens) => showHistory(screens)),
  editor: () => (
    <DayEditor
      title="2026-11-28-push.txt"
      text={
        'Saturday: push\ndate: 2026-11-28\n\nlift: push\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n  dips 3 x\n'
      }
      problemOf={() => ({ line: 6, message: 'The number of repetitions is missing. Example: 3 x 8.' })}
      save={nothing}
      leave={() => {}}
    />
  ),
  progress: () =>
    shownBy(({ show }) => {
      const subjects = progressContent(openLogbook(weeks), defaultSettings, '2026-11-25') ?? []
      showSubject(subjects, 0, show, () => {})
    }),
}

describe.each(sizes)('at %i x %i', (columns, rows) => {
  test.each(Object.keys(screens))('the screen %s', async (name) => {
    open = drawn(screens[name]?.(), columns, rows)
    const frame = open.text()
    expect(frame.split('\n').length).toBeLessThan(rows)
    for (const line of frame.split('\n')) expect([...line].length).toBeLessThanOrEqual(columns)
    await expect(frame).toMatchFileSnapshot(`golden/${name}-${columns}x${rows}.txt`)
  })
})

test.each([
  [80, 24, 2],
  [40, 12, 3],
] as const)(
  'at %i x %i the first screen shows a complete reason, and how to leave',
  (columns, rows, lines) => {
    const reason =
      'The session cannot be locked: the disk is read-only. Make room or change the permissions of logbook.'
    open = drawn(today({ damage: reason }), columns, rows)
    const frame = open.text().split('\n')
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
  const shown = (columns: number, lines: number) => {
    open = drawn(
      <DecisionsScreen rows={rows} dateText={() => 'today'} earliest={0} save={nothing} leave={() => {}} />,
      columns,
      lines,
    )
    const text = open.text()
    open.unmount()
    return text
  }
  for (const { id } of rows) expect(shown(80, 24)).toContain(`end of ${id}`)
  expect(shown(80, 24)).not.toContain('…')
  expect(shown(40, 12)).toContain('end of one')
})
