import { type Walked, walkThrough } from '../day.ts'

/* Every phase in which a key can be pressed, each reached with keys, once: a test continues with a copy. */

const lift = 'Ramps\n\nlift\n  front squat: 3 x (1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 60 kg\n'
const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
const noRest = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg\n'
const superset =
  'Round\n\nlift\n  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight, pause 20 s, rest 1:30\n'
const every = 'Every\n\nlift\n  clean: 3 x 2 @ 60 kg, every 1:30\n'
const repeats = 'Track\n\nrun\n  3 x 500 m in 1:50, jog 200 m\n'
const splits = 'Track\n\nrun\n  3 km in 12:30, split 1 km\n'
const byTime = 'Hills\n\nrun\n  3 x (3:00 hard, jog 2:00)\n'
const clusters = lift.replace(', build from 60 kg', '')
const prep = 'Before\n\nprep\n  foam roll 3:00\n  hip circles\n'
const fuel = 'Meals\n\nfuel\n  after: carbs 80 g\n'

const walks: Record<string, () => Walked> = {
  'before a warm-up': () => walkThrough(lift),
  'a warm-up set': () => walkThrough(lift).space().wait(20),
  'the rest after a warm-up set': () => walkThrough(lift).effort(20).wait(5),
  'before the first set': () => walkThrough(straight),
  'a set': () => walkThrough(straight).space().wait(20),
  'a set just begun': () => walkThrough(straight).space().wait(1),
  'a group of a cluster set': () => walkThrough(clusters).space().wait(4),
  'the last group': () => walkThrough(clusters).effort(4).wait(20).wait(4),
  'a group that is paced': () => walkThrough(clusters).typed('p').space().wait(2),
  'the pause in a cluster set': () => walkThrough(clusters).effort(4).wait(5),
  'the rest with its result open': () => walkThrough(straight).effort(20).wait(5),
  'the rest with nothing open': () => walkThrough(straight).effort(20).wait(5).enter().wait(3),
  'a rest that counts up': () => walkThrough(noRest).effort(20).wait(5).enter().wait(3),
  'the rest before a set that begins by itself': () => walkThrough(every).effort(20).wait(5).enter().wait(3),
  'the pause in a round': () => walkThrough(superset).effort(20).wait(5),
  'before the first run': () => walkThrough(repeats),
  'a repeat': () => walkThrough(repeats).space().wait(100),
  'a split': () => walkThrough(splits).space().wait(100),
  'an interval that ends by itself': () => walkThrough(byTime).space().wait(100),
  'a jog by distance': () => walkThrough(repeats).effort(110).wait(20),
  'a jog by time': () => walkThrough(byTime).space().wait(190).entry('0.8 km'),
  'before an item of prep': () => walkThrough(prep),
  'an item of prep': () => walkThrough(prep).space().wait(20),
  'before a meal': () => walkThrough(fuel),
  'a hold': () => walkThrough(straight).effort(20).wait(5).typed('h').wait(5),
  'everything done': () => walkThrough(straight).typed('s').typed('s').wait(1),
  finished: () => walkThrough(straight).entry('5').typed('f').enter().enter().wait(1),
}

export const situations: Record<string, () => Walked> = walkedOnce(walks)

/** The same walks, each walked only the first time. */
export function walkedOnce<Name extends string>(
  walks: Record<Name, () => Walked>,
): Record<Name, () => Walked> {
  const walked = new Map<string, Walked>()
  const copied = ([name, walk]: [string, () => Walked]): [string, () => Walked] => [
    name,
    () => {
      const first = walked.get(name) ?? walk()
      walked.set(name, first)
      return first.copy()
    },
  ]
  return Object.fromEntries(Object.entries<() => Walked>(walks).map(copied)) as Record<Name, () => Walked>
}
