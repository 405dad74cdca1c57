import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import {
  builtDriver,
  drive,
  isLongRun,
  reasonNotToRun,
  resultsIn,
  skip,
  tell,
  twoAtATime,
} from './harness.ts'
import { type Call, callsIn, firstSave, temporaryPlace, tracedCalls } from './tracing.ts'

const reason = reasonNotToRun('strace')
const results = 30
const errors = { ENOSPC: 'the disk is full', EIO: 'the disk reports an error' } as const
let driver: Awaited<ReturnType<typeof builtDriver>>
beforeAll(async () => {
  driver = await builtDriver()
})
afterAll(() => driver.remove())

interface Place {
  call: Call
  error: keyof typeof errors
  /** As strace writes it: `7` the seventh call, `7+5` that and every fifth from there. */
  when: string
}

describe('a disk that is full or fails while 30 results are recorded', () => {
  it('is said at once, costs no result, and all is saved when it works again', async (context) => {
    if (reason !== null) skip(context, reason)
    const calls = await callsIn(driver.path, results)
    // A fault at every fifth call, begun at five different ones, meets each call; the long run does each alone.
    const places = tracedCalls.flatMap((call) =>
      (Object.keys(errors) as (keyof typeof errors)[]).flatMap((error): Place[] => {
        const first = firstSave[call]
        return isLongRun
          ? Array.from({ length: calls[call] - first + 1 }, (_, index) => ({
              call,
              error,
              when: String(first + index),
            }))
          : [0, 1, 2, 3, 4].map((offset) => ({ call, error, when: `${first + offset}+5` }))
      }),
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
    // A few fall on the index while the session is closed: it is derived, and nobody is told.
    expect(faults).toBeGreaterThanOrEqual(isLongRun ? places.length - 12 : 8 * results)
  }, 1_200_000)
})

it('a disk that knows no second names for a file (exFAT) is recorded on all the same', async (context) => {
  if (reason !== null) skip(context, reason)
  const place = temporaryPlace()
  const logbook = join(place.path, 'logbook')
  const inject = ['-e', 'trace=link', '-e', 'inject=link:error=EPERM']
  const program = [process.execPath, driver.path, 'record', logbook, String(results)]
  const { lines, code, stderr } = await drive('strace', ['-o', '/dev/null', ...inject, ...program])
  expect({ code, stderr, last: lines.at(-1) }).toEqual({ code: 0, stderr: '', last: `closed ${results}` })
  expect(lines.filter((line) => !line.startsWith('saved') && !line.startsWith('closed'))).toEqual([])
  const file = openLogbook(logbook).read('newest').entry.path
  expect(resultsIn(JSON.parse(readFileSync(`${file}.bak`, 'utf8')))).toBe(results - 1)
  place.remove()
})

async function failingAt({ call, error, when }: Place): Promise<{ faults: number; wrong: string[] }> {
  const place = temporaryPlace()
  try {
    const logbook = join(place.path, 'logbook')
    const inject = ['-e', `trace=${call}`, '-e', `inject=${call}:error=${error}:when=${when}`]
    const program = [process.execPath, driver.path, 'record', logbook, String(results)]
    const { lines, code, stderr } = await drive('strace', ['-o', '/dev/null', ...inject, ...program])
    const unsaved = lines.filter((line) => /^(unsaved|refused)/.test(line))
    return {
      faults: unsaved.length,
      wrong: [...wrongIn(lines, code, stderr, errors[error]), ...wrongOnDisk(logbook)],
    }
  } finally {
    place.remove()
  }
}

function wrongIn(lines: readonly string[], code: number | null, stderr: string, why: string): string[] {
  const wrong = lines.filter((line) => line.startsWith('broken'))
  // Node itself aborts where a write of its own fails while it ends: all is saved by then.
  if (code !== 0 && !lines.includes(`closed ${results}`)) wrong.push(`it ended with ${code}: ${stderr}`)
  let saved = 0
  for (const line of lines) {
    const [, results, onDisk, said] = /^unsaved (\d+) (-?\d+) (.+)$/.exec(line) ?? []
    if (said !== undefined && !(said.startsWith('NOT SAVED: ') && said.includes(why)))
      wrong.push(`it said "${said}"`)
    // The folder's flush fails after the rename: the newest result may be there though it is not called saved.
    if (onDisk !== undefined && Number(onDisk) > Number(results)) wrong.push(line)
    if (/^refused/.test(line) && !line.includes(why)) wrong.push(line)
    saved = Number(/^saved (\d+)$/.exec(line)?.[1] ?? saved)
    if (onDisk !== undefined && Number(onDisk) < saved && saved > 0)
      wrong.push(`${saved} were saved, ${onDisk} are there`)
  }
  return wrong
}

function wrongOnDisk(directory: string): string[] {
  const logbook = openLogbook(directory)
  const { session } = logbook.read('newest')
  const found = resultsIn(session)
  const wrong = found === results ? [] : [`${found} results are there in the end`]
  return [...wrong, ...logbook.damages.map((damage) => damage.wrong)]
}
