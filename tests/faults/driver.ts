import { writevSync } from 'node:fs'
import { isLock, takeLock } from '../../src/logbook/lock.ts'
import { momentNow, thisMachine } from '../../src/logbook/machine.ts'
import type { SessionFile } from '../../src/logbook/model.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { elapsedSeconds } from '../../src/session/clock.ts'
import { legs, setRecorded, started } from '../logbook/sampleSession.ts'

/* A program over the logbook that does what the recorder does, by script, so that it can be killed, starved
 * and stopped at a known place. It says on stdout what it was told is saved. */

const [mode = '', directory = '', count = '0'] = process.argv.slice(2)
const logbook = openLogbook(directory)

/** By writev (of two parts: one alone goes out by write), which the tests do not tamper with. */
function say(line: string): void {
  writevSync(1, [Buffer.from(line), Buffer.from('\n')])
}

function results(file: { session: { events: readonly unknown[] } }): number {
  return file.session.events.length - 1
}

function begin(): SessionFile {
  for (let attempt = 0; ; attempt += 1) {
    try {
      return logbook.list().length === 0 ? logbook.create(legs, started) : logbook.open('newest')
    } catch (error) {
      if (attempt === 20) throw error
      say(`refused ${(error as Error).message}`)
    }
  }
}

/** Says what an append or a retry came to; when it was not saved, that what is on the disk is whole. */
function tell(file: SessionFile): void {
  const { state } = file
  if (state.saved) {
    say(`saved ${results(file)}`)
    return
  }
  let onDisk = -1
  try {
    if (logbook.list().length > 0) onDisk = results(logbook.read(file.id))
  } catch (error) {
    say(`broken ${(error as Error).message}`)
  }
  say(`unsaved ${results(file)} ${onDisk} ${state.reason}`)
}

const modes: Record<string, () => void | Promise<void>> = {
  /** Records until the session has `count` results. */
  record() {
    const file = begin()
    tell(file)
    while (results(file) < Number(count)) {
      file.append([setRecorded(results(file) + 1)])
      tell(file)
    }
    for (let attempt = 0; attempt < 20 && !file.state.saved; attempt += 1) {
      file.retry()
      tell(file)
    }
    say(`closed ${file.close().saved}`)
  },
  /** Tries for `count` locks, all contenders for each at the same moment, and keeps what it gets until killed. */
  async contend() {
    for (let round = 0; round < Number(count); round += 1) {
      const at = Number(process.argv[5]) + round * 20
      while (Date.now() < at) if (at - Date.now() > 5) await new Promise((resolve) => setTimeout(resolve, 1))
      const outcome = takeLock(`${directory}/${round}.lock`, thisMachine())
      say(`${round} ${isLock(outcome) ? 'taken' : `held by ${outcome.pid}`}`)
    }
    say('done')
    setInterval(() => {}, 1000)
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
