// npm run bench: ratios of times measured side by side in one run. Words after -- pick rows by their text.
const { install } = require('./install.cjs')
const { build } = require('./build.cjs')

async function main() {
  install()
  await build()
  const { runBench } = require('./bench/run.cjs')
  await runBench(process.argv.slice(2))
}

main().catch((error) => {
  process.stderr.write(`pausebook: The benchmark failed: ${error.message}\n`)
  process.exitCode = 1
})
