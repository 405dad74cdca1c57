import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { beginRecording, type RecordingTools, resumeRecording } from '../../src/app/recording.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { verifyLogbook } from '../../src/logbook/verify.ts'
import { momentAfter } from '../../src/session/clock.ts'
import { dayOf } from '../day.ts'

/* A session taken up again by another program a while later; the clock is the machine's own, so the events of
 * the first program are set back by that while. */

let home = ''
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'pausebook-'))
})
afterEach(() => rmSync(home, { recursive: true, force: true }))

function tools(): RecordingTools {
  return {
    logbook: openLogbook(home),
    settings: defaultSettings,
    earlier: {
      lastTime: () => null,
      bestBefore: () => null,
      maxima: [],
      lastLoads: () => [],
      exercises: () => [],
    },
    ring: () => {},
    leave: () => {},
  }
}

/** A session whose first repeat by time began so many seconds ago, and nobody was there since. */
function leftRunning(day: string, seconds: number): string {
  const { store, writer } = beginRecording(dayOf(day), tools())
  store.typed(' ')
  const id = writer.id ?? ''
  writer.close()
  const file = openLogbook(home).open(id)
  const { events } = file.session
  const back = events.map((event) => {
    const at = event.at === null ? null : shifted(event.at, -seconds)
    return { ...event, at, up: event.up === null ? null : Math.max(0, event.up - seconds) }
  })
  file.discard()
  const [start, ...more] = back
  if (start?.type !== 'sessionStarted') throw new Error('a session begins with its start')
  const again = openLogbook(home).create(dayOf(day), start, more)
  again.close()
  return again.id
}

function shifted(at: string, seconds: number): string {
  const moment = momentAfter({ wall: Date.parse(at), offset: 0, up: null, boot: null }, seconds)
  return new Date(moment.wall).toISOString().replace('Z', '+00:00')
}

describe('a session taken up again', () => {
  test('what the clock did meanwhile stands in order, is said, and the logbook is sound', () => {
    const id = leftRunning('Track\n\nrun\n  3 x 40 s hard, jog 30 s\n', 120)
    const { store, writer } = resumeRecording(id, tools())
    expect(store.get().notice).toBe(
      'while you were away the clock went on: 2 results are open; - skips what was not done',
    )
    store.typed('-')
    store.key('enter')
    writer.close()
    const types = openLogbook(home)
      .read(id)
      .session.events.map((event) => event.type)
    expect(types.indexOf('effortEnded')).toBeLessThan(types.lastIndexOf('opened'))
    expect(verifyLogbook(home, { onProgress: () => {} }).damages).toEqual([])
  })

  test('nothing is said where nothing came open', () => {
    const id = leftRunning('Track\n\nrun\n  3 x 400 m hard, jog 200 m\n', 120)
    const { store, writer } = resumeRecording(id, tools())
    expect(store.get().notice).toBe(null)
    writer.close()
  })
})
