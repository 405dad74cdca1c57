const { spawnSync } = require('node:child_process')
const { mkdirSync, mkdtempSync, rmSync, writeFileSync } = require('node:fs')
const module_ = require('node:module')
const { tmpdir } = require('node:os')
const { join } = require('node:path')
const { root } = require('./root.cjs')

const sample = (name) => join(root, 'sample-sessions', name)
const day = sample('track-and-cluster.txt')
/** What is done most often: functions that were called are kept compiled. */
const runs = [
  ['check', day],
  ['backfill', day, sample('track-and-cluster.results.txt')],
  ['summary'],
  ['history'],
  ['progress', 'lift', 'front', 'squat'],
  ['plates', '92.5'],
]

/** Lets V8 compile the parts of a build ahead, for a Node that does not keep compiled code by itself. What fails
 * here only makes the program start slower.
 * @param folder where pausebook.js lies */
exports.compile = async function compile(folder) {
  if (module_.enableCompileCache) return
  const home = mkdtempSync(join(tmpdir(), 'pausebook-compile-'))
  try {
    const logbook = join(home, 'logbook')
    mkdirSync(logbook, { mode: 0o700 })
    writeFileSync(join(logbook, 'settings.json'), '{"format":1,"firstStartSeen":true}')
    const argv = ['--require', join(__dirname, 'keepCompiled.cjs'), join(folder, 'pausebook.js')]
    const env = {
      PATH: process.env.PATH,
      HOME: home,
      PAUSEBOOK_DIR: logbook,
      TERM: 'xterm-256color',
      LANG: 'C.UTF-8',
    }
    for (const words of runs) spawnSync(process.execPath, [...argv, ...words], { env, stdio: 'ignore' })
    await record([...argv, 'record', day], env, '')
    // The unfinished session comes first, and Enter goes on with it.
    await record(argv, env, '\r')
  } finally {
    rmSync(home, { recursive: true, force: true })
  }
}

/** The recorder, in a terminal: some keys, and out. */
async function record(argv, env, typed) {
  let program = null
  try {
    const { openTerminal } = require('./pseudoTerminal.cjs')
    program = openTerminal(argv, { columns: 100, rows: 30, env })
    program.type(typed)
    await program.waitFor('Space')
    for (const key of [' ', ' ', '\r', '?', '\x1b', '9']) program.type(key)
    await program.waitFor('> 9')
    program.type('\x7fq')
    await Promise.race([program.exited, new Promise((done) => setTimeout(done, 3000))])
  } catch {
    // A platform without pseudo-terminals, or a broken program: the tests say more.
  } finally {
    await program?.close()
  }
}
