import { execFileSync } from 'node:child_process'
import { chmodSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import type { Session } from '../../src/session/model.ts'
import { apart } from '../apart.ts'
import { skip } from '../faults/harness.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { legs, setRecorded, started, unsealed } from './sampleSession.ts'

/** A logbook with a sound session and one whose file's text was replaced. */
function damaged(change: (text: string, session: Session) => string, withBackup = false) {
  const directory = join(temporaryFolder(), 'logbook')
  const logbook = openLogbook(directory)
  const sound = logbook.create(legs, { ...started, date: '2026-11-20' })
  sound.close()
  const file = logbook.create(legs, started)
  file.append([setRecorded(1)])
  file.append([setRecorded(2)])
  file.close()
  if (!withBackup) rmSync(`${file.path}.bak`)
  // As if edited by hand, which removes the checksum.
  const text = change(unsealed(readFileSync(file.path, 'utf8')), file.session)
  writeFileSync(file.path, text)
  return { directory, id: file.id, path: file.path, text, soundId: sound.id }
}

describe('a session file that', () => {
  const replacing = (from: string, to: string) => (text: string) => text.replace(from, to)
  const deep = `${'['.repeat(10000)}${']'.repeat(10000)}`

  it.each<[string, (text: string, session: Session) => string, string]>([
    ['breaks off', (text) => text.slice(0, 300), 'breaks off before its end'],
    ['is empty', () => '', 'is empty'],
    ['holds null', () => 'null\n', 'holds null instead of a session'],
    [
      'is of a newer format',
      replacing('"format": 1', '"format": 2'),
      'has format 2, written by a newer program; this one reads format 1',
    ],
    [
      'has a number that is too large',
      replacing('"reps":3,', '"reps":9007199254740993,'),
      'has a number too large for any day: 9007199254740992',
    ],
    [
      'has an infinite number',
      replacing('"up":1180', '"up":1e999'),
      'has a number too large for any day: Infinity',
    ],
    [
      'would change all objects',
      replacing('"format": 1', '"__proto__": {"finished": true}, "format": 1'),
      'is wrong: it has a field that does not belong there, "__proto__"',
    ],
    [
      'holds another session',
      (text, { id }) => text.replace(id, 'another1'),
      'holds the session another1, which is not the one it is named for',
    ],
    [
      'is nested ten thousand deep',
      replacing('"parts":[', `"parts":[${deep},`),
      'is wrong: prescription.parts.1 is not an object',
    ],
  ])('%s is reported, and every other session works', (_, change, wrong) => {
    const { directory, id, path, text, soundId } = damaged(change)
    const logbook = openLogbook(directory)
    const name = `sessions/2026/${basename(path)}`
    // Only what a disk can ruin has a previous copy to look for.
    const isRuined = /breaks|empty|null/.test(wrong)
    const done = isRuined ? 'Nothing was changed; there is no previous copy.' : 'Nothing was changed.'
    expect(() => logbook.read(id)).toThrow(`The session ${name} cannot be read. The file ${wrong}. ${done}`)
    expect(readFileSync(path, 'utf8')).toBe(text)
    expect(() => logbook.open(id)).toThrow(`The session ${name} cannot be read. The file ${wrong}. ${done}`)
    expect(readFileSync(path, 'utf8')).toBe(text)
    expect(existsSync(`${path}.lock`)).toBe(false)
    expect(logbook.read(soundId).session.events).toHaveLength(1)
    expect(({} as { finished?: boolean }).finished).toBeUndefined()
  })

  it('has groups nested too deeply is reported', () => {
    const work = (body: string) =>
      `{"kind":"work","times":2,"body":${body},"recovery":null,"split":null,"negative":false,"lane":null,"grade":null,"heartRate":null,"notes":[]}`
    const depth = 20_000
    const [before, after] = work('{"kind":"group","steps":[*]}').split('*')
    const interval = work('{"kind":"piece","amounts":[{"kind":"time","seconds":60}],"target":null}')
    const step = `${before?.repeat(depth)}${interval}${after?.repeat(depth)}`
    const part = `{"kind":"run","name":null,"items":[{"line":1,"text":"x","step":${step}}]}`
    const { directory, id } = damaged((text) => text.replace('"parts":[', `"parts":[${part},`))
    expect(() => openLogbook(directory).read(id)).toThrow(
      'The file is nested too deeply. Nothing was changed.',
    )
  })

  it('is not UTF-8 is reported and left alone', () => {
    const { directory, id, path } = damaged(() => '')
    writeFileSync(path, Buffer.from([0xff, 0xfe, 0x00]))
    expect(() => openLogbook(directory).open(id)).toThrow(
      'The file is not UTF-8 text. Nothing was changed; there is no previous copy.',
    )
  })

  it('is cut off is read from the previous copy, and recording continues from there', () => {
    const { directory, id, path, text } = damaged((whole) => whole.slice(0, -40), true)
    const logbook = openLogbook(directory)
    expect(logbook.read(id).session.events).toHaveLength(2)
    expect(logbook.damages).toEqual([
      {
        file: `sessions/2026/${basename(path)}`,
        wrong: 'The file breaks off before its end.',
        done: `Nothing was changed; the previous copy (${basename(path)}.bak, 2 events) is used instead. "pausebook verify --repair" restores it.`,
      },
    ])
    const file = openLogbook(directory).open(id)
    expect(file.append([setRecorded(2)])).toEqual({ ok: true })
    file.close()
    expect(readFileSync(`${path}.damaged-1`, 'utf8')).toBe(text)
    expect(openLogbook(directory).read(id).session.events).toHaveLength(3)
  })

  it('is a folder is reported and left alone', () => {
    const { directory, id, path } = damaged(() => '')
    rmSync(path)
    mkdirSync(path)
    expect(() => openLogbook(directory).open(id)).toThrow('The file is a folder. Nothing was changed.')
  })

  it('is a pipe is reported without waiting for it', (context) => {
    if (process.platform === 'win32') skip(context, 'on Windows no file is a pipe')
    const { directory, id, path } = damaged(() => '')
    rmSync(path)
    execFileSync('mkfifo', [path])
    expect(() => openLogbook(directory).open(id)).toThrow(
      'The file is not a regular file. Nothing was changed.',
    )
  })

  it('the user may not read is reported and left alone', async (context) => {
    const { directory, id, path } = damaged((text) => text)
    chmodSync(path, 0o000)
    const message = 'The file may not be read by this user. Nothing was changed.'
    if (process.getuid?.() !== 0) {
      if (process.getuid === undefined) skip(context, 'this system has no modes of files')
      expect(() => openLogbook(directory).open(id)).toThrow(message)
      return
    }
    // Root may read everything, so become nobody.
    execFileSync('chown', ['-R', '65534:65534', join(directory, '..')])
    const { call, end } = await apart<typeof import('./elsewhere.apart.ts')>(
      join(import.meta.dirname, 'elsewhere.apart.ts'),
    )
    onTestFinished(end)
    await expect(call('openAs', 65534, directory, id)).rejects.toThrow(message)
  })
})
