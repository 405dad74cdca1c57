import { describe, expect, test } from 'vitest'
import { warningText } from '../../src/recorder/update.ts'
import { plainFoods, readFoods } from '../../src/session/entry/fuel.ts'
import { comparable, type Walked, walkThrough } from '../day.ts'
import { situations } from './situations.ts'

const words = ['fail', 'failed', 'pain', 'skip', 'same', 'done', 'easy', 'hr', 'rpe', 'bw']

describe('a word of an entry, typed letter by letter into the empty field', () => {
  test.each(Object.keys(situations).filter((name) => name !== 'finished'))(
    'appears in the field and leaves the session as it was: %s',
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
    'may be a nutrient or a food if a meal is asked for: %s',
    (line) => {
      const { foods } = readFoods(plainFoods)
      const walked = walkThrough('Meals\n\nfuel\n  after: carbs 80 g\n', {
        context: { foods: () => foods },
      }).spell(line)
      expect([walked.model.draft, walked.model.mode.kind]).toEqual([line, 'recording'])
      expect(walked.state.recorded.size).toBe(0)
    },
  )

  test('may be any food, spelled slowly, one or several, and its letters leave no effect', () => {
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

  describe('q when a food begins with q', () => {
    const { foods } = readFoods('quinoa 100 g: 21 C\nsquash 100 g: 9 C\n')
    const meal = (context = { foods: () => foods }) =>
      walkThrough('Meals\n\nfuel\n  after: carbs 80 g\n', { context })

    test('quits if no letter of a food follows within two seconds', () => {
      const walked = meal().spell('q', 0)
      expect(walked.notice).toBe('q quits in 2 s unless you type on; Esc cancels')
      expect(walked.wait(1.5).left).toBe(false)
      expect(walked.wait(0.5).left).toBe(true)
    })

    test('quits at once if the next key continues no food, and that key does nothing', () => {
      expect(meal().spell('qq', 0).left).toBe(true)
      const walked = meal().spell('q', 0).enter()
      expect([walked.left, walked.state.recorded.size]).toEqual([true, 0])
      expect(meal().spell('sq', 1).wait(2).left).toBe(true)
    })

    test('is cancelled by Escape', () => {
      const walked = meal().spell('q', 0).key('escape').wait(3)
      expect([walked.left, walked.notice]).toEqual([false, null])
    })

    test('does not make u wait, because a word restores what that undid', () => {
      const udon = { foods: () => readFoods('udon 100 g: 21 C\n').foods }
      const walked = walkThrough('Meals\n\nfuel\n  before: carbs 9 g\n  after: carbs 80 g\n', {
        context: udon,
      })
      const { echo } = walked.enter().model
      expect(echo?.text).toContain('carbs 9 g')
      expect(walked.spell('u', 0.6).state.recorded.size).toBe(0)
      expect(walked.spell('don', 0.6).state.recorded.size).toBe(1)
      expect(walked.model.echo).toBe(echo)
      expect(walked.model.draft).toBe('udon')
    })

    test('quits at once if no meal is asked for, or if no food begins with it', () => {
      expect(walkThrough('One\n\nrun\n  2 km easy\n').spell('q', 0).left).toBe(true)
      expect(meal({ foods: () => readFoods(plainFoods).foods }).spell('q', 0).left).toBe(true)
    })
  })

  test('may continue within two seconds a letter; after that its letters are commands', () => {
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

  test('returns to the field from a list and from a question', () => {
    const walked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
    walked.effort(20).wait(5).typed('o').spell('failed at 4')
    expect(walked.model).toMatchObject({ draft: 'failed at 4', mode: { kind: 'recording' } })
    const asked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
    asked.effort(20).wait(5).typed('u').spell('pain left knee 3')
    expect(asked.model).toMatchObject({ draft: 'pain left knee 3', mode: { kind: 'recording' } })
  })
})

describe('a sign that needs a doctor, typed letter by letter', () => {
  const signs = (
    'arm numb,black out,breathlessness,chest pain,feel faint,shortness of breath,fluttering heart,heaviness in the chest,passing out,' +
    "pressure in my chest,sharp chest pain,dizzy,right leg numb,racing heart,irregular heartbeat,ache across my chest,light-headed,can't breathe"
  ).split(',')

  test.each(signs)('is warned of and runs no command: %s', (sign) => {
    for (const [name, situation] of Object.entries(situations)) {
      if (name === 'finished') continue
      const walked = situation()
      const before = comparable(walked.state)
      walked.spell(sign, 0)
      expect([walked.model.draft, walked.model.mode.kind], name).toEqual([sign, 'recording'])
      walked.enter()
      expect(walked.notice, name).toBe(warningText)
      expect(comparable({ ...walked.state, notes: [] }), name).toEqual(before)
    }
  })

  test.each(['o', 'u', 'e', 's'])('returns to the field from the list or the question of %s', (key) => {
    const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
    for (const sign of signs) {
      const walked = walkThrough(straight).effort(20).wait(5).entry('5').effort(20).wait(5).typed(key).jump(2)
      expect(walked.model.mode.kind, sign).not.toBe('recording')
      const before = comparable(walked.state)
      walked.spell(sign, 0).enter()
      expect(walked.notice, sign).toBe(warningText)
      expect(comparable({ ...walked.state, notes: [] }), sign).toEqual(before)
    }
  })
})

test('a word is found after a key that another word begins with', () => {
  const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
  for (const word of ['hr', 'heart', 'arm', 'pain']) {
    const walked = walkThrough(straight).spell(`s${word}`)
    expect([walked.model.draft, walked.state.skipped.size], word).toEqual([word, 1])
  }
})

test('a space or a digit after x makes it a load', () => {
  const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
  expect(walkThrough(straight).effort(20).spell('x 102.5').model.draft).toBe('x 102.5')
  expect(walkThrough(straight).effort(20).spell('x102.5').model.draft).toBe('x 102.5')
  expect(walkThrough(straight).effort(20).spell('xpush-up').model.mode.kind).toBe('swapping')
})

describe('a word that is no entry, typed quickly into the empty field', () => {
  const typed = ['sick', 'sore knee', 'hurts', 'pulled hamstring', 'hard', 'help', 'achilles 3', 'pause']
  test.each([
    'the rest with its result open',
    'the rest with nothing open',
    'a set',
    'a jog by distance',
    'the pause in a round',
  ])('stays in the field, and none of its letters has skipped, undone or stopped anything: %s', (name) => {
    for (const word of typed) {
      const walked = situations[name]?.() as Walked
      const before = comparable(walked.copy().jump(word.length * 0.2).state)
      walked.spell(word)
      expect([walked.model.draft, walked.model.mode.kind], word).toEqual([word, 'recording'])
      expect(comparable(walked.jump(0).state), word).toEqual(before)
      const { length } = walked.events
      expect(walked.enter().events, word).toHaveLength(length)
    }
  })

  test('stays in the field, too, where a letter in it opens a field of its own; not where the first one does', () => {
    const rest = () => situations['the rest with nothing open']?.() as Walked
    for (const word of ['stiff back', 'ankle', 'snapped']) {
      const walked = rest().spell(word)
      expect([walked.model.draft, walked.state.skipped.size, walked.ids]).toEqual([word, 0, rest().ids])
    }
    expect(rest().spell('nice').model).toMatchObject({ mode: { kind: 'noting' }, draft: 'ice' })
  })

  test('was keys where they came more slowly, or where each of a few is one', () => {
    const walked = situations['the rest with nothing open']?.().spell('hah', 0.6) as Walked
    expect([walked.model.draft, walked.state.stopped]).toEqual(['', null])
    expect(walked.typed('a').typed('a').typed('a').model.draft).toBe('')
  })
})

test('an unknown key in a question beeps and lists the keys that work', () => {
  const walked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
  walked.effort(20).wait(5).typed('u').typed('k')
  expect(walked.notice).toBe('Press u (undo) or Esc (cancel).')
  expect(walked.rung.at(-1)).toBe('short')
})

test('the names of foods are words only where a meal is asked for', () => {
  const foods = () => readFoods(plainFoods).foods
  const atASet = walkThrough('One\n\nlift\n  row: 2 x 5 @ 50 kg\n', { context: { foods } })
  expect(atASet.spell('oats', 1).model.draft).toBe('')
  const atAMeal = walkThrough('Meals\n\nfuel\n  after: carbs 80 g\n', { context: { foods } }).spell('oats')
  expect(atAMeal.model.draft).toBe('oats')
})
