import { spawn } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { thisMachine } from '../../src/logbook/machine.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { setRecorded } from '../logbook/sampleSession.ts'
import { deadPid } from '../logbook/testMachine.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { builtDriver, isLongRun, linesOf, tell } from './harness.ts'

const contenders = isLongRun ? 8 : 4
const reads = isLongRun ? 1000 : 30
const rounds = isLongRun ? 200 : 20
const driver = builtDriver()

describe('several programs at once', () => {
  it(`${contenders} contenders: each lock is won by exactly one, its owner dead or not`, async () => {
    const place = temporaryFolder()
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
      writeFileSync(join(place, `${round}.lock`), JSON.stringify(dead))
    }
    const all = Array.from({ length: contenders }, () =>
      spawn(process.execPath, [driver, 'contend', place], { stdio: ['pipe', 'pipe', 'inherit'] }),
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
    }
  })

  it("tell a second recorder who records, show a reader whole sessions that only grow, and release a killed one's lock", async () => {
    const directory = join(temporaryFolder(), 'logbook')
    const recorder = spawn(process.execPath, [driver, 'append', directory, '100000'], {
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
    }
  })
})
