import { mkdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { basisOf, contextOn, indexedOf } from '../../src/logbook/index.ts'
import { printSession } from '../../src/logbook/sessionFile.ts'
import { changeSettings, defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { dayOf } from '../day.ts'
import fc, { times } from '../fastCheck.ts'
import { bareContext } from '../summary/bareContext.ts'
import { Kept } from '../summary/kept.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { finished, legs, sampleSession, setRecorded, started, unsealed } from './sampleSession.ts'

function threeSessions() {
  const directory = join(temporaryFolder(), 'logbook')
  const logbook = openLogbook(directory)
  const ids = ['2026-11-20', '2026-11-24', '2026-11-26'].map((date, index) => {
    const at = `${date}T17:40:00.000+01:00`
    const file = logbook.create(legs, { ...started, date, at })
    file.append([setRecorded(1), setRecorded(2, 2 + index)])
    if (index < 2) file.append([finished])
    file.close()
    return file.id
  })
  logbook.index()
  const path = join(directory, 'index.ndjson')
  const lines = () =>
    readFileSync(path, 'utf8')
      .split('\n')
      .filter((line) => line !== '')
  return { logbook, directory, ids, path, lines }
}

const repetitions = (directory: string) =>
  openLogbook(directory)
    .index()
    .map(({ lifts }) => lifts[0]?.figures.reps)

describe('the index', () => {
  it('has a row for each session, and lists the sessions newest first with their figures', () => {
    const { logbook, ids, lines } = threeSessions()
    expect(lines()).toHaveLength(3)
    const entries = logbook.index()
    expect(entries.map(({ id }) => id)).toEqual(ids.toReversed())
    expect(entries.map(({ finished }) => finished)).toEqual([false, true, true])
    const [newest] = entries
    expect(newest?.summary()?.lifting).toMatchObject({ sets: 2, reps: 7, tonnageKg: 7 * 92.5 })
    expect(newest?.lifts[0]).toMatchObject({
      figures: { name: 'front squat' },
      sets: [
        { reps: 3, rpe: 8 },
        { reps: 4, rpe: 8 },
      ],
    })
    expect(newest?.started).toBe(Date.parse('2026-11-26T17:40:00.000+01:00'))
    expect(lines()).toHaveLength(3)
  })

  it('knows which sessions are unfinished', () => {
    const { logbook, ids } = threeSessions()
    expect(logbook.unfinished().map(({ session }) => session.id)).toEqual([ids[2]])
  })

  it('orders the sessions of a day without known starts like the logbook: the one stored last comes first', () => {
    const logbook = openLogbook(temporaryFolder())
    const ids = [1, 2, 3, 4].map((day) => {
      const file = logbook.create(legs, { ...started, at: null, up: null })
      file.close()
      utimesSync(file.path, 1_700_000_000 + day, 1_700_000_000 + day)
      return file.id
    })
    expect(logbook.list().map(({ id }) => id)).toEqual(ids.toReversed())
    expect(logbook.index().map(({ id }) => id)).toEqual(ids.toReversed())
  })

  it('is rebuilt when it is missing', () => {
    const { directory, path, lines } = threeSessions()
    rmSync(path)
    expect(repetitions(directory)).toEqual([7, 6, 5])
    expect(lines()).toHaveLength(3)
  })

  it('gets another row in the place of the first when recording continues', () => {
    const { logbook, ids, lines } = threeSessions()
    const file = logbook.open(ids[2] ?? '')
    file.append([setRecorded(3)])
    file.close()
    expect(logbook.index()[0]?.lifts[0]?.figures.reps).toBe(10)
    expect(lines()).toHaveLength(3)
  })

  it('is ignored for a file with another modification time', () => {
    const { directory, path, lines } = threeSessions()
    const heavier = lines().map((line) => line.replaceAll('647.5', '1647.5'))
    writeFileSync(path, heavier.join('\n'))
    const [entry] = openLogbook(directory).list()
    const noon = new Date('2026-11-27T12:00:00Z')
    utimesSync(entry?.path ?? '', noon, noon)
    expect(openLogbook(directory).index()[0]?.brief.tonnageKg).toBe(7 * 92.5)
    expect(lines()).toHaveLength(3)
  })

  it.each([
    ['rubbish', () => 'rubbish\n'],
    ['half a line at its end', (text: string) => text.slice(0, -100)],
    ['rows of another version', (text: string) => text.replaceAll('"basis":"', '"basis":"0')],
    ['days that are not days', (text: string) => text.replaceAll('"brief":{', '"brief":[],"b":{')],
    ['rows that lack a part', (text: string) => text.replaceAll(/"lifts":.*,"running"/g, '"running"')],
    [
      'a row that would change all objects',
      (text: string) => text.replaceAll('"running":{', '"running":{"__proto__":{"finished":true},'),
    ],
    ['escapes that would reach the terminal', (text: string) => text.replaceAll('"Legs"', '"\\u001b[2J"')],
    ['sessions that are not there', (text: string) => text.replaceAll('2026/2026-11-2', '2026/2026-12-2')],
  ] as [string, (text: string) => string][])('is repaired from the files if it holds %s', (_, change) => {
    const { directory, path } = threeSessions()
    writeFileSync(path, change(readFileSync(path, 'utf8')))
    expect(repetitions(directory)).toEqual([7, 6, 5])
    expect(repetitions(directory)).toEqual([7, 6, 5])
  })

  it('is repaired from the files wherever a crash or a full disk cut it off', () => {
    const { directory, path, logbook } = threeSessions()
    const found = (entries: ReturnType<typeof logbook.index>) =>
      entries.map(({ id, finished, started, begun, brief, lifts, running }) => ({
        ...{ id, finished, started, begun, brief, lifts, running },
      }))
    const right = found(logbook.index())
    const bytes = readFileSync(path)
    fc.assert(
      fc.property(fc.nat(bytes.length), (length) => {
        writeFileSync(path, bytes.subarray(0, length))
        const entries = openLogbook(directory).index()
        const listed = entries.filter((entry) => entry.lifted('frontsquat') !== null).length
        expect({ found: found(entries), listed }).toEqual({ found: right, listed: 3 })
      }),
      times(50),
    )
  })

  it('lists the sessions whatever has changed in it', () => {
    const { directory, path, ids } = threeSessions()
    const bytes = readFileSync(path)
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), (at, turned) => {
        const changed = Buffer.from(bytes)
        changed[at] = (changed[at] ?? 0) ^ turned
        writeFileSync(path, changed)
        const entries = openLogbook(directory).index()
        expect(entries.map(({ id }) => id).sort()).toEqual([...ids].sort())
      }),
      times(50),
    )
  })

  it('only costs time if it is a folder', () => {
    const { directory, path } = threeSessions()
    rmSync(path)
    mkdirSync(path)
    expect(repetitions(directory)).toEqual([7, 6, 5])
  })

  it('is rebuilt when the equation changes', () => {
    const { directory, logbook } = threeSessions()
    const before = logbook.index()[0]?.lifts[0]?.figures.oneRepMax
    expect(before?.formula).toBe('median')
    changeSettings(directory, (settings) => ({ ...settings, formula: 'epley' }))
    expect(logbook.index()[0]?.lifts[0]?.figures.oneRepMax?.formula).toBe('epley')
  })

  it('is rebuilt when the highest heart rate changes, by which running counts as hard', () => {
    const directory = join(temporaryFolder(), 'logbook')
    const logbook = openLogbook(directory)
    const { prescription, events } = new Kept(dayOf('A day\nrun\n  10 km easy\n')).type(
      '55:00 hr 168',
    ).session
    logbook.create(prescription, started, events.slice(1)).close()
    const hardMeters = () => logbook.index().map(({ day }) => day.hardMeters)
    expect(hardMeters()).toEqual([0])
    // 168 is 88.4 % of 190.
    changeSettings(directory, (settings) => ({ ...settings, hrMax: 190 }))
    expect(hardMeters()).toEqual([10_000])
  })

  it('leaves out a damaged session, and reports it each time', () => {
    const { directory, ids } = threeSessions()
    const [newest] = openLogbook(directory).list()
    writeFileSync(newest?.path ?? '', '{"format": 2}')
    for (let time = 0; time < 2; time += 1) {
      const logbook = openLogbook(directory)
      expect(logbook.index().map(({ id }) => id)).toEqual([ids[1], ids[0]])
      expect(logbook.damages).toHaveLength(1)
    }
  })

  it('counts one of two files with the same id, and reports the other', () => {
    const { directory, ids } = threeSessions()
    const [newest] = openLogbook(directory).list()
    writeFileSync((newest?.path ?? '').replace('2026-11-26', '2026-11-25'), readFileSync(newest?.path ?? ''))
    const logbook = openLogbook(directory)
    expect(logbook.index()).toHaveLength(3)
    expect(logbook.damages).toEqual([
      {
        file: `sessions/2026/2026-11-25-${ids[2]}.json`,
        wrong: `The file has the same id as sessions/2026/2026-11-26-${ids[2]}.json.`,
        done: 'Both are unchanged, and only that one counts.',
      },
    ])
  })

  it('has no session on an impossible date', () => {
    const { directory, ids } = threeSessions()
    const [newest] = openLogbook(directory).list()
    const sealed = readFileSync(newest?.path ?? '', 'utf8')
    const text = unsealed(sealed).replaceAll(ids[2] ?? '', 'otherday234')
    for (const date of ['2026-02-30', '2026-11-31', '2026-13-01', '2026-00-10', '2026-11-00'])
      writeFileSync(join(directory, 'sessions', '2026', `${date}-otherday234.json`), text)
    expect(openLogbook(directory).index()).toHaveLength(3)
    writeFileSync(join(directory, 'sessions', '2026', '2026-10-31-otherday234.json'), text)
    expect(openLogbook(directory).index()).toHaveLength(4)
  })

  it('may be in any order; the last row of a file counts', () => {
    const { directory, path, lines } = threeSessions()
    const [first = '', second = '', third = ''] = lines()
    const older = third.replace('"title":"Legs"', '"title":"Arms"')
    for (const order of [
      [older, second, first, third],
      [first, older, third, second],
      [third, second, first],
    ]) {
      writeFileSync(path, order.join('\n'))
      const briefs = openLogbook(directory)
        .index()
        .map(({ brief }) => brief)
      expect(briefs.map(({ title }) => title)).toEqual(['Legs', 'Legs', 'Legs'])
      expect(briefs.map(({ sets }) => sets)).toEqual([2, 2, 2])
      expect(lines()).toHaveLength(order.length)
    }
  })

  it('has the same figures of a session as its summary', () => {
    const [entry] = threeSessions().logbook.index()
    const summary = entry?.summary()
    const { figures } = entry?.lifted('frontsquat') ?? {}
    expect(figures?.oneRepMax?.kg).toBeGreaterThan(92.5)
    expect(summary?.lifting.exercises[0]).toMatchObject(figures ?? {})
    expect(entry?.lifted('front')).toBeNull()
    expect(entry?.lifted('front')).toBeNull()
    expect(summary?.running).toMatchObject(entry?.running ?? { meters: null })
    expect(entry?.brief).toMatchObject({ title: 'Legs', exercises: ['front squat'], tonnageKg: 7 * 92.5 })
  })

  it('knows of a run its words, its gaps and the effort of its part, and of a lift whether it hurt', () => {
    const day = new Kept(
      dayOf(
        'A day\nrun\n  4 x 400 m @ 4:00/km, jog 200 m\n  2 km easy\nlift\n  squat 2 x 5\n  row 1 x 5\n  dip 1 x 5\n',
      ),
    )
    day
      .type('96', '-', '-', '97', '10:00', '5 "deep"', '5 pain "left knee 3"', '5', '5 pain "elbow 0"')
      .close(0, 7, 30)
    const row = indexedOf(day.session, bareContext)
    expect(row.running.items).toMatchObject([
      { repeats: true, word: null, gaps: [1, 1], effort: 7 },
      { repeats: false, word: 'easy', gaps: [], effort: 7 },
    ])
    expect(row.lifts.map(({ hurt, sets }) => [hurt, sets.length])).toEqual([
      [true, 2],
      [false, 1],
      [false, 1],
    ])
    expect(row.lifts[0]?.sets[0]).not.toHaveProperty('note')
    expect(row.lifts[0]?.sets[0]).not.toHaveProperty('pain')
    // The two recorded repeats; the easy kilometres of the hard part are none.
    expect(row.day.hardMeters).toBe(800)
    expect(row.finished).toBe(false)
    expect(row.started).toBe(Date.parse('2026-11-26T06:40:00+01:00'))
  })

  it('depends on the formula, the highest heart rate and on the body mass of its own day', () => {
    const settings = {
      ...defaultSettings,
      bodyMasses: [{ date: '2026-11-20', value: 70, unit: 'kg' as const }],
    }
    const basis = basisOf(settings, '2026-11-26')
    expect(basis).toMatch(/^\d+ median - 2026-11-20 70 kg$/)
    expect(basisOf({ ...settings, formula: 'epley' }, '2026-11-26')).not.toBe(basis)
    expect(basisOf({ ...settings, hrMax: 190 }, '2026-11-26')).not.toBe(basis)
    expect(basisOf(settings, '2026-11-19')).not.toBe(basis)
    const later = { date: '2026-11-27', value: 71, unit: 'kg' as const }
    expect(basisOf({ ...settings, bodyMasses: [...settings.bodyMasses, later] }, '2026-11-26')).toBe(basis)
    const heavier = { date: '2026-11-20', value: 71, unit: 'kg' as const }
    expect(basisOf({ ...settings, bodyMasses: [heavier] }, '2026-11-26')).not.toBe(basis)
  })

  it('reads a day with the race of the plan, which is on that day or ahead of it', () => {
    const race = { on: '2027-04-18', length: { value: 10, unit: 'km' as const }, seconds: 2370 }
    const settings = {
      ...defaultSettings,
      hrMax: 190,
      bodyMasses: [{ date: '2026-11-20', value: 100, unit: 'lb' as const }],
    }
    expect(contextOn(settings, '2026-11-26', race as never)).toMatchObject({
      equation: 'median',
      hrMax: 190,
      // The pound of 1959.
      bodyMassKg: expect.closeTo(45.359237, 9),
      race: { meters: 10_000, seconds: 2370, isThatDay: false },
    })
    expect(contextOn(settings, '2027-04-18', race as never).race?.isThatDay).toBe(true)
    expect(contextOn(settings, '2026-11-19')).toMatchObject({ bodyMassKg: null, race: null })
  })

  it('counts one of two versions of a session, the one whose last event is later, and both if their dates differ', () => {
    const [base, version] = ['abcdef2345', 'abcdef2345-0a1b2c']
    const counted = (ofBase: SessionEvent[], ofVersion: SessionEvent[], date = '2026-11-26') => {
      const home = temporaryFolder()
      mkdirSync(join(home, 'sessions', '2026'), { recursive: true })
      for (const [id, events, day] of [
        [base, ofBase, '2026-11-26'],
        [version, ofVersion, date],
      ] as const)
        writeFileSync(
          join(home, 'sessions', '2026', `${day}-${id}.json`),
          printSession({ format: 1, id, prescription: legs, events: [{ ...started, date: day }, ...events] }),
        )
      const logbook = openLogbook(home)
      expect(logbook.list()[0]?.id).toBe(logbook.index()[0]?.id)
      return logbook.index().map(({ id, otherVersion }) => [id, otherVersion])
    }
    const untimed = { ...setRecorded(2), at: null, up: null }
    expect(counted([setRecorded(1)], [setRecorded(1), setRecorded(2)])).toEqual([[version, base]])
    expect(counted([setRecorded(2)], [setRecorded(1), untimed])).toEqual([[base, version]])
    expect(counted([setRecorded(1)], [setRecorded(1)])).toEqual([[base, version]])
    expect(counted([setRecorded(1)], [setRecorded(2)], '2026-11-25')).toEqual([
      [base, undefined],
      [version, undefined],
    ])
  })

  it('counts one of three versions of a session, names the others, and finds it by its date among later days', () => {
    const home = temporaryFolder()
    mkdirSync(join(home, 'sessions', '2026'), { recursive: true })
    const ids = ['abcdef2345', 'abcdef2345-3d4e5f', 'abcdef2345-0a1b2c']
    ids.forEach((id, index) => {
      const results = [1, 2, 3].slice(0, index + 1).map((number) => setRecorded(number))
      const text = printSession({ ...sampleSession(...results), id })
      writeFileSync(join(home, 'sessions', '2026', `2026-11-26-${id}.json`), text)
    })
    const logbook = openLogbook(home)
    const [entry, ...more] = logbook.index()
    logbook.create(legs, { ...started, date: '2026-11-27' }).close()
    for (const which of ['2026-11-26', 'abc']) expect(logbook.read(which).entry.id).toBe(ids[2])
    expect([entry?.id, entry?.otherVersion, more]).toEqual([ids[2], `${ids[1]}, ${ids[0]}`, []])
  })

  it('orders sessions of one day by their starts', () => {
    const logbook = openLogbook(temporaryFolder())
    const begun = ['17:40', '06:40', '12:00'].map((clock) => {
      const file = logbook.create(legs, { ...started, at: `2026-11-26T${clock}:00.000+01:00` })
      file.close()
      return [clock, file.id] as const
    })
    const id = (clock: string) => begun.find(([each]) => each === clock)?.[1]
    expect(logbook.index().map((entry) => entry.id)).toEqual([id('17:40'), id('12:00'), id('06:40')])
    expect(logbook.list().map((entry) => entry.id)).toEqual([id('17:40'), id('12:00'), id('06:40')])
  })
})
