import { existsSync, mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeEach, describe, expect, it, onTestFinished } from 'vitest'
import { restoreBackup } from '../../src/logbook/backup.ts'
import { replaceDamaged } from '../../src/logbook/durableFile.ts'
import { isLock, type Lock, takeLock } from '../../src/logbook/lock.ts'
import { thisMachine } from '../../src/logbook/machine.ts'
import type { Owner } from '../../src/logbook/model.ts'
import { addMornings, readMornings } from '../../src/logbook/mornings.ts'
import { addOwnText, addPrescription, changeOwnText, readOwnText } from '../../src/logbook/ownTexts.ts'
import { changeSettings, readSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { keepVersion } from '../../src/logbook/syncDisk.ts'
import { replay } from '../../src/session/replay.ts'
import { runProgram } from '../commands/runProgram.ts'
import { finished, legs, resultsIn, setRecorded, started } from '../logbook/sampleSession.ts'
import { deadPid, machineWith } from '../logbook/testMachine.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { CrashDisk, type DiskState, useDisk } from './crashDisk.ts'
import { isLongRun, tell } from './harness.ts'
import { recordResults, wrongIn } from './recordScript.ts'

/* The logbook after a power cut at every moment of its work, and with every call that fails. */

let folder = ''
let disk: CrashDisk
let home = ''
beforeEach(() => {
  folder = temporaryFolder()
  freshDisk('disk')
  onTestFinished(() => useDisk(null))
})

function freshDisk(name: string): void {
  mkdirSync(join(folder, name))
  disk = new CrashDisk(join(folder, name))
  home = join(folder, name, 'logbook')
  useDisk(disk)
}

/** The machine after a restart: no earlier process is alive. */
const restarted = machineWith({ boot: 'after the cut', isRunning: () => false })

/** What was promised, and when: the number of changes of the disk by then. */
interface Promised<T> {
  after: number
  what: T
}

/** Checks every state that a power cut may leave, at every moment.
 * @param look reads the logbook in a state; called once for each state
 * @param wrong null if the result keeps the promise; null is promised at the beginning
 * @param from how many changes were made before the first moment
 * @returns how many different states there were */
function cutEverywhere<T, F>(
  promises: readonly Promised<T>[],
  look: (home: string) => F,
  wrong: (found: F | Error, promised: T | null, next: T | null) => string | null,
  from = 0,
): number {
  const found = new Map<string, F | Error>()
  const faults: string[] = []
  const changes = disk.changes.length
  useDisk(null)
  for (let count = from; count <= changes; count += 1) {
    const promised = promises.findLast(({ after }) => after <= count)?.what ?? null
    const next = promises.find(({ after }) => after > count)?.what ?? null
    for (const state of disk.statesAt(count)) {
      if (!found.has(state.key)) found.set(state.key, lookAt(state, look))
      const fault = wrong(found.get(state.key) as F | Error, promised, next)
      if (fault !== null)
        faults.push(`after ${count} of ${changes} changes: ${fault}; on the disk: ${[...state.files.keys()]}`)
    }
  }
  expect(faults.slice(0, 3)).toEqual([])
  return found.size
}

/** Promised from now on. */
function promise<T>(what: T): Promised<T> {
  return { after: disk.changes.length, what }
}

/** Whether what is found is what was promised, or already what comes next. */
function isEither<T>(found: T | null, promised: T | null, next: T | null): boolean {
  return found === promised || (next !== null && found === next)
}

/** Checks every state that a power cut may leave while something is done with what is on the disk by now.
 * @param isKept holds in each of them
 * @param isDone holds in each after the work */
function cutDuring<F>(
  work: () => void,
  look: (home: string) => F,
  isKept: (found: F) => boolean,
  isDone: (found: F) => boolean = isKept,
): void {
  disk.flushAll()
  const before = disk.changes.length
  work()
  const wrong = (found: F | Error, promised: string | null) => {
    if (found instanceof Error) return words(found)
    return isKept(found) && (promised === null || isDone(found)) ? null : words(found)
  }
  cutEverywhere([promise('done')], look, wrong, before)
}

let states = 0

function lookAt<F>({ files }: DiskState, look: (home: string) => F): F | Error {
  states += 1
  const root = join(folder, `state-${states}`)
  mkdirSync(root)
  for (const [path, text] of files) {
    if (text === null) mkdirSync(join(root, path), { recursive: true })
    else writeFileSync(join(root, path), text)
    // The machine needs more than a second to start.
    if (text !== null) utimesSync(join(root, path), 1_700_000_000, 1_700_000_000)
  }
  try {
    return look(join(root, 'logbook'))
  } catch (error) {
    return error as Error
  }
}

/** What a restarted machine finds: each session's events, damage, and whether recording continues. */
function sessionsIn(home: string): { events: number[]; damages: number; goesOn: boolean; copies: number[] } {
  const logbook = openLogbook(home, restarted)
  const events = logbook.list().map(({ id }) => logbook.read(id).session.events.length)
  const copies = logbook.list().flatMap(({ path }) => {
    const name = readdirSync(dirname(path)).find((each) => each.endsWith('.bak'))
    return name === undefined
      ? []
      : [JSON.parse(readFileSync(join(dirname(path), name), 'utf8')).events.length]
  })
  let goesOn = true
  if (events.length > 0) {
    const file = logbook.open('newest')
    goesOn = file.append([setRecorded(9)]).ok
    file.close()
    goesOn &&= openLogbook(home, restarted).index().length === events.length
  }
  return { events, damages: logbook.damages.length, goesOn, copies }
}

function setMass(value: number): void {
  changeSettings(home, (settings) => ({
    ...settings,
    bodyMasses: [{ date: '2026-11-26', value, unit: 'kg' }],
  }))
}

/** As many days in a table as an import needs to be cut in the middle. */
const sessions = isLongRun ? 3 : 2
const rows = [10, 11, 12].slice(0, sessions).map((day) => `2026-01-${day},front squat,5,100`)
const table = ['date,exercise,reps,load', ...rows].join('\n')

const words = (found: unknown) => (found instanceof Error ? found.message : JSON.stringify(found))

describe('a power cut', () => {
  it.each([
    ['a file system with second names for a file', () => {}],
    [
      'one without (exFAT)',
      (call: string) => {
        if (call === 'link') throw Object.assign(new Error('no links'), { code: 'EPERM' })
      },
    ],
  ])('loses no event that was reported as saved, nor the copy before it: %s', (_, before) => {
    disk.before = before
    const promises: Promised<number>[] = []
    const file = openLogbook(home).create(legs, started)
    expect(file.state).toEqual({ ok: true })
    promises.push(promise(1))
    // The second append is the first that replaces a previous copy.
    const numbers = isLongRun ? [1, 2, 3] : [1, 2]
    for (const number of numbers) {
      expect(file.append([setRecorded(number)])).toEqual({ ok: true })
      promises.push(promise(number + 1))
    }
    file.close()
    const count = cutEverywhere(promises, sessionsIn, (found, promised, next) => {
      if (found instanceof Error || found.damages > 0 || !found.goesOn) return words(found)
      const [events = 0] = found.events
      if (events < (promised ?? 0) || events > (next ?? promised ?? 0))
        return `${promised} promised, ${words(found)}`
      return found.copies.every((copy) => copy > 0 && copy <= events) ? null : words(found)
    })
    tell(`power cut while ${numbers.length} results are recorded: ${count} states`)
  })

  it('restores no discarded session', () => {
    const file = openLogbook(home).create(legs, started)
    file.discard()
    const promises = [promise('gone')]
    cutEverywhere(promises, sessionsIn, (found, promised) =>
      found instanceof Error || (promised !== null && found.events.length > 0) ? words(found) : null,
    )
  })

  it('leaves all of an import or nothing, and all once it has ended', async () => {
    const files = { 'table.csv': table }
    const ran = await runProgram(['import', 'table.csv'], { files, logbook: home })
    expect(ran.code).toBe(0)
    const promises = [promise(sessions)]
    const count = cutEverywhere(promises, sessionsIn, (found, promised) => {
      if (found instanceof Error || found.damages > 0) return words(found)
      const stored = found.events.length
      return stored === sessions || (stored === 0 && promised === null) ? null : words(found)
    })
    tell(`power cut while ${sessions} sessions are imported: ${count} states`)
  })

  it('loses no prescription that was added', () => {
    const add = (text: string) => addPrescription(home, 'push', text)
    const promises = ['one', 'two'].map((text) => {
      add(text)
      return { after: disk.changes.length, what: text === 'one' ? 1 : 2 }
    })
    const look = (home: string) =>
      openLogbook(home, restarted)
        .prescriptions()
        .map(({ path }) => readFileSync(path, 'utf8'))
    cutEverywhere(promises, look, (found, promised) => {
      if (found instanceof Error) return words(found)
      return ['one', 'two'].slice(0, promised ?? 0).every((text) => found.includes(text))
        ? null
        : words(found)
    })
  })

  it('leaves the settings of before or after a change, and those of after once it is done', () => {
    const promises = [70, 71, 72].map((value) => {
      setMass(value)
      return promise(value)
    })
    const look = (home: string) => readSettings(home)
    cutEverywhere(promises, look, (found, promised, next) => {
      if (found instanceof Error || found.damages.length > 0) return words(found)
      const value = found.settings.bodyMasses[0]?.value ?? null
      return isEither(value, promised, next) ? null : words(value)
    })
  })

  it('leaves the mornings, and the plan, of before or after a change, and those of after once it is done', () => {
    const beats = [48, 49, 50]
    const promises: Promised<number>[] = []
    for (const [index, restingHeartRate] of beats.entries()) {
      const [date, at] = ['2026-11-26', `2026-11-26T06:4${index}:00+01:00`]
      addMornings(home, [{ type: 'typed', at, date, values: { restingHeartRate } }])
      promises.push(promise(restingHeartRate))
    }
    cutEverywhere(
      promises,
      (home) => readMornings(home).mornings.at(-1)?.restingHeartRate ?? null,
      (found, promised, next) =>
        !(found instanceof Error) && isEither(found, promised, next) ? null : `${found} for ${promised}`,
    )
    freshDisk('plan')
    addOwnText(home, 'plan.txt', 'One\n')
    const texts = [promise('One\n')]
    changeOwnText(home, 'plan.txt', 'One\n', 'Two\n')
    texts.push(promise('Two\n'))
    cutEverywhere(
      texts,
      (home) => readOwnText(home, 'plan.txt'),
      (found, promised, next) =>
        !(found instanceof Error) && isEither(found, promised, next) ? null : `${found} for ${promised}`,
    )
  })

  it('loses no damaged file when its previous copy replaces it', () => {
    const file = openLogbook(home).create(legs, started)
    file.append([setRecorded(1)])
    file.close()
    const damaged = 'what is left of the session'
    writeFileSync(file.path, damaged)
    const look = (home: string) => {
      const texts = Object.values(textsBelow(join(home, 'sessions', '2026')))
      const listed = openLogbook(home, restarted).list().length
      return { isKept: texts.includes(damaged), listed, goesOn: sessionsIn(home).goesOn }
    }
    cutDuring(
      () => openLogbook(home).open('newest').close(),
      look,
      ({ isKept, goesOn, listed }) => isKept && goesOn && listed === 1,
    )
  })
})

const errors = { ENOSPC: 'the disk is full', EIO: 'the disk reports an error' } as const
const results = isLongRun ? 4 : 2

describe(`a disk that fails once while ${results} results are recorded`, () => {
  it.each(Object.entries(errors))('with %s says so at once, and loses no result', (code, why) => {
    let runs = 0
    let faults = 0
    for (let failing = 1; ; failing += 1) {
      const { lines, wasReached, isTold } = recordFailingAt(failing, code)
      if (!wasReached) break
      runs += 1
      faults += isTold ? 1 : 0
      expect({ failing, wrong: wrongIn(lines, why) }).toEqual({ failing, wrong: [] })
      const logbook = openLogbook(home)
      expect(resultsIn(logbook.read('newest').session)).toBe(results)
      expect(logbook.damages).toEqual([])
    }
    expect(runs).toBeGreaterThan(results * 6)
    tell(`${code} at each of ${runs} calls: ${faults} were told`)
  })
})

function recordFailingAt(failing: number, code: string) {
  freshDisk(`${code}-${failing}`)
  const lines: string[] = []
  let calls = 0
  disk.before = (call) => {
    if (!['open', 'write', 'fsync', 'rename', 'link'].includes(call)) return
    calls += 1
    if (calls === failing) throw Object.assign(new Error(code), { code })
  }
  recordResults(openLogbook(home), results, (line) => lines.push(line))
  const isTold = lines.some((line) => /^(unsaved|refused)/.test(line))
  return { lines, wasReached: calls >= failing, isTold }
}

describe('a command with one failing call, whichever it is,', () => {
  const files = { 'table.csv': table }
  const isFinished = () => replay(openLogbook(home, restarted).read('newest').session).finished
  const massIn = () => readSettings(home).settings.bodyMasses.at(-1)?.value
  const stored = () => openLogbook(home, restarted).list().length

  it.each([
    {
      argv: ['settings', 'body-mass', '70 kg on 2026-11-26'],
      prepare: () => void setMass(60),
      wrong: (said: string) => {
        if (said === '') return massIn() !== 70
        return said.includes('It is as before.') ? massIn() !== 60 : ![60, 70].includes(massIn() ?? 0)
      },
    },
    {
      argv: ['reopen', 'newest'],
      prepare: () =>
        openLogbook(home)
          .create(legs, started, [setRecorded(1), finished])
          .close(),
      wrong: (said: string) => {
        if (said === '' || said.includes('is open again all the same')) return isFinished()
        return said.includes('It is closed as before.') ? !isFinished() : stored() !== 1
      },
    },
    {
      argv: ['import', 'table.csv'],
      prepare: () => {},
      wrong: (said: string) => {
        if (said.includes('Nothing was stored.')) return stored() !== 0
        return said === '' || said.includes('Do not import them again')
          ? stored() !== sessions
          : ![0, sessions].includes(stored())
      },
    },
  ])('$argv.0 reports what is true then', async ({ argv, prepare, wrong }) => {
    const lies: string[] = []
    let injected = 0
    for (const code of ['ENOSPC', 'EIO']) {
      for (let failing = 1, wasReached = true; wasReached; failing += 1) {
        freshDisk(`${argv[0]}-${code}-${failing}`)
        prepare()
        let calls = 0
        disk.before = (call) => {
          calls += 1
          if (calls === failing) throw Object.assign(new Error(`${code}: ${call}`), { code })
        }
        const { code: status, stderr } = await runProgram(argv, { files, logbook: home })
        disk.before = () => {}
        wasReached = calls >= failing
        if (wasReached) injected += 1
        const said = status === 0 ? '' : stderr
        if (stderr.includes('Something in the program is wrong') || wrong(said))
          lies.push(`${code} at call ${failing}: ${status} ${stderr}`)
      }
    }
    expect(lies).toEqual([])
    expect(injected).toBeGreaterThan(10)
    tell(`${argv[0]}: ${injected} calls failed, and what it said was true`)
  })
})

describe('contenders for a lock, one interrupting before any call of another, and a third before any of its own', () => {
  it.each([
    ['free', false],
    ['of a dead owner', true],
  ])('get it once if it is %s', (_, isDead) => {
    let runs = 0
    for (let second = 1; second <= mostCalls; second += 1) {
      for (let third = 1; third <= mostCalls; third += 1) {
        freshDisk(`lock-${second}-${third}`)
        mkdirSync(home)
        const path = join(home, 'a.lock')
        if (isDead) takeLock(path, machineWith({ pid: deadPid, began: () => '1' }))
        const outcomes = contended(path, [second, third])
        const won = outcomes.filter((outcome) => isLock(outcome))
        expect({ second, third, won: won.length }).toEqual({ second, third, won: 1 })
        expect(readdirSync(home)).toEqual(['a.lock'])
        for (const lock of won) lock.release()
        expect(readdirSync(home)).toEqual([])
        runs += outcomes.length
      }
    }
    tell(`${runs} contenders for ${mostCalls ** 2} locks`)
  })
})

/** More calls than taking over a dead lock makes. */
const mostCalls = 16

/** @param places the call at which the first is interrupted by the second, and the second by the third */
function contended(path: string, places: readonly number[]): (Lock | Owner)[] {
  const outcomes: (Lock | Owner)[] = []
  const calls: number[] = []
  const contend = () => {
    calls.push(0)
    outcomes.push(takeLock(path, thisMachine()))
    calls.pop()
  }
  let begun = 1
  disk.before = () => {
    const depth = calls.length - 1
    const call = (calls.pop() ?? 0) + 1
    calls.push(call)
    if (depth + 1 !== begun || call !== places[depth]) return
    begun += 1
    contend()
  }
  contend()
  disk.before = () => {}
  return outcomes
}

/** The texts of the files below a folder, by path. */
function textsBelow(place: string, under = ''): Record<string, string> {
  const texts: Record<string, string> = {}
  for (const entry of readdirSync(join(place, under), { withFileTypes: true })) {
    const path = join(under, entry.name)
    if (entry.isDirectory()) Object.assign(texts, textsBelow(place, path))
    else texts[path] = readFileSync(join(place, path), 'utf8')
  }
  return texts
}

describe('a power cut while files are moved', () => {
  it('loses no damaged file that is replaced, and has the good text in its place once it is', () => {
    mkdirSync(home)
    writeFileSync(join(home, 'foods.txt'), 'damaged')
    cutDuring(
      () => expect(replaceDamaged(join(home, 'foods.txt'), 'good')).toBe('foods.txt.damaged-1'),
      textsBelow,
      (found) =>
        Object.values(found).includes('damaged') && ['good', 'damaged'].includes(found['foods.txt'] ?? ''),
      (found) => found['foods.txt'] === 'good',
    )
  })

  it('leaves all of a restored backup or nothing, and all once it is restored', () => {
    const files = { 'plan.txt': 'Ten\n', 'prescriptions/push.txt': 'Push\n' }
    restoreBackup(home, {
      files: Object.entries(files).map(([path, text]) => ({ path, bytes: Buffer.from(text) })),
    })
    const promises = [promise('all')]
    cutEverywhere(
      promises,
      (place) => (existsSync(place) ? textsBelow(place) : {}),
      (found, promised) => {
        if (found instanceof Error) return words(found)
        const isWhole =
          JSON.stringify(Object.entries(found).sort()) === JSON.stringify(Object.entries(files).sort())
        return isWhole || (promised === null && Object.keys(found).length === 0) ? null : words(found)
      },
    )
  })

  it('keeps a version of a session that went to the trash there', () => {
    const file = openLogbook(home).create(legs, started)
    file.close()
    writeFileSync(file.path.replace(/\.json$/, '-abc123.json'), 'the other version')
    const placesIn = (found: Record<string, string>) =>
      Object.keys(found).filter((path) => found[path] === 'the other version')
    cutDuring(
      () => expect(keepVersion(home, file.id, thisMachine())).toEqual([`${file.id}-abc123`]),
      textsBelow,
      (found) => placesIn(found).length === 1,
      (found) => placesIn(found)[0]?.startsWith('trash') === true,
    )
  })
})
