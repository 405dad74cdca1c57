import { describe, expect, test } from 'vitest'
import { warningText } from '../../src/recorder/update.ts'
import { effectiveEvents } from '../../src/session/replay.ts'
import { comparable, pressOf, type Walked, walkThrough } from '../day.ts'
import fc, { times } from '../fastCheck.ts'

/* A tired athlete: any day, any number of moves into it, and then one thing that a sweaty hand does. */

const lines = [
  'lift\n  bench press: 3 x 5 @ 70 kg, rest 2:30, build from 30 kg\n  dip 2 x 8 @ bodyweight+10 kg, rest 1:30',
  'lift\n  front squat: 3 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30\n  deadlift 2 x (2+max) @ 100 kg, pause 15 s',
  'lift\n  plank: 2 x 45 s, rest 0:45\n  farmer carry 2 x 40 yd @ 2x30 kg, rest 1:00\n  wall sit 2 x max',
  'lift\n  row 2 x 8 @ rpe 8, rest 1:30\n  curl 2 x (12 > 10) @ 20/15 kg\n  2 x (clean 1 + jerk 2) @ 60 kg',
  'lift\n  12 min of: 8 row each arm, 6 step-up each leg\n  for time: 2 rounds of 20 step-up, 200 m run',
  'run: track\n  2 km easy\n  2 km @ 4:05-4:10/km, split 1 km\n  3 x 500 m in 1:50, jog 200 m',
  'run\n  10:00 easy\n  3 x (3:00 hard, jog 2:00)\n\nfuel\n  after: carbs 80 g',
  'cross: rower\n  3 x 500 m @ 1:55-2:00/500 m, rest 1:00',
]
const moves: Record<string, (walked: Walked) => unknown> = {
  space: (walked) => walked.space(),
  enter: (walked) => walked.enter(),
  result: (walked) => walked.entry('6'),
  'not done': (walked) => walked.entry('-'),
  'a moment': (walked) => walked.wait(4),
  'a while': (walked) => walked.jump(200),
}
/** A day, and what is done before the recorder is left with an empty field. */
const somewhere = fc.tuple(
  fc.constantFrom(...lines),
  fc.array(fc.constantFrom(...Object.keys(moves)), { maxLength: 25, size: 'max' }),
)

function walkedTo([line, made]: [string, string[]]): Walked {
  const walked = walkThrough(`Tired\n\n${line}\n`)
  for (const move of made) moves[move]?.(walked)
  for (let press = 0; press < 3; press++) walked.key('escape')
  return walked.wait(3)
}

const runs = times(60)

describe('anywhere in a day', () => {
  test('an entry that is refused is answered with examples that are not', () => {
    const answer = / (?:such as|is typed) ([^;]+)$/
    fc.assert(
      fc.property(somewhere, fc.constantFrom('zzz', '6 y', 'hr 9x', ''), (place, typed) => {
        const walked = walkedTo(place)
        const examples = answer.exec(walked.copy().entry(typed).notice ?? '')?.[1] ?? ''
        for (const example of examples.split(/, (?:or )?| or /).filter((each) => each !== '')) {
          const said = walked.copy().entry(example)
          expect([said.notice, said.view.panel?.title].join(' '), example).not.toMatch(
            /not understood|type |did you mean|human/,
          )
        }
      }),
      runs,
    )
  })

  test('a pain of the heart gets its line, whatever is asked for', () => {
    fc.assert(
      fc.property(
        somewhere,
        fc.constantFrom('pain heart', 'pain left arm numb 4', '5 pain chest', 'dizzy'),
        (place, typed) => {
          const walked = walkedTo(place)
          expect(walked.entry(typed).notice).toBe(warningText)
        },
      ),
      runs,
    )
  })

  test('a key held down counts once', () => {
    fc.assert(
      fc.property(somewhere, fc.constantFrom('enter', 'pageDown', 'right', 'a', 'h', 's'), (place, name) => {
        const walked = walkedTo(place)
        const press = (each: Walked) => each.press(pressOf(name))
        const [once, held] = [walked.copy(), walked.copy()]
        for (const seconds of [0, 0.5, 0.03, 0.03, 0.03]) {
          press(held.jump(seconds))
          once.jump(seconds)
          if (seconds === 0) press(once)
        }
        expect(comparable(held.state)).toEqual(comparable(once.state))
      }),
      runs,
    )
  })

  test('a word typed quickly is text, and its letters leave no trace', () => {
    fc.assert(
      fc.property(
        somewhere,
        fc.constantFrom(
          'sore knee',
          'hurts',
          'hard',
          'help',
          'pulled hamstring',
          'stitch',
          'ankle',
          'unwell',
        ),
        (place, word) => {
          const walked = walkedTo(place)
          const before = comparable(walked.copy().jump(word.length * 0.2).state)
          walked.spell(word)
          expect(walked.model.draft).toBe(word)
          expect(comparable(walked.state)).toEqual(before)
        },
      ),
      runs,
    )
  })

  test('Space twice within a second records no result that took less', () => {
    fc.assert(
      fc.property(somewhere, (place) => {
        const walked = walkedTo(place)
        const before = effectiveEvents(walked.events).length
        walked.space().wait(0.5).space().wait(3).enter()
        for (const { event } of effectiveEvents(walked.events).slice(before))
          if ('result' in event && 'seconds' in event.result)
            expect(event.result.seconds ?? 3).toBeGreaterThanOrEqual(3)
      }),
      runs,
    )
  })
})
