const { spawnSync } = require('node:child_process')
const { join } = require('node:path')
const { root } = require('./root.cjs')
const { install } = require('./install.cjs')
const { build } = require('./build.cjs')
const { prepareTryOut } = require('./tryOut.cjs')

install()
build().then(run, (error) => {
  process.stderr.write(`pausebook: The build failed. Correct this and try again:\n${error.message}\n`)
  process.exitCode = 1
})

/** Without words it opens the app on a logbook of its own, so that trying it out leaves the real one alone. */
async function run() {
  const words = process.argv.slice(2)
  if (words[0] === '--build-only') return
  const tryOut = words.length === 0 && !process.env.PAUSEBOOK_DIR
  const logbook = join(root, 'tryout')
  if (tryOut) await prepareTryOut(logbook)
  const env = tryOut ? { ...process.env, PAUSEBOOK_DIR: logbook } : process.env
  // Signals reach the whole foreground group; this process only waits for the program to end as it sees fit.
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => {})
  const ran = spawnSync(process.execPath, [join(root, 'dist', 'pausebook.js'), ...words], {
    stdio: 'inherit',
    env,
  })
  if (ran.error) throw ran.error
  process.exitCode = ran.signal ? 128 + require('node:os').constants.signals[ran.signal] : ran.status
}
