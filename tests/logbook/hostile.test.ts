import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { Session as Inspector, type Profiler } from 'node:inspector'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { indexRowShape } from '../../src/logbook/generated/shapes.js'
import { indexedOf } from '../../src/logbook/index.ts'
import { Settings } from '../../src/logbook/model.ts'
import { printSession, readSession } from '../../src/logbook/sessionFile.ts'
import { defaultSettings, settingsKind } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { readStored } from '../../src/logbook/storedFile.ts'
import { hasShape } from '../../src/validate/faults.ts'
import fc, { anyCharacter, times } from '../fastCheck.ts'
import { bareContext } from '../summary/bareContext.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { fullSession } from './fullSession.ts'
import { legs, setRecorded, started } from './sampleSession.ts'

/* Files may come from anybody. */

const note = { type: 'noteAdded', at: null, up: null, about: null, text: 'windy', pain: false } as const
const session = fullSession()
const last = JSON.stringify(session.events.at(-1))
const sessionText = printSession(session)
const settingsText = JSON.stringify(defaultSettings)

const hostileValues = [
  '"\\u001b[2J\\u202e"',
  '"../../../etc/passwd"',
  '"=1+1"',
  '1e999',
  '-1e308',
  '9007199254740993',
  '-0',
  'null',
  '[]',
  '{}',
  'true',
  '"0000-01-01"',
  '"+275760-09-13T00:00:00Z"',
  '"-271821-04-20"',
  '{"__proto__":{"polluted":true}}',
  '{"constructor":{"prototype":{"polluted":true}}}',
  '""',
  '"\\ud800"',
  '1e-320',
  '"x"',
]

/** Changes a real file's text: removes, doubles or replaces a part, exchanges a value, or adds a prototype; or is any
 * JSON instead. */
function mutated(text: string): fc.Arbitrary<string> {
  const values = [
    ...text.matchAll(/(?<=[:,[]\s*)("(?:[^"\\]|\\.)*"|-?\d[\d.eE+-]*|true|false|null)(?=\s*[,}\]])/g),
  ]
  const place = fc.nat(text.length)
  return fc.oneof(
    fc.tuple(place, fc.nat(200)).map(([at, length]) => text.slice(0, at) + text.slice(at + length)),
    fc.tuple(place, fc.nat(200)).map(([at, length]) => text.slice(0, at + length) + text.slice(at)),
    fc
      .tuple(place, fc.string({ unit: anyCharacter, maxLength: 8 }))
      .map(([at, inserted]) => text.slice(0, at) + inserted + text.slice(at + 1)),
    fc
      .tuple(fc.constantFrom(...values), fc.constantFrom(...hostileValues))
      .map(
        ([value, hostile]) =>
          text.slice(0, value.index) + hostile + text.slice(value.index + value[0].length),
      ),
    fc.tuple(fc.nat(text.length), fc.constantFrom(...hostileValues)).map(([at, hostile]) => {
      const brace = text.indexOf('{', at)
      return `${text.slice(0, brace + 1)}"__proto__": ${hostile}, ${text.slice(brace + 1)}`
    }),
    fc.json(),
  )
}

const forbidden = /[\u0000-\u0008\u000a-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/u

function stringsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(stringsIn) : []
}

function isRow(line: string): boolean {
  try {
    return hasShape(indexRowShape(), JSON.parse(line))
  } catch {
    return false
  }
}

const size = 2 ** 18

describe('a hostile file', () => {
  it('is read or reported as a session, never throws, and lets nothing unsafe through', () => {
    let taken = 0
    fc.assert(
      fc.property(mutated(sessionText), (text) => {
        const reading = readSession(text, session.id)
        expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
        if ('wrong' in reading) {
          expect(reading.wrong).not.toMatch(forbidden)
          expect(reading.wrong.length).toBeLessThan(300)
          return
        }
        taken += 1
        indexedOf(reading.value, { ...bareContext, bodyMassKg: 68 })
        expect(reading.value.id).toBe(session.id)
        expect(stringsIn(reading.value).filter((text) => forbidden.test(text))).toEqual([])
        const again = readSession(printSession(reading.value), session.id)
        expect('value' in again && printSession(again.value)).toBe(printSession(reading.value))
      }),
      times(100),
    )
    expect(taken).toBeGreaterThan(0)
  })

  it('still gives settings', () => {
    fc.assert(
      fc.property(mutated(settingsText), (text) => {
        const reading = readStored(text, settingsKind)
        const settings = ('wrong' in reading ? reading.rest : reading.value) ?? defaultSettings
        expect(Settings.safeParse(settings).success).toBe(true)
        expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
        expect(stringsIn(settings).filter((text) => forbidden.test(text))).toEqual([])
        if ('wrong' in reading) expect(reading.wrong).not.toMatch(forbidden)
      }),
      times(100),
    )
  })

  it('instead of the index changes no figure, unless it has the form of a row', () => {
    const directory = join(temporaryFolder(), 'logbook')
    const file = openLogbook(directory).create(legs, started)
    file.append([setRecorded(1)])
    file.close()
    const { brief } = openLogbook(directory).index()[0] ?? {}
    const index = join(directory, 'index.ndjson')
    const text = readFileSync(index, 'utf8')
    fc.assert(
      fc.property(mutated(text), (changed) => {
        writeFileSync(index, changed)
        const entries = openLogbook(directory).index()
        expect(entries.map(({ id }) => id)).toEqual([file.id])
        if (!changed.split('\n').some(isRow)) expect(entries[0]?.brief).toEqual(brief)
        expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
      }),
      times(10),
    )
  })

  it.each([
    ['spaces', ' '.repeat(size)],
    ['open brackets', '['.repeat(size)],
    ['brackets', `${'['.repeat(size / 2)}${']'.repeat(size / 2)}`],
    ['digits', '1'.repeat(size)],
    ['one string', `"${'x'.repeat(size)}"`],
    ['events', sessionText.replace('"events": [', `"events": [${`${JSON.stringify(note)},`.repeat(2500)}`)],
    ['an unknown key', sessionText.replace('"format": 1', `"${'k'.repeat(size)}": 1, "format": 1`)],
    ['undoing', undoing(5000)],
    ['repeats of repeats', sessionText.replace('"parts":[', `"parts":[${endless()},`)],
  ])('is answered with little work if it is 256 KiB of %s, whatever it asks for', (_, text) => {
    const directory = join(temporaryFolder(), 'logbook')
    mkdirSync(join(directory, 'sessions', '2026'), { recursive: true })
    writeFileSync(join(directory, 'sessions', '2026', `2026-11-26-${session.id}.json`), text)
    writeFileSync(join(directory, 'index.ndjson'), text)
    const logbook = openLogbook(directory)
    const readAll = () => {
      logbook.index()
      readStored(text, settingsKind)
    }
    expect(workOf(readAll)).toBeLessThan(mostWork)
    expect(logbook.damages.length).toBeLessThanOrEqual(1)
  })

  it('takes at most twice the work for twice the size', () => {
    const work = (count: number) => workOf(() => readSession(undoing(count), session.id))
    expect(work(10_000)).toBeLessThan(2.2 * work(5000))
  })
})

/** Four per byte: quadratic work would need a quarter of a million per byte. */
const mostWork = 4 * size

/** How many calls, branches and loops of this program the engine counted; built-in functions
 * (JSON.parse, regular expressions) count once per call. */
function workOf(run: () => void): number {
  const inspector = new Inspector()
  inspector.connect()
  inspector.post('Profiler.enable')
  inspector.post('Profiler.startPreciseCoverage', { callCount: true, detailed: true })
  try {
    run()
    const work = countedIn(inspector)
    expect(work).toBeGreaterThan(0)
    return work
  } finally {
    // Counting slows down everything that runs later in this process.
    inspector.post('Profiler.stopPreciseCoverage')
    inspector.disconnect()
  }
}

function countedIn(inspector: Inspector): number {
  let functions: Profiler.FunctionCoverage[] = []
  inspector.post('Profiler.takePreciseCoverage', (_, { result }) => {
    const own = result.filter(({ url }) => /\/src\/\w+\//.test(url))
    functions = own.flatMap((script) => script.functions)
  })
  return functions.flatMap(({ ranges }) => ranges).reduce((sum, { count }) => sum + count, 0)
}

function undoing(count: number): string {
  const events = Array.from(
    { length: count },
    (_, index) => `{"type":"undone","at":null,"up":null,"from":${(index % 5) + 1}}`,
  )
  return sessionText.replace(last, events.join(','))
}

/** 999 times 999 times ... one minute. */
function endless(): string {
  const work = (body: string) =>
    `{"kind":"work","times":999,"body":${body},"recovery":null,"split":null,"negative":false,"lane":null,"grade":null,"heartRate":null,"notes":[]}`
  let step = work('{"kind":"piece","amounts":[{"kind":"time","seconds":60}],"target":null}')
  for (let depth = 0; depth < 5; depth += 1) step = work(`{"kind":"group","steps":[${step}]}`)
  return `{"kind":"run","name":null,"items":[{"line":1,"text":"x","step":${step}}]}`
}
