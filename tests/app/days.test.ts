import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { editDay, showModels } from '../../src/app/days.ts'
import { knownOn } from '../../src/app/known.ts'
import type { Screen, Screens } from '../../src/app/screens.ts'
import { defaultSettings, type Settings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { actOn } from '../../src/ui/widgets/screenKeys.ts'
import { finished, legs, started } from '../logbook/sampleSession.ts'
import { logbookWith } from './appOnGlass.ts'
import { propsOf } from './propsOf.ts'

/* How days are written, without a screen. */

const push = 'Push\ndate: 2026-11-28\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'

let shown: Screen | null = null

/** What the writing of a day needs, and what it said. */
function screensOn(folder: string, edit: Screens['edit'] = null) {
  const backs: [string | null, (string | null)?][] = []
  const logbook = openLogbook(folder)
  const settings: Settings = { ...defaultSettings, units: { distance: 'mi', mass: 'lb' } }
  const screens: Partial<Screens> = {
    logbook,
    edit,
    terminal: { lend: (use) => use(), copy: () => {} },
    known: () => knownOn(logbook, settings, '2026-11-26'),
    show: (screen) => {
      shown = screen
    },
    back: (...said) => void backs.push(said),
  }
  return { screens: screens as Screens, backs, editor: () => propsOf('editor', shown) }
}

/** The list of models among these choices. */
function listOf(screens: Screens, choices: Parameters<typeof showModels>[0] = []) {
  showModels(choices, screens.known(), screens)
  const list = propsOf('list', shown)
  const press = (index: number, name: string) => actOn(list.keys(index), name, '')
  return { ...list, open: (index: number) => press(index, 'enter'), leave: () => press(0, 'q') }
}

const dayChoice = (id: string, title: string) =>
  ({ kind: 'day', id, title, when: 'today', date: null, detail: () => '', sample: false }) as const

test('the models are an empty day, the days of the first screen, then each other title once, from its newest session', () => {
  const { screens, backs } = screensOn(logbookWith())
  for (const [date, title] of [
    ['2025-11-20', 'Legs'],
    ['2026-11-19', 'Legs'],
    ['2026-11-18', 'Push'],
    ['2026-11-17', 'Pull'],
  ] as const)
    screens.logbook.create({ ...legs, title }, { ...started, date }, [finished]).close()
  const left = {
    kind: 'unfinished',
    id: 'x',
    title: 'Left',
    detail: () => '',
    when: 'unfinished',
    mayResume: true,
  }
  const list = listOf(screens, [left as never, dayChoice('/push.txt', 'Push')])
  expect(list.rows.flatMap(({ lines }) => lines(80))).toEqual([
    'an empty day',
    'today       Push',
    '19 Nov 2026 Legs',
    '17 Nov 2026 Pull',
  ])
  expect(list.picked).toBeNull()
  list.leave()
  expect(backs).toEqual([[null]])
})

test('a new day begins with the text of its model, dated today', () => {
  const folder = logbookWith({ 'push.txt': push })
  const { screens, editor } = screensOn(folder)
  screens.logbook.create(legs, started, [finished]).close()
  const path = join(folder, 'prescriptions', 'push.txt')
  const list = listOf(screens, [dayChoice(path, 'Push'), dayChoice(join(folder, 'gone.txt'), 'Gone')])
  list.open(0)
  expect(editor()).toMatchObject({ title: 'a new day', isNew: true })
  expect(editor().text).toMatch(/^New day\ndate: 2026-11-26\nunits: mi lb\n/)
  list.open(1)
  expect(editor().text).toBe(push.replace('11-28', '11-26'))
  list.open(3)
  expect(editor().text).toMatch(/^Legs\ndate: 2026-11-26\n[\s\S]*front squat 30 x 3 @ 92\.5 kg/)
  expect(list.open(2)).toBe('the file is gone')
})

test.each([
  [push, '2026-11-28-push.txt'],
  ['Easy\n\nrun\n  5 km easy\n', '2026-11-26-easy.txt'],
  ['# a comment\n  Legs and arms\n\nlift\n  squat 3 x\n', '2026-11-26-legs-and-arms.txt'],
  ['# a comment only\n', '2026-11-26-day.txt'],
  ['Legs\ndate: 2026-12-01\n\nlift\n  squat 3 x\n', '2026-12-01-legs.txt'],
])('a new day is stored under its own date or today, and its title: %j', (text, name) => {
  const folder = logbookWith()
  const { screens, editor, backs } = screensOn(folder)
  editDay({ text }, screens)
  editor().leave()
  expect(readdirSync(join(folder, 'prescriptions'))).toEqual([])
  expect(editor().save(text)).toBeNull()
  expect(readdirSync(join(folder, 'prescriptions'))).toEqual([name])
  expect(readFileSync(join(folder, 'prescriptions', name), 'utf8')).toBe(text)
  const problem = editor().problemOf(text)
  expect(backs).toEqual([
    [null],
    [
      join(folder, 'prescriptions', name),
      problem && `saved, but cannot be used yet: line ${problem.line}: ${problem.message}`,
    ],
  ])
})

test('a stored day is edited under its file name, and leaving the editor picks it again', () => {
  const folder = logbookWith({ 'push.txt': push })
  const { screens, editor, backs } = screensOn(folder)
  const path = join(folder, 'prescriptions', 'push.txt')
  editDay({ path }, screens)
  expect(editor()).toMatchObject({ title: 'push.txt', isNew: false, text: push })
  expect(editor().problemOf(push)).toBeNull()
  expect(editor().problemOf(push.replace('3 x 5', '3 x'))).toEqual({ line: 5, message: expect.any(String) })
  editor().leave()
  expect(backs).toEqual([[path]])
})

test('a file that is not UTF-8 is not edited', async () => {
  const folder = logbookWith()
  const path = join(folder, 'prescriptions', 'old.txt')
  // "Läufe" in ISO 8859-1.
  writeFileSync(path, Buffer.from([0x4c, 0xe4, 0x75, 0x66, 0x65]))
  const { screens } = screensOn(folder)
  await expect(editDay({ path }, screens)).rejects.toThrow('The file is not UTF-8 text.')
})

test("the user's editor opens the stored file as it is, and a failure of it is said", async () => {
  const folder = logbookWith({ 'push.txt': push })
  const path = join(folder, 'prescriptions', 'push.txt')
  const opened: string[] = []
  const fine = screensOn(folder, async (file) => void opened.push(file))
  editDay({ path }, fine.screens)
  await Promise.resolve()
  editDay({ text: 'Legs\n' }, fine.screens)
  await new Promise(setImmediate)
  const added = join(folder, 'prescriptions', '2026-11-26-legs.txt')
  expect(opened).toEqual([path, added])
  expect(fine.backs).toEqual([[path], [added]])
  for (const failure of [new Error('ended with status 1'), 'ended with status 1']) {
    const broken = screensOn(folder, () => Promise.reject(failure))
    editDay({ path }, broken.screens)
    await new Promise(setImmediate)
    expect(broken.backs).toEqual([[path, 'ended with status 1']])
  }
  expect(readFileSync(path, 'utf8')).toBe(push)
})
