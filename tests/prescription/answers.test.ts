import { describe, expect, it } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'

/* What coaches really write and the notation does not read, and the answer to each. The carets' column and length
 * are in front of each answer. */

/** The answers to a line of a part, with their places; running is put between two easy kilometres, because
 * only work may begin or end a part. */
function answersTo(part: string, line: string): string[] {
  const around = part.startsWith('run') ? ['1 km', line, '1 km'] : [line]
  const head = ['Day', 'goal: 10 km in 39:30', 'max: squat 100 kg', part]
  const reading = readPrescription([...head, ...around].join('\n'))
  const problems = 'problems' in reading ? reading.problems : reading.warnings
  return problems
    .filter((problem) => problem.line === head.length + around.indexOf(line) + 1)
    .map(
      ({ column, length, severity, message }) =>
        `${column}+${length} ${severity === 'warning' ? 'warning: ' : ''}${message}`,
    )
}

const lines: readonly (readonly [part: string, lines: readonly string[]])[] = [
  [
    'lift',
    [
      '5x5 squat',
      'squat 5 x 5 @ 100 kg, build from the bar',
      'bench press 3 x 8 @ 60 lb each side',
      'pull-up 30 reps total',
      'squat 3 x 5 @ 60 kg a side',
      'split squat 3 x 8 @ 20 kg a side',
      'squat + press 3 x 8',
      'squat 3 x 3 @ 60-70% of 140 kg',
      'squat 3 x 5 -20 kg',
      'pull-up 3x5 5 s eccentrics rest 2:00',
      'leg curl 3 x 12 plate 8',
      'deadlift 3 x 3 @ 2 plates each side',
      '50 pull-ups',
      'squat 3 x 5 @ 100 kg, rset 2:00, tempo 3-1-1',
      'squat w/u to 100, then 3x3 @ 110',
      "back squat 5x5 80kg 3' rest",
      'squat 3 x 5 @ 100 kg, belt',
      '3 sets of 8',
      '3x5x140kg',
      '140kg x 5',
      '5,5,3',
      '@ 315 lb RPE8',
      '@ 2 RIR',
      'every minute',
      'squat 3x140kg',
      'squat 5x5 100kg',
      'squat 5x5 100',
      'squat 100 kg 5 x 5',
      'deadlift 5 @ 140',
      'db row @ 2 RIR, 6x10',
      'bench 2 back-off sets 8 @ 60%',
      'rest 90',
      'plank 45"',
      'plank 3 x 45',
      'plank 3 x 45", rest 30"',
      'work up to a heavy single',
      'front squat: work up to a heavy triple, rest 3:00',
      'power clean + hang clean + jerk 5 x 1 @ 60 kg',
      'curl 3 x 10, drop set',
      'curl 10 @ 20 kg -> 8 @ 15 kg',
      'AMRAP 10 min: 5 pull-ups, 10 push-ups',
      '12 min AMRAP of 5 pull-ups',
      'squat 5 x 5 @ 8',
      'squat 5 x 5 @ 7-8',
      'squat 5 x 5 @ 100 kg, rest 90',
      'squat 5 x 5 @ 100 kg, rest 2 m',
      'squat 5 x 5 @ 135#',
      'squat 5 x 5 @ 3x24 kg',
      'squat 5 x 5 @ 0 kg',
      'squat 5 x 5 @ 60,5 kg',
      'squat 5 x 5, pause 20 s',
      'squat 5x5 20s pause',
      'squat 3 x 1, pause 20 s, rest 2:00',
      'squat 5 x 5, rest 2:00, rest 3:00',
      'squat 5 x 5, every 2:00, rest 1:00',
      'squat 5 x 5 @ bodyweight, build from 40 kg',
      'bench 5 x 5 @ 80%, build from 40 kg',
      'squat 5 x 5 @ 80%, build from 80 kg',
      'squat 5 x 5 @ 80 kg, build from 100 kg',
      'squat 5 x 5 @ rpe 11',
      'squat 5 x 5 @ 100 kg @8',
      'squat 5 x 5, rpe 8',
      'squat 5 x 5 @ 100 kg, slowly',
      'squat 5 x 5; rest 2:00',
      'squat 5 x 5, tempo slow',
      'squat 5 x 5, tempo 311',
      'squat 3 x 5+ bench 3 x 5',
      'squat 4 x 2+2',
      'squat 0 x 5',
      'squat 1000 x 5',
      'squat 5 x 0',
      'squat 5 x 5 @ 60/70 kg',
      'curl 12 > 10 @ 20 kg',
      'squat 3 x 10/8/6',
      'squat 8,8,6',
      'bench 10-8-6 @ 60-65-70 kg',
      'bench 3 x 5 @ 60-65-70%, rest 2:00',
      'EMOM',
      'clean 2 x 10 emom 10 min',
      'db press 3 x 8 @ 2x22.5 kg, rest 60',
      'clean 10 x 2, E2MOM',
      'EMOM clean 10 x 2',
      'a long name a long name a long name a long name a long name a long name a long name a long name a long name a long name 3 x 5',
      'a long name a long name a long name a long name a long name a long name a long name 3 x 5',
      'squat 12-10-8',
      'squat 1 x 20, 3 x 5',
      'squat',
      'squat x 5',
      'squat many @ heavy',
      'squat 5 x 5 5 x 5',
      'bench 3x5 & row 3x8',
      'hip 90/90 lift 3 x 8',
      'lunge 3 x 10/leg',
      'plank 45 s x 3',
      'squat @ 100 kg, 3 x 8',
      'squat @ 100 kg 3 x 8',
      'row @ 2x20 kg for 3 x 10 each arm',
      'pull-up 3 x failure',
      'pull-up 3 x 8 @ -20 kg',
      '400 m easy',
      'squat 5 x 5 "slow',
      'squat 5 x 3:75',
    ],
  ],
  [
    'run: track',
    [
      '6 x 800 m, walk 1:00-1:30',
      '6 x 800 m, rest 2-3 min',
      '6 strides w/ walk back',
      '12 x 400 m at 5 km goal pace',
      'cool down 10',
      '6 x 400 m, lane',
      '400 m in 80',
      '1 km @ 412',
      '1 km in 405-412',
      '1 km @ 412/km',
      '400 m in 80-85',
      '8x400m @ 80',
      '6 x 500',
      '6 x 500 @ 1:50',
      'jog 400',
      '5 km, split 1000',
      '5 km @ 4.00',
      '5 km @ 4',
      "6 x 400 m, jog 200 m in 2'",
      "6 x 400 m, every 4'",
      '6 x 400 m @ 4.00 jog back',
      '6 x 400 m @ 4.00 jog same time',
      '1,5 km easy',
      '1,500 m easy',
      '.5 km easy',
      '6 x 500 m @ 3:75/km, jog 200 m',
      '6 x 500 m @ 3:5/km',
      '5 km in 1:60:00',
      '5 km @ 4:05 min/km',
      '5 km @ 6:30 min per mi',
      '5 km @ 6:15/mile',
      '5 km @ 1:20 per lap',
      '5 km @ 5k pace',
      '5 km @ tempo',
      'easy 5 km @ 5:30',
      '2 km easy, jog 400 m',
      '2 km easy, walk 2 min',
      '3 x (1 km, jog 400 m), walk 3:00',
      '10 min, split 1 km',
      '10 min in 9:00',
      '5 km easy, split 1 km, split 500 m',
      '400 m in 1:20:00',
      'half marathon in 1:28',
      '400 m in 8 s',
      '5 km @ 0:50/km',
      '5 km @ 40:00/km',
      '5 km @ 50 km/h',
      '5 km @ hr 300',
      '5 km, lane 9',
      '5 km, grade 5',
      '0 km',
      '0 x 400 m',
      '1000 x 400 m',
      '6 x 400 m w/ 90 s rest',
      '6 x 400 m, rest 200 m',
      '10 x 1 min hard, 1 min easy',
      '3 x (400 m, jog 200 m',
      '3 x 400 m), jog 200 m',
      '(((((400 m)))))',
      'fartlek 30 min',
      '500 m x 6',
      '200m x 10 @ 35 s',
      '1 km x 5 @ 4:00/km, jog 400 m',
      '3:00 x 5 hard, jog 1:00',
      '6 x 1 km 4:00-4:05/km, jog 400 m',
      '10 km easy 5:30/km',
      '200/400/600/400/200 m, jog 200 m',
      "6 x 400 in 80 R: 2'",
      '6 x 400 m r=90s',
      '5 km esay',
      '6 x 500 m, jgo 200 m',
      '6 x 500 m, hop 200 m',
      '5 km, foo',
      'squat 5 x 5',
      '5x5 squat',
      '6 by five hundred',
      '5 km @ 4:05-',
    ],
  ],
  [
    'fuel',
    [
      'before: coffee',
      '75 g carbs',
      'before: carbs 75 g, 200 mg caffeine',
      'before 75 g carbs',
      'before: carbs 75, 20 g protein',
      'during: carbs 30 g',
      'during: carbs 60 g/h',
      'gel at 45 min',
      'during: 60 g carbs per hour',
      'during: coffee, gel every 30 min',
      'after: 500 cal',
      'after: carbs 20 g, carbs 30 g',
      'gel before run',
      'post 80 g carbs 30g protein',
      'gel 15 min before the race',
      'before run: gel',
      'after training 80 g carbs, coffee',
      '2 eggs and a banana after',
      'breakfast: oats',
    ],
  ],
  [
    'prep',
    [
      'run: 5 min',
      'foam roll 3:00, slowly',
      "foam roll 3'",
      'foam roll 0:00',
      'leg swings 0 x 10',
      '400 m jog',
      'bands 2 sets',
      ', "x"',
    ],
  ],
]

it.each(lines)(
  'a line in a part that begins with %s is answered with the place and what to write',
  async (part, lines) => {
    const answered = lines.map((line) =>
      [line, ...answersTo(part, line).map((answer) => `    ${answer}`)].join('\n'),
    )
    await expect(`${answered.join('\n')}\n`).toMatchFileSnapshot(
      `golden/answers-${part.replace(': ', '-')}.txt`,
    )
  },
)

describe('a line of another part is answered', () => {
  const rounds = 'this reads as an item of a lift part: write lift on a line above it'
  it.each([
    ['run', 'gel before run', '1+14 this reads as an item of a fuel part: write fuel on a line above it'],
    ['lift', 'banana after', '1+12 this reads as an item of a fuel part: write fuel on a line above it'],
    ['run', '3 rounds:', `1+9 ${rounds}`],
    [
      'fuel',
      'before 1:30 carbs 60 g',
      '8+4 a meal begins with before, between or after and a colon, and words of your own are in quotes; write: before 90 min: carbs 60 g',
    ],
    [
      'cross: row',
      '2000 m @ 1:48-1:52',
      '8+11 this pace can be 1:48-1:52/500 m or 1:48-1:52/km: did you mean 1:48-1:52/500 m? Write: 2000 m @ 1:48-1:52/500 m',
    ],
    [
      'lift',
      'warm up 5 min bike, hips',
      '1+24 this reads as an item of a prep part: write prep on a line above it',
    ],
    [
      'lift',
      '3 rounds:',
      '1+9 the exercises of the rounds are missing: write them on the same line, such as 3 rounds: 10 push-up, 8 row @ 40 kg',
    ],
  ] as const)('in %s: %s', (part, line, answer) => {
    expect(answersTo(part, line)).toEqual([answer])
  })

  it('above the first part too', () => {
    const reading = readPrescription('Day\ngel before run\nrun\n  5 km easy\n')
    expect('problems' in reading && reading.problems[0]?.message).toBe(
      'this line needs a heading above it: write fuel on the line above',
    )
  })
})

it('every example in a message can be read', () => {
  const examples = [
    '3x5x140kg',
    '140kg x 5',
    '5,5,3',
    '@ 315 lb RPE8',
    '@ 2 RIR',
    'every minute',
    'squat 3x140kg',
  ]
  for (const line of examples) {
    const [answer = ''] = answersTo('lift', line)
    const written = /(?:such as|write) ((?:squat|clean) \d.*?)(?:, or (.*))?$/.exec(answer)
    for (const each of [written?.[1], written?.[2]])
      if (each !== undefined) expect(answersTo('lift', each)).toEqual([])
    expect(written).not.toBeNull()
  }
})

describe('a file without headings', () => {
  /** The whole file that is offered; null without one. */
  function offered(text: string): string | null {
    const reading = readPrescription(text)
    const [first] = 'problems' in reading ? reading.problems : []
    const whole = first?.suggestion ?? null
    if (whole !== null) expect(readPrescription(whole)).not.toHaveProperty('problems')
    return whole
  }

  it.each([
    ['squat 3x5 140kg', 'Day\n\nlift\n  squat 3 x 5 @ 140 kg\n'],
    ['squat 3x5x140kg\nbench 3x5 60kg', 'Day\n\nlift\n  squat 3 x 5 @ 140 kg\n  bench 3 x 5 @ 60 kg\n'],
    ['EMOM 10: 3 power cleans 70kg', 'Day\n\nlift\n  power cleans 10 x 3 @ 70 kg, every 1:00\n'],
    ['plank 45"', 'Day\n\nlift\n  plank 1 x 45 s\n'],
    ['6 x 500', 'Day\n\nrun\n  6 x 500 m\n'],
    [
      'Day\nlift bench 3x5 100kg\nlift squat 3x5\nrun 5 km easy',
      'Day\n\nlift\n  bench 3 x 5 @ 100 kg\n  squat 3 x 5\n\nrun\n  5 km easy\n',
    ],
    ['6 strides', 'Day\n\nrun\n  6 x 100 m strides, walk back\n'],
    ['goal: 10 km in 39:30\n5 km race in 20:00', 'Day\ngoal: 10 km in 39:30\n\nrun\n  5 km race, "20:00"\n'],
    ['date: 2026-11-26\nsquat 3x5 140kg', 'Day\ndate: 2026-11-26\n\nlift\n  squat 3 x 5 @ 140 kg\n'],
    ['Week 3, day 2\nsquat 5x5 100kg', 'Week 3, day 2\n\nlift\n  squat 5 x 5 @ 100 kg\n'],
    [
      'Legs\n• squat 5×5 100kg\n• banana after',
      'Legs\n\nlift\n  squat 5 x 5 @ 100 kg\n\nfuel\n  after: "banana"\n',
    ],
    [
      'Two\nMorning: 6 km easy\nEvening: squat 5x5 100kg',
      'Two\n\nrun\n  6 km easy, "Morning"\n\nlift\n  squat 5 x 5 @ 100 kg, "Evening"\n',
    ],
    // A recovery belongs to the runs around it.
    [
      'Miles\n2 mi easy\njog 400\n3 x 1 mi @ 6:00/mi',
      'Miles\n\nrun\n  2 mi easy\n  jog 400 m\n  3 x 1 mi @ 6:00/mi\n',
    ],
  ])('%j is answered with the whole file', (text, whole) => {
    expect(offered(text)).toBe(whole)
  })

  it.each([
    ['where rounds are on several lines', 'Mixed\n3 rounds:\n10 push-up\n5 km easy'],
    ['for an exercise after another', 'Mixed\npush-ups after run\n5 km easy'],
  ])('has no whole file %s', (_, text) => {
    expect(offered(text)).toBeNull()
  })

  it.each(['Legs', 'Week 3', '3 sets of 8', 'Thursday: five hundreds'])(
    'with only %j is told to add a part',
    (text) => {
      expect(offered(text)).toBeNull()
    },
  )

  it('gets the second target of a race as a text', () => {
    const reading = readPrescription('Day\n\nrun\n  2 km easy\n  5 km race in 20:00\n  1 km easy\n')
    const [problem] = 'problems' in reading ? reading.problems : []
    expect(problem?.message).toBe(
      'a race is run for the goal of the day, a header such as goal: 10 km in 39:30; put its time here in quotes; write: 5 km race, "20:00"',
    )
  })
})

describe('a header that cannot be read is answered with one that can', () => {
  it.each([
    [
      'goal: 10k sub 39:30 april 18',
      'a date is written year-month-day; a goal is written as a distance in a time; write: goal: 10 km in 39:30',
    ],
    ['goal: sub 40 10k', 'a goal is written as a distance in a time; write: goal: 10 km in 40:00'],
    [
      'goal: 5 km in 19:30 by 2027-04-18',
      'a goal is written as a distance in a time; write: goal: 5 km in 19:30 on 2027-04-18',
    ],
    ['goal: 10 km in 39m30s', 'a time is written as a clock; write: goal: 10 km in 39:30'],
    [
      'goal: 39\'30" 10k',
      'a time is written as a clock; a goal is written as a distance in a time; write: goal: 10 km in 39:30',
    ],
    [
      'goal: hm in 90 min',
      'a goal is written as a distance in a time; write: goal: half marathon in 1:30:00',
    ],
    ['goal: half 1:30', 'a goal is written as a distance in a time; write: goal: half marathon in 1:30:00'],
    ['goal: mile in 5:30', 'a goal is written as a distance in a time; write: goal: 1 mi in 5:30'],
    ['goal: 400 m in 60', 'a goal is written as a distance in a time; write: goal: 400 m in 1:00'],
    [
      'goal: 10 km in 39:30 on 18 April 2027',
      'a date is written year-month-day; write: goal: 10 km in 39:30 on 2027-04-18',
    ],
    ['date: Thu Nov 26th, 2026', 'a date is written year-month-day; write: date: 2026-11-26'],
    ['athlete: 150 lb, 34 y', 'the athlete is given as a body mass alone; write: athlete: 150 lb'],
    ['lap: 200', 'the length of a lap needs a unit; write: lap: 200 m'],
    ['athlete: 150#', 'pounds are written with lb; write: athlete: 150 lb'],
  ])('answers %s', (line, answer) => {
    const reading = readPrescription(`Day\n${line}\n\nrun\n  5 km\n`)
    const [message = ''] = 'problems' in reading ? reading.problems.map((problem) => problem.message) : []
    expect(message).toBe(answer)
    const written = /(?:write:|such as) (\w+: .*)$/.exec(message)?.[1] ?? ''
    expect(readPrescription(`Day\n${written}\n\nrun\n  5 km\n`)).not.toHaveProperty('problems')
  })

  it.each([
    'goal: 5 km in 19:59 and 10 km in 41:00',
    'goal: bench 100 kg',
    'goal: 10 km in 39:30, 40:00 in the heat',
    'date: 31 February 2026',
  ])('offers no line for %s, of which it would drop something', (line) => {
    const reading = readPrescription(`Day\n${line}\n\nrun\n  5 km\n`)
    expect('problems' in reading ? reading.problems.map(({ suggestion }) => suggestion) : []).toEqual([null])
  })

  it('puts each maximum on a line of its own', () => {
    const reading = readPrescription('Day\nmax: bench 90 kg, squat 120 kg\n\nrun\n  5 km\n')
    expect('problems' in reading ? reading.problems.map(({ message }) => message) : []).toEqual([
      'each maximum has a line of its own: write max: bench 90 kg and below it max: squat 120 kg',
    ])
  })
})

it('a time or a distance before its name is the amount of a prep item', () => {
  for (const [line, meant] of [
    ['5 min bike', 'bike 5 min'],
    ['10 min jog', 'jog 10 min'],
    ['400 m jog', 'jog 400 m'],
    ['warm up 5 min bike', 'warm up bike 5 min'],
    ['10min easy jog, "relaxed"', 'easy jog 10 min, "relaxed"'],
    ['2 x 30 s plank each side', 'plank 2 x 30 s each side'],
    ['3:00 of foam roll', 'foam roll 3:00'],
  ] as const) {
    const [read, said] = [line, meant].map((each) => readPrescription(`Day\nprep\n${each}\n`))
    expect(answersTo('prep', line)).toEqual([])
    const parts = [read, said].map((reading) =>
      reading !== undefined && 'prescription' in reading
        ? reading.prescription.parts.map(({ items }) => items.map((item) => ({ ...item, text: '' })))
        : null,
    )
    expect(parts[0]).toEqual(parts[1])
    expect(parts[0]).not.toBeNull()
  }
})
