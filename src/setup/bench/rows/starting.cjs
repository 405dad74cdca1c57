const { execFileSync } = require('node:child_process')
const { mkdirSync, writeFileSync } = require('node:fs')
const { join } = require('node:path')
const { openTerminal } = require('../../pseudoTerminal.cjs')
const { root } = require('../../root.cjs')
const { environmentIn, program } = require('../program.cjs')
const { inkProgram } = require('../inkPrograms.cjs')

const sample = (name) => join(root, 'sample-sessions', name)
const day = sample('track-and-cluster.txt')
const nothing = { command: [process.execPath, '-e', '0'] }

/** A logbook with a session of 31 results that is open again. */
function openSession(context) {
  const logbook = join(context.folder, 'open-session')
  if (context.prepared.has(logbook)) return logbook
  const run = (...words) =>
    execFileSync(process.execPath, [program, ...words, '--logbook', logbook], { encoding: 'utf8' })
  mkdirSync(logbook, { mode: 0o700 })
  writeFileSync(join(logbook, 'settings.json'), '{"format":1,"firstStartSeen":true}', { mode: 0o600 })
  const id = run('backfill', day, sample('track-and-cluster.results.txt')).trim()
  run('reopen', id)
  context.prepared.set(logbook, true)
  return logbook
}

async function firstFrame(argv, context, typed, shown) {
  const begun = performance.now()
  const terminal = openTerminal(argv, { columns: 80, rows: 24, env: environmentIn(context) })
  try {
    // What is typed before the program reads waits for it.
    terminal.type(typed)
    await terminal.waitFor(shown, 20_000)
    return performance.now() - begun
  } finally {
    await terminal.close()
  }
}

const printing = (name, words) => ({
  name: `${name}: start, print, end`,
  against: 'node -e 0',
  target: 1.6,
  pairs: 21,
  measure: async (context) => ({
    ours: { command: [process.execPath, program, ...words(context)] },
    against: nothing,
  }),
})

exports.rows = [
  {
    name: 'first frame of the recorder, 31 results',
    against: 'first frame of a bundled Ink hello',
    target: 1.25,
    async measure(context) {
      const logbook = openSession(context)
      const hello = await inkProgram(context, 'hello')
      const times = { ours: [], against: [] }
      for (let pair = 0; pair <= 15; pair += 1) {
        const ours = await firstFrame([program, '--logbook', logbook], context, '\r', 'all recorded')
        const against = await firstFrame([hello], context, '', 'hello')
        if (pair === 0) continue
        times.ours.push(ours)
        times.against.push(against)
      }
      return { ours: { milliseconds: times.ours }, against: { milliseconds: times.against } }
    },
  },
  printing('check', () => ['check', day]),
  printing('summary', (context) => ['summary', '--logbook', openSession(context)]),
  printing('plates', () => ['plates', '92.5']),
]
