// npm run bench: measures each row next to its reference, alternating within one run, because times of two runs cannot
// be compared. Words after -- select rows by name.
const { execFileSync, spawnSync } = require('node:child_process')
const {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
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
const { build, bundling } = require('./build.cjs')
const { bundled } = require('./generate.cjs')
const { install } = require('./install.cjs')
const { root } = require('./root.cjs')

async function main(words) {
  install({ checks: true })
  await build()
  const folder = mkdtempSync(join(os.tmpdir(), 'pausebook-bench-'))
  try {
    const context = { folder }
    const wanted = rows.filter(({ name }) => words.length === 0 || words.some((word) => name.includes(word)))
    const [{ model }] = os.cpus()
    console.log(`${os.cpus().length} x ${model}, ${os.type()}, Node ${process.versions.node}\n`)
    for (const row of wanted) console.log(lineOf(row, await measured(row, context)))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Milliseconds of both, pair by pair. The first pair only fills the caches; the two take turns to go first. */
async function measured({ pairs = 15, measure }, context) {
  const { ours, against } = await measure(context)
  if (typeof ours[0] === 'number') return { ours, against }
  const times = { ours: [], against: [] }
  for (let pair = 0; pair <= pairs; pair += 1) {
    const order = pair % 2 === 0 ? ['ours', 'against'] : ['against', 'ours']
    for (const which of order) {
      const time = millisecondsOf(which === 'ours' ? ours : against)
      if (pair > 0) times[which].push(time)
    }
  }
  return times
}

function millisecondsOf(argv) {
  const begun = performance.now()
  const ran = spawnSync(process.execPath, argv, { maxBuffer: 1 << 26, encoding: 'utf8' })
  const time = performance.now() - begun
  if (ran.status === 0) return time
  throw new Error(`${argv.join(' ')} ended with ${ran.status ?? ran.signal}: ${ran.stderr}`)
}

/** Both times, the median ratio with its quartiles, and the aim. */
function lineOf({ name, against, target, most, of = 0.5 }, times) {
  const ratios = times.ours.map((time, index) => time / times.against[index])
  const [ours, other] = [times.ours, times.against].map((values) => quantile(values, of))
  const ratio = quantile(ratios, 0.5)
  const aim =
    most === undefined
      ? ` (${ratio <= target ? 'meets' : 'misses'} ${target})`
      : ` (${ours <= most ? 'meets' : 'misses'} ${most} ms)`
  const spread = `${quantile(ratios, 0.25).toFixed(2)}-${quantile(ratios, 0.75).toFixed(2)}`
  return `${name}: ${ours.toFixed(1)} ms, ${against}: ${other.toFixed(1)} ms, ratio ${ratio.toFixed(2)}, ${spread}${aim}`
}

/** Interpolates between the two nearest values. */
function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b)
  const place = (sorted.length - 1) * share
  const below = Math.floor(place)
  const above = Math.min(sorted.length - 1, below + 1)
  return sorted[below] + (sorted[above] - sorted[below]) * (place - below)
}

/* A row: its `name`, its reference `against`, the `target` of the ratio or the `most` milliseconds, the number of
 * `pairs` (default 15), `of`, the share of ours that must be below what is printed (default 0.5, the median), and
 * `measure(context)`, which returns `ours` and `against`: either arguments for node, to be run in turns, or lists of
 * milliseconds, pair by pair. */

const program = join(root, 'dist', 'pausebook.js')
const sample = (name) => join(root, 'sample-sessions', name)
const day = sample('track-and-cluster.txt')
const pause = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds))

/** A logbook in this run's folder, made once. */
function logbookIn(context, name, fill) {
  const logbook = join(context.folder, name)
  if (existsSync(logbook)) return logbook
  mkdirSync(logbook, { mode: 0o700 })
  writeFileSync(join(logbook, 'settings.json'), '{"format":1,"firstStartSeen":true}', { mode: 0o600 })
  fill((...words) =>
    execFileSync(process.execPath, [program, ...words, '--logbook', logbook], { encoding: 'utf8' }),
  )
  return logbook
}

/** A logbook with a reopened session of 31 results. */
function openSession(context) {
  return logbookIn(context, 'open-session', (run) => {
    run('reopen', run('backfill', day, sample('track-and-cluster.results.txt')).trim())
  })
}

/** A made-up logbook with this many sessions, with its index. */
async function madeUp(context, sessions) {
  const directory = join(context.folder, `logbook-${sessions}`)
  if (!existsSync(directory)) {
    const { writeMadeUpLogbook } = await bundled('src/setup/madeUp/logbook.ts')
    writeMadeUpLogbook(directory, { seed: 1, sessions, last: '2026-11-25' })
  }
  return directory
}

/** The smallest program drawn with Ink, bundled like ours. */
async function inkProgram(context, name, contents) {
  const outfile = join(context.folder, `${name}.mjs`)
  await require('esbuild').build({
    ...bundling,
    stdin: { contents, resolveDir: root, loader: 'js' },
    outfile,
  })
  return outfile
}

const hello = `import { render, Text } from 'ink'
import { createElement } from 'react'
render(createElement(Text, null, 'hello'))
setInterval(() => {}, 1e6)`

const echo = `import { render, Text, useInput } from 'ink'
import { createElement, useState } from 'react'
function Echo() {
  const [key, setKey] = useState('')
  useInput(setKey)
  return createElement(Text, null, 'key ' + key)
}
render(createElement(Echo))`

const clock = `import { render, Text } from 'ink'
import { createElement, useEffect, useState } from 'react'
function Clock() {
  const [seconds, setSeconds] = useState(0)
  useEffect(() => {
    const timer = setInterval(() => setSeconds((before) => before + 1), 1000)
    return () => clearInterval(timer)
  }, [])
  return createElement(Text, null, 'clock ' + seconds)
}
render(createElement(Clock))`

/** In a terminal, without this machine's settings. */
function opened(context, argv) {
  const env = { PATH: process.env.PATH, HOME: context.folder, TERM: 'xterm-256color', LANG: 'C.UTF-8' }
  // It needs packages that may not be installed yet.
  const { openTerminal } = require('./pseudoTerminal.cjs')
  return openTerminal(argv, { columns: 80, rows: 24, env })
}

/** Milliseconds until the screen shows something. */
async function firstFrame(context, argv, typed, shown) {
  const begun = performance.now()
  const terminal = opened(context, argv)
  try {
    // Keys typed before the program reads wait for it.
    terminal.type(typed)
    await terminal.waitFor(shown, 20_000)
    return performance.now() - begun
  } finally {
    await terminal.close()
  }
}

/** Milliseconds of processor time of a process, on Linux, where a tick is 10 ms. */
function processorTimeOf(pid) {
  const [, rest] = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')
  const [user, system] = rest.split(' ').slice(11, 13)
  return (Number(user) + Number(system)) * 10
}

/** Milliseconds from each key until something comes back. */
async function keyTimes(terminal, keys) {
  const times = []
  for (const key of keys) {
    const before = terminal.sent().length
    const begun = performance.now()
    terminal.type(key)
    while (terminal.sent().length === before) await new Promise((done) => setImmediate(done))
    times.push(performance.now() - begun)
    // Another time in the second for each key, since the clock draws too.
    await pause(57)
  }
  return times
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

/** Both in turns, because the file of a session grows with each save.
 * @param prepare called before each pair */
async function inTurns(ours, against, prepare = () => {}) {
  const { Bench } = await import('tinybench')
  const times = { ours: [], against: [] }
  for (let pair = 0; pair <= 40; pair += 1) {
    prepare()
    const bench = new Bench({ time: 0, iterations: 1, warmup: false, retainSamples: true })
    await bench.add('ours', ours).add('against', against).run()
    if (pair > 0) for (const { name, result } of bench.tasks) times[name].push(result.latency.samples[0])
  }
  return times
}

/** The recorder in a rest of ten minutes after the first set.
 * @param name the logbook, a new one for each row */
async function inRest(context, name) {
  const file = join(context.folder, 'rest.txt')
  writeFileSync(file, 'Legs\n\nlift: legs\n  front squat: 20 x 3 @ 92.5 kg, rest 10:00\n')
  const terminal = opened(context, [program, 'record', file, '--logbook', logbookIn(context, name, () => {})])
  for (const [typed, shown] of [
    ['', 'Space'],
    [' ', 'Space done'],
    [' ', '1 result'],
    ['\r', 'set 2 of 20'],
  ]) {
    terminal.type(typed)
    await terminal.waitFor(shown, 20_000)
    // A second key too soon would be the forgotten start of a set.
    if (shown === 'Space done') await pause(1500)
  }
  return terminal
}

const printing = (name, words) => ({
  name: `${name}: start, print, end`,
  against: 'node -e 0',
  target: 2,
  pairs: 21,
  measure: async (context) => ({ ours: [program, ...words(context)], against: ['-e', '0'] }),
})

const parseIndex =
  "for(const line of require('node:fs').readFileSync(process.argv[1],'utf8').split('\\n'))if(line!=='')JSON.parse(line)"

/** A question to ten thousand sessions, next to reading only what it needs, and next to DuckDB. */
const asking = (name, words, question) => [
  {
    name: `${name}, 10 000 sessions`,
    against: 'reading and parsing the index',
    target: 1.5,
    measure: async (context) => {
      const directory = await madeUp(context, 10_000)
      const index = readdirSync(directory).find((file) => file.endsWith('.ndjson'))
      return {
        ours: [program, ...words, '--logbook', directory],
        against: ['-e', parseIndex, join(directory, index)],
      }
    },
  },
  {
    name: `${name}, 10 000 sessions`,
    against: 'DuckDB over the session files',
    target: 1,
    pairs: 7,
    measure: async (context) => {
      const directory = await madeUp(context, 10_000)
      return {
        ours: [program, ...words, '--logbook', directory],
        against: [join(__dirname, 'bench', 'duckdb.cjs'), question, directory],
      }
    },
  },
]

const rows = [
  {
    name: 'first frame of the recorder, 31 results',
    against: 'first frame of a bundled Ink hello',
    target: 1.5,
    async measure(context) {
      const logbook = openSession(context)
      const other = await inkProgram(context, 'hello', hello)
      const times = { ours: [], against: [] }
      for (let pair = 0; pair <= 15; pair += 1) {
        const ours = await firstFrame(context, [program, '--logbook', logbook], '\r', 'all recorded')
        const against = await firstFrame(context, [other], '', 'hello')
        if (pair === 0) continue
        times.ours.push(ours)
        times.against.push(against)
      }
      return times
    },
  },
  printing('check', () => ['check', day]),
  printing('summary', (context) => ['summary', '--logbook', openSession(context)]),
  printing('plates', () => ['plates', '92.5']),
  ...asking('progress lift', ['progress', 'lift', 'front', 'squat'], 'lift'),
  ...asking('progress run', ['progress', 'run'], 'run'),
  ...asking('history', ['history'], 'history'),
  {
    name: 'one durable save among 10 000 sessions',
    against: 'the same among 10',
    target: 1.2,
    async measure(context) {
      const { recordingIn } = await bundled('src/setup/bench/saving.ts')
      const many = recordingIn(await madeUp(context, 10_000))
      const few = recordingIn(await madeUp(context, 10))
      try {
        return await inTurns(many.save, few.save)
      } finally {
        many.close()
        few.close()
      }
    },
  },
  {
    name: 'one durable save',
    against: 'write, flush, rename, flush the folder',
    target: 1.5,
    async measure(context) {
      const { recordingIn } = await bundled('src/setup/bench/saving.ts')
      const directory = await madeUp(context, 10)
      const recording = recordingIn(directory)
      let text = ''
      try {
        return await inTurns(
          recording.save,
          () => saveBare(join(directory, 'bare'), text),
          () => {
            text = recording.text()
          },
        )
      } finally {
        recording.close()
      }
    },
  },
  {
    name: 'from a key to the screen, 95 of 100',
    against: 'an Ink program that shows the key',
    most: 16,
    of: 0.95,
    async measure(context) {
      const ours = await inRest(context, 'keys')
      const other = opened(context, [await inkProgram(context, 'echo', echo)])
      try {
        await other.waitFor('key', 20_000)
        // Keys that change the screen: a digit, and the digit deleted.
        const keys = (first, second) =>
          Array.from({ length: 100 }, (_, index) => (index % 2 === 0 ? first : second))
        return {
          ours: await keyTimes(ours, keys('9', '\x7f')),
          against: await keyTimes(other, keys('8', '9')),
        }
      } finally {
        await ours.close()
        await other.close()
      }
    },
  },
  {
    name: 'processor time in ten seconds of a rest (Linux)',
    against: 'an Ink clock of one line',
    most: 200,
    async measure(context) {
      const ours = await inRest(context, 'rest')
      const other = opened(context, [await inkProgram(context, 'clock', clock)])
      const times = { ours: [], against: [] }
      try {
        await other.waitFor('clock', 20_000)
        await pause(5000)
        for (let window = 0; window < 3; window += 1) {
          const before = [ours, other].map(({ pid }) => processorTimeOf(pid))
          await pause(10_000)
          times.ours.push(processorTimeOf(ours.pid) - before[0])
          times.against.push(processorTimeOf(other.pid) - before[1])
        }
      } finally {
        await ours.close()
        await other.close()
      }
      return times
    },
  },
]

main(process.argv.slice(2)).catch((error) => {
  process.stderr.write(`pausebook: The benchmark failed: ${error.message}\n`)
  process.exitCode = 1
})
