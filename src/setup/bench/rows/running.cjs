const { mkdirSync, readdirSync, readFileSync, writeFileSync } = require('node:fs')
const { join } = require('node:path')
const { openTerminal } = require('../../pseudoTerminal.cjs')
const { inkProgram } = require('../inkPrograms.cjs')
const { environmentIn, program } = require('../program.cjs')

const size = { columns: 80, rows: 24 }
const pause = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds))
const notLinux = () => (process.platform === 'linux' ? null : 'it is read from /proc')

/** The recorder in a rest of ten minutes, behind the first set of a day.
 * @param before words of Node's before the program
 * @param more variables of its environment */
async function inRest(context, name, before = [], more = {}) {
  const logbook = join(context.folder, name)
  const day = join(context.folder, 'rest.txt')
  mkdirSync(logbook, { mode: 0o700, recursive: true })
  writeFileSync(join(logbook, 'settings.json'), '{"format":1,"firstStartSeen":true}', { mode: 0o600 })
  writeFileSync(day, 'Legs\n\nlift: legs\n  front squat: 20 x 3 @ 92.5 kg, rest 10:00\n')
  const argv = [...before, program, 'record', day, '--logbook', logbook]
  const terminal = openTerminal(argv, { ...size, env: { ...environmentIn(context), ...more } })
  await terminal.waitFor('Space', 20_000)
  terminal.type(' ')
  await terminal.waitFor('Space done', 20_000)
  await pause(1500)
  terminal.type(' ')
  await terminal.waitFor('1 result open', 20_000)
  terminal.type('\r')
  await terminal.waitFor('set 2 of 20', 20_000)
  return terminal
}

/** Time that the threads of a process have spent on a processor, in ms. */
function processorTimeOf(pid) {
  const threads = readdirSync(`/proc/${pid}/task`)
  const nanoseconds = threads.map((thread) =>
    Number(readFileSync(`/proc/${pid}/task/${thread}/schedstat`, 'utf8').split(' ')[0]),
  )
  return nanoseconds.reduce((sum, time) => sum + time, 0) / 1e6
}

/** What `memoryInUse.cjs` writes for a process, in MiB. */
async function memoryOf(pid, path) {
  writeFileSync(path, '')
  process.kill(pid, 'SIGUSR2')
  while (!readFileSync(path, 'utf8').endsWith('\n')) await pause(20)
  return Number(readFileSync(path, 'utf8'))
}

/** For each key the ms until something comes back; the value below which 95 of 100 lie. */
async function slowKeys(terminal, keys) {
  const times = []
  for (const key of keys) {
    const before = terminal.sent().length
    const begun = performance.now()
    terminal.type(key)
    while (terminal.sent().length === before) await new Promise((done) => setImmediate(done))
    times.push(performance.now() - begun)
    await pause(8)
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length * 0.95)]
}

exports.rows = [
  {
    name: 'processor time of a minute in a rest',
    against: 'a bundled Ink clock of one line',
    target: 1.2,
    skip: notLinux,
    async measure(context) {
      const ours = await inRest(context, 'rest')
      const clock = openTerminal([await inkProgram(context, 'clock')], {
        ...size,
        env: environmentIn(context),
      })
      const times = { ours: [], against: [] }
      try {
        await clock.waitFor('clock', 20_000)
        await pause(5000)
        for (let window = 0; window < 3; window += 1) {
          const before = [processorTimeOf(ours.pid), processorTimeOf(clock.pid)]
          await pause(20_000)
          times.ours.push((processorTimeOf(ours.pid) - before[0]) * 3)
          times.against.push((processorTimeOf(clock.pid) - before[1]) * 3)
        }
      } finally {
        await ours.close()
        await clock.close()
      }
      return { ours: { milliseconds: times.ours }, against: { milliseconds: times.against } }
    },
  },
  {
    name: 'from a key to the screen, 95 of 100',
    against: 'cat in the same terminal',
    target: null,
    async measure(context) {
      const ours = await inRest(context, 'keys')
      const script =
        "require('node:child_process').spawnSync('sh', ['-c', 'stty raw -echo; exec cat'], { stdio: 'inherit' })"
      const cat = openTerminal(['-e', script], { ...size, env: environmentIn(context) })
      const times = { ours: [], against: [] }
      try {
        await pause(1000)
        for (let round = 0; round < 5; round += 1) {
          // Two keys that are seen: a digit, and the digit taken back.
          times.ours.push(
            await slowKeys(
              ours,
              Array.from({ length: 40 }, (_, index) => (index % 2 ? '\x7f' : '9')),
            ),
          )
          times.against.push(
            await slowKeys(
              cat,
              Array.from({ length: 40 }, () => '9'),
            ),
          )
        }
      } finally {
        await ours.close()
        await cat.close()
      }
      return { ours: { milliseconds: times.ours }, against: { milliseconds: times.against } }
    },
  },
  {
    name: 'memory in use after an hour in a rest (MiB)',
    against: 'after ten minutes',
    target: 1.1,
    skip: () => (process.platform === 'win32' ? 'there is no signal to ask by' : null),
    async measure(context) {
      const path = join(context.folder, 'memory')
      const preloaded = ['fastClock.cjs', 'memoryInUse.cjs'].flatMap((name) => [
        '--require',
        join(__dirname, '..', name),
      ])
      const ours = await inRest(context, 'hour', ['--expose-gc', ...preloaded], {
        PAUSEBOOK_BENCH_MEMORY: path,
      })
      try {
        await pause(10_000)
        const tenMinutes = await memoryOf(ours.pid, path)
        await pause(50_000)
        const hour = await memoryOf(ours.pid, path)
        return { ours: { milliseconds: [hour] }, against: { milliseconds: [tenMinutes] } }
      } finally {
        await ours.close()
      }
    },
  },
]
