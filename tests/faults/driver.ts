import { writevSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { beginRecording, type Recording, resumeRecording } from '../../src/app/recording.ts'
import { isLock, takeLock } from '../../src/logbook/lock.ts'
import { momentNow, thisMachine } from '../../src/logbook/machine.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { viewOf } from '../../src/recorder/view.ts'
import { elapsedSeconds } from '../../src/session/clock.ts'
import { legs, setRecorded, started } from '../logbook/sampleSession.ts'

/* The recorder and the logbook under it, worked by a script, so that they can be killed, starved and stopped at
 * a known place. It says on stdout what it was told is saved. */

const [mode = '', directory = '', count = '0'] = process.argv.slice(2)
const logbook = openLogbook(directory)

/** By writev (of two parts: one alone goes out by write), which the tests do not tamper with. */
function say(line: string): void {
  writevSync(1, [Buffer.from(line), Buffer.from('\n')])
}

const resultsIn = (session: { events: readonly { type: string }[] }) =>
  session.events.filter((event) => event.type === 'setRecorded').length

const onDisk = () => (logbook.list().length === 0 ? 0 : resultsIn(logbook.read('newest').session))

/** The recorder itself, without its screen: keys go in, and its head line says whether all is saved. */
function recorder(): Recording {
  const nothing = { lastTime: () => null, bestBefore: () => null, maxima: [], exercises: () => [] }
  const tools = { logbook, settings: defaultSettings, earlier: nothing, ring: () => {}, leave: () => {} }
  for (let attempt = 0; ; attempt += 1) {
    try {
      return logbook.list().length === 0 ? beginRecording(legs, tools) : resumeRecording('newest', tools)
    } catch (error) {
      if (attempt === 20) throw error
      say(`refused ${(error as Error).message}`)
    }
  }
}

/** Says what the head line says; when that is not "saved", how many results the file on the disk has. */
function tell({ store }: Recording): void {
  const { saved } = viewOf(store.get(), store.context).head
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

const modes: Record<string, () => void | Promise<void>> = {
  /** Types results into the recorder until the session has `count` of them, then leaves. */
  record() {
    const recording = recorder()
    const { store, writer } = recording
    if (writer.id !== null) tell(recording)
    while (resultsIn(store.get()) < Number(count)) {
      store.typed('3 @8')
      store.key('enter')
      tell(recording)
    }
    for (let attempt = 0; attempt < 20 && !store.get().saved.ok; attempt += 1) {
      store.tick()
      tell(recording)
    }
    writer.close()
    say(`closed ${onDisk()}`)
  },
  /** Appends to a session until it has `count` results, more than a day asks for. */
  append() {
    const file = logbook.list().length === 0 ? logbook.create(legs, started) : logbook.open('newest')
    say(`saved ${resultsIn(file.session)}`)
    while (resultsIn(file.session) < Number(count)) {
      file.append([setRecorded((resultsIn(file.session) % 30) + 1)])
      say(`saved ${resultsIn(file.session)}`)
    }
    file.close()
  },
  /** Tries for the lock that each line on stdin names, and keeps what it gets until killed. */
  contend() {
    say('ready')
    createInterface(process.stdin).on('line', (name) => {
      const outcome = takeLock(`${directory}/${name}.lock`, thisMachine())
      say(isLock(outcome) ? 'taken' : `held by ${outcome.pid}`)
    })
  },
  /** At each line on stdin tells how long it was since the line before. */
  clock() {
    let before = momentNow(thisMachine())
    say('ready')
    process.stdin.on('data', () => {
      const now = momentNow(thisMachine())
      say(JSON.stringify({ elapsed: elapsedSeconds(before, now), wall: (now.ms - before.ms) / 1000 }))
      before = now
    })
    process.stdin.on('end', () => process.exit())
  },
}

await modes[mode]?.()
