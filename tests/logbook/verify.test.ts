import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { runProgram } from '../commands/runProgram.ts'
import { finished, legs, setRecorded, started } from './sampleSession.ts'
import { temporaryFolder } from './temporaryFolder.ts'

function recorded() {
  const directory = join(temporaryFolder(), 'logbook')
  const logbook = openLogbook(directory)
  const files = ['2026-11-20', '2026-11-24', '2026-11-26'].map((date) => {
    const file = logbook.create(legs, { ...started, date })
    file.append([setRecorded(1)])
    file.append([finished])
    file.close()
    return file
  })
  const [first, second, third] = files
  if (!first || !second || !third) throw new Error('three sessions')
  return { directory, logbook, files: [first, second, third] as const }
}

/** As editing by hand leaves the file: without its checksum. */
const unsealedText = (path: string) => readFileSync(path, 'utf8').replace(/"checksum": "[0-9a-f]{64}",\n/, '')

const verify = (directory: string, ...more: string[]) =>
  runProgram(['verify', ...more], { logbook: directory })

describe('pausebook verify', () => {
  it('finds nothing in an empty logbook and creates nothing', async () => {
    const directory = join(temporaryFolder(), 'logbook')
    expect(await verify(directory)).toEqual({
      code: 0,
      stdout: '0 sessions read, 0 sound, with 0 events. Index rebuilt.\n',
      stderr: '',
    })
  })

  it('says if the index cannot be written', async () => {
    const { directory } = recorded()
    rmSync(join(directory, 'index.ndjson'))
    mkdirSync(join(directory, 'index.ndjson'))
    expect((await verify(directory)).stdout).toBe(
      '3 sessions read, 3 sound, with 9 events. The index cannot be written here; every command takes longer without it.\n',
    )
  })

  it('finds a sound logbook sound and rebuilds its index', async () => {
    const { directory } = recorded()
    writeFileSync(join(directory, 'index.ndjson'), 'rubbish\n'.repeat(10))
    expect(await verify(directory)).toEqual({
      code: 0,
      stdout: '3 sessions read, 3 sound, with 9 events. Index rebuilt.\n',
      stderr: '',
    })
    expect(readFileSync(join(directory, 'index.ndjson'), 'utf8').split('\n')).toHaveLength(4)
  })

  it('reports each damage with the cause and the repair, and ends with 3', async () => {
    const { directory, files } = recorded()
    const [first, second, third] = files
    writeFileSync(first.path, readFileSync(first.path, 'utf8').slice(0, -50))
    writeFileSync(second.path, '{"format": 2}')
    writeFileSync(join(directory, 'settings.json'), 'null')
    writeFileSync(join(directory, 'sessions', '2026', 'notes.json'), '{}')
    copyFileSync(third.path, third.path.replace('2026-11-26', '2026-11-21'))
    const before = await verify(directory)
    expect(before.code).toBe(3)
    expect(before.stdout).toContain('"pausebook verify --repair" puts it in its place.')
    expect(existsSync(`${first.path}.damaged-1`)).toBe(false)
    const ran = await verify(directory, '--repair')
    const name = (path: string) => path.slice(directory.length + 1)
    expect(ran.code).toBe(3)
    expect(ran.stdout.split('\n')).toEqual([
      '4 sessions read, 1 sound, with 3 events. Index rebuilt.',
      'settings.json: The file holds null instead of settings. It was set aside as settings.json.damaged-1; what could be read, or else the copy before it or the defaults, is in its place.',
      'sessions/2026/notes.json: The file is not named as a session is (YYYY-MM-DD-ID.json in the folder of its year). It was left alone.',
      `${name(third.path).replace('2026-11-26', '2026-11-21')}: The file has the same id as ${name(third.path)}. Both were left alone, and only that one counts.`,
      `${name(second.path)}: The file is of format 2, written by a newer program; this one reads format 1. It was left alone.`,
      `${name(first.path)}: The file breaks off before its end. It was set aside as 2026-11-20-${first.id}.json.damaged-1; the copy before it (2026-11-20-${first.id}.json.bak, 2 events) is in its place.`,
      '',
    ])
    expect(openLogbook(directory).read(first.id).session.events).toHaveLength(2)
    expect(
      openLogbook(directory)
        .index()
        .map(({ id }) => id),
    ).toEqual([third.id, first.id])
    const again = await verify(directory, '--json')
    expect(again.code).toBe(3)
    expect(JSON.parse(again.stdout)).toMatchObject({
      sessions: 4,
      sound: 2,
      events: 5,
      damages: [
        { file: 'settings.json.damaged-1' },
        { file: 'sessions/2026/notes.json' },
        { file: `${name(first.path)}.damaged-1` },
        {},
        {},
      ],
    })
  })

  it('reports renamed files until they are removed, and ends with 3 until then', async () => {
    const { directory, files } = recorded()
    const [{ path, id }] = files
    writeFileSync(path, '')
    await verify(directory, '--repair')
    const ran = await verify(directory)
    expect(ran).toEqual({
      code: 3,
      stdout: `3 sessions read, 3 sound, with 8 events. Index rebuilt.
sessions/2026/2026-11-20-${id}.json.damaged-1: The file was damaged and set aside before. It was left alone; take from it what can be saved, then remove it.
`,
      stderr: '',
    })
    rmSync(`${path}.damaged-1`)
    expect((await verify(directory)).code).toBe(0)
  })

  it('leaves alone what another process is recording', async () => {
    const { directory, logbook, files } = recorded()
    const file = logbook.open(files[0].id)
    writeFileSync(file.path, '')
    const { stdout } = await verify(directory, '--repair')
    expect(stdout).toContain(`The file is empty. It was left alone, for process ${process.pid} on `)
    expect(readFileSync(file.path, 'utf8')).toBe('')
    file.close()
  })

  it('reports events out of order', async () => {
    const { directory, files } = recorded()
    writeFileSync(files[0].path, unsealedText(files[0].path).replace('"up":7600', '"up":900'))
    const { stdout } = await verify(directory)
    expect(stdout).toContain(
      'The file has events out of order: number 3 happened before the one ahead of it. It was left alone.',
    )
  })

  it('reports a folder of sessions that is a file', async () => {
    const directory = temporaryFolder()
    writeFileSync(join(directory, 'sessions'), '')
    expect((await verify(directory)).stdout).toContain(
      'sessions: The folder cannot be listed (ENOTDIR), so its sessions are left out. It was left alone.',
    )
  })

  it('shows its progress on a terminal after half a second, and clears it at the end', async () => {
    const { directory } = recorded()
    let now = 0
    const io = {
      out: () => {},
      err: (text: string) => {
        said += text
      },
      steer: (text: string) => {
        said += text
      },
      readText: () => '',
      readBytes: () => new Uint8Array(),
      terminal: { in: true, out: true, err: true },
      columns: 80,
      env: { TERM: 'xterm' },
      now: () => {
        now += 400
        return new Date(now)
      },
    }
    let said = ''
    const { run } = await import('../../src/commands/verify.ts')
    await run({
      words: [],
      values: {},
      flags: new Set(),
      json: false,
      units: { distance: null, mass: null },
      logbookDir: directory,
      table: { commands: [], options: [] },
      io,
    })
    expect(said).toBe('\rreading session 2 of 3\rreading session 3 of 3\r\u001b[K')
    said = ''
    await run({
      words: [],
      values: {},
      flags: new Set(),
      json: false,
      units: { distance: null, mass: null },
      logbookDir: directory,
      table: { commands: [], options: [] },
      io: { ...io, env: { TERM: 'dumb' } },
    })
    expect(said).toBe('')
  })

  it('leaves no lock and no temporary file', async () => {
    const { directory, files } = recorded()
    writeFileSync(files[0].path, '')
    mkdirSync(join(directory, 'prescriptions'))
    await verify(directory, '--repair')
    const names = readdirSync(directory, { recursive: true, encoding: 'utf8' })
    expect(names.filter((name) => /lock|tmp/.test(name))).toEqual([])
  })
})
