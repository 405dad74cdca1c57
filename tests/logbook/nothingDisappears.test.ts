import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { basename, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { runProgram } from '../commands/runProgram.ts'
import { skip } from '../faults/harness.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { finished, legs, setRecorded, started } from './sampleSession.ts'
import { deadPid } from './testMachine.ts'

function recorded() {
  const directory = join(temporaryFolder(), 'logbook')
  const logbook = openLogbook(directory)
  const [old, file] = ['2025-11-20', '2026-11-26'].map((date) => {
    const file = logbook.create(legs, { ...started, date })
    file.append([setRecorded(1)])
    file.append([finished])
    file.close()
    return file
  })
  if (!old || !file) throw new Error('two sessions')
  return { directory, old, file }
}

const run = (directory: string, ...words: string[]) => runProgram(words, { logbook: directory })

describe('a lone copy', () => {
  it('counts for its session, is reported, and is restored on request', async () => {
    const { directory, file } = recorded()
    rmSync(file.path)
    const listed = await run(directory, 'history')
    expect(listed.stdout.split('\n')).toHaveLength(3)
    expect(listed.stderr).toContain(
      `The file is gone. Nothing was changed; the previous copy (${basename(file.path)}.bak, 2 events)`,
    )
    expect(listed.code).toBe(3)
    expect((await run(directory, 'summary', file.id)).code).toBe(3)
    expect((await run(directory, 'verify', '--repair')).stdout).toContain('2 events).')
    expect((await run(directory, 'history')).code).toBe(0)
  })

  it('counts for the settings', async () => {
    const { directory } = recorded()
    for (const units of ['mi lb', 'km lb']) await run(directory, 'settings', 'units', units)
    rmSync(join(directory, 'settings.json'))
    const ran = await run(directory, 'settings', 'units')
    expect(ran.stdout).toBe('mi lb\n')
    expect(ran.stderr).toContain('settings.json: The file is gone.')
  })

  it('is never left when a session is discarded', () => {
    const { directory } = recorded()
    const file = openLogbook(directory).create(legs, started)
    file.append([setRecorded(1)])
    file.discard()
    expect(existsSync(`${file.path}.bak`)).toBe(false)
    expect(openLogbook(directory).list()).toHaveLength(2)
  })
})

describe('a folder that cannot be listed', () => {
  const commands = ['history', 'progress', 'week', 'summary', 'export', 'verify']

  it.each([
    ['is a broken link', (path: string) => symlinkSync('nowhere', path)],
    ['is a file', (path: string) => writeFileSync(path, '')],
    ['is a loop', (path: string) => symlinkSync(path, path)],
  ])('because it %s is reported, and the history never becomes shorter silently', async (_, make) => {
    const { directory } = recorded()
    const year = join(directory, 'sessions', '2025')
    renameSync(year, join(directory, 'elsewhere'))
    make(year)
    for (const command of commands) {
      const ran = await run(directory, command)
      expect([command, ran.code]).toEqual([command, 3])
      expect(`${ran.stdout}${ran.stderr}`).toMatch(
        /sessions\/2025: The folder cannot be listed: [^;]+; what is in it is left out\./,
      )
    }
  })

  it('is named by the week and by verify where it holds the days', async () => {
    const { directory } = recorded()
    writeFileSync(join(directory, 'prescriptions'), '')
    for (const command of ['week', 'verify']) {
      const ran = await run(directory, command)
      expect([command, ran.code]).toEqual([command, 3])
      expect(`${ran.stdout}${ran.stderr}`).toContain(
        'prescriptions: The folder cannot be listed: a file has the name of the folder;',
      )
    }
  })

  it('is no empty logbook, whichever session is asked for', async () => {
    const { directory } = recorded()
    const sessions = join(directory, 'sessions')
    renameSync(sessions, join(directory, 'elsewhere'))
    symlinkSync('nowhere', sessions)
    for (const words of [['summary'], ['next'], ['reopen', 'newest'], ['explain', '--session', 'newest']]) {
      const { code, stderr } = await run(directory, ...words)
      expect([words, code]).toEqual([words, 3])
      expect(stderr).toContain('No session can be read. sessions: The folder cannot be listed')
    }
  })

  it('is reported although the user may read the rest', async (context) => {
    if (process.getuid?.() === 0) skip(context, 'root may read every folder')
    if (process.getuid === undefined) skip(context, 'this system has no modes of files')
    const { directory } = recorded()
    chmodSync(join(directory, 'sessions', '2025'), 0)
    expect((await run(directory, 'history')).code).toBe(3)
    chmodSync(join(directory, 'sessions', '2025'), 0o700)
  })

  it('is answered with a sentence where it can be listed, but nothing in it may be opened', async (context) => {
    if (process.getuid?.() === 0) skip(context, 'root may read every folder')
    if (process.getuid === undefined) skip(context, 'this system has no modes of files')
    const { directory } = recorded()
    // As after "chmod -R 600".
    for (const year of ['2025', '2026']) chmodSync(join(directory, 'sessions', year), 0o600)
    for (const words of [['summary'], ['reopen', 'newest'], ['history'], ['next']]) {
      const { code, stderr } = await run(directory, ...words)
      expect([words, code]).toEqual([words, 3])
      expect(stderr).toMatch(/^pausebook: .*(may not be read by this user|change the permissions of)/)
    }
    for (const year of ['2025', '2026']) chmodSync(join(directory, 'sessions', year), 0o700)
    chmodSync(directory, 0)
    const { code, stderr } = await run(directory, 'history')
    expect([code, stderr]).toEqual([3, expect.stringContaining('listed: the permissions forbid it; what')])
    expect(stderr).not.toContain('Imported sessions')
    chmodSync(directory, 0o700)
  })
})

describe('a folder that is not a logbook', () => {
  it('is never swept, and nothing in it is moved', async () => {
    const directory = temporaryFolder()
    mkdirSync(join(directory, `thesis.${deadPid}.abcdefgh.tmp`))
    writeFileSync(join(directory, `thesis.${deadPid}.abcdefgh.tmp`, 'chapter.txt'), 'words')
    writeFileSync(join(directory, `letter.${deadPid}.abcdefgh.tmp`), 'words')
    writeFileSync(join(directory, 'door.lock.abcdefgh'), '')
    mkdirSync(join(directory, 'arrived-abcdefgh'))
    writeFileSync(join(directory, 'arrived-abcdefgh', 'picture.json'), 'pixels')
    const before = readdirSync(directory, { recursive: true, encoding: 'utf8' }).sort()
    await run(directory, 'history')
    await run(directory, 'verify', '--repair')
    expect(readdirSync(directory, { recursive: true, encoding: 'utf8' }).sort()).toEqual(before)
  })

  it('is not swept inside a logbook either', async () => {
    const { directory } = recorded()
    mkdirSync(join(directory, `thesis.${deadPid}.abcdefgh.tmp`))
    writeFileSync(join(directory, `.pausebook.${deadPid}.abcdefgh.tmp`), '')
    for (const name of readdirSync(directory)) utimesSync(join(directory, name), 0, 0)
    await run(directory, 'verify')
    const names = readdirSync(directory).filter((name) => name.endsWith('.tmp'))
    expect(names).toEqual([`thesis.${deadPid}.abcdefgh.tmp`])
  })
})

describe('a session that another program changes while it is recorded', () => {
  it('is not overwritten: the results are another version of the session, which counts, until one is kept', async () => {
    const { directory } = recorded()
    const date = '2026-11-27'
    const file = openLogbook(directory).create(legs, { ...started, date })
    file.append([setRecorded(1)])
    const other = readFileSync(file.path)
    file.append([setRecorded(2)])
    // Like copying an older state of the logbook's folder back.
    writeFileSync(file.path, other)
    const saved = file.append([setRecorded(3)])
    const [, id = ''] = /kept as the session (\w{10}-[0-9a-f]{6});/.exec(saved.ok ? '' : saved.reason) ?? []
    expect(saved).toMatchObject({ ok: false, isKept: true })
    expect(readFileSync(file.path)).toEqual(other)
    expect(() => openLogbook(directory).open(id)).toThrow(`The session ${id} is in use by process`)
    expect(file.append([finished]).ok).toBe(false)
    file.close()
    const listed = await run(directory, 'history', '--from', date)
    expect(listed.stdout.trimEnd().split('\n')).toHaveLength(1)
    expect(listed.stdout).toContain(`(kept twice, other: ${file.id})`)
    expect(openLogbook(directory).read(id).session.events).toHaveLength(5)
    expect((await run(directory, 'verify')).code).toBe(0)
    await run(directory, 'sync', '--keep', id)
    expect(existsSync(file.path)).toBe(false)
  })

  it('has its results named that an earlier version kept in a file of another name, which can take its place', async () => {
    const { directory } = recorded()
    const [{ path = '' } = {}] = openLogbook(directory).list()
    copyFileSync(path, `${path}.kept-1`)
    for (const command of ['history', 'summary', 'next', 'verify']) {
      const named = await run(directory, command)
      expect(named.code, command).toBe(3)
      expect(named.stdout + named.stderr, command).toContain(
        `.kept-1: The file holds results that were recorded while another program changed the session. They count nowhere. Rename it to ${basename(path)} to use it in place of the session, or delete it.`,
      )
    }
    rmSync(path)
    renameSync(`${path}.kept-1`, path)
    expect((await run(directory, 'verify')).stdout).toBe(
      '2 sessions read, 2 sound, with 6 events. Index rebuilt.\n',
    )
  })

  it('is recorded further if the file still has the same text', () => {
    const { directory } = recorded()
    const file = openLogbook(directory).create(legs, { ...started, date: '2026-11-27' })
    // Another time, the same bytes: a backup program, or copying it there and back.
    writeFileSync(file.path, readFileSync(file.path))
    expect(file.append([setRecorded(1)])).toEqual({ ok: true })
    file.close()
  })
})
