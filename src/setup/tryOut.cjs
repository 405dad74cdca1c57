const { existsSync, renameSync, rmSync } = require('node:fs')
const { bundled } = require('./bundled.cjs')

/** Fills the logbook for trying out with sixteen made-up weeks, where there is none yet: the history and the
 * progress have something to show. A logbook that cannot be made begins empty. */
exports.prepareTryOut = async function prepareTryOut(directory) {
  if (existsSync(directory)) return
  process.stderr.write('Making up sixteen weeks of training to look at ...\n')
  // Whole or not at all, also when it is ended in the middle.
  const beside = `${directory}.${process.pid}`
  try {
    const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
    writeMadeUpLogbook(beside, { seed: 1, weeks: 16, last: yesterday() })
    renameSync(beside, directory)
  } catch (error) {
    process.stderr.write(`They could not be made up (${error.message}); the logbook begins empty.\n`)
  } finally {
    if (existsSync(beside)) rmSync(beside, { recursive: true, force: true })
  }
}

/** Local, YYYY-MM-DD: today is the user's own. */
function yesterday() {
  const now = new Date()
  const day = new Date(now.getFullYear(), now.getMonth(), now.getDate() - 1, 12)
  return new Date(day.getTime() - day.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
}
