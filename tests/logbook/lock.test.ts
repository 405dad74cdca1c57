import { existsSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { isLock, type Lock, lockOwner, takeLock, withLock } from '../../src/logbook/lock.ts'
import { thisMachine } from '../../src/logbook/machine.ts'
import { temporaryFolder } from './temporaryFolder.ts'
import { deadPid, machineWith } from './testMachine.ts'

const machine = thisMachine()

function taken(path: string, by = machine): Lock {
  const outcome = takeLock(path, by)
  if (!isLock(outcome)) throw new Error(`held by ${outcome.pid}`)
  return outcome
}

describe('a lock', () => {
  it('is taken, and gone when it is released', () => {
    const folder = temporaryFolder()
    const lock = taken(join(folder, 'a.lock'))
    expect(readdirSync(folder)).toEqual(['a.lock'])
    lock.release()
    expect(readdirSync(folder)).toEqual([])
  })

  it('tells the second who has it', () => {
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
  ])('of a process that %s is taken over at once', (_, dead) => {
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

  it('of a process on another machine is never taken over', () => {
    const path = join(temporaryFolder(), 'a.lock')
    taken(path, machineWith({ host: 'elsewhere', pid: deadPid, boot: 'another' }))
    expect(takeLock(path, machine)).toMatchObject({ host: 'elsewhere' })
  })

  it('that a power cut has emptied is taken over', () => {
    const path = join(temporaryFolder(), 'a.lock')
    writeFileSync(path, '')
    const before = new Date(Date.now() - 60_000)
    utimesSync(path, before, before)
    expect(isLock(takeLock(path, machine))).toBe(true)
  })

  it('that is in the making is waited for, a second at most', () => {
    const path = join(temporaryFolder(), 'a.lock')
    writeFileSync(path, '')
    const begun = Date.now()
    expect(isLock(takeLock(path, machine))).toBe(true)
    expect(Date.now() - begun).toBeGreaterThan(900)
  })

  it('is taken over where the one who was taking it over died too', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.lock')
    const dead = machineWith({ pid: deadPid, began: () => '1' })
    taken(path, dead)
    const name = JSON.parse(readText(path)).name
    taken(`${path}.${name}.1`, dead)
    taken(path)
    expect(readdirSync(folder)).toEqual(['a.lock'])
  })

  it('held for something short is waited for, and given back when the work throws', () => {
    const path = join(temporaryFolder(), 'a.lock')
    expect(() =>
      withLock(path, machine, () => {
        throw new Error('no')
      }),
    ).toThrow('no')
    expect(withLock(path, machine, () => 7)).toBe(7)
  })
})

function readText(path: string): string {
  return readFileSync(path, 'utf8')
}
