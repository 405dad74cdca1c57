import { expect, test } from 'vitest'
import { lineOf, mostDiagnostics, printDiagnostics } from '../../src/prescription/lines.ts'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { readDay } from '../../src/prescription/reader.ts'
import fc, { anyCharacter, times } from '../fastCheck.ts'
import { day } from './arbitraryDay.ts'

const megabyte = 1024 * 1024
const day0 = 'Day\nrun\n'

/** What is printed for an input: at most 101 problems, and no terminal control characters. */
function answerOf(input: Uint8Array | string): string {
  const reading = readPrescription(input)
  const shown =
    'problems' in reading
      ? printDiagnostics(reading.problems, 'day.txt')
      : printPrescription(reading.prescription)
  if ('problems' in reading) expect(reading.problems.length).toBeLessThanOrEqual(mostDiagnostics + 1)
  expect(shown).not.toMatch(/[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u2028\u2029\u202A-\u202E\u2066-\u2069]/)
  return shown
}

const words = `5 5x5 ( ) , + @ " : / - % # 1:28 3:75 1,5 km m mi s min kg lb squat bench rest pause jog walk every tempo 3-1-1 rpe hr in max amrap rounds of bodyweight bw+10 2x20 split lane grade negative goal easy run lift prep fuel before: carbs g × – “ ” 😀`
const tokens = fc.constantFrom(
  ...words.split(/\s+/),
  ...'3 x;front squat;build from;each side;drop set;work up to;sets of;\u200B;\t;\u00A0;\u202E;\u001B[2J;\r;\u0301'.split(
    ';',
  ),
)
const soup = fc
  .array(
    fc.array(tokens, { maxLength: 14 }).map((line) => line.join(' ')),
    { maxLength: 12 },
  )
  .map((lines) => lines.join('\n'))
const kinds = fc.constantFrom('prep', 'run', 'cross', 'lift', 'fuel')

test("any mixture of the notation's words is answered", () => {
  fc.assert(
    fc.property(kinds, soup, (kind, lines) => {
      answerOf(`Day\n${kind}\n${lines}`)
    }),
    times(60),
  )
})

test.each(['run', 'lift'])('a word that JavaScript knows after a number is answered in a %s part', (kind) => {
  expect(answerOf(`Day\n${kind}\n3 x 5 constructor 100`)).toContain('3 x 5 constructor 100')
})

test('suggested lines can be read, and what is read prints as text that reads the same', () => {
  fc.assert(
    fc.property(kinds, fc.array(tokens, { minLength: 1, maxLength: 10 }), (kind, line) => {
      const file = (text: string) =>
        `Day\n${kind}\n${kind === 'run' || kind === 'cross' ? `1 km\n${text}\n1 km` : text}`
      const reading = readPrescription(file(line.join(' ')))
      if ('prescription' in reading) {
        const printed = printPrescription(reading.prescription)
        const again = readPrescription(printed)
        expect('prescription' in again && printPrescription(again.prescription)).toBe(printed)
        return
      }
      for (const { suggestion } of reading.problems) {
        if (suggestion === null || /^(?:prep|run|cross|lift|fuel)(?::|\n|$)/.test(suggestion)) continue
        const problems = readPrescription(file(suggestion))
        const unread =
          'problems' in problems
            ? problems.problems.filter(({ message }) => message.includes('cannot be read'))
            : []
        expect(unread).toEqual([])
      }
    }),
    {
      ...times(150),
      examples: [
        ['prep', ['–', 'run']],
        ['prep', ['rpe', '-', '-']],
        ['prep', ['A1', 'B1', 'row']],
        ['prep', ['5', '5', 'km', '-']],
        ['lift', ['c5', '3', 'x', '10']],
        ['lift', [':', '5', 'work up to', '5']],
      ],
    },
  )
})

test('a day with a few characters changed is answered', () => {
  fc.assert(
    fc.property(
      day,
      fc.array(fc.tuple(fc.nat(), tokens, fc.boolean()), { minLength: 1, maxLength: 4 }),
      (prescription, changes) => {
        let text = printPrescription(prescription)
        for (const [place, token, isCut] of changes) {
          const at = place % (text.length + 1)
          text = isCut
            ? text.slice(0, at) + text.slice(at + 3)
            : `${text.slice(0, at)}${token}${text.slice(at)}`
        }
        answerOf(text)
      },
    ),
    times(40),
  )
})

test('any text and any bytes are answered', () => {
  fc.assert(
    fc.property(fc.string({ unit: anyCharacter }), (text) => void answerOf(text)),
    times(60),
  )
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => void answerOf(bytes)),
    times(60),
  )
})

test('any JSON is answered', () => {
  fc.assert(
    fc.property(fc.json(), (json) => void answerOf(json)),
    times(60),
  )
  fc.assert(
    fc.property(day, fc.jsonValue(), fc.nat(), (prescription, value, place) => {
      const text = JSON.stringify(prescription)
      const values = [...text.matchAll(/:(?:"[^"]*"|-?[\d.e+-]+|null|true|false)/g)]
      const match = values[place % values.length]
      if (match !== undefined)
        answerOf(
          `${text.slice(0, match.index)}:${JSON.stringify(value)}${text.slice(match.index + match[0].length)}`,
        )
    }),
    times(70),
  )
})

const large: Record<string, string | Uint8Array> = {
  'a line of a million spaces': ' '.repeat(megabyte - 1),
  'a line of a million digits': `${day0}${'1'.repeat(megabyte - 10)}`,
  'half a million bad lines': `Day\nlift\n${'a\n'.repeat(megabyte / 2 - 6)}`,
  'half a million lines that stand nowhere': `Day\n${'a\n'.repeat(megabyte / 2 - 6)}`,
  'half a million comments': '#\n'.repeat(megabyte / 2),
  'a million line ends': '\n'.repeat(megabyte),
  'ten thousand open brackets': `${day0}${'('.repeat(10_000)}`,
  'open brackets on two thousand lines': `${day0}${`${'('.repeat(490)}\n`.repeat(2000)}`,
  'wide gaps on four thousand lines': `Day\nlift\n${`squat${' '.repeat(230)}3 x 5 x\n`.repeat(4000)}`,
  'wide gaps below headings of exercises done in turn': `${day0}${`circuit${' '.repeat(230)}q 5\n`.repeat(4000)}`,
  'names without an end': `Day\nlift\n${`${'a 3 x '.repeat(80)}\n`.repeat(2000)}`,
  'a thousand sets on every line': `Day\nlift\n${`${'a 999 x 9 s + '.repeat(35)}b 3 x 3\n`.repeat(2000)}`,
  'a time for each repeat of a billion': `${day0}999 x (999 x (999 x (2 x 100 m in 20/19 s)))`,
  'thirty sets one after the other': `Day\nlift\nsquat ${'5x140 '.repeat(32)}@12`,
  'half a million JSON brackets': `{"a":${'['.repeat(megabyte / 2 - 10)}${']'.repeat(megabyte / 2 - 10)}}`,
  'half a million open JSON brackets': `{"a":${'['.repeat(megabyte / 2)}`,
  'a hundred thousand parts of JSON': `{"parts":[${'{},'.repeat(100_000)}{}]}`,
  'more than 1 MiB': 'a'.repeat(megabyte + 1),
  'half a million lines that are no UTF-8': new Uint8Array(megabyte)
    .fill(0xff)
    .map((byte, place) => (place % 2 ? 10 : byte)),
}

test('the largest and most nested files are answered', async () => {
  const answers = Object.entries(large).flatMap(([what, input]) => [
    what,
    `    ${answerOf(input).split('\n')[0]}`,
  ])
  await expect(`${answers.join('\n')}\n`).toMatchFileSnapshot('golden/hostile.txt')
})

test('a million random bytes are answered', () => {
  let seed = 7
  const bytes = new Uint8Array(megabyte).map(() => {
    seed = (seed * 1103515245 + 12345) & 0x7fffffff
    return seed >> 16
  })
  expect(answerOf(bytes)).toBe('day.txt:1:1: this is not text: write the day as a text file in UTF-8')
  // Without control bytes it could be text in another encoding.
  expect(answerOf(bytes.map((byte) => Math.max(byte, 9)))).toContain('is not UTF-8')
})

test('the list of problems ends after a hundred', () => {
  const shown = answerOf(`Day\nlift\n${'a\n'.repeat(200)}`).split('\n')
  expect(shown.at(-1)).toBe('… and more')
  expect(shown.filter((line) => line.startsWith('day.txt:'))).toHaveLength(100)
})

test('names that every object has are not special', () => {
  const json = '{"__proto__": {"title": "x"}, "constructor": 1, "title": "Day"}'
  expect(answerOf(json)).toContain('has a field that does not belong there, "__proto__", "constructor"')
  expect(({} as Record<string, unknown>).title).toBeUndefined()
})

/** How many of many lines the reader asks for. */
function linesExamined(first: string[], line: string): number {
  let examined = 0
  function* lines() {
    for (let number = 1; number <= 10_000; number++) {
      examined++
      yield lineOf(first[number - 1] ?? line, number)
    }
  }
  readDay(lines(), {})
  return examined
}

test.each([
  ['that need a heading', ['Day'], 'something or other'],
  ['that need a heading, with a colon', ['Day'], 'something: or other'],
  ['that are items above the first part', ['Day'], 'squat 5 x 5'],
  ['below an unknown heading', ['Day', 'Strength'], 'squat 5 x 5'],
  ['that are unknown headings', ['Day'], 'Strength'],
  ['that cannot be read in a part', ['Day', 'lift'], '@@@'],
])('the reader stops within 1010 lines of lines %s', (_, first, line) => {
  expect(linesExamined(first, line)).toBeLessThanOrEqual(1010)
})
