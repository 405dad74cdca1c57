import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect } from 'vitest'

/** Compares a golden file with what the program answers to its own lines. At the margin is what is typed (`\n` is a
 * line end), indented below it the answer; `== run` says where the lines below it are typed. To add a case, write its
 * line, run the test with `-u`, and read the answer.
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
