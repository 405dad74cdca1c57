import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { printSession, readSession } from '../../src/logbook/sessionFile.ts'
import { changeSettings, readSettings } from '../../src/logbook/settings.ts'
import { sealed, sealOf, zeros } from '../../src/logbook/storedFile.ts'
import { isLongRun, tell } from '../faults/harness.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { finished, sampleSession, setRecorded } from './sampleSession.ts'

const session = sampleSession(setRecorded(1), finished)
const text = printSession(session)

function flipped(bytes: Buffer, bit: number): Buffer {
  const changed = Buffer.from(bytes)
  changed[bit >> 3] = (changed[bit >> 3] ?? 0) ^ (1 << (bit & 7))
  return changed
}

/** Every thirteenth bit of a file, in a long run all of them. */
function* bitsOf(bytes: Buffer): Generator<number> {
  const step = isLongRun ? 1 : 13
  for (let bit = 0; bit < bytes.length * 8; bit += step) yield bit
}

describe('the checksum of a file', () => {
  it('fits only the text it was computed from', () => {
    const text = sealed(`{"checksum": "${zeros}", "a": 1}`)
    const read = (each: string) => JSON.parse(each)
    expect(sealOf(text, read(text))).toBe('right')
    const changed = text.replace('1}', '2}')
    expect(sealOf(changed, read(changed))).toBe('wrong')
    expect(sealOf('{"a": 1}', { a: 1 })).toBe('missing')
    expect(sealOf('{"checksum": "short"}', { checksum: 'short' })).toBe('wrong')
    // The field that counts is the first in the text; JSON takes the last.
    const twice = text.replace('"a"', `"checksum": "${'a'.repeat(64)}", "a"`)
    expect(sealOf(twice, read(twice))).toBe('wrong')
  })

  it('is the SHA-256 of the bytes with the 64 digits set to 0', () => {
    const digits = /"checksum": "([0-9a-f]{64})"/.exec(text)?.[1] ?? ''
    const zeroed = text.replace(digits, '0'.repeat(64))
    expect(createHash('sha256').update(zeroed).digest('hex')).toBe(digits)
    expect(readSession(text, session.id)).toEqual({ value: session, isSealed: true })
  })

  it('detects every flipped bit of a session', () => {
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
  })

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
  })
})
