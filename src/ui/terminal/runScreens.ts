import { constants } from 'node:os'
import { type Instance, render } from 'ink'
import type { ReactNode } from 'react'
import type { Key, KeyFeed } from '../widgets/keys.ts'
import {
  bell,
  canStop,
  clipboardSequence,
  endingSignals,
  enterScreen,
  leaveScreen,
  noticeSequence,
} from './capabilities.ts'
import { InkInput, InkOutput, inkBytesOf } from './inkStreams.ts'
import { Keyboard } from './keyboard.ts'

/** What a screen can do to the terminal without Ink. */
export interface ScreenTerminal {
  /** Rings at once, whatever is being drawn. */
  ring(): void
  /** Shows a desktop notification if the terminal supports it (OSC 9). */
  notify(text: string): void
  /** Puts text on the clipboard if the terminal allows it (OSC 52). */
  copy(text: string): void
  /** From now on, cut text is marked with ASCII characters only. */
  keepToAscii(): void
  /** Gives the terminal to another program, an editor, until `use` has ended, then redraws. */
  lend(use: () => Promise<void>): Promise<void>
  /** Ends the run with this exit status. */
  exit(status?: number): void
}

interface ScreenOptions {
  screens: (terminal: ScreenTerminal) => ReactNode
  /** Gets each key first; a key that no handler takes goes to the entry field. ctrl-c and ctrl-z never arrive here. */
  feed: KeyFeed
  /** Called around keys that arrive together. */
  together?: (apply: () => void) => void
  /** Called once before the terminal is restored, whatever ends the run: saves unsaved data. */
  leave: () => void
}

/** The process's terminal, or a test's. */
type TerminalStreams = Pick<NodeJS.Process, 'stdin' | 'stdout'>

/** Shows screens on the alternate screen of the process's terminal until one of them, a signal or an error
 * ends it. Restores the terminal afterwards. A screen's error rejects the promise.
 * @returns the exit status, 128 + n after signal n */
export function runScreens(given: ScreenOptions, streams: TerminalStreams = process): Promise<number> {
  return new Promise((resolve, reject) => {
    const input = new InkInput()
    const output = new InkOutput(streams.stdout)
    let app: Instance | null = null
    let isShown = false
    let isOver = false
    let isLent = false

    const show = () => {
      isShown = true
      streams.stdout.write(enterScreen)
      keyboard.open()
      output.open()
    }
    const hide = () => {
      if (!isShown) return
      isShown = false
      output.close()
      keyboard.close()
      streams.stdout.write(leaveScreen)
    }
    const end = (settle: () => void) => {
      if (isOver) return
      isOver = true
      try {
        given.leave()
      } finally {
        hide()
        // After an error Ink has already unmounted, and the rendering after the key mounted everything again.
        app?.rerender(null)
        app?.unmount()
        settle()
        // In a later turn: Ink's listener for the same signal runs after ours, and ends the process if it is the only
        // one left.
        setImmediate(() => {
          for (const [event, listener] of listeners) process.off(event, listener)
          streams.stdout.off('resize', resized)
        })
      }
    }
    const endBySignal = (signal: NodeJS.Signals) => end(() => resolve(128 + constants.signals[signal]))
    const fail = (error: unknown) => end(() => reject(error))

    /** Restores the terminal and stops the whole job, as a shell expects. Without a shell the
     * system ignores the signal, and the timer (which does not run while stopped) shows the screens again. */
    const stop = () => {
      hide()
      process.off('SIGTSTP', stop)
      process.kill(0, 'SIGTSTP')
      setTimeout(goOn, 20)
    }
    const goOn = () => {
      if (isShown || isOver || isLent) return
      process.on('SIGTSTP', stop)
      show()
    }
    /** The other program gets the keys that end or stop a program, and this process receives their signals too. */
    const lend = async (use: () => Promise<void>) => {
      hide()
      isLent = true
      const own = listeners.filter(([event]) => event === 'SIGINT' || event === 'SIGTSTP')
      for (const [event, listener] of own) process.off(event, listener)
      try {
        await use()
      } finally {
        isLent = false
        if (!isOver) {
          for (const [event, listener] of own) process.on(event, listener)
          show()
        }
      }
    }
    const resized = () => output.resized()
    /** The terminal was closed: SIGHUP ends the run. */
    const lost = (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EIO') fail(error)
    }

    /** Text for the field that arrives after other text: it goes there at once, together with what follows. */
    let typing = ''
    /** Rendering makes React finish what a key began. The effects of the rendering itself wait for the next one. */
    const draw = () => {
      if (!isOver) app?.rerender(tree)
    }
    let isBehind = false
    /** The field's handler is bound in an effect: it must see the values of the last key. */
    const give = (bytes: string | null) => {
      if (bytes === null) return
      if (isBehind) draw()
      input.give(bytes)
      draw()
      draw()
      isBehind = false
    }
    const flush = () => {
      const text = typing
      typing = ''
      if (text === '') return
      give(text)
    }
    /** @returns whether the key is text for the field */
    const press = (key: Key, isAfterText: boolean): boolean => {
      if (key.kind !== 'text') flush()
      if (key.kind === 'named' && key.name === 'ctrl+c') endBySignal('SIGINT')
      else if (key.kind === 'named' && key.name === 'ctrl+z' && canStop()) stop()
      else {
        const isTaken = given.feed.press(key)
        if (isTaken) {
          flush()
          draw()
          isBehind = true
        } else if (key.kind === 'text' && isAfterText) {
          typing += key.text
          return true
        } else give(inkBytesOf(key))
        return key.kind === 'text' && !isTaken
      }
      return false
    }
    const keyboard = new Keyboard(streams.stdin, (keys) => {
      const apply = () => {
        let isAfterText = false
        for (const key of keys) if (!isOver && isShown) isAfterText = press(key, isAfterText)
        if (!isOver && isShown) flush()
      }
      if (given.together) given.together(apply)
      else apply()
      output.draw()
    })
    const terminal: ScreenTerminal = {
      ring: () => void streams.stdout.write(bell),
      notify: (text) => void streams.stdout.write(noticeSequence(text)),
      copy: (text) => void streams.stdout.write(clipboardSequence(text)),
      keepToAscii: () => output.keepToAscii(),
      lend,
      exit: (status = 0) => end(() => resolve(status)),
    }
    const listeners: [string, (error: unknown) => void][] = [
      ...endingSignals().map((signal): [string, () => void] => [signal, () => endBySignal(signal)]),
      ['SIGTSTP', stop],
      ['SIGCONT', goOn],
      ['uncaughtException', fail],
      ['unhandledRejection', fail],
      ['exit', hide],
    ]
    for (const [event, listener] of listeners) process.on(event, listener)
    streams.stdout.on('resize', resized)
    streams.stdout.on('error', lost)

    const tree = given.screens(terminal)
    app = render(tree, {
      stdin: input as unknown as NodeJS.ReadStream,
      stdout: output as unknown as NodeJS.WriteStream,
      // Ink writes whole frames without throttling; InkOutput draws the changes.
      debug: true,
      exitOnCtrlC: false,
      patchConsole: false,
    })
    app.waitUntilExit().then(() => end(() => resolve(0)), fail)
    show()
  })
}
