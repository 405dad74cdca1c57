import { describe, expect, it } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'

/* A day that is given as JSON, from another program. */

function given(change: (day: ReturnType<typeof easyDay>) => unknown) {
  return readPrescription(JSON.stringify(change(easyDay())))
}

function easyDay() {
  const reading = readPrescription('A day\n\nrun\n  2 km easy\n')
  if ('problems' in reading) throw new Error('the day can be read')
  return JSON.parse(JSON.stringify(reading.prescription))
}

function messagesOf(reading: ReturnType<typeof readPrescription>): string[] {
  return 'problems' in reading ? reading.problems.map((problem) => problem.message) : []
}

describe('a day as JSON', () => {
  it('has the line and the text of every item', () => {
    const withText = (text: string | undefined) =>
      given((day) => ({ ...day, parts: [{ ...day.parts[0], items: [{ ...day.parts[0].items[0], text }] }] }))
    const mine = withText('mine')
    expect('prescription' in mine && mine.prescription.parts[0]?.items[0]?.text).toBe('mine')
    expect(messagesOf(withText(undefined))).toEqual([expect.stringContaining('parts[0].items[0]')])
  })

  it('says in which field a warning is, and does not call it an error', () => {
    const max = { name: 'squat', mass: { value: 100, unit: 'kg' } }
    const reading = given((day) => ({ ...day, maxima: [max] }))
    expect('warnings' in reading && reading.warnings).toMatchObject([
      { line: 1, column: 1, severity: 'warning', message: 'no exercise of this day is called squat' },
    ])
    const refused = given((day) => ({
      ...day,
      maxima: [max],
      parts: [{ ...day.parts[0], name: 'x'.repeat(81) }],
    }))
    expect(messagesOf(refused)).toEqual(['parts[0]: a name has at most 80 characters, this one has 81'])
    const onTrack = given((day) => {
      day.parts[0].name = 'track'
      day.parts[0].items[0].step.split = { value: 1, unit: 'mi' }
      return day
    })
    expect('warnings' in onTrack && onTrack.warnings.map(({ message }) => message)).toEqual([
      'parts[0].items[0]: a mile on the track is 4 laps and 9.34 m: split 4 laps?',
    ])
  })

  it.each([
    ['a part', (day: ReturnType<typeof easyDay>) => ({ ...day, parts: [1] }), 'parts[0]: is not an object'],
    [
      'items',
      (day: ReturnType<typeof easyDay>) => ({ ...day, parts: [{ ...day.parts[0], items: 3 }] }),
      'parts[0].items: is not a list',
    ],
    [
      'an item',
      (day: ReturnType<typeof easyDay>) => ({ ...day, parts: [{ ...day.parts[0], items: [7] }] }),
      'parts[0].items[0]: is not an object',
    ],
    ['parts', (day: ReturnType<typeof easyDay>) => ({ ...day, parts: 5 }), 'parts: is not a list'],
  ])('reports by path where %s is something else', (_, change, message) => {
    expect(messagesOf(given(change))).toEqual([message])
  })

  it('has no title that would be read as something else', () => {
    expect(messagesOf(given((day) => ({ ...day, title: '# x' })))).toEqual([
      'the first line is the title, and this reads as a header: write a title above it',
    ])
  })

  it.each([
    ['{', 1, 2],
    ['{"title": "a"', 1, 14],
    ['{"title": "Da', 1, 14],
    ['{"title": "a",\n  "parts": [{"kind": "run"\n', 3, 1],
  ])('is reported as cut off where %j ends', (text, line, column) => {
    const reading = readPrescription(text)
    expect('problems' in reading && reading.problems).toMatchObject([
      {
        line,
        column,
        message: expect.stringContaining('the file ends here, before its last bracket is closed'),
      },
    ])
  })
})

describe('JSON that cannot be parsed', () => {
  it.each([
    ['{"a": 1 "b": 2}', 9],
    ['{"a": 1,}', 9],
    ["{'a': 1}", 2],
    ['{"a": "x\ty"}', 9],
    // The parser names no place for these, but quotes what is around it.
    ['{"a": [1, 2,]}', 13],
    ['{"a": NaN}', 7],
  ])('%j is answered with the reason of the parser and the place where it breaks', (text, column) => {
    const reading = readPrescription(text)
    expect('problems' in reading && reading.problems).toMatchObject([
      {
        line: 1,
        column,
        message: expect.stringMatching(
          /^Invalid JSON: [A-Z].*\. The file begins with \{, so it is read as JSON$/,
        ),
      },
    ])
  })
})

describe('a recovery or a split in an impossible place', () => {
  it.each([
    [
      '2 x (1 km easy, 3 x (200 m fast, jog 200 m)), jog 400 m',
      'this group already ends in a recovery: remove that one, or jog 400 m',
    ],
    [
      '6 x (3 min hard, jog 2 min), split 1 km',
      'an interval given by time has no splits: give it a distance, or remove the split',
    ],
  ])('is refused: %s', (line, message) => {
    expect(messagesOf(readPrescription(`A day\nrun\n  ${line}`))).toEqual([message])
  })
})
