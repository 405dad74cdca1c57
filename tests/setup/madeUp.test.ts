import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { Session } from '../../src/session/model.ts'
import { madeUpSessions } from '../../src/setup/madeUp/logbook.ts'

const { prepareTryOut } = createRequire(import.meta.url)('../../src/setup/madeUp.cjs')
const sixteen = { seed: 1, weeks: 16, last: '2026-11-25' }

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'pausebook-made-up-'))
  onTestFinished(() => rmSync(made, { recursive: true, force: true }))
  return made
}

describe('the made-up logbook', () => {
  it('is the same for the same seed, and another for another', () => {
    const made = madeUpSessions(sixteen)
    expect(madeUpSessions(sixteen)).toEqual(made)
    expect(madeUpSessions({ ...sixteen, seed: 2 })).not.toEqual(made)
  })

  it('has sessions that any program can read, of sixteen weeks, six or seven in most', () => {
    const made = madeUpSessions(sixteen)
    for (const { session } of made) expect(Session.parse(session)).toEqual(session)
    expect(made[0]?.date).toBe('2026-08-10')
    expect(made.at(-1)?.date).toBe('2026-11-25')
    expect(made.length).toBeGreaterThan(16 * 6)
    expect(new Set(made.map(({ session }) => session.id)).size).toBe(made.length)
  })

  it('has as many sessions as are asked for, over as many years as they take', () => {
    const made = madeUpSessions({ seed: 1, sessions: 1000, last: '2026-11-25' })
    expect(made).toHaveLength(1000)
    expect(made[0]?.date.slice(0, 4)).toBe('2024')
  })
})

describe('the logbook for trying out', () => {
  it('is made once, up to the last day, and never written over', async () => {
    const directory = join(folder(), 'tryout')
    await prepareTryOut(directory, '2026-11-25')
    const made = openLogbook(directory).list()
    expect(made.length).toBeGreaterThan(90)
    expect(made.every(({ date }) => date <= '2026-11-25')).toBe(true)
    const before = statSync(join(directory, 'index.ndjson')).mtimeMs
    await prepareTryOut(directory, '2026-11-26')
    expect(statSync(join(directory, 'index.ndjson')).mtimeMs).toBe(before)
    expect(JSON.parse(readFileSync(join(directory, 'settings.json'), 'utf8')).firstStartSeen).toBe(false)
  })

  it('that cannot be made leaves nothing behind', async () => {
    const inTheWay = join(folder(), 'file')
    writeFileSync(inTheWay, '')
    await prepareTryOut(join(inTheWay, 'tryout'))
    expect(readFileSync(inTheWay, 'utf8')).toBe('')
    expect(readdirSync(join(inTheWay, '..'))).toEqual(['file'])
  })
})
