// npm run bench: measures each row next to its reference, alternating within one run, because times of two runs cannot
// be compared. Words after -- select rows by name.
const { execFileSync } = require('node:child_process')
const {
  closeSync,
  existsSync,
  fsyncSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} = require('node:fs')
const os = require('node:os')
const { dirname, join } = require('node:path')
const { build } = require('./build.cjs')
const { bundled, bundling } = require('./generate.cjs')
const { install } = require('./install.cjs')
const { plainEnvironment, root, usedLogbook } = require('./root.cjs')

async function main(words) {
  install({ checks: true })
  await build()
  const folder = mkdtempSync(join(os.tmpdir(), 'pausebook-bench-'))
  try {
    const [{ model }] = os.cpus()
    console.log(`${os.cpus().length} x ${model}, ${os.type()}, Node ${process.versions.node}\n`)
    for (const row of rows)
      if (words.length === 0 || words.some((word) => row.name.includes(word)))
        console.log(await lineOf(row, await measured(row, folder)))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Milliseconds of both sides, pair by pair. The first pair only fills the caches; the two take turns to go first. */
async function measured({ pairs = 15, sides }, folder) {
  const world = { folder, ends: [] }
  const times = { ours: [], against: [] }
  try {
    const measure = await sides(world)
    for (let pair = 0; pair <= pairs; pair += 1) {
      for (const side of pair % 2 === 0 ? ['ours', 'against'] : ['against', 'ours']) {
        const time = await measure[side](pair)
        if (pair > 0) times[side].push(time)
      }
    }
  } finally {
    for (const end of world.ends) await end()
  }
  return times
}

/** Both times, the median ratio with its quartiles, and the aim. */
async function lineOf({ name, against, target, most, of = 0.5 }, times) {
  const { quantile } = await import('d3-array')
  const ratios = times.ours.map((time, index) => time / times.against[index])
  const [ours, other] = [times.ours, times.against].map((values) => quantile(values, of))
  const [low, ratio, high] = [0.25, 0.5, 0.75].map((share) => quantile(ratios, share).toFixed(2))
  const isMet = most === undefined ? quantile(ratios, 0.5) <= target : ours <= most
  const aim = `${isMet ? 'meets' : 'misses'} ${most === undefined ? target : `${most} ms`}`
  return `${name}: ${ours.toFixed(1)} ms, ${against}: ${other.toFixed(1)} ms, ratio ${ratio}, ${low}-${high} (${aim})`
}

async function timeOf(work) {
  const begun = performance.now()
  await work()
  return performance.now() - begun
}

const pause = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds))

/* What the rows measure. The world of a row has a `folder`, which is that of the whole run, and `ends`, which are
 * called after it. */

const program = join(root, 'dist', 'pausebook.js')
const sample = (name) => join(root, 'sample-sessions', name)
const day = sample('track-and-cluster.txt')

/** Measures Node from its start to its end. */
const node =
  (...argv) =>
  () =>
    timeOf(() => execFileSync(process.execPath, argv, { maxBuffer: 1 << 26 }))

/** A logbook with a reopened session of 31 results. */
function openSession({ folder }) {
  const logbook = usedLogbook(join(folder, 'open-session'))
  const run = (...words) =>
    execFileSync(process.execPath, [program, ...words, '--logbook', logbook], { encoding: 'utf8' })
  if (!existsSync(join(logbook, 'sessions')))
    run('reopen', run('backfill', day, sample('track-and-cluster.results.txt')).trim())
  return logbook
}

/** A made-up logbook with this many sessions, with its index. */
async function madeUp({ folder }, sessions) {
  const directory = join(folder, `logbook-${sessions}`)
  const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
  if (!existsSync(directory)) writeMadeUpLogbook(directory, { seed: 1, sessions, last: '2026-11-25' })
  return directory
}

/** A session that is being recorded in a logbook. `save` adds one result and writes the file durably, like one key
 * press; `text` is what its file holds. */
async function recordingIn({ ends }, directory) {
  const { madeUpSessions } = await bundled('src/setup/madeUp/logbook.ts')
  const { openLogbook } = await bundled('src/logbook/store.ts')
  const [{ session }] = madeUpSessions({ seed: 2, sessions: 1, last: '2026-11-24' })
  const [start, ...events] = session.events
  const result = events.find(({ type }) => type === 'setRecorded' || type === 'pieceRecorded')
  const file = openLogbook(directory).create(session.prescription, { ...start, date: '2026-11-26' }, [])
  ends.push(() => file.discard())
  const save = () => {
    const outcome = file.append([result])
    if (!outcome.ok) throw new Error(outcome.reason)
  }
  return { save, text: () => readFileSync(file.path, 'utf8') }
}

/** The calls that a durable save cannot do without. */
function saveBare(path, text) {
  const file = openSync(`${path}.new`, 'w', 0o600)
  writeFileSync(file, text)
  fsyncSync(file)
  closeSync(file)
  renameSync(`${path}.new`, path)
  const folder = openSync(dirname(path), 'r')
  fsyncSync(folder)
  closeSync(folder)
}

/** Starts a program in a terminal, without this machine's settings. */
function opened({ folder, ends }, argv) {
  const env = plainEnvironment(folder)
  // It needs packages that may not be installed yet.
  const { openTerminal } = require('./pseudoTerminal.cjs')
  const terminal = openTerminal(argv, { columns: 80, rows: 24, env, patience: 20_000 })
  ends.push(terminal.close)
  return terminal
}

/** The smallest program drawn with Ink that has a clock and shows a key, bundled like ours. */
async function inkProgram({ folder }) {
  const outfile = join(folder, 'ink.mjs')
  const contents = `import { render, Text, useInput } from 'ink'
import { createElement, useEffect, useState } from 'react'
function Program() {
  const [key, setKey] = useState('')
  const [seconds, setSeconds] = useState(0)
  useInput(setKey)
  useEffect(() => {
    const timer = setInterval(() => setSeconds((before) => before + 1), 1000)
    return () => clearInterval(timer)
  }, [])
  return createElement(Text, null, 'clock ' + seconds + ' key ' + key)
}
render(createElement(Program))`
  const stdin = { contents, resolveDir: root, loader: 'js' }
  await require('esbuild').build({ ...bundling, stdin, outfile })
  return outfile
}

/** Measures how long it takes until the screen shows something. */
const firstFrame = (world, argv, typed, shown) => async () => {
  let terminal
  const time = await timeOf(() => {
    terminal = opened(world, argv)
    // Keys typed before the program reads wait for it.
    terminal.type(typed)
    return terminal.waitFor(shown)
  })
  await terminal.close()
  return time
}

/** The recorder in a rest of ten minutes after the first set, and next to it the Ink program.
 * @param name the logbook, a new one for each row */
async function inRest(world, name) {
  const file = join(world.folder, 'rest.txt')
  writeFileSync(file, 'Legs\n\nlift: legs\n  front squat: 20 x 3 @ 92.5 kg, rest 10:00\n')
  const ours = opened(world, [program, 'record', file, '--logbook', usedLogbook(join(world.folder, name))])
  for (const [typed, shown] of [
    ['', 'Space'],
    [' ', 'Space done'],
    [' ', '1 result'],
    ['\r', 'set 2 of 20'],
  ]) {
    ours.type(typed)
    await ours.waitFor(shown)
    // A second key too soon would count as the forgotten start of a set.
    if (shown === 'Space done') await pause(1500)
  }
  const other = opened(world, [await inkProgram(world)])
  await other.waitFor('key')
  return { ours, other }
}

/** Measures from a key until something comes back; each key at another time in the second, since the clock draws,
 * too. */
const keyTime =
  (terminal, ...keys) =>
  async (pair) => {
    await pause(57)
    const before = terminal.sent().length
    return timeOf(async () => {
      terminal.type(keys[pair % keys.length])
      while (terminal.sent().length === before) await new Promise((done) => setImmediate(done))
    })
  }

/** Measures the processor time of a process in ten seconds, on Linux, where a tick is 10 ms. */
const processorTime =
  ({ pid }) =>
  async () => {
    const used = () => {
      const [, rest] = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')
      const [user, system] = rest.split(' ').slice(11, 13)
      return (Number(user) + Number(system)) * 10
    }
    const before = used()
    await pause(10_000)
    return used() - before
  }

const printing = (name, words) => ({
  name: `${name}: start, print, end`,
  against: 'node -e 0',
  target: 2,
  pairs: 21,
  sides: (world) => ({ ours: node(program, ...words(world)), against: node('-e', '0') }),
})

/** A question about ten thousand sessions. @param reference returns, for a logbook, the words for node that answer
 * it */
const asking = (name, words, against, target, pairs, reference) => ({
  name: `${name}, 10 000 sessions`,
  against,
  target,
  pairs,
  sides: async (world) => {
    const directory = await madeUp(world, 10_000)
    return {
      ours: node(program, ...words, '--logbook', directory),
      against: node(...reference(directory)),
    }
  },
})

/** Reading only what a question needs. */
const parsing = (directory) => {
  const index = readdirSync(directory).find((file) => file.endsWith('.ndjson'))
  const parse =
    "for(const line of require('node:fs').readFileSync(process.argv[1],'utf8').split('\\n'))if(line!=='')JSON.parse(line)"
  return ['-e', parse, join(directory, index)]
}

const questions = [
  ['progress lift', ['progress', 'lift', 'front', 'squat'], 'lift'],
  ['progress run', ['progress', 'run'], 'run'],
  ['history', ['history'], 'history'],
].flatMap(([name, words, question]) => [
  asking(name, words, 'reading and parsing the index', 1.5, 15, parsing),
  asking(name, words, 'DuckDB over the session files', 1, 7, (directory) => [
    join(__dirname, 'duckdb.cjs'),
    question,
    directory,
  ]),
])

/* A row: its `name`, its reference `against`, the `target` of the ratio or the `most` milliseconds, the number of
 * `pairs` (default 15), `of`, the share of ours that must be below what is printed (default 0.5, the median), and
 * `sides(world)`, which returns `ours` and `against`: functions that return milliseconds, given the number of the
 * pair. */
const rows = [
  {
    name: 'first frame of the recorder, 31 results',
    against: 'first frame of a small Ink program',
    target: 1.5,
    sides: async (world) => ({
      ours: firstFrame(world, [program, '--logbook', openSession(world)], '\r', 'all recorded'),
      against: firstFrame(world, [await inkProgram(world)], '', 'key'),
    }),
  },
  printing('check', () => ['check', day]),
  printing('summary', (world) => ['summary', '--logbook', openSession(world)]),
  printing('plates', () => ['plates', '92.5']),
  ...questions,
  {
    name: 'one durable save among 10 000 sessions',
    against: 'the same among 10',
    target: 1.2,
    pairs: 40,
    sides: async (world) => {
      const many = await recordingIn(world, await madeUp(world, 10_000))
      const few = await recordingIn(world, await madeUp(world, 10))
      return { ours: () => timeOf(many.save), against: () => timeOf(few.save) }
    },
  },
  {
    name: 'one durable save',
    against: 'write, flush, rename, flush the folder',
    target: 1.5,
    pairs: 40,
    sides: async (world) => {
      const directory = await madeUp(world, 10)
      const { save, text } = await recordingIn(world, directory)
      const bare = () => {
        const before = text()
        return timeOf(() => saveBare(join(directory, 'bare'), before))
      }
      return { ours: () => timeOf(save), against: bare }
    },
  },
  {
    name: 'from a key to the screen, 95 of 100',
    against: 'a small Ink program that shows the key',
    most: 16,
    of: 0.95,
    pairs: 100,
    sides: async (world) => {
      const { ours, other } = await inRest(world, 'keys')
      // Keys that change the screen: a digit, and the digit deleted.
      return { ours: keyTime(ours, '9', '\x7f'), against: keyTime(other, '8', '9') }
    },
  },
  {
    name: 'processor time in ten seconds of a rest (Linux)',
    against: 'a small Ink program with a clock',
    most: 200,
    pairs: 2,
    sides: async (world) => {
      const { ours, other } = await inRest(world, 'rest')
      return { ours: processorTime(ours), against: processorTime(other) }
    },
  },
]

main(process.argv.slice(2)).catch((error) => {
  process.stderr.write(`pausebook: The benchmark failed: ${error.message}\n`)
  process.exitCode = 1
})
