import { describe, expect, it } from 'vitest'
import type { Load } from '../../src/prescription/model.ts'
import { changeReps, loadKilograms } from '../../src/progress/loadSteps.ts'
import {
  isRunCoveredByPain,
  painCovering,
  painReason,
  sinceText,
  standingPains,
} from '../../src/progress/pain.ts'
import { needsADoctor, painsAndSigns } from '../../src/session/pain.ts'
import { effortsOf } from '../../src/summary/lifting.ts'
import { exercisesDone } from '../../src/summary/performed.ts'
import { daysBetween } from '../../src/units/calendarDate.ts'
import { dayOf } from '../day.ts'
import { changedLoad, gear, nextOf, state, today } from './nextDays.ts'

/* What a day means for the next one like it, on either side of each limit. These are this program's own rules. */

describe('a run', () => {
  const line = 'run\n  4 x 500 m in 1:50-1:55, jog 200 m'
  const good = '1:52, 1:52, 1:52, 1:52'

  it('was run last on the newest of its days, later ones too', () => {
    const [old, newer] = ['2026-10-20', '2026-11-23'].map((date) => state(date, line, good, 7))
    if (old === undefined || newer === undefined) throw new Error('no day')
    const reason = (later: (typeof old)[]) =>
      nextOf(old, [], today, gear, [], null, later).decisions[0]?.reason
    expect(reason([])).toContain('5 weeks since the last paced run')
    expect(reason([newer])).toContain('once more')
  })

  it('keeps its repeats after five weeks in which other lines were run to a pace, but gets no faster', () => {
    const [before, old] = ['2026-10-13', '2026-10-20'].map((date) => state(date, line, good, 7))
    const other = state('2026-11-23', 'run\n  5 km @ 4:00-4:10/km', '20:30', 7)
    const { decisions } = nextOf(old!, [before!], today, gear, [], null, [other])
    expect(decisions[0]?.reason).toBe('4 of 4 in range at effort 7 -> same range, once more')
  })

  it('needs no easy running first after nine weeks of nothing but that', () => {
    const { decisions } = nextOf(state('2026-09-20', line, good, 7), [], today, gear, [], '2026-11-23')
    expect(decisions[0]?.reason).toBe('9 weeks since the last paced run -> half (was 4 x), no faster range')
  })

  it('is half as long without a range, after weeks without any run, if it was long', () => {
    const after = (line: string, ranOn: string | null) =>
      nextOf(state('2026-09-20', `run\n  ${line}`, '-'), [], today, gear, [], ranOn).decisions.map(
        ({ decision, reason }) => `${decision}: ${reason}`,
      )
    expect(after('24 km easy', '2026-11-05')).toEqual([])
    expect(after('24 km easy', null)).toEqual([])
    expect(after('24 km easy', '2026-10-22')).toEqual([
      'fewer: 5 weeks since the last run -> half (was 24 km)',
    ])
    expect(after('7 mi easy', '2026-10-22')).toEqual(['fewer: 5 weeks since the last run -> half (was 7 mi)'])
    expect(after('50 min easy', '2026-10-22')).toEqual([
      'fewer: 5 weeks since the last run -> half (was 50:00)',
    ])
    for (const race of ['10 km race', '5 km trial'])
      expect(after(race, '2026-10-22')).toEqual(['same: 5 weeks since the last run -> easy running first'])
    const warned = nextOf(
      state('2026-09-20', 'run\n  24 km easy', '-'),
      [],
      today,
      gear,
      [{ place: 'chest tight', level: null }],
      '2026-10-22',
    )
    expect(warned.decisions.map(({ decision, reason }) => `${decision}: ${reason}`)).toEqual([
      'same: noted: chest tight -> unchanged, see a doctor first',
    ])
    expect([after('3 km easy', '2026-10-22'), after('10 min easy', '2026-10-22')]).toEqual([[], []])
  })

  it('is not kept long by a short run in the week it comes back, after weeks without one half as long', () => {
    const after = (line: string, entry: string, ranOn: string) =>
      nextOf(state('2026-10-20', `run\n  ${line}`, entry), [], today, gear, [], ranOn).decisions.map(
        ({ reason }) => reason,
      )
    const half = '5 weeks since the last run half as long -> half (was 16 km)'
    expect(after('16 km easy', '1:30:00', '2026-11-23')).toEqual([half])
    // The run of 5 km is half of this one.
    expect(after('10 km easy', '56:00', '2026-11-23')).toEqual([])
    // 90 min are 15 km at 6:00/km, 50 min 8.3 km.
    expect(after('90 min easy', '16 km', '2026-11-23')).toEqual([
      '5 weeks since the last run half as long -> half (was 1:30:00)',
    ])
    expect(after('50 min easy', '9 km', '2026-11-23')).toEqual([])
  })
})

describe('another load', () => {
  const mass = (from: number, more: { to?: number; pair?: boolean } = {}): Load => ({
    kind: 'mass',
    from,
    to: more.to ?? from,
    unit: 'kg',
    pair: more.pair ?? false,
  })
  const body = (added: number): Load => ({ kind: 'bodyweight', added, unit: 'kg' })
  const made = (load: Load | null) =>
    load?.kind === 'mass' ? load.from : load?.kind === 'bodyweight' ? load.added : null

  it.each<[Load, number, 'share' | 'near', number | null]>([
    // On the bar in steps of 2.5 kg.
    [mass(100), 0.9, 'share', 90],
    [mass(92.5), 0.9, 'share', 82.5],
    [mass(92.5), 0.95, 'near', 87.5],
    [mass(60), 0.95, 'near', 57.5],
    [mass(120), 0.95, 'near', 115],
    [mass(102.5), 0.95, 'near', 97.5],
    [mass(42.5), 0.95, 'near', 40],
    [mass(22.5), 0.95, 'near', null],
    [mass(20), 0.9, 'share', null],
    // Dumbbells in steps of 2.5 kg.
    [mass(22.5, { pair: true }), 0.9, 'share', 20],
    [mass(25, { pair: true }), 0.9, 'share', 22.5],
    [mass(25, { pair: true }), 0.95, 'near', 22.5],
    [mass(10, { pair: true }), 0.95, 'near', null],
    [mass(10), 0.8, 'share', 7.5],
    [mass(10), 0.9, 'share', 7.5],
    [mass(2.5), 0.8, 'share', null],
    // On the body in steps of the lightest plate.
    [body(10), 0.9, 'share', 8.75],
    [body(1.25), 0.9, 'share', 0],
    [body(12.5), 0.8, 'share', 10],
    // `near`: of the 80 kg of the body and 12.5 kg added, 87.9 kg are left.
    [body(12.5), 0.95, 'near', 7.5],
    [body(12.5), 0.8, 'near', 3.75],
    [body(1.25), 0.95, 'near', 0],
    [body(0), 0.9, 'share', null],
    [body(-10), 0.9, 'share', -17.5],
  ])('%j taken down to %d (%s) is %s', (load, share, toward, expected) => {
    expect(made(changedLoad(load, share, toward, gear, { name: 'dip', bodyKg: 80, least: 1 }))).toBe(expected)
  })

  it('follows the plates at hand on a bar, and steps of 2.5 kg for dumbbells and below the bar', () => {
    const plates = [
      { mass: 10, pairs: 2 },
      { mass: 5, pairs: 1 },
    ]
    // 20, 30, 40, 50, 60 or 70 kg.
    const few = () => ({ bar: 20, collar: 0, plates, isOnBar: true })
    const to = (load: Load, share: number, toward: 'share' | 'near' | 'above', least = 1) =>
      made(changedLoad(load, share, toward, few, { name: 'dip', bodyKg: 70, least }))
    expect([to(mass(40), 0.9, 'share'), to(mass(40), 0.75, 'share'), to(mass(40), 0.95, 'near')]).toEqual([
      ...[30, 30, null],
    ])
    expect([to(mass(50), 0.8, 'near'), to(mass(20), 0.9, 'near'), to(mass(70), 0.9, 'near')]).toEqual([
      ...[null, null, null],
    ])
    expect([to(mass(40), 1, 'above'), to(mass(70), 1, 'above'), to(mass(17.5), 1, 'above')]).toEqual([
      50,
      null,
      20,
    ])
    expect([to(mass(40), 1, 'above', 1.25), to(mass(40), 1, 'above', 1.26)]).toEqual([50, 60])
    expect(to(mass(50, { to: 70 }), 1, 'above')).toBeNull()
    const dumbbells = mass(40, { pair: true })
    expect([to(dumbbells, 0.9, 'share'), to(dumbbells, 0.95, 'near'), to(dumbbells, 1, 'above')]).toEqual([
      ...[35, 37.5, 42.5],
    ])
    expect([to(mass(2), 0.9, 'share'), to(mass(2.5), 0.5, 'near'), to(mass(12.5), 0.8, 'share')]).toEqual([
      ...[null, null, 10],
    ])
    // Of 80 kg, 70 kg would be more than 10 % less; 75 kg are the most that may come off.
    expect([to(body(10), 0.95, 'near'), to(body(10), 0.9, 'near'), to(body(10), 0.5, 'share')]).toEqual([
      ...[5, 5, 5],
    ])
    // 110 kg are 70 kg with eight of the lightest plates.
    expect([
      to(body(0), 1, 'above', 1.07),
      to(body(0), 1, 'above', 11 / 7),
      to(body(0), 1, 'above', 1.58),
    ]).toEqual([...[5, 40, null]])
  })

  it('is the same for a push-up however that is spelt', () => {
    const kg = (name: string) => loadKilograms(body(0), name, 100)
    expect(['push-up', 'push up', 'Pushups', 'press'].map(kg)).toEqual([64, 64, 64, 100])
  })

  it.each(['handstand', 'pike', 'wall', 'knee', 'incline', 'decline'])(
    'is all of the body in a %s push-up, in what comes next and in the estimate',
    (kind) => {
      const name = `${kind} push-up`
      const day = state(today, `lift\n  ${name} 1 x 5 @ bodyweight`, '5')
      const estimated = exercisesDone(day).flatMap(({ sets }) => effortsOf(sets, 70, 'median'))
      expect([loadKilograms(body(0), name, 70), estimated[0]?.bodyKg]).toEqual([70, 70])
    },
  )

  it('goes up by the least step that is enough', () => {
    const up = (load: Load, least: number, bodyKg: number | null = 70, name = 'dip') =>
      made(changedLoad(load, 1, 'above', gear, { name, bodyKg, least }))
    expect(up(mass(92.5), 1.025)).toBe(95)
    expect(up(mass(110), 1.025)).toBe(115)
    expect(up(mass(100), 1)).toBe(102.5)
    expect(up(mass(22.5, { pair: true }), 1.025)).toBe(25)
    expect(up(body(0), 1.025)).toBe(2.5)
    expect(up(body(0), 1)).toBe(1.25)
    // 64 % of the body in a push-up: 44.8 kg, of which 1.25 are enough.
    expect(up(body(0), 1.025, 70, 'push-up')).toBe(1.25)
    expect(up(body(0), 1.025, null)).toBeNull()
    expect(up(body(0), 1.15)).toBeNull()
    expect(up(body(-70), 1.025)).toBeNull()
    const percent: Load = { kind: 'percent', from: 80, to: 80 }
    const squat = { name: 'squat', bodyKg: null, least: 1 }
    expect(changedLoad(percent, 1, 'above', gear, squat)).toBeNull()
    expect(changedLoad(percent, 0.9, 'share', gear, squat)).toMatchObject({ from: 72, to: 72 })
    expect(changedLoad(mass(90, { to: 100 }), 0.9, 'share', gear, squat)).toMatchObject({
      from: 80,
      to: 90,
    })
  })

  it('counts both of a pair, and the body', () => {
    expect(loadKilograms(mass(20, { pair: true }), 'row', null)).toBe(40)
    expect(loadKilograms(body(-20), 'pull-up', 70)).toBe(50)
    expect(loadKilograms(body(10), 'pull-up', null)).toBeNull()
    expect(loadKilograms({ kind: 'percent', from: 80, to: 80 }, 'squat', 70)).toBeNull()
  })

  it('or other repetitions, never fewer than one, and only where they are counted', () => {
    const exercise = (line: string) => {
      const [part] = dayOf(`A day\nlift\n  ${line}\n`).parts
      const item = part?.items[0]
      if (!item || !('exercises' in item) || !item.exercises[0]) throw new Error(line)
      return item.exercises[0]
    }
    const squat = exercise('squat 2 x 3-5 @ 60 kg')
    expect(changeReps(squat, -3)).toBe(false)
    expect(changeReps(squat, -2)).toBe(true)
    expect(squat.sets.map(({ dose }) => dose)).toEqual(Array(2).fill({ kind: 'reps', from: 1, to: 3 }))
    expect(changeReps(squat, 1)).toBe(true)
    expect(squat.sets[0]?.dose).toEqual({ kind: 'reps', from: 2, to: 4 })
    const mixed = exercise('squat 5/3/max @ 60 kg')
    expect([changeReps(mixed, 1), changeReps(mixed, -1)]).toEqual([false, false])
    expect(changeReps(exercise('squat 5/2 @ 60 kg'), -2)).toBe(false)
    expect(changeReps(exercise('plank 2 x 45 s'), 1)).toBe(false)
    expect(changeReps(exercise('plank 2 x 45 s'), -1)).toBe(false)
  })
})

describe('a pain', () => {
  const pain = (place: string, level: number | null = 4) => ({ place, level })
  const covers = (place: string, exercise: string) =>
    painCovering([pain(place)], { name: exercise, isPair: false }) !== undefined

  it.each([
    ['left shoulder', 'bench press', true],
    ['left shoulder', 'squat', false],
    ['left shoulder', 'deadlift', true],
    ['left shoulder', 'rdl', true],
    ['right elbow', 'front squat', true],
    ['rotator cuff', 'bench press', true],
    ['left delt', 'bench press', true],
    ['left bicep', 'bench press', true],
    ['left pectoral', 'bench press', true],
    ['left clavicle', 'bench press', true],
    ['left trapezius', 'bench press', true],
    ['left ac-joint', 'bench press', true],
    ['left palm', 'bench press', true],
    ['left shoulder', 'narrow squat', false],
    ['forearm', 'goblet squat', true],
    ['forearm', 'lunge', false],
    ['left shoulder', 'shoulder abduction', true],
    ['left shoulder', 'hip abduction', false],
    ['elbows', 'row', true],
    ['left calf', 'squat', true],
    ['left calf', 'pull-up', true],
    ['left calf', 'bench press', false],
    ['neck', 'bench press', true],
    ['left ribs', 'seated row', true],
    ['rib cage', 'squat', true],
    ['left calf', 'seated press', false],
    ['left calf', 'leg press, seated', true],
    ['left hamstring', 'lying hamstring curl', true],
    ['groin', 'seated adductor machine', true],
    ['chest', 'bench press', true],
    ['dizzy', 'curl', true],
  ])('in the %s, a %s: %s', (place, exercise, is) => expect(covers(place, exercise)).toBe(is))

  it('stops running faster unless it is of shoulder, arm or wrist', () => {
    expect(
      ['left calf', 'shoulder', 'wrist', 'chest', 'numb arm', 'biceps femoris', 'left tricep'].map((place) =>
        isRunCoveredByPain(pain(place)),
      ),
    ).toEqual([true, false, false, true, true, true, false])
  })

  it('of the wrist covers a leg lift with a load in each hand', () => {
    const covered = (isPair: boolean) => painCovering([pain('wrist')], { name: 'split squat', isPair })
    expect([covered(true)?.place, covered(false)]).toEqual(['wrist', undefined])
  })

  it('is, among several, the one that needs a doctor, else that of the arm for a lift of the arm', () => {
    const pains = [pain('left calf'), pain('elbow'), pain('chest')]
    expect(painCovering(pains, { name: 'row', isPair: false })?.place).toBe('chest')
    expect(painCovering(pains.slice(0, 2), { name: 'row', isPair: false })?.place).toBe('elbow')
    expect(painCovering(pains.slice(0, 2), { name: 'squat', isPair: false })?.place).toBe('left calf')
  })

  it('is told with its level and its day', () => {
    expect(painReason(pain('left calf'))).toBe('left calf: pain 4 -> unchanged')
    expect(painReason(pain('left calf', null), 'running')).toBe('pain: left calf -> running unchanged')
    expect(painReason(pain('chest'))).toBe('chest: pain 4 -> unchanged, see a doctor first')
    const dated = { ...pain('left calf'), on: '2026-11-24' }
    expect(painReason(dated)).toBe('left calf: pain 4 on Tue 24 Nov -> unchanged')
    expect(sinceText(34, dated)).toBe('left calf: pain 4 on Tue 24 Nov, 4 weeks since the last time')
    expect(sinceText(35, undefined)).toBe('5 weeks since the last time')
    expect(daysBetween('2026-11-26', '2026-11-24')).toBe(-2)
    expect(daysBetween('2026-10-01', '2026-11-26')).toBe(56)
  })

  it('counts once a place, the last time it was typed, unless that was 0, and a sign that needs a doctor first', () => {
    const now = painsAndSigns(state(today, 'run\n  2 x 1 km easy', '5:00 pain "left calf 3", 5:00'))
    const places = (...pains: Parameters<typeof standingPains>[0]) =>
      standingPains(pains).map(({ place, level }) => `${place} ${level}`)
    expect(places(...now)).toEqual(['left calf 3'])
    expect(places(pain('left calf', 5), pain('knee', 2), ...now)).toEqual(['left calf 3', 'knee 2'])
    expect(places(...now, pain('Left  calf', 0))).toEqual([])
    expect(places(pain('left calf', 5), pain('chest', 1))).toEqual(['chest 1', 'left calf 5'])
    const [warned = pain('')] = standingPains(
      painsAndSigns(state(today, 'run\n  1 km easy', '5:00 "fainted"')),
    )
    expect(needsADoctor(warned)).toBe(true)
    expect(painReason(warned)).toBe('noted: fainted -> unchanged, see a doctor first')
  })
})
