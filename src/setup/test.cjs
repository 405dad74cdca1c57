// npm test: installs and builds what is missing, runs the checks and the tests, and prints the totals on the last line.
const { spawn } = require('node:child_process')
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
  const vitest = ['node_modules/vitest/vitest.mjs', 'run', '--config', 'tests/vitest.config.ts']
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`]
  // The checks run beside the tests, which often wait for a program, and are printed after them.
  const [checks, tests] = await Promise.all([
    run('npm', ['run', 'check'], { shell: process.platform === 'win32', stdio: ['ignore', 'pipe', 'pipe'] }),
    run(process.execPath, [...vitest, ...reporters, ...process.argv.slice(2)], { stdio: 'inherit' }),
  ])
  process.stdout.write(`${checks.output}\n`)
  if (!checks.isPassed)
    console.log('The checks failed. Correct the lines above; `npm run check` runs them alone.')
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(
    readFileSync(results, 'utf8'),
  )
  // A test file that does not load fails without a failed test.
  const failed = tests.isPassed ? 0 : Math.max(1, numFailedTests)
  count(numPassedTests, failed + (checks.isPassed ? 0 : 1), numPendingTests + numTodoTests)
}

/** @returns whether it ended with status 0, and its output */
function run(command, words, options) {
  return new Promise((done, fail) => {
    const child = spawn(command, words, { cwd: root, ...options })
    let output = ''
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (data) => (output += data))
    child.on('error', fail)
    child.on('close', (status) => done({ isPassed: status === 0, output }))
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
