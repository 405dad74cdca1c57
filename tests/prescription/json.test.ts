import { describe, expect, it } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'
import { dayOf } from '../day.ts'

/* A day that is given as JSON, from another program. */

// biome-ignore lint/suspicious/noExplicitAny: it is made wrong in every way.
type AnyDay = any

const trackDay = (): AnyDay =>
  JSON.parse(JSON.stringify(dayOf('A day\n\nrun: track\n  6 x 500 m @ 3:35-3:45/km, jog 200 m\n')))

function answersTo(text: string): string[] {
  const reading = readPrescription(text)
  const said = 'problems' in reading ? reading.problems : reading.warnings
  return said.map(({ line, column, severity, message }) => {
    // The parser's own words differ between releases of Node.
    const known = message.replace(
      /(?<=^Invalid JSON: )[A-Z].*(?=\. The file)/,
      '(in the words of the parser)',
    )
    return `${line}:${column} ${severity}: ${known}`
  })
}

const item = (day: AnyDay) => day.parts[0].items[0]
const changes: Record<string, (day: AnyDay) => void> = {
  'no change': () => {},
  'a text of its own': (day) => Object.assign(item(day), { text: 'mine' }),
  'an item without its text': (day) => delete item(day).text,
  'a title that is a number': (day) => Object.assign(day, { title: 5 }),
  'a title that would be read as a comment': (day) => Object.assign(day, { title: '# x' }),
  'a title of two lines': (day) => Object.assign(day, { title: 'Day\nrun' }),
  'a title with an escape': (day) => Object.assign(day, { title: 'a\u001B[2Jb' }),
  'an unknown field': (day) => Object.assign(day, { mood: 'good' }),
  'parts that are a number': (day) => Object.assign(day, { parts: 5 }),
  'a part that is a number': (day) => Object.assign(day, { parts: [1] }),
  'items that are a number': (day) => Object.assign(day.parts[0], { items: 3 }),
  'an item that is a number': (day) => Object.assign(day.parts[0], { items: [7] }),
  'a count of 0': (day) => Object.assign(item(day).step, { times: 0 }),
  'a pace that nobody runs': (day) => Object.assign(item(day).step.body.target, { from: 10 }),
  'a name that begins with a space': (day) => Object.assign(day.parts[0], { name: ' track' }),
  'a maximum for no exercise of the day': (day) =>
    day.maxima.push({ name: 'squat', mass: { value: 100, unit: 'kg' } }),
  'a mile on the track': (day) =>
    Object.assign(item(day).step, {
      times: null,
      body: { ...item(day).step.body, amounts: [{ kind: 'distance', length: { value: 2, unit: 'mi' } }] },
      recovery: null,
      split: { value: 1, unit: 'mi' },
    }),
  'a name of 81 characters beside a maximum for no exercise': (day) => {
    day.parts[0].name = 'x'.repeat(81)
    day.maxima.push({ name: 'squat', mass: { value: 100, unit: 'kg' } })
  },
}

/** They end before they are complete, or break where the parser says; for those with a list it only quotes the place. */
const broken = [
  ...['{', '{"title": "a"', '{"title": "Da', '{"title": "a",\n  "parts": [{"kind": "run"\n'],
  ...['{"a": 1 "b": 2}', '{"a": 1,}', "{'a': 1}", '{"a": "x\ty"}', '{"title": "Day",\n oops}'],
  ...['{"a": [1, 2,]}', '{"a": NaN}'],
]

describe('a day as JSON', () => {
  it('is answered by the path of what is wrong in it, or by the place where it breaks', async () => {
    const changed = Object.entries(changes).map(([what, change]) => {
      const day = trackDay()
      change(day)
      return [what, JSON.stringify(day)]
    })
    const inputs = [...changed, ...broken.map((text) => [JSON.stringify(text), text])]
    const lines = inputs.flatMap(([what, text = '']) => [
      what,
      ...answersTo(text).map((each) => `    ${each}`),
    ])
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('golden/json.txt')
  })

  it('keeps the lines and texts that it has', () => {
    const day = { ...trackDay() }
    Object.assign(item(day), { text: 'mine', line: 7 })
    expect(dayOf(JSON.stringify(day))).toEqual(day)
  })
})
