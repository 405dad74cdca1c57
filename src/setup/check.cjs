const { spawn } = require('node:child_process')
const { rmSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')
const { install } = require('./install.cjs')
const { build } = require('./build.cjs')
const { isCovered } = require('./coverage.cjs')
const { readReport } = require('./report.cjs')

/* Each check with what to do when it fails. */
const checks = [
  {
    name: 'types',
    command: ['node_modules/typescript/bin/tsc', '--noEmit'],
    advice: 'Correct the lines that the compiler names; `npx tsc --noEmit` runs it alone.',
  },
  {
    name: 'style',
    command: ['node_modules/@biomejs/biome/bin/biome', 'check', '--error-on-warnings'],
    advice: '`npx biome check --write` corrects what it can; the rest is named above.',
  },
  {
    name: 'leftovers',
    command: ['node_modules/knip/bin/knip.js', '--no-progress'],
    advice:
      'Delete the files, exports and packages that nothing uses, or use them; `npx knip` runs it alone.',
  },
  {
    name: 'floors',
    command: [
      'node_modules/dependency-cruiser/bin/dependency-cruise.mjs',
      'src',
      'tests',
      '--output-type',
      'err-long',
    ],
    advice: 'Move the import to where .dependency-cruiser.cjs allows it; DEVELOPERS.md says why.',
  },
]
const results = join(root, 'coverage', 'tests.json')

main().catch((error) => {
  process.stderr.write(`pausebook: The build failed. Correct this and try again:\n${error.message}\n`)
  process.exitCode = 1
})

async function main() {
  install()
  await build()
  const failed = await runChecks()
  rmSync(results, { force: true })
  const vitest = ['node_modules/vitest/vitest.mjs', 'run', '--config', 'tests/vitest.config.ts', '--coverage']
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`]
  const tests = await run([...vitest, ...reporters, ...process.argv.slice(2)], 'inherit')
  if (tests.code !== 0) failed.push('tests')
  // Some of the tests reach only some of the branches.
  if (!isCovered() && process.argv.length === 2) failed.push('coverage')
  const { line, anyFailed } = countedLine()
  if (failed.length > 0) console.log(`\nFailed: ${failed.join(', ')}. What to do stands with each above.`)
  console.log(`\n${line}`)
  process.exitCode = failed.length > 0 || anyFailed ? 1 : 0
}

/** All at once: they are short, and none uses both cores for long. */
async function runChecks() {
  const failed = []
  await Promise.all(
    checks.map(async ({ name, command, advice }) => {
      const begun = Date.now()
      const { code, output } = await run(command, 'pipe')
      const seconds = ((Date.now() - begun) / 1000).toFixed(1)
      console.log(
        code === 0 ? `${name}: ok (${seconds} s)` : `${name}: FAILED\n${output.trim()}\n-> ${advice}`,
      )
      if (code !== 0) failed.push(name)
    }),
  )
  return failed
}

function run(command, output) {
  const child = spawn(process.execPath, command, { cwd: root, stdio: ['ignore', output, output] })
  const parts = []
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (part) => parts.push(part))
  return new Promise((resolve, reject) => {
    child.on('error', reject)
    child.on('close', (code) => resolve({ code, output: Buffer.concat(parts).toString('utf8') }))
  })
}

/** A test file that could not even be loaded is one that failed. */
function countedLine() {
  const report = readReport(results)
  if (report === null) return { line: '0 passed, 1 failed, 0 skipped', anyFailed: true }
  const unloaded = report.testResults.filter(
    (file) => file.status === 'failed' && file.assertionResults.length === 0,
  )
  const failed = report.numFailedTests + unloaded.length
  const skipped = report.numPendingTests + report.numTodoTests
  return {
    line: `${report.numPassedTests} passed, ${failed} failed, ${skipped} skipped`,
    anyFailed: failed > 0,
  }
}
