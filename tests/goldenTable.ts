import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

/* Golden files that hold their own cases. To add one, write what is typed, run the test with `-u`, and read the answer. */

/** Compares a golden file with what the program answers to its own lines. At the margin is what is typed (`\n` is a
 * line end), indented below it the answer; `== run` says where the lines below it are typed.
 * @param answer in lines; none where there is nothing to say */
export async function expectGoldenTable(
  file: URL,
  answer: (typed: string, where: string) => readonly string[],
): Promise<void> {
  const cases = casesOf(file)
  expect(cases.length).toBeGreaterThan(9)
  const lines = cases.flatMap(({ typed, where }, index) => {
    const answers = answer(typed.replaceAll('\\n', '\n'), where).flatMap((each) => each.split('\n'))
    const heading = where === cases[index - 1]?.where ? [] : ['', `== ${where}`]
    return [...heading, typed, ...answers.map((each) => `    ${each}`.trimEnd())]
  })
  await expect(`${lines.slice(1).join('\n')}\n`).toMatchFileSnapshot(fileURLToPath(file))
}

/** What is typed in a golden file, as it is written there. */
export function casesOf(file: URL): { typed: string; where: string }[] {
  let where = ''
  return readFileSync(file, 'utf8')
    .split('\n')
    .flatMap((line) => {
      where = /^== (.*)/.exec(line)?.[1] ?? where
      return /^(?:$| |== )/.test(line) ? [] : [{ typed: line, where }]
    })
}

/** What is typed in a situation of a golden file, and what is written on the day. */
interface Case {
  situation: string
  written: string
  typed: string
}

/** A test for each situation of a golden file, and one that draws all of them. A case is a line, and an empty line ends
 * its situation:
 *
 *     = the situation, in a sentence
 *     == what is written, its lines parted by ` / `
 *     # how a figure was worked out by hand
 *     what is typed | what is said
 *
 * @param said what is said of a case */
export function testSituations(golden: URL, said: (of: Case) => string): void {
  const sections = readFileSync(golden, 'utf8').trimEnd().split('\n\n')
  const drawn = (section: string) => {
    const [heading = '', ...rows] = section.split('\n')
    let written = ''
    const all = rows.map((row) => {
      if (row.startsWith('== ')) written = row.slice(3).replaceAll(' / ', '\n')
      if (/^(==|#) /.test(row)) return row
      const [typed = ''] = row.split(' | ')
      return `${typed} | ${said({ situation: heading.slice(2), written, typed })}`
    })
    return [heading, ...all].join('\n')
  }
  test.each(sections.map((section) => [section.slice(2, section.indexOf('\n')), section]))(
    '%s',
    (_, section = '') => {
      expect(section, 'a case').toMatch(/^(?![=#]).* \| /m)
      expect(drawn(section)).toBe(section)
    },
  )
  test('every situation is drawn into the golden file', async () => {
    await expect(`${sections.map(drawn).join('\n\n')}\n`).toMatchFileSnapshot(fileURLToPath(golden))
  })
}
