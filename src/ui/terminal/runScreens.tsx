import { constants } from 'node:os'
import { type Instance, render } from 'ink'
import { Component, Fragment, type ReactElement, type ReactNode } from 'react'
import { createKeyFeed, type Key, KeyFeedContext, nameOf } from '../widgets/keys.ts'
import {
  bell,
  clipboardSequence,
  endingSignals,
  enterScreen,
  leaveScreen,
  noticeSequence,
} from './capabilities.ts'
import { InkInput, InkOutput, inkBytesOf } from './inkStreams.ts'
import { isInterrupt, Keyboard } from './keyboard.ts'

/** What a screen can do to the terminal. */
export interface ScreenTerminal {
  /** Shows a screen in place of the one before, with fresh state each time. */
  show(screen: ReactElement): void
  /** Rings at once, whatever is being drawn. */
  ring(): void
  /** Shows a desktop notification if the terminal supports it (OSC 9). */
  notify(text: string): void
  /** Puts text on the clipboard if the terminal allows it (OSC 52). */
  copy(text: string): void
  /** Gives the terminal to another program, an editor, until `use` has ended, then redraws. */
  lend(use: () => Promise<void>): Promise<void>
  /** Ends the run with this exit status. */
  exit(status?: number): void
}

interface ScreenOptions {
  /** False draws with ASCII characters only. */
  isUnicode: boolean
  /** Shows the first screen. */
  start: (terminal: ScreenTerminal) => void
  /** Called around keys that arrive together. */
  together?: (apply: () => void) => void
  /** Called once before the terminal is restored, whatever ends the run: saves unsaved data. */
  leave: () => void
}

/** Shows nothing once a screen has failed. Ink would show the source beside the error: the one long line of a minified
 * file, which takes it a minute. */
class ErrorBoundary extends Component<{ onError: (error: unknown) => void; children?: ReactNode }> {
  static getDerivedStateFromError = () => ({ hasFailed: true })
  override state = { hasFailed: false }

  override componentDidCatch(error: unknown): void {
    this.props.onError(error)
  }

  override render(): ReactNode {
    return this.state.hasFailed ? null : this.props.children
  }
}

/** The process's terminal, or a test's. */
type TerminalStreams = Pick<NodeJS.Process, 'stdin' | 'stdout'>

/** Shows screens on the alternate screen of the process's terminal until one of them, a signal or an error
 * ends it. Restores the terminal afterwards. A screen's error rejects the promise.
 * @returns the exit status, 128 + n after signal n */
export function runScreens(options: ScreenOptions, streams: TerminalStreams = process): Promise<number> {
  return new Promise((resolve, reject) => new ScreenRun(options, streams, resolve, reject).open())
}

/** The terminal from the first frame to the last, and what happens to it in between. */
class ScreenRun implements ScreenTerminal {
  readonly #options: ScreenOptions
  readonly #stdout: TerminalStreams['stdout']
  readonly #resolve: (status: number) => void
  readonly #reject: (error: unknown) => void
  readonly #input = new InkInput()
  readonly #output: InkOutput
  readonly #keyboard: Keyboard
  /** Gets each key before the entry field, except ctrl-c and ctrl-z. */
  readonly #feed = createKeyFeed()
  #tree: ReactNode = null
  #showings = 0
  #app: Instance | null = null
  #isShown = false
  #isLent = false
  #isOver = false

  constructor(
    options: ScreenOptions,
    { stdin, stdout }: TerminalStreams,
    resolve: (status: number) => void,
    reject: (error: unknown) => void,
  ) {
    this.#options = options
    this.#stdout = stdout
    this.#resolve = resolve
    this.#reject = reject
    this.#output = new InkOutput(stdout, options.isUnicode)
    this.#keyboard = new Keyboard(stdin, (keys) => this.#press(keys))
  }

  // -- open and draw

  open(): void {
    this.#options.start(this)
    for (const [event, listener] of this.#listeners) process.on(event, listener)
    this.#stdout.on('resize', this.#resized)
    this.#stdout.on('error', this.#lost)
    this.#app = render(this.#tree, {
      stdin: this.#input as unknown as NodeJS.ReadStream,
      stdout: this.#output as unknown as NodeJS.WriteStream,
      // Ink writes whole frames without throttling; InkOutput draws the changes.
      debug: true,
      exitOnCtrlC: false,
      patchConsole: false,
    })
    this.#app.waitUntilExit().then(() => this.exit(), this.#fail)
    this.#enter()
  }

  show(screen: ReactElement): void {
    this.#showings += 1
    this.#tree = (
      <ErrorBoundary onError={(error) => queueMicrotask(() => this.#fail(error))}>
        <KeyFeedContext value={this.#feed}>
          <Fragment key={this.#showings}>{screen}</Fragment>
        </KeyFeedContext>
      </ErrorBoundary>
    )
    this.#draw()
  }

  #enter(): void {
    this.#isShown = true
    this.#stdout.write(enterScreen)
    this.#keyboard.open()
    this.#output.open()
  }

  readonly #restore = (): void => {
    if (!this.#isShown) return
    this.#isShown = false
    this.#output.close()
    this.#keyboard.close()
    this.#stdout.write(leaveScreen)
  }

  readonly #resized = (): void => this.#output.resized()

  ring(): void {
    this.#stdout.write(bell)
  }

  notify(text: string): void {
    this.#stdout.write(noticeSequence(text))
  }

  copy(text: string): void {
    this.#stdout.write(clipboardSequence(text))
  }

  // -- read keys

  #press(keys: readonly Key[]): void {
    const apply = () => {
      for (const key of keys) if (this.#isShown) this.#pressOne(key)
    }
    const { together = () => apply() } = this.#options
    together(apply)
    this.#output.draw()
  }

  #pressOne(key: Key): void {
    // Windows has no signal that stops a program.
    const canStop = process.platform !== 'win32'
    if (isInterrupt(key)) this.#endBySignal('SIGINT')
    else if (nameOf(key) === 'ctrl+z' && canStop) this.#stop()
    else {
      const bytes = this.#feed.press(key) ? null : inkBytesOf(key)
      if (bytes) this.#input.give(bytes)
      this.#draw()
    }
  }

  /** Makes React finish what a key began, effects included: the next key finds the field as this one left it. */
  #draw(): void {
    if (!this.#isOver) this.#app?.rerender(this.#tree)
  }

  // -- stop and continue

  /** Restores the terminal and stops the whole job, as a shell expects. Without a shell the
   * system ignores the signal, and the timer (which does not run while stopped) shows the screens again. */
  readonly #stop = (): void => {
    this.#restore()
    process.off('SIGTSTP', this.#stop)
    process.kill(0, 'SIGTSTP')
    setTimeout(this.#goOn, 20)
  }

  readonly #goOn = (): void => {
    if (this.#isShown || this.#isOver || this.#isLent) return
    process.on('SIGTSTP', this.#stop)
    this.#enter()
  }

  /** The other program gets the keys that end or stop a program, and this process receives their signals too. */
  async lend(use: () => Promise<void>): Promise<void> {
    this.#restore()
    this.#isLent = true
    const jobListeners = this.#listeners.filter(([event]) => event === 'SIGINT' || event === 'SIGTSTP')
    for (const [event, listener] of jobListeners) process.off(event, listener)
    try {
      await use()
    } finally {
      this.#isLent = false
      if (!this.#isOver) {
        for (const [event, listener] of jobListeners) process.on(event, listener)
        this.#enter()
      }
    }
  }

  // -- close

  exit(status = 0): void {
    this.#end(() => this.#resolve(status))
  }

  #endBySignal(signal: NodeJS.Signals): void {
    this.exit(128 + constants.signals[signal])
  }

  readonly #fail = (error: unknown): void => this.#end(() => this.#reject(error))

  /** The terminal was closed: SIGHUP ends the run. */
  readonly #lost = (error: NodeJS.ErrnoException): void => {
    if (error.code !== 'EIO') this.#fail(error)
  }

  #end(settle: () => void): void {
    if (this.#isOver) return
    this.#isOver = true
    try {
      this.#options.leave()
    } finally {
      this.#restore()
      this.#app?.unmount()
      settle()
      // In a later turn: Ink's listener for the same signal runs after ours, and ends the process if it is the only
      // one left.
      setImmediate(() => {
        for (const [event, listener] of this.#listeners) process.off(event, listener)
        this.#stdout.off('resize', this.#resized)
      })
    }
  }

  readonly #listeners: readonly [string, (error: unknown) => void][] = [
    ...endingSignals().map((signal): [string, () => void] => [signal, () => this.#endBySignal(signal)]),
    ['SIGTSTP', this.#stop],
    ['SIGCONT', this.#goOn],
    ['uncaughtException', this.#fail],
    ['unhandledRejection', this.#fail],
    ['exit', this.#restore],
  ]
}
