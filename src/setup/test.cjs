// npm test: installs and builds what is missing, runs the checks and the tests, and prints the totals on the last line.
const { spawnSync } = require('node:child_process')
const { readFileSync, rmSync } = require('node:fs')
const { join } = require('node:path')
const { build } = require('./build.cjs')
const { install } = require('./install.cjs')
const { root } = require('./root.cjs')

const results = join(root, 'node_modules', '.cache', 'tests.json')

async function main() {
  install({ checks: true })
  await build()
  rmSync(results, { force: true })
  // The tests keep each core busy, so more threads for V8's collector and compiler only get in their way: with one
  // instead of four the tests take a tenth less time.
  const vitest = ['--v8-pool-size=1', 'node_modules/vitest/vitest.mjs']
  const tests = ['run', '--config', 'tests/vitest.config.ts']
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`]
  // One after the other: each keeps two cores busy.
  const isChecked = run('npm', ['run', 'check'], { shell: process.platform === 'win32' })
  const isTested = run(process.execPath, [...vitest, ...tests, ...reporters, ...process.argv.slice(2)])
  if (!isChecked) console.log('The checks failed, see above the tests; `npm run check` runs them alone.')
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(
    readFileSync(results, 'utf8'),
  )
  // A test file that does not load fails without a failed test.
  const failed = isTested ? 0 : Math.max(1, numFailedTests)
  count(numPassedTests, failed + (isChecked ? 0 : 1), numPendingTests + numTodoTests)
}

/** @returns whether it ended with status 0 */
function run(command, words, options) {
  const ran = spawnSync(command, words, { cwd: root, stdio: 'inherit', ...options })
  if (ran.error) throw ran.error
  return ran.status === 0
}

function count(passed, failed, skipped) {
  console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`)
  process.exitCode = failed > 0 ? 1 : 0
}

main().catch((error) => {
  process.stderr.write(`pausebook: ${error.message}\n`)
  count(0, 1, 0)
})
