// npm test: installs and builds what is missing, runs the checks and the tests, and prints the totals on the last line.
const { spawn } = require('node:child_process')
const { mkdirSync, openSync, readFileSync, rmSync } = require('node:fs')
const { join } = require('node:path')
const { build } = require('./build.cjs')
const { install } = require('./install.cjs')
const { root } = require('./root.cjs')

const cache = join(root, 'node_modules', '.cache')
const results = join(cache, 'tests.json')
const checked = join(cache, 'check.txt')

async function main() {
  install({ checks: true })
  await build()
  mkdirSync(cache, { recursive: true })
  rmSync(results, { force: true })
  // The tests keep each core busy, so more threads for V8's collector and compiler only get in their way: with one
  // instead of four the tests take a tenth less time.
  const vitest = ['--v8-pool-size=1', 'node_modules/vitest/vitest.mjs']
  const tests = ['run', '--config', 'tests/vitest.config.ts']
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`]
  // The checks use the cores while the tests wait for programs that they started.
  const output = openSync(checked, 'w')
  const [isChecked, isTested] = await Promise.all([
    run('npm run check', [], { stdio: ['ignore', output, output], shell: true }),
    run(process.execPath, [...vitest, ...tests, ...reporters, ...process.argv.slice(2)], {
      stdio: 'inherit',
    }),
  ])
  console.log(readFileSync(checked, 'utf8'))
  if (!isChecked) console.log('The checks failed; `npm run check` runs them alone.')
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(
    readFileSync(results, 'utf8'),
  )
  // A test file that does not load fails without a failed test.
  const failed = isTested ? 0 : Math.max(1, numFailedTests)
  count(numPassedTests, failed + (isChecked ? 0 : 1), numPendingTests + numTodoTests)
}

/** @returns whether it ends with status 0 */
function run(command, words, options) {
  return new Promise((ended, failed) => {
    const child = spawn(command, words, { cwd: root, ...options })
    child.on('error', failed)
    child.on('close', (status) => ended(status === 0))
  })
}

function count(passed, failed, skipped) {
  console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`)
  process.exitCode = failed > 0 ? 1 : 0
}

main().catch((error) => {
  process.stderr.write(`pausebook: ${error.message}\n`)
  count(0, 1, 0)
})
