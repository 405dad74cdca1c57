import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { resultsIn } from '../logbook/sampleSession.ts'
import { builtDriver, reasonNotToRun, skip, tell, twoAtATime } from './harness.ts'
import { wrongIn } from './recordScript.ts'
import { type Call, callsIn, firstSave, recordTampered, tracedCalls } from './tracing.ts'

const reason = reasonNotToRun('strace')
const results = 30
const errors = { ENOSPC: 'the disk is full', EIO: 'the disk reports an error' } as const
const driver = builtDriver()

interface Place {
  call: Call
  error: keyof typeof errors
  /** As strace writes it: `7` means the seventh call. */
  when: string
}

describe('a disk that is full or fails while 30 results are recorded', () => {
  it('is reported at once, loses no result, and everything is saved when it works again', async (context) => {
    if (reason !== null) skip(context, reason)
    const calls = await callsIn(driver, results)
    const places = tracedCalls.flatMap((call) =>
      (Object.keys(errors) as (keyof typeof errors)[]).flatMap((error) =>
        Array.from({ length: calls[call] - firstSave[call] + 1 }, (_, index): Place => {
          return { call, error, when: String(firstSave[call] + index) }
        }),
      ),
    )
    let faults = 0
    const wrong: string[] = []
    await twoAtATime(places, async (place) => {
      const outcome = await failingAt(place)
      faults += outcome.faults
      wrong.push(...outcome.wrong.map((line) => `${place.error} at ${place.call} ${place.when}: ${line}`))
    })
    tell(`${faults} writes, fsyncs, renames and links failed in ${places.length} runs`)
    expect(wrong).toEqual([])
    // A few failures affect the index while the session is closed: it is derived, so nobody is told.
    expect(faults).toBeGreaterThanOrEqual(places.length - 12)
  })
})

it('does not matter on a disk without hard links (exFAT), where recording works all the same', async (context) => {
  if (reason !== null) skip(context, reason)
  const { lines, code, stderr, logbook } = await recordTampered(driver, results, 'link', 'error=EPERM')
  expect({ code, stderr, last: lines.at(-1) }).toEqual({ code: 0, stderr: '', last: `closed ${results}` })
  expect(lines.filter((line) => !line.startsWith('saved') && !line.startsWith('closed'))).toEqual([])
  const file = openLogbook(logbook).read('newest').entry.path
  expect(resultsIn(JSON.parse(readFileSync(`${file}.bak`, 'utf8')))).toBe(results - 1)
})

async function failingAt({ call, error, when }: Place): Promise<{ faults: number; wrong: string[] }> {
  const how = `error=${error}:when=${when}`
  const { lines, code, stderr, logbook } = await recordTampered(driver, results, call, how)
  const unsaved = lines.filter((line) => /^(unsaved|refused)/.test(line))
  return {
    faults: unsaved.length,
    wrong: [...wrongSaid(lines, code, stderr, errors[error]), ...wrongOnDisk(logbook)],
  }
}

function wrongSaid(lines: readonly string[], code: number | null, stderr: string, why: string): string[] {
  // Node itself aborts if a write of its own fails while it ends: everything is saved by then.
  const isEnded = code === 0 || lines.includes(`closed ${results}`)
  return [...wrongIn(lines, why), ...(isEnded ? [] : [`it ended with ${code}: ${stderr}`])]
}

function wrongOnDisk(directory: string): string[] {
  const logbook = openLogbook(directory)
  const { session } = logbook.read('newest')
  const found = resultsIn(session)
  const wrong = found === results ? [] : [`${found} results are there in the end`]
  return [...wrong, ...logbook.damages.map((damage) => damage.wrong)]
}
