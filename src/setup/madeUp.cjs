const { copyFileSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync } = require('node:fs')
const { join } = require('node:path')
const { bundled } = require('./generate.cjs')
const { root } = require('./root.cjs')

/** Creates the logbook for trying out, unless it exists: made-up weeks, with the mornings and the plan of their block,
 * and the sample days among its prescriptions. */
exports.prepareTryOut = async function prepareTryOut(directory, last = yesterday(), weeks = 16) {
  if (existsSync(directory)) return
  // Renamed once it is whole, so that a killed run never leaves half a logbook in its place.
  const beside = `${directory}.new`
  const samples = join(root, 'sample-sessions')
  try {
    rmSync(beside, { recursive: true, force: true })
    const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
    writeMadeUpLogbook(beside, { seed: 1, weeks, last })
    mkdirSync(join(beside, 'prescriptions'), { mode: 0o700 })
    for (const name of readdirSync(samples))
      if (!name.endsWith('.results.txt'))
        copyFileSync(join(samples, name), join(beside, 'prescriptions', name))
    renameSync(beside, directory)
  } catch (error) {
    if (existsSync(beside)) rmSync(beside, { recursive: true })
    // Another start may have been faster.
    if (existsSync(directory)) return
    process.stderr.write(
      `The logbook for trying out could not be made (${error.message}). It begins empty: correct this, delete ${directory} and start again.\n`,
    )
  }
}

/** Its local date, YYYY-MM-DD. */
function yesterday() {
  const { format, subDays } = require('date-fns')
  return format(subDays(new Date(), 1), 'yyyy-MM-dd')
}
