// Writes a logbook of the invented athlete: node src/setup/madeUp.cjs DIR [WEEKS [LAST-DAY [SEED]]]
require('./node.cjs')
const { existsSync } = require('node:fs')
const { bundled } = require('./bundled.cjs')

async function main() {
  const [directory, weeks = '16', last = today(), seed = '1'] = process.argv.slice(2)
  if (directory === undefined || existsSync(directory)) {
    process.stderr.write('Give a directory that does not exist yet: node src/setup/madeUp.cjs DIR\n')
    process.exitCode = 2
    return
  }
  const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
  const sessions = writeMadeUpLogbook(directory, { seed: Number(seed), weeks: Number(weeks), last })
  console.log(`${sessions} made-up sessions in ${directory}`)
}

function today() {
  const now = new Date()
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
}

main()
