import { cpSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { replay } from '../../src/session/replay.ts'
import { runProgram } from '../commands/runProgram.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

/* A logbook as the first version of the program wrote it. Its files never change: every later version of the program
 * must read them like today. */
const fixture = join(import.meta.dirname, 'fixtures', 'format-1')

function copied(): string {
  const directory = join(temporaryFolder(), 'logbook')
  cpSync(fixture, directory, { recursive: true })
  return directory
}

describe('a logbook of format 1', () => {
  it.each([
    ['2026-11-26-abcdef2345', 58],
    ['2026-11-26-yebdrh5pjd', 40],
    ['2026-11-28-g5u4j48hsa', 32],
  ])('%s is read event for event', (name, events) => {
    const stored = JSON.parse(readFileSync(join(fixture, 'sessions', '2026', `${name}.json`), 'utf8'))
    const { session } = openLogbook(copied()).read(name.slice(11))
    expect(session.events).toEqual(stored.events)
    expect(session.events).toHaveLength(events)
    expect(session.prescription).toEqual(stored.prescription)
    expect(replay(session).startedAt?.wall ?? null).toBe(
      stored.events[0].at && Date.parse(stored.events[0].at),
    )
  })

  it('keeps its settings', () => {
    const { settings, damages } = readSettings(copied())
    expect(damages).toEqual([])
    expect(settings).toMatchObject({
      bodyMasses: [{ date: '2026-11-01', value: 68, unit: 'kg' }],
      units: { distance: 'km', mass: 'kg' },
      bell: ['play', 'bell.oga'],
      // The default at that time, `wathan`, is read as the present default.
      formula: 'median',
    })
  })

  it('reads the previous copy of a damaged session', () => {
    const logbook = openLogbook(copied())
    expect(logbook.read('47z498fspy').session.events).toHaveLength(3)
    expect(logbook.damages).toHaveLength(1)
  })

  it('lists the same sessions with the same totals', async () => {
    const { stdout } = await runProgram(['history'], { logbook: copied() })
    expect(stdout).toBe(`\
2026-11-28  g5u4j48hsa             480 (6/7)  Saturday: push and pull, in supersets: bench press, dip, dumbbell row, overhead press, pull-up, farmer carry, plank (21 sets, 4053 kg)
2026-11-26  abcdef2345      2 km     496 (8)  Thursday: five hundreds, then front squat
2026-11-26  yebdrh5pjd   13.6 km   832 (8/7)  Thursday: five hundreds, then front squat: front squat, pull-up, dip, plank (16 sets, 1698 kg)
2026-11-20  47z498fspy                     ?  Legs (not finished): front squat (2 sets, 555 kg)
`)
  })

  it('contains only files of the logbook, and the index of an earlier program, which nothing reads', () => {
    expect(readdirSync(fixture).sort()).toEqual([
      'digest.ndjson',
      'sessions',
      'settings.json',
      'settings.json.bak',
    ])
  })
})
