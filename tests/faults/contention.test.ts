import { type ChildProcess, spawn } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { thisMachine } from '../../src/logbook/machine.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { setRecorded } from '../logbook/sampleSession.ts'
import { deadPid } from '../logbook/testMachine.ts'
import { builtDriver, isLongRun, tell } from './harness.ts'
import { temporaryPlace } from './tracing.ts'

const contenders = isLongRun ? 8 : 4
const reads = isLongRun ? 1000 : 30
const rounds = isLongRun ? 200 : 20
let driver: Awaited<ReturnType<typeof builtDriver>>
beforeAll(async () => {
  driver = await builtDriver()
})
afterAll(() => driver.remove())

describe('several programs at once', () => {
  it(`${contenders} contenders: each lock is won by exactly one, its owner dead or not`, async () => {
    const place = temporaryPlace()
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
    const all = Array.from({ length: contenders }, () =>
      spawn(process.execPath, [driver.path, 'contend', place.path], { stdio: ['pipe', 'pipe', 'inherit'] }),
    )
    try {
      const next = all.map(linesOf)
      expect(await Promise.all(next.map((line) => line()))).toEqual(all.map(() => 'ready'))
      for (let round = 0; round < rounds; round += 1) {
        for (const { stdin } of all) stdin.write(`${round}\n`)
        const outcomes = await Promise.all(next.map((line) => line()))
        const winner = outcomes.indexOf('taken')
        const held = `held by ${all[winner]?.pid}`
        expect(outcomes).toEqual(all.map((_, index) => (index === winner ? 'taken' : held)))
      }
      tell(`${contenders} contenders for ${rounds} locks, ${rounds / 2} of them of a dead owner`)
    } finally {
      for (const contender of all) contender.kill('SIGKILL')
      place.remove()
    }
  })

  it("tell a second recorder who records, show a reader whole sessions that only grow, and release a killed one's lock", async () => {
    const place = temporaryPlace()
    const directory = join(place.path, 'logbook')
    const recorder = spawn(process.execPath, [driver.path, 'append', directory, '100000'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    try {
      const next = linesOf(recorder)
      let before = 0
      for (let read = 0; read < reads; read += 1) {
        const saved = Number((await next()).replace('saved ', ''))
        const logbook = openLogbook(directory)
        const { session } = logbook.read('newest')
        expect(session.events.length).toBeGreaterThan(saved)
        expect(session.events.length).toBeGreaterThanOrEqual(before)
        expect(logbook.damages).toEqual([])
        before = session.events.length
        expect(() => logbook.open('newest')).toThrow(`in use by process ${recorder.pid} on `)
      }
      const ended = new Promise((resolve) => recorder.on('close', resolve))
      recorder.kill('SIGKILL')
      await ended
      const file = openLogbook(directory).open('newest')
      expect(file.session.events.length).toBeGreaterThanOrEqual(before)
      expect(file.append([setRecorded(1)])).toEqual({ ok: true })
      file.close()
      tell(`read ${reads} times, and refused as often to record, while another process recorded`)
    } finally {
      recorder.kill('SIGKILL')
      place.remove()
    }
  })
})

/** Yields lines one after the other, each as soon as it has arrived. */
function linesOf(child: ChildProcess): () => Promise<string> {
  const open: string[] = []
  let wait: ((line: string) => void) | null = null
  let rest = ''
  child.stdout?.on('data', (data) => {
    const lines = (rest + data).split('\n')
    rest = lines.pop() ?? ''
    open.push(...lines)
    const line = wait === null ? undefined : open.shift()
    if (line === undefined) return
    const waiting = wait
    wait = null
    waiting?.(line)
  })
  return () =>
    new Promise((resolve) => {
      const line = open.shift()
      if (line === undefined) wait = resolve
      else resolve(line)
    })
}
