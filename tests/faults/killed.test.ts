import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { sweepLogbook } from '../../src/logbook/durableFile.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { resultsIn, setRecorded } from '../logbook/sampleSession.ts'
import { muchLater } from '../logbook/testMachine.ts'
import { builtDriver, isLongRun, reasonNotToRun, skip, tell, twoAtATime } from './harness.ts'
import { callsIn, recordTampered, tracedCalls } from './tracing.ts'

const reason = reasonNotToRun('strace')
const results = isLongRun ? 30 : 5
const driver = builtDriver()

describe(`a recorder that is killed while it takes ${results} results`, () => {
  it('has saved whatever it reported as saved, wherever it was killed', async (context) => {
    if (reason !== null) skip(context, reason)
    const calls = await callsIn(driver, results)
    const all = tracedCalls.flatMap((call) =>
      Array.from({ length: calls[call] }, (_, index) => ({ call, number: index + 1 })),
    )
    // Each result is at least one write, two fsyncs, two renames and one link.
    expect(all.length).toBeGreaterThan(results * 6)
    // crash.test.ts checks every moment without a process; a few of these show that it is right.
    const places = isLongRun ? all : all.filter((_, index) => index % Math.ceil(all.length / 4) === 7)
    let killed = 0
    const lost: string[] = []
    await twoAtATime(places, async ({ call, number }) => {
      const ran = await recordTampered(driver, results, call, `signal=SIGKILL:when=${number}`)
      killed += ran.signal === 'SIGKILL' ? 1 : 0
      const wrong = wrongAfter(ran.logbook, acknowledged(ran.lines)) ?? (ran.stderr || null)
      if (wrong !== null) lost.push(`${call} ${number}: ${wrong}`)
    })
    tell(
      `killed at ${places.length} of ${all.length} writes, fsyncs, renames and links; ${killed} times before the end`,
    )
    expect(lost).toEqual([])
    expect(killed).toBe(places.length)
  })
})

/** The results that the driver was told are saved. */
function acknowledged(lines: readonly string[]): number {
  return Math.max(0, ...lines.map((line) => Number(/^saved (\d+)$/.exec(line)?.[1] ?? 0)))
}

/** Starts afresh: returns what is wrong then, or null. */
function wrongAfter(directory: string, saved: number): string | null {
  try {
    const logbook = openLogbook(directory)
    if (logbook.list().length === 0) return saved === 0 ? null : `the session is gone, ${saved} were saved`
    const file = logbook.open('newest')
    const found = resultsIn(file.session)
    if (found < saved) return `${saved} were saved, ${found} are there`
    if (found > saved + 1) return `${saved} were saved, ${found} are there`
    JSON.parse(readFileSync(file.path, 'utf8'))
    const { ok: goesOn } = file.append([setRecorded(found + 1)])
    file.close()
    if (!goesOn || logbook.damages.length > 0) return 'recording does not go on'
    if (resultsIn(openLogbook(directory).read('newest').session) !== found + 1)
      return 'what was recorded afterwards is not there'
    const left = leftIn(directory)
    return left.length > 0 ? `left behind: ${left.join(', ')}` : null
  } catch (error) {
    return (error as Error).message
  }
}

function leftIn(directory: string): string[] {
  sweepLogbook(directory, muchLater)
  return readdirSync(directory, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /\.(tmp|lock)|\.lock\./.test(name),
  )
}
