const { join } = require('node:path')
const { bundled } = require('../generate.cjs')

/** A made-up logbook of so many sessions for this run, with its digest; made once. */
exports.logbookOf = async function logbookOf(context, sessions) {
  const directory = join(context.folder, `logbook-${sessions}`)
  if (!context.prepared.has(directory)) {
    const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
    writeMadeUpLogbook(directory, { seed: 1, sessions, last: '2026-11-25' })
    context.prepared.set(directory, true)
  }
  return directory
}
