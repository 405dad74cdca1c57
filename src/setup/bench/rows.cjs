const { execFileSync } = require('node:child_process')
const { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } = require('node:fs')
const { join } = require('node:path')
const { bundling } = require('../build.cjs')
const { bundled } = require('../generate.cjs')
const { openTerminal } = require('../pseudoTerminal.cjs')
const { root } = require('../root.cjs')

/* A row: its `name`, its reference `against`, the `target` of the ratio (or null), the number of `pairs` (default 15), and
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

/** The recorder in a rest of ten minutes after the first set. */
async function inRest(context) {
  const file = join(context.folder, 'rest.txt')
  writeFileSync(file, 'Legs\n\nlift: legs\n  front squat: 20 x 3 @ 92.5 kg, rest 10:00\n')
  const terminal = opened(context, [
    program,
    'record',
    file,
    '--logbook',
    logbookIn(context, 'rest', () => {}),
  ])
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
        against: [join(__dirname, 'duckdb.cjs'), question, directory],
      }
    },
  },
]

exports.rows = [
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
  ...asking('history', ['history'], 'history'),
  {
    name: 'one durable save among 10 000 sessions',
    against: 'the same among 10',
    target: 1.2,
    async measure(context) {
      const { recordingIn } = await bundled('src/setup/bench/saving.ts')
      const { Bench } = await import('tinybench')
      const many = recordingIn(await madeUp(context, 10_000))
      const few = recordingIn(await madeUp(context, 10))
      try {
        // In turns, because the file grows with each save.
        const times = { ours: [], against: [] }
        for (let pair = 0; pair <= 40; pair += 1) {
          const bench = new Bench({ time: 0, iterations: 1, warmup: false, retainSamples: true })
          await bench.add('ours', many.save).add('against', few.save).run()
          if (pair > 0)
            for (const { name, result } of bench.tasks) times[name].push(result.latency.samples[0])
        }
        return times
      } finally {
        many.close()
        few.close()
      }
    },
  },
  {
    name: 'processor time in ten seconds of a rest (Linux)',
    against: 'an Ink clock of one line',
    target: null,
    async measure(context) {
      const ours = await inRest(context)
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
