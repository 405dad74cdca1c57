import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { LogbookError } from '../../src/logbook/errors.ts'
import { printMornings } from '../../src/logbook/mornings.ts'
import { printSession } from '../../src/logbook/sessionFile.ts'
import { applyToDisk, keepVersion, sweepTrash, writeToTrash } from '../../src/logbook/syncDisk.ts'
import { keepText, type Repository } from '../../src/logbook/syncRepository.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { sampleSession, setRecorded, unsealed } from './sampleSession.ts'
import { machineWith } from './testMachine.ts'

const session = (...events: SessionEvent[]) => printSession(sampleSession(...events))
const path = 'sessions/2026/2026-11-26-abcdef2345.json'

/** Brings a logbook with these files from one state to another. */
function brought(files: Record<string, string>, from: Record<string, string>, to: Record<string, string>) {
  const home = temporaryFolder()
  const write = (file: string, text: string) => {
    mkdirSync(dirname(join(home, file)), { recursive: true })
    writeFileSync(join(home, file), text)
  }
  for (const [file, text] of Object.entries(files)) write(file, text)
  const repository = {
    home,
    machine: machineWith({ now: () => new Date('2026-11-26T12:00:00Z') }),
    texts: new Map(),
    sizes: new Map(),
  } as unknown as Repository
  const treeOf = (texts: Record<string, string>) =>
    new Map(Object.entries(texts).map(([file, text]) => [file, keepText(repository, text)]))
  return {
    isDone: applyToDisk(repository, treeOf(from), treeOf(to)),
    textOf: (file: string) => (existsSync(join(home, file)) ? readFileSync(join(home, file), 'utf8') : null),
    namesIn: (folder: string) => readdirSync(join(home, folder)).sort(),
  }
}

describe('a merged state on its way to the disk', () => {
  const [one, two] = [session(setRecorded(1)), session(setRecorded(2))]

  it('adds and changes files, and moves those that were deleted to the trash of that day', () => {
    const before = { 'plan.txt': 'old', 'prescriptions/gone.txt': 'gone', [path]: one }
    const { isDone, textOf } = brought(before, before, {
      'plan.txt': 'new',
      [path]: two,
      'prescriptions/more.txt': 'more',
    })
    expect(isDone).toBe(true)
    expect([textOf('plan.txt'), textOf('prescriptions/more.txt'), textOf(path)]).toEqual(['new', 'more', two])
    expect([textOf('prescriptions/gone.txt'), textOf('trash/2026-11-26/gone.txt')]).toEqual([null, 'gone'])
    // Only sessions and mornings keep their previous text.
    expect([textOf(`${path}.bak`), textOf('plan.txt.bak')]).toEqual([one, null])
  })

  it('deletes the copy of a deleted session, which alone would count as the session', () => {
    const { textOf } = brought({ [path]: one, [`${path}.bak`]: one }, { [path]: one }, {})
    expect([textOf(path), textOf(`${path}.bak`)]).toEqual([null, null])
    expect(textOf('trash/2026-11-26/2026-11-26-abcdef2345.json')).toBe(one)
  })

  it('stops at a file that was changed meanwhile and leaves it, with new files already there', () => {
    const { isDone, textOf, namesIn } = brought(
      { 'prescriptions/Push.txt': 'changed by hand' },
      { 'prescriptions/Push.txt': 'old' },
      { 'prescriptions/push.txt': 'new', 'prescriptions/push-version-2.txt': 'old' },
    )
    expect(isDone).toBe(false)
    expect(namesIn('prescriptions')).toEqual(['Push.txt', 'push-version-2.txt'])
    expect(textOf('prescriptions/Push.txt')).toBe('changed by hand')
  })

  it('goes on past a file that is already as it should become, and one that is gone already', () => {
    const { isDone, textOf } = brought(
      { 'foods.txt': 'new' },
      { 'foods.txt': 'old', 'plan.txt': 'old', 'prescriptions/a.txt': 'old' },
      { 'foods.txt': 'new', 'plan.txt': 'new' },
    )
    expect(isDone).toBe(true)
    expect([textOf('foods.txt'), textOf('plan.txt')]).toEqual(['new', 'new'])
    expect(textOf('trash/2026-11-26/a.txt')).toBeNull()
  })

  it('sets a damaged session aside and puts the good one in its place, but takes other texts as they are', () => {
    const { isDone, textOf, namesIn } = brought({ [path]: '{' }, { [path]: one }, { [path]: two })
    expect(isDone).toBe(true)
    expect([textOf(path), textOf(`${path}.damaged-1`)]).toEqual([two, '{'])
    expect(namesIn(dirname(path)).filter((name) => name.endsWith('.lock'))).toEqual([])
    const deleted = brought({ [path]: '{' }, { [path]: one }, {})
    const inTrash = `trash/2026-11-26/${basename(path)}`
    expect([deleted.isDone, deleted.textOf(path), deleted.textOf(inTrash)]).toEqual([true, null, '{'])
    const copied = brought({ [`${path}.bak`]: one }, { [path]: one }, {})
    expect([copied.isDone, copied.namesIn(dirname(path)), copied.textOf(inTrash)]).toEqual([true, [], one])
    expect(brought({ 'plan.txt': '{' }, { 'plan.txt': 'old' }, { 'plan.txt': 'new' }).isDone).toBe(false)
  })
})

describe('a year of mornings on its way to the disk', () => {
  const year = 'mornings/2026.json'
  const [newer, newest] = ['{"format": 2}', '{"format": 3}']

  it('is left as it is while another process saves a morning', () => {
    const [one, two] = [printMornings([]), printMornings([{ type: 'undone', at: '', date: '2026-11-26' }])]
    const owner = { pid: 7, host: 'laptop', boot: null, began: null, at: '2026-11-26T06:40', name: 'lock' }
    const files = { [year]: one, [`${year}.lock`]: JSON.stringify(owner) }
    expect(() => brought(files, { [year]: one }, { [year]: two })).toThrow(
      'The file mornings/2026.json is in use by process 7 on laptop',
    )
  })

  it('keeps its previous text', () => {
    const [one, two] = [printMornings([]), printMornings([{ type: 'undone', at: '', date: '2026-11-26' }])]
    const { textOf } = brought({ [year]: one }, { [year]: one }, { [year]: two })
    expect([textOf(year), textOf(`${year}.bak`)]).toEqual([two, one])
  })

  it.each([
    ['is ruined', '{', '{', true],
    ['is of a newer program, which the last commit holds', newer, newer, false],
    ['is of a newer program, which no commit holds', newer, '{"format": 1}', true],
  ])('sets the file aside that it replaces if it %s', (_, there, committed, isAside) => {
    const { isDone, textOf } = brought({ [year]: there }, { [year]: committed }, { [year]: newest })
    expect([isDone, textOf(year)]).toEqual([true, newest])
    expect(textOf(`${year}.damaged-1`)).toBe(isAside ? there : null)
  })
})

describe('the trash of a logbook', () => {
  const machine = machineWith({ now: () => new Date('2026-11-26T12:00:00+01:00') })

  it('keeps what was deleted for 90 days, and what no sync has put there', () => {
    const home = temporaryFolder()
    sweepTrash(home, machine)
    const days = [
      '2025-11-26',
      '2026-08-27',
      '2026-08-28',
      '2026-11-26',
      'x2025-11-26',
      '2025-11-26x',
      'mine',
    ]
    for (const day of days) {
      mkdirSync(join(home, 'trash', day), { recursive: true })
      writeFileSync(join(home, 'trash', day, 'a.json'), '')
    }
    // A folder of the user's in a day's, and a file that is named as a day.
    mkdirSync(join(home, 'trash', '2026-08-26', 'mine'), { recursive: true })
    writeFileSync(join(home, 'trash', '2026-08-26', 'a.json'), '')
    writeFileSync(join(home, 'trash', '2026-08-25'), '')
    sweepTrash(home, machine)
    const left = [...days.slice(2), '2026-08-25', '2026-08-26']
    expect(readdirSync(join(home, 'trash')).sort()).toEqual(left.toSorted())
    expect(readdirSync(join(home, 'trash', '2026-08-26'))).toEqual(['mine'])
    const other = temporaryFolder()
    writeFileSync(join(other, 'trash'), 'a file of the user')
    sweepTrash(other, machine)
    expect(readFileSync(join(other, 'trash'), 'utf8')).toBe('a file of the user')
  })

  it('never replaces a file of the same name and day', () => {
    const home = temporaryFolder()
    for (const text of ['one', 'two', 'three']) writeToTrash(home, 'a.json', text, machine)
    const folder = join(home, 'trash', '2026-11-26')
    expect(readdirSync(folder).sort()).toEqual(['a.json', 'a.json.2', 'a.json.3'])
    expect(readFileSync(join(folder, 'a.json.3'), 'utf8')).toBe('three')
  })

  it('gets every version of a session but the one that is kept', () => {
    const home = temporaryFolder()
    const folder = join(home, 'sessions', '2026')
    mkdirSync(folder, { recursive: true })
    const textOf = (id: string) => unsealed(session().replace('abcdef2345', id))
    const add = (id: string) => writeFileSync(join(folder, `2026-11-26-${id}.json`), textOf(id))
    const [base, one, two] = ['abcdef2345', 'abcdef2345-0a1b2c', 'abcdef2345-3d4e5f']
    for (const id of [base, one, two, 'abcdef9999']) add(id)
    writeFileSync(join(folder, `2026-11-26-${base}.json.bak`), '')
    const none = (id: string) => () => keepVersion(home, id, machine)
    for (const id of ['abcdef9999', 'abcdef2345-ffffff', 'nothing'])
      expect(none(id), id).toThrow(LogbookError)
    expect(none('abcdef9999')).toThrow('There is no other version of "abcdef9999".')
    expect(keepVersion(home, one, machine).sort()).toEqual([base, two])
    expect(readdirSync(folder).sort()).toEqual([`2026-11-26-${one}.json`, '2026-11-26-abcdef9999.json'])
    expect(readdirSync(join(home, 'trash', '2026-11-26')).sort()).toEqual(
      [two, base].map((id) => `2026-11-26-${id}.json`),
    )
    expect(none(one)).toThrow('There is no other version')
    add(two)
    writeFileSync(join(folder, `2026-11-26-${one}.json`), '{')
    expect(none(one)).toThrow(
      `sessions/2026/2026-11-26-${one}.json is not kept, since it cannot be read: The file breaks off before its end`,
    )
    expect(existsSync(join(folder, `2026-11-26-${two}.json`))).toBe(true)
  })
})

describe('a text of which two machines have kept versions', () => {
  const machine = machineWith({ now: () => new Date('2026-11-26T12:00:00+01:00') })
  const book = (files: Record<string, string>) => {
    const home = temporaryFolder()
    mkdirSync(join(home, 'prescriptions'))
    for (const [file, text] of Object.entries(files)) writeFileSync(join(home, file), text)
    const textsIn = (folder: string) =>
      Object.fromEntries(
        readdirSync(join(home, folder), { withFileTypes: true })
          .filter((each) => each.isFile())
          .map(({ name }) => [name, readFileSync(join(home, folder, name), 'utf8')]),
      )
    return { home, textsIn }
  }

  it.each(['plan-2', 'plan-2.txt'])('has the one named %s under its first name afterwards', (name) => {
    const { home, textsIn } = book({ 'plan.txt': 'one', 'plan-2.txt': 'two', 'foods.txt': 'mine' })
    expect(keepVersion(home, name, machine)).toEqual(['plan'])
    expect(textsIn('.')).toEqual({ 'plan.txt': 'two', 'foods.txt': 'mine' })
    expect(textsIn('trash/2026-11-26')).toEqual({ 'plan.txt': 'one' })
  })

  it('has the first one alone if that is kept', () => {
    const { home, textsIn } = book({ 'plan.txt': 'one', 'plan-2.txt': 'two', 'plan-3.txt': 'three' })
    expect(keepVersion(home, 'plan', machine).sort()).toEqual(['plan-2', 'plan-3'])
    expect(textsIn('.')).toEqual({ 'plan.txt': 'one' })
    expect(textsIn('trash/2026-11-26')).toEqual({ 'plan-2.txt': 'two', 'plan-3.txt': 'three' })
  })

  it('counts a version of a version as one of the first text', () => {
    const { home, textsIn } = book({ 'plan.txt': 'one', 'plan-2.txt': 'two', 'plan-2-2.txt': 'three' })
    expect(keepVersion(home, 'plan-2-2', machine).sort()).toEqual(['plan', 'plan-2'])
    expect(textsIn('.')).toEqual({ 'plan.txt': 'three' })
  })

  it('is not the plan of another season', () => {
    const plans = ['plan.txt', 'plan-2.txt', 'plan-2025.txt', 'plan-2025-2.txt']
    const { home, textsIn } = book(Object.fromEntries(plans.map((name) => [name, name])))
    expect(keepVersion(home, 'plan', machine)).toEqual(['plan-2'])
    expect(keepVersion(home, 'plan-2025-2', machine)).toEqual(['plan-2025'])
    expect(textsIn('.')).toEqual({ 'plan.txt': 'plan.txt', 'plan-2025.txt': 'plan-2025-2.txt' })
  })

  it('is a day of one folder, while a day of the same name in another keeps its versions', () => {
    const days = ['push.txt', 'push-version-2.txt', 'block/push.txt', 'block/push-version-2.txt']
    const { home, textsIn } = book({})
    mkdirSync(join(home, 'prescriptions/block'))
    for (const day of days) writeFileSync(join(home, 'prescriptions', day), day)
    expect(keepVersion(home, 'push', machine)).toEqual(['push-version-2'])
    expect(Object.keys(textsIn('prescriptions/block'))).toHaveLength(2)
    expect(keepVersion(home, 'block/push-version-2.txt', machine)).toEqual(['block/push'])
    expect(textsIn('prescriptions/block')).toEqual({ 'push.txt': 'block/push-version-2.txt' })
  })

  it('is also a prepared day, but no other day, even one that the athlete named with a number', () => {
    const days = ['2026-11.txt', '2026-11-26.txt', 'push.txt', 'push-2.txt', 'push-version-2.txt']
    const { home, textsIn } = book(Object.fromEntries(days.map((name) => [`prescriptions/${name}`, name])))
    expect(() => keepVersion(home, 'push-2', machine)).toThrow('There is no other version')
    expect(keepVersion(home, 'push-version-2', machine)).toEqual(['push'])
    expect(() => keepVersion(home, '2026-11-26', machine)).toThrow(LogbookError)
    expect(() => keepVersion(home, 'push', machine)).toThrow('There is no other version')
    expect(textsIn('prescriptions')).toEqual({
      '2026-11.txt': '2026-11.txt',
      '2026-11-26.txt': '2026-11-26.txt',
      'push.txt': 'push-version-2.txt',
      'push-2.txt': 'push-2.txt',
    })
  })
})
