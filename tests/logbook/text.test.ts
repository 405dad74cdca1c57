import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { printableValueOf, readObject, readTextFile, textOf, tooLargeIn } from '../../src/logbook/text.ts'
import { clipped } from '../../src/validate/unsafe.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

/* What the files of a logbook share. Limits and messages are this program's own. */

describe('a value from outside', () => {
  it('keeps its sound strings and loses unsafe ones at any depth', () => {
    const sound = { a: ['b', 1, null, true, { c: 'd' }] }
    expect(printableValueOf(sound)).toBe(sound)
    expect(printableValueOf({ a: ['b\u001b', { c: '\u0007', d: null, e: 0 }] })).toEqual({
      a: ['b\uFFFD', { c: '\uFFFD', d: null, e: 0 }],
    })
    expect(printableValueOf('\u0007')).toBe('\uFFFD')
    expect(printableValueOf(null)).toBeNull()
  })

  it('has a number that is too large beyond a thousand million, on either side of 0', () => {
    expect(tooLargeIn({ a: [1e9, -1e9, null, '1e10'] })).toBeNull()
    expect(tooLargeIn({ a: [{ b: 1e9 + 1 }] })).toBe(1e9 + 1)
    expect(tooLargeIn(-1e9 - 1)).toBe(-1e9 - 1)
    expect(tooLargeIn(null)).toBeNull()
  })

  it('is clipped after 200 characters', () => {
    expect(clipped('a'.repeat(200), 200)).toBe('a'.repeat(200))
    expect(clipped('a'.repeat(201), 200)).toBe(`${'a'.repeat(200)}…`)
    expect(clipped('a\u0007', 200)).toBe('a\uFFFD')
  })
})

describe('the text of a file', () => {
  it.each([
    [' \n', 'is empty'],
    ['{"a": [1, 2', 'breaks off before its end'],
    ['{"a": 1', 'breaks off before its end'],
    ['{"a": "b', 'breaks off before its end'],
    ['{"a"', 'breaks off before its end'],
    ['{"a": 1, \n', 'breaks off before its end'],
    ['{"a": [1 2]}', 'is not JSON'],
    ['{"a": 1 "b": 2}', 'is not JSON'],
    ['lift', 'is not JSON'],
    ['null', 'holds null instead of a session'],
    ['[1]', 'holds a list instead of a session'],
    ['7', 'holds a number instead of a session'],
    ['"a"', 'holds a string instead of a session'],
  ])('%j %s', (text, wrong) => expect(readObject(text)).toBe(wrong))

  it('is read where it is an object', () => expect(readObject(' {"a": [1]}\n')).toEqual({ a: [1] }))

  it('is read up to a size, whatever its letters, and its mark is kept only if asked for', () => {
    const path = join(temporaryFolder(), 'a.txt')
    expect(readTextFile(path)).toBeNull()
    writeFileSync(path, 'ü'.repeat(512 * 1024))
    expect(readTextFile(path, 1024 * 1024)).toHaveLength(512 * 1024)
    writeFileSync(path, 'a'.repeat(1024 * 1024 + 1))
    expect(readTextFile(path, 1024 * 1024)).toEqual({ wrong: 'is larger than 1 MiB' })
    const marked = Buffer.from('\uFEFFü')
    expect(textOf(marked)).toBe('ü')
    expect(textOf(marked, true)).toBe('\uFEFFü')
    expect(textOf(Buffer.from([0xc3]))).toEqual({ wrong: 'is not UTF-8 text', cause: 'ruined' })
  })
})
