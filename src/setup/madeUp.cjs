// The made-up logbook: node src/setup/madeUp.cjs DIR [WEEKS [LAST-DAY [SEED]]] writes one of the invented athlete.
const { existsSync, renameSync, rmSync } = require('node:fs')
const { bundled } = require('./generate.cjs')

async function main(directory, weeks = '16', last = daysAgo(0), seed = '1') {
  if (directory === undefined || existsSync(directory)) {
    process.stderr.write('Give a directory that does not exist yet: node src/setup/madeUp.cjs DIR\n')
    process.exitCode = 2
    return
  }
  const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
  const sessions = writeMadeUpLogbook(directory, { seed: Number(seed), weeks: Number(weeks), last })
  console.log(`${sessions} made-up sessions in ${directory}`)
}

/** Fills the logbook for trying out with sixteen made-up weeks, unless it exists, so that the history and
 * the progress have something to show. If that fails, the logbook begins empty. */
exports.prepareTryOut = async function prepareTryOut(directory, last = daysAgo(1)) {
  if (existsSync(directory)) return
  process.stderr.write('Making up sixteen weeks of training to look at ...\n')
  // Rename at the end, so that a killed run leaves no half-made logbook.
  const beside = `${directory}.${process.pid}`
  try {
    const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
    writeMadeUpLogbook(beside, { seed: 1, weeks: 16, last })
    renameSync(beside, directory)
  } catch (error) {
    process.stderr.write(`They could not be made up (${error.message}); the logbook begins empty.\n`)
  } finally {
    if (existsSync(beside)) rmSync(beside, { recursive: true, force: true })
  }
}

/** A local date, YYYY-MM-DD. */
function daysAgo(days) {
  const now = new Date()
  const noon = new Date(now.getFullYear(), now.getMonth(), now.getDate() - days, 12)
  return new Date(noon.getTime() - noon.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
}

if (require.main === module) main(...process.argv.slice(2))
