import { describe, expect, test } from 'vitest'
import { expand } from '../../src/prescription/expand.ts'
import { warmUpWith } from '../../src/prescription/planned.ts'
import type { IntervalStep, RecoveryStep, SetStep, Step } from '../../src/prescription/step.ts'
import { dayOf, plainContext, stepsIn } from '../day.ts'

const runOf = (line: string, headers = '') =>
  stepsIn(`Day\n${headers}\nrun\n  ${line}\n`) as (IntervalStep | RecoveryStep)[]
const intervals = (steps: readonly Step[]) =>
  steps.filter((step): step is IntervalStep => step.kind === 'interval')
const setsOf = (line: string) =>
  stepsIn(`Day\n\nlift\n  ${line}\n`).filter((step): step is SetStep => step.kind === 'set')

/** `1000 j400 1000`: metres, or seconds with an s; a recovery by its first letter. */
const row = (steps: readonly Step[]) =>
  steps
    .map((step) => {
      if (step.kind !== 'interval' && step.kind !== 'recovery') return step.kind
      const amount = step.meters !== null ? `${step.meters}` : step.seconds !== null ? `${step.seconds}s` : ''
      return step.kind === 'interval' ? amount : `${step.move[0]}${amount || step.way}`
    })
    .join(' ')

describe('a recovery', () => {
  test('goes between the repeats of the work before it', () => {
    expect(row(runOf('3 x 500 m in 1:50, jog 200 m'))).toBe('500 j200 500 j200 500')
    expect(row(runOf('1 x 500 m in 1:50, jog 200 m'))).toBe('500')
  })

  test('goes between the rounds of the group before it', () => {
    expect(row(runOf('2 x (4 x 200 m in 33-35 s, jog 200 m), walk 3:00'))).toBe(
      '200 j200 200 j200 200 j200 200 w180s 200 j200 200 j200 200 j200 200',
    )
  })

  test('is run each time after an unrepeated interval inside a group, and left out where it would end the item', () => {
    expect(row(runOf('3 x (1 km @ 3:50, jog 400 m)'))).toBe('1000 j400 1000 j400 1000')
    expect(row(runOf('6 x (3 min hard, jog 2 min)'))).toBe(
      '180s j120s 180s j120s 180s j120s 180s j120s 180s j120s 180s',
    )
  })

  test('goes between the items around it if it has a line of its own', () => {
    const steps = stepsIn('Day\n\nrun\n  3 km @ 4:00/km, split 1 km\n  jog 600 m\n  500 m in 1:50\n')
    expect(row(steps)).toBe('1000 1000 1000 j600 500')
    // Any of the splits before it makes its metres count.
    expect(steps[3]).toMatchObject({ countsWith: ['1.1.p1', '1.1.p2', '1.1.p3'], expectedSeconds: 252 })
  })

  test('counts with the interval right before it, all of its splits', () => {
    const steps = runOf('2 x 2 km @ 4:00/km, jog 400 m, split 1 km')
    expect(row(steps)).toBe('1000 1000 j400 1000 1000')
    expect(steps[2]).toMatchObject({ countsWith: ['1.1.p1', '1.1.p2'] })
    const rounds = runOf('2 x (1 km @ 3:50, jog 400 m, 500 m @ 3:40, jog 200 m)')
    const recoveries = rounds.filter((step): step is RecoveryStep => step.kind === 'recovery')
    expect(recoveries.map((step) => step.countsWith)).toEqual([['1.1.p1'], ['1.1.p2'], ['1.1.p3']])
  })

  test('goes between the rungs of a ladder, which may be two', () => {
    expect(row(runOf('1-2 km easy'))).toBe('1000 2000')
    expect(row(runOf('200-400-800-400-200 m @ 3:30/km, jog 200 m'))).toBe(
      '200 j200 400 j200 800 j200 400 j200 200',
    )
  })

  test('of a group comes after its last ladder, in place of the recovery between the rungs', () => {
    const steps = runOf('2 x (200-400 m, jog 100 m), rest 4:00')
    expect(row(steps)).toBe('200 j100 400 r240s 200 j100 400')
    expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length)
    expect(row(runOf('2 x (200-400 m, jog 100 m)'))).toBe('200 j100 400 j100 200 j100 400')
  })

  test('takes 7:00/km jogging and 10:00/km walking; its own time standing; the way back is as long as the repeat', () => {
    const expected = (recovery: string) =>
      (runOf(`2 x 400 m in 1:20, ${recovery}`)[1] as RecoveryStep).expectedSeconds
    expect(expected('jog 400 m')).toBe(168)
    expect(expected('walk 100 m')).toBe(60)
    expect(expected('stand 1:30')).toBe(90)
    expect(expected('walk back')).toBe(240)
    expect(expected('jog 1 lap')).toBe(168)
  })

  test('runs the way back of a repeat with all its splits, and of a repeat by time an unknown distance', () => {
    expect(row(runOf('2 x 400 m, jog back'))).toBe('400 j400 400')
    expect(row(runOf('2 x 1 km, split 500 m, jog down'))).toBe('500 500 j1000 500 500')
    expect(runOf('2 x 45 s hard, jog down')[1]).toMatchObject({ meters: null, expectedSeconds: null })
  })

  test('counts with the item before if it is at the head of a group', () => {
    const steps = stepsIn('Day\n\nrun\n  1 km easy\n  2 x (jog 200 m, 400 m in 1:20)\n')
    expect(row(steps)).toBe('1000 j200 400 j200 400')
    expect(steps[1]).toMatchObject({ countsWith: ['1.1.p1'] })
  })
})

describe('splits', () => {
  test('give one result each, and the last may be shorter', () => {
    const steps = intervals(runOf('2.5 km @ 4:00/km, split 1 km'))
    expect(
      steps.map(({ meters, short, split, endsInterval }) => ({ meters, short, split, endsInterval })),
    ).toEqual([
      { meters: 1000, short: false, split: true, endsInterval: false },
      { meters: 1000, short: false, split: true, endsInterval: false },
      { meters: 500, short: true, split: true, endsInterval: true },
    ])
    expect(steps.map((step) => [step.number, step.of])).toEqual([
      [1, 3],
      [2, 3],
      [3, 3],
    ])
  })

  test('are ignored if they are as long as the interval, or longer', () => {
    expect(intervals(runOf('1 km @ 4:00/km, split 1 km'))[0]).toMatchObject({
      split: false,
      endsInterval: true,
      of: 1,
    })
    expect(intervals(runOf('800 m @ 4:00/km, split 1 km'))).toHaveLength(1)
  })

  test('end with 9.34 m in a mile by laps, and with 195 m in a marathon by kilometres', () => {
    expect(row(runOf('1 mi @ 6:00/mi, split 400 m'))).toMatch(/^400 400 400 400 9\.34\d*$/)
    const marathon = intervals(runOf('marathon @ 4:00/km, split 1 km'))
    expect(marathon).toHaveLength(43)
    expect(marathon.at(-1)).toMatchObject({ meters: 195, short: true })
  })

  test('are not added by rounding', () => {
    expect(intervals(runOf('3 mi @ 6:30/mi, split 1 mi'))).toHaveLength(3)
    expect(intervals(runOf('1.2 km @ 4:00/km, split 0.4 km')).map((step) => step.short)).toEqual([
      false,
      false,
      false,
    ])
  })
})

describe('a target', () => {
  const target = (line: string, headers = '') => intervals(runOf(line, headers)).map((step) => step.target)

  test('scales a pace to the interval; a single value means 1 % either way, at least half a second', () => {
    expect(target('500 m @ 3:35-3:45/km')[0]?.seconds).toEqual({ from: 107.5, to: 112.5 })
    expect(target('1 km @ 4:00/km')[0]?.seconds).toEqual({ from: 237.6, to: 242.4 })
    expect(target('100 m in 20 s')[0]?.seconds).toEqual({ from: 19.5, to: 20.5 })
    expect(target('1 km @ 1:50/500 m')[0]?.secondsPerKm).toEqual({ from: 217.8, to: 222.2 })
  })

  test('shares out a time by distance', () => {
    const shared = target('2.5 km in 10:00-10:50, split 1 km')
    expect(shared.map((each) => each?.seconds)).toEqual([
      { from: 240, to: 260 },
      { from: 240, to: 260 },
      { from: 120, to: 130 },
    ])
  })

  test('turns a speed into a pace, with the faster end first', () => {
    expect(target('1 km @ 12-15 km/h')[0]?.seconds).toEqual({ from: 240, to: 300 })
    expect(target('1 mi @ 10 mph')[0]?.secondsPerKm?.from).toBeCloseTo(223.694 * 0.99, 2)
  })

  test("is the goal's pace where the goal is written", () => {
    const goal = target('1 km @ goal', 'goal: 10 km in 39:30\n')[0]?.seconds
    expect(goal?.from).toBeCloseTo(234.63, 6)
    expect(goal?.to).toBeCloseTo(239.37, 6)
  })

  test('stays a pace for an interval by time, to be judged once the metres are typed', () => {
    expect(target('20 min @ 4:00-4:10/km')[0]).toMatchObject({
      seconds: null,
      secondsPerKm: { from: 240, to: 250 },
    })
  })

  test('fixes no time if it is an effort, a heart rate or a word', () => {
    expect(target('20 min @ rpe 6-7')[0]).toMatchObject({ seconds: null, rpe: { from: 6, to: 7 } })
    expect(target('20 min at hr 150-160')[0]).toMatchObject({ heartRate: { from: 150, to: 160 } })
    expect(target('5 km easy, hr 130-145')[0]).toMatchObject({
      word: 'easy',
      heartRate: { from: 130, to: 145 },
    })
    expect(target('5 km')[0]).toBeNull()
  })
})

describe('a clause of a group', () => {
  test('applies to every work in it without its own', () => {
    const steps = intervals(runOf('2 x (400 m in 1:20, grade 2%, 200 m in 40 s), grade 5%, "uphill"'))
    expect(steps.map((step) => step.grade)).toEqual([2, 5, 2, 5])
    expect(steps[1]?.notes).toEqual(['uphill'])
  })

  test('leaves each work an entry of its own, which counts its repeats', () => {
    const day = expand(
      dayOf('Day\n\nrun\n  2 x (1 km @ 3:50, 500 m @ 3:40), jog 400 m\n'),
      plainContext.warmUpOf,
    )
    const [item] = day[0]?.items ?? []
    expect(item?.works).toEqual([
      { text: '1 km @ 3:50/km', nominalMeters: 1000, judgedAgainstGoal: true, paceUnit: 'km', repeats: true },
      { text: '500 m @ 3:40/km', nominalMeters: 500, judgedAgainstGoal: true, paceUnit: 'km', repeats: true },
    ])
    expect(intervals(item?.steps ?? []).map((step) => [step.work, step.number, step.of])).toEqual([
      [0, 1, 2],
      [1, 1, 2],
      [0, 2, 2],
      [1, 2, 2],
    ])
  })

  test('makes no repeats of a continuous run, and a hill is not compared with the goal', () => {
    const worksOf = (line: string) =>
      expand(dayOf(`Day\n\nrun\n  ${line}\n`), plainContext.warmUpOf)[0]?.items[0]?.works[0]
    expect(worksOf('5 km @ 4:00/km, split 1 km')).toEqual({
      text: '5 km @ 4:00/km, split 1 km',
      nominalMeters: 1000,
      judgedAgainstGoal: true,
      paceUnit: 'km',
      repeats: false,
    })
    expect(worksOf('6 x 400 m in 1:20, grade 4%, jog 400 m')).toMatchObject({ judgedAgainstGoal: false })
    expect(worksOf('6 x 400 m in 1:20, grade 1%, jog 400 m')).toMatchObject({ judgedAgainstGoal: true })
    expect(worksOf('200-400-200 m @ 3:40/km')).toMatchObject({ nominalMeters: null, repeats: true })
    expect(worksOf('20 min easy')).toMatchObject({
      nominalMeters: null,
      judgedAgainstGoal: false,
      paceUnit: null,
    })
  })
})

describe('laps', () => {
  test('are 400 m, or the header’s, or those of the lane, also in recoveries', () => {
    expect(row(runOf('2 x 2 laps @ 3:40/km, jog 1 lap'))).toBe('800 j400 800')
    expect(row(runOf('2 x 2 laps @ 3:40/km, jog 1 lap', 'lap: 200 m\n'))).toBe('400 j200 400')
    const lane = runOf('2 x 1 lap @ 3:40/km, jog 1 lap, lane 2')
    expect(lane.map((step) => Math.round((step.meters ?? 0) * 100) / 100)).toEqual([407.04, 407.04, 407.04])
  })

  test('of a lane are those of the header on a track whose lanes are not known', () => {
    expect(row(runOf('2 x 2 laps easy, jog 1 lap, lane 4', 'lap: 200 m\n'))).toBe('400 j200 400')
    expect(runOf('1 lap easy, lane 2', 'lap: 440 yd\n')[0]).toMatchObject({
      meters: expect.closeTo(407.04, 2),
    })
  })
})

describe('intervals and recoveries by time', () => {
  test('follow each other without a key, those by distance do not', () => {
    expect(runOf('2 x (3:00 hard, jog 2:00)').every((step) => step.startsByItself)).toBe(true)
    expect(runOf('2 x (3:00 hard, 2:00 easy)').every((step) => step.startsByItself)).toBe(true)
    expect(runOf('3 x 3:00 hard, jog 400 m').some((step) => step.startsByItself)).toBe(false)
    expect(runOf('3 x 500 m in 1:50, stand 1:00').some((step) => step.startsByItself)).toBe(false)
    expect(runOf('2 x 3:00 hard').some((step) => step.startsByItself)).toBe(false)
  })
})

test('have known metres on a treadmill with a speed', () => {
  const steps = intervals(stepsIn('Day\n\nrun: treadmill\n  10 min @ 12 km/h\n  10 min easy\n'))
  expect(steps[0]?.treadmillSpeed).toBeCloseTo(12 / 3.6, 9)
  expect(steps[1]?.treadmillSpeed).toBeNull()
  const range = intervals(stepsIn('Day\n\nrun: treadmill\n  2 min @ 15-16 km/h\n'))
  expect(range[0]?.treadmillSpeed).toBeCloseTo(15.5 / 3.6, 9)
  expect(intervals(stepsIn('Day\n\nrun: road\n  10 min @ 12 km/h\n'))[0]?.treadmillSpeed).toBeNull()
})

test('a cross part is expanded like a run', () => {
  expect(row(stepsIn('Day\n\ncross: rower\n  2 x 500 m @ 1:50/500 m, rest 1:00\n'))).toBe('500 r60s 500')
})

describe('sets', () => {
  test('are as many as written, each with its dose and load', () => {
    const sets = setsOf('overhead press 10/8/6 @ 30/35/40 kg, rest 2:00-2:30')
    expect(sets.map(({ number, of, load, restAfter }) => ({ number, of, load, restAfter }))).toMatchObject([
      { number: 1, of: 3, load: { from: 30 }, restAfter: { from: 120, to: 150 } },
      { number: 2, load: { from: 35 } },
      { number: 3, load: { from: 40 }, restAfter: null },
    ])
  })

  test('go round by round in a superset, and a round leaves out what is finished', () => {
    const sets = setsOf(
      'pull-up 3 x 6 @ bodyweight + dip 1 x 8 @ bodyweight + plank 2 x 45 s, pause 0:20, rest 1:30',
    )
    expect(
      sets.map(({ name, number, pauseAfter, restAfter }) => [
        name,
        number,
        pauseAfter,
        restAfter?.from ?? null,
      ]),
    ).toEqual([
      ['pull-up', 1, 20, null],
      ['dip', 1, 20, null],
      ['plank', 1, null, 90],
      ['pull-up', 2, 20, null],
      ['plank', 2, null, 90],
      ['pull-up', 3, null, null],
    ])
    expect(sets.map((set) => set.exercise)).toEqual([0, 1, 2, 0, 2, 0])
    expect(sets.every((set) => set.superset)).toBe(true)
  })

  test('have the pause of their line inside if they are cluster sets', () => {
    const sets = setsOf('squat 2 x (2+2) @ 80 kg + calf raise 2 x 12 @ 40 kg, pause 15 s')
    expect(sets.map((set) => [set.pauseInSet, set.pauseAfter])).toEqual([
      [15, 0],
      [null, null],
      [15, 0],
      [null, null],
    ])
  })

  test('have the side, the tempo and the interval of their line', () => {
    expect(setsOf('split squat 2 x 8 @ 2x20 kg, each leg, tempo 3-1-1, every 2:00')[0]).toMatchObject({
      side: 'each leg',
      tempo: '3-1-1',
      every: 120,
      superset: false,
    })
  })
})

test('prep and fuel have one step a line, and ids are unique', () => {
  const steps = stepsIn(
    'Day\n\nprep\n  foam roll 3:00\n  leg swings 2 x 10\n\nrun\n  2 x 500 m, jog 200 m\n\nlift\n  row: 2 x 5 @ 50 kg, build from 30 kg\n\nfuel\n  after: carbs 80 g\n',
  )
  expect(steps.map((step) => step.id)).toEqual([
    '1.1.x1',
    '1.2.x1',
    '2.1.p1',
    '2.1.j1',
    '2.1.p2',
    '3.1.b1',
    '3.1.b2',
    '3.1.s1',
    '3.1.s2',
    '4.1.f1',
  ])
})

describe('a warm-up', () => {
  const warmUp = (item: string, headers = '') =>
    stepsIn(`Day\n${headers}\nlift\n  ${item}\n`).flatMap((step) =>
      step.kind === 'warm-up'
        ? [`${step.load.value} ${step.load.unit} x ${step.reps}, ${step.restSeconds} s`]
        : [],
    )

  test('leads up to the first working load of the first exercise', () => {
    expect(warmUp('front squat: 5 x (1+1+1) @ 92.5 kg, pause 20 s, build from 40 kg')).toEqual([
      '40 kg x 8, 60 s',
      '60 kg x 5, 60 s',
      '75 kg x 3, 60 s',
      '85 kg x 1, 90 s',
    ])
  })

  test('is in the unit of the working load, whatever the unit of its start', () => {
    expect(warmUp('squat: 3 x 5 @ 90 kg, build from 95 lb')[0]).toMatch(/ kg x 8, 60 s$/)
  })

  test('leads to a load by percent if the maximum is known; otherwise there is none', () => {
    expect(warmUp('squat: 3 x 5 @ 80%, build from 40 kg', 'max: squat 100 kg\n').at(-1)).toMatch(
      /^\d+(\.\d)? kg x \d, 90 s$/,
    )
    expect(stepsIn('Day\nmax: squat 100 kg\n\nlift\n  squat: 3 x 5 @ 80%\n')).toHaveLength(3)
  })

  test('ends in a single if the last jump is long and the set short, but not if the set is open', () => {
    const warmUps = (dose: string) => warmUp(`squat: 3 x ${dose} @ 100 kg, build from 60 kg`).at(-1)
    expect(warmUps('3')).toBe('90 kg x 1, 90 s')
    expect(warmUps('(1+1+1)')).toBe('90 kg x 1, 90 s')
    for (const dose of ['5', '5+', 'max', '(2+max)', '(2+2)'])
      expect(warmUps(dose), dose).toBe('80 kg x 3, 90 s')
  })

  test('uses a maximum of earlier days if the file names none', () => {
    const read = dayOf('Day\nmax: row 90 kg\n\nlift\n  row: 2 x 5 @ 80%, build from 30 kg\n')
    const loads = (name: string, kg: number) =>
      expand(
        { ...read, maxima: [] },
        warmUpWith(plainContext.equipmentOf, [{ name, kg, basis: 'typed' }]),
      )[0]?.items[0]?.steps.flatMap((step) => (step.kind === 'warm-up' ? [step.load.value] : []))
    expect(loads('Rows', 75)).toEqual([30, 40, 50])
    expect(loads('bench press', 75)).toEqual([])
    expect(loads('row', 35)).toEqual([])
  })

  test('is missing unless it is asked for', () => {
    expect(warmUp('squat: 3 x 5 @ 90 kg')).toEqual([])
    expect(warmUp('squat: 3 x 5 @ rpe 8')).toEqual([])
  })
})
