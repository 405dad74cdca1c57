import { once } from 'node:events'
import { constants } from 'node:os'
import { attempt, messageOf } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import { dayOrMessage } from '../logbook/ownTexts.ts'
import { changeSettings, readSettings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import { milestoneBetween } from '../recorder/clockText.ts'
import { keptBy } from '../recorder/spelling.ts'
import type { RecorderStore } from '../recorder/store.ts'
import { type RecorderView, spokenLines, viewOf } from '../recorder/view.ts'
import type { Decisions } from '../ui/screens/DecisionsScreen.tsx'
import type { Choice } from '../ui/screens/Today.tsx'
import { bell, endingSignals, noticeSequence } from '../ui/terminal/capabilities.ts'
import { isInterrupt, Keyboard } from '../ui/terminal/keyboard.ts'
import type { Key } from '../ui/widgets/keys.ts'
import { keepTicking } from '../ui/widgets/ticking.ts'
import { welcomeText } from './cautions.ts'
import { choicesOf, unfinishedSessionOf } from './choices.ts'
import { readingDefaultsOf, warmUpFor } from './earlierDays.ts'
import { morningHint, morningOn, takeMorning } from './morning.ts'
import { decisionsContent } from './nextDay.ts'
import { summaryTextOf } from './overWeeks.ts'
import {
  beginRecording,
  type Recording,
  type RecordingTools,
  recordingTools,
  refuseUnsaved,
  resumeRecording,
  whenFinished,
} from './recording.ts'
import type { Opening } from './screens.ts'
import { ringerOf } from './signal.ts'

/* The recorder for a screen reader: it draws nothing and prints each change as a line. */

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
    if (model.spelling !== null && model.draft !== model.spelling.begun[0]?.letters) return
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
    const kept = key.name === 'backspace' ? draft.slice(0, -1) : keptBy(key.name, draft)
    if (kept !== null) store.typed(kept)
  }
}

/** Waits for a line on standard input; `q` at the end of input. */
async function askLine(): Promise<string> {
  const { stdin } = process
  const over = new AbortController()
  const { signal } = over
  const ended = once(stdin, 'end', { signal }).then(() => 'q')
  const line = once(stdin, 'data', { signal }).then(([bytes]) => (bytes as Buffer).toString('utf8').trim())
  stdin.resume()
  try {
    return await Promise.race([line, ended])
  } finally {
    stdin.pause()
    for (const unheard of [line, ended]) unheard.catch(() => {})
    over.abort()
  }
}

type Say = (line: string) => void
/** What a recording needs. @param except the id of the session itself */
type Tools = (except?: string) => RecordingTools

interface SpokenOptions extends Opening {
  /** Writes text to the terminal. */
  write: (text: string) => void
  /** Sends the terminal a sequence: a bell, a backspace. */
  steer: (sequence: string) => void
}

/** The app for a screen reader: prints lines and draws nothing. Resolves to the exit status. */
export async function openSpoken(options: SpokenOptions): Promise<number> {
  const { logbook, begin, write, steer, err } = options
  const say = (line: string) => write(`${line}\n`)
  const { settings } = readSettings(logbook.directory)
  let leave: (status: number) => void = () => {}
  const left = new Promise<number>((resolve) => {
    leave = resolve
  })
  const terminal = { ring: () => steer(bell), notify: (text: string) => steer(noticeSequence(text)) }
  const shell = { logbook, ring: ringerOf(() => settings, terminal, options.env), leave: () => leave(0) }
  const tools = (except?: string) => recordingTools(shell, except)
  if (!settings.firstStartSeen) {
    for (const line of welcomeText) say(line)
    // If it cannot be saved, the next start says it again.
    attempt(() => changeSettings(logbook.directory, (before) => ({ ...before, firstStartSeen: true })))
  }
  const recording = await (begin ? beginOrResume(begin, say, tools) : pickOne(options.samples, say, tools))
  if (!recording) return 0
  const onSignal = (signal: NodeJS.Signals) => leave(128 + constants.signals[signal])
  for (const signal of endingSignals()) process.on(signal, onSignal)
  whenFinished(recording, () => leave(0))
  const { store, writer } = recording
  await speakRecorder(store, { write, steer, interrupt: () => onSignal('SIGINT') }, left)
  const { id } = writer
  const closed = writer.close()
  for (const signal of endingSignals()) process.off(signal, onSignal)
  if (!closed.ok) refuseUnsaved(closed, err)
  if (store.get().state.finished && id !== null) await sayFinished(id, tools(), say)
  return left
}

/** Says the summary of a finished session, and asks about the next day like it. */
async function sayFinished(id: string, { logbook, settings }: RecordingTools, say: Say): Promise<void> {
  say(summaryTextOf(logbook, logbook.read(id).session, settings, { full: false }))
  const saved = (path: string) => say(`saved as ${path}`)
  const decided = decisionsContent(id, logbook, settings, todayOf(new Date()), saved)
  if (decided === null) return
  say(['next time:', ...decided.rows.map(({ text }) => text)].join('\n'))
  await decideAloud(decided, say, askLine)
}

type Ask = () => Promise<string>

/** Asks about each line of the next day and for its date, until the day is saved or cancelled. */
export async function decideAloud(decided: Decisions, say: Say, ask: Ask): Promise<void> {
  say('n decides about the next day like it, line by line; Enter skips this')
  if ((await ask()) !== 'n') return
  const accepted = await acceptedAloud(decided, say, ask)
  if (accepted !== null) await saveAloud(decided, accepted, say, ask)
}

/** The ids of the accepted lines; null if the answer is q. */
async function acceptedAloud({ rows }: Decisions, say: Say, ask: Ask): Promise<Set<string> | null> {
  const accepted = new Set<string>()
  for (const [index, { id, text }] of rows.entries()) {
    say(`${index + 1} of ${rows.length}: ${text}`)
    for (let answer: string | null = null; answer !== '' && answer !== '-'; ) {
      say('Enter accepts, - rejects, q cancels')
      answer = await ask()
      if (answer === 'q') return null
      if (answer === '') accepted.add(id)
    }
  }
  return accepted
}

async function saveAloud(
  { dateText, earliest, save }: Decisions,
  accepted: Set<string>,
  say: Say,
  ask: Ask,
): Promise<void> {
  for (let days = 0; ; ) {
    say(`save for ${dateText(days)}: Enter saves, + or - moves it by a day (+3 by three), q cancels`)
    const answer = await ask()
    if (answer === 'q') return
    if (answer === '') {
      const problem = save(accepted, days)
      if (problem === null) return
      say(problem)
    } else if (/^[+-]\d{0,3}$/.test(answer)) {
      days = Math.max(earliest, days + Number(answer.length === 1 ? `${answer}1` : answer))
    } else say(`Invalid answer "${answer}". Press Enter, or type +, -, a number of days such as +3, or q.`)
  }
}

/** Asks before a day begins that has an unfinished session; null if the answer is q. */
async function beginOrResume(day: Prescription, say: Say, tools: Tools): Promise<Recording | null> {
  const left = unfinishedSessionOf(tools().logbook, day, new Date())
  if (left === null) return beginRecording(day, tools())
  for (;;) {
    say(`${left.question}, q quits`)
    const answer = await askLine()
    if (answer === 'q') return null
    if (answer === 'n') return beginRecording(day, tools())
    if (answer === '' && left.mayResume) return resumeRecording(left.id, tools(left.id))
  }
}

/** Takes the morning, one line at a time, until an empty line. */
async function askMorning(logbook: string, say: Say): Promise<void> {
  const date = todayOf(new Date())
  say(morningHint)
  for (;;) {
    say(morningOn(logbook, date).text().trim())
    say('a line of the morning, or Enter to go back')
    const typed = await askLine()
    if (typed === '') return
    const problem = takeMorning(logbook, typed)
    if (problem !== null) say(problem)
  }
}

/** Lists what can be opened, by number, until one is opened; null if the answer is q. */
async function pickOne(samples: string | null, say: Say, tools: Tools): Promise<Recording | null> {
  const { logbook, settings, earlier } = tools()
  const warmUpOf = warmUpFor(settings, earlier.maxima)
  const known = { warmUpOf, defaults: readingDefaultsOf(settings, earlier) }
  const choices = choicesOf(logbook, samples, known, new Date())
  choices.forEach(({ title, detail }, index) => {
    say(`${index + 1}: ${title}, ${detail}`)
  })
  for (;;) {
    say('Type the number of a day, m for the morning, q to quit.')
    const answer = await askLine()
    const choice = choices[Number(answer) - 1]
    if (answer === 'q' || answer === '') return null
    if (answer === 'm') await askMorning(logbook.directory, say)
    else if (!choice) say(`Invalid answer "${answer}". Type a number from the list, m or q.`)
    else {
      const begun = opened(choice, tools)
      if ('recording' in begun) return begun.recording
      say(begun.message)
    }
  }
}

/** Opens a choice in the recorder, or says what prevents it. */
export function opened(choice: Choice, tools: Tools): { recording: Recording } | { message: string } {
  try {
    if (choice.kind === 'unfinished') return { recording: resumeRecording(choice.id, tools(choice.id)) }
    const used = tools()
    const day = dayOrMessage(choice.id, readingDefaultsOf(used.settings, used.earlier))
    return 'message' in day ? day : { recording: beginRecording(day.prescription, used) }
  } catch (error) {
    return { message: messageOf(error) }
  }
}
