import { createHash } from 'node:crypto'
import { readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { printSession, readSession } from '../../src/logbook/sessionFile.ts'
import { changeSettings, readSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { runProgram } from '../commands/runProgram.ts'
import { tell } from '../faults/harness.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { finished, legs, setRecorded, started } from './sampleSession.ts'

const session = {
  format: 1 as const,
  id: 'abcdef2345',
  prescription: legs,
  events: [started, setRecorded(1), finished],
}
const text = printSession(session)

function flipped(bytes: Buffer, bit: number): Buffer {
  const changed = Buffer.from(bytes)
  changed[bit >> 3] = (changed[bit >> 3] ?? 0) ^ (1 << (bit & 7))
  return changed
}

/** Every `step`-th bit of a file. The soak flips all of them (PAUSEBOOK_ALL_BITS=1). */
function* bitsOf(bytes: Buffer): Generator<number> {
  const step = process.env.PAUSEBOOK_ALL_BITS === '1' ? 1 : 13
  for (let bit = 0; bit < bytes.length * 8; bit += step) yield bit
}

describe('the checksum of a session', () => {
  it('is the SHA-256 of its bytes with the 64 digits set to 0', () => {
    const digits = /"checksum": "([0-9a-f]{64})"/.exec(text)?.[1] ?? ''
    const zeroed = text.replace(digits, '0'.repeat(64))
    expect(createHash('sha256').update(zeroed).digest('hex')).toBe(digits)
    expect(readSession(text, session.id)).toEqual({ value: session, isSealed: true })
  })

  it('detects every flipped bit', () => {
    const bytes = Buffer.from(text)
    let flips = 0
    for (const bit of bitsOf(bytes)) {
      const changed = flipped(bytes, bit)
      flips += 1
      let decoded: string
      try {
        decoded = new TextDecoder('utf-8', { fatal: true }).decode(changed)
      } catch {
        continue
      }
      const reading = readSession(decoded, session.id)
      if ('value' in reading) expect.fail(`bit ${bit} was accepted`)
    }
    expect(flips).toBeGreaterThan(2000)
    tell(`${flips} flipped bits of a session, none accepted`)
  }, 600_000)

  it('counts as wrong, not as missing, with a flipped bit in its name, so that the previous copy is used', () => {
    const bytes = Buffer.from(text)
    const begin = bytes.indexOf('checksum')
    for (let bit = begin * 8; bit < (begin + 'checksum'.length) * 8; bit += 1) {
      const reading = readSession(flipped(bytes, bit).toString('latin1'), session.id)
      expect('wrong' in reading && reading.cause, `bit ${bit}`).toBe('ruined')
    }
  })

  it('prevents a flipped bit of the settings from changing a figure', () => {
    const directory = temporaryFolder()
    changeSettings(directory, (settings) => ({
      ...settings,
      bodyMasses: [{ date: '2026-11-01', value: 68, unit: 'kg' }],
    }))
    const path = join(directory, 'settings.json')
    const bytes = readFileSync(path)
    const right = readSettings(directory).settings
    writeFileSync(`${path}.bak`, bytes)
    let flips = 0
    for (const bit of bitsOf(bytes)) {
      flips += 1
      writeFileSync(path, flipped(bytes, bit))
      const { settings, damages } = readSettings(directory)
      expect(settings, `bit ${bit}`).toEqual(right)
      expect(damages, `bit ${bit}`).toHaveLength(1)
    }
    tell(`${flips} flipped bits of the settings, none accepted`)
  }, 600_000)

  it('may be missing: the file is still read, and verify reports it and adds one', async () => {
    const directory = join(temporaryFolder(), 'logbook')
    const file = openLogbook(directory).create(legs, started, [setRecorded(1), finished])
    file.close()
    const path = file.path
    writeFileSync(path, readFileSync(path, 'utf8').replace(/"checksum": "[0-9a-f]{64}",\n/, ''))
    const name = path.slice(directory.length + 1)
    const ran = await runProgram(['verify'], { logbook: directory })
    expect(ran).toEqual({
      code: 0,
      stdout: `1 session read, 1 sound, with 3 events. Index rebuilt.\n1 file without a checksum, from an earlier version or edited by hand: ${name}. "pausebook verify --seal" adds it.\n`,
      stderr: '',
    })
    const sealed = await runProgram(['verify', '--seal'], { logbook: directory })
    expect(sealed.stdout).toContain(`1 file sealed: ${name}.`)
    expect(readFileSync(path, 'utf8')).toContain('"checksum": "')
    expect((await runProgram(['verify'], { logbook: directory })).stdout).toBe(
      '1 session read, 1 sound, with 3 events. Index rebuilt.\n',
    )
  })

  it('is added to each file that lacks one, and to no other', async () => {
    const directory = join(temporaryFolder(), 'logbook')
    const logbook = openLogbook(directory)
    const paths = ['2026-11-24', '2026-11-25', '2026-11-26'].map((date) => {
      const made = logbook.create(legs, { ...started, date }, [setRecorded(1), finished])
      made.close()
      return made.path
    })
    const [first = '', second = '', third = ''] = paths
    for (const path of [first, third])
      writeFileSync(path, readFileSync(path, 'utf8').replace(/"checksum": "[0-9a-f]{64}",\n/, ''))
    const sound = statSync(second).mtimeMs
    const sealed = await runProgram(['verify', '--seal'], { logbook: directory })
    expect(sealed.stdout).toContain('2 files sealed: ')
    for (const path of paths) expect(readFileSync(path, 'utf8'), path).toContain('"checksum": "')
    expect(statSync(second).mtimeMs).toBe(sound)
  })

  it.each([
    [
      'a date unlike its name',
      (was: string) => was.replace('"date":"2026-11-26","bodyMassKg"', '"date":"2026-11-25","bodyMassKg"'),
      'The file is named for 2026-11-26, and its session began on 2026-11-25.',
    ],
    [
      'an event that changes nothing',
      (was: string) => was.replace('"step":"1.1.s1"', '"step":"7.7.s7"'),
      'The file has an event that changes nothing: number 2, setRecorded.',
    ],
  ])('missing, has verify name %s', async (_, change, wrong) => {
    const directory = join(temporaryFolder(), 'logbook')
    const file = openLogbook(directory).create(legs, started, [setRecorded(1), finished])
    file.close()
    const was = readFileSync(file.path, 'utf8').replace(/"checksum": "[0-9a-f]{64}",\n/, '')
    writeFileSync(file.path, change(was))
    const ran = await runProgram(['verify'], { logbook: directory })
    expect(ran.code).toBe(3)
    expect(ran.stdout).toContain(wrong)
  })
})
