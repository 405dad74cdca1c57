import { describe, expect, test } from 'vitest'
import { expectedSecondsOf } from '../../src/prescription/expectedTime.ts'
import { dayOf, stepsIn } from '../day.ts'

/* This program's own rough figures: 4 s a repetition, a missing rest 90 s, a warm-up set 60 s, a prep item 60 s, easy
 * running at goal pace x 1.25, else 6:00/km, a jog 7:00/km, a walk 10:00/km. */

const day = (text: string) => dayOf(`Day\n${text}\n`)
const seconds = (text: string) => expectedSecondsOf(stepsIn(day(text)), day(text))

describe('the expected time of a run', () => {
  test('is the middle of its target, or easy', () => {
    expect(seconds('run\n  1 km @ 4:00-4:10/km')).toBe(245)
    expect(seconds('run\n  2 km easy')).toBe(720)
    expect(seconds('goal: 10 km in 40:00\nrun\n  2 km easy')).toBe(600)
    expect(seconds('run\n  20 min hard')).toBe(1200)
  })

  test('follows the goal in rounds against the clock, as easy running does', () => {
    expect(seconds('lift\n  for time: 5 km run')).toBe(1800)
    expect(seconds('goal: 10 km in 40:00\nlift\n  for time: 5 km run')).toBe(1500)
  })

  test('is that of a ride, a row or a swim in a cross part that is called so', () => {
    expect(seconds('cross: bike\n  24 km')).toBe(3600)
    expect(seconds('cross\n  2 km easy, "rower"')).toBe(540)
    expect(seconds('goal: 10 km in 40:00\ncross: swim\n  400 m easy')).toBe(480)
    expect(seconds('goal: 10 km in 40:00\ncross\n  1 km easy')).toBe(360)
  })

  test("is the goal's time in a race, over another distance by the formula of Riegel 1981, never that of easy running", () => {
    expect(seconds('goal: 10 km in 40:00\nrun\n  10 km race')).toBe(2400)
    // 2400 x 0.5 ^ 1.06 = 1151.1, computed by hand.
    expect(seconds('goal: 10 km in 40:00\nrun\n  5 km trial')).toBeCloseTo(1151.1, 0)
    expect(seconds('run\n  5 km race')).toBe(5 * 288)
  })

  test('includes its recoveries: jogging 7:00/km, walking 10:00/km, standing as written, the way back as long as the way out', () => {
    expect(seconds('run\n  2 x 500 m in 1:50, jog 200 m')).toBe(110 + 84 + 110)
    expect(seconds('run\n  2 x 500 m in 1:50, walk 100 m')).toBe(110 + 60 + 110)
    expect(seconds('run\n  2 x 500 m in 1:50, stand 1:00')).toBe(280)
    expect(seconds('run\n  2 x 100 m in 20 s, walk back')).toBe(20 + 60 + 20)
    expect(seconds('run\n  2 x 1 km in 4:00, jog back')).toBe(240 + 420 + 240)
    expect(seconds('run\n  2 x 1 km in 4:00, split 200 m, jog back')).toBe(240 + 420 + 240)
    // A minute at 6:00/km is 1/6 km, and 5:00/km with the goal 1/5 km.
    expect(seconds('run\n  2 x 60 s hard, walk down')).toBe(60 + 100 + 60)
    expect(seconds('goal: 10 km in 40:00\nrun\n  2 x 60 s hard, jog back')).toBe(60 + 84 + 60)
  })
})

describe('the expected time of a lift', () => {
  test('is 4 s a repetition plus the rests in between, 90 s for a missing one', () => {
    expect(seconds('lift\n  row: 3 x 5 @ 50 kg, rest 2:00-3:00')).toBe(20 + 150 + 20 + 150 + 20)
    expect(seconds('lift\n  row: 2 x 8-10 @ 50 kg')).toBe(36 + 90 + 36)
    expect(seconds('lift\n  row: 1 x 5+ @ 50 kg')).toBe(20)
    expect(seconds('lift\n  row: 1 x 5 each side @ 20 kg')).toBe(40)
    expect(seconds('lift\n  pull-up 1 x max @ bodyweight')).toBe(40)
    expect(seconds('lift\n  plank: 2 x 45 s, rest 0:45')).toBe(135)
    expect(seconds('lift\n  farmer carry: 1 x 40 m @ 2x30 kg')).toBe(24)
    expect(seconds('lift\n  1 round: 200 m run, 5 push-up @ bodyweight, rest 1:00')).toBe(72 + 20)
  })

  test('includes the pauses of a cluster set, and the pauses and rests of a superset', () => {
    expect(seconds('lift\n  squat: 1 x (2+2+max) @ 80 kg, pause 15 s')).toBe(8 + 15 + 8 + 15 + 40)
    expect(seconds('lift\n  row 2 x 5 @ 50 kg + dip 2 x 5 @ bodyweight, pause 20 s, rest 1:30')).toBe(
      20 + 20 + 20 + 90 + 20 + 20 + 20,
    )
  })

  test('is the interval for sets at a fixed interval, whatever is in them', () => {
    expect(seconds('lift\n  clean: 3 x 2 @ 60 kg, every 1:30')).toBe(90 + 90 + 8)
    expect(seconds('lift\n  row 2 x 5 @ 50 kg + dip 2 x 5 @ bodyweight, pause 20 s, every 2:00')).toBe(
      120 + 20 + 20 + 20,
    )
    expect(seconds('lift\n  3 rounds: 10 push-up @ bodyweight, 5 squat @ bodyweight, every 2:00')).toBe(
      120 + 120 + 60,
    )
  })

  test('is a minute for a warm-up set, plus its rest', () => {
    const both = seconds('lift\n  squat: 1 x 5 @ 90 kg, build from 70 kg')
    expect(both - seconds('lift\n  squat: 1 x 5 @ 90 kg')).toBe(60 + 60 + 60 + 90)
  })
})

test('an item of prep takes its written time, else a minute; a meal takes none', () => {
  expect(seconds('prep\n  foam roll 3:00')).toBe(180)
  expect(seconds('prep\n  foam roll 1:00 each side')).toBe(120)
  expect(seconds('prep\n  leg swings 2 x 10 each side')).toBe(160)
  expect(seconds('prep\n  hip circles')).toBe(60)
  expect(seconds('prep\n  skips 2 x 20 m')).toBe(60)
  expect(seconds('fuel\n  after: carbs 80 g')).toBe(0)
})
