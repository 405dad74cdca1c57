import {
  cpSync,
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
import { basename, dirname, join, relative } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readBackup, restoreBackup, writeBackup } from '../../src/logbook/backup.ts'
import { type Damage, LogbookError, type LogbookErrorCode } from '../../src/logbook/errors.ts'
import { isSynced } from '../../src/logbook/logbookFiles.ts'
import type { SessionEntry } from '../../src/logbook/model.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { runProgram } from '../commands/runProgram.ts'
import { expectPrivate } from '../expectPrivate.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { failing } from './otherCalls.ts'
import { unsealed } from './sampleSession.ts'
import { deadPid } from './testMachine.ts'

const original = temporaryFolder(afterAll)
beforeAll(() => {
  cpSync(join(import.meta.dirname, 'fixtures', 'format-1'), original, { recursive: true })
  writeMadeUpLogbook(original, { seed: 3, last: '2026-11-25', sessions: 12 })
  writeFileSync(join(original, 'plan.txt'), 'block to the race\n')
})

function book() {
  const folder = temporaryFolder()
  const [logbook, file] = [join(folder, 'logbook'), join(folder, 'book.ndjson')]
  cpSync(original, logbook, { recursive: true, preserveTimestamps: true })
  return { folder, logbook, file }
}

const run = (logbook: string, ...words: string[]) => runProgram(words, { logbook })

function filesIn(directory: string): Record<string, string> {
  const names = readdirSync(directory, { recursive: true, encoding: 'utf8', withFileTypes: true })
  const files = names.filter((entry) => entry.isFile() && !/ndjson$|lock$/.test(entry.name))
  return Object.fromEntries(
    files.map(({ parentPath, name }) => {
      const path = join(parentPath, name)
      return [path.slice(directory.length), readFileSync(path, 'base64')]
    }),
  )
}

describe('a backup', () => {
  it('restores a destroyed logbook: the same files, and the same summaries to the last digit', async () => {
    const { logbook, file } = book()
    const before = { files: filesIn(logbook), export: await run(logbook, 'export') }
    const mornings = before.export.stdout.match(/"morning"/g)?.length ?? 0
    expect(mornings).toBeGreaterThan(0)
    // And the plan.
    expect(before.export.stdout.trimEnd().split('\n')).toHaveLength(16 + mornings + 1)
    const made = await run(logbook, 'backup', file)
    // One session of the fixture is damaged, and so is its backup.
    expect(made.code).toBe(3)
    expect(made.stdout).toBe(`16 sessions and 5 other files are in ${file}.\n`)
    rmSync(logbook, { recursive: true })
    const restored = await run(logbook, 'restore', file)
    expect(restored.stdout).toBe(`16 sessions and 5 other files restored to ${logbook}.\n`)
    expect(filesIn(logbook)).toEqual(before.files)
    expect(await run(logbook, 'export')).toEqual(before.export)
  })

  it('is read and described with --dry, and nothing is restored', async () => {
    const { folder, logbook, file } = book()
    await run(logbook, 'backup', file)
    const dry = await run(join(folder, 'other'), 'restore', file, '--dry')
    expect(dry.stdout).toBe(`${file} is whole: 16 sessions and 5 other files. Nothing was restored.\n`)
    expect(readdirSync(folder).sort()).toEqual(['book.ndjson', 'logbook'])
  })

  it('is never mixed with another logbook, and replaces no file except a backup', async () => {
    const { folder, logbook, file } = book()
    await run(logbook, 'backup', file)
    const before = filesIn(logbook)
    const ran = await run(logbook, 'restore', file)
    expect(ran.code).toBe(1)
    expect(ran.stderr).toContain('is not empty, and a restore merges nothing.')
    expect(filesIn(logbook)).toEqual(before)
    expect((await run(logbook, 'backup', file)).stdout).toContain('16 sessions')
    const picture = join(folder, 'picture')
    writeFileSync(picture, 'pixels')
    expect((await run(logbook, 'backup', picture)).stderr).toContain('exists already and is not a backup')
    expect(readFileSync(picture, 'utf8')).toBe('pixels')
  })

  it('is not replaced by that of a logbook that lacks some of its sessions or mornings, as after a lost disk', async () => {
    const { folder, logbook, file } = book()
    await run(logbook, 'backup', file)
    const fresh = join(folder, 'fresh')
    await run(fresh, 'settings', 'units', 'mi lb')
    const refused = await run(fresh, 'backup', file)
    expect({ code: refused.code, stdout: refused.stdout }).toEqual({ code: 1, stdout: '' })
    expect(refused.stderr).toContain(
      `${file} is a backup with 16 sessions, 1 year of mornings that this logbook`,
    )
    const [{ path }, { path: other }] = openLogbook(logbook).list() as [SessionEntry, SessionEntry]
    for (const gone of [path, join(logbook, 'mornings', '2026.json')]) {
      const bytes = readFileSync(gone)
      rmSync(gone)
      expect((await run(logbook, 'backup', file)).stderr).toContain(
        `such as ${relative(logbook, gone)}. Name`,
      )
      writeFileSync(gone, bytes)
    }
    expect(readBackup(file).sessions).toBe(16)
    // A copy alone is the session, and a version of it is kept under another name.
    renameSync(path, `${path}.bak`)
    writeFileSync(other.replace('.json', '-0a1b2c.json'), '')
    expect((await run(logbook, 'backup', file)).stdout).not.toBe('')
    rmSync(other.replace('.json', '-0a1b2c.json'))
    expect((await run(logbook, 'backup', file)).stdout).not.toBe('')
    const first = join(folder, 'first.ndjson')
    for (const _ of ['made', 'replaced']) expect((await run(fresh, 'backup', first)).code).toBe(0)
  })

  it('is not written to a file that is called - like standard output', async () => {
    const { code, stdout, stderr } = await run(book().logbook, 'backup', '-')
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' })
    expect(stderr).toBe('pausebook: A backup is a file, not standard output. Give the name of one.\n')
  })

  it('restores nothing if any byte was changed, or if it was cut off anywhere', async () => {
    const { folder, logbook, file } = book()
    await run(logbook, 'backup', file)
    const bytes = readFileSync(file)
    const target = join(folder, 'other')
    let refused = 0
    for (let at = 0; at < bytes.length; at += 4001) {
      const changed = Buffer.from(bytes)
      changed[at] = (changed[at] ?? 0) ^ 1
      for (const wrong of [changed, bytes.subarray(0, at)]) {
        writeFileSync(file, wrong)
        const ran = await run(target, 'restore', file)
        expect(ran.code, `at ${at}`).toBe(1)
        refused += 1
      }
    }
    expect(refused).toBeGreaterThan(40)
    expect(readdirSync(folder).sort()).toEqual(['book.ndjson', 'logbook'])
  })

  it.each([
    '../outside.json',
    '/etc/passwd',
    'sessions/2026/../../../x.json',
    '.git/config',
    'prescriptions/..\\x.txt',
    'prescriptions/c:x.txt',
  ])('restores nothing if it names %s', async (path) => {
    const { folder, logbook, file } = book()
    await run(logbook, 'backup', file)
    writeFileSync(
      file,
      readFileSync(file, 'utf8').replace('"path":"plan.txt"', `"path":${JSON.stringify(path)}`),
    )
    const ran = await run(join(folder, 'other'), 'restore', file)
    expect(ran.code).toBe(1)
    expect(ran.stderr).toContain('names a file that no logbook has')
    expect(readdirSync(folder).sort()).toEqual(['book.ndjson', 'logbook'])
  })
})

describe('a backup of single files', () => {
  const refused = (code: LogbookErrorCode, message: string) => new LogbookError(code, message)

  it('holds what belongs to a logbook, byte for byte, and counts its sessions', () => {
    const { logbook, file } = book()
    const bytes = Buffer.from([0x4c, 0xe4, 0x75, 0x66, 0x65])
    const kept: Record<string, Buffer> = {
      'foods.txt': bytes,
      'mornings/2026.json': Buffer.from('{}'),
      'prescriptions/day.txt': Buffer.from('\uFEFFDay\r\n'),
      'settings.json.damaged-1': Buffer.from('\u0000'),
      'sessions/2026/2026-11-26-abcdef9999.json.kept-1': Buffer.from(''),
    }
    mkdirSync(join(logbook, 'prescriptions'), { recursive: true })
    for (const [path, text] of Object.entries(kept)) writeFileSync(join(logbook, path), text)
    for (const path of ['index.ndjson', 'notes.txt', 'prescriptions/.hidden.txt', 'sessions/2026/notes.json'])
      writeFileSync(join(logbook, path), '')
    const { files, sessions, damages } = writeBackup(logbook, file)
    expect(sessions).toBe(16)
    const read = readBackup(file)
    const notANote = ({ file }: Damage) => file !== 'sessions/2026/notes.json'
    expect(read).toEqual({ files, sessions, damages: damages.filter(notANote) })
    for (const [path, text] of Object.entries(kept))
      expect(read.files.find((each) => each.path === path)?.bytes, path).toEqual(text)
    expect(read.files.map(({ path }) => path).filter((path) => /index|notes|hidden/.test(path))).toEqual([])
    expect(files.map(({ path }) => path)).toEqual(files.map(({ path }) => path).toSorted())
    // The session of the fixture that is damaged, and the mornings above.
    const damaged = ['mornings/2026.json', 'sessions/2026/2026-11-20-47z498fspy.json']
    expect(read.damages.map(({ file }) => file)).toEqual(damaged)
  })

  it('does not take a session for damaged that was edited with an editor of Windows', () => {
    const { logbook, file } = book()
    const [{ path }] = openLogbook(logbook).list() as [SessionEntry]
    const text = unsealed(readFileSync(path, 'utf8'))
    writeFileSync(path, `\uFEFF${text.replaceAll('\n', '\r\n')}`)
    writeBackup(logbook, file)
    expect(readBackup(file).damages.map((each) => each.file)).not.toContain(relative(logbook, path))
  })

  it('holds whatever sync keeps in step and its copies, and a restore brings them back', () => {
    const { folder, logbook, file } = book()
    const added = [
      'plan-2.txt',
      'foods-2.txt',
      'foods-2-3.txt',
      'prescriptions/push-2.txt',
      'prescriptions/push.json',
      'prescriptions/spring/legs/push.txt',
      'mornings/2025.json',
      'mornings/2025.json.damaged-1',
      'sessions/2025/2025-12-31-abcdef2345-0a1b2c.json',
    ]
    for (const path of [...added, ...added.map((each) => `${each}.bak`), 'notes-2.txt', 'plan-x.txt']) {
      mkdirSync(dirname(join(logbook, path)), { recursive: true })
      writeFileSync(join(logbook, path), path)
    }
    writeBackup(logbook, file)
    const restored = join(folder, 'restored')
    restoreBackup(restored, readBackup(file))
    const all = filesIn(logbook)
    delete all['/notes-2.txt']
    delete all['/plan-x.txt']
    delete all['/mornings/2025.json.damaged-1.bak']
    expect(filesIn(restored)).toEqual(all)
    const inStep = Object.keys(all).filter((path) => isSynced(path.slice(1)))
    expect(inStep.length).toBeGreaterThan(added.length)
  })

  it('brings back a day whose name is as long as a file system allows', () => {
    const { logbook, file, folder } = book()
    const day = `prescriptions/${'日'.repeat(83)}.txt`
    expect(Buffer.byteLength(basename(day))).toBe(253)
    mkdirSync(join(logbook, 'prescriptions'), { recursive: true })
    writeFileSync(join(logbook, day), 'a long name')
    writeBackup(logbook, file)
    const restored = join(folder, 'restored')
    restoreBackup(restored, readBackup(file))
    expect(readFileSync(join(restored, day), 'utf8')).toBe('a long name')
  })

  it('names what its folders hold besides days, sessions and mornings, and leaves it out', async () => {
    const { logbook, file } = book()
    mkdirSync(join(logbook, 'prescriptions', 'spring'), { recursive: true })
    for (const name of [
      'UP.TXT',
      'note.md',
      'day.txt',
      'spring/note.md',
      '.hidden',
      '.pausebook.123.abcdefgh.tmp',
    ])
      writeFileSync(join(logbook, 'prescriptions', name), 'Day\n')
    const copies = [
      'mornings/2026-conflict.json',
      'sessions/2026/2026-11-26-abcdef2345.conflict.json',
      'sessions/2026-11-26-abcdef2345.json',
      'mornings/2026',
      'prescriptions/2026',
    ]
    for (const name of [...copies, 'sessions/2026/2026-11-26-abcdef2345.json.lock'])
      writeFileSync(join(logbook, name), '{}')
    const { code, stderr } = await run(logbook, 'backup', file)
    expect(code).toBe(3)
    expect(
      [...stderr.matchAll(/pausebook: (\S+): The backup does not have it: /g)].map(([, path]) => path).sort(),
    ).toEqual(
      [...copies, 'prescriptions/UP.TXT', 'prescriptions/note.md', 'prescriptions/spring/note.md'].sort(),
    )
  })

  it('is refused if a file of the logbook cannot be read or a folder cannot be listed', () => {
    const { logbook, file } = book()
    rmSync(join(logbook, 'plan.txt'))
    mkdirSync(join(logbook, 'plan.txt'))
    const lacks =
      'so it would be missing from the backup. Correct that first: "pausebook verify" says what is wrong.'
    expect(() => writeBackup(logbook, file)).toThrow(refused('cannot_read', `plan.txt is a folder, ${lacks}`))
    rmSync(join(logbook, 'plan.txt'), { recursive: true })
    symlinkSync(join(logbook, 'nowhere.txt'), join(logbook, 'plan.txt'))
    expect(() => writeBackup(logbook, file)).toThrow(
      refused('cannot_read', `plan.txt is a link to a file that is gone, ${lacks}`),
    )
    rmSync(join(logbook, 'plan.txt'))
    writeFileSync(join(logbook, 'prescriptions'), '')
    expect(() => writeBackup(logbook, file)).toThrow(
      refused('cannot_read', `prescriptions cannot be listed, ${lacks}`),
    )
    expect(existsSync(file)).toBe(false)
  })

  it('is not written over a folder, or where it cannot be written', () => {
    const { folder, logbook } = book()
    expect(() => writeBackup(logbook, folder)).toThrow(
      refused('bad_backup', `${folder} exists already and is not a backup. Give the name of a new file.`),
    )
    expect(() => writeBackup(logbook, join(folder, 'gone', 'book.ndjson'))).toThrow(
      refused('bad_backup', 'The backup cannot be written: the folder is gone. Give another file.'),
    )
  })

  it.each([
    ['', 'line 1 cannot be read'],
    ['7\n', 'line 1 cannot be read'],
    ['null\n', 'line 1 cannot be read'],
    ['{}\n', 'it is not a backup of this program, or it is a newer one'],
    ['{"backup":2,"files":0}\n', 'it is not a backup of this program, or it is a newer one'],
    ['{"backup":1,"files":0}\n', 'line 2 cannot be read'],
    ['{"backup":1,"files":0}\n{"end":0,"sha256":"x"}\n', 'it is cut off, or files are missing from it'],
    ['{"backup":1,"files":1}\n{"path":["plan.txt"]}\n{"end":1}\n', 'line 2 names a file that no logbook has'],
    [
      '{"backup":1,"files":1}\n{"path":"plan.txt"}\n{"end":1}\n',
      'line 2 (plan.txt) does not match its checksum',
    ],
    ['{"backup":1,"files":1}\nrubbish\n{"end":1}\n', 'line 2 cannot be read'],
  ])('is refused if it is %j', (text, why) => {
    const { file } = book()
    writeFileSync(file, text)
    expect(() => readBackup(file)).toThrow(
      refused('bad_backup', `The backup cannot be used: ${why}. Nothing was restored; use another backup.`),
    )
  })

  it('is refused if there is none, or it cannot be read', () => {
    const { folder, file } = book()
    expect(() => readBackup(file)).toThrow(
      refused('bad_backup', `There is no backup ${file}. Check the path.`),
    )
    expect(() => readBackup(folder)).toThrow(
      refused('bad_backup', `The backup ${folder} is a folder. Give another file.`),
    )
  })

  it('removes what a killed backup or restore has left there long ago, and nothing that is being written', () => {
    const { folder, logbook, file } = book()
    const other = join(folder, 'other')
    // As on a shared disk: no process of this machine has this number.
    const [young, old, foreign] = [
      `.pausebook.${deadPid}.abcdefgh.tmp`,
      `.pausebook.${deadPid}.ijklmnop.tmp`,
      `third.${deadPid}.abcdefgh.tmp`,
    ]
    const others = [young, foreign]
    for (const name of [old, ...others])
      mkdirSync(join(folder, name, 'sessions', '2026'), { recursive: true })
    for (const name of [old, foreign]) utimesSync(join(folder, name), 0, 0)
    restoreBackup(other, writeBackup(logbook, file))
    expect(readdirSync(folder).sort()).toEqual([...others, 'book.ndjson', 'logbook', 'other'].sort())
  })

  it('is restored into an empty folder, private to the user, and nothing is left where that fails', () => {
    const { folder, logbook, file } = book()
    const backup = writeBackup(logbook, file)
    const empty = join(folder, 'empty')
    mkdirSync(empty)
    restoreBackup(empty, backup)
    expect(filesIn(empty)).toEqual(filesIn(logbook))
    expectPrivate(empty)
    expectPrivate(join(empty, 'plan.txt'))
    const [linked, link] = [join(folder, 'linked'), join(folder, 'link')]
    mkdirSync(linked)
    symlinkSync(linked, link, 'junction')
    restoreBackup(link, backup)
    expect(filesIn(linked)).toEqual(filesIn(logbook))
    const aFile = join(folder, 'file')
    writeFileSync(aFile, '')
    for (const path of [aFile, join(aFile, 'below')])
      expect(() => restoreBackup(path, backup)).toThrow(
        /^The logbook \S+ cannot be listed: a file has .* Give another/,
      )
    failing('renameSync', 'EROFS')
    const other = join(folder, 'other')
    expect(() => restoreBackup(other, backup)).toThrow(
      refused(
        'cannot_write',
        `The backup cannot be restored to ${other}: the disk is read-only. Nothing was restored; give another folder with --logbook.`,
      ),
    )
    expect(readdirSync(folder).sort()).toEqual(['book.ndjson', 'empty', 'file', 'link', 'linked', 'logbook'])
    failing('rmSync', 'EIO')
    expect(() => restoreBackup(other, backup)).toThrow(
      /^The backup cannot be restored .* the disk is read-only/,
    )
  })

  it('loses none of two days whose names are one to the disk, as push.txt and Push.txt can be', () => {
    const folder = temporaryFolder()
    const other = join(folder, 'other')
    const files = ['Day', 'Other day'].map((text) => ({
      path: 'prescriptions/push.txt',
      bytes: Buffer.from(text),
    }))
    restoreBackup(other, { files })
    const days = readdirSync(join(other, 'prescriptions')).sort()
    expect(days).toEqual(['push-version-2.txt', 'push.txt'])
    expect(days.map((day) => readFileSync(join(other, 'prescriptions', day), 'utf8'))).toEqual([
      'Other day',
      'Day',
    ])
  })
})
