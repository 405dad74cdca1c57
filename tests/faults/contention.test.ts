import { type ChildProcess, spawn } from 'node:child_process'
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { thisMachine } from '../../src/logbook/machine.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { deadPid } from '../logbook/testMachine.ts'
import { builtDriver, drive, ended, tell } from './harness.ts'
import { temporaryPlace } from './tracing.ts'

let driver: Awaited<ReturnType<typeof builtDriver>>
beforeAll(async () => {
  driver = await builtDriver()
})
afterAll(() => driver.remove())

describe('several programs at once', () => {
  it('eight contenders: each lock is won by exactly one, its owner dead or not', async () => {
    const place = temporaryPlace()
    const rounds = 40
    const { host, boot } = thisMachine()
    for (let round = 0; round < rounds; round += 2) {
      const dead = {
        pid: deadPid,
        host,
        boot,
        began: '1',
        at: '2026-11-26T06:40:00.000+01:00',
        name: `dead${round}`,
      }
      writeFileSync(join(place.path, `${round}.lock`), JSON.stringify(dead))
    }
    const at = Date.now() + 1500
    const contenders = Array.from({ length: 8 }, () =>
      spawn(process.execPath, [driver.path, 'contend', place.path, String(rounds), String(at)], {
        stdio: ['ignore', 'pipe', 'pipe'],
      }),
    )
    try {
      const said = await Promise.all(contenders.map(saidUntilDone))
      for (let round = 0; round < rounds; round += 1) {
        const outcomes = said.map((lines) => lines.find((line) => line.startsWith(`${round} `)))
        const winner = outcomes.indexOf(`${round} taken`)
        expect(outcomes.filter((line) => line === `${round} taken`)).toHaveLength(1)
        expect(
          outcomes.filter((line) => line === `${round} held by ${contenders[winner]?.pid}`),
        ).toHaveLength(7)
      }
      tell(`eight contenders for ${rounds} locks, ${rounds / 2} of them of a dead owner`)
    } finally {
      for (const contender of contenders) contender.kill('SIGKILL')
      place.remove()
    }
  }, 60_000)

  it('a second recorder is told who records, and a reader sees whole sessions that only grow', async () => {
    const place = temporaryPlace()
    const directory = join(place.path, 'logbook')
    mkdirSync(directory)
    const recorder = spawn(process.execPath, [driver.path, 'append', directory, '300'], {
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    const end = ended(recorder)
    let isOver = false
    end.then(() => {
      isOver = true
    })
    let reads = 0
    let told = 0
    let before = 0
    while (!isOver) {
      await new Promise((resolve) => setImmediate(resolve))
      const logbook = openLogbook(directory)
      if (logbook.list().length === 0) continue
      const { session } = logbook.read('newest')
      expect(session.events.length).toBeGreaterThanOrEqual(before)
      expect(logbook.damages).toEqual([])
      before = session.events.length
      reads += 1
      try {
        const file = logbook.open('newest')
        // It can only be had once the recorder has closed it.
        expect(file.session.events).toHaveLength(301)
        file.close()
      } catch (error) {
        expect((error as Error).message).toContain(`in use by process ${recorder.pid} on `)
        told += 1
      }
    }
    expect(await end).toMatchObject({ code: 0, stderr: '' })
    expect(openLogbook(directory).read('newest').session.events).toHaveLength(301)
    expect(told).toBeGreaterThan(5)
    tell(`read ${reads} times and refused ${told} times while 300 results were recorded`)
    place.remove()
  }, 60_000)

  it('a recorder that is killed leaves a lock that is dead at once', async () => {
    const place = temporaryPlace()
    const directory = join(place.path, 'logbook')
    const recorder = spawn(process.execPath, [driver.path, 'append', directory, '100000'], {
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    const end = ended(recorder)
    await new Promise<void>((resolve) => {
      recorder.stdout.on('data', (data) => String(data).includes('0\n') && setTimeout(resolve, 20))
    })
    recorder.kill('SIGKILL')
    const { lines } = await end
    const again = await drive(process.execPath, [driver.path, 'append', directory, '0'])
    expect(lines.length).toBeGreaterThan(1)
    expect(again).toMatchObject({ code: 0, stderr: '' })
    expect(Number(again.lines[0]?.replace('saved ', ''))).toBeGreaterThanOrEqual(lines.length - 1)
    place.remove()
  }, 60_000)
})

/** What it has said once it is done with its rounds; it lives on, and with it what it holds. */
function saidUntilDone(child: ChildProcess): Promise<string[]> {
  return new Promise((resolve, reject) => {
    let said = ''
    child.stderr?.on('data', (data) => reject(new Error(String(data))))
    child.stdout?.on('data', (data) => {
      said += data
      if (said.endsWith('done\n')) resolve(said.split('\n'))
    })
  })
}
