import { constants } from 'node:os'
import type { Logbook } from '../logbook/model.ts'
import { changeSettings, readSettings } from '../logbook/settingsFile.ts'
import type { Prescription } from '../prescription/model.ts'
import { bell, noticeSequence } from '../terminal/modes.ts'
import { choicesOf } from './choices.ts'
import { earlierDays } from './earlierDays.ts'
import { firstWords } from './firstWords.ts'
import { opened } from './opened.ts'
import { readingDefaultsOf, recorderContextOf } from './recorderContext.ts'
import { beginRecording, type Recording } from './recording.ts'
import { signalWith } from './signal.ts'
import { askLine, speakRecorder } from './speak.ts'
import { summaryTextOf } from './summaryText.ts'

interface Given {
  logbook: Logbook
  samples: string | null
  begin: Prescription | null
  /** Writes to the terminal, be it text or not. */
  write: (text: string) => void
}

/** The app for a screen reader: everything is said as lines, nothing is drawn. Resolves to the exit status. */
export async function openSpoken({ logbook, samples, begin, write }: Given): Promise<number> {
  const say = (line: string) => write(`${line}\n`)
  const { settings } = readSettings(logbook.directory)
  let leave: (status: number) => void = () => {}
  const left = new Promise<number>((resolve) => {
    leave = resolve
  })
  const ring = signalWith(settings, {
    ring: () => write(bell),
    notify: (text) => write(noticeSequence(text)),
  })
  const tools = (except: string | null = null) => ({
    logbook,
    settings,
    earlier: earlierDays(logbook, new Date(), except),
    ring,
    leave: () => leave(0),
  })
  if (!settings.firstStartSeen) {
    for (const line of firstWords) say(line)
    changeSettings(logbook.directory, (before) => ({ ...before, firstStartSeen: true }))
  }
  const recording = begin ? beginRecording(begin, tools()) : await pickOne(logbook, samples, say, tools)
  if (!recording) return 0
  const endings = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const
  const onSignal = (signal: NodeJS.Signals) => leave(128 + constants.signals[signal])
  for (const signal of endings) process.on(signal, onSignal)
  const { store, keeper } = recording
  store.subscribe(() => {
    const { state, saved } = store.get()
    if (state.finished && saved.ok) leave(0)
  })
  await speakRecorder(store, say, left)
  const { finished } = store.get().state
  const { id } = keeper
  keeper.close()
  for (const signal of endings) process.off(signal, onSignal)
  if (finished && id !== null) say(summaryTextOf(logbook.read(id).session, settings, false))
  return left
}

/** Says what can be taken up, by number, until one is opened; null when the answer is q. */
async function pickOne(
  logbook: Logbook,
  samples: string | null,
  say: (line: string) => void,
  tools: (except?: string) => Parameters<typeof beginRecording>[1],
): Promise<Recording | null> {
  const { settings, earlier } = tools()
  const { rampOf } = recorderContextOf(settings, earlier)
  const known = { rampOf, defaults: readingDefaultsOf(settings, earlier) }
  const choices = choicesOf(logbook, samples, known, new Date())
  choices.forEach((choice, index) => {
    say(`${index + 1}: ${choice.title}, ${choice.detail}`)
  })
  for (;;) {
    say('the number of the day, or q to leave')
    const answer = await askLine()
    if (answer === 'q' || answer === '') return null
    const choice = choices[Number(answer) - 1]
    if (!choice) {
      say(`${answer} is none of them`)
      continue
    }
    let begun: Recording | null = null
    const { message } = opened(
      choice,
      (recording) => {
        begun = recording
      },
      tools,
    )
    if (message === null) return begun
    say(message)
  }
}
