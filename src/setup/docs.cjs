// npm run docs: writes the program's current output into README.md and the manual, draws the pictures, and writes the
// published schemas.
const { spawnSync } = require('node:child_process')
const {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} = require('node:fs')
const { tmpdir } = require('node:os')
const { delimiter, dirname, join } = require('node:path')
const { build } = require('./build.cjs')
const { bundled } = require('./generate.cjs')
const { install } = require('./install.cjs')
const { plainEnvironment, root } = require('./root.cjs')

async function main() {
  install({ checks: true })
  await build()
  // It needs the packages.
  const { pictures } = require('./pictures.cjs')
  const fresh = await exports.freshPages(pages.map((page) => readFileSync(join(root, page), 'utf8')))
  pages.forEach((page, at) => {
    write(page, fresh[at])
  })
  const { publishedSchemas } = await bundled('src/setup/documents.ts')
  for (const [name, schema] of Object.entries(publishedSchemas()))
    write(join('shared', name), `${JSON.stringify(schema, null, 2)}\n`)
  for (const [name, svg] of Object.entries(await pictures())) write(join('shared', 'pictures', name), svg)
}

function write(path, text) {
  const file = join(root, path)
  const isNew = !existsSync(file) || readFileSync(file, 'utf8') !== text
  mkdirSync(dirname(file), { recursive: true })
  if (isNew) writeFileSync(file, text)
  console.log(`${path}: ${isNew ? 'written' : 'as it was'}`)
}

/** The clock of every command, so that its output does not depend on today; the made-up weeks in `tryout` end on this
 * day. */
const instant = '2026-11-29T20:00:00+01:00'

/** README and the pages of the manual, in the order in which their commands are run: a later page sees what an
 * earlier one stored. */
const pages = [
  'README.md',
  'shared/manual/notation.md',
  'shared/manual/entries.md',
  'shared/manual/keys.md',
  'shared/manual/commands.md',
  'shared/manual/logbook.md',
]
exports.pages = pages

/** The updated pages: every console block with the current output of its commands, and the tables of keys and
 * commands from the program's own.
 * @param texts the current text of each page, in the order of `pages`
 * @param answerOf the output of a command line without a shell, given the folder and the environment; null leaves it to
 * the shell */
exports.freshPages = async function freshPages(texts, answerOf = async () => null) {
  const { keysTable, commandsTable } = await bundled('src/setup/documents.ts')
  const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
  const world = createWorld()
  writeMadeUpLogbook(join(world.folder, 'tryout'), { seed: 1, weeks: 16, last: instant.slice(0, 10) })
  const run = async (command) => {
    const output = (await answerOf(command, world)) ?? world.run(command)
    return output.replaceAll('\r\n', '\n').replaceAll(world.folder, '~').replace(/\n*$/, '\n')
  }
  try {
    const fresh = []
    for (const text of texts) {
      const whole = withTable(withTable(text, 'keys', keysTable()), 'commands', commandsTable())
      // Every second part is the inside of a console block.
      const parts = whole.split(/^```console\n([\s\S]*?)^```$/m)
      for (let at = 1; at < parts.length; at += 2)
        parts[at] = `\`\`\`console\n${await freshBlock(parts[at], run)}\`\`\``
      fresh.push(parts.join(''))
    }
    return fresh
  } finally {
    world.end()
  }
}

/** The text with the table between its two marks, if the page has them. */
function withTable(text, name, table) {
  return text.replace(new RegExp(`(<!-- ${name} -->\n)[^]*(?=<!-- /${name} -->)`), (_, mark) => mark + table)
}

/** Runs the lines that begin with `$ ` and puts the output of each below it. */
async function freshBlock(block, run) {
  const shown = []
  for (const line of block.split('\n'))
    if (line.startsWith('$ ')) shown.push(`${line}\n${await run(line.slice(2))}`)
  return shown.join('\n')
}

/** A temporary home with the built program as `pausebook` and the sample sessions. */
function createWorld() {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-readme-'))
  const at = (...names) => join(folder, ...names)
  mkdirSync(at('bin'))
  writeFileSync(at('clock'), instant)
  const program = `"${process.execPath}" --require "${join(root, 'src', 'setup', 'clock.cjs')}" "${join(root, 'dist', 'pausebook.js')}"`
  writeFileSync(at('bin', 'pausebook'), `#!/bin/sh\nexec ${program} "$@"\n`, { mode: 0o755 })
  symlinkSync(join(root, 'sample-sessions'), at('sample-sessions'))
  const PATH = `${at('bin')}${delimiter}${process.env.PATH}`
  const env = plainEnvironment(folder, { PATH, STILL_CLOCK: at('clock') })
  return {
    folder,
    env,
    run: (command) => {
      const ran = spawnSync('sh', ['-c', `exec 2>&1\n${command}`], { cwd: folder, env, encoding: 'utf8' })
      if (ran.error) throw ran.error
      return ran.stdout
    },
    end: () => rmSync(folder, { recursive: true, force: true }),
  }
}

if (require.main === module) {
  main().catch((error) => {
    process.stderr.write(`pausebook: The documentation could not be made. ${error.message}\n`)
    process.exitCode = 1
  })
}
