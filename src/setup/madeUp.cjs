// The made-up logbook: node src/setup/madeUp.cjs DIR [WEEKS [LAST-DAY [SEED]]] writes one for the invented athlete.
const {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  renameSync,
  rmSync,
  writeFileSync,
} = require('node:fs')
const { join } = require('node:path')
const { bundled } = require('./generate.cjs')
const { root } = require('./root.cjs')

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

/** Creates the logbook for trying out, unless it exists, with the sample days among its prescriptions.
 * @returns whether it still needs made-up weeks */
exports.prepareTryOut = function prepareTryOut(directory) {
  if (existsSync(directory)) return false
  try {
    const days = join(directory, 'prescriptions')
    mkdirSync(days, { recursive: true, mode: 0o700 })
    const settings = {
      format: 1,
      rotation: ['legs', 'push', 'pull'],
      bodyMasses: [{ date: daysAgo(16 * 7), value: 68, unit: 'kg' }],
    }
    writeFileSync(join(directory, 'settings.json'), JSON.stringify(settings), { mode: 0o600 })
    const samples = join(root, 'sample-sessions')
    for (const name of readdirSync(samples))
      if (/(?<![.]results)[.]txt$/.test(name)) copyFileSync(join(samples, name), join(days, name))
    return true
  } catch (error) {
    process.stderr.write(`The logbook for trying out could not be made (${error.message}).\n`)
    return false
  }
}

/** Puts made-up weeks into the logbook for trying out, with the mornings and the plan of their block, so that there is
 * something to show. It takes seconds, so it runs beside the app, which may be recording in the same logbook; existing
 * files stay. */
exports.fillTryOut = async function fillTryOut(directory, last = daysAgo(1), weeks = 16) {
  // Rename one whole session at a time, so that a killed run leaves no half of one.
  const beside = `${directory}.${process.pid}`
  try {
    const { writeMadeUpLogbook, readAnew } = await bundled('src/setup/madeUp/logbook.ts')
    writeMadeUpLogbook(beside, { seed: 1, weeks, last })
    for (const folder of ['', 'mornings', ...readdirSync(join(beside, 'sessions')).map(inSessions)]) {
      const [from, to] = [beside, directory].map((book) => join(book, folder))
      mkdirSync(to, { recursive: true, mode: 0o700 })
      for (const { name } of readdirSync(from, { withFileTypes: true }).filter(isAthletes)) {
        if (!existsSync(join(to, name))) renameSync(join(from, name), join(to, name))
      }
    }
    readAnew(directory)
  } finally {
    rmSync(beside, { recursive: true, force: true })
  }
}

const inSessions = (year) => join('sessions', year)

/** Rebuilds the index. */
const isAthletes = (entry) => entry.isFile() && entry.name !== 'index.ndjson'

/** A local date, YYYY-MM-DD. */
function daysAgo(days) {
  const now = new Date()
  const noon = new Date(now.getFullYear(), now.getMonth(), now.getDate() - days, 12)
  return new Date(noon.getTime() - noon.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
}

if (require.main === module) {
  const [first, ...others] = process.argv.slice(2)
  if (first === '--fill') exports.fillTryOut(...others)
  else main(first, ...others)
}
