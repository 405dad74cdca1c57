const pty = require('@lydell/node-pty')
const { Terminal } = require('@xterm/headless')

/** Starts a Node program in a real pseudo-terminal read by a terminal emulator.
 * @param argv the program's file and its words
 * @param given `columns`, `rows`, `env` (all of it), `cwd`, `node` (another than this) */
exports.openTerminal = function openTerminal(
  argv,
  { columns, rows, env, cwd = process.cwd(), node = process.execPath },
) {
  const terminal = new Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 1000 })
  const child = pty.spawn(node, [...argv], {
    name: 'xterm-256color',
    cols: columns,
    rows,
    cwd,
    env,
  })
  let sent = ''
  child.onData((data) => {
    sent += data
    terminal.write(data)
  })
  // The terminal answers what programs ask of it.
  terminal.onData((data) => child.write(data))
  let isRunning = true
  const ended = new Promise((done) => {
    child.onExit(({ exitCode, signal }) => {
      isRunning = false
      done({ code: exitCode, signal: signal ?? 0 })
    })
  })
  // The pty reports the exit after the end of the output, of which Node may lose what is more than one read of it. The
  // emulator reads the last of it later.
  const exited = ended.then(async (how) => {
    await new Promise((done) => terminal.write('', done))
    return how
  })
  const screen = () => screenOf(terminal)
  const kill = (signal = 'SIGTERM') => {
    if (isRunning) process.kill(child.pid, signal)
  }
  return {
    pid: child.pid,
    terminal,
    sent: () => sent,
    exited,
    screen,
    isOnAlternateScreen: () => terminal.buffer.active.type === 'alternate',
    type: (text) => child.write(text),
    resize: (width, height) => {
      terminal.resize(width, height)
      child.resize(width, height)
    },
    waitFor: (what, milliseconds = 60_000) => until(what, true, terminal, exited, milliseconds),
    waitForNo: (what, milliseconds = 60_000) => until(what, false, terminal, exited, milliseconds),
    kill,
    close: async () => {
      kill('SIGKILL')
      await exited
      terminal.dispose()
    },
  }
}

function screenOf(terminal) {
  const buffer = terminal.buffer.active
  return Array.from({ length: terminal.rows }, (_, row) =>
    (buffer.getLine(buffer.baseY + row)?.translateToString(true) ?? '').trimEnd(),
  )
}

/** Waits for the emulator to show a text, or for a condition, which is looked at after each output. Fails if the program
 * ends before, or after this many milliseconds. */
function until(what, wanted, terminal, exited, milliseconds) {
  return new Promise((done, fail) => {
    const isShown = () => {
      if (typeof what === 'function') return what() === wanted
      const text = screenOf(terminal).join('\n')
      return (typeof what === 'string' ? text.includes(what) : what.test(text)) === wanted
    }
    const stop = () => {
      drawn.dispose()
      clearTimeout(timer)
    }
    const look = () => {
      if (!isShown()) return
      stop()
      done()
    }
    const giveUp = (when) => () => {
      stop()
      const how = wanted ? 'Not' : 'Still'
      fail(new Error(`${how} on the screen ${when}: ${what}\n${screenOf(terminal).join('\n')}`))
    }
    const drawn = terminal.onWriteParsed(look)
    const isLimited = Number.isFinite(milliseconds)
    const timer = isLimited ? setTimeout(giveUp(`after ${milliseconds} ms`), milliseconds) : undefined
    exited.then(() => (isShown() ? look() : giveUp('when the program ended')()))
    look()
  })
}
