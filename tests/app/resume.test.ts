import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeEach, describe, expect, onTestFinished, test, vi } from 'vitest'
import { type Known, knownOn } from '../../src/app/known.ts'
import {
  beginRecording,
  closeAsItIs,
  type RecordingTools,
  resumeRecording,
  type Unsaved,
} from '../../src/app/recording.ts'
import { readSession } from '../../src/logbook/sessionFile.ts'
import { defaultSettings, type Settings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { verifyLogbook } from '../../src/logbook/verify.ts'
import type { RecorderStore } from '../../src/recorder/store.ts'
import { viewOf } from '../../src/recorder/view.ts'
import { dayOf } from '../day.ts'
import { expectPrivate } from '../expectPrivate.ts'
import { setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { atTime } from './appOnGlass.ts'
import { onFullDisk } from './fullDisk.ts'

/* A session resumed by another program a while later. */

let home = ''
beforeEach(() => {
  home = temporaryFolder()
  atTime('2026-11-26T17:40:00+01:00')
})

/** @param logbook the folder of another logbook */
function tools(logbook = home, settings = defaultSettings): RecordingTools {
  return {
    known: knownOn(openLogbook(logbook), settings, '2026-11-26'),
    ring: () => {},
    leave: () => {},
  }
}

/** A session whose first repeat by time began this many seconds ago and was then left alone. */
function leftRunning(day: string, seconds: number): string {
  const { store, writer } = beginRecording(dayOf(day), tools())
  store.typed(' ')
  writer.close()
  vi.setSystemTime(Date.now() + seconds * 1000)
  return writer.id ?? ''
}

/** Types a set, and says that it is meant. */
function record({ typed, press }: RecorderStore): void {
  typed('5 @8')
  for (const _ of ['record', 'yes']) press({ kind: 'named', name: 'enter' })
}

/** Where the message says that the whole session is, and where to move it. */
function spillIn(closed: { ok: true } | Unsaved): { path: string; place: string } & Unsaved {
  if (closed.ok) throw new Error('it was saved')
  const said =
    /the whole session is in (.+)\. Once it can be written there again, move that file to (.+)\.$/.exec(
      closed.message,
    )
  const [, path = '', place = ''] = said ?? []
  onTestFinished(() => rmSync(path, { force: true }))
  return { path, place, ...closed }
}

describe('a recorder whose results cannot be saved', () => {
  const day = 'Legs\n\nlift\n  front squat 3 x 5 @ 90 kg\n'

  test('puts the whole session into the temporary folder when it closes, and prints what is not saved', () => {
    const { store, writer } = beginRecording(dayOf(day), tools())
    store.typed(' ')
    const saved = openLogbook(home).read(writer.id ?? '').session.events.length
    rmSync(join(home, 'sessions'), { recursive: true })
    record(store)
    const closed = writer.close()
    const spill = spillIn(closed)
    const { lines, message } = spill
    expect(message).toContain('are not in the logbook: the folder is gone.')
    const { events } = store.get()
    expect(lines.map((line) => JSON.parse(line))).toEqual(events.slice(saved))
    expect(lines.length).toBeGreaterThan(0)
    expectPrivate(spill.path)
    // The message tells how to restore it.
    mkdirSync(dirname(spill.place), { recursive: true })
    renameSync(spill.path, spill.place)
    const back = openLogbook(home).read(writer.id ?? '').session.events
    expect(back.map(({ type }) => type)).toEqual(events.map(({ type }) => type))
    expect(back.at(-1)).toEqual(events.at(-1))
    expect(verifyLogbook(home).damages).toEqual([])
  })

  test('says where they are kept if another program changed the session, and advises to overwrite nothing', () => {
    const { store, writer } = beginRecording(dayOf(day), tools())
    store.typed(' ')
    const { entry } = openLogbook(home).read(writer.id ?? '')
    writeFileSync(entry.path, `${readFileSync(entry.path, 'utf8')} `)
    record(store)
    const closed = writer.close()
    if (closed.ok) throw new Error('it was saved')
    expect(closed.lines).toEqual([])
    expect(closed.message).toMatch(
      new RegExp(
        `^The last results are not in the session: another program changed its file\\. Your results are kept as the session ${entry.id}-[0-9a-f]{6}; "pausebook sync --keep ID" keeps one of the two\\.$`,
      ),
    )
  })

  test('does so for a session that could not even be created', () => {
    const blocked = join(home, 'file')
    writeFileSync(blocked, '')
    const { store, writer } = beginRecording(dayOf(day), tools(join(blocked, 'book')))
    store.typed(' ')
    const closed = writer.close()
    const reading = readSession(readFileSync(spillIn(closed).path, 'utf8'), null)
    expect('value' in reading && reading.value.events.map(({ type }) => type)).toEqual(
      store.get().events.map(({ type }) => type),
    )
  })
})

describe('a resumed session', () => {
  test("has the clock's events in order, reports them, and leaves the logbook sound", () => {
    const id = leftRunning('Track\n\nrun\n  3 x 40 s hard, jog 30 s\n', 120)
    const { store, writer } = resumeRecording(id, tools())
    expect(store.get().notice).toBe(
      'the clock ran on while you were away: 2 results to enter; - skips what was not done',
    )
    store.typed('-')
    store.press({ kind: 'named', name: 'enter' })
    writer.close()
    const types = openLogbook(home)
      .read(id)
      .session.events.map((event) => event.type)
    expect(types.indexOf('effortEnded')).toBeLessThan(types.lastIndexOf('opened'))
    expect(verifyLogbook(home).damages).toEqual([])
  })

  test('reports nothing if no result became pending', () => {
    const id = leftRunning('Track\n\nrun\n  3 x 400 m hard, jog 200 m\n', 120)
    const { store, writer } = resumeRecording(id, tools())
    expect(store.get().notice).toBe(null)
    writer.close()
  })
})

test('a day that was opened on the evening before has the date of the morning on which it was begun', () => {
  atTime('2026-11-26T23:50:00+01:00')
  const { store, writer } = beginRecording(dayOf('Legs\n\nlift\n  front squat 3 x 5 @ 90 kg\n'), tools())
  atTime('2026-11-27T06:40:00+01:00')
  store.typed(' ')
  writer.close()
  const [entry] = openLogbook(home).list()
  expect(entry?.date).toBe('2026-11-27')
  expect(openLogbook(home).read('newest').session.events[0]).toMatchObject({ date: '2026-11-27' })
})

test('a resumed session says in its file that a program opened it, once and before its first new fact', () => {
  const day = 'Legs\n\nlift\n  front squat 3 x 5 @ 90 kg\n'
  const first = beginRecording(dayOf(day), tools())
  first.store.typed(' ')
  const id = first.writer.id ?? ''
  first.writer.close()
  const typesIn = () =>
    openLogbook(home)
      .read(id)
      .session.events.map(({ type }) => type)
  const before = typesIn()
  expect(before).toEqual(['sessionStarted', 'opened', 'effortBegun'])

  const again = resumeRecording(id, tools())
  expect(typesIn()).toEqual(before)
  record(again.store)
  expect(typesIn().slice(0, before.length + 1)).toEqual([...before, 'opened'])
  expect(typesIn()).toContain('setRecorded')
  record(again.store)
  expect(typesIn().filter((type) => type === 'opened')).toHaveLength(2)
  again.writer.close()
})

test('a resumed session names a single open result as one', () => {
  const id = leftRunning('Track\n\nrun\n  3 x 40 s hard, jog 30 s\n', 50)
  const { store, writer } = resumeRecording(id, tools())
  expect(store.get().notice).toMatch(/: 1 result to enter;/)
  writer.close()
})

describe('a recorder', () => {
  const day = 'Legs\n\nlift\n  front squat 3 x 5 @ 90 kg\n'
  const plan = 'Block\nrace: 10 km in 39:30 on 2027-04-18\nweek: Thu legs\n2026-11-23: 42 km\n'
  const knee = { place: 'left knee', level: 4, date: '2026-11-24', at: 0, session: null }

  test('is given the foods, the place in the plan and pains to ask about, and stores nothing of a day that is only looked at', () => {
    writeFileSync(join(home, 'plan.txt'), plan)
    writeFileSync(join(home, 'foods.txt'), 'quinoa 100 g: 21.3 C 4.4 P 1.9 F\n')
    const { store, writer } = beginRecording(dayOf(day), {
      ...tools(),
      known: { ...tools().known, pains: [knee] },
    })
    expect(
      store
        .get()
        .context.foods?.()
        .map(({ name }) => name),
    ).toEqual(['quinoa'])
    expect(store.get().context.planned).toBe('Thursday of week 1 of 21, 143 days to 10 km in 39:30')
    expect(viewOf(store.get()).entry.label).toBe(`${knee.place} today`)
    expect(writer.close()).toEqual({ ok: true })
    expect(openLogbook(home).list()).toEqual([])
    const { store: plain } = beginRecording(dayOf(day), tools(join(home, 'other')))
    expect(plain.get().mode).toEqual({ kind: 'recording' })
    expect(plain.get().context.planned).toBeNull()
  })

  test('stores with the start the body mass, the maxima, and last loads only where there are any', () => {
    const maxima = [{ name: 'front squat', kg: 120, basis: 'estimate of 1 Nov' }]
    const load = { kind: 'mass', value: 90, unit: 'kg', pair: false }
    const done = { date: '2026-11-19', lifted: () => ({ hurt: false, sets: [{ load, reps: 5 }] }) }
    const settings: Settings = {
      ...defaultSettings,
      bodyMasses: [{ date: '2020-01-01', value: 68, unit: 'kg' }],
    }
    const startWith = (text: string, known: Partial<Known>) => {
      const given = tools(home, settings)
      const { store } = beginRecording(dayOf(text), { ...given, known: { ...given.known, ...known } })
      return store.get().events[0]
    }
    const fromLast = day.replace('90 kg', 'last + 2 kg')
    expect(startWith(fromLast, { maxima, entries: [done as never] })).toMatchObject({
      type: 'sessionStarted',
      bodyMassKg: 68,
      maxima,
      lastLoads: [{ name: 'front squat', date: '2026-11-19', load, isKept: false }],
      fromPaper: false,
    })
    expect(startWith(day, { entries: [done as never] })).not.toHaveProperty('lastLoads')
  })

  test('is given the day in the plan of the session that it goes on with', () => {
    writeFileSync(join(home, 'plan.txt'), plan)
    const file = openLogbook(home).create(dayOf(day), started)
    file.close()
    const { store, writer } = resumeRecording(file.id, tools())
    expect(store.get().context.planned).toBe('Thursday of week 1 of 21, 143 days to 10 km in 39:30')
    expect(store.get().context.foods?.().length).toBeGreaterThan(10)
    writer.close()
  })
})

test('closing an unfinished session as it is finishes it, and says so if that cannot be saved', () => {
  const first = beginRecording(dayOf('Legs\n\nlift\n  front squat 3 x 5 @ 90 kg\n'), tools())
  first.store.typed(' ')
  first.writer.close()
  const id = first.writer.id ?? ''
  const logbook = openLogbook(home)
  expect(() => closeAsItIs(onFullDisk(logbook), id)).toThrow(
    'The session is not closed: the disk is full. Make room and press c twice again.',
  )
  closeAsItIs(logbook, id)
  expect(openLogbook(home).read(id).session.events.at(-1)?.type).toBe('sessionFinished')
  expect(openLogbook(home).read(id).recordedBy).toBeNull()
})

test('a session left on Thursday and closed on Saturday ended on Thursday with its last result', () => {
  const logbook = openLogbook(home)
  const at = (clock: string) => ({ at: `2026-11-26T${clock}:00.000+01:00`, up: null })
  const day = dayOf('Legs\n\nlift\n  front squat 3 x 5 @ 90 kg\n')
  const recorded = { ...setRecorded(1), ...at('18:10') }
  const file = logbook.create(day, { ...started, ...at('18:00') }, [recorded])
  file.close()
  atTime('2026-11-28T08:00:00+01:00')
  closeAsItIs(logbook, file.id)
  expect(logbook.index()[0]?.summary()?.session).toMatchObject({
    startedAt: '2026-11-26T18:00:00+01:00',
    finishedAt: '2026-11-26T18:10:00+01:00',
    finished: true,
  })
})
