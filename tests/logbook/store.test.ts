import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import { dirname, join } from 'node:path'
import { describe, expect, it, vi } from 'vitest'
import { LogbookError } from '../../src/logbook/errors.ts'
import { lockPathOf } from '../../src/logbook/logbookFiles.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { expectPrivate } from '../expectPrivate.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { failing, insteadOf } from './otherCalls.ts'
import { legs, setRecorded, started } from './sampleSession.ts'
import { deadPid, machineWith, muchLater } from './testMachine.ts'

function logbookIn(folder = join(temporaryFolder(), 'logbook')) {
  return openLogbook(folder)
}

describe('a logbook', () => {
  it('creates nothing before something is stored', () => {
    const logbook = logbookIn()
    expect(logbook.list()).toEqual([])
    expect(logbook.prescriptions()).toEqual([])
    expect(existsSync(logbook.directory)).toBe(false)
  })

  it('stores a session in a file of its own, named by the local date of its start, private to the user', () => {
    const logbook = logbookIn()
    const file = logbook.create(legs, started)
    expect(file.state).toEqual({ ok: true })
    expect(file.path).toBe(join(logbook.directory, 'sessions', '2026', `2026-11-26-${file.id}.json`))
    expect(file.id).toMatch(/^[2-9a-hjkmnp-z]{10}$/)
    expectPrivate(file.path)
    for (const folder of [logbook.directory, dirname(file.path)]) expectPrivate(folder)
    expect(logbook.read(file.id).session).toEqual({
      format: 1,
      id: file.id,
      prescription: legs,
      events: [started],
    })
  })

  it('has every event on the disk when append returns, one a line', () => {
    const logbook = logbookIn()
    const file = logbook.create(legs, started)
    for (let number = 1; number <= 3; number += 1) {
      expect(file.append([setRecorded(number)])).toEqual({ ok: true })
      expect(openLogbook(logbook.directory).read(file.id).session.events).toHaveLength(number + 1)
    }
    expect(
      readFileSync(file.path, 'utf8')
        .split('\n')
        .filter((line) => line.includes('"setRecorded"')),
    ).toHaveLength(3)
  })

  it('refuses an invalid event and stays as it was', () => {
    const file = logbookIn().create(legs, started)
    const bad = { ...setRecorded(1), step: 7 } as unknown as SessionEvent
    expect(() => file.append([setRecorded(1), bad])).toThrow(/^setRecorded cannot be recorded as it is/)
    expect(file.session.events).toHaveLength(1)
  })

  it('lets no control character of a note reach a file', () => {
    const file = logbookIn().create(legs, started)
    file.append([
      { type: 'noteAdded', at: null, up: null, about: null, text: 'wind\u001b[2J\u202e', pain: false },
    ])
    expect(file.session.events[1]).toMatchObject({ text: 'wind\ufffd[2J\ufffd' })
    expect(readFileSync(file.path, 'utf8')).not.toMatch(/u001b|[\u001b\u202e]/)
  })

  it('keeps in memory what cannot be written, gives the reason, and saves it when it can', () => {
    const file = logbookIn().create(legs, started)
    file.append([setRecorded(1)])
    const text = readFileSync(file.path, 'utf8')
    const folder = dirname(file.path)
    renameSync(folder, `${folder}-away`)
    expect(file.append([setRecorded(2)])).toEqual({ ok: false, reason: 'the folder is gone' })
    expect(file.retry()).toEqual({ ok: false, reason: 'the folder is gone' })
    expect(file.session.events).toHaveLength(3)
    renameSync(`${folder}-away`, folder)
    expect(readFileSync(file.path, 'utf8')).toBe(text)
    expect(file.append([setRecorded(3)])).toEqual({ ok: true })
    expect(openLogbook(join(folder, '../..')).read('newest').session.events).toHaveLength(4)
  })

  it('tells a second program which process records a session, and still lets it read', () => {
    const logbook = logbookIn()
    const file = logbook.create(legs, started)
    const second = openLogbook(logbook.directory)
    expect(() => second.open(file.id)).toThrow(
      new RegExp(
        `^The session ${file.id} is in use by process ${process.pid} on .+ since .{16}\\. Close it there; `,
      ),
    )
    expect(second.read(file.id).recordedBy?.pid).toBe(process.pid)
    file.append([setRecorded(1)])
    expect(second.read(file.id).session.events).toHaveLength(2)
    file.close()
    expect(second.read(file.id).recordedBy).toBeNull()
    second.open(file.id).close()
  })

  it('lets a session be resumed at once when the program that recorded it is gone', () => {
    const logbook = logbookIn()
    const gone = openLogbook(logbook.directory, machineWith({ pid: deadPid, began: () => '1' }))
    const file = gone.create(legs, started)
    file.append([setRecorded(1)])
    const again = logbook.open(file.id)
    again.append([setRecorded(2)])
    expect(again.session.events).toHaveLength(3)
    again.close()
  })

  it('refuses events for a closed session', () => {
    const file = logbookIn().create(legs, started)
    file.close()
    expect(() => file.append([setRecorded(1)])).toThrow(
      `the session ${file.id} is closed and takes no more events`,
    )
  })

  it('forgets a discarded session, and its lock and copy', () => {
    const logbook = logbookIn()
    const file = logbook.create(legs, started)
    file.append([setRecorded(1)])
    file.discard()
    expect(logbook.list()).toEqual([])
    expect(readdirSync(dirname(file.path))).toEqual([])
  })

  it('finds the newest session, an id, the beginning of one, and a date', () => {
    const logbook = logbookIn()
    const old = logbook.create(legs, { ...started, date: '2026-11-20' })
    const late = logbook.create(legs, { ...started, at: '2026-11-26T19:00:00.000+01:00' })
    logbook.create(legs, { ...started, at: '2026-11-26T06:00:00.000+01:00' })
    expect(logbook.read('newest').entry.id).toBe(late.id)
    for (const which of [old.id, old.id.slice(0, 9), '2026-11-20'])
      expect(logbook.read(which).entry.id, which).toBe(old.id)
    expect(() => logbook.read('../../etc/passwd')).toThrow(
      'There is no session whose id begins with "../../etc/passwd".',
    )
  })

  it('says that it is empty, and where it is, because another one may have been meant', () => {
    const logbook = logbookIn()
    expect(() => logbook.read('newest')).toThrow(
      `There is no session in the logbook ${logbook.directory} yet. Record one with "pausebook".`,
    )
  })

  it('removes what a killed program has left long ago, and no lock', () => {
    const logbook = logbookIn()
    const file = logbook.create(legs, started)
    const left = join(dirname(file.path), `.pausebook.${deadPid}.abcdefgh.tmp`)
    writeFileSync(left, 'half')
    openLogbook(logbook.directory)
    expect(existsSync(left)).toBe(true)
    openLogbook(logbook.directory, muchLater)
    expect(existsSync(left)).toBe(false)
    expect(existsSync(lockPathOf(file.path))).toBe(true)
  })
})

describe('a logbook that cannot be written', () => {
  it('refuses a session that could not be read again, and makes no file', () => {
    const logbook = logbookIn()
    const bad = { ...legs, title: 7 } as never
    expect(() => logbook.create(bad, started)).toThrow(
      /^The session cannot be stored: it is wrong: prescription.title .*\. Correct the prescription\.$/,
    )
    expect(() => logbook.createAll([{ prescription: bad, start: started, events: [] }])).toThrow(LogbookError)
    expect(existsSync(logbook.directory)).toBe(false)
  })

  it('says so if its folder cannot be created or a session cannot be locked, and saves what was recorded once it can', () => {
    const file = join(temporaryFolder(), 'file')
    writeFileSync(file, '')
    const refused = (code: 'cannot_write', message: string) => new LogbookError(code, message)
    const unplaced = logbookIn(file).create(legs, started)
    // The head line of the recorder has room for little more.
    expect(unplaced.state).toEqual({ ok: false, reason: 'a file has the name of the folder' })
    unplaced.append([setRecorded(1)])
    expect(unplaced.unsaved).toEqual([started, setRecorded(1)])
    rmSync(file)
    expect(unplaced.retry()).toEqual({ ok: true })
    expect(existsSync(lockPathOf(unplaced.path))).toBe(true)
    expect(unplaced.close()).toEqual({ ok: true })
    expect(openLogbook(file).read('newest').session.events).toEqual([started, setRecorded(1)])
    const logbook = logbookIn()
    const { id, path, close } = logbook.create(legs, started)
    close()
    failing('linkSync', 'EROFS')
    expect(() => logbook.open(id)).toThrow(
      refused(
        'cannot_write',
        `The session cannot be locked: the disk is read-only. Make room or change the permissions of ${dirname(path)}.`,
      ),
    )
  })

  it('stores none of several sessions, and says so', () => {
    const logbook = logbookIn()
    const day = { prescription: legs, start: started, events: [] }
    failing('renameSync', 'ENOSPC')
    expect(() => logbook.createAll([day, day])).toThrow(
      new LogbookError(
        'cannot_write',
        `The sessions cannot be saved in ${logbook.directory}: the disk is full. Nothing was stored. Make room or change the permissions there, and try again.`,
      ),
    )
    expect(readdirSync(logbook.directory)).toEqual(['sessions'])
    expect(logbook.list()).toEqual([])
  })

  it('says why several sessions cannot be saved, even if what was written of them cannot be removed', () => {
    const logbook = logbookIn()
    failing('mkdirSync', 'EACCES')
    failing('rmSync', 'EIO')
    expect(() => logbook.createAll([{ prescription: legs, start: started, events: [] }])).toThrow(
      'The sessions cannot be saved in',
    )
  })

  it('says that sessions which cannot be put in their places are not to be imported again', () => {
    const logbook = logbookIn()
    const day = { prescription: legs, start: started, events: [] }
    insteadOf('renameSync', (renameSync) => (from: string, to: string) => {
      if (to.endsWith('.json') && !from.endsWith('.tmp'))
        throw Object.assign(new Error('full'), { code: 'EIO' })
      renameSync(from, to)
    })
    expect(() => logbook.createAll([day])).toThrow(
      'The sessions are written, but not all are in their places yet: the disk reports an error. Do not import them again: the next command puts them there.',
    )
    expect(logbook.list()).toEqual([])
    vi.restoreAllMocks()
    syncBuiltinESMExports()
    expect(openLogbook(logbook.directory).list()).toHaveLength(1)
  })

  it('reports each damage once', () => {
    const logbook = logbookIn()
    const { id, path, close } = logbook.create(legs, started)
    close()
    writeFileSync(path, '')
    rmSync(`${path}.bak`, { force: true })
    for (let time = 0; time < 2; time += 1) {
      expect(() => logbook.read(id)).toThrow(LogbookError)
      expect(logbook.unfinished()).toEqual([])
    }
    expect(logbook.damages).toHaveLength(1)
    writeFileSync(path, '{"format": 2}')
    expect(() => logbook.read(id)).toThrow(LogbookError)
    expect(logbook.damages.map(({ wrong }) => wrong)).toEqual([
      'The file is empty.',
      expect.stringContaining('newer program'),
    ])
    const other = logbook.create(legs, started)
    other.close()
    writeFileSync(other.path, '{"format": 2}')
    expect(() => logbook.read(other.id)).toThrow(LogbookError)
    expect(logbook.damages).toHaveLength(3)
  })
})
