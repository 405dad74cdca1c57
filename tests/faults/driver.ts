import { writevSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { isLock, takeLock } from '../../src/logbook/lock.ts'
import { clockOf, thisMachine } from '../../src/logbook/machine.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { elapsedSeconds } from '../../src/session/clock.ts'
import { legs, resultsIn, setRecorded, started } from '../logbook/sampleSession.ts'
import { recordResults } from './recordScript.ts'

/* The recorder and the logbook below it, driven by a script, so that they can be killed, starved and stopped at
 * a known place. It prints on stdout what it was told is saved. */

const [mode = '', directory = '', count = '0'] = process.argv.slice(2)
const logbook = openLogbook(directory)

/** By writev (in two parts, since one alone goes through write), which the tests do not tamper with. */
function say(line: string): void {
  writevSync(1, [Buffer.from(line), Buffer.from('\n')])
}

const modes: Record<string, () => void | Promise<void>> = {
  record: () => recordResults(logbook, Number(count), say),
  /** Appends to a session until it has `count` results, more than a day needs. */
  append() {
    const file = logbook.list().length === 0 ? logbook.create(legs, started) : logbook.open('newest')
    say(`saved ${resultsIn(file.session)}`)
    while (resultsIn(file.session) < Number(count)) {
      file.append([setRecorded((resultsIn(file.session) % 30) + 1)])
      say(`saved ${resultsIn(file.session)}`)
    }
    file.close()
  },
  /** Tries to take the lock that each line on stdin names, and keeps what it gets until killed. */
  contend() {
    say('ready')
    createInterface(process.stdin).on('line', (name) => {
      const outcome = takeLock(`${directory}/${name}.lock`, thisMachine())
      say(isLock(outcome) ? 'taken' : `held by ${outcome.pid}`)
    })
  },
  /** At each line on stdin prints how long it was since the previous line. */
  clock() {
    const clock = clockOf(thisMachine())
    let before = clock()
    say('ready')
    process.stdin.on('data', () => {
      const now = clock()
      say(JSON.stringify({ elapsed: elapsedSeconds(before, now), wall: (now.wall - before.wall) / 1000 }))
      before = now
    })
    process.stdin.on('end', () => process.exit())
  },
}

await modes[mode]?.()
