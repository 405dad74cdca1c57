import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { attempt, LogbookError, reasonOf } from '../../src/logbook/errors.ts'
import {
  findVersions,
  isBackedUp,
  isSessionName,
  isSynced,
  lockPathOf,
  originalOf,
  sessionEntriesOf,
  versionId,
} from '../../src/logbook/logbookFiles.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

/* Names and messages are this program's own. */

const entry = (date: string, id: string) => ({ date, id, path: `/book/${date}-${id}.json` })

describe('a word for a session', () => {
  const entries = [
    entry('2026-11-26', 'abcdef2345'),
    entry('2026-11-26', 'abc4567890'),
    ...[1, 2, 3, 4].map((day) => entry(`2026-11-0${day}`, `day${day}234567`)),
    entry('2026-10-01', '2026-10-01'),
  ]
  const found = (which: string) =>
    findVersions(which, entries)
      .map(({ id }) => id)
      .join()

  it('is newest, an id, the beginning of one, or a date', () => {
    expect(found('newest')).toBe('abcdef2345')
    expect(found('abcdef2345')).toBe('abcdef2345')
    expect(found('abc4')).toBe('abc4567890')
    expect(found('2026-11-03')).toBe('day3234567')
    expect(found('2026-10-01')).toBe('2026-10-01')
  })

  it('is a date or a beginning for all versions of one session, and an id for one of them', () => {
    const [one, two] = [entry('2026-11-26', 'abcdef2345'), entry('2026-11-26', 'abcdef2345-0a1b2c')]
    for (const which of ['2026-11-26', 'abc', 'abcdef2345-'])
      expect(findVersions(which, [one, two]), which).toContain(two)
    expect(findVersions('abc', [one, two])).toEqual([one, two])
    expect(findVersions('abcdef2345', [one, two])).toEqual([one])
  })

  it.each([
    [
      'abc',
      '2 sessions match "abc": abcdef2345 (2026-11-26), abc4567890 (2026-11-26). Write more of the id.',
    ],
    [
      '2026-11-26',
      '2 sessions match "2026-11-26": abcdef2345 (2026-11-26), abc4567890 (2026-11-26). Write the id of one: "pausebook history" has their titles.',
    ],
    ['zzz', 'There is no session whose id begins with "zzz". "pausebook history" lists them.'],
    ['2020-01-01', 'There is no session of "2020-01-01". "pausebook history" lists them.'],
    ['', 'There is no session whose id begins with "". "pausebook history" lists them.'],
  ])('%j is refused with a reason', (which, message) => {
    expect(() => findVersions(which, entries)).toThrow(message)
  })

  it('names at most five of many, and says that one of two equal ids is a copy', () => {
    const days = [1, 2, 3, 4, 5].map((day) => entry(`2026-11-0${day}`, `day${day}234567`))
    expect(() => findVersions('day', days)).toThrow(/^5 sessions .* day5234567 \(2026-11-05\)\. Write more/)
    expect(() => findVersions('day', [...days, entry('2026-11-06', 'day6234567')])).toThrow(
      /^6 sessions .* day5234567 \(2026-11-05\) and more\. Write more/,
    )
    expect(() => findVersions('day1234567', [entry('2026-11-02', 'day1234567'), ...days])).toThrow(
      /^2 sessions .*\. Remove the one that is a copy\.$/,
    )
  })
})

describe('the name of a session file', () => {
  it.each([
    ['2026-11-26-abcdef.json', true],
    ['2026-12-31-abcdef2345-0a1b2c.json', true],
    ['2026-11-26-abcde.json', false],
    [`2026-11-26-${'a'.repeat(40)}.json`, true],
    [`2026-11-26-${'a'.repeat(41)}.json`, false],
    ['2026-13-26-abcdef.json', false],
    ['2026-00-26-abcdef.json', false],
    ['2026-10-00-abcdef.json', false],
    ['2026-10-09-abcdef.json', true],
    ['2026-10-32-abcdef.json', false],
    ['2026-02-29-abcdef.json', false],
    ['2024-02-29-abcdef.json', true],
    ['x2026-10-09-abcdef.json', false],
    ['2026-10-09-abcdef.json.bak', false],
    ['2026-10-09-abc.ef.json', false],
  ])('%s: %s', (name, is) => expect(isSessionName(name)).toBe(is))

  it('holds, for a version, the id of its session, at most 33 letters of it, and the same digits for the same text', () => {
    expect(versionId('abcdef2345', 'one')).toMatch(/^abcdef2345-[0-9a-f]{6}$/)
    expect(versionId('abcdef2345', 'one')).toBe(versionId('abcdef2345', 'one'))
    expect(versionId('abcdef2345', 'one')).not.toBe(versionId('abcdef2345', 'two'))
    expect(versionId('a'.repeat(40), 'one')).toHaveLength(40)
    const pathOf = (id: string) => `2026-11-26-${id}.json`
    const version = versionId('abcdef2345', 'one')
    expect(originalOf(pathOf(version))).toBe(pathOf('abcdef2345'))
    expect(originalOf(pathOf(versionId(version, 'two')))).toBe(pathOf('abcdef2345'))
    for (const id of ['abcdef2345', '-0a1b2c', 'abcdef2345-0a1b2', 'abcdef2345-0a1b2cx'])
      expect(originalOf(pathOf(id)), id).toBe(pathOf(id))
  })
})

describe('the sessions of a folder', () => {
  const folder = (...names: string[]) => {
    const home = temporaryFolder()
    for (const name of names) {
      mkdirSync(join(home, name, '..'), { recursive: true })
      writeFileSync(join(home, name), '{}')
    }
    return home
  }
  const named = (...names: string[]) => sessionEntriesOf(folder(...names.map((name) => `sessions/${name}`)))

  it('are listed newest first, by id within a day, also a copy whose session is gone', () => {
    const ids = named(
      '2026/2026-11-20-aaaaaa.json',
      '2026/2026-11-26-bbbbbb.json',
      '2026/2026-11-26-bbbbbb.json.bak',
      '2026/2026-11-26-cccccc.json.bak',
      '2025/2025-12-31-dddddd.json',
    ).map(({ id }) => id)
    expect(ids).toEqual(['cccccc', 'bbbbbb', 'aaaaaa', 'dddddd'])
  })

  it('leave out days that no month has, folders that are no year and other files', () => {
    expect(
      named('2026/2026-02-29-aaaaaa.json', '2024/2024-02-29-bbbbbb.json', 'x2026/2026-11-26-cccccc.json').map(
        ({ id }) => id,
      ),
    ).toEqual(['bbbbbb'])
    expect(named('20261/2026-11-26-aaaaaa.json', '2026/notes.txt')).toEqual([])
  })

  it('share one lock among the versions of a session', () => {
    const path = '/book/sessions/2026/2026-11-26-abcdef2345'
    const lock = `${path}.json.lock`
    for (const version of ['', '-0a1b2c', '-0a1b2c-d3e4f5'])
      expect(lockPathOf(`${path}${version}.json`)).toBe(lock)
    expect(lockPathOf('/book/mornings/2026.json')).toBe('/book/mornings/2026.json.lock')
  })
})

describe('the selection of synchronised files', () => {
  it.each([
    ['sessions/2026/2026-11-26-abcdef2345.json', true],
    ['sessions/2026/2026-02-29-abcdef2345.json', false],
    ['sessions/202/2026-11-26-abcdef2345.json', false],
    ['sessions/2026-11-26-abcdef2345.json', false],
    ['prescriptions/push day.txt', true],
    ['prescriptions/day.json', true],
    ['settings.json', false],
    ['index.ndjson', false],
    ['sessions/2026/2026-11-26-abcdef2345.json.lock', false],
    ['sessions/2026/2026-11-26-abcdef2345.json.bak', false],
    ['sessions/2026/2026-11-26-abcdef2345.json.damaged-1', false],
    ['sessions/2026/2026-11-26-abcdef2345.json.123.abcdefgh.tmp', false],
    ['sessions/../../2026-11-26-abcdef2345.json', false],
    ['prescriptions/../settings.txt', false],
    ['prescriptions/.hidden.txt', false],
    ['prescriptions/a\n.txt', false],
    ['README.md', false],
    ['mornings/2026.json', true],
    ['mornings/20261.json', false],
    ['plan.txt', true],
    ['foods-2.txt', true],
    ['plan-x.txt', false],
    ['plan-2-2.txt', true],
    ['plan-.txt', false],
    ['xplan.txt', false],
    ['prescriptions/a.json.txt', true],
    ['prescriptions/a.md', false],
    ['prescriptions/spring/legs/b.txt', true],
    ['prescriptions/spring/../b.txt', false],
    ['prescriptions/spring/.b.txt', false],
    ['prescriptions/.git/b.txt', false],
    ['prescriptions/con/b.txt', false],
    ['prescriptions/spring./b.txt', false],
    ['sessions/2026/spring/2026-11-26-abcdef2345.json', false],
    ['prescriptions/a:b.txt', false],
    ['prescriptions/a\\b.txt', false],
    ['prescriptions/what?.txt', false],
    ['prescriptions/NUL.txt', false],
    ['prescriptions/com1.txt', false],
    ['prescriptions/comb.txt', true],
    ['prescriptions/a .txt', false],
    ['prescriptions/a..json', false],
    ['prescriptions/nul day.txt', true],
  ])('%s: %s', (name, isKept) => {
    expect(isSynced(name)).toBe(isKept)
    if (isKept) expect(isBackedUp(name)).toBe(true)
  })
})

describe('an error of the logbook', () => {
  it('ends a command with 3 if the logbook is locked, damaged or out of reach, else with 1', () => {
    const exit = (code: ConstructorParameters<typeof LogbookError>[0]) =>
      new LogbookError(code, 'What. How.').exit
    expect(
      ['locked', 'damaged', 'cannot_write', 'cannot_sync', 'cannot_read'].map((code) =>
        exit(code as 'locked'),
      ),
    ).toEqual([3, 3, 3, 3, 3])
    expect(
      ['no_such_session', 'bad_setting', 'not_empty', 'no_git'].map((code) => exit(code as 'no_git')),
    ).toEqual([1, 1, 1, 1])
  })

  it('says why a file could not be written', () => {
    const failed = (code: string) => reasonOf(Object.assign(new Error('x'), { code }))
    expect(failed('ENOSPC')).toBe('the disk is full')
    expect(failed('EROFS')).toBe('the disk is read-only')
    expect(failed('EXYZ')).toBe('the system says EXYZ')
    expect(reasonOf(new Error('no room'))).toBe('no room')
    expect(reasonOf('no room')).toBe('no room')
    expect(reasonOf(null)).toBe('null')
    const failing = () => {
      throw 'no room'
    }
    expect(attempt(failing)).toBe('no room')
  })
})
