// npm start: sets up what is missing, then runs the program with the words after `--`.
const { spawnSync } = require('node:child_process')
const os = require('node:os')
const { join } = require('node:path')
const { build } = require('./build.cjs')
const { install } = require('./install.cjs')
const { prepareTryOut } = require('./madeUp.cjs')
const { root } = require('./root.cjs')

/** Without words it opens the app on a separate logbook, so that trying it out leaves the real one alone. */
async function main(words) {
  install({ checks: false })
  await build()
  if (words[0] === '--build-only') return
  const tryOut = words.length === 0 && !process.env.PAUSEBOOK_DIR
  const logbook = join(root, 'tryout')
  if (tryOut) await prepareTryOut(logbook)
  // Signals reach the whole foreground group; this process only waits for the program to end in its own way.
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => {})
  const ran = spawnSync(process.execPath, [join(root, 'dist', 'pausebook.js'), ...words], {
    stdio: 'inherit',
    env: tryOut ? { ...process.env, PAUSEBOOK_DIR: logbook } : process.env,
  })
  if (ran.error) throw ran.error
  process.exitCode = ran.signal ? 128 + os.constants.signals[ran.signal] : ran.status
}

main(process.argv.slice(2)).catch((error) => {
  process.stderr.write(`pausebook: The build failed. Correct this and try again:\n${error.message}\n`)
  process.exitCode = 1
})
