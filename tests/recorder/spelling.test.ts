import { describe, expect, test } from 'vitest'
import { plainFoods, readFoods } from '../../src/session/entry/foods.ts'
import { comparable, walkThrough } from '../day.ts'
import { situations } from './situations.ts'

const words = ['fail', 'failed', 'pain', 'skip', 'same', 'done', 'easy', 'hr', 'rpe', 'bw']

describe('a word of an entry, typed letter by letter into the empty field', () => {
  test.each(Object.keys(situations).filter((name) => name !== 'finished'))(
    'stands in the field and leaves the session as it was: %s',
    (name) => {
      for (const word of words) {
        const walked = situations[name]?.()
        if (!walked) throw new Error(name)
        const before = comparable(walked.state)
        walked.spell(word, 0)
        expect(walked.model.draft, word).toBe(word)
        expect(walked.model.mode.kind, word).toBe('recording')
        expect(comparable(walked.state), word).toEqual(before)
      }
    },
  )

  test.each(['oats 80 g', 'egg', 'apple', 'spaghetti 100 g', 'potato 200 g', 'protein 20 g', 'fat 3 g'])(
    'where a meal is asked for, a nutrient or a food may be spelled: %s',
    (line) => {
      const { foods } = readFoods(plainFoods)
      const walked = walkThrough('Meals\n\nfuel\n  after: carbs 80 g\n', {
        context: { foods: () => foods },
      }).spell(line)
      expect([walked.model.draft, walked.model.mode.kind]).toEqual([line, 'recording'])
      expect(walked.state.recorded.size).toBe(0)
    },
  )

  test('any food may be spelled slowly, one or several, and nothing is left of what its letters did', () => {
    const { foods } = readFoods(
      `${plainFoods}quinoa 100 g: 21 C\nsquash 100 g: 9 C\nt-bone 100 g: 26 P\ndates 100 g: 75 C\nudon 100 g: 21 C\n`,
    )
    const words = foods.map(({ name }) => name.toLowerCase().split(/[\s,]/)[0] as string)
    for (const word of [...words, 'eggs', 'date']) {
      const walked = walkThrough(
        'Meals\n\nfuel\n  before: carbs 9 g\n  after: carbs 80 g\n  after: fat 9 g\n',
        {
          context: { foods: () => foods },
        },
      ).entry('carbs 40 g')
      const before = comparable(walked.state)
      walked.spell(word, 1.9)
      expect([walked.model.draft, walked.model.mode.kind, walked.left], word).toEqual([
        word,
        'recording',
        false,
      ])
      expect(comparable(walked.state), word).toEqual(before)
      expect(walked.notice, word).toBeNull()
      expect(walked.rung, word).toEqual([])
    }
  })

  describe('where a food begins with q, q', () => {
    const { foods } = readFoods('quinoa 100 g: 21 C\nsquash 100 g: 9 C\n')
    const meal = (context = { foods: () => foods }) =>
      walkThrough('Meals\n\nfuel\n  after: carbs 80 g\n', { context })

    test('quits when no letter of a food follows within two seconds', () => {
      const walked = meal().spell('q', 0)
      expect(walked.notice).toBe('q quits in a moment; type on for a food, Esc stays')
      expect(walked.wait(1.5).left).toBe(false)
      expect(walked.wait(0.5).left).toBe(true)
    })

    test('quits at once when the next key is none of a food, and that key does nothing', () => {
      expect(meal().spell('qq', 0).left).toBe(true)
      const walked = meal().spell('q', 0).enter()
      expect([walked.left, walked.state.recorded.size]).toEqual([true, 0])
      expect(meal().spell('sq', 1).wait(2).left).toBe(true)
    })

    test('is taken back by Escape', () => {
      const walked = meal().spell('q', 0).key('escape').wait(3)
      expect([walked.left, walked.notice]).toEqual([false, null])
    })

    test('u waits in the same way, for what it takes back cannot be brought back', () => {
      const udon = { foods: () => readFoods('udon 100 g: 21 C\n').foods }
      const eaten = () =>
        walkThrough('Meals\n\nfuel\n  before: carbs 9 g\n  after: carbs 80 g\n', { context: udon }).enter()
      const walked = eaten().spell('u', 0)
      expect(walked.state.recorded.size).toBe(1)
      expect(walked.wait(2).state.recorded.size).toBe(0)
      expect(eaten().spell('u', 0).enter().state.recorded.size).toBe(1)
      expect(eaten().spell('u', 0).key('escape').wait(3).state.recorded.size).toBe(1)
    })

    test('quits at once where no meal is asked for, and where no food begins with it', () => {
      expect(walkThrough('One\n\nrun\n  2 km easy\n').spell('q', 0).left).toBe(true)
      expect(meal({ foods: () => readFoods(plainFoods).foods }).spell('q', 0).left).toBe(true)
    })
  })

  test('may be spelled up to two seconds a letter, and its letters are commands when it takes longer', () => {
    const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
    expect(walkThrough(straight).spell('pain', 1.9).model.draft).toBe('pain')
    expect(
      walkThrough(straight)
        .spell('sa', 2.1)
        .events.map((event) => event.type),
    ).toContain('stepAdded')
    const slow = walkThrough(straight).spell('pain', 2.1)
    expect(slow.model.draft).toBe('in')
    expect(slow.events.at(-1)?.type).toBe('stepAdded')
  })

  test('goes back to the field from a list and from a question', () => {
    const walked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
    walked.effort(20).wait(5).typed('o').spell('failed at 4')
    expect(walked.model).toMatchObject({ draft: 'failed at 4', mode: { kind: 'recording' } })
    const asked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
    asked.effort(20).wait(5).typed('u').spell('pain left knee 3')
    expect(asked.model).toMatchObject({ draft: 'pain left knee 3', mode: { kind: 'recording' } })
  })
})

test('a space or a digit after x makes it a load', () => {
  const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
  expect(walkThrough(straight).effort(20).spell('x 102.5').model.draft).toBe('x 102.5')
  expect(walkThrough(straight).effort(20).spell('x102.5').model.draft).toBe('x 102.5')
  expect(walkThrough(straight).effort(20).spell('xpush-up').model.mode.kind).toBe('swapping')
})

test('a key that a question does not know is answered with a short signal and the keys it knows', () => {
  const walked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
  walked.effort(20).wait(5).typed('u').typed('7')
  expect(walked.notice).toBe('u takes it back, Esc cancels')
  expect(walked.rung.at(-1)).toBe('short')
})
