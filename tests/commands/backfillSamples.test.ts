import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { hasResult } from '../../src/prescription/step.ts'
import { replay } from '../../src/session/replay.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

const samples = readdirSync('sample-sessions').filter((name) => name.endsWith('.results.txt'))

describe('the finished sample sessions', () => {
  it('include at least two', () => {
    expect(samples.length).toBeGreaterThanOrEqual(2)
  })

  it.each(samples)('%s is stored without a message, with every result of its day', async (name) => {
    const folder = temporaryFolder()
    const day = name.replace('.results.txt', '.txt')
    const files = Object.fromEntries(
      [day, name].map((file) => [file, readFileSync(join('sample-sessions', file), 'utf8')]),
    )
    const now = new Date('2026-11-30T20:00:00+01:00')
    const ran = await runProgram(['backfill', day, name], { files, logbook: folder, now })
    expect(ran.stderr).toBe('')
    expect(ran.code).toBe(0)
    const state = replay(openLogbook(folder).read(ran.stdout.trim()).session)
    expect(state.finished).toBe(true)
    const open = state.steps.filter(
      (step) => hasResult(step) && !state.recorded.has(step.id) && !state.skipped.has(step.id),
    )
    expect(open).toEqual([])
    expect(state.startedAt).not.toBeNull()
  })
})
