const { mkdtempSync, rmSync, writeFileSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { join } = require('node:path')
const pty = require('@lydell/node-pty')
const { Terminal } = require('@xterm/headless')
const { plainEnvironment, root, usedLogbook, writeWhole } = require('./root.cjs')

/** Starts a program in a real pseudo-terminal read by a terminal emulator.
 * @param argv its words
 * @param given `columns`, `rows`, `env` (all of it), `cwd`, `command` (by default this Node), `patience`: the
 * milliseconds that a wait may take (by default it is endless) */
exports.openTerminal = openTerminal
function openTerminal(
  argv,
  { columns, rows, env, cwd = process.cwd(), command = process.execPath, patience },
) {
  const terminal = new Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 1000 })
  const child = pty.spawn(command, [...argv], { name: 'xterm-256color', cols: columns, rows, cwd, env })
  let sent = ''
  child.onData((data) => {
    sent += data
    terminal.write(data)
  })
  // The terminal answers what programs ask of it.
  terminal.onData((data) => child.write(data))
  let isRunning = true
  // The pty reports the exit after the end of the output, of which Node may lose all but one read. The emulator reads
  // the rest later.
  const exited = new Promise((done) => {
    child.onExit(({ exitCode, signal }) => {
      isRunning = false
      terminal.write('', () => done({ code: exitCode, signal: signal ?? 0 }))
    })
  })
  const screen = () => {
    const { active } = terminal.buffer
    return Array.from({ length: terminal.rows }, (_, row) =>
      (active.getLine(active.baseY + row)?.translateToString(true) ?? '').trimEnd(),
    )
  }
  const isOn = (what) => {
    if (typeof what === 'function') return what()
    const text = screen().join('\n')
    return typeof what === 'string' ? text.includes(what) : what.test(text)
  }
  let awaited = ''
  const until = (wanted) => (what) =>
    new Promise((done, fail) => {
      awaited = what
      const look = (last) => {
        const isAsWanted = isOn(what) === wanted
        if (!isAsWanted && last === undefined) return
        drawn.dispose()
        clearTimeout(timer)
        if (isAsWanted) return done()
        const how = wanted ? 'Not' : 'Still'
        fail(new Error(`${how} on the screen ${last}: ${what}\n${screen().join('\n')}`))
      }
      const drawn = terminal.onWriteParsed(() => look())
      const timer = patience && setTimeout(look, patience, `after ${patience} ms`)
      exited.then(() => look('when the program ended'))
      look()
    })
  const kill = (signal = 'SIGTERM') => {
    if (isRunning) process.kill(child.pid, signal)
  }
  return {
    pid: child.pid,
    terminal,
    sent: () => sent,
    exited,
    screen,
    /** Whether the screen shows a text, or a condition holds. */
    isOn,
    isOnAlternateScreen: () => terminal.buffer.active.type === 'alternate',
    type: (text) => child.write(text),
    resize: (width, height) => {
      terminal.resize(width, height)
      child.resize(width, height)
    },
    /** Waits until it is on the screen, looking after each output. Fails if the program ends or the time is up. */
    waitFor: until(true),
    waitForNo: until(false),
    /** What was waited for last. */
    awaited: () => awaited,
    kill,
    /** Closes the terminal under the program. */
    hangUp: () => child.destroy(),
    close: async () => {
      kill('SIGKILL')
      await exited
      terminal.dispose()
    },
  }
}

/* The program in such a terminal, with a clock that is set by hand. */

/** Starts `record` in the built program, in a real pseudo-terminal and a temporary folder, with a clock that is set
 * by hand, so that it draws the same screens whenever and wherever it runs.
 * @param text the day to record; @param size of the terminal: `columns` and `rows` */
exports.openStill = async function openStill(text, size) {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-still-'))
  const logbook = usedLogbook(join(folder, 'logbook'))
  const day = join(folder, 'day.txt')
  writeFileSync(day, text)
  const clock = createClock(join(folder, 'clock'), '2026-12-03T06:40:00+01:00')
  const hook = join(root, 'src', 'setup', 'clock.cjs')
  const program = openTerminal(['--require', hook, join(root, 'dist', 'pausebook.js'), 'record', day], {
    ...size,
    patience: 60_000,
    env: plainEnvironment(folder, { PAUSEBOOK_DIR: logbook, STILL_CLOCK: clock.file }),
  })
  await program.waitFor(/Space|>/)
  return {
    ...program,
    /** Lets seconds pass, types, and waits for the screen to show the text. */
    async step(seconds, typed, shown) {
      await whole(program)
      // Otherwise the wait ends at once, and the clock moves on before the program reads the key.
      if (typed !== '' && program.isOn(shown))
        throw new Error(`Already on the screen before "${typed}" is typed: ${shown}`)
      clock.pass(seconds)
      await type(program, typed)
      await program.waitFor(shown)
      if (typed === '') await looked(program)
      await whole(program)
    },
    whole: () => whole(program),
    close: async () => {
      await program.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Writes the file for clock.cjs, which never sees it half written. */
function createClock(file, start) {
  let now = Date.parse(start)
  const pass = (seconds) => {
    now += seconds * 1000
    writeWhole(file, new Date(now).toISOString())
  }
  pass(0)
  return { file, pass }
}
exports.createClock = createClock

/** Text is pasted, so that it arrives at once; Enter follows once the field shows it. */
async function type(program, typed) {
  if (typed.length < 2) return program.type(typed)
  const text = typed.replace('\r', '')
  program.type(`\x1b[200~${text}\x1b[201~`)
  await program.waitFor(`> ${text}`)
  if (text !== typed) program.type('\r')
}

/** Makes the program read its clock: types a letter without a command and deletes it. */
exports.looked = looked
async function looked(program) {
  program.type('z')
  await program.waitFor('> z')
  program.type('\x7f')
  await program.waitForNo('> z')
}

/** Waits for the complete last frame: each ends with the end of a synchronised update. */
async function whole(program) {
  while (!program.sent().replaceAll('\x07', '').endsWith('\x1b[?2026l'))
    await new Promise((done) => setTimeout(done, 5))
  await new Promise((done) => program.terminal.write('', done))
}
