import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { earlierDays } from '../../src/app/earlierDays.ts'
import { equipmentWith } from '../../src/app/equipment.ts'
import { knownOn } from '../../src/app/known.ts'
import { recorderContextOf } from '../../src/app/recording.ts'
import { addMornings } from '../../src/logbook/mornings.ts'
import { bodyMassKgOn, defaultSettings } from '../../src/logbook/settings.ts'
import { type Logbook, openLogbook } from '../../src/logbook/store.ts'
import { maximaOn } from '../../src/progress/earlierLoads.ts'
import type { SessionEvent, SetResult } from '../../src/session/model.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { dayOf } from '../day.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { Kept } from '../summary/kept.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

/* What the recorder knows about other days. */

const today = '2026-11-26'

type Set = { reps: number; load?: number; rpe?: number | null; failed?: boolean; other?: Partial<SetResult> }

/** What the recorder knows on a day. */
function contextIn(logbook: Logbook, date: string, settings = defaultSettings) {
  return recorderContextOf(today, knownOn(logbook, settings, date))
}

function knownIn(logbook: Logbook, date = today, except: string | null = null) {
  return knownOn(logbook, defaultSettings, date, except)
}

/** A logbook of front squats, with one session for each date. */
function squatted(days: Record<string, Set[]>) {
  const logbook = openLogbook(temporaryFolder())
  const ids = Object.entries(days).map(([date, sets]) => {
    const at = (event: SessionEvent) =>
      event.at === null ? event : { ...event, at: event.at.replace('2026-11-26', date) }
    const recorded = sets.map(({ reps, load = 92.5, rpe = null, failed = false, other }, index) => {
      const event = setRecorded(index + 1, reps)
      const mass = { kind: 'mass' as const, value: load, unit: 'kg' as const, pair: false }
      return at({ ...event, result: { ...event.result, rpe, failed, load: mass, ...other } })
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

/** A logbook with a day typed from paper. */
function typed(text: string, date: string, ...entries: string[]) {
  const logbook = openLogbook(temporaryFolder())
  const { session } = new Kept(dayOf(text), { fromPaper: true }).type(...entries).finish()
  const [, ...events] = session.events
  logbook
    .create(session.prescription, { ...started, at: null, up: null, date, fromPaper: true }, events)
    .close()
  return logbook
}

const squat = { exercise: 'front squat', unit: 'kg' } as const

describe('the last time of an exercise', () => {
  test('is the newest day on which it was lifted, with equal sets merged and their efforts listed', () => {
    const { logbook } = squatted({
      '2026-11-10': [{ reps: 3, rpe: 8 }],
      '2026-11-19': [
        { reps: 3, rpe: 8 },
        { reps: 3, rpe: 8.5 },
        { reps: 2, load: 95, rpe: 9 },
      ],
    })
    expect(earlierDays(knownIn(logbook)).lastTime(squat)).toBe('19 Nov: 3 x 92.5 @8 8.5, 2 x 95 @9')
    expect(earlierDays(knownIn(logbook)).lastTime({ exercise: 'deadlift', unit: 'kg' })).toBeNull()
    const inPounds = earlierDays(knownIn(logbook)).lastTime({
      exercise: 'front squat',
      unit: 'lb',
    })
    expect(inPounds, 'on a day in pounds').toBe('19 Nov: 3 x 92.5 kg @8 8.5, 2 x 95 kg @9')
  })

  test('counts sets without an effort, and says at which repetition one failed', () => {
    const last = (sets: Set[]) =>
      earlierDays(knownIn(squatted({ '2026-11-19': sets }).logbook)).lastTime(squat)
    expect(last([{ reps: 3 }])).toBe('19 Nov: 3 x 92.5')
    expect(last([{ reps: 3 }, { reps: 3 }])).toBe('19 Nov: 3 x 92.5, 2 sets')
    expect(last([{ reps: 4, failed: true }])).toBe('19 Nov: 4 x 92.5, failed at 5')
    expect(last([{ reps: 4 }, { reps: 4, failed: true }])).toBe('19 Nov: 4 x 92.5, 2 sets, 1 failed at 5')
    expect(last([{ reps: 4, rpe: 10, failed: true }, { reps: 4 }])).toBe('19 Nov: 4 x 92.5 @10! -')
    const failed = { reps: 4, failed: true }
    expect(last([failed, failed])).toBe('19 Nov: 4 x 92.5, 2 sets, failed at 5')
    expect(last([failed, failed, { reps: 4 }])).toBe('19 Nov: 4 x 92.5, 3 sets, 2 failed at 5')
    expect(last([{ reps: 4, other: { load: null } }])).toBe('19 Nov: 4')
  })

  test('is at most 366 days ago, with its year if that is over, and never the session being recorded', () => {
    const { logbook, ids } = squatted({ '2025-11-25': [{ reps: 3 }] })
    expect(earlierDays(knownIn(logbook)).lastTime(squat)).toBe('25 Nov 2025: 3 x 92.5')
    expect(earlierDays(knownIn(logbook, '2026-11-27')).lastTime(squat)).toBeNull()
    expect(earlierDays(knownIn(logbook, today, ids[0] ?? null)).lastTime(squat)).toBeNull()
  })
})

describe('the best before', () => {
  test('is the heaviest load for at least this many repetitions, at any time', () => {
    const { logbook } = squatted({
      '2024-02-01': [{ reps: 3, load: 100 }],
      '2026-11-19': [
        { reps: 2, load: 105 },
        { reps: 5, load: 90 },
      ],
    })
    const { bestBefore } = earlierDays(knownIn(logbook))
    expect(bestBefore('front squat', 3)).toMatchObject({ kg: 100, text: '100 kg, 1 Feb 2024' })
    expect(bestBefore('front squat', 2)?.kg).toBe(105)
    expect(bestBefore('front squat', 4)?.kg).toBe(90)
    expect(bestBefore('front squat', 6)).toBeNull()
  })

  test('is the newer of two equal loads', () => {
    const { logbook } = squatted({
      '2026-02-01': [{ reps: 3, load: 100 }],
      '2026-11-19': [{ reps: 3, load: 100 }],
    })
    expect(earlierDays(knownIn(logbook)).bestBefore('front squat', 3)?.text).toBe('100 kg, 19 Nov')
  })

  test('does not add up the rounds against the clock', () => {
    const logbook = typed(
      'Rounds\nlift\n  10 min of: 8 row @ 60 kg\n  row 1 x 8 @ 50 kg\n',
      '2026-11-19',
      '6+4',
      '8',
    )
    const { bestBefore } = earlierDays(knownIn(logbook))
    expect(bestBefore('row', 8)?.kg).toBe(50)
    expect(bestBefore('row', 9)).toBeNull()
  })
})

describe('the best before, for loads that are more than a number,', () => {
  const best = (other: Partial<SetResult>, ...more: Set[]) =>
    earlierDays(knownIn(squatted({ '2026-11-19': [{ reps: 3, other }, ...more] }).logbook)).bestBefore(
      'front squat',
      3,
    )

  test('leaves out a set with pauses within it and one without a load', () => {
    expect(best({ groups: [1, 1, 1] })).toBeNull()
    expect(best({ load: null })).toBeNull()
    expect(best({ groups: [1, 1, 1] }, { reps: 3, load: 80 })?.kg).toBe(80)
  })

  test('counts both of a pair', () => {
    expect(best({ load: { kind: 'mass', value: 22.5, unit: 'kg', pair: true } })?.kg).toBe(45)
  })

  test('counts the load added to the body, in its unit, and subtracts assistance', () => {
    expect(best({ load: { kind: 'bodyweight', added: 10, unit: 'kg' } })?.kg).toBe(10)
    expect(best({ load: { kind: 'bodyweight', added: -20, unit: 'kg' } })?.kg).toBe(-20)
    // 1 lb is 0.45359237 kg by definition.
    expect(best({ load: { kind: 'bodyweight', added: 10, unit: 'lb' } })?.kg).toBeCloseTo(4.5359237, 9)
  })
})

describe('the last time of a line that is not a plain set', () => {
  test('has the groups of a cluster set, the seconds of a hold and the metres of a carry', () => {
    const lift =
      'Evening\n\nlift\n  front squat: 2 x (2+2) @ 80 kg, pause 0:20\n  plank: 1 x 45 s\n  carry: 1 x 40 m @ 2 x 24 kg\n'
    const logbook = typed(lift, '2026-11-19', '=', '2+1 @9', '50 s', '=')
    const last = (exercise: string) => earlierDays(knownIn(logbook)).lastTime({ exercise, unit: 'kg' })
    expect(last('front squat')).toBe('19 Nov: (2+2) x 80, (2+1) x 80 @9')
    expect(last('plank')).toBe('19 Nov: 50 s')
    expect(last('carry')).toBe('19 Nov: 40 m x 2x24')
  })

  test('has the times of a run or of other endurance work, found whatever its case and spaces', () => {
    const run =
      'Morning\n\nrun\n  3 x 1 km @ 4:00-4:10/km, jog 200 m\n\ncross: rower\n  2 x 500 m, rest 1:00\n'
    const logbook = typed(run, '2026-11-19', '4:05', '4:06.4', '4:04', '1:57', '1:58')
    const last = (text: string) => earlierDays(knownIn(logbook)).lastTime({ text })
    expect(last('3x1km @ 4:00-4:10/KM, jog 200 m')).toBe('19 Nov: 4:05 4:06.4 4:04')
    // The range has moved on, as "next" says.
    expect(last('3 x 1 km @ 3:58-4:08/km, jog 200 m')).toBe('19 Nov: 4:05 4:06.4 4:04')
    expect(last('2 x 500 m, rest 1:00')).toBe('19 Nov: 1:57 1:58')
    expect(last('3 x 1 km')).toBeNull()
  })

  test('has how far it went in a run given by time, from the last day on which that is known', () => {
    const run = 'Morning\n\nrun: treadmill\n  3 x (3 min @ 13.5 km/h, jog 2 min)\n  20 min easy\n'
    const logbook = typed(run, '2026-11-19', '=', '=', '680 m', '=')
    const last = (text: string) => earlierDays(knownIn(logbook)).lastTime({ text, far: 'km' })
    expect(last('3 x (3 min @ 13.5 km/h, jog 2 min)')).toBe('19 Nov: 675 m, 675 m, 680 m')
    expect(last('20 min easy')).toBeNull()
  })

  test('leaves out what was skipped, and a day on which nothing was timed', () => {
    const run = 'Morning\n\nrun\n  3 x 1 km, jog 200 m\n  2 km easy\n'
    const logbook = typed(run, '2026-11-19', '4:05', '-', '4:04', '=')
    const last = (text: string) => earlierDays(knownIn(logbook)).lastTime({ text })
    expect(last('3 x 1 km, jog 200 m')).toBe('19 Nov: 4:05 4:04')
    expect(last('2 km easy')).toBeNull()
  })

  test('names no repetition of a failed cluster set, whose groups are counted apart', () => {
    const { logbook } = squatted({ '2026-11-19': [{ reps: 2, failed: true, other: { groups: [1, 1] } }] })
    expect(earlierDays(knownIn(logbook)).lastTime(squat)).toBe('19 Nov: (1+1) x 92.5, failed')
  })

  test('is found for endurance work on a day without a run, and for a run without working out a summary', () => {
    const rower = typed('Row\n\ncross: rower\n  2 x 500 m, rest 1:00\n', '2026-11-19', '1:57', '1:58')
    expect(earlierDays(knownIn(rower)).lastTime({ text: '2 x 500 m, rest 1:00' })).toBe('19 Nov: 1:57 1:58')
    const runs = typed('Track\n\nrun\n  2 x 500 m, rest 1:00\n', '2026-11-19', '1:57', '1:58')
    const summary = () => {
      throw new Error('the summary was worked out')
    }
    const index = () => runs.index().map((entry) => Object.create(entry, { summary: { value: summary } }))
    const { lastTime } = earlierDays(knownIn({ ...runs, damages: [], index }))
    expect(lastTime({ text: '2 x 500 m, rest 1:00' })).toBe('19 Nov: 1:57 1:58')
  })
})

describe('the maxima for percentages', () => {
  // One repetition at RPE 10 is the load itself, not an estimate.
  const single = (load: number): Set[] => [{ reps: 1, load, rpe: 10 }]
  const maxima = (days: Record<string, Set[]>) => knownIn(squatted(days).logbook).maxima

  test('are from the last 42 days', () => {
    expect(maxima({ '2026-10-15': single(100) })).toEqual([
      { name: 'front squat', kg: 100, basis: 'estimate of 15 Oct' },
    ])
    expect(maxima({ '2026-10-14': single(100) })).toEqual([])
  })

  test('leave out a lift that was done only with assistance or without any load added', () => {
    const added = (kg: number) => {
      const load = { kind: 'bodyweight' as const, added: kg, unit: 'kg' as const }
      return maxima({ '2026-11-19': [{ reps: 1, rpe: 10, other: { load } }] })
    }
    expect(added(10)).toMatchObject([{ kg: 10 }])
    expect(added(0)).toEqual([])
    expect(added(-20)).toEqual([])
  })

  test('leave out an exercise that nothing is estimated from', () => {
    const logbook = typed('Evening\n\nlift\n  plank: 1 x 45 s\n', '2026-11-19', '=')
    expect(knownIn(logbook).maxima).toEqual([])
  })

  test('are those with which a command reads the day, also where one estimate is 0 kg', () => {
    const pressed = (kg: number): Set[] => {
      const load = { kind: 'bodyweight' as const, added: kg, unit: 'kg' as const }
      return [{ reps: 1, rpe: 10, other: { load } }]
    }
    const { logbook } = squatted({ '2026-11-12': pressed(10), '2026-11-19': pressed(0) })
    const { maxima } = knownIn(logbook)
    expect(maxima).toEqual([{ name: 'front squat', kg: 10, basis: 'estimate of 12 Nov' }])
    expect(maxima).toEqual(maximaOn(logbook.index(), '2026-11-26', 'd MMM'))
  })

  test('are the mean of the last three, weighted 3 : 2 : 1, without those that are "at least"', () => {
    const days = {
      '2026-11-01': single(90),
      '2026-11-03': single(100),
      '2026-11-10': single(103),
      '2026-11-17': single(107),
    }
    const [found] = maxima({ ...days, '2026-11-24': [{ reps: 3, load: 120 }] })
    expect(found?.basis).toBe('mean of 3 estimates to 17 Nov')
    expect(found?.kg).toBeCloseTo((3 * 107 + 2 * 103 + 100) / 6, 9)
  })
})

describe('the bar and plates of a day', () => {
  const settings = { ...defaultSettings, onBar: ['landmine press'], offBar: ['leg press'] }
  const equipment = equipmentWith(settings)

  test('are those of the settings, unless the day names a bar', () => {
    expect(equipment('kg', legs, 'front squat')).toEqual({
      bar: 20,
      collar: 0,
      plates: settings.plates.kg,
      dumbbellStep: 2.5,
    })
    expect(equipment('lb', legs, 'front squat')).toEqual({
      bar: 45,
      collar: 0,
      plates: settings.plates.lb,
      dumbbellStep: 5,
    })
    expect(equipment('kg', { ...legs, bar: { value: 15, unit: 'kg' } }, 'front squat').bar).toBe(15)
  })

  test('say whether an exercise uses the bar if the settings do', () => {
    expect(equipment('kg', legs, 'Leg Presses')).toMatchObject({ isOnBar: false })
    expect(equipment('kg', legs, 'landmine press')).toMatchObject({ isOnBar: true })
    expect(equipment('kg', legs, 'front squat')).not.toHaveProperty('isOnBar')
    const both = equipmentWith({ ...defaultSettings, onBar: ['leg press'], offBar: ['leg press'] })
    expect(both('kg', legs, 'leg press')).toMatchObject({ isOnBar: false })
    const plain = equipmentWith({ ...defaultSettings, collar: { kg: 2.5, lb: 5 } })
    expect(plain('lb', legs, 'leg press')).toEqual({
      bar: 45,
      collar: 5,
      plates: defaultSettings.plates.lb,
      dumbbellStep: 5,
    })
  })
})

test("body mass on a day is the file's, else the newest in the settings up to then", () => {
  const bodyMasses = [
    { date: '2026-11-01', value: 68, unit: 'kg' as const },
    { date: '2026-11-20', value: 69, unit: 'kg' as const },
  ]
  const settings = { ...defaultSettings, bodyMasses }
  expect(bodyMassKgOn(settings, '2026-11-19')).toBe(68)
  expect(bodyMassKgOn(settings, '2026-11-26')).toBe(69)
  expect(bodyMassKgOn(settings, '2026-10-31')).toBeNull()
  expect(bodyMassKgOn(settings, '2026-11-26', { value: 70, unit: 'kg' })).toBe(70)
})

test('the exercises of the last 366 days are offered when swapping', () => {
  const exercises = (date: string) =>
    earlierDays(knownIn(squatted({ [date]: [{ reps: 3 }] }).logbook)).exercises()
  expect(exercises('2025-11-25')).toEqual(['front squat'])
  expect(exercises('2025-11-24')).toEqual([])
})

test('the difference that running makes to a lift is known if it is clear, in sixteen weeks of squats fresh and after runs', () => {
  const folder = temporaryFolder()
  writeMadeUpLogbook(join(folder, 'logbook'), { seed: 1, weeks: 16, last: '2026-11-25' })
  const { runCost } = earlierDays(knownIn(openLogbook(join(folder, 'logbook')), '2026-11-26'))
  const cost = runCost('front squat')
  // The generator takes 4 % off.
  expect((cost?.afterRunKg ?? 0) / (cost?.freshKg ?? 1)).toBeCloseTo(0.96, 1)
  expect(runCost('dip')).toBeNull()
})

test('a warning sign in another session ends advice for that day, and is known to the recorder for 14 days', () => {
  for (const change of [{ pain: 'chest' }, { note: 'felt faint' }]) {
    const logbook = openLogbook(temporaryFolder())
    const event = setRecorded(1, 3)
    const result = { ...event.result, ...change }
    logbook.create(legs, started, [{ ...event, result }, finished]).close()
    const contextOn = (date: string) => contextIn(logbook, date)
    const signsOn = (date: string) => contextOn(date).earlierToday.pains.length
    expect(contextOn(started.date).advice).toBe(false)
    expect(contextOn('2026-11-27').advice).toBe(true)
    expect([signsOn('2026-12-10'), signsOn('2026-12-11')]).toEqual([1, 0])
  }
})

test('pains of this morning and of other sessions of today, and failures in them, are known to the recorder', () => {
  const knownOf = (logbook: Logbook, date = today) => contextIn(logbook, date).earlierToday
  const hurt = squatted({
    '2026-11-25': [{ reps: 3, failed: true, other: { pain: 'left hip 3' } }],
    '2026-11-26': [{ reps: 3, other: { pain: 'left calf 4' } }],
  }).logbook
  expect(knownOf(hurt)).toMatchObject({ pains: [{ place: 'left calf', level: 4 }], hasFailed: false })
  expect(knownOf(hurt, '2026-11-27')).toEqual({ pains: [], hasFailed: false })
  expect(knownOf(squatted({ '2026-11-26': [{ reps: 2, failed: true }] }).logbook).hasFailed).toBe(true)
  const morning = openLogbook(temporaryFolder())
  const at = '2026-11-26T06:30:00.000+01:00'
  const soreness = [{ place: 'left calf', level: 4 }]
  addMornings(morning.directory, [{ type: 'typed', at, date: '2026-11-26', values: { soreness } }])
  expect(knownOf(morning).pains).toMatchObject([{ place: 'left calf', level: 4 }])
})

test('a session of today whose file was damaged since brings no warning sign', () => {
  const { logbook } = squatted({ '2026-11-26': [{ reps: 3 }] })
  const index = () => logbook.index().map((entry) => ({ ...entry, summary: () => null }))
  expect(earlierDays(knownIn({ ...logbook, damages: [], index })).earlierToday.pains).toEqual([])
})

test('advice follows the settings where today brought no warning sign', () => {
  const hurt = squatted({ '2026-11-26': [{ reps: 3, other: { pain: 'chest 0' } }] })
  for (const advice of [true, false]) {
    const settings = { ...defaultSettings, advice }
    expect(contextIn(hurt.logbook, today, settings).advice).toBe(advice)
    expect(contextIn(openLogbook(temporaryFolder()), today, settings).advice).toBe(advice)
  }
})

test('the logbook is read once for all questions about earlier days', () => {
  const { logbook } = squatted({ '2025-11-24': [{ reps: 3 }], '2025-11-25': [{ reps: 3 }] })
  let read = 0
  const index = () => {
    read += 1
    return logbook.index()
  }
  const known = knownIn({ ...logbook, damages: [], index })
  const days = earlierDays(known)
  expect(days.lastTime(squat)).toBe(days.lastTime({ exercise: 'front squat', unit: 'kg' }))
  expect(days.exercises()).toBe(days.exercises())
  days.bestBefore('front squat', 1)
  expect(known.maxima).toEqual([])
  expect(read).toBe(1)
})
