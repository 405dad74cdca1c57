import { describe, expect, it } from 'vitest'
import { questions, tables } from '../../src/prescription/hasty.ts'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { ask, respelled } from '../../src/prescription/rewrite.ts'
import { inNotation, spellingsOf } from '../../src/prescription/spellings.ts'
import type { LineRule } from '../../src/prescription/words.ts'

/* The example beside each row of the tables: what it is read as, or what is answered. */

const rules: readonly LineRule[] = ['header', 'runItem', 'liftItem', 'prepItem', 'fuelItem']
const parts = { prepItem: 'prep', runItem: 'run', liftItem: 'lift', fuelItem: 'fuel' } as const

/** A day with the line. Running is put between two easy kilometres, since a recovery may not begin or end a part; a
 * label is not taken for a heading on the first line of a part. */
function dayOf(rule: LineRule, line: string): string {
  if (rule === 'header') return `Day\n${line}\n\nrun\n  5 km\n`
  const before = line.startsWith('Warm up: ') ? [] : ['1 km easy']
  const lines = rule === 'runItem' ? [...before, line, '1 km easy'] : [line]
  const head = ['Day', 'goal: 10 km in 39:30', 'max: squat 140 kg', 'max: bench 100 kg']
  return [...head, parts[rule], ...lines.map((each) => `  ${each}`)].join('\n')
}

/** The line as it is printed; null if it is refused. */
function read(rule: LineRule, line: string): string | null {
  const reading = readPrescription(dayOf(rule, line))
  if ('problems' in reading) return null
  return (
    printPrescription(reading.prescription)
      .trimEnd()
      .split('\n')
      .at(rule === 'runItem' ? -2 : -1)
      ?.trim() ?? null
  )
}

/** What is said of a line that is refused. */
function answered(rule: LineRule, line: string): { message: string; suggestion: string | null } | null {
  const reading = readPrescription(dayOf(rule, line))
  const problems = 'problems' in reading ? reading.problems : []
  return problems.find(({ suggestion }) => suggestion !== null) ?? problems[0] ?? null
}

/** Those of a table that every kind of line has are shown with the first kind that takes the example. */
function firstOf<T>(
  examples: Map<string, LineRule[]>,
  take: (rule: LineRule, line: string) => T | null,
): [string, T][] {
  const taken = [...examples].map(([example, kinds]) => {
    const first = kinds.map((rule) => take(rule, example)).find((each) => each !== null)
    return [example, first ?? null] as const
  })
  expect(taken.filter(([, first]) => first === null).map(([example]) => example)).toEqual([])
  return taken as [string, T][]
}

function examplesOf(rows: (rule: LineRule) => readonly string[]): Map<string, LineRule[]> {
  const all = new Map<string, LineRule[]>()
  for (const rule of rules)
    for (const example of rows(rule)) all.set(example, [...(all.get(example) ?? []), rule])
  return all
}

describe('the example of', () => {
  it('each spelling is changed by it, and read', async () => {
    for (const rule of rules)
      for (const row of spellingsOf(rule)) expect(respelled(row[0], row), row[0]).not.toBe(row[0])
    const examples = examplesOf((rule) => spellingsOf(rule).map(([example]) => example))
    const lines = firstOf(examples, read).map(([example, line]) => `${example}\n    ${line}\n`)
    await expect(lines.join('')).toMatchFileSnapshot('golden/spellings.txt')
  })

  it('each rewriting is refused for its reason, with a line that is read', async () => {
    const rowsOf = (rule: LineRule) => (tables[rule] ?? []).flatMap((rows) => Object.entries(rows))
    const examples = examplesOf((rule) =>
      rowsOf(rule).flatMap(([, rows]) => rows.map(([example]) => example)),
    )
    const lines = firstOf(examples, (rule, example) => {
      const answer = answered(rule, example)
      const [reason = ''] = rowsOf(rule).find(([, rows]) => rows.some((row) => row[0] === example)) ?? []
      return answer?.suggestion && answer.message.includes(reason) && read(rule, answer.suggestion) !== null
        ? answer.message
        : null
    }).map(([example, message]) => `${example}\n    ${message}\n`)
    await expect(lines.join('')).toMatchFileSnapshot('golden/rewrites.txt')
  })

  it('each question is asked', () => {
    for (const rule of rules)
      for (const question of questions[rule] ?? []) {
        const message = ask(inNotation(question[0], rule), [question])
        expect(message, question[0]).not.toBeNull()
        expect(answered(rule, question[0])).toMatchObject({ message, suggestion: null })
      }
  })
})
