import { once } from 'node:events'
import { milestoneBetween, spokenLines } from '../recorder/spoken.ts'
import type { RecorderStore } from '../recorder/store.ts'
import { takesText } from '../recorder/textModes.ts'
import { type RecorderView, viewOf } from '../recorder/view.ts'
import { Keyboard } from '../terminal/keyboard.ts'
import type { Key } from '../widgets/key.ts'

/* The recorder for a screen reader: it draws nothing, it says what changed, a line each. */

const named = {
  enter: 'enter',
  escape: 'escape',
  up: 'up',
  down: 'down',
  right: 'right',
  pageDown: 'pageDown',
} as const

/** Speaks a recorder until it is left or its session is finished.
 * @param say writes one line
 * @param stop resolves when the recorder is left */
export async function speakRecorder(
  store: RecorderStore,
  say: (line: string) => void,
  stop: Promise<unknown>,
): Promise<void> {
  let before: RecorderView | null = null
  let looked = store.get().now
  const speak = () => {
    const model = store.get()
    const milestone = milestoneBetween(model.state, looked, model.now)
    looked = model.now
    if (milestone !== null) say(milestone)
    const view = viewOf(model, store.context)
    for (const line of spokenLines(before, view)) say(line)
    before = view
  }
  const keyboard = new Keyboard(process.stdin, (keys) => {
    for (const key of keys) press(store, key)
  })
  const unsubscribe = store.subscribe(speak)
  let timer: NodeJS.Timeout | undefined
  const tick = () => {
    store.tick()
    timer = setTimeout(tick, store.wakeIn())
  }
  keyboard.open()
  speak()
  tick()
  try {
    await stop
  } finally {
    clearTimeout(timer)
    unsubscribe()
    keyboard.close()
  }
}

/** Text goes to the field as a whole, as the field would then be; in a list it is a key. */
function press(store: RecorderStore, key: Key): void {
  const { draft, mode } = store.get()
  if (key.kind === 'named') {
    if (key.name === 'ctrl+c') process.kill(process.pid, 'SIGINT')
    else if (key.name === 'backspace') store.typed(draft.slice(0, -1))
    else if (key.name in named) store.key(named[key.name as keyof typeof named])
    return
  }
  const isField = mode.kind === 'recording' || takesText(mode)
  store.typed(isField ? draft + key.text : key.text)
}

/** Waits for a line on standard input, for the day to pick. */
export async function askLine(): Promise<string> {
  process.stdin.resume()
  const [bytes] = (await once(process.stdin, 'data')) as [Buffer]
  process.stdin.pause()
  return bytes.toString('utf8').trim()
}
