import { describe, expect, test } from 'vitest'
import type { SessionState } from '../../src/session/state.ts'
import { changesOf } from '../../src/summary/changes.ts'
import { runningOfDay } from '../../src/summary/day.ts'
import {
  harderThanMeant,
  hardIntervals,
  heavyLegSetsOf,
  isHardRunning,
  isLegLift,
  meantOf,
  wasHard,
} from '../../src/summary/hard.ts'
import { walkThrough } from '../day.ts'

const goal = 'goal: 10 km in 40:00'

/** A day of one line, its result typed, the part closed with an effort. Goal pace is 4:00/km; 15 % slower 4:36/km. */
function done(line: string, entry: string, effort: number | null, title = 'Day') {
  const { state } = walkThrough(`${title}\n${goal}\n\nrun\n  ${line}\n`).entry(entry)
  const [part] = state.partStates
  return { ...state, partStates: [{ ...part, effort }] } as typeof state
}

function hardRunningDone(state: SessionState, hrMax: number | null) {
  const hard = state.parts.flatMap((_, part) => hardIntervals(state, part, hrMax))
  const figures = runningOfDay(state, (step) => hard.includes(step))
  return { hardMeters: figures.hardMeters, hardSeconds: figures.hardSeconds }
}

describe('hard running by the results', () => {
  test.each([
    [
      'an easy 10 km at heart rate 178 of 190 counts as hard, whatever its effort',
      '10 km easy',
      '55:00 hr 178',
      3,
      190,
      true,
    ],
    ['heart rate 167 of 190 is below 88 %', '10 km easy', '40:00 hr 167', 9, 190, false],
    ['without a highest heart rate the effort decides', '10 km easy', '55:00 hr 178', 7, null, true],
    ['effort 6 is not hard, at any pace', '5 km tempo', '20:00', 6, null, false],
    [
      'an effort typed with the interval goes before the one of its part',
      '5 km tempo',
      '20:00 rpe 8',
      4,
      null,
      true,
    ],
    ['without either, pace within 15 % of the goal', '5 km easy', '23:00', null, null, true],
    ['and slower than that is not', '5 km tempo', '23:30', null, null, false],
    ['heart rate 168 of 190 is above 88 %, whatever its pace', '10 km easy', '60:00 hr 168', 3, 190, true],
    ['heart rate 176 of 200 is 88 % of it', '10 km easy', '60:00 hr 176', 3, 200, true],
    ['effort 7 typed with the interval is hard', '5 km easy', '40:00 rpe 7', 4, null, true],
    ['and effort 6.5 is not', '5 km tempo', '20:00 rpe 6.5', 9, null, false],
    ['4:36/km is 15 % slower than 4:00/km', '5 km easy', '23:00', null, null, true],
    ['up a hill the word decides, not the pace', '5 km easy, grade 2%', '20:00', null, null, false],
    ['at a grade of 1 % the pace decides', '5 km easy, grade 1%', '20:00', null, null, true],
  ])('is judged: %s', (_, line, entry, effort, hrMax, hard) => {
    expect(wasHard(done(line, entry, effort), 0, hrMax)).toBe(hard)
  })

  test('is told by the word only for an interval without a time', () => {
    const state = walkThrough('Day\n\nrun\n  20 min tempo\n').entry('5 km').state
    expect(wasHard(state, 0, null)).toBe(true)
  })

  test('is summed over the run parts, each by its own effort, even if two have the same', () => {
    const walked = walkThrough(
      `Day\n${goal}\n\nrun\n  5 km tempo\n  1 km easy\nrun: hills\n  3 km easy\ncross: rower\n  2 km hard\n`,
    )
    for (const entry of ['20:00', '5:30', '18:00', '8:00']) walked.entry(entry)
    const at = (...efforts: (number | null)[]) =>
      hardRunningDone(
        {
          ...walked.state,
          partStates: walked.state.partStates.map((part, index) => ({
            ...part,
            effort: efforts[index] ?? null,
          })),
        },
        null,
      )
    expect(walked.state.recorded.size).toBe(4)
    expect(at(8, 8)).toEqual({ hardMeters: 8000, hardSeconds: 0 })
    expect(at(8, 6)).toEqual({ hardMeters: 5000, hardSeconds: 0 })
    expect(at(6, 7)).toEqual({ hardMeters: 3000, hardSeconds: 0 })
    expect(at(null, null)).toEqual({ hardMeters: 5000, hardSeconds: 0 })
  })

  test('is told split by split, by the heart rate or, in a part with a hard effort, by the pace', () => {
    const splits = (title: string, ...entries: string[]) => {
      const walked = walkThrough(`Day\n${goal}\n\nrun\n  ${title}\n`).space()
      return entries.reduce((walk, entry) => walk.jump(240).space().entry(entry), walked).state
    }
    const beating = splits('3 km, split 1 km', '4:00 hr 160', '4:00 hr 178', '4:00 hr 182')
    expect(hardRunningDone(beating, 190)).toEqual({ hardMeters: 2000, hardSeconds: 0 })
    const atEffort8 = (title: string) => {
      // 4:40, 4:35 and 4:30/km.
      const paced = splits(title, '28:00', '27:30', '27:00')
      const state = { ...paced, partStates: [{ ...paced.partStates[0], effort: 8 }] } as typeof paced
      return hardRunningDone(state, null)
    }
    expect(atEffort8('18 km, split 6 km')).toEqual({ hardMeters: 12_000, hardSeconds: 0 })
    // All of a race is hard, the splits in which it faded too.
    expect(atEffort8('18 km race, split 6 km')).toEqual({ hardMeters: 18_000, hardSeconds: 0 })
  })

  test('counts by its time where its distance is not known', () => {
    const { state } = walkThrough('Day\n\nrun\n  20 min tempo\n').space().wait(1200).entry('20:00')
    expect(hardRunningDone(state, null)).toEqual({ hardMeters: 0, hardSeconds: 1200 })
  })

  test('leaves out the warm-up of a hard part if something in it is hard by pace', () => {
    const walked = walkThrough(`Day\n${goal}\n\nrun\n  2 km easy\n  5 km tempo\n`)
      .entry('12:00')
      .space()
      .entry('20:00')
    const state = {
      ...walked.state,
      partStates: [{ ...walked.state.partStates[0], effort: 8 }],
    } as typeof walked.state
    expect(wasHard(state, 0, null)).toBe(true)
  })
})

describe('hard running by what was meant', () => {
  const meant = (line: string, header: string) => {
    const { state, prescription } = walkThrough(`Day\n${header}\n\nrun\n  ${line}\n`)
    const [step] = state.steps
    if (step?.kind !== 'interval') throw new Error(line)
    return isHardRunning(step, prescription)
  }

  test.each([
    ['threshold', '5 km threshold', '', true],
    ['easy', '5 km easy', '', false],
    ['a pace without a goal', '5 km @ 5:00/km', '', true],
    ['a time without a goal', '5 km in 25:00', '', true],
    ['a pace 15 % slower than the goal', '5 km @ 4:36/km', goal, true],
    ['a pace slower than that', '5 km @ 4:45/km', goal, false],
    ['a range that begins within it', '5 km @ 4:30-4:50/km', goal, true],
    ['strides', '3 x 100 m strides', goal, false],
    ['a race', '5 km race', '', true],
    ['an effort of 7', '5 km @ rpe 6-7', goal, true],
    ['an effort of 6', '5 km @ rpe 6', goal, false],
    ['a heart rate alone', '5 km @ hr 150', '', false],
    ['nothing', '5 km', '', false],
  ])('is told by %s', (_, line, header, hard) => expect(meant(line, header)).toBe(hard))

  test('all of a hard part is hard if nothing in it is by pace or word', () => {
    expect(wasHard(done('5 km easy', '40:00', 8), 0, null)).toBe(true)
    expect(wasHard(done('5 km easy', '40:00', 7), 0, null)).toBe(true)
    expect(wasHard(done('5 km easy', '40:00', 6.5), 0, null)).toBe(false)
  })

  test('is not known of a part without results', () => {
    const walked = walkThrough('Day\n\nrun\n  5 km tempo\nlift\n  squat 1 x 5\n')
    expect([0, 1].map((part) => wasHard(walked.state, part, null))).toEqual([null, null])
  })
})

describe('a day meant to be easy', () => {
  test('says so if it turned out hard, with the evidence', () => {
    const state = done('10 km easy', '55:00 hr 168', 8)
    expect(meantOf(state, 0)).toBe('easy')
    expect(harderThanMeant(state, 0, null)).toBe('hr 168 and effort 8 in fact')
    expect(harderThanMeant(done('10 km easy', '60:00 hr 140', 3), 0, null)).toBeNull()
  })

  test('is recognised by its title too, and a tempo run is not easy', () => {
    expect(meantOf(done('10 km', '60:00', null, 'Easy Sunday'), 0)).toBe('easy')
    expect(meantOf(done('5 km tempo', '20:00', null), 0)).toBeNull()
    expect(meantOf(done('5 km', '20:00', null), 0)).toBeNull()
    expect(meantOf(done('5 km', '20:00', null, 'Uneasy Sunday'), 0)).toBeNull()
  })

  test('is recognised by the name of a part, and by its words only if all are easy ones', () => {
    const meant = (lines: string) => meantOf(walkThrough(`Day\n\n${lines}`).state, 0)
    expect(meant('run: recovery\n  5 km @ 5:00/km\n')).toBe('easy')
    expect(meant('cross: rower\n  5 km easy\n')).toBe('easy')
    expect(meant('run\n  2 km warm-up\n  5 km easy\n  1 km cool-down\n')).toBe('easy')
    expect(meant('run\n  2 km warm-up\n  1 km cool-down\n')).toBeNull()
    expect(meant('run\n  5 km easy\n  1 km fast\n')).toBeNull()
    expect(meant('run\n  5 km easy\n  1 km\n')).toBeNull()
    expect(meant('lift: easy\n  squat 1 x 5\n')).toBeNull()
  })

  test('may have strides, but not the repeats of a track day, whatever its title says', () => {
    const meant = (line: string) =>
      meantOf(walkThrough(`Easy Sunday\n\nrun\n  8 km easy\n  ${line}\n`).state, 0)
    expect(meant('6 x 100 m fast, walk 100 m')).toBe('easy')
    expect(meant('8 x 20 s fast, jog 1:00')).toBe('easy')
    expect(meant('6 x 500 m fast, jog 200 m')).toBeNull()
    expect(meant('4 x 5 min @ rpe 8, jog 2:00')).toBeNull()
  })

  test('is not hard for its strides, but for its effort or the easy running between them', () => {
    const strides = (time: string) =>
      walkThrough(`Easy Sunday\n${goal}\n\nrun\n  8 km easy\n  2 x 100 m fast, walk 100 m\n`)
        .entry(time)
        .entry('18')
        .entry('18')
    expect(harderThanMeant(strides('46:00').state, 0, null)).toBeNull()
    expect(harderThanMeant(strides('33:00').state, 0, null)).toBe('hard in fact')
    const closed = strides('46:00').typed('f').entry('8').entry('50')
    expect(harderThanMeant(closed.state, 0, null)).toBe('effort 8 in fact')
    expect(changesOf(closed.state, null)).toEqual(['run: easy by the plan, effort 8 in fact'])
  })

  test('is judged by the heart rate before the effort where the highest one is known', () => {
    const state = done('10 km easy', '60:00 hr 150', 8)
    expect(harderThanMeant(state, 0, 190)).toBeNull()
    expect(harderThanMeant(state, 0, 165)).toBe('hr 150 and effort 8 in fact')
  })

  test('names the highest heart rate, the effort, or neither', () => {
    const walked = walkThrough(`Day\n${goal}\n\nrun\n  2 x 1 km easy\n`)
    const { state } = walked.entry('4:00 hr 168').entry('4:00 hr 181')
    expect(harderThanMeant(state, 0, null)).toBe('hr 181 in fact')
    expect(harderThanMeant(done('10 km easy', '55:00', 8), 0, null)).toBe('effort 8 in fact')
    expect(harderThanMeant(done('10 km easy', '40:00', null), 0, null)).toBe('hard in fact')
    expect(harderThanMeant(done('10 km tempo', '40:00', 9), 0, null)).toBeNull()
    expect(harderThanMeant(done('10 km easy, hr under 145', '60:00 hr 168', 4), 0, null)).toBe(
      'hr 168 and effort 4 in fact',
    )
    expect(harderThanMeant(done('10 km easy, hr under 145', '60:00 hr 145', 4), 0, null)).toBeNull()
  })
})

describe('heavy sets by the results', () => {
  const lifted = (line: string, entry: string, headers = '') =>
    wasHard(walkThrough(`Day\n${headers}\nlift\n  ${line}\n`).entry(entry).state, 0, null)
  test.each([
    ['80 % of the maximum', 'bench press 1 x 8 @ 80 kg', '8', 'max: bench press 100 kg\n', true],
    ['79 % of it', 'bench press 1 x 8 @ 79 kg', '8', 'max: bench press 100 kg\n', false],
    ['6 repetitions to an effort of 8', 'split squat 1 x 6 @ 2x20 kg', '6 @8', '', true],
    ['6 repetitions to an effort of 7', 'split squat 1 x 6 @ 2x20 kg', '6 @7', '', false],
    ['8 repetitions to an effort of 8', 'lunge 1 x 8 @ 2x20 kg', '8 @8', '', false],
    ['a failed set', 'squat 1 x 12 @ 60 kg', '9!', '', true],
    ['no light set that failed late', 'calf raise 1 x 20 @ 2x10 kg', '18!', '', false],
    ['7 repetitions to an effort of 8', 'lunge 1 x 7 @ 2x20 kg', '7 @8', '', false],
    ['6 of 8 repetitions to an effort of 8', 'lunge 1 x 8 @ 2x20 kg', '6 @8', '', true],
    ['6 repetitions without an effort', 'lunge 1 x 6 @ 2x20 kg', '6', '', false],
    ['a prescribed 80 % of an unknown maximum', 'squat 1 x 8 @ 80%', '8 x 60', '', true],
    ['a prescribed 79 % of an unknown maximum', 'squat 1 x 8 @ 79%', '8 x 60', '', false],
    [
      'added load, which is no share of a maximum',
      'dip 1 x 8 @ bodyweight+40 kg',
      '8',
      'max: dip 45 kg\n',
      false,
    ],
  ])('are judged by %s', (_, line, entry, headers, heavy) => expect(lifted(line, entry, headers)).toBe(heavy))
})

describe('a leg lift', () => {
  // Common names of lifts; which muscles they train is common practice, no source.
  test.each([
    ...[
      'front squat',
      'deadlift',
      'dead-lift',
      'lunges',
      'leg press',
      'hip thrust',
      'hinge',
      'RDL',
      'step-up',
    ],
    ...[
      'good morning',
      'leg extension',
      'leg curl',
      'calf raise',
      'calves',
      'sled push',
      'box jump',
      'pogo hop',
    ],
    ...['bound', 'clean', 'snatch', 'kettlebell swing', 'hamstring curl', 'glute bridge', 'hip abduction'],
    ...['nordic curl', 'adductor machine', 'pistol'],
  ])('%s is one', (name) => expect(isLegLift(name)).toBe(true))

  test.each(['bench press', 'row', 'curl', 'pull-up', 'chopper', 'plank', 'shoulder abduction', 'arm swing'])(
    'is not %s',
    (name) => expect(isLegLift(name)).toBe(false),
  )

  test('counts as heavy for the legs by its set, and in a part called legs any lift but one of the arms', () => {
    const count = (part: string, line: string, entry: string) =>
      heavyLegSetsOf(walkThrough(`Day\n\n${part}\n  ${line}\n`).entry(entry).state)
    expect(count('lift', 'squat 2 x 5 @ 100 kg', '5 @8')).toBe(1)
    expect(count('lift', 'squat 2 x 5 @ 100 kg', '5 @7')).toBe(0)
    expect(count('lift', 'thruster 1 x 5 @ 60 kg', '5 @9')).toBe(0)
    expect(count('lift: legs', 'thruster 1 x 5 @ 60 kg', '5 @9')).toBe(1)
    for (const arms of ['pull-up', 'chin-up', 'dip', 'push press', 'bench press', 'row', 'overhead press'])
      expect(count('lift: legs', `${arms} 1 x 5 @ 60 kg`, '5 @9'), arms).toBe(0)
    for (const trunk of ['plank', 'sit-up', 'crunch', 'curl', 'leg raise to bar'])
      expect(count('lift: legs', `${trunk} 1 x 5 @ 60 kg`, '5 @9'), trunk).toBe(0)
    expect(count('lift: legs', 'leg curl 1 x 5 @ 60 kg', '5 @9')).toBe(1)
  })
})
