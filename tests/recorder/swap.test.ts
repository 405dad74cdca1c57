import { describe, expect, test } from 'vitest'
import { plainContext, type Walked, walkThrough } from '../day.ts'

/* Swapping in another exercise, written as on a line of a day. */

const day = 'Swap\nunits: km kg\n\nlift\n  front squat: 4 x 5 @ 90 kg, rest 2:30\n  plank: 2 x 45 s\n'
const afterOne = () => walkThrough(day).effort(20).enter().wait(5)
const sets = (walked: Walked) =>
  walked.state.steps.flatMap((step) =>
    step.kind === 'set' && step.item === 0 ? [`${step.name} ${step.number}/${step.of}`] : [],
  )

describe('x with sets and a load', () => {
  test('uses them from there on, as many as are written', () => {
    const walked = afterOne().typed('x').entry('goblet squat 2x8 @ 95 lb')
    expect(sets(walked)).toEqual(['front squat 1/3', 'goblet squat 2/3', 'goblet squat 3/3'])
    expect(walked.view.now).toMatchObject({ number: '8 x 95' })
    walked.effort(20).enter()
    expect(walked.recorded('1.1.s2')).toMatchObject({ reps: 8, load: { value: 95, unit: 'lb' } })
    walked.effort(20).enter()
    expect(walked.view.now.what).toBe('plank 0:45')
    expect(walked.state.phase.kind).toBe('ready')
  })

  test('adds sets if more are written, each with its own load', () => {
    const walked = afterOne().typed('x').entry('goblet squat 5 x 8 @ 30/32/34/36/38 kg')
    expect(sets(walked)).toHaveLength(6)
    expect(sets(walked).at(-1)).toBe('goblet squat 6/6')
    for (const load of [30, 32, 34, 36, 38]) {
      expect(walked.view.now.number).toBe(`8 x ${load}`)
      walked.effort(20).enter().wait(5)
    }
    expect(walked.view.now.what).toBe('plank 0:45')
  })

  test('takes a pain or a quoted note for what it is, never for the name of an exercise', () => {
    for (const [typed, note] of [
      ['pain left knee 3', { text: 'left knee 3', pain: true }],
      ['"bar slipped"', { text: 'bar slipped', pain: false }],
    ] as const) {
      const walked = afterOne().typed('x').entry(typed)
      expect(walked.state.notes).toMatchObject([note])
      expect(sets(walked)[1]).toBe('front squat 2/4')
    }
  })

  test('uses the side that is written, and none where none is', () => {
    const oneLegged = 'Swap\nunits: km kg\n\nlift\n  lunge 3 x 8 each leg @ 20 kg, rest 1:00\n'
    const walked = walkThrough(oneLegged).typed('x').entry('goblet squat 3 x 8 @ 30 kg')
    expect(walked.view.now.what).toBe('goblet squat 8 at 30 kg')
    walked.typed('x').entry('step-up 3 x 8 each leg @ 15 kg')
    expect(walked.view.now.what).toBe('step-up 8 each leg at 15 kg')
    // A name alone takes another exercise for the same sets.
    walked.typed('x').entry('split squat')
    expect(walked.view.now.what).toContain('each leg')
  })

  test('is undone by u, and survives reading the session again', () => {
    const walked = afterOne()
    const before = sets(walked)
    walked.typed('x').entry('goblet squat 2 x 8 @ 40 kg')
    const swapped = sets(walked)
    expect(sets(walked.restart(30))).toEqual(swapped)
    expect(walked.session().events.at(-2)).toMatchObject({ name: 'goblet squat', sets: [{ rpe: null }, {}] })
    expect(sets(walked.typed('u'))).toEqual(before)
  })

  test('reports what is wrong and keeps the text in the field; a superset is not one exercise', () => {
    const walked = afterOne().typed('x').entry('goblet squat 3 x @ 40 kg')
    expect(walked.model.mode.kind).toBe('swapping')
    expect(walked.notice).not.toBeNull()
    walked.entry('row 3 x 8 @ 40 kg + dip 3 x 8')
    expect(walked.notice).toBe('type one exercise, such as goblet squat 3 x 8 @ 40 kg')
  })

  test('keeps the rounds in a superset', () => {
    const round = 'Round\n\nlift\n  pull-up 3 x 6 @ bodyweight + dip 3 x 8 @ bodyweight, rest 1:30\n'
    const walked = walkThrough(round).typed('x').entry('row 2 x 10 @ 40 kg')
    expect(sets(walked)).toEqual(['row 1/3', 'dip 1/3', 'row 2/3', 'dip 2/3', 'row 3/3', 'dip 3/3'])
    expect(walked.view.now.number).toBe('10 x 40')
  })
})

test('x offers the exercises of today first, then those of the logbook', () => {
  const context = { exercises: () => ['goblet squat', 'plank'] }
  expect(walkThrough(day, { context }).typed('x').view.panel?.lines).toEqual([
    'front squat',
    'plank',
    'goblet squat',
  ])
})

test('x offers single exercises, also of those that are joined in a complex', () => {
  const context = { ...plainContext, exercises: () => ['bench press + lunge', 'lunge', 'front squat'] }
  const pairs = 'Pairs\n\nlift\n  front squat: 2 x 5 @ 90 kg\n  3 x (row 8 + step-up 8) @ 50 kg\n'
  const walked = walkThrough(pairs, { context }).typed('x')
  expect(walked.view.panel?.lines).toEqual(['front squat', 'row', 'step-up', 'bench press', 'lunge'])
})
