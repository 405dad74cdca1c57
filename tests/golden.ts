import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

/* Golden files that hold their own cases, so that they read like a dialogue:
 *
 *   = the situation, in a sentence
 *   == what is written, its lines parted by ` / `
 *   # how a figure was worked out by hand
 *   what is typed | what is said
 *
 * To add a case, write what is typed on a line, draw the rest with -u, and read it. */

export interface Case {
  situation: string
  written: string
  typed: string
}

/** A test for each situation of a golden file, and one that draws all of them.
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
      expect(drawn(section)).toBe(section)
    },
  )
  test('every situation is drawn into the golden file', async () => {
    await expect(`${sections.map(drawn).join('\n\n')}\n`).toMatchFileSnapshot(fileURLToPath(golden))
  })
}
