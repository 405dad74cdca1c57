import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { Command } from 'commander'
import { marked, type Tokens } from 'marked'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { cautions } from '../../src/app/cautions.ts'
import { withCommands } from '../../src/commands/commands.ts'
import { keyRows } from '../../src/recorder/keys.ts'
import { type Apart, apart } from '../apart.ts'
import { builtProgram } from '../terminal/harness.ts'

/* README and the manual say what the program does. `npm run docs` writes what is checked here. */

const { freshPages, pages } = createRequire(import.meta.url)('../../src/setup/docs.cjs') as {
  freshPages: (texts: readonly string[], answerOf: typeof answerHere) => Promise<string[]>
  pages: readonly string[]
}
const texts = pages.map((page) => readFileSync(page, 'utf8'))
const blocks = texts.flatMap((text) =>
  marked.lexer(text).filter((token): token is Tokens.Code => token.type === 'code'),
)
const shown = blocks.filter((block) => block.lang === 'console').flatMap((block) => block.text.split('\n'))
const commands = shown.filter((line) => line.startsWith('$ '))

const old =
  '<!-- keys -->\n<!-- /keys -->\n<!-- commands -->\n<!-- /commands -->\n```console\n$ pausebook --version\n9.9.9\n```\n'
let fresh: string[] = []
beforeAll(async () => {
  await builtProgram()
  fresh = await freshPages([...texts, old], answerHere)
})

/** Runs a line in one process for all lines. What needs a shell is left to one, as are the lines that start git or draw
 * ids, which are the same only in a process of their own. */
async function answerHere(command: string, world: World) {
  if (!/^pausebook [^|;>~]*$/.test(command) || /^pausebook (backfill|sync)/.test(command)) return null
  const words = [...command.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map(
    ([, double, single, plain]) => double ?? single ?? plain ?? '',
  )
  return processIn(world).then(({ call }) => call('printed', words.slice(1)))
}

interface World {
  folder: string
  env: Record<string, string>
}

let started: Promise<Apart<typeof import('./printed.apart.ts')>> | undefined
function processIn({ folder, env }: World) {
  started ??= apart(join(import.meta.dirname, 'printed.apart.ts'), {
    cwd: folder,
    env,
    execArgv: ['--require', join(import.meta.dirname, '..', '..', 'src', 'setup', 'clock.cjs')],
  })
  return started
}
afterAll(async () => (await started)?.end())

const isWindows = process.platform === 'win32'
describe.skipIf(isWindows)('the documents (skipped on Windows, which has no POSIX shell)', () => {
  it.each(pages)('show in %s what the program prints (else: npm run docs)', (page) => {
    const at = pages.indexOf(page)
    expect(texts[at]).toBe(fresh[at])
  })

  it('are checked by a test that notices outdated text', () => {
    const now = fresh.at(-1)
    expect(now).toContain('```console\n$ pausebook --version\n0.1.0\n```\n')
    expect(now).toContain(keyRows[0]?.does)
  })

  it.each(['keys', 'commands'])('have the table of %s once', (table) => {
    for (const mark of [table, `/${table}`])
      expect(texts.filter((text) => text.includes(`<!-- ${mark} -->`))).toHaveLength(1)
  })

  // The command that opens the app has its picture instead.
  const program = withCommands(new Command(), async () => {})
  const printing = program
    .createHelp()
    .visibleCommands(program)
    .map((command) => command.name())
    .filter((name) => name !== 'record')
  it.each(printing)(
    'show real output of %s (else: add a ```console block to shared/manual/commands.md, then npm run docs)',
    (name) => {
      expect(commands.filter((line) => line.includes(`pausebook ${name}`))).not.toEqual([])
    },
  )

  it('show no program failure', () => {
    expect(shown.filter((line) => /\bnode:internal|^\s+at .*:\d+:\d+/.test(line))).toEqual([])
  })

  it.each(pages)('link in %s to files that exist', (page) => {
    const links = [...(texts[pages.indexOf(page)] as string).matchAll(/\]\(([^)#]+)\)/g)].map(
      ([, path = '']) => path,
    )
    const local = links.filter((path) => !/^https?:/.test(path))
    expect(local.filter((path) => !existsSync(join(dirname(page), path)))).toEqual([])
  })

  it('keep README at 200 lines or fewer, with the cautions in the words of --help', () => {
    const readme = texts[0] as string
    expect(readme.split('\n').length).toBeLessThanOrEqual(200)
    expect(readme.replaceAll('\n', ' ')).toContain(cautions)
  })
})
