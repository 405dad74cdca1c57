import { execFileSync } from 'node:child_process'
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { basename, join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import type { IndexRow } from '../../src/logbook/model.ts'
import { addMornings } from '../../src/logbook/mornings.ts'
import { printSession } from '../../src/logbook/sessionFile.ts'
import { changeSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { verifyLogbook } from '../../src/logbook/verify.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { apart } from '../apart.ts'
import { runProgram } from '../commands/runProgram.ts'
import { skip } from '../faults/harness.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { finished, legs, sampleSession, setRecorded, started, unsealed } from './sampleSession.ts'

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
  logbook.index()
  const [first, second, third] = files
  if (!first || !second || !third) throw new Error('three sessions')
  return { directory, logbook, files: [first, second, third] as const }
}

const unsealedText = (path: string) => unsealed(readFileSync(path, 'utf8'))

const verify = (directory: string, ...more: string[]) =>
  runProgram(['verify', ...more], { logbook: directory })

/** What a user finds wrong who is subject to the modes of files: root becomes nobody. */
async function damagesAsUser(directory: string) {
  const self = process.getuid?.() ?? 0
  const user = self === 0 ? 65534 : self
  if (user !== self) execFileSync('chown', ['-R', `${user}:${user}`, join(directory, '..')])
  const { call, end } = await apart<typeof import('./elsewhere.apart.ts')>(
    join(import.meta.dirname, 'elsewhere.apart.ts'),
  )
  onTestFinished(end)
  return call('damagesAs', user, directory)
}

describe('pausebook verify', () => {
  it('finds nothing in an empty logbook and creates nothing', async () => {
    const directory = join(temporaryFolder(), 'logbook')
    expect(await verify(directory)).toEqual({
      code: 0,
      stdout: '0 sessions read, 0 sound, with 0 events.\n',
      stderr: '',
    })
  })

  it('removes an index that has no session left', async () => {
    const directory = temporaryFolder()
    writeFileSync(join(directory, 'index.ndjson'), 'rubbish\n')
    expect((await verify(directory)).stdout).toBe('0 sessions read, 0 sound, with 0 events.\n')
    expect(readdirSync(directory)).toEqual([])
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
    mkdirSync(join(directory, 'mornings'))
    writeFileSync(join(directory, 'mornings', '2026 (copy).json'), '{}')
    copyFileSync(third.path, third.path.replace('2026-11-26', '2026-11-21'))
    const before = await verify(directory)
    expect(before.code).toBe(3)
    expect(before.stdout).toContain('"pausebook verify --repair" restores it.')
    expect(existsSync(`${first.path}.damaged-1`)).toBe(false)
    const ran = await verify(directory, '--repair')
    const name = (path: string) => path.slice(directory.length + 1)
    expect(ran.code).toBe(3)
    expect(ran.stdout.split('\n')).toEqual([
      '4 sessions read, 1 sound, with 3 events. Index rebuilt.',
      'settings.json: The file holds null instead of settings. Moved to settings.json.damaged-1; restored the readable settings, else the defaults.',
      ...['mornings/2026 (copy).json', 'sessions/2026/notes.json'].map(
        (file) =>
          `${file}: The file is not named as a session (YYYY-MM-DD-ID.json in the folder of its year) or a year of mornings (YYYY.json) is. Nothing was changed.`,
      ),
      `${name(third.path).replace('2026-11-26', '2026-11-21')}: The file has the same id as ${name(third.path)}. Both are unchanged, and only that one counts.`,
      `${name(second.path)}: The file has format 2, written by a newer program; this one reads format 1. Nothing was changed.`,
      `${name(first.path)}: The file breaks off before its end. Moved to 2026-11-20-${first.id}.json.damaged-1; restored the previous copy (2026-11-20-${first.id}.json.bak, 2 events).`,
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
        { file: `${name(first.path)}.damaged-1` },
        { file: 'mornings/2026 (copy).json' },
        { file: 'sessions/2026/notes.json' },
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
sessions/2026/2026-11-20-${id}.json.damaged-1: This is a damaged file that an earlier repair moved here. Save what you can from it, then delete it.
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
    expect(stdout).toContain(`is in use by process ${process.pid} on `)
    expect(stdout).toContain('Nothing was changed.\n')
    expect(readFileSync(file.path, 'utf8')).toBe('')
    file.close()
  })

  it('names a file without a checksum, which --seal adds', async () => {
    const { directory, files } = recorded()
    const [{ path }] = files
    writeFileSync(path, unsealedText(path))
    const name = path.slice(directory.length + 1)
    const read = '3 sessions read, 3 sound, with 9 events. Index rebuilt.\n'
    expect(await verify(directory)).toEqual({
      code: 0,
      stdout: `${read}1 file without a checksum, from an earlier version or edited by hand: ${name}. "pausebook verify --seal" adds it.\n`,
      stderr: '',
    })
    expect((await verify(directory, '--seal')).stdout).toContain(`1 file sealed: ${name}.`)
    expect((await verify(directory)).stdout).toBe(read)
  })

  it('names an event that changes nothing in a file without a checksum', async () => {
    const { directory, files } = recorded()
    const [{ path }] = files
    writeFileSync(path, unsealedText(path).replace('"step":"1.1.s1"', '"step":"7.7.s7"'))
    const { code, stdout } = await verify(directory)
    expect(code).toBe(3)
    expect(stdout).toContain('The file has an event that changes nothing: number 2, setRecorded.')
  })

  it('reports a folder of sessions that is a file', async () => {
    const directory = temporaryFolder()
    writeFileSync(join(directory, 'sessions'), '')
    expect((await verify(directory)).stdout).toContain(
      'sessions: The folder cannot be listed: a file has the name of the folder; what is in it is left out. Nothing was changed.',
    )
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

describe('a verification', () => {
  const wrongIn = (...given: Parameters<typeof verifyLogbook>) =>
    verifyLogbook(...given).damages.map(({ file, wrong, done }) => ({
      file: file.replace(/^sessions\/2026\//, ''),
      wrong,
      done,
    }))

  it('names a session of which the index has other figures for the same file, and no other', () => {
    const { directory, files } = recorded()
    const path = join(directory, 'index.ndjson')
    const changed = (change: (row: IndexRow) => Partial<IndexRow>) => {
      verifyLogbook(directory)
      const rows: IndexRow[] = readFileSync(path, 'utf8')
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line))
      writeFileSync(path, rows.map((row) => `${JSON.stringify({ ...row, ...change(row) })}\n`).join(''))
      return wrongIn(directory)
    }
    const other = ({ brief }: IndexRow) => ({ brief: { ...brief, sets: brief.sets + 1 } })
    const named = files.map(({ path }) => ({
      file: basename(path),
      wrong: 'The index has different figures for the file, although its size and time are the same.',
      done: 'The index now has those of the file.',
    }))
    expect(changed(other)).toEqual(named.toReversed())
    expect(verifyLogbook(directory).damages).toEqual([])
    for (const change of [
      () => ({}),
      (row: IndexRow) => ({ ...other(row), size: row.size + 1 }),
      (row: IndexRow) => ({ ...other(row), mtime: row.mtime + 1 }),
      (row: IndexRow) => ({ ...other(row), basis: `${row.basis}0` }),
      (row: IndexRow) => ({ ...other(row), file: row.file.replace('2026-11', '2026-12') }),
    ])
      expect(changed(change)).toEqual([])
  })

  it('names it where the index can be read but not written', async (context) => {
    if (process.getuid === undefined) skip(context, 'this system has no modes of files')
    const { directory } = recorded()
    verifyLogbook(directory)
    const path = join(directory, 'index.ndjson')
    writeFileSync(path, readFileSync(path, 'utf8').replaceAll('"sets":1', '"sets":2'))
    const wrong = 'The index has different figures for the file, although its size and time are the same.'
    chmodSync(directory, 0o500)
    onTestFinished(() => chmodSync(directory, 0o700))
    const damages = await damagesAsUser(directory)
    expect(damages.map(({ wrong, done }) => ({ wrong, done }))).toEqual(
      Array(3).fill({ wrong, done: 'Nothing was changed.' }),
    )
  })

  it('names a folder of days that it may not look into, which would else count as no folder', async (context) => {
    if (process.getuid === undefined) skip(context, 'this system has no modes of files')
    const { directory } = recorded()
    const days = join(directory, 'prescriptions')
    mkdirSync(join(days, 'block'), { recursive: true })
    chmodSync(days, 0o600)
    onTestFinished(() => chmodSync(days, 0o700))
    const named = (await damagesAsUser(directory)).map(({ file }) => file)
    expect(named).toEqual(['prescriptions/block'])
  })

  it('reports an uptime that falls by more than a minute, unless the program was opened anew between', () => {
    const { directory, files } = recorded()
    const disorder = (...uptimes: (number | null | 'opened')[]) => {
      const events = uptimes.map(
        (up, index): SessionEvent =>
          up === 'opened'
            ? { type: 'opened', at: null, up: 5, boot: null }
            : { ...setRecorded(index + 1), up },
      )
      writeFileSync(files[2].path, printSession({ ...sampleSession(...events), id: files[2].id }))
      return wrongIn(directory).map(({ wrong }) => wrong)
    }
    expect(disorder(1100, 1040, null, 1041)).toEqual([])
    expect(disorder(1100, 1039)).toEqual([
      'The file has events out of order: event 3 has an earlier time than an event before it.',
    ])
    expect(disorder(1100, 1050, 1039)).toHaveLength(1)
    expect(disorder(1100, 'opened', 6)).toEqual([])
    expect(disorder(1100, 'opened', 300, 239)).toHaveLength(1)
  })

  it('adds a checksum to settings, mornings and sound sessions, but not to one that is being recorded', () => {
    const { directory, logbook, files } = recorded()
    changeSettings(directory, (settings) => settings)
    const [date, at] = ['2026-11-26', '2026-11-26T06:40:00+01:00']
    addMornings(directory, [{ type: 'typed', at, date, values: { restingHeartRate: 48 } }])
    const others = ['settings.json', 'mornings/2026.json']
    for (const path of [...files.map(({ path }) => path), ...others.map((file) => join(directory, file))])
      writeFileSync(path, unsealedText(path))
    const held = logbook.open(files[0].id)
    const name = (path: string) => path.slice(directory.length + 1)
    const all = [files[2], files[1], files[0]].map(({ path }) => name(path))
    expect(verifyLogbook(directory).unsealed).toEqual([...others, ...all])
    expect(verifyLogbook(directory).sealed).toEqual([])
    const { sealed, unsealed, damages } = verifyLogbook(directory, { maySeal: true })
    expect({ sealed, unsealed, damages }).toEqual({
      sealed: [...others, ...all.slice(0, 2)],
      unsealed: all.slice(2),
      damages: [],
    })
    held.close()
    expect(verifyLogbook(directory, { maySeal: true })).toMatchObject({ sealed: all.slice(2), unsealed: [] })
  })

  it('refuses in words where the file with its checksum cannot be written', () => {
    const { directory } = recorded()
    changeSettings(directory, (settings) => settings)
    const settings = join(directory, 'settings.json')
    const bare = unsealedText(settings)
    writeFileSync(settings, bare)
    mkdirSync(`${settings}.bak`)
    expect(() => verifyLogbook(directory, { maySeal: true })).toThrow(
      /settings\.json cannot be saved: .+\. It is as before\. Make room /,
    )
    expect(readFileSync(settings, 'utf8')).toBe(bare)
  })

  it('counts the problems of a plan or of foods, and says what is wrong with one that cannot be read', () => {
    const { directory } = recorded()
    writeFileSync(join(directory, 'plan.txt'), 'Block\nrace: soon\nweek: nothing\n')
    mkdirSync(join(directory, 'foods.txt'))
    expect(wrongIn(directory)).toEqual([
      {
        file: 'plan.txt',
        wrong: expect.stringMatching(/^Line 2: .*[^.]\. And 1 more\.$/),
        done: 'Nothing was changed; correct it.',
      },
      {
        file: 'foods.txt',
        wrong: `foods.txt is a folder. Correct or move ${join(directory, 'foods.txt')}.`,
        done: 'Nothing was changed; correct it.',
      },
    ])
  })

  it('names a day whose link leads nowhere, as a backup does', () => {
    const { directory } = recorded()
    mkdirSync(join(directory, 'prescriptions'), { recursive: true })
    symlinkSync('/nowhere/day.txt', join(directory, 'prescriptions', 'day.txt'))
    writeFileSync(join(directory, 'prescriptions', 'mistakes.txt'), 'Day\nrun\n')
    expect(wrongIn(directory)).toEqual([
      {
        file: 'prescriptions/day.txt',
        wrong: 'The file is a link to a file that is gone.',
        done: 'Nothing was changed.',
      },
    ])
  })

  it('names settings and mornings that were set aside before, and no other file of a similar name', () => {
    const { directory } = recorded()
    mkdirSync(join(directory, 'mornings'))
    const aside = ['settings.json.damaged-1', 'mornings/2026.json.damaged-2']
    for (const file of [...aside, 'xsettings.json.damaged-1', 'settings.json.damaged-1x', '.git.damaged-1'])
      writeFileSync(join(directory, file), '')
    expect(wrongIn(directory).map(({ file }) => file)).toEqual(aside)
  })

  it('does not change a session that is sound but for what only a person can decide', () => {
    const { directory, files } = recorded()
    const [{ path }] = files
    const text = unsealedText(path).replace(
      '"date":"2026-11-20","bodyMassKg"',
      '"date":"2026-11-21","bodyMassKg"',
    )
    writeFileSync(path, text)
    expect(wrongIn(directory, { mayRepair: true })).toEqual([
      {
        file: basename(path),
        wrong: 'The file is named for 2026-11-20, and its session began on 2026-11-21.',
        done: 'Nothing was changed.',
      },
    ])
    expect(readFileSync(path, 'utf8')).toBe(text)
  })
})
