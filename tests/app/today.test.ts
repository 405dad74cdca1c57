import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test, vi } from 'vitest'
import { knownOn } from '../../src/app/known.ts'
import type { Screens } from '../../src/app/screens.ts'
import { showToday } from '../../src/app/today.ts'
import type { IndexEntry } from '../../src/logbook/model.ts'
import { readMornings } from '../../src/logbook/mornings.ts'
import { defaultSettings, readSettings, setOwnBell } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { failing } from '../logbook/otherCalls.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { appOn, atTime, logbookWith } from './appOnGlass.ts'
import { onFullDisk } from './fullDisk.ts'

/* The first screen, with the logbook and the screens that it leads to. */

const enter = '\r'
/** Waits a moment, because the keyboard must decide whether an escape is a key or begins a sequence. */
const escapeKey = '\x1b'
const down = '\x1b[B'
const save = '\x13'

const push = 'Push\ndate: 2026-11-28\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
const dayOn = (title: string, date: string | null) =>
  `${title}\n${date === null ? '' : `date: ${date}\n`}\nrun\n  2 km easy\n`

beforeEach(() => atTime('2026-11-26T06:40:00+01:00'))

/** The titles on the first screen, from the top. */
const titlesIn = (screen: string) =>
  screen.split('\n').flatMap(
    (line) =>
      /^[> ] (\S.{11})(\S.*)$/
        .exec(line)
        ?.slice(1, 3)
        .map((each) => each.trim()) ?? [],
  )

test('the first screen that is left open overnight is that of the new day', async () => {
  vi.useFakeTimers({ toFake: ['Date', 'setInterval'], now: Date.parse('2026-11-27T23:59:30+01:00') })
  const { shows, untilShown } = await appOn(logbookWith({ 'push.txt': push }))
  expect(await shows()).toMatch(/^> Sat 28 Nov +Push/m)
  vi.advanceTimersByTime(60_000)
  await untilShown('> today       Push')
})

test('the first screen reads the index once, however much it says of earlier days', () => {
  const logbook = openLogbook(logbookWith({}))
  const index = vi.fn(logbook.index)
  const read = vi.fn(logbook.unfinished)
  const counting = {
    ...logbook,
    index,
    unfinished: (entries: readonly IndexEntry[] = index()) => read(entries),
  }
  const screens = {
    logbook: counting,
    samples: null,
    env: {},
    known: () => knownOn(counting, defaultSettings, '2026-11-26'),
    show: () => {},
  } as unknown as Screens
  showToday(screens, null, null)
  expect(index).toHaveBeenCalledTimes(1)
  showToday(screens, null, null)
  expect(index).toHaveBeenCalledTimes(2)
  expect(read).toHaveBeenCalledTimes(2)
})

/** A session that was begun and left. */
function unfinished(folder: string): string {
  const file = openLogbook(folder).create(legs, { ...started, date: '2026-11-26' })
  file.close()
  return file.id
}

const ids = (folder: string) =>
  openLogbook(folder)
    .list()
    .map(({ id }) => id)
const typesOf = (folder: string, id: string) =>
  openLogbook(folder)
    .read(id)
    .session.events.map(({ type }) => type)

describe('the order of the first screen', () => {
  const days = {
    'a.txt': dayOn('Long ago', '2026-10-01'),
    'b.txt': dayOn('Yesterday', '2026-11-25'),
    'c.txt': dayOn('In eight days', '2026-12-04'),
    'd.txt': dayOn('In seven days', '2026-12-03'),
    'e.txt': dayOn('Tomorrow', '2026-11-27'),
    'f.txt': dayOn('No date', null),
    'g.txt': dayOn('Today', '2026-11-26'),
    'h.txt': dayOn('Next year', '2027-01-02'),
  }

  test('is today, no date, the next seven days, later days, then earlier days from the newest; each has its date', async () => {
    const { shows } = await appOn(logbookWith(days))
    expect(titlesIn(await shows())).toEqual(
      [
        ['today', 'Today'],
        ['no date', 'No date'],
        ['Fri 27 Nov', 'Tomorrow'],
        ['Thu 3 Dec', 'In seven days'],
        ['Fri 4 Dec', 'In eight days'],
        ['2 Jan 2027', 'Next year'],
        ['Wed 25 Nov', 'Yesterday'],
        ['Thu 1 Oct', 'Long ago'],
      ].flat(),
    )
  })

  test('begins with an unfinished session and ends with the samples', async () => {
    const folder = logbookWith({ 'g.txt': days['g.txt'], 'own.txt': days['f.txt'] })
    unfinished(folder)
    const samples = temporaryFolder()
    writeFileSync(join(samples, 'sample.txt'), dayOn('To try', '2026-11-26'))
    writeFileSync(join(samples, 'own.txt'), dayOn('Copied already', null))
    writeFileSync(join(samples, 'sample.results.txt'), 'no day')
    const { shows, untilShown } = await appOn(folder, { samples })
    await untilShown('To try')
    expect(titlesIn(await shows()).filter((_, index) => index % 2 === 0)).toEqual([
      'unfinished',
      'today',
      'no date',
      'sample',
    ])
    expect(await shows()).not.toContain('Copied already')
  })

  test('has no samples once three sessions are stored', async () => {
    const folder = logbookWith()
    const samples = temporaryFolder()
    writeFileSync(join(samples, 'sample.txt'), dayOn('To try', null))
    const logbook = openLogbook(folder)
    for (const count of [1, 2]) {
      logbook.create(legs, started, [finished]).close()
      const { shows, press } = await appOn(folder, { samples })
      expect(await shows(), `${count} stored`).toContain('To try')
      await press('q')
    }
    logbook.create(legs, started, [finished]).close()
    expect(await (await appOn(folder, { samples })).shows()).toContain(
      'No day is in the logbook yet: n writes one.',
    )
  })

  test('has a day with problems under its title, and says how many there are', async () => {
    const folder = logbookWith({
      'two.txt': 'Two\n\nlift\n  squat 3 x\n  bench 3 y 5\n',
      'one.txt': 'One\n\nlift\n  squat 3 x\n',
    })
    const { shows, press } = await appOn(folder)
    expect(await shows()).toMatch(/no date +One\n +1 problem: e opens the day to correct it/)
    expect(await shows()).toMatch(/no date +Two\n +2 problems: e opens the day to correct it/)
    await press(enter)
    expect(await shows()).toMatch(/line 4: /)
  })
})

describe('a day of the first screen', () => {
  test('is expanded by Enter and begun by Enter again; q returns', async () => {
    const folder = logbookWith({ 'a.txt': dayOn('Today', '2026-11-26'), 'push.txt': push })
    const { press, shows } = await appOn(folder)
    await press(down, enter)
    expect(await shows()).toMatch(/^Push\nSat 28 Nov 2026\n3 sets, 1050 kg in all[\s\S]*70 kg: 25 a side/)
    await press('q')
    expect(await shows()).toMatch(/^> Sat 28 Nov {2}Push$/m)
    await press(enter, enter)
    expect(await shows()).toContain('bench press 5 at 70 kg')
    expect(ids(folder)).toEqual([])
    await press(' ')
    expect(ids(folder)).toHaveLength(1)
  })

  test('is edited with e, in the built-in editor; ctrl-s saves, and the day is picked again', async () => {
    const folder = logbookWith({ 'a.txt': dayOn('Today', '2026-11-26'), 'push.txt': push })
    const { press, shows } = await appOn(folder)
    await press(down, 'e')
    expect(await shows()).toMatch(/^push\.txt\nPush\ndate: 2026-11-28/)
    await press('\x1b[F', ' ', 'd', 'a', 'y', save)
    expect(await shows()).toMatch(/^> Sat 28 Nov {2}Push day$/m)
    expect(readFileSync(join(folder, 'prescriptions', 'push.txt'), 'utf8')).toBe(
      push.replace('Push', 'Push day'),
    )
  })

  test('keeps its line ends, and is not overwritten if it has changed meanwhile', async () => {
    const windows = push.replaceAll('\n', '\r\n')
    const folder = logbookWith({ 'push.txt': windows })
    const path = join(folder, 'prescriptions', 'push.txt')
    const { press, shows } = await appOn(folder)
    await press('e', 'X', save)
    expect(await shows()).toMatch(/^> Sat 28 Nov {2}XPush$/m)
    expect(readFileSync(path, 'utf8')).toBe(`X${windows}`)
    await press('e', 'Y')
    writeFileSync(path, push)
    await press(save)
    expect(await shows()).toContain('Another program has changed the file meanwhile.')
    expect(readFileSync(path, 'utf8')).toBe(push)
  })

  test('stays as it was when the editor is left without saving, which asks once', async () => {
    const folder = logbookWith({ 'push.txt': push })
    const { press, shows, untilShown } = await appOn(folder)
    await press('e', escapeKey)
    await untilShown('> Sat 28 Nov')
    await press('e', 'X', escapeKey)
    await untilShown('not saved: ctrl-s saves, Esc again discards the changes')
    await press('Y')
    expect(await shows()).not.toContain('not saved')
    await press(escapeKey)
    await untilShown('not saved')
    await press(escapeKey)
    await untilShown('> Sat 28 Nov')
    expect(readFileSync(join(folder, 'prescriptions', 'push.txt'), 'utf8')).toBe(push)
  })

  test('shows its first problem while it is edited', async () => {
    const { press, shows } = await appOn(logbookWith({ 'push.txt': push }))
    await press('e', down, down, down, 'x')
    expect(await shows()).toMatch(/line 4: /)
    await press('\x7f')
    expect(await shows()).not.toMatch(/line 4: /)
  })
})

describe('a new day', () => {
  test('is written empty or like an earlier day or session, dated today', async () => {
    const folder = logbookWith({ 'push.txt': push })
    openLogbook(folder).create(legs, started, [finished]).close()
    const { press, shows, untilShown } = await appOn(folder)
    await press('n')
    expect(await shows()).toMatch(
      /^A new day like: 1 of 3\n> an empty day\n {2}Sat 28 Nov {2}Push\n {2}\d+ \w+ 2026\s+\S/,
    )
    await press('q')
    expect(await shows()).toContain('Sat 28 Nov')
    await press('n', down, enter)
    expect(await shows()).toMatch(/^a new day\nPush\ndate: 2026-11-26/)
    await press(escapeKey)
    await untilShown('w week')
    expect(readdirSync(join(folder, 'prescriptions'))).toEqual(['push.txt'])
    await press('n', down, enter, save)
    expect(readdirSync(join(folder, 'prescriptions'))).toEqual(['2026-11-26-push.txt', 'push.txt'])
    expect(await shows()).toMatch(/^> today {7}Push$/m)
    await press('n', enter, save)
    expect(await shows()).toMatch(/^> today {7}New day$/m)
    await press('n', '\x1b[F', enter)
    expect(await shows()).toContain(legs.title)
  })

  test('starts with the cursor after its title, and is kept with a problem, which is said', async () => {
    const folder = logbookWith()
    const { press, shows } = await appOn(folder)
    await press('n', enter, ' ', 'o', 'n', 'e', save)
    expect(await shows()).toMatch(/^> today {7}New day one$/m)
    await press('n', enter, enter, 'x', ' ', '?', save)
    expect(readdirSync(join(folder, 'prescriptions'))).toHaveLength(2)
    expect(await shows()).toMatch(/saved, but cannot be used yet: line 2: \S/)
  })

  test("is stored at once and opened in the user's editor; the first screen then shows its problem", async () => {
    const folder = logbookWith()
    const edited: string[] = []
    const edit = async (path: string) => {
      edited.push(readFileSync(path, 'utf8'))
      writeFileSync(path, push)
    }
    const { press, untilShown } = await appOn(folder, { edit })
    await press('n', enter)
    await untilShown('Push')
    expect(edited[0]).toMatch(/^New day\ndate: 2026-11-26/)
    await press('q')
    const broken = async () => {
      throw new Error('The editor "ed" ended with status 1.')
    }
    const second = await appOn(folder, { edit: broken })
    await second.press('e')
    await second.untilShown('The editor "ed" ended with status 1.')
  })
})

describe('an unfinished session on the first screen', () => {
  test('is resumed with Enter', async () => {
    const folder = logbookWith()
    unfinished(folder)
    const { press, shows } = await appOn(folder)
    await press(enter)
    expect(await shows()).toContain('Space begin')
  })

  test('is closed with c twice, and deleted with d twice; any other key in between keeps it', async () => {
    const folder = logbookWith()
    const id = unfinished(folder)
    const { press, shows } = await appOn(folder)
    for (const keys of [
      ['d', 'c'],
      ['c', 'd'],
      ['d', 't', 'd'],
      ['c', down, 'c'],
      ['d', 'z', 'd'],
    ]) {
      await press(...keys, 'z')
      expect(ids(folder), keys.join(' ')).toEqual([id])
      expect(typesOf(folder, id), keys.join(' ')).not.toContain('sessionFinished')
    }
    await press('c')
    expect(await shows()).toContain('c again closes this session; what is not recorded counts as not done')
    await press('c')
    expect(await shows()).toContain('closed as it was')
    expect(typesOf(folder, id)).toContain('sessionFinished')
    await press('d', 'd', 'c', 'c')
    expect(ids(folder)).toEqual([id])

    const other = unfinished(folder)
    const second = await appOn(folder)
    await second.press('d')
    expect(await second.shows()).toContain('d again deletes this session for good')
    await second.press('d')
    expect(await second.shows()).toContain('deleted')
    expect(ids(folder)).toEqual([id])
    expect(ids(folder)).not.toContain(other)
  })

  test('is left alone while another program records it', async () => {
    const folder = logbookWith()
    const id = unfinished(folder)
    const held = openLogbook(folder).open(id)
    const { press, shows } = await appOn(folder)
    expect(await shows()).toContain('being recorded by process')
    expect(await shows()).not.toMatch(/Enter go on|c close as it is|d delete/)
    for (const key of ['c', 'd']) {
      await press(key)
      expect(await shows()).not.toMatch(/again (closes|deletes)/)
      await press(key)
    }
    expect(ids(folder)).toEqual([id])
    await press(enter)
    expect(await shows()).toContain('being recorded by process')
    expect(typesOf(folder, id)).not.toContain('sessionFinished')
    held.close()
  })

  test('is not reported as closed if that could not be saved', async () => {
    const folder = logbookWith()
    const id = unfinished(folder)
    const logbook = openLogbook(folder)
    const { press, shows } = await appOn(folder, { logbook: onFullDisk(logbook) })
    await press('c', 'c')
    expect(await shows()).toContain('The session is not closed: the disk is full.')
    expect(await shows()).not.toContain('closed as it was')
    expect(typesOf(folder, id)).not.toContain('sessionFinished')
  })

  test('stays in the recorder at its end, without a summary, while that is not saved', async () => {
    const folder = logbookWith()
    const id = unfinished(folder)
    const { press, shows } = await appOn(folder, { logbook: onFullDisk(openLogbook(folder)) })
    await press(enter, 'f', '7', enter, enter)
    expect(await shows()).toMatch(/NOT SAVED: the disk is full[\s\S]*every part is closed/)
    expect(typesOf(folder, id)).not.toContain('sessionFinished')
  })
})

describe('the other keys of the first screen', () => {
  test('h and g say when there is no session; with one they show it, and q returns', async () => {
    const folder = logbookWith()
    const { press, shows } = await appOn(folder)
    for (const key of ['h', 'g']) {
      await press(key)
      expect(await shows()).toContain('no session is in this logbook yet')
      await press('z')
      expect(await shows()).not.toContain('no session')
    }
    openLogbook(folder).create(legs, started, [finished]).close()
    await press('h')
    expect(await shows()).toContain('History: 1 of 1')
    await press(enter)
    expect(await shows()).toContain('c copy')
    await press('q')
    expect(await shows()).toContain('History: 1 of 1')
    await press('q', 'g')
    expect(await shows()).toContain('Progress: all')
    await press('q')
    expect(await shows()).toContain('w week')
  })

  test('the units that were asked for hold on every page', async () => {
    const folder = logbookWith({ 'easy.txt': 'Easy\ndate: 2026-11-26\n\nrun\n  8 km easy\n' })
    openLogbook(folder)
      .create(legs, started, [setRecorded(1), finished])
      .close()
    const { press, shows, untilShown } = await appOn(folder, {
      columns: 120,
      units: { distance: 'mi', mass: 'lb' },
    })
    await press('h')
    expect(await shows()).toMatch(/front squat \(1 set, \d+ lb\)/)
    await press(enter, 'm')
    expect(await shows()).toMatch(/front squat: 3 x [\d.]+ lb/)
    await press('q', 'q', 'g')
    expect(await shows()).toMatch(/run mi\s+lift lb/)
    await press('q', 'w')
    await untilShown('4.97 mi')
    await press('q', enter)
    await untilShown('4.97 mi, about')
  })

  test('w shows the week, with what is wrong with the plan below it', async () => {
    const folder = logbookWith()
    const { press, shows, untilShown } = await appOn(folder)
    await press('w')
    await untilShown('Week 48')
    await press('q')
    expect(await shows()).toContain('w week')
    writeFileSync(join(folder, 'plan.txt'), 'Block\nfoo\n')
    await press('w')
    await untilShown('plan.txt, line 2: this line does not begin with')
  })

  test('t sounds the signal and shows it until the next key', async () => {
    const { press, shows, glass } = await appOn(logbookWith())
    await press('t')
    expect(glass.writes.join('')).toContain('\x07')
    expect(await shows()).toMatch(/^ go$/m)
    await press('z')
    expect(await shows()).not.toMatch(/^ go$/m)
  })

  test('t is silent with the bell off', async () => {
    const { press, glass } = await appOn(logbookWith({}, { bell: 'off' }))
    await press('t')
    expect(glass.writes.join('')).not.toContain('\x07')
  })

  test('? shows all keys of this and the next screens, and any key closes it', async () => {
    const folder = logbookWith({ 'push.txt': push })
    openLogbook(folder).create(legs, started, [finished]).close()
    const { press, shows } = await appOn(folder)
    for (const open of [[], [enter], ['h'], ['g'], ['n']]) {
      await press(...open, '?')
      expect(await shows(), open.join()).toMatch(/^keys\n[\s\S]*\n\? +this page\n/)
      await press('q')
      expect(await shows(), open.join()).not.toMatch(/^keys\n/)
      if (open.length > 0) await press('q')
    }
    expect(await shows()).toContain('Sat 28 Nov')
  })

  test('q quits with status 0, ctrl-c as a signal does', async () => {
    const first = await appOn(logbookWith())
    await first.press('q')
    expect(await first.status).toBe(0)
    const second = await appOn(logbookWith())
    await second.press('\x03')
    expect(await second.status).toBe(130)
  })

  test('damage is reported, with the number of further files', async () => {
    const folder = logbookWith()
    for (const name of ['one', 'two']) {
      const id = unfinished(folder)
      const { path } = openLogbook(folder)
        .list()
        .find((each) => each.id === id) ?? { path: name }
      writeFileSync(path, '{')
      if (existsSync(`${path}.bak`)) writeFileSync(`${path}.bak`, '{')
    }
    const { shows } = await appOn(folder)
    expect((await shows()).replaceAll('\n', ' ')).toMatch(
      /damaged: \S+ and 1 more; "pausebook verify" says what is wrong/,
    )
  })

  test('the kind of day that is due is in the heading', async () => {
    const folder = logbookWith({}, { rotation: ['push', 'pull'] })
    expect((await (await appOn(folder)).shows()).split('\n')[0]).toBe('Pausebook   due: push')
  })
})

describe('the plan', () => {
  const plan = 'Block\nrace: 10 km in 39:30 on 2027-04-18\nweek: Thu tempo + legs\n2026-11-23: 42 km\n'

  test("is shown with the day, lists the day file of today's word first, and appears in the recorder's heading", async () => {
    const folder = logbookWith({ 'a.txt': dayOn('Any', null), 'tempo.txt': dayOn('The tempo day', null) })
    writeFileSync(join(folder, 'plan.txt'), plan)
    const { press, shows } = await appOn(folder, { columns: 120 })
    const first = await shows()
    expect(first).toContain(
      'Pausebook   Thursday of week 1 of 21, 143 days to 10 km in 39:30   plan: tempo + legs',
    )
    expect(titlesIn(first)[1]).toBe('The tempo day')
    await press(enter, enter)
    expect(await shows()).toContain('Thursday of week 1 of 21, 143 days to 10 km in 39:30')
  })

  test("says what today is for on a narrow screen, too, beside the rotation's kind", async () => {
    const folder = logbookWith({}, { rotation: ['push', 'pull'] })
    writeFileSync(join(folder, 'plan.txt'), plan)
    const head = (await (await appOn(folder, { columns: 40 })).shows()).split('\n').slice(0, 2).join(' ')
    for (const said of ['due: push', 'plan: tempo + legs']) expect(head).toContain(said)
  })
})

describe('the morning', () => {
  test('m takes it a line at a time, refuses impossible values, and takes back the last', async () => {
    const folder = logbookWith()
    const { press, shows } = await appOn(folder)
    await press('m')
    expect(await shows()).toContain('2026-11-26: nothing typed yet')
    await press(...'300 bpm', enter)
    expect(await shows()).toContain('Invalid resting heart rate 300 bpm')
    expect(readMornings(folder).mornings).toEqual([])
    await press('\x15', ...'6:40 h, 48 bpm', enter)
    expect(await shows()).toContain('2026-11-26: 6:40 h, 48 bpm')
    expect(readMornings(folder).mornings).toEqual([
      { date: '2026-11-26', sleepSeconds: 24_000, restingHeartRate: 48 },
    ])
    await press(...'undo', enter)
    expect(await shows()).toContain('nothing typed yet')
    await press(enter)
    expect(await shows()).toContain('n writes one')
  })
})

describe('a pain of an earlier day', () => {
  test('is shown on Today, and asked about when a day begins', async () => {
    atTime('2026-11-24T06:40:00+01:00')
    const folder = logbookWith({ 'easy.txt': 'Easy\n\nrun\n  5 km easy\n' })
    const first = await appOn(folder)
    await first.press('\r', '\r')
    await first.glass.type('n')
    await first.glass.type('pain left calf 4')
    await first.press('\r', '\r', 'q')
    vi.setSystemTime('2026-11-26T06:40:00+01:00')
    const second = await appOn(folder)
    expect(await second.shows()).toContain('left calf: 4 on Tuesday')
    await second.press('q')
    writeFileSync(
      join(folder, 'plan.txt'),
      `Block\nrace: 10 km in 39:30 on 2027-04-18\nweek: Thu ${'tempo + '.repeat(9)}legs\n`,
    )
    const small = await appOn(folder, { columns: 40, rows: 12 })
    expect(await small.shows()).toMatch(
      /^Pausebook .*…\n.*tempo \+ legs\nleft calf: 4 on Tuesday\n> unfinished/,
    )
  })
})

describe('the settings on the first screen', () => {
  test('a bell command is named unless this user set it on this machine; other bells are not', async () => {
    const command = ['ding', '--loud']
    const config = temporaryFolder()
    const said = async (bell: 'on' | string[]) => {
      const { shows } = await appOn(logbookWith({}, { bell }), {
        env: { LANG: 'C.UTF-8', XDG_CONFIG_HOME: config },
        columns: 200,
      })
      return (await shows()).includes('["ding","--loud"]')
    }
    expect(await said(command)).toBe(true)
    expect(await said('on')).toBe(false)
    expect(setOwnBell(command, { XDG_CONFIG_HOME: config })).toBe(true)
    expect(await said(command)).toBe(false)
  })

  test('the characters are ASCII if the settings say so, or if the terminal shows no others and they leave it open', async () => {
    const arrows = async (characters: 'auto' | 'ascii' | 'unicode', LANG: string) => {
      const { press, shows } = await appOn(logbookWith({}, { characters }), { env: { LANG } })
      await press('?')
      return (await shows()).includes('↑ ↓')
    }
    expect(await arrows('auto', 'C.UTF-8')).toBe(true)
    expect(await arrows('auto', 'C')).toBe(false)
    expect(await arrows('ascii', 'C.UTF-8')).toBe(false)
    expect(await arrows('unicode', 'C')).toBe(true)
  })
})

test('c copies the summary to the clipboard of the terminal, whatever is shown of it', async () => {
  const folder = logbookWith()
  openLogbook(folder).create(legs, started, [finished]).close()
  const { press, glass } = await appOn(folder)
  await press('h', enter, 'm', 'c')
  // xterm control sequences, "OSC 52".
  const [, copied = ''] = /\x1b\]52;c;([^\x07]*)\x07/.exec(glass.writes.join('')) ?? []
  expect(Buffer.from(copied, 'base64').toString('utf8')).toContain(legs.title)
})

test('the first start asks for the units and the body mass once, then the first screen follows', async () => {
  const folder = logbookWith({}, { firstStartSeen: false })
  const { press, shows, glass } = await appOn(folder)
  expect((await shows()).replaceAll(/\s+/g, ' ')).toContain('Pausebook walks you through the day')
  expect(glass.writes.join('')).not.toContain('\x07')
  await press('?')
  expect(await shows()).toContain('any key back')
  await press('x', enter, 'm')
  expect(await shows()).toContain('units > m')
  await press('i', enter, enter)
  expect(await shows()).toContain('n writes one')
  expect(readSettings(folder).settings).toMatchObject({
    firstStartSeen: true,
    units: { distance: 'mi', mass: 'lb' },
  })
  await press('q')
  expect(await (await appOn(folder)).shows()).toContain('n writes one')
})

test('what was refused in a question of the first start is not said of the next one', async () => {
  const { press, shows } = await appOn(logbookWith({}, { firstStartSeen: false }))
  await press(enter, 'x', enter)
  expect(await shows()).toContain('units are km or mi')
  await press('\x7f', enter)
  expect(await shows()).toContain('body mass >')
  expect(await shows()).not.toContain('units are km or mi')
})

test('results that cannot be saved are printed once the screen is closed, and the status is that of an error', async () => {
  const folder = logbookWith({ 'push.txt': push })
  const told: string[] = []
  const { press, status } = await appOn(folder, { err: (text) => told.push(text) })
  failing('linkSync', 'ENOSPC')
  const ended = expect(status).rejects.toThrow(
    /^The last results are not in the logbook: the disk is full\. They are printed above and nowhere else:/,
  )
  await press(enter, enter, ...'5 @8', enter, 'q')
  vi.setSystemTime(Date.now() + 1000)
  await press('q')
  await ended
  expect(told.join('')).toContain('"setRecorded"')
})

test('the summary follows a finished day, and n says why it decides nothing', async () => {
  const folder = logbookWith({ 'easy.txt': dayOn('Easy', '2026-11-26') })
  const { press, shows, status } = await appOn(folder)
  await press(enter, enter, ...'11:00', enter, 'f', '3', enter, enter, enter)
  expect(await shows()).toContain('c copy')
  await press('n')
  expect(await shows()).toContain('No advice for this day.')
  await press('q')
  expect(await status).toBe(0)
})
