import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { runProgram } from '../commands/runProgram.ts'
import { temporaryFolder } from './temporaryFolder.ts'

let original = ''
beforeAll(() => {
  original = mkdtempSync(join(tmpdir(), 'pausebook-'))
  cpSync(join(import.meta.dirname, 'fixtures', 'format-1'), original, { recursive: true })
  writeMadeUpLogbook(original, { seed: 3, last: '2026-11-25', sessions: 12 })
  writeFileSync(join(original, 'plan.txt'), 'block to the race\n')
})
afterAll(() => rmSync(original, { recursive: true, force: true }))

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
    expect(ran.stderr).toContain('is not empty, and a backup never mixes with another.')
    expect(filesIn(logbook)).toEqual(before)
    expect((await run(logbook, 'backup', file)).stdout).toContain('16 sessions')
    const picture = join(folder, 'picture')
    writeFileSync(picture, 'pixels')
    expect((await run(logbook, 'backup', picture)).stderr).toContain('exists already and is not a backup')
    expect(readFileSync(picture, 'utf8')).toBe('pixels')
  })

  it('that was changed in any byte, or cut off anywhere, restores nothing', async () => {
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
        expect(ran.code, `at ${at}`).toBe(3)
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
  ])('that names %s restores nothing', async (path) => {
    const { folder, logbook, file } = book()
    await run(logbook, 'backup', file)
    writeFileSync(
      file,
      readFileSync(file, 'utf8').replace('"path":"plan.txt"', `"path":${JSON.stringify(path)}`),
    )
    const ran = await run(join(folder, 'other'), 'restore', file)
    expect(ran.code).toBe(3)
    expect(ran.stderr).toContain('names a file that no logbook has')
    expect(readdirSync(folder).sort()).toEqual(['book.ndjson', 'logbook'])
  })
})
