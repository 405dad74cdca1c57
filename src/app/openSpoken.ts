import { constants } from 'node:os'
import { createInterface } from 'node:readline'
import { milestoneBetween } from '../recorder/clockText.ts'
import { isUndecided, keptBy } from '../recorder/spelling.ts'
import type { RecorderStore } from '../recorder/store.ts'
import { type RecorderView, spokenLines, viewOf } from '../recorder/view.ts'
import { bell, clipboardSequence, endingSignals, noticeSequence } from '../ui/terminal/capabilities.ts'
import { isInterrupt, Keyboard } from '../ui/terminal/keyboard.ts'
import type { Key } from '../ui/widgets/keys.ts'
import { keepTicking } from '../ui/widgets/ticking.ts'
import { characterAt } from '../ui/widgets/wrapped.ts'
import { App } from './app.ts'
import type { Opening } from './screens.ts'
import { Speech } from './speech.ts'

/* The app for a screen reader: it draws nothing. It prints the lines of each screen and takes its keys as lines; of a
 * recorder it prints each change. */

/** Prints what changes in a recorder, and echoes what is typed; lines do not run into the echo. */
export function speakerOf(store: RecorderStore, { write, steer }: Pick<SpokenOptions, 'write' | 'steer'>) {
  let echoed = ''
  const say = (line: string) => {
    write(`${echoed === '' ? '' : '\n'}${line}\n`)
    echoed = ''
  }
  const echo = () => {
    const { draft } = store.get()
    if (draft.startsWith(echoed)) write(draft.slice(echoed.length))
    else if (echoed.startsWith(draft)) steer('\b \b'.repeat(echoed.length - draft.length))
    else write(`\n${draft}`)
    echoed = draft
  }
  let before: RecorderView | null = null
  let looked = store.get().now
  let isArriving = false
  const speak = () => {
    if (isArriving) return
    const model = store.get()
    const milestone = milestoneBetween(model.state, looked, model.now)
    looked = model.now
    if (milestone !== null) say(milestone)
    // Print what a letter did once it is clear that it does not begin a word.
    if (isUndecided(model)) return
    const view = viewOf(model)
    for (const line of spokenLines(before, view)) say(line)
    before = view
    echo()
  }
  /** Keys that arrived together are announced together. */
  const take = (keys: readonly Key[]) => {
    isArriving = true
    store.together(() => {
      for (const key of keys) {
        if (key.kind === 'named' && key.name === 'enter') echo()
        press(store, key)
      }
    })
    isArriving = false
    speak()
  }
  return { speak, take }
}

/** Announces a recorder's changes until it is left or its session is finished.
 * @param stop resolves when the recorder is left */
async function speakRecorder(
  store: RecorderStore,
  { interrupt, ...terminal }: Pick<SpokenOptions, 'write' | 'steer'> & { interrupt: () => void },
  stop: Promise<unknown>,
): Promise<void> {
  const { speak, take } = speakerOf(store, terminal)
  const keyboard = new Keyboard(process.stdin, (keys) => {
    take(keys.filter((key) => !isInterrupt(key)))
    if (keys.some(isInterrupt)) interrupt()
  })
  const unsubscribe = store.subscribe(speak)
  keyboard.open()
  speak()
  const stopTicking = keepTicking(store)
  try {
    await stop
  } finally {
    stopTicking()
    unsubscribe()
    keyboard.close()
  }
}

/** Edits the field, only at its end, with the keys that the recorder does not take. */
function press(store: RecorderStore, key: Key): void {
  if (store.press(key)) return
  const { draft } = store.get()
  if (key.kind !== 'named') store.typed(draft + key.text)
  else {
    const kept =
      key.name === 'backspace'
        ? draft.slice(0, characterAt(draft, draft.length - 1).from)
        : keptBy(key.name, draft)
    if (kept !== null) store.typed(kept)
  }
}

/** Waits for a line on standard input; null at the end of input, or once the app is left. */
async function askLine(left: Promise<unknown>): Promise<string | null> {
  if (process.stdin.readableEnded) return null
  const lines = createInterface({ input: process.stdin })
  const line = new Promise<string | null>((resolve) => {
    lines.once('line', (text) => resolve(text.trim()))
    lines.once('close', () => resolve(null))
  })
  const answer = await Promise.race([line, left.then(() => null)])
  lines.close()
  return answer
}

interface SpokenOptions extends Opening {
  write: (text: string) => void
  /** Sends the terminal a sequence: a bell, a backspace. */
  steer: (sequence: string) => void
}

/** Opens the app for a screen reader; resolves to the exit status when it is left. */
export async function openSpoken(options: SpokenOptions): Promise<number> {
  const { write, steer } = options
  const app = new App(options)
  const speech = new Speech((line) => write(`${line}\n`))
  let isLeft = false
  let leave: (status: number) => void = () => {}
  const left = new Promise<number>((resolve) => {
    leave = (status) => {
      isLeft = true
      resolve(status)
    }
  })
  let isLent = false
  const onSignal = (signal: NodeJS.Signals) => {
    // An editor gets its own ctrl-c.
    if (!isLent || signal !== 'SIGINT') leave(128 + constants.signals[signal])
  }
  for (const signal of endingSignals()) process.on(signal, onSignal)
  const terminal = {
    ring: () => steer(bell),
    notify: (text: string) => steer(noticeSequence(text)),
    copy: (text: string) => steer(clipboardSequence(text)),
    lend: (use: () => Promise<void>) => {
      isLent = true
      return use().finally(() => {
        isLent = false
      })
    },
    exit: () => leave(0),
  }
  try {
    app.start(terminal, speech.show)
    while (!isLeft) {
      const { shown } = speech
      if (shown?.kind === 'recorder') {
        const interrupt = () => onSignal('SIGINT')
        const stop = Promise.race([left, speech.replaced()])
        await speakRecorder(shown.store, { write, steer, interrupt }, stop)
      } else {
        speech.say()
        const answer = await askLine(left)
        if (answer === null) leave(0)
        else await speech.take(answer)
      }
    }
  } finally {
    app.close()
    for (const signal of endingSignals()) process.off(signal, onSignal)
  }
  app.failIfUnsaved()
  return left
}
