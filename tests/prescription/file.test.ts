import { describe, expect, it } from 'vitest'
import { printDiagnostics } from '../../src/prescription/lines.ts'
import { type Reading, readHead, readPrescription } from '../../src/prescription/read.ts'
import { dayOf as read } from '../day.ts'

/** Line, column and message of each problem or warning. */
function answers(input: string | Uint8Array): string[] {
  const reading: Reading = readPrescription(input)
  const problems = 'problems' in reading ? reading.problems : reading.warnings
  return problems.map(({ line, column, message }) => `${line}:${column} ${message}`)
}

/** Line and column of each problem or warning. */
function placesIn(input: string | Uint8Array): (string | undefined)[] {
  return answers(input).map((answer) => answer.split(' ')[0])
}

const bytes = (text: string) => new TextEncoder().encode(text)

describe('the head of a file', () => {
  it.each([
    [
      '# mine\r\n\r\n  Legs: # all \nDATE :2026-11-26 # Thu\nunits: mi lb\n\nlift\n  squat 3 x',
      'Legs: # all',
      '2026-11-26',
    ],
    ['Legs\ndate: 2026-02-30\nlift\n', 'Legs', null],
    ['Legs\nlift\n  squat 3 x 5\ndate: 2026-11-26\n', 'Legs', null],
    ['Legs\ndate 26 Nov\n', 'Legs', null],
  ])('is its title and date, whatever is wrong below: %j', (text, title, date) => {
    expect(readHead(bytes(text))).toEqual({ title, date })
  })

  it.each(['', '# nothing\n', 'lift\n  squat 3 x 5\n', '{', '<html>', 'Legs\u202e\nlift\n'])(
    'has no title where there is none: %j',
    (text) => {
      expect(readHead(bytes(text)).title).toBe('')
    },
  )
})

describe('a file', () => {
  it('has a title, headers and parts, in any case and with free spaces', () => {
    const day = read(
      '\uFEFF# a comment first\r\n\r\n  Legs: # all of it \r\nDATE :2026-11-26\r\nunits: MI  LB\r\nGoal: Half Marathon in 1:28:00 on 2027-04-18 # May?\r\nathlete:150\r\nbar: 45\r\nlap: 440 yd\r\nmax: squat 205\r\nnote: slept 5 h, "badly" # not this\r\n\r\nLIFT:\u00A0legs  and\tback\r\n\tsquat 3x5 @ 135\r\n',
    )
    expect(day).toEqual({
      title: 'Legs: # all of it',
      date: '2026-11-26',
      units: { distance: 'mi', mass: 'lb' },
      goal: { length: { value: 1, unit: 'half marathon' }, seconds: 5280, on: '2027-04-18' },
      athlete: { value: 150, unit: 'lb' },
      bar: { value: 45, unit: 'lb' },
      lap: { value: 440, unit: 'yd' },
      maxima: [{ name: 'squat', mass: { value: 205, unit: 'lb' } }],
      notes: ['slept 5 h, "badly"'],
      parts: [
        {
          kind: 'lift',
          name: 'legs and back',
          items: [
            {
              line: 14,
              text: 'squat 3x5 @ 135',
              exercises: [
                {
                  name: 'squat',
                  side: null,
                  sets: Array.from({ length: 3 }, () => ({
                    dose: { kind: 'reps', from: 5, to: 5 },
                    load: { kind: 'mass', from: 135, to: 135, unit: 'lb', pair: false },
                    rpe: null,
                  })),
                },
              ],
              pause: null,
              rest: null,
              every: null,
              tempo: null,
              buildFrom: null,
              notes: [],
            },
          ],
        },
      ],
    })
  })

  it('may have its units anywhere among the headers', () => {
    expect(read('Day\nmax: squat 205\nunits: mi lb\nlift\nsquat 1 x 5').maxima[0]?.mass.unit).toBe('lb')
  })

  it('uses the units of the settings if it names none', () => {
    const reading = readPrescription('Day\nrun\n5 km @ 6:30', { units: { distance: 'mi', mass: 'lb' } })
    expect(reading).toMatchObject({
      prescription: {
        units: { distance: 'mi' },
        parts: [{ items: [{ step: { body: { target: { per: 'mi' } } } }] }],
      },
    })
  })

  it('may have lines drawn below its title and its headings', () => {
    const drawn = 'Day\n===\nrun\n---\n  5 km easy\n'
    expect(read(drawn)).toMatchObject({ title: 'Day', parts: [{ items: [{ text: '5 km easy', line: 5 }] }] })
  })

  it('may have a date among the words of its title', () => {
    expect(read('The race, our date, and rain\nrun\n5 km').title).toBe('The race, our date, and rain')
  })

  it.each(['lift::', 'lift : : '])('has a part whatever number of colons follow its kind: %j', (heading) => {
    expect(read(`Day\n${heading}\nsquat 3x5`).parts).toMatchObject([{ kind: 'lift', name: null }])
  })
})

describe('a limit', () => {
  const day = (part: string, line: string) => `Day\n${part}\n${line}`
  const round = '(500 x 100 m, jog 100 m)'

  it.each<[most: number, what: string, more: number, place: string, text: (count: number) => string]>([
    [
      500,
      'characters in a line, counted in code points',
      501,
      '3:501',
      (n) => day('run', `  5 km, "${'𝄞'.repeat(n - 10)}"`),
    ],
    [80, 'characters in a name', 81, '3:1', (n) => day('lift', `${'a'.repeat(n)} 3 x 5`)],
    [1000, 'headers', 1001, '1002:1', (n) => `Day\n${'note: x\n'.repeat(n)}run\n1 km`],
    [100, 'parts', 101, '202:1', (n) => `Day\n${'run\n1 km\n'.repeat(n)}`],
    [1000, 'items', 1001, '1003:1', (n) => day('run', '1 km\n'.repeat(n))],
    [20_000, 'efforts and recoveries', 21_000, '3:1', (n) => day('run', `${n / 1000} x ${round}`)],
    [20_000, 'splits', 20_001, '3:1', (n) => day('run', `${n} m, split 1 m`)],
    [4, 'brackets in each other', 5, '3:5', (n) => day('run', `${'('.repeat(n)}1 km${')'.repeat(n)}`)],
    [308, 'digits', 310, '3:1', (n) => day('cross', `${'9'.repeat(n)} m`)],
  ])('is %d %s', (most, _, more, place, text) => {
    expect(placesIn(text(most))).toEqual([])
    expect(placesIn(text(more))).toEqual([place])
  })

  it('is a hundred warnings, but a day with more is read to its end', () => {
    const reading = readPrescription(`Day\nlift\n${'squat 3 x 5 @ 925 kg\n'.repeat(150)}run\n5 km easy\n`)
    if ('problems' in reading) throw new Error('refused')
    expect(reading.prescription.parts.map(({ items }) => items.length)).toEqual([150, 1])
    expect(reading.warnings).toHaveLength(100)
  })
})

describe('a character that must not reach a screen', () => {
  it.each([...'\u0007\u001B\u007F\u0085\u009B\u2028\u2029\u202A\u202E\u2066\u2069\r'])(
    'is refused, in texts, titles and comments too: %j',
    (character) => {
      const code = character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')
      for (const [file, place] of [
        [`Day\nrun\n5 km, "a${character}b"`, '3:9'],
        [`D${character}ay\nrun\n5 km`, '1:2'],
        [`Day\nrun\n5 km # x${character}y`, '3:9'],
      ] as const)
        expect(answers(file)).toEqual([expect.stringMatching(`^${place} .*U\\+${code} `)])
    },
  )

  it('is shown as one mark each', () => {
    const reading = readPrescription('Day\nrun\n5 km, "a\u001B[2J\u202Eb"')
    expect('problems' in reading && reading.problems[0]?.text).toBe('5 km, "a\uFFFD[2J\uFFFDb"')
  })
})

describe('bytes that are not UTF-8', () => {
  it.each<[string, number[], string[]]>([
    [
      'on two lines, by characters',
      [...bytes('Day\nrun\né 5 k'), 0xff, ...bytes('m\n5 km\n'), 0xc3],
      ['3:6', '5:1'],
    ],
    ['far out on a line', [...bytes(`A day\nrun\n  ${'a'.repeat(5000)}`), 0xff], ['3:5003']],
    ['in a byte order mark that is none', [0xef, 0x41, 0x0a], ['1:1']],
    ['after half a byte order mark', [0xef, 0xbb, 0x41], ['1:1']],
  ])('are reported where they are: %s', (_, file, places) => {
    expect(placesIn(new Uint8Array(file))).toEqual(places)
  })

  it.each<[string, string | number[], RegExp]>([
    ['UTF-16', [0xff, 0xfe, 0x44, 0], /UTF-16/],
    ['what a word processor saves', '{\\rtf1\\ansi\nDay\\\nrun\\\n2 km easy}', /plain text/],
    ['a page of a browser', '<!DOCTYPE html>\n<p>run</p>', /plain text/],
    ['a page after a blank line', '\n<html>\n<p>run</p>', /plain text/],
    ['a table', 'date,distance,time\n2026-11-01,10,52:30', /pausebook import/],
    ['a table with other signs', 'Exercise;"Date";Reps\r\nsquat;2026-11-01;5', /pausebook import/],
    ['the first line of a table', 'reps\tload\tdate', /pausebook import/],
  ])('and other files that are no day are refused once, with what to do: %s', (_, file, remedy) => {
    const said = answers(typeof file === 'string' ? file : new Uint8Array(file))
    expect(said).toEqual([expect.stringMatching(remedy)])
    expect(said[0]).toMatch(/^1:1 /)
  })
})

describe('printed problems', () => {
  /** The place, the line and the caret. */
  const shown = (input: string) => {
    const reading = readPrescription(input)
    const printed = printDiagnostics('problems' in reading ? reading.problems : [], 'day.txt').split('\n')
    return [/^day\.txt:\d+:\d+(?=: )/.exec(printed[0] ?? '')?.[0], ...printed.slice(1)]
  }

  it('point at the place, with the line indented by two spaces', () => {
    expect(shown('Day\nrun\n  6 x 500 m @ 3:75/km, jog 200 m')).toEqual([
      'day.txt:3:15',
      '    6 x 500 m @ 3:75/km, jog 200 m',
      '                ^^^^',
    ])
  })

  it('count characters, not bytes or halves of characters', () => {
    expect(shown('Day\nrun\n5 km, "𝄞𝄞", foo')).toEqual([
      'day.txt:3:13',
      '  5 km, "𝄞𝄞", foo',
      '              ^^^',
    ])
  })

  it('show only the relevant part of a long line', () => {
    const text = `5 km, "${'a'.repeat(100)}", split 1 mile, "${'b'.repeat(100)}", lane 9`
    expect(shown(`Day\nrun\n${text}`)).toEqual([
      'day.txt:3:229',
      `  …${text.slice(-76)}`,
      `  ${' '.repeat(71)}^^^^^^`,
    ])
  })

  it('have their caret at the end of what is shown of a line that goes on in spaces', () => {
    const [, ...lines] = shown(`Day\nrun\n  5 km${' '.repeat(5000)}x`)
    expect(lines).toEqual(['    5 km', '        ^'])
  })

  it('point to the opening of an unclosed quote', () => {
    expect(shown('Day\nrun\n5 km, “easy # still in the quote')).toEqual([
      'day.txt:3:7',
      '  5 km, “easy # still in the quote',
      '        ^',
    ])
  })

  it('are all reported, in the order of the file', () => {
    expect(placesIn('Day\nbar: 0 kg\nrun\n0 km @ 3:75\n0 km\nlift\nfoo')).toEqual([
      '2:6',
      '4:1',
      '4:8',
      '5:1',
      '7:4',
    ])
  })
})
