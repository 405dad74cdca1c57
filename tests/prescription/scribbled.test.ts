import { describe, expect, it } from 'vitest'
import { lifts } from '../../src/prescription/hastyLifts.ts'
import { runs } from '../../src/prescription/hastyRuns.ts'
import type { Diagnostic } from '../../src/prescription/lines.ts'
import { itemsOf, printItem } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { isReadable } from '../../src/prescription/readLine.ts'
import { rewritings } from '../../src/prescription/rewrite.ts'
import { inNotation } from '../../src/prescription/spellings.ts'
import fc, { times } from '../fastCheck.ts'
import { casesOf, expectGoldenTable } from '../goldenTable.ts'

/* Lines as coaches scribble them on whiteboards, boards of clubs and phones, in several styles; all invented, each
 * judged by a reader. `=`: what it is read as, in the words of the notation. `>`: it is refused, and these lines are
 * suggested. `!`: it is refused without a suggestion. None may be read as something else than was meant, or lose a
 * figure on its way. */

const table = new URL('golden/scribbled.txt', import.meta.url)

/** Running is put between two easy kilometres, since a recovery may not begin or end a part. */
function readingOf(part: string, line: string) {
  const isRun = part === 'run'
  const head = `Day\ngoal: 10 km in 39:30\nmax: squat 140 kg\n\n${part}\n`
  const lines = isRun ? `1 km easy\n${line}\n1 km easy` : line
  const reading = readPrescription(`${head}${lines.replace(/^/gm, '  ')}\n`)
  if ('problems' in reading) return reading
  const items = reading.prescription.parts.flatMap(itemsOf).map(printItem)
  return { items: isRun ? items.slice(1, -1) : items }
}

/** What is wrong with suggested lines, or with those of another part; null if they are read. */
function offends(part: string, offered: string): string | null {
  const isPart = /^(?:prep|run|cross|lift|fuel)(?::.*)?\n/.test(offered)
  const reading = isPart ? readPrescription(`Day\n${offered}`) : readingOf(part, offered)
  return 'problems' in reading ? (reading.problems[0]?.message ?? 'unknown') : null
}

function suggestionsOf(problems: readonly Diagnostic[]): string[] {
  return problems.flatMap(({ suggestion }) => suggestion ?? [])
}

it('every scribbled line is read as meant, answered with lines that are read, or asked about', async () => {
  await expectGoldenTable(table, (line, part) => {
    const reading = readingOf(part, line)
    if ('items' in reading) {
      const again = readingOf(part, reading.items.join('\n'))
      expect('items' in again && again.items, line).toEqual(reading.items)
      return reading.items.map((item) => `= ${item}`)
    }
    const suggestions = suggestionsOf(reading.problems)
    for (const offered of suggestions) expect(offends(part, offered), offered).toBeNull()
    return suggestions.length > 0
      ? suggestions.map((offered) => `> ${offered}`)
      : [`! ${reading.problems[0]?.message}`]
  })
})

it('whatever typing errors they have, a suggested line can be read', () => {
  const slip = fc.record({
    line: fc.constantFrom(...casesOf(table).filter(({ where }) => /^(?:run|lift|prep)$/.test(where))),
    at: fc.nat({ max: 60 }),
    out: fc.nat({ max: 4 }),
    put: fc.constantFrom('', ...' x@,+/5:()ms%', '12', 'kg', ' min'),
  })
  fc.assert(
    fc.property(slip, ({ line: { typed, where }, at, out, put }) => {
      const from = at % (typed.length + 1)
      const reading = readingOf(where, `${typed.slice(0, from)}${put}${typed.slice(from + out)}`)
      for (const offered of 'problems' in reading ? suggestionsOf(reading.problems) : [])
        expect(offends(where, offered)).toBeNull()
    }),
    times(75),
  )
})

describe('a line made of phrases in any order', () => {
  const intervals = '6 x; 2 sets of; 400 m; 3:20; in 80 s; @ 3:50/km; 5:10/km; jog 200 m; 90 s rest'.split(
    '; ',
  )
  const ends = 'off 2 min; (45 s); hr under 150; grade 2%; lane 4; x 8; easy; on grass; hills'.split('; ')
  const sets = '3 x 8; 6/4/2; 4 x (2+2); 1 x 20; 100 x 5; @ 60 kg; 80%; 2 x 24 kg; each; rpe 7'.split('; ')
  const rests = 'rest 2:00; 90 s; 15 s pause; tempo 3-1-0; build from 40 kg; belt; last 30 s'.split('; ')
  const numbers = (text: string): string[] => text.match(/\d+/g) ?? []

  it.each([
    ['running', '', 'runItem', runs, [...intervals, ...ends]],
    ['lifting', 'squat ', 'liftItem', lifts, [...sets, ...rests]],
  ] as const)(
    'of %s is written anew with every number in it, or left alone',
    (_, name, rule, table, phrases) => {
      const drawn = fc.array(fc.tuple(fc.constantFrom(...phrases), fc.constantFrom(' ', ', ')), {
        minLength: 2,
        maxLength: 5,
      })
      let answered = 0
      fc.assert(
        fc.property(drawn, (pieces) => {
          const line = pieces.map(([phrase, gap], index) => (index === 0 ? phrase : gap + phrase)).join('')
          const asked = inNotation(name + line, rule)
          const isRead = (said: string) => (isReadable(said, rule) ? said : null)
          const written = rewritings(asked, table, isRead).next().value?.said
          if (written === undefined) return
          answered++
          const left = numbers(written)
          for (const number of numbers(line)) {
            const at = left.indexOf(number)
            expect(at, `${number} of "${line}" in "${written}"`).toBeGreaterThanOrEqual(0)
            left.splice(at, 1)
          }
        }),
        times(2000),
      )
      expect(answered).toBeGreaterThan(100)
    },
  )
})
