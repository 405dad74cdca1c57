import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { marked, type Tokens } from 'marked'
import { beforeAll, describe, expect, it } from 'vitest'
import { commandTable } from '../../src/commands/commands.ts'
import { keyRows } from '../../src/recorder/keys.ts'
import { builtProgram } from '../terminal/harness.ts'

/* README.md says what the program does. `npm run docs` writes what is checked here. */

const readme = readFileSync('README.md', 'utf8')
const { freshReadme } = createRequire(import.meta.url)('../../src/setup/readme.cjs')
const blocks = marked.lexer(readme).filter((token): token is Tokens.Code => token.type === 'code')
const shown = blocks.filter((block) => block.lang === 'console').flatMap((block) => block.text.split('\n'))
const commands = shown.filter((line) => line.startsWith('$ '))

let fresh = ''
beforeAll(async () => {
  await builtProgram()
  fresh = await freshReadme(readme)
}, 60_000)

describe('README', () => {
  it('shows what its commands print, and the tables of keys and commands (else: npm run docs)', () => {
    expect(readme).toBe(fresh)
  })

  it('would be found out of date', async () => {
    const old =
      '<!-- keys -->\n<!-- /keys -->\n<!-- commands -->\n<!-- /commands -->\n```console\n$ pausebook --version\n9.9.9\n```\n'
    const now = await freshReadme(old)
    expect(now).toContain('```console\n$ pausebook --version\n0.1.0\n```\n')
    expect(now).toContain(keyRows[0]?.does)
  })

  // What opens the app has its picture instead.
  const printing = commandTable.map((row) => row.name).filter((name) => name !== '' && name !== 'record')
  it.each(printing)(
    'shows real output of %s (else: add a ```console block to "Commands", then npm run docs)',
    (name) => {
      expect(commands.filter((line) => line.includes(`pausebook ${name}`))).not.toEqual([])
    },
  )

  it('shows no failure of the program', () => {
    expect(shown.filter((line) => /\bnode:internal|^\s+at .*:\d+:\d+/.test(line))).toEqual([])
  })

  it('links to files that are there', () => {
    const links = [...readme.matchAll(/\]\(([^)#]+)\)/g)].map(([, path = '']) => path)
    expect(links.filter((path) => !/^https?:/.test(path) && !existsSync(path))).toEqual([])
  })
})
