import { type Known, knownOn } from '../../src/app/known.ts'
import { beginRecording, type Recording, resumeRecording } from '../../src/app/recording.ts'
import { todayOf } from '../../src/logbook/machine.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import type { Logbook } from '../../src/logbook/store.ts'
import { viewOf } from '../../src/recorder/view.ts'
import { legs, resultsIn } from '../logbook/sampleSession.ts'

/** Types results into the recorder itself, without its screen, until the session has `count` of them, then leaves.
 * @param say called with `saved N` when the head line says that all is saved; `unsaved N M REASON` when it says another
 * thing, M being how many the file on the disk has; `refused REASON` when it could not begin; at the end `closed M` */
export function recordResults(logbook: Logbook, count: number, say: (line: string) => void): void {
  const onDisk = () => (logbook.list().length === 0 ? 0 : resultsIn(logbook.read('newest').session))
  const tell = ({ store }: Recording) => {
    const { saved } = viewOf(store.get()).head
    const results = resultsIn(store.get())
    if (saved === 'saved') say(`saved ${results}`)
    else {
      try {
        say(`unsaved ${results} ${onDisk()} ${saved}`)
      } catch (error) {
        say(`broken ${(error as Error).message}`)
      }
    }
  }
  const recording = recorder(logbook, say)
  const { store, writer } = recording
  if (writer.id !== null) tell(recording)
  while (resultsIn(store.get()) < count) {
    store.typed('3 @8')
    store.press({ kind: 'named', name: 'enter' })
    tell(recording)
  }
  for (let attempt = 0; attempt < 20 && !store.get().saved.ok; attempt += 1) {
    store.tick()
    tell(recording)
  }
  writer.close()
  say(`closed ${onDisk()}`)
}

function recorder(logbook: Logbook, say: (line: string) => void): Recording {
  const known: Known = Object.create(knownOn(logbook, defaultSettings, todayOf(new Date())), {
    entries: { value: [] },
    pains: { value: [] },
  })
  const tools = { known, ring: () => {}, leave: () => {} }
  for (let attempt = 0; ; attempt += 1) {
    try {
      return logbook.list().length === 0 ? beginRecording(legs, tools) : resumeRecording('newest', tools)
    } catch (error) {
      if (attempt === 20) throw error
      say(`refused ${(error as Error).message}`)
    }
  }
}

/** What should not have been printed, in the words of `recordResults`. */
export function wrongIn(lines: readonly string[], why: string): string[] {
  const wrong = lines.filter((line) => line.startsWith('broken'))
  let saved = 0
  for (const line of lines) {
    const [, results, onDisk, said] = /^unsaved (\d+) (-?\d+) (.+)$/.exec(line) ?? []
    if (said !== undefined && !(said.startsWith('NOT SAVED: ') && said.includes(why)))
      wrong.push(`it said "${said}"`)
    // The folder's flush fails after the rename: the newest result may be there though it is not reported as saved.
    if (onDisk !== undefined && Number(onDisk) > Number(results)) wrong.push(line)
    if (/^refused/.test(line) && !line.includes(why)) wrong.push(line)
    saved = Number(/^saved (\d+)$/.exec(line)?.[1] ?? saved)
    if (onDisk !== undefined && Number(onDisk) < saved && saved > 0)
      wrong.push(`${saved} were saved, ${onDisk} are there`)
  }
  return wrong
}
