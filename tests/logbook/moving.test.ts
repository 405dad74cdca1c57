import { cpSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { flushFolder } from '../../src/logbook/durableFile.ts'
import { clockOf } from '../../src/logbook/machine.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { apart } from '../apart.ts'
import { onWindows } from '../onWindows.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { finished, legs, setRecorded, started } from './sampleSession.ts'
import { machineWith } from './testMachine.ts'

function recorded(events = [setRecorded(1), finished], start = started) {
  const directory = join(temporaryFolder(), 'logbook')
  const file = openLogbook(directory).create(legs, start, events)
  file.close()
  return { directory, id: file.id }
}

describe('a logbook', () => {
  it('says the same on another machine, in another time zone', async () => {
    const { directory, id } = recorded()
    const there = join(temporaryFolder(), 'copied')
    cpSync(directory, there, { recursive: true })
    const here = openLogbook(directory).index()[0]?.summary()
    const { call, end } = await apart<typeof import('./elsewhere.apart.ts')>(
      join(import.meta.dirname, 'elsewhere.apart.ts'),
    )
    onTestFinished(end)
    for (const [zone, minutesBehindUtc] of [
      ['Pacific/Auckland', -780],
      ['America/Los_Angeles', 480],
      ['UTC', 0],
    ] as const) {
      const found = await call('readIn', zone, there)
      expect(found).toMatchObject({ minutesBehindUtc, entry: { id, date: '2026-11-26' }, damages: [] })
      expect(found.summary).toEqual(here)
    }
    // Derived files are rebuilt there, because the copies have another modification time.
    writeFileSync(join(there, 'index.ndjson'), '')
    expect((await call('readIn', 'UTC', there)).summary).toEqual(here)
  })

  it('is written and read under the rules of Windows, which cannot flush a folder', () => {
    onWindows()
    const { directory, id } = recorded()
    expect(openLogbook(directory).read(id).session.events).toEqual([started, setRecorded(1), finished])
    expect(() => flushFolder(join(directory, 'nowhere'))).not.toThrow()
  })

  it('keeps the local date of the start for a session across midnight', () => {
    const at = (time: string, up: number) => ({ at: `2026-11-${time}.000+01:00`, up })
    const { directory } = recorded(
      [
        { ...setRecorded(1), ...at('27T00:20:00', 5000) },
        { ...finished, ...at('27T00:40:00', 6200) },
      ],
      { ...started, ...at('26T23:40:00', 2600) },
    )
    const logbook = openLogbook(directory)
    expect(logbook.list()[0]?.date).toBe('2026-11-26')
    expect(logbook.index()[0]?.summary()?.session).toMatchObject({
      date: '2026-11-26',
      startedAt: '2026-11-26T23:40:00+01:00',
      finishedAt: '2026-11-27T00:40:00+01:00',
    })
  })

  it('computes elapsed minutes across a change of daylight-saving time', () => {
    // Central Europe, 25 October 2026: at 03:00 it is 02:00 once more (Directive 2000/84/EC).
    const moments = ['2026-10-25T00:50:00Z', '2026-10-25T01:10:00Z'].map((time, index) =>
      clockOf(machineWith({ now: () => new Date(time), up: () => 1000 + index * 1200 }))(),
    )
    const [before, after] = moments
    expect(before?.at).toBe('2026-10-25T02:50:00.000+02:00')
    expect(after?.at).toBe('2026-10-25T02:10:00.000+01:00')
    const { directory } = recorded(
      [
        { type: 'effortBegun', at: before?.at ?? '', up: before?.up ?? 0, step: '1.1.s1', auto: false },
        { ...setRecorded(1), at: after?.at ?? '', up: after?.up ?? 0 },
        { type: 'partClosed', at: after?.at ?? '', up: after?.up ?? 0, part: 0, effort: 5, minutes: null },
        { ...finished, at: after?.at ?? '', up: after?.up ?? 0 },
      ],
      { ...started, at: before?.at ?? '', up: before?.up ?? 0, date: '2026-10-25' },
    )
    const { session, parts } = openLogbook(directory).index()[0]?.summary() ?? {}
    expect(session).toMatchObject({
      startedAt: '2026-10-25T02:50:00+02:00',
      finishedAt: '2026-10-25T02:10:00+01:00',
    })
    expect(Date.parse(parts?.[0]?.finishedAt ?? '') - Date.parse(parts?.[0]?.startedAt ?? '')).toBe(
      20 * 60_000,
    )
  })

  it('accepts a wall clock that was set back in the middle of a session', () => {
    const back = { ...setRecorded(2), at: '2026-11-26T15:00:00.000Z' }
    const { directory } = recorded([setRecorded(1), back, { ...finished, at: '2026-11-26T15:10:00.000Z' }])
    const logbook = openLogbook(directory)
    expect(logbook.index()[0]?.summary()?.lifting.sets).toBe(2)
    expect(logbook.damages).toEqual([])
  })
})
