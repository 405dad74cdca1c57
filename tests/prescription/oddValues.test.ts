import { expect, it, test } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'

/* Values that can be read but are implausible. The limits and the days are invented. */

function warningsOf(text: string): string[] {
  const reading = readPrescription(text)
  if ('problems' in reading) return reading.problems.map(({ message }) => `refused: ${message}`)
  return reading.warnings.map(({ line, column, message }) => `${line}:${column} ${message}`)
}

test.each([
  [
    'run',
    '6 x 500 m @ 1:50, jog 200 m',
    'refused: 1:50/km is 0:55 for 500 m; did you mean in 1:50? Write: 6 x 500 m in 1:50, jog 200 m',
  ],
  [
    'run',
    '6 x 500 m @ 1:45-1:52/km',
    'refused: 1:45-1:52/km is 0:52.5-0:56 for 500 m; did you mean in 1:45-1:52? Write: 6 x 500 m in 1:45-1:52',
  ],
  [
    'run',
    '3 x 800 m @ 2:05',
    'refused: 2:05/km is 1:40 for 800 m; did you mean in 2:05? Write: 3 x 800 m in 2:05',
  ],
  // Twelve and a half minutes for 5 km is the world's best (World Athletics; from memory); a tenth faster is 11:27.
  ['run', '5 km @ 2:10', 'refused: a pace of 2:10/km is faster than any human over 5 km'],
  ['run', '5 km @ 28-30 km/h', 'refused: 28-30 km/h is faster than any human over 5 km'],
  ['run', '400-1200 m @ 1:58', 'refused: a pace of 1:58/km is faster than any human over 1200 m'],
  ['run', '10 km @ 2:00', 'refused: a pace of 2:00/km is faster than any human over 10 km'],
  [
    'run',
    '2 x 2 laps @ 1:50',
    'refused: 1:50/km is 1:28 for 2 laps; did you mean in 1:50? Write: 2 x 2 laps in 1:50',
  ],
  [
    'run',
    '5 km @ 20:00',
    'refused: 20:00/km is slower than a walk; did you mean in 20:00? Write: 5 km in 20:00',
  ],
  [
    'run',
    '3 mi @ 21:00',
    'refused: 21:00/mi is slower than a walk; did you mean in 21:00? Write: 3 mi in 21:00',
  ],
  [
    'run',
    '10 km @ 42:30',
    'refused: 42:30/km is slower than a walk; did you mean in 42:30? Write: 10 km in 42:30',
  ],
  [
    'run',
    'half marathon @ 1:28:00',
    'refused: a pace has no hours: the time of the whole interval is written in 1:28:00; write: half marathon in 1:28:00',
  ],
  ['run', 'easy 1:30', '3:6 1:30 is minutes and seconds; hours and minutes are written 1:30:00'],
  ['run', 'easy 0:45', '3:6 0:45 is minutes and seconds; hours and minutes are written 0:45:00'],
  ['run', 'long run 2:15', '3:10 2:15 is minutes and seconds; hours and minutes are written 2:15:00'],
  ['lift', 'squat 3 x 5 @ 925 kg', '3:15 925 kg is more than anyone lifts (500 kg); did you mean 92.5 kg?'],
  ['lift', 'squat 3 x 5 @ 9250 kg', '3:15 9250 kg is more than anyone lifts (500 kg); check the number'],
  [
    'lift',
    'squat 5/5 @ 100/1200 lb',
    '3:17 1200 lb is more than anyone lifts (500 kg); did you mean 120 lb?',
  ],
  ['lift', 'dip 3 x 5 @ +600 kg', '3:13 600 kg is more than anyone lifts (500 kg); did you mean 60 kg?'],
  ['lift', 'squat 3 x 5 @ 150%', '3:15 150% of a maximum is more than anyone lifts; write 110% or less'],
  ['lift', 'squat 60 x 1 @ 100 kg', '3:7 60 sets of squat are more than anyone does'],
  [
    'lift',
    'squat 100 x 5',
    'refused: 100 sets of squat are more than anyone does; is 100 kg the load? Write: squat 1 x 5 @ 100 kg',
  ],
  [
    'lift',
    'squat 140 x 5, every 2:00',
    'refused: 140 sets of squat are more than anyone does; is 140 kg the load? Write: squat 1 x 5 @ 140 kg, every 2:00',
  ],
  [
    'lift',
    'bench press 100 5 x 5',
    '3:1 this is read as a name with 100 in it; put the load after the sets: 3 x 8 @ 100',
  ],
])('%s: %s', (part, line, warning) => {
  expect(warningsOf(`Day\n${part}\n${line}`)).toEqual([warning])
})

test.each(['hip switch 90/90: 3 x 8', 'squat 2: 1 x 5 @ 100 kg', 'for time: 10 burpees, 200 m run hr 150'])(
  'a number in a name that cannot be the load is not warned of: %s',
  (line) => {
    expect(warningsOf(`Day\nlift\n${line}`)).toEqual([])
  },
)

test('inches are refused where nothing is jumped or stepped onto, since they may be seconds of rest', () => {
  expect(warningsOf('Day\nlift\nsquat 3 x 5 @ 90"')).toEqual([expect.stringContaining('cannot be read here')])
})

test.each([
  ['athlete: 680 kg', '2:10 hardly any athlete weighs 680 kg (25 to 300 kg); did you mean 68 kg?'],
  ['athlete: 6.8 kg', '2:10 hardly any athlete weighs 6.8 kg (25 to 300 kg); did you mean 68 kg?'],
  ['athlete: 0.1 kg', '2:10 hardly any athlete weighs 0.1 kg (25 to 300 kg); check the number'],
  ['bar: 200 kg', '2:6 no bar weighs 200 kg (at most 60 kg); did you mean 20 kg?'],
  ['max: squat 1200 kg', '2:12 1200 kg is more than anyone lifts (500 kg); did you mean 120 kg?'],
])('header %s', (header, warning) => {
  expect(warningsOf(`Day\n${header}\nlift\nsquat 3 x 5`)).toEqual([warning])
})

test.each([
  ['run', '6 x 500 m @ 2:10/km'],
  ['run', '10 x 400 m @ 1:50/km'],
  ['run', '6 x 500 m in 1:50'],
  ['cross', '20 km @ 1:30/km'],
  ['run', '200 km easy'],
  ['lift', 'squat 50 x 1 @ 500 kg'],
  ['lift', 'every 0:30 for 40 min: 1 squat'],
  ['lift', 'squat 1 x 1 @ 110%'],
  // A pace for the whole interval slower than a walk is no likelier.
  ['run', '5 x 1 km @ 20:00'],
])('nothing is said about %s: %s', (part, line) => {
  expect(warningsOf(`Day\nathlete: 25 kg\nbar: 60 kg\n${part}\n${line}`)).toEqual([])
})

it.each([
  // 2:08 for 800 m would be a third faster than goal pace, 3:57/km; 2:40 is 3:20/km.
  ['6 x 800 m @ 2:40', 'refused: 2:40/km is 2:08 for 800 m; did you mean in 2:40? Write: 6 x 800 m in 2:40'],
  ['6 x 800 m @ 2:40/km', null],
  // 3 min for 400 m is a walk.
  ['6 x 400 m @ 2:55', null],
  ['6 x 1200 m @ 3:50', null],
])('with a goal of 10 km in 39:30, %s is asked: %s', (line, warning) => {
  const said = warningsOf(`Day\ngoal: 10 km in 39:30\nrun\n${line}\n`)
  expect(said).toEqual(warning === null ? [] : [warning])
})

it('a day with more than a hundred warnings is read to its end', () => {
  const reading = readPrescription(`Day\nlift\n${'squat 3 x 5 @ 925 kg\n'.repeat(150)}run\n5 km easy\n`)
  if ('problems' in reading) throw new Error('refused')
  expect(reading.prescription.parts.map(({ items }) => items.length)).toEqual([150, 1])
  expect(reading.warnings).toHaveLength(100)
})

// The men's world records, from memory: 800 m in 1:40.91, 1 km between it and 1500 m in 3:26. A tenth faster is
// believed.
test.each([
  ['1 km in 1:59', null],
  ['1 km in 1:50', '1 km in 1:50 (110 s) is faster than any human'],
  ['1 mi in 3:20', 'faster than any human'],
  ['10 km in 23:00', 'faster than any human'],
  ['10 km in 24:30', null],
  ['1 km @ 1:50/km', 'a pace of 1:50/km is faster than any human over 1 km'],
  ['1 km @ 1:59/km', null],
  ['60 m in 5.5 s', null],
])('%s is compared with the fastest over its distance', (line, message) => {
  const reading = readPrescription(`Day\nrun\n${line}`)
  const messages = 'problems' in reading ? reading.problems.map((problem) => problem.message).join() : null
  if (message === null) expect(messages).toBeNull()
  else expect(messages).toContain(message)
})

test('a bare pace that matches the others only in the other unit is questioned', () => {
  const day = (pace: string) => `Day\nrun\n6 x 1 km @ 3:55-4:05, jog 400 m\n5 km @ ${pace}`
  // 6:30 a mile is 4:02 a kilometre.
  expect(warningsOf(day('6:30'))).toEqual(['4:1 6:30/km is far from 3:55-4:05/km; did you mean 6:30/mi?'])
  for (const pace of ['6:30/km', '6:30/mi', '4:30', '5:10', '7:10']) expect(warningsOf(day(pace))).toEqual([])
  expect(warningsOf('Day\nunits: mi lb\nrun\n6 x 1 mi @ 6:25\n3 mi @ 4:00')).toEqual([
    '5:1 4:00/mi is far from 6:25/mi; did you mean 4:00/km?',
  ])
})

test('a bare pace over miles in a file in kilometres is questioned, unless it is near goal pace', () => {
  const messages = (goal: string) => {
    const reading = readPrescription(`Day\n${goal}run\n4 x 1 mi @ 3:50`)
    return 'problems' in reading ? reading.problems.map(({ message }) => message) : []
  }
  // The goal's pace is 3:57 a kilometre.
  expect(messages('goal: 10 km in 39:30\n')).toEqual([])
  expect(messages('goal: 10 km in 59:30\n')).toEqual(messages(''))
  expect(messages('')).toHaveLength(1)
})
