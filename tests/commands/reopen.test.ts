import { mkdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { replay } from '../../src/session/replay.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

/** A logbook with one session; returns its id. */
function logbookWith(isFinished: boolean): { logbook: string; id: string } {
  const logbook = temporaryFolder()
  const file = openLogbook(logbook).create(legs, started, [setRecorded(1), ...(isFinished ? [finished] : [])])
  file.close()
  return { logbook, id: file.id }
}

describe('pausebook reopen', () => {
  it('reopens a closed session: it is then unfinished, with everything that was recorded', async () => {
    const { logbook, id } = logbookWith(true)
    expect(openLogbook(logbook).unfinished()).toEqual([])
    const ran = await runProgram(['reopen', id], { logbook })
    expect(ran).toEqual({
      code: 0,
      stdout:
        `Legs (2026-11-26) is open again: ${id}\n` +
        '"pausebook" opens it first: e corrects a result, f closes a part and then the session.\n',
      stderr: '',
    })
    const [view] = openLogbook(logbook).unfinished()
    expect(view?.entry.id).toBe(id)
    expect(view?.recordedBy).toBeNull()
    expect(view?.session.events.at(-1)).toEqual({
      type: 'sessionReopened',
      at: '2026-11-26T06:40:00.000+01:00',
      up: null,
    })
    expect(replay(view?.session ?? { prescription: legs, events: [] }).recorded.size).toBe(1)
  })

  it('takes the beginning of an id and "newest", and prints JSON with --json', async () => {
    const { logbook, id } = logbookWith(true)
    const ran = await runProgram(['reopen', 'newest', '--json'], { logbook })
    expect(JSON.parse(ran.stdout)).toEqual({ id, title: 'Legs', date: '2026-11-26' })
    expect((await runProgram(['reopen', id.slice(0, 4)], { logbook })).code).toBe(1)
  })

  it('says of a session that is not closed how to resume it', async () => {
    const { logbook, id } = logbookWith(false)
    const before = openLogbook(logbook).read(id).session
    expect(await runProgram(['reopen', id], { logbook })).toEqual({
      code: 1,
      stdout: '',
      stderr: `pausebook: The session ${id} (Legs) is not closed, so there is nothing to open again. Resume it with "pausebook".\n`,
    })
    expect(openLogbook(logbook).read(id).session).toEqual(before)
  })

  it('says that the session does not exist', async () => {
    const { logbook } = logbookWith(true)
    expect(await runProgram(['reopen', 'zzzz'], { logbook })).toEqual({
      code: 1,
      stdout: '',
      stderr: 'pausebook: There is no session whose id begins with "zzzz". "pausebook history" lists them.\n',
    })
    expect((await runProgram(['reopen'], { logbook })).code).toBe(2)
  })

  it('leaves a session alone that another process is recording', async () => {
    const { logbook, id } = logbookWith(true)
    const recorded = openLogbook(logbook).open(id)
    try {
      const ran = await runProgram(['reopen', id], { logbook })
      expect(ran.code).toBe(3)
      expect(ran.stderr).toMatch(
        new RegExp(`^pausebook: The session ${id} is in use by process ${process.pid} on .+ since .+\\.`),
      )
    } finally {
      recorded.close()
    }
    expect(openLogbook(logbook).read(id).session.events.at(-1)).toEqual(finished)
  })

  it('says that nothing was changed if it cannot be saved', async () => {
    const { logbook, id } = logbookWith(true)
    const { path } = openLogbook(logbook).read(id).entry
    // A folder with the name of the earlier copy: rename() cannot replace it with a file, even for root.
    mkdirSync(`${path}.bak`)
    mkdirSync(`${path}.bak/x`)
    const ran = await runProgram(['reopen', id], { logbook })
    expect(ran.code).toBe(3)
    expect(ran.stderr).toMatch(
      new RegExp(
        `^pausebook: The session ${id} cannot be saved: .+\\. It is closed as before\\. Make room .+\n$`,
      ),
    )
    expect(openLogbook(logbook).read(id).session.events.at(-1)).toEqual(finished)
  })
})
