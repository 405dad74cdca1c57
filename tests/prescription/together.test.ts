import { describe, expect, test } from 'vitest'
import { type Item, printItem } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'

/* Exercises done in turn on lines of their own, as they stand on whiteboards; all invented, each judged by a reader. */

const dayOf = (lift: string) => readPrescription(`Day\n\nlift\n${lift.replace(/^(?=.)/gm, '  ')}\n`)

/** The suggested line of each problem, by the line it is found on. */
function answersTo(lift: string): Record<number, string | null> {
  const reading = dayOf(lift)
  if (!('problems' in reading)) throw new Error('it is read')
  return Object.fromEntries(reading.problems.map(({ line, suggestion }) => [line, suggestion]))
}

const below: [lines: string, write: string][] = [
  [
    'superset 3 rounds, rest 1:00\n  front squat: 5 @ 90 kg\n  bench press: 8 @ 60 kg',
    'front squat 3 x 5 @ 90 kg + bench press 3 x 8 @ 60 kg, rest 1:00',
  ],
  [
    'superset 3 rounds\n  DB row 10 @ 26\n  goblet squat 12 @ 24\n  rest 90s',
    'DB row 3 x 10 @ 26 kg + goblet squat 3 x 12 @ 24 kg, rest 1:30',
  ],
  ['circuit: 3 rounds\n  10 push-up\n  12 lunge each leg', 'push-up 3 x 10 + lunge 3 x 12 each leg'],
  ['3 rounds of:\n10 push-up\n12 lunge', 'push-up 3 x 10 + lunge 3 x 12'],
  ['3x:\n  - 10 push-up\n  - 12 lunge', 'push-up 3 x 10 + lunge 3 x 12'],
  ['superset:\n  squat 3x5 @ 100 kg\n  pull-up 3x8', 'squat 3 x 5 @ 100 kg + pull-up 3 x 8'],
]

const labelled: [lines: string, write: string][] = [
  ['A1 squat 3x5 @ 100 kg\nA2 pull-up 3x8', 'squat 3 x 5 @ 100 kg + pull-up 3 x 8'],
  [
    'B1) bench 3x8 60kg, rest 30 s\nB2) row 3x8 40kg, rest 90 s',
    'bench 3 x 8 @ 60 kg + row 3 x 8 @ 40 kg, pause 30 s, rest 1:30',
  ],
]

test('a name above its sets is answered with both on one line, and a name alone is not', () => {
  expect(answersTo('Squat\n5 x 5 @ 100 kg\nbench press:\n  3x8 60kg')).toEqual({
    4: 'Squat 5 x 5 @ 100 kg',
    6: 'bench press 3 x 8 @ 60 kg',
  })
  expect(answersTo('Squat\nbench 3 x 8')).toEqual({ 4: null })
  expect(answersTo('Squat\n5 x 5\nRow\n3x8 40kg')).toEqual({ 4: 'Squat 5 x 5', 6: 'Row 3 x 8 @ 40 kg' })
})

describe('exercises below a heading of rounds, or with labels', () => {
  test.each([...below, ...labelled])(
    '%j is answered once, with the line that says the same',
    (lines, write) => {
      expect(answersTo(lines)).toEqual({ 4: write })
      expect(dayOf(write)).toHaveProperty('prescription')
    },
  )

  test('end at the next line that is not one of them, which is read by itself', () => {
    const answers = answersTo(
      'superset x3\n  10 push-up\n  12 lunge\nrow 3x8 @ 40 kg\nA1 dip 3x5\nA2 chin-up 3x5\nB1 curl 3x9\nB2 pull 3x9',
    )
    expect(answers).toEqual({
      4: 'push-up 3 x 10 + lunge 3 x 12',
      8: 'dip 3 x 5 + chin-up 3 x 5',
      10: 'curl 3 x 9 + pull 3 x 9',
    })
  })

  test('get an example if only the athlete knows how many rounds there are', () => {
    const reading = dayOf('circuit\n  10 push-up\n  12 lunge')
    expect(reading).toMatchObject({ problems: [{ line: 4, suggestion: null }] })
  })

  test('are no groups: a heading without lines, and a line with a label of its own, which is left out', () => {
    expect(answersTo('3 rounds')).toEqual({ 4: null })
    expect(dayOf('3 rounds of 10 push-up, 12 lunge')).toHaveProperty('prescription')
    for (const line of [
      'A1 squat 3x5 @ 100 kg\nrow 3x8 @ 40 kg',
      'B2 squat 3x5 @ 100 kg\nC1. row 3x8 @ 40 kg',
    ])
      expect(dayOf(line)).toMatchObject({
        prescription: {
          parts: [{ items: [{ exercises: [{ name: 'squat' }] }, { exercises: [{ name: 'row' }] }] }],
        },
      })
  })
})

describe('a circuit', () => {
  const rounds = 'push-up 3 x 10 + lunge 3 x 12'
  const lines = [
    'circuit: 3 rounds of 10 push-up, 12 lunge',
    'circuit 3 rounds: 10 push-up, 12 lunge',
    'circuit 3 x 10 push-up, 12 lunge',
    'circuit x 3: 10 push-up, 12 lunge',
    'circuit: 10 push-up, 12 lunge, 3 rounds',
    'circuit 10 push-up, 12 lunge x 3',
  ]

  test.each(lines)('is read as rounds from one line of a lift part: %s', (line) => {
    const reading = dayOf(line)
    const [part] = 'prescription' in reading ? reading.prescription.parts : []
    expect(part?.items.map((item) => printItem(item as Item))).toEqual([rounds])
  })

  test('is asked for its rounds if a lift part has none', () => {
    expect(dayOf('circuit: 10 push-up, lunge 12')).toMatchObject({
      problems: [
        { message: expect.stringContaining('write it first, such as 3 rounds: 10 push-up, 12 lunge') },
      ],
    })
  })

  test.each(lines.slice(1))('is answered with the whole day if it has no heading: %s', (line) => {
    if (line.startsWith('circuit:')) return
    expect(readPrescription(`Day\n\n${line}\n`)).toMatchObject({
      problems: [{ line: 3, suggestion: `Day\n\nlift\n  ${rounds}\n` }],
    })
  })

  test.each(['circuit', 'circuit: 10 push-up, 12 lunge'])(
    'without a heading and without rounds is sent below lift: %s',
    (line) => {
      const reading = readPrescription(`Day\n\n${line}\n  10 push-up\n  12 lunge\n`)
      expect(reading).toMatchObject({ problems: [{ line: 3, suggestion: null }] })
      expect('problems' in reading && reading.problems[0]?.message).toMatch(/: write lift on the line above$/)
    },
  )
})
