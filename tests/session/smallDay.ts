import { dayOf } from '../day.ts'
import fc from '../fastCheck.ts'

/* Small generated days with every kind of line. */

const run = [
  '2 km easy',
  '3 km @ 4:05-4:10/km, split 1 km',
  '2.5 km in 10:30, split 1 km',
  '3 x 500 m @ 3:35-3:45/km, jog 200 m',
  '2 x (3:00 hard, jog 2:00)',
  '2 x (1:00 fast, 2:00 easy)',
  '2 x (2 x 200 m in 33-35 s, jog 200 m), walk 3:00',
  '200-400-200 m in 2:40, jog 200 m',
  '3 x 100 m strides, walk back',
  '2 x 1 km tempo, stand 0:45',
  '20 min steady',
  '1 mi race',
]
const lift = [
  'front squat: 3 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 40 kg',
  'bench press 2 x 5 @ 70 kg, rest 2:00',
  'row 10/8/6 @ 40/45/50 kg, rest 1:30',
  'pull-up 3 x 6 @ bodyweight + dip 2 x 8 @ bodyweight+10 kg, pause 0:20, rest 1:30',
  '2 rounds: 10 push-up @ bodyweight, 15 squat @ bodyweight, 45 s plank, pause 15 s, rest 2:00',
  'clean: 3 x 2 @ 60 kg, every 1:30',
  'deadlift 2 x 5+ @ 80%, rest 3:00',
  'dip 2 x (2+max) @ bodyweight, pause 10 s, rest 2:00',
  'split squat 2 x 8 each leg @ 2x20 kg',
  'curl 2 x max @ rpe 9, rest 2-3 min',
  'plank: 2 x 45 s, rest 0:45',
  'farmer carry: 2 x 40 m @ 2x30 kg, rest 1:00',
]
const prep = ['foam roll 3:00', 'leg swings 2 x 10 each side', 'hip circles']
const fuel = ['before 2 h: carbs 75 g, protein 20 g', 'after: carbs 80 g', 'between: "water"']

const part = (kind: string, lines: readonly string[]) =>
  fc
    .array(fc.constantFrom(...lines), { minLength: 1, maxLength: 3 })
    .map((items) => [kind, ...items.map((item) => `  ${item}`)].join('\n'))

/** A day of one to three parts; a failing run prints its text. */
export const smallDay = fc
  .array(
    fc.oneof(
      { weight: 3, arbitrary: part('run: track', run) },
      { weight: 4, arbitrary: part('lift', lift) },
      part('cross: rower', run),
      part('prep', prep),
      part('fuel', fuel),
    ),
    { minLength: 1, maxLength: 3 },
  )
  .map((parts) => `Day\nathlete: 68 kg\n\n${parts.join('\n\n')}\n`)

/** The lines to draw from; each of them can be read. */
export const everyLine = dayOf(
  [
    'Every line',
    ...[
      ['run', ...run],
      ['lift', ...lift],
      ['prep', ...prep],
      ['fuel', ...fuel],
    ].map(([kind, ...lines]) => [kind, ...lines.map((line) => `  ${line}`)].join('\n')),
  ].join('\n\n'),
)
