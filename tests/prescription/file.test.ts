import { describe, expect, it, test } from 'vitest'
import { printDiagnostics } from '../../src/prescription/lines.ts'
import { type Reading, readHead, readPrescription } from '../../src/prescription/read.ts'
import { dayOf as read } from '../day.ts'

/** Line, column and message of each problem or warning. */
function answers(input: string | Uint8Array): string[] {
  const reading: Reading = readPrescription(input)
  const problems = 'problems' in reading ? reading.problems : reading.warnings
  return problems.map(({ line, column, message }) => `${line}:${column} ${message}`)
}

const bytes = (text: string) => new TextEncoder().encode(text)

describe('the head of a file', () => {
  it.each([
    [
      '# mine\r\n\r\nLegs: # all\nDATE :2026-11-26 # Thu\nunits: mi lb\n\nlift\n  squat 3 x',
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

  it.each([
    [
      '',
      '1:1 this file holds no day: write a title on the first line, and prep, run, cross, lift or fuel below it',
    ],
    [
      '# only a comment\n',
      '1:1 this file holds no day: write a title on the first line, and prep, run, cross, lift or fuel below it',
    ],
    [
      'Day\n',
      '1:1 this day has no parts: write prep, run, cross, lift or fuel on a line below, and items below that',
    ],
    ['Day\nrun: track\n', '2:1 this run part has no items: write one below it, or remove the part'],
    [
      'cross\ncross: rower\n5 km',
      '1:1 the first line is the title, and this reads as a part: write a title above it',
    ],
    ['run: track\n5 km', '1:1 the first line is the title, and this reads as a part: write a title above it'],
    [
      'date: 2026-11-26\nrun\n5 km',
      '1:1 the first line is the title, and this reads as a header: write a title above it',
    ],
    ['Day\nsquat 5 x 5\nbench 3 x 5', '2:1 this day has no headings: prep, run, cross, lift or fuel'],
    ['Day\nsome words\nmore', '2:1 this line needs a heading above it: prep, run, cross, lift or fuel'],
    [
      'Day\nstrength\nsquat 5 x 5',
      '2:1 a part is prep, run, cross, lift or fuel, on a line of its own: write `lift: strength`',
    ],
    [
      'Day\nbike: hills\n5 km',
      '2:1 a part is prep, run, cross, lift or fuel, on a line of its own: write `cross: hills`',
    ],
    [
      'Day\nlift\nsquat 5 x 5\nrun track\n5 km',
      '4:1 a part is prep, run, cross, lift or fuel, on a line of its own: write `run: track`',
    ],
    ...['**Run**', 'Run.', 'run -'].map((heading): [string, string] => [
      `Day\n${heading}\n5 km`,
      '2:1 a part is prep, run, cross, lift or fuel, on a line of its own: write `run`',
    ]),
    ...['lift - legs', 'Lift (legs)'].map((heading): [string, string] => [
      `Day\n${heading}\nsquat 5 x 5`,
      '2:1 a part is prep, run, cross, lift or fuel, on a line of its own: write `lift: legs`',
    ]),
    [
      'Day\nlift\nsquat 5 x 5\n90 s rest',
      '4:1 a rest is written after the sets that it belongs to, such as squat 3 x 8, rest 90 s',
    ],
    [
      'Day\nrun\n1 km easy\n6 x 400 m\njog 200 m between\n1 km easy',
      '5:1 a recovery between repeats is written after them, such as 6 x 400 m, jog 200 m',
    ],
    ['Day\nrun\n5 km\ndate: 2026-11-26', '4:1 a header is written above the first part: move it up there'],
    ['Day\nrun: 5 km easy', '2:1 an item is written on a line of its own: write run, and below it 5 km easy'],
    [
      'Day\nrun: 10 km easy (HR < 145)\nlift\nsquat 5 x 5',
      '2:1 an item is written on a line of its own: write run, and below it 10 km easy (HR < 145)',
    ],
    [
      'Day\nrun\n5 km\n-- lift --\nsquat 5 x 5',
      '4:1 a part is prep, run, cross, lift or fuel, on a line of its own: write `lift`',
    ],
    [
      'Day\nWarm up: 15 min easy jog, leg swings\nlift\nsquat 5 x 5',
      '2:1 this line needs a heading above it: write prep on the line above',
    ],
    [
      'Day\nRun 5k\nLift\nsquat 3 x 5',
      '2:1 an item is written on a line of its own: write run, and below it 5k',
    ],
    [`Day\nrun: ${'a'.repeat(81)}\n5 km`, '2:6 a name has at most 80 characters, this one has 81'],
  ])('is told what is missing or misplaced: %j', (file, answer) => {
    expect(answers(file)).toEqual([answer])
  })

  it.each([
    [
      'date: 2026-02-30',
      '2:7 2026-02-30 is not a date of the calendar, written year-month-day such as 2026-11-26',
    ],
    [
      'date: 2026-2-3',
      '2:7 2026-2-3 is not a date of the calendar, written year-month-day such as 2026-11-26',
    ],
    ['date: 26.11.2026', '2:7 a date is written year-month-day; write: date: 2026-11-26'],
    ['date: 11/12/2026', '2:1 a date is written year-month-day: write 2026-12-11 or 2026-11-12'],
    ['date: Thursday', '2:7 "Thursday" cannot be read here; expected: a date (2026-11-26)'],
    ['units: lb', '2:8 units name a distance and a mass, with a space between them; write: units: km lb'],
    ['units: mi', '2:8 units name a distance and a mass, with a space between them; write: units: mi kg'],
    ['units: kg km', '2:8 units name a distance and a mass, with a space between them; write: units: km kg'],
    ['units: metric', '2:8 units name a distance and a mass, with a space between them; write: units: km kg'],
    [
      'goal: half marathon in 1:28',
      '2:24 half marathon in 1:28 (88 s) is faster than any human: did you mean 1:28:00? Write: goal: half marathon in 1:28:00',
    ],
    ['goal: 10k in 39.30', '2:14 a goal is written as a distance in a time; write: goal: 10 km in 39:30'],
    ['goal: sub 40', '2:7 "sub" cannot be read here; expected: a distance (500 m)'],
    ['athlete: 0 kg', '2:10 a mass cannot be 0'],
    ['note:', '2:6 the line ends too early; expected: a text'],
    ['lap: 1 lap', '2:1 a lap cannot be given in laps: write its metres, such as lap: 400 m'],
    ['bar 20 kg', '2:1 a header has a colon: write bar: and then the rest'],
    [
      'mood: good',
      '2:1 no header is called mood: there are date, units, goal, athlete, bar, lap, max and note',
    ],
    ['bar: 20 kg\nbar: 15 kg', '3:1 this header is given twice: remove one'],
    ['max: squat=120\nmax: squat 110', '3:1 this header is given twice: remove one'],
    ['max: Squats 100\nmax: squat 110', '3:1 this header is given twice: remove one'],
  ])('gets a message about a header: %s', (header, answer) => {
    expect(answers(`Day\n${header}\nlift\nsquat 3 x 5`)).toEqual([answer])
  })
})

describe('a part that begins with an unknown word', () => {
  const said = 'a part is prep, run, cross, lift or fuel, on a line of its own: write'

  it.each([
    [
      'Day\nWarm up: 2km easy\nMain: 6 x 500 m @ 3:40\nStrength\nsquat 3 x\nCool down: 2 km easy',
      [
        '2:1 this line needs a heading above it: write run on the line above',
        `4:1 ${said} \`lift: strength\``,
        '5:10 the line ends too early; expected: sets (3 x 8, or 10/8/6); a whole line: squat 3 x 8 @ 60 kg, rest 2:00',
        '6:1 this reads as an item of a run part: write run on a line above it',
      ],
    ],
    [
      'Day\nrun\n5 km\nBlock B: 5 km easy',
      ['4:1 words of your own come last, in quotes; write: 5 km easy, "Block B"'],
    ],
    [
      'Day\nprep\nroll 3:00\nMain: 5 km easy',
      ['4:1 this reads as an item of a run part: write run on a line above it'],
    ],
    [
      'Day\nstrength\nsquat 3 x 5\nrun\n5 km @ 3:75/km',
      [
        `2:1 ${said} \`lift: strength\``,
        '5:8 a pace is written m:ss, so 3:75 cannot be read (seconds run from 00 to 59)',
      ],
    ],
    [
      'Day\nstrength\nsquat 3 x 5\ndate: 2026-11-26',
      [`2:1 ${said} \`lift: strength\``, '4:1 a header is written above the first part: move it up there'],
    ],
  ])('is answered with the heading to write, and the lines below are read as its items: %j', (file, told) => {
    expect(answers(file)).toEqual(told)
  })

  it('is an item of a cross part too', () => {
    expect(answers('Day\ncross: bike\n20 min\ncool down: 10 min')).toEqual([])
  })

  it.each(['stretching: 5 min', 'row: 5 min', 'running: 10 min', 'cool down: 10 min', 'skips: 2 x 50 m'])(
    'is an item of prep if it only says how long, or is no heading: %s',
    (line) => {
      expect(answers(`Day\nprep\nroll 3:00\n${line}`)).toEqual([])
    },
  )
})

describe('a recovery on its own line', () => {
  it('may come between two items', () => {
    expect(read('Day\nrun\n1 km\njog 400 m\n1 km').parts[0]?.items).toHaveLength(3)
  })

  it.each([
    ['jog 2 km', 'write 2 km easy'],
    ['walk 3:00', 'write 3:00 easy, "walk"'],
    ['30 min walk', 'write 30:00 easy, "walk"'],
    ['2 km jog', 'write 2 km easy'],
    ['stand 1:00', 'remove it'],
    ['jog back', 'remove it'],
  ])('cannot begin or end a part: %s', (line, suggestion) => {
    expect(answers(`Day\nrun\n${line}\n1 km`)).toEqual([
      `3:1 a recovery is written between two items, not at the start of a part: ${suggestion}`,
    ])
    expect(answers(`Day\nrun\n1 km\n${line}`)).toEqual([
      `4:1 a recovery is written between two items, not at the end of a part: ${suggestion}`,
    ])
  })
})

test.each(['120 kg x 3', '3 x 120 kg'])('a maximum is not one of several repetitions: %s', (lifted) => {
  expect(answers(`Day\nmax: squat ${lifted}\nlift\nsquat 3 x 5`)).toEqual([
    '2:6 a maximum is what is lifted once: write it without repetitions, such as max: squat 140 kg',
  ])
})

describe('warnings', () => {
  it('report a maximum for which the day has no exercise, in any spelling', () => {
    expect(answers('Day\nmax: Front-Squats 110 kg\nlift\nfront squat 3 x 5')).toEqual([])
    expect(answers('Day\nmax: squat 110 kg\nlift\nfront squat 3 x 5')).toEqual([
      '2:1 no exercise of this day is called squat',
    ])
  })

  it('report that a mile on the track is more than four laps', () => {
    expect(answers('Day\nrun: track\n3 mi easy, split 1 mi')).toEqual([
      '3:12 a mile on the track is 4 laps and 9.34 m: split 4 laps?',
    ])
    // 1609.344 m on a track of 200 m.
    expect(answers('Day\nlap: 200 m\nrun: track\n3 mi easy, split 1 mi')).toEqual([
      '4:12 a mile on the track is 8 laps and 9.34 m: split 8 laps?',
    ])
    expect(answers('Day\nrun: road\n3 mi easy, split 1 mi')).toEqual([])
  })

  it('report one dumbbell where there is one in each hand', () => {
    expect(answers('Day\nlift\ndb bench 3 x 8 @ 18 kg\nDumbbell curl 10/8 @ 25/20 lb')).toEqual([
      '3:18 18 kg is one dumbbell: for one in each hand write 2x18 kg',
      '4:22 25 lb is one dumbbell: for one in each hand write 2x25 lb',
    ])
    const fine =
      'db bench 3 x 8 @ 2x18 kg\ndb row 3 x 8 @ 20 kg\ndb curl 3 x 8 each arm @ 10 kg\none-arm db press 3 x 8 @ 16 kg'
    expect(answers(`Day\nlift\n${fine}`)).toEqual([])
  })

  it('report circuits without a comma', () => {
    expect(answers('Day\nlift\n3 rounds: 10 dip 10 row')).toEqual([
      '3:14 this is read as one name, dip 10 row: put a comma between the exercises of a circuit',
    ])
  })
})

describe('limits', () => {
  const items = (count: number, line: string) => `Day\nrun\n${`${line}\n`.repeat(count)}`

  it('a line has at most 500 characters, counted in code points', () => {
    const line = (length: number) => `Day\nrun\n  5 km, "${'𝄞'.repeat(length - 10)}"`
    expect(answers(line(500))).toEqual([])
    expect(answers(line(501))).toEqual([
      '3:501 this line has 501 characters, and a line has at most 500: break it up',
    ])
  })

  it('a name has at most 80 characters', () => {
    expect(answers(`Day\nlift\n${'a'.repeat(80)} 3 x 5`)).toEqual([])
    expect(answers(`Day\nlift\n${'a'.repeat(81)} 3 x 5`)).toEqual([
      '3:1 a name has at most 80 characters, this one has 81',
    ])
  })

  it('a day has at most 100 parts and 1000 items', () => {
    expect(answers(`Day\n${'run\n1 km\n'.repeat(100)}`)).toEqual([])
    expect(answers(`Day\n${'run\n1 km\n'.repeat(101)}`)).toEqual(['202:1 a day has at most 100 parts'])
    expect(answers(items(1000, '1 km'))).toEqual([])
    expect(answers(items(1001, '1 km'))).toEqual(['1003:1 a day has at most 1000 items'])
  })

  it('a day has at most 20,000 efforts and recoveries', () => {
    const over = 'with this item the day has more than 20000 efforts and recoveries, the most there can be'
    expect(answers('Day\nrun\n20 x (500 x 100 m, jog 100 m)')).toEqual([])
    expect(answers('Day\nrun\n21 x (500 x 100 m, jog 100 m)')).toEqual([`3:1 ${over}`])
    expect(answers('Day\nrun\n999 x (999 x (999 x (999 x 1 m)))')).toEqual([`3:1 ${over}`])
    expect(answers('Day\nrun\n20 km, split 1 m')).toEqual([])
    expect(answers('Day\nrun\n20 km, split 0.9 m')).toEqual([`3:1 ${over}`])
  })

  it('groups are at most four deep', () => {
    expect(answers('Day\nrun\n((((1 km))))')).toEqual([])
    expect(answers('Day\nrun\n(((((1 km)))))')).toEqual(['3:5 brackets can be 4 deep, no more'])
  })

  it('a number that is too large is refused', () => {
    expect(answers(`Day\nrun\n${'9'.repeat(400)} km`)).toEqual([
      '3:1 this distance is too large to be a number',
    ])
  })
})

describe('a character that must not reach a screen', () => {
  it.each([
    '\u0007',
    '\u001B',
    '\u007F',
    '\u0085',
    '\u009B',
    '\u2028',
    '\u2029',
    '\u202A',
    '\u202E',
    '\u2066',
    '\u2069',
    '\r',
  ])('is refused, in texts, titles and comments too: %j', (character) => {
    const code = character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')
    const told = `the character U+${code} is not allowed: delete it`
    expect(answers(`Day\nrun\n5 km, "a${character}b"`)).toEqual([`3:9 ${told}`])
    expect(answers(`D${character}ay\nrun\n5 km`)).toEqual([`1:2 ${told}`])
    expect(answers(`Day\nrun\n5 km # x${character}y`)).toEqual([`3:9 ${told}`])
  })

  it('is shown as one mark each', () => {
    const reading = readPrescription('Day\nrun\n5 km, "a\u001B[2J\u202Eb"')
    expect('problems' in reading && reading.problems[0]?.text).toBe('5 km, "a\uFFFD[2J\uFFFDb"')
  })

  it('is refused if it is not UTF-8: each such line is reported, with its column in characters', () => {
    const file = new Uint8Array([...bytes('Day\nrun\né 5 k'), 0xff, ...bytes('m\n5 km\n'), 0xc3])
    expect(answers(file)).toEqual([
      '3:6 this is not UTF-8: save the file as UTF-8',
      '5:1 this is not UTF-8: save the file as UTF-8',
    ])
    expect(answers(new Uint8Array([0xff, 0xfe, 0x44, 0]))).toEqual([
      '1:1 this file is written in UTF-16: save it as UTF-8',
    ])
  })

  it.each(['{\\rtf1\\ansi\nDay\\\nrun\\\n2 km easy}', '<!DOCTYPE html>\n<p>run</p>', '\n<html>\n<p>run</p>'])(
    'is refused once if it is part of a formatted document: %j',
    (text) => {
      expect(answers(text)).toEqual(['1:1 this is a formatted document or a web page: save it as plain text'])
    },
  )

  it.each([
    'date,distance,time\n2026-11-01,10,52:30',
    'Exercise;"Date";Reps\r\nsquat;2026-11-01;5',
    'reps\tload\tdate',
  ])('is refused once if its first line names the columns of a table: %j', (text) => {
    expect(answers(text)).toEqual([
      '1:1 this is a table, not a day: `pausebook import` reads the sessions in it',
    ])
  })

  it('may have a date among the words of its title', () => {
    expect(read('The race, our date, and rain\nrun\n5 km').title).toBe('The race, our date, and rain')
  })

  it.each(['lift::', 'lift : : '])('has a part whatever number of colons follow its kind: %j', (heading) => {
    expect(read(`Day\n${heading}\nsquat 3x5`).parts).toMatchObject([{ kind: 'lift', name: null }])
  })
})

describe('printed problems', () => {
  const shown = (input: string) => {
    const reading = readPrescription(input)
    return printDiagnostics('problems' in reading ? reading.problems : reading.warnings, 'day.txt')
  }

  it('point at the place, with the line indented by two spaces', () => {
    expect(shown('Day\nrun\n  6 x 500 m @ 3:75/km, jog 200 m')).toBe(
      [
        'day.txt:3:15: a pace is written m:ss, so 3:75 cannot be read (seconds run from 00 to 59)',
        '    6 x 500 m @ 3:75/km, jog 200 m',
        '                ^^^^',
      ].join('\n'),
    )
  })

  it('count characters, not bytes or halves of characters', () => {
    expect(shown('Day\nrun\n5 km, "𝄞𝄞", foo')).toBe(
      [
        'day.txt:3:13: "foo" cannot be read here; expected: a text in quotes or a clause (jog, walk, stand, rest, split, negative, lane, grade, hr, every); or, if those are words of your own, write: 5 km, "𝄞𝄞", "foo"',
        '  5 km, "𝄞𝄞", foo',
        '              ^^^',
      ].join('\n'),
    )
  })

  it('show only the relevant part of a long line', () => {
    const text = `5 km, "${'a'.repeat(100)}", split 1 mile, "${'b'.repeat(100)}", lane 9`
    expect(shown(`Day\nrun\n${text}`)).toBe(
      ['day.txt:3:229: lanes run from 1 to 8', `  …${text.slice(-76)}`, `  ${' '.repeat(71)}^^^^^^`].join(
        '\n',
      ),
    )
  })

  it('have their caret at the end of what is shown of a line that goes on in spaces', () => {
    expect(
      shown(`Day\nrun\n  5 km${' '.repeat(5000)}x`)
        .split('\n')
        .slice(1),
    ).toEqual(['    5 km', '        ^'])
  })

  it('are all reported, in the order of the file', () => {
    expect(
      answers('Day\nbar: 0 kg\nrun\n0 km @ 3:75\n0 km\nlift\nfoo').map((answer) => answer.split(' ')[0]),
    ).toEqual(['2:6', '4:1', '4:8', '5:1', '7:4'])
  })

  it('point to the opening of an unclosed quote', () => {
    expect(shown('Day\nrun\n5 km, “easy # still in the quote')).toBe(
      [
        'day.txt:3:7: a text that begins with a quote here has no quote at its end',
        '  5 km, “easy # still in the quote',
        '        ^',
      ].join('\n'),
    )
  })
})

describe('a day as JSON', () => {
  const day = JSON.parse(JSON.stringify(read('Day\nrun: track\n6 x 500 m @ 3:35-3:45/km, jog 200 m')))
  const changed = (change: (copy: typeof day) => void) => {
    const copy = structuredClone(day)
    change(copy)
    return answers(` \n${JSON.stringify(copy)}`)
  }

  it('keeps the lines and texts that it has', () => {
    expect(read(JSON.stringify(day))).toEqual(day)
  })

  it('reports by path what is wrong', () => {
    expect(
      changed((copy) => {
        copy.parts[0].items[0].step.times = 0
      }),
    ).toEqual(['1:1 parts[0].items[0].step.times: is less than 1'])
    expect(
      changed((copy) => {
        copy.title = 5
      }),
    ).toEqual(['1:1 title: is not a text'])
    expect(
      changed((copy) => {
        copy.mood = 'good'
      }),
    ).toEqual(['1:1 the day has a field that does not belong there, "mood"'])
    expect(answers('{"title": "Day",\n oops}')).toEqual([
      expect.stringMatching(/^2:2 Invalid JSON: .* The file begins with {, so it is read as JSON$/),
    ])
  })

  it('contains only what the notation can express', () => {
    expect(
      changed((copy) => {
        copy.parts[0].items[0].step.body.target.from = 10
      }),
    ).toEqual(['1:1 parts[0].items[0]: a pace of 0:10-3:45/km is faster than any human over 500 m'])
    expect(
      changed((copy) => {
        copy.parts[0].name = ' track'
      }),
    ).toEqual(['1:1 parts[0].name: this cannot be written in the notation'])
    expect(
      changed((copy) => {
        copy.title = 'a\u001B[2Jb'
      }),
    ).toEqual(['1:1 the character U+001B is not allowed: delete it'])
    expect(
      changed((copy) => {
        copy.title = 'Day\nrun'
      })[0],
    ).toContain('this run part has no items')
  })
})

describe('a file without headings', () => {
  const answered = (text: string) => {
    const reading = readPrescription(text)
    if ('prescription' in reading) throw new Error('read')
    return reading.problems.map(({ suggestion }) => suggestion)
  }

  it('is answered with the whole file, ready to paste', () => {
    const text = `Thursday
max: squat 140 kg
date: 2026-11-26
foam roll 3:00
2 km easy
6x500 @ 3:40, 200m jog  # windy
1 km easy

squat 5x5 100kg
bench 3 x 8 @ 60 kilos
after: carbs 80 g
`
    const whole = `Thursday
max: squat 140 kg
date: 2026-11-26

prep
  foam roll 3:00

run
  2 km easy
  6 x 500 m @ 3:40/km, jog 200 m
  1 km easy

lift
  squat 5 x 5 @ 100 kg
  bench 3 x 8 @ 60 kg

fuel
  after: carbs 80 g
`
    expect(answered(text)).toEqual([whole])
    expect(readPrescription(whole)).toHaveProperty('prescription')
    const reading = readPrescription(text)
    if ('problems' in reading)
      expect(printDiagnostics(reading.problems, 'day.txt')).toContain(`\n\n${whole.trimEnd()}`)
  })

  it('gets a title if its first line is an item', () => {
    expect(answered('2 km easy\nsquat 5 x 5\n')).toEqual(['Day\n\nrun\n  2 km easy\n\nlift\n  squat 5 x 5\n'])
  })

  it('is answered line by line if half of its lines fit no part', () => {
    expect(answered('Day\n2 km easy\nsee you there\n')).toEqual([null])
  })

  it('a heading of another kind below an empty part begins the next one', () => {
    expect(answers('Day\nrun\nStrength:\nsquat 5 x 5')).toEqual([
      '2:1 this run part has no items: write one below it, or remove the part',
      '3:1 a part is prep, run, cross, lift or fuel, on a line of its own: write `lift: strength`',
    ])
  })

  it('keeps the one line that fits no part as a comment', () => {
    const whole = 'Day\n\nrun\n  2 km easy\n  # see you there\n\nlift\n  squat 5 x 5\n'
    expect(answered('Day\n2 km easy\nsee you there\nsquat 5 x 5\n')).toEqual([whole])
    expect(readPrescription(whole)).toHaveProperty('prescription')
  })
})
