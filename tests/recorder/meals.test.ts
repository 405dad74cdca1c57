import { describe, expect, test } from 'vitest'
import { plainFoods, readFoods } from '../../src/session/entry/fuel.ts'
import { walkThrough } from '../day.ts'

/* Meals are offered when they are eaten, wherever the file has them. */

const fuel = 'fuel\n  after: carbs 85 g\n  between: carbs 40 g\n  before 2 h: carbs 75 g\n'
const run = 'run\n  2 km easy\n'
const lift = 'lift\n  bench press: 2 x 5 @ 70 kg, rest 2:30\n'

describe.each([
  ['last', `Day\n\n${run}\n${lift}\n${fuel}`],
  ['first', `Day\n\n${fuel}\n${run}\n${lift}`],
  ['in the middle', `Day\n\n${run}\n${fuel}\n${lift}`],
])('with the fuel part %s in the file', (_, day) => {
  test('offers before first, between after the run, after at the end', () => {
    const walked = walkThrough(day)
    const label = () => walked.view.entry.label
    expect(label()).toBe('fuel before')
    walked.enter()
    expect(label()).toBe('2 km')
    walked.effort(660).enter()
    expect(label()).toBe('fuel between')
    expect(walked.view.now.what).toBe('between: carbs 40 g')
    walked.entry('carbs 30 g')
    expect(label()).toBe('bench press, set 1 of 2')
    walked.effort(20).enter().effort(20).enter()
    expect(label()).toBe('fuel after')
    walked.enter()
    expect(walked.view.entry.label).toBe('all recorded')
  })

  test('passes a meal with Space; it can still be entered at the end', () => {
    const walked = walkThrough(day).effort(660)
    expect(walked.view.entry.label).toBe('2 km')
    walked.enter().space().wait(20)
    expect(walked.view.entry.label).toBe('bench press, set 1 of 2')
    walked.space().enter().effort(20).enter()
    expect(walked.view.entry.label).toBe('fuel after')
    walked.entry('-').enter()
    expect(walked.view.entry.label).toBe('fuel between')
    expect(walked.state.recorded.size).toBe(4)
    walked.enter()
    expect(walked.view.entry.label).toBe('all recorded')
  })
})

test('the minutes of the day go on between two lines while a meal from before is still to be entered', () => {
  const walked = walkThrough(`Day\n\n${run}  1 km easy\n\n${fuel}`).effort(660).wait(300)
  expect(walked.view.entry.label).toBe('2 km')
  expect(walked.view.head.minutes).toMatch(/^16 of /)
})

test('a meal between the parts is offered where running changes to lifting, not between two runs', () => {
  const walked = walkThrough(`Day\n\n${run}\nrun: strides\n  4 x 100 m\n\n${lift}\n${fuel}`)
  expect(walked.state.steps.map(({ kind }) => kind).join(' ')).toMatch(
    /^fuel interval (interval )+fuel set set fuel$/,
  )
})

test('Space does not begin a meal if nothing follows it', () => {
  const walked = walkThrough(`Day\n\n${fuel}`).space()
  expect(walked.notice).toBe('Enter records a meal, s skips it')
  expect(walked.state.phase.kind).toBe('ready')
})

test('a meal of foods shows its sum and its unknown foods, and Enter records it with its words', () => {
  const { foods } = readFoods(plainFoods)
  const walked = walkThrough(`Day\n\n${fuel}\n${run}`, { context: { foods: () => foods } })
  walked.entry('2 eggs, banana, 80 g oats, pancakes')
  expect(walked.state.recorded.size).toBe(0)
  expect(JSON.stringify(walked.view)).toContain(
    'carbs 82 g, protein 24.5 g, fat 15.2 g; unknown, so not counted: pancakes?',
  )
  walked.enter()
  const [recorded] = [...walked.state.recorded.values()]
  expect(recorded).toMatchObject({
    kind: 'fuel',
    result: { carbsG: 82, proteinG: 24.5, fatG: 15.2, note: '2 eggs, banana, 80 g oats, pancakes' },
  })
})

test('Enter on a meal that is prescribed as foods shows their sum; one without a known food is done', () => {
  const { foods } = readFoods(plainFoods)
  const meals = 'fuel\n  before: 2 eggs, banana\n  after: "porridge"\n'
  const walked = walkThrough(`Day\n\n${meals}`, { context: { foods: () => foods } }).enter()
  expect(JSON.stringify(walked.view)).toContain('carbs 27.8 g, protein 13.9 g, fat 10 g?')
  walked.enter()
  expect([...walked.state.recorded.values()]).toMatchObject([
    { kind: 'fuel', result: { carbsG: 27.8, proteinG: 13.9, fatG: 10, note: '2 eggs, banana' } },
  ])
  walked.enter()
  expect([...walked.state.recorded.values()][1]).toMatchObject({ kind: 'fuel', result: { carbsG: null } })
})

test("the recorder's heading shows where the day is in the plan", () => {
  const planned = 'Thursday of week 3 of 19, 115 days to 10 km in 39:30'
  expect(walkThrough(`Day\n\n${run}`, { context: { planned } }).view.head.planned).toBe(planned)
  expect(walkThrough(`Day\n\n${run}`).view.head.planned).toBe('')
})
