import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished, vi } from 'vitest'
import {
  isDead,
  isLock,
  type Lock,
  lockedError,
  lockOwner,
  takeLock,
  underLock,
} from '../../src/logbook/lock.ts'
import { thisMachine } from '../../src/logbook/machine.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { failing, insteadOf } from './otherCalls.ts'
import { deadPid, machineWith } from './testMachine.ts'

const machine = thisMachine()

function taken(path: string, by = machine): Lock {
  const outcome = takeLock(path, by)
  if (!isLock(outcome)) throw new Error(`held by ${outcome.pid}`)
  return outcome
}

describe('a lock', () => {
  it('is taken, and is gone after its release', () => {
    const folder = temporaryFolder()
    const lock = taken(join(folder, 'a.lock'))
    expect(readdirSync(folder)).toEqual(['a.lock'])
    lock.release()
    expect(readdirSync(folder)).toEqual([])
  })

  it('tells the second process who holds it', () => {
    const path = join(temporaryFolder(), 'a.lock')
    taken(path)
    expect(takeLock(path, machine)).toMatchObject({
      pid: process.pid,
      host: machine.host,
      boot: machine.boot,
    })
    expect(lockOwner(path, machine)?.pid).toBe(process.pid)
  })

  it.each([
    ['is not running', machineWith({ pid: deadPid, began: () => '1' })],
    [
      'began at another time than the process that has its number now',
      machineWith({ began: () => 'before' }),
    ],
    ['was of an earlier start of the machine', machineWith({ boot: 'before' })],
  ])('is taken over at once from a process that %s', (_, dead) => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.lock')
    const old = taken(path, dead)
    expect(lockOwner(path, machine)).toBeNull()
    const lock = taken(path)
    old.release()
    expect(lockOwner(path, machine)?.pid).toBe(process.pid)
    expect(readdirSync(folder)).toEqual(['a.lock'])
    lock.release()
    expect(existsSync(path)).toBe(false)
  })

  it.each<[string, Partial<Parameters<typeof isDead>[0]>, Partial<typeof machine>, boolean]>([
    ['lives if its process runs', {}, {}, false],
    ['is dead if its process ended', {}, { isRunning: () => false }, true],
    ['is dead if a later process has its number', { began: 'then' }, {}, true],
    ['lives if the begin of its process is not known', { began: null }, {}, false],
    ['lives if the begin of its process cannot be asked', {}, { began: () => null }, false],
    ['is dead after a restart of this machine', { boot: 'before' }, {}, true],
    ['lives without a boot, where the machine has one', { boot: null }, { isRunning: () => false }, false],
    ['lives with a boot, where the machine has none', {}, { boot: null, isRunning: () => false }, false],
    [
      'is dead with its process without a boot, where the machine has none either',
      { boot: null },
      { boot: null, isRunning: () => false },
      true,
    ],
    [
      'is dead with its process if the machine has only been renamed',
      { host: 'renamed' },
      { isRunning: () => false },
      true,
    ],
    ['lives if another machine has it', { host: 'other', boot: 'other' }, { isRunning: () => false }, false],
    [
      'lives if another machine without boots has it',
      { host: 'other', boot: null },
      { boot: null, isRunning: () => false },
      false,
    ],
    [
      'lives if it is from another space of process numbers',
      { space: 'other' },
      { isRunning: () => false },
      false,
    ],
    [
      'counts as from this space of process numbers if its own is unknown',
      { space: null },
      { isRunning: () => false },
      true,
    ],
    ['is dead if it cannot be read', { name: 'unreadable', host: 'other' }, {}, true],
  ])('%s', (_, owner, changes, dead) => {
    const asker = machineWith({
      host: 'here',
      boot: 'now',
      space: 'own',
      began: () => 'once',
      isRunning: () => true,
      ...changes,
    })
    const lock = {
      pid: 7,
      host: 'here',
      boot: 'now',
      space: 'own',
      began: 'once',
      at: '',
      name: 'a',
      ...owner,
    }
    expect(isDead(lock, asker)).toBe(dead)
  })

  it('names who holds it, since when, and what to remove', () => {
    const owner = {
      pid: 7,
      host: 'garage',
      boot: null,
      space: null,
      began: null,
      at: '2026-11-26T06:40:00.000+01:00',
    }
    const { message, exit } = lockedError('The session abc', '/book/abc.lock', owner as never)
    expect(message).toBe(
      'The session abc is in use by process 7 on garage since 2026-11-26 06:40. Close it there; if that machine is gone for good, remove /book/abc.lock.',
    )
    expect(exit).toBe(3)
  })

  it('is never taken over from a process on another machine', () => {
    const path = join(temporaryFolder(), 'a.lock')
    taken(path, machineWith({ host: 'elsewhere', pid: deadPid, boot: 'another' }))
    expect(takeLock(path, machine)).toMatchObject({ host: 'elsewhere' })
  })

  it('is taken over if a power cut has emptied it', () => {
    const path = join(temporaryFolder(), 'a.lock')
    writeFileSync(path, '')
    utimesSync(path, 1_700_000_000, 1_700_000_000)
    expect(isLock(takeLock(path, machine))).toBe(true)
  })

  it('is waited for while it is being written, at most a second', () => {
    const path = join(temporaryFolder(), 'a.lock')
    writeFileSync(path, '')
    const waits = waitingFrom(path, () => {})
    expect(isLock(takeLock(path, machine))).toBe(true)
    // 100 waits of 10 ms make a second; one more passes it.
    expect(waits).toEqual(Array.from({ length: 101 }, () => 10))
  })

  it('belongs to its owner once it is written', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.lock')
    taken(join(folder, 'written.lock'))
    writeFileSync(path, '')
    const waits = waitingFrom(path, (count) => {
      if (count === 3) renameSync(join(folder, 'written.lock'), path)
    })
    expect(takeLock(path, machine)).toMatchObject({ pid: process.pid })
    expect(waits).toEqual([10, 10, 10])
  })

  it('is taken over if the process that was taking it over died too', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.lock')
    const dead = machineWith({ pid: deadPid, began: () => '1' })
    taken(path, dead)
    const name = JSON.parse(readFileSync(path, 'utf8')).name
    taken(`${path}.${name}`, dead)
    taken(path)
    expect(readdirSync(folder)).toEqual(['a.lock'])
  })

  it('held for an action is released, also if the action throws', () => {
    const path = join(temporaryFolder(), 'a.lock')
    expect(() =>
      underLock('The file a', path, machine, () => {
        throw new Error('no')
      }),
    ).toThrow('no')
    expect(underLock('The file a', path, machine, () => 7)).toBe(7)
  })

  it('is waited for as often as it may be while another process has it, then named; if it is released meanwhile, it is taken', () => {
    const path = join(temporaryFolder(), 'settings.json.lock')
    const lock = taken(path)
    let worked = 0
    const work = () => {
      worked += 1
    }
    const waits = waitingFrom(path, () => {})
    expect(() => underLock('The file settings.json', path, machine, work, 201)).toThrow(
      /^The file settings\.json is in use by process /,
    )
    expect(waits).toEqual(Array(200).fill(10))
    vi.restoreAllMocks()
    waitingFrom(path, (count) => {
      if (count === 3) lock.release()
    })
    underLock('The file settings.json', path, machine, work, 201)
    expect(worked).toBe(1)
    expect(existsSync(path)).toBe(false)
  })

  it('is taken if it is gone by the time it is looked at', () => {
    const path = join(temporaryFolder(), 'a.lock')
    let calls = 0
    insteadOf('linkSync', (linkSync) => (from: string, to: string) => {
      calls += 1
      if (calls === 1) throw Object.assign(new Error('taken'), { code: 'EEXIST' })
      linkSync(from, to)
    })
    taken(path).release()
    expect(calls).toBe(2)
  })

  it('is taken if it cannot be read and is gone the next moment', () => {
    const path = join(temporaryFolder(), 'a.lock')
    writeFileSync(path, '')
    insteadOf('statSync', (statSync) => (which: string, how: { throwIfNoEntry: false }) => {
      rmSync(which, { force: true })
      return statSync(which, how)
    })
    taken(path).release()
    expect(existsSync(path)).toBe(false)
  })

  it('cannot be taken where it cannot be made, and leaves nothing', () => {
    const folder = temporaryFolder()
    failing('linkSync', 'EIO')
    expect(() => takeLock(join(folder, 'a.lock'), machine)).toThrow('EIO')
    expect(readdirSync(folder)).toEqual([])
  })

  it('is refused if it is a folder, with what to remove', () => {
    const path = join(temporaryFolder(), 'a.lock')
    mkdirSync(path)
    expect(() => takeLock(path, machine)).toThrow(`The lock ${path} is a folder. Remove it.`)
  })

  it('is taken although the file that it was made from cannot be removed', () => {
    const path = join(temporaryFolder(), 'a.lock')
    failing('rmSync', 'EBUSY')
    taken(path)
    expect(lockOwner(path, machine)?.pid).toBe(machine.pid)
  })

  it('is released without an error if it cannot be removed', () => {
    const path = join(temporaryFolder(), 'a.lock')
    const lock = taken(path)
    failing('rmSync', 'EIO')
    expect(() => lock.release()).not.toThrow()
  })
})

/** Stops the clock at the moment the file was made; only the program's own waits move it.
 * @returns the waits so far, in milliseconds */
function waitingFrom(path: string, then: (count: number) => void): number[] {
  const waits: number[] = []
  const made = 1_795_000_000
  utimesSync(path, made, made)
  vi.useFakeTimers({ toFake: ['Date'], now: made * 1000 })
  vi.spyOn(Atomics, 'wait').mockImplementation((_array, _index, _value, milliseconds = 0) => {
    waits.push(milliseconds)
    vi.setSystemTime(Date.now() + milliseconds)
    then(waits.length)
    return 'timed-out'
  })
  onTestFinished(() => {
    vi.useRealTimers()
    vi.restoreAllMocks()
  })
  return waits
}
