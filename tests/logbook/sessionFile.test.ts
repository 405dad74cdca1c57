import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { isLock, takeLock } from '../../src/logbook/lock.ts'
import { lockPathOf } from '../../src/logbook/logbookFiles.ts'
import { thisMachine } from '../../src/logbook/machine.ts'
import type { SessionEntry } from '../../src/logbook/model.ts'
import {
  asVersion,
  loadSession,
  newestFirst,
  printSession,
  readSession,
  repairSession,
  sessionFileOf,
  sessionKind,
  spillSession,
} from '../../src/logbook/sessionFile.ts'
import type { Session, SessionEvent } from '../../src/session/model.ts'
import { expectPrivate } from '../expectPrivate.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { insteadOf } from './otherCalls.ts'
import { finished, legs, sampleSession, setRecorded, started } from './sampleSession.ts'

/* One session's file, without the logbook around it. */

function entryIn(home: string, date = '2026-11-26', id = 'abcdef2345'): SessionEntry {
  const folder = join(home, 'sessions', date.slice(0, 4))
  mkdirSync(folder, { recursive: true })
  return { id, date, path: join(folder, `${date}-${id}.json`) }
}

/** A session that is being recorded. */
function recordingIn(home: string, known?: Session) {
  const entry = entryIn(home)
  const lock = takeLock(lockPathOf(entry.path), thisMachine())
  if (!isLock(lock)) throw new Error('it is locked')
  const file = sessionFileOf(entry, known ? { known, lock } : { fresh: sampleSession(), place: () => lock })
  return { file, entry, isLocked: () => existsSync(lockPathOf(entry.path)) }
}

const eventsIn = (path: string) => {
  const reading = readSession(readFileSync(path, 'utf8'), null)
  return 'value' in reading ? reading.value.events : []
}

describe('a session that is recorded', () => {
  it('keeps its results as one other version of the session, once another program has changed its file', () => {
    const { file, entry, isLocked } = recordingIn(temporaryFolder())
    file.append([setRecorded(1)])
    writeFileSync(entry.path, printSession(sampleSession()))
    const { id } = asVersion(sampleSession(setRecorded(1), setRecorded(2)))
    const reason = `another program changed its file. Your results are kept as the session ${id}; "pausebook sync --keep ID" keeps one of the two`
    expect(file.append([setRecorded(2)])).toEqual({ ok: false, reason, isKept: true })
    expect(file.append([setRecorded(3)])).toEqual({ ok: false, reason, isKept: true })
    expect(file.unsaved).toEqual([setRecorded(2), setRecorded(3)])
    const version = entry.path.replace(entry.id, id)
    expect(readSession(readFileSync(version, 'utf8'), id)).toMatchObject({
      value: { events: [started, setRecorded(1), setRecorded(2), setRecorded(3)] },
    })
    expect(readdirSync(dirname(entry.path)).filter((name) => /\.json$/.test(name))).toHaveLength(2)
    expect(readFileSync(entry.path, 'utf8')).toBe(printSession(sampleSession()))
    expect(isLocked()).toBe(true)
    expect(file.close()).toEqual({ ok: false, reason, isKept: true })
    expect(isLocked()).toBe(false)
  })

  it('says why its results cannot even be kept as another version', () => {
    const { file, entry } = recordingIn(temporaryFolder())
    writeFileSync(entry.path, printSession(sampleSession(setRecorded(7))))
    insteadOf('renameSync', (renameSync) => (from: string, to: string) => {
      if (/-[0-9a-f]{6}\.json/.test(to)) throw Object.assign(new Error('full'), { code: 'ENOSPC' })
      renameSync(from, to)
    })
    expect(file.append([setRecorded(1)])).toEqual({
      ok: false,
      reason: 'another program changed its file, and your results cannot be kept: the disk is full',
    })
    expect(eventsIn(entry.path)).toEqual([started, setRecorded(7)])
    file.close()
  })

  it('takes nothing more and changes nothing once it is closed, and is closed once', () => {
    const { file, entry, isLocked } = recordingIn(temporaryFolder())
    expect(file.retry()).toEqual({ ok: true })
    expect(file.close()).toEqual({ ok: true })
    const text = readFileSync(entry.path, 'utf8')
    expect(file.close()).toEqual({ ok: true })
    file.discard()
    expect(isLocked()).toBe(false)
    expect(readFileSync(entry.path, 'utf8')).toBe(text)
  })

  it('is not written again by a retry or by closing while everything is saved, and is by both while it is not', () => {
    const { file, entry, isLocked } = recordingIn(temporaryFolder())
    file.append([setRecorded(1)])
    const state = () => statSync(entry.path).ino
    const before = state()
    file.retry()
    expect(state()).toBe(before)
    const folder = dirname(entry.path)
    renameSync(folder, `${folder}-away`)
    expect(file.append([setRecorded(2)]).ok).toBe(false)
    expect(file.unsaved).toEqual([setRecorded(2)])
    renameSync(`${folder}-away`, folder)
    expect(file.retry()).toEqual({ ok: true })
    expect(file.unsaved).toEqual([])
    expect(eventsIn(entry.path)).toHaveLength(3)
    renameSync(folder, `${folder}-away`)
    file.append([finished])
    renameSync(`${folder}-away`, folder)
    expect(file.close()).toEqual({ ok: true })
    expect(isLocked()).toBe(false)
    expect(eventsIn(entry.path).at(-1)).toEqual(finished)
  })

  it('is discarded even if its file is gone already', () => {
    const { file, entry } = recordingIn(temporaryFolder())
    rmSync(entry.path)
    file.discard()
    expect(existsSync(lockPathOf(entry.path))).toBe(false)
  })

  it('goes on from the events it already has, and is not written before it has another', () => {
    const home = temporaryFolder()
    const known = sampleSession(setRecorded(1))
    const { path } = entryIn(home)
    writeFileSync(path, printSession(known))
    const before = statSync(path).ino
    const { file, entry } = recordingIn(home, known)
    expect(statSync(path).ino).toBe(before)
    expect(file.unsaved).toEqual([])
    const folder = dirname(entry.path)
    renameSync(folder, `${folder}-away`)
    file.append([setRecorded(2)])
    expect(file.unsaved).toEqual([setRecorded(2)])
    renameSync(`${folder}-away`, folder)
    file.close()
  })

  it('refuses an event with a number that no day has', () => {
    const { file } = recordingIn(temporaryFolder())
    const heavy = setRecorded(1, 2e9)
    expect(() => file.append([heavy])).toThrow(
      'setRecorded cannot be recorded as it is: it has the number 2000000000',
    )
    file.close()
  })
})

describe('a session that cannot be saved in the logbook', () => {
  it('is written to the next free file of a folder, private to the user', () => {
    const folder = temporaryFolder()
    const place = '/book/day.json'
    const path = (number: number) => join(folder, `pausebook-day-${number}.json`)
    expect(spillSession(sampleSession(), place, folder)).toBe(path(1))
    expect(spillSession(sampleSession(setRecorded(1)), place, folder)).toBe(path(2))
    expect(eventsIn(path(2))).toHaveLength(2)
    expectPrivate(path(1))
    expect(spillSession(sampleSession(), place, join(folder, 'gone'))).toBeNull()
  })
})

describe('the text of a session', () => {
  const wrong = (change: (session: Record<string, unknown>) => unknown) => {
    const reading = readSession(JSON.stringify(change({ ...sampleSession(setRecorded(1)) })), null)
    return 'wrong' in reading ? reading.wrong : 'nothing'
  }
  /** What is wrong if something else is at a place: names of fields, and numbers from 0, with dots between. */
  const wrongAt = (place: string, value: unknown) =>
    wrong((session) => {
      const copy = structuredClone(session)
      const keys = place.split('.')
      const holder = keys.slice(0, -1).reduce((each, key) => each[key] as typeof copy, copy)
      holder[keys.at(-1) as string] = value
      return copy
    })
  const load = 'prescription.parts.0.items.0.exercises.0.sets.0.load.from'

  it.each([
    ['format', null, 'is wrong: format is not 1'],
    ['format', 0, 'is wrong: format is not 1'],
    ['format', [1], 'is wrong: format is not 1'],
    ['format', 'one', 'is wrong: format is not 1'],
    ['format', undefined, 'is wrong: format is missing'],
    ['wish', true, 'is wrong: it has a field that does not belong there, "wish"'],
    ['id', '../../../x', 'is wrong: id is not in the expected form'],
    ['prescription.parts', [], 'is wrong: prescription.parts is too short'],
    ['prescription.units.mass', 'stone', 'is wrong: prescription.units.mass is not one of kg, lb'],
    [load, '90', 'is wrong: prescription.parts.1.items.1.exercises.1.sets.1.load.from is not a number'],
    ['events', {}, 'is wrong: events is not a list'],
    ['events', [], 'has no events'],
    ['events.0.fromPaper', 1, 'is wrong: events.1.fromPaper is not true or false'],
    ['events.0.bodyMassKg', 0, 'is wrong: events.1.bodyMassKg is not more than 0'],
    ['events.0.date', '0000-00-00', 'is wrong: events.1.date is not a date'],
    ['events.0.date', '+275760-09-13', 'is wrong: events.1.date is not a date'],
    ['events.1', null, 'is wrong: events.2 is not an object'],
    ['events.1', 'lifted', 'is wrong: events.2 is not an object'],
    ['events.1.type', undefined, 'is wrong: events.2.type has an unknown kind'],
    ['events.1.type', 7, 'is wrong: events.2.type has an unknown kind'],
    ['events.1.type', 'applauded', 'is wrong: events.2.type has an unknown kind'],
    ['events.1.at', 'noon', 'is wrong: events.2.at is not a date and time'],
    ['events.1.step', 7, 'is wrong: events.2.step is not a text'],
    ['events.1.result.reps', 'five', 'is wrong: events.2.result.reps is not a number'],
    ['events.1.result.reps', undefined, 'is wrong: events.2.result.reps is missing'],
    ['events.1.result.reps', -1, 'is wrong: events.2.result.reps is less than 0'],
    ['events.1.result.reps', 1.5, 'is wrong: events.2.result.reps is not a whole number'],
    ['events.1.result.rpe', 11, 'is wrong: events.2.result.rpe is more than 10'],
    ['events.1.result.load', { kind: 'heavy' }, 'is wrong: events.2.result.load.kind has an unknown kind'],
  ])('is refused in words with %s: %j', (place, value, message) => {
    expect(wrongAt(place, value)).toBe(message)
  })

  it('may take back an event after its start and before itself', () => {
    const undone = (from: number) => ({ type: 'undone' as const, at: null, up: null, from })
    const taken = (from: number) =>
      wrong((session) => ({ ...session, events: [started, setRecorded(1), undone(from)] }))
    expect(taken(1)).toBe('nothing')
    for (const from of [0, 2, 3]) expect(taken(from)).toBe('undoes what cannot be undone: event number 3')
    const second = (events: SessionEvent[]) => wrong((session) => ({ ...session, events }))
    expect(second([started, started])).toBe('starts twice: event number 2')
    expect(second([setRecorded(1)])).toBe('does not begin with its start')
    expect(second([started, undone(0)])).toBe('undoes what cannot be undone: event number 2')
  })

  it('may prescribe up to 200000 steps', () => {
    const none = { recovery: null, split: null, negative: false, lane: null, grade: null, heartRate: null }
    const minute = { kind: 'piece', amounts: [{ kind: 'time', seconds: 60 }], target: null }
    const work = (times: number, body: object) => ({ kind: 'work', times, body, ...none, notes: [] })
    const withItems = (...steps: object[]) => {
      const items = steps.map((step) => ({ line: 1, text: 'x', step }))
      const prescription = { ...legs, parts: [{ kind: 'run', name: null, items }] }
      return wrong((session) => ({ ...session, prescription }))
    }
    const most = work(400, { kind: 'group', steps: [work(500, minute)] })
    expect(withItems(most)).toBe('nothing')
    expect(withItems(most, work(1, minute))).toBe(
      'prescribes 200001 steps, more than the 200000 that a day can have',
    )
  })
})

describe('all that two versions of a session hold', () => {
  const { union } = sessionKind(null)

  it('is the longer one, if both have the same prescription and the same events first', () => {
    const [short, long] = [sampleSession(setRecorded(1)), sampleSession(setRecorded(1), setRecorded(2))]
    expect(union(long, short)).toBe(long)
    expect(union(short, long)).toBe(long)
    expect(union(short, short)).toBe(short)
    expect(union(sampleSession(setRecorded(2), setRecorded(1)), short)).toBeNull()
    expect(union({ ...long, prescription: { ...legs, title: 'Arms' } }, short)).toBeNull()
  })
})

describe('a session that is loaded', () => {
  /** A session whose file is ruined, with a sound copy of these events beside it. */
  const ruinedIn = (home: string, ...events: SessionEvent[]) => {
    const entry = entryIn(home)
    writeFileSync(entry.path, '{')
    writeFileSync(`${entry.path}.bak`, printSession(sampleSession(...events)))
    return entry
  }

  it('is the copy before a ruined file, of which the number of events is named', () => {
    const home = temporaryFolder()
    const done = (...events: SessionEvent[]) => loadSession(home, ruinedIn(home, ...events)).damage?.done
    expect(done()).toContain('(2026-11-26-abcdef2345.json.bak, 1 event) is used instead')
    expect(done(setRecorded(1))).toContain('.json.bak, 2 events) is used instead')
    const entry = entryIn(home)
    writeFileSync(entry.path, '')
    writeFileSync(`${entry.path}.bak`, 'also ruined')
    expect(loadSession(home, entry)).toEqual({
      value: null,
      damage: {
        file: 'sessions/2026/2026-11-26-abcdef2345.json',
        wrong: 'The file is empty.',
        done: 'Nothing was changed; the previous copy (2026-11-26-abcdef2345.json.bak) is damaged too: it is not JSON.',
      },
      isSealed: true,
      repair: null,
    })
  })

  it('is not the copy before a file that a person or a newer program wrote', () => {
    const home = temporaryFolder()
    const entry = ruinedIn(home)
    writeFileSync(entry.path, '{"format": 2}')
    expect(loadSession(home, entry)).toMatchObject({
      value: null,
      damage: { done: 'Nothing was changed.' },
    })
  })

  it('is repaired by the copy before it, also if its file is gone, and left alone if that fails', () => {
    const home = temporaryFolder()
    const entry = ruinedIn(home, setRecorded(1))
    expect(repairSession(home, entry).damage?.done).toBe(
      'Moved to 2026-11-26-abcdef2345.json.damaged-1; restored the previous copy (2026-11-26-abcdef2345.json.bak, 2 events).',
    )
    expect(loadSession(home, entry)).toMatchObject({ damage: null, isSealed: true })
    rmSync(entry.path)
    expect(repairSession(home, entry).damage?.done).toMatch(/^Restored the previous copy \(.*\)\.$/)
    // NAME.damaged-1 would be longer than the 255 bytes that Linux and macOS allow, NAME.bak is not.
    const long = { ...entry, path: join(dirname(entry.path), `${'x'.repeat(246)}.json`) }
    copyFileSync(entry.path, `${long.path}.bak`)
    writeFileSync(long.path, '')
    expect(repairSession(home, long).damage?.done).toBe(
      'It could not be repaired: a name is too long. Nothing was changed.',
    )
    expect(readdirSync(dirname(entry.path)).filter((name) => name.endsWith('.tmp'))).toEqual([])
  })
})

describe('the sessions of the newest date', () => {
  it('are sorted by their starts, else by when their files changed, and the others are left as they are', () => {
    const home = temporaryFolder()
    const made = (id: string, at: string | null, date = '2026-11-26') => {
      const entry = entryIn(home, date, id)
      writeFileSync(entry.path, printSession({ ...sampleSession(), id, events: [{ ...started, at }] }))
      return entry
    }
    const early = made('aaaaaa', '2026-11-26T06:00:00.000+01:00')
    const late = made('bbbbbb', '2026-11-26T18:00:00.000+01:00')
    const unknown = made('cccccc', null)
    const noon = Date.parse('2026-11-26T12:00:00+01:00') / 1000
    utimesSync(unknown.path, noon, noon)
    const gone = { id: 'dddddd', date: '2026-11-26', path: join(home, 'gone.json') }
    const before = [
      made('eeeeee', '2026-11-25T06:00:00.000+01:00', '2026-11-25'),
      made('ffffff', '2026-11-25T18:00:00.000+01:00', '2026-11-25'),
    ]
    const ids = (...entries: SessionEntry[]) => newestFirst(home, entries).map(({ id }) => id)
    expect(ids(gone, early, unknown, late, ...before)).toEqual([
      'bbbbbb',
      'cccccc',
      'aaaaaa',
      'dddddd',
      'eeeeee',
      'ffffff',
    ])
    expect(ids(late, ...before)).toEqual(['bbbbbb', 'eeeeee', 'ffffff'])
    expect(ids(early)).toEqual(['aaaaaa'])
    expect(ids()).toEqual([])
  })
})
