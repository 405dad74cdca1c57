import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { earlierDays, recorderContextOf } from '../../src/app/earlierDays.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../logbook/temporaryFolder.ts'

/* What the recorder knows of other days. */

type Set = { reps: number; load?: number; rpe?: number | null; failed?: boolean }

/** A logbook of front squats, a session for each date. */
function squatted(days: Record<string, Set[]>) {
  const logbook = openLogbook(temporaryFolder())
  const ids = Object.entries(days).map(([date, sets]) => {
    const at = (event: SessionEvent) =>
      event.at === null ? event : { ...event, at: event.at.replace('2026-11-26', date) }
    const recorded = sets.map(({ reps, load = 92.5, rpe = null, failed = false }, index) => {
      const event = setRecorded(index + 1, reps)
      if (event.type !== 'setRecorded') return event
      const mass = { kind: 'mass' as const, value: load, unit: 'kg' as const, pair: false }
      return at({ ...event, result: { ...event.result, rpe, failed, load: mass } })
    })
    const file = logbook.create(legs, { ...started, date, at: `${date}T17:40:00.000+01:00` }, [
      ...recorded,
      at(finished),
    ])
    file.close()
    return file.id
  })
  return { logbook, ids }
}

const today = new Date('2026-11-26T06:40:00+01:00')
const squat = { exercise: 'front squat' }

describe('the last time of an exercise', () => {
  test('is the newest day on which it was lifted, sets alike in one row with their efforts', () => {
    const { logbook } = squatted({
      '2026-11-10': [{ reps: 3, rpe: 8 }],
      '2026-11-19': [
        { reps: 3, rpe: 8 },
        { reps: 3, rpe: 8.5 },
        { reps: 2, load: 95, rpe: 9 },
      ],
    })
    expect(earlierDays(logbook, today).lastTime(squat)).toBe('19 Nov: 3 x 92.5 @8 8.5, 2 x 95 @9')
    expect(earlierDays(logbook, today).lastTime({ exercise: 'deadlift' })).toBeNull()
  })

  test('counts sets without an effort, and says at which repetition one failed', () => {
    const last = (sets: Set[]) => earlierDays(squatted({ '2026-11-19': sets }).logbook, today).lastTime(squat)
    expect(last([{ reps: 3 }])).toBe('19 Nov: 3 x 92.5')
    expect(last([{ reps: 3 }, { reps: 3 }])).toBe('19 Nov: 3 x 92.5, 2 sets')
    expect(last([{ reps: 4, failed: true }])).toBe('19 Nov: 4 x 92.5, failed at 5')
    expect(last([{ reps: 4 }, { reps: 4, failed: true }])).toBe('19 Nov: 4 x 92.5, 2 sets, 1 failed at 5')
    expect(last([{ reps: 4, rpe: 10, failed: true }, { reps: 4 }])).toBe('19 Nov: 4 x 92.5 @10! -')
  })

  test('is at most 366 days ago, and never the session that is recorded itself', () => {
    const { logbook, ids } = squatted({ '2025-11-25': [{ reps: 3 }] })
    expect(earlierDays(logbook, today).lastTime(squat)).toBe('25 Nov: 3 x 92.5')
    expect(earlierDays(logbook, new Date('2026-11-27T06:40:00+01:00')).lastTime(squat)).toBeNull()
    expect(earlierDays(logbook, today, ids[0] ?? null).lastTime(squat)).toBeNull()
  })
})

describe('the best before', () => {
  test('is the heaviest load for so many repetitions or more, at any time', () => {
    const { logbook } = squatted({
      '2024-02-01': [{ reps: 3, load: 100 }],
      '2026-11-19': [
        { reps: 2, load: 105 },
        { reps: 5, load: 90 },
      ],
    })
    const { bestBefore } = earlierDays(logbook, today)
    expect(bestBefore('front squat', 3)).toMatchObject({ kg: 100, text: '100, 1 Feb' })
    expect(bestBefore('front squat', 2)?.kg).toBe(105)
    expect(bestBefore('front squat', 4)?.kg).toBe(90)
    expect(bestBefore('front squat', 6)).toBeNull()
  })
})

test('the exercises of earlier days are there to be swapped in', () => {
  expect(earlierDays(squatted({ '2026-11-19': [{ reps: 3 }] }).logbook, today).exercises()).toEqual([
    'front squat',
  ])
})

test('what running costs a lift is known where it is clear, in sixteen weeks of squats fresh and after runs', () => {
  const folder = temporaryFolder()
  writeMadeUpLogbook(join(folder, 'logbook'), { seed: 1, weeks: 16, last: '2026-11-25' })
  const { runCost } = earlierDays(openLogbook(join(folder, 'logbook')), new Date('2026-11-26T07:00:00'))
  const cost = runCost?.('front squat') ?? null
  // The generator takes 4 % off.
  expect((cost?.afterRunKg ?? 0) / (cost?.freshKg ?? 1)).toBeCloseTo(0.96, 1)
  expect(runCost?.('dip')).toBeNull()
})

test('after a warning sign in another session of today nothing is advised, and on the next day it is again', () => {
  for (const change of [{ pain: 'chest' }, { note: 'felt faint' }]) {
    const logbook = openLogbook(temporaryFolder())
    const event = setRecorded(1, 3)
    if (event.type !== 'setRecorded') throw new Error('no set')
    const result = { ...event.result, ...change }
    logbook.create(legs, started, [{ ...event, result }, finished]).close()
    const isAdvised = (date: string) =>
      recorderContextOf(defaultSettings, earlierDays(logbook, new Date(`${date}T18:00:00+01:00`))).advice
    expect(isAdvised(started.date)).toBe(false)
    expect(isAdvised('2026-11-27')).toBe(true)
  }
})
