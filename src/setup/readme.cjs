const { spawnSync } = require('node:child_process')
const { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { delimiter, join } = require('node:path')
const { root } = require('./root.cjs')
const { bundled } = require('./generate.cjs')

/** The evening of the sample days' week: nothing printed depends on when it is printed. */
const instant = '2026-11-29T20:00:00+01:00'
/** Of the logbook for trying out, which lies in `tryout`: sixteen made-up weeks. */
const lastMadeUp = '2026-11-29'

/** README and the pages of the manual, in the order in which their commands are run: a later page sees what an
 * earlier one stored. */
exports.pages = [
  'README.md',
  'shared/manual/notation.md',
  'shared/manual/entries.md',
  'shared/manual/keys.md',
  'shared/manual/commands.md',
  'shared/manual/logbook.md',
]

/** The pages as they should be: every console block with what its commands print now, and the tables of keys and
 * commands from the program's own.
 * @param texts the text of each page as it is, in the order of `pages` */
exports.freshPages = async function freshPages(texts) {
  const { keysTable, commandsTable } = await bundled('src/setup/tables.ts')
  const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
  const world = createWorld()
  writeMadeUpLogbook(join(world.folder, 'tryout'), { seed: 1, weeks: 16, last: lastMadeUp })
  try {
    return texts.map((text) =>
      withTable(withTable(text, 'keys', keysTable()), 'commands', commandsTable()).replace(
        /^```console\n([\s\S]*?)^```$/gm,
        (_, block) => `\`\`\`console\n${freshBlock(block, world.run)}\`\`\``,
      ),
    )
  } finally {
    world.end()
  }
}

function withTable(text, name, table) {
  const [open, close] = [`<!-- ${name} -->`, `<!-- /${name} -->`]
  const from = text.indexOf(open)
  const to = text.indexOf(close)
  if (from < 0 && to < 0) return text
  if (from < 0 || to < from)
    throw new Error(`A page has only one of ${open} and ${close}. Put both on lines of their own.`)
  return `${text.slice(0, from + open.length)}\n${table}${text.slice(to)}`
}

/** Lines that begin with `$ ` are run; what stands below each is what it printed. */
function freshBlock(block, run) {
  const commands = block.split('\n').filter((line) => line.startsWith('$ '))
  return commands.map((line) => `${line}\n${run(line.slice(2))}`).join('\n')
}

/** A home of its own, in which `pausebook` is the built program and the samples lie beside. */
function createWorld() {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-readme-'))
  const bin = join(folder, 'bin')
  mkdirSync(bin)
  writeFileSync(join(folder, 'clock'), instant)
  const program = `"${process.execPath}" --require "${join(root, 'src', 'setup', 'still.cjs')}" "${join(root, 'dist', 'pausebook.js')}"`
  writeFileSync(join(bin, 'pausebook'), `#!/bin/sh\nexec ${program} "$@"\n`)
  chmodSync(join(bin, 'pausebook'), 0o755)
  symlinkSync(join(root, 'sample-sessions'), join(folder, 'sample-sessions'))
  const env = {
    PATH: `${bin}${delimiter}${process.env.PATH}`,
    HOME: folder,
    STILL_CLOCK: join(folder, 'clock'),
    TZ: 'Europe/Berlin',
    LANG: 'C.UTF-8',
  }
  const run = (command) => {
    const ran = spawnSync('sh', ['-c', `exec 2>&1\n${command}`], { cwd: folder, env, encoding: 'utf8' })
    if (ran.error) throw ran.error
    return ran.stdout.replaceAll('\r\n', '\n').replaceAll(folder, '~').replace(/\n*$/, '\n')
  }
  return { folder, run, end: () => rmSync(folder, { recursive: true, force: true }) }
}
