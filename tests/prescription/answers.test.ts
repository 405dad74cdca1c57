import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'
import { expectGoldenTable } from '../goldenTable.ts'

/* What coaches really write and the notation does not read, or reads with a warning, and the answer to each, after its
 * line where several are typed, its column and its length. The limits of what is plausible are this program's own;
 * those of running are a tenth faster than the men's world records, which are from memory. */

/** A day with the lines in it, and how many lines are above them. Running is put between two easy kilometres, because
 * only work may begin or end a part; `run, alone` is not, and its day has no goal. */
function dayWith(lines: string, where: string): { text: string; above: number } {
  if (where === 'file') return { text: lines, above: 0 }
  if (where === 'header') return { text: `Day\n${lines}\n\nlift\n  squat 3 x 5\n\nrun\n  5 km\n`, above: 1 }
  const [part, alone] = where.split(', ')
  if (alone !== undefined) return { text: `Day\n${part}\n${lines}`, above: 2 }
  const head = `Day\ngoal: 10 km in 39:30\nmax: squat 100 kg\n${part}\n`
  if (!part?.startsWith('run')) return { text: head + lines, above: 4 }
  return { text: `${head}1 km\n${lines}\n1 km`, above: 5 }
}

/** What is said of the lines, and what is wrong elsewhere because of them; with the whole file that is suggested, if it
 * is one. */
function answersTo(lines: string, where: string): string[] {
  const { text, above } = dayWith(lines, where)
  const reading = readPrescription(text)
  const count = lines.split('\n').length
  const said = 'problems' in reading ? reading.problems : reading.warnings
  return said
    .filter(({ line, severity }) => severity === 'error' || (line > above && line <= above + count))
    .map(({ line, column, length, severity, message, suggestion }) => {
      if (suggestion !== null && count === 1) expect(isRead(suggestion, where), suggestion).toBe(true)
      const place = `${count > 1 ? `${line - above}:` : ''}${column}+${length}`
      const isFile = where === 'file' && suggestion?.includes('\n\n')
      const whole = isFile ? `\n${suggestion?.trimEnd()}`.replaceAll('\n', '\n    ') : ''
      return `${place} ${severity === 'warning' ? 'warning: ' : ''}${message}${whole}`
    })
}

function isRead(lines: string, where: string): boolean {
  return 'prescription' in readPrescription(dayWith(lines, where).text)
}

const table = new URL('golden/answers.txt', import.meta.url)

it('what the notation cannot read, or hardly means, is answered with the place and what to write', async () => {
  await expectGoldenTable(table, answersTo)
})

it('every example in an answer can be read, at least as the end of a line', () => {
  const examples = readFileSync(table, 'utf8').matchAll(
    /(?<=such as |a whole line: )(?!\/)[^;\n]+?(?=;|\n|,? or )/g,
  )
  const begun = ['', 'squat ', 'squat 3 x 5 ', '5 km ', 'after: ', '6 x 400 m, ', 'date: ']
  for (const example of new Set([...examples].map(([each]) => each))) {
    const isReadSomewhere = ['run', 'lift', 'fuel', 'header'].some((where) =>
      begun.some((words) => isRead(words + example, where)),
    )
    expect(isReadSomewhere, example).toBe(true)
  }
})
