import {
  chmodSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { backupOf, makeFolder, renameOver, writeDurably } from '../../src/logbook/durableFile.ts'
import { temporaryFolder } from './temporaryFolder.ts'

describe('a rename over a file that another program has open', () => {
  const busy = (code: string, times: number) => {
    let calls = 0
    const rename = () => {
      calls += 1
      if (calls <= times) throw Object.assign(new Error(code), { code })
    }
    return { rename, calls: () => calls }
  }

  it.each(['EPERM', 'EACCES', 'EBUSY'])('is retried on Windows after %s', (code) => {
    const { rename, calls } = busy(code, 2)
    renameOver('a', 'b', 'win32', rename)
    expect(calls()).toBe(3)
  })

  it('fails at once on other systems, and for other reasons', () => {
    const { rename, calls } = busy('EACCES', 2)
    expect(() => renameOver('a', 'b', 'linux', rename)).toThrow('EACCES')
    expect(calls()).toBe(1)
    expect(() => renameOver('a', 'b', 'win32', busy('ENOSPC', 1).rename)).toThrow('ENOSPC')
  })
})

describe('a durable write', () => {
  it('leaves the text in a file private to the user, and no other file', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    writeDurably(path, 'one', true)
    expect(readFileSync(path, 'utf8')).toBe('one')
    expect(statSync(path).mode & 0o777).toBe(0o600)
    expect(readdirSync(folder)).toEqual(['a.json'])
  })

  it('keeps the previous text as .bak, and only that one', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    for (const text of ['one', 'two', 'three']) writeDurably(path, text, true)
    expect(readFileSync(backupOf(path), 'utf8')).toBe('two')
    expect(readdirSync(folder).sort()).toEqual(['a.json', 'a.json.bak'])
  })

  it('keeps no previous text unless asked to', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    for (const text of ['one', 'two']) writeDurably(path, text, false)
    expect(readdirSync(folder)).toEqual(['a.json'])
  })

  it('changes nothing if the previous text cannot be kept', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    writeDurably(path, 'one', true)
    mkdirSync(join(folder, 'a.json.bak'))
    expect(() => writeDurably(path, 'two', true)).toThrow(/EISDIR|ENOTEMPTY|EEXIST|EPERM/)
    expect(readFileSync(path, 'utf8')).toBe('one')
    expect(readdirSync(folder).sort()).toEqual(['a.json', 'a.json.bak'])
  })

  it('makes a file private that others could read', () => {
    const path = join(temporaryFolder(), 'a.json')
    writeFileSync(path, 'one')
    chmodSync(path, 0o644)
    writeDurably(path, 'two', true)
    expect(statSync(path).mode & 0o777).toBe(0o600)
  })

  it('follows a link to the file it names', () => {
    const folder = temporaryFolder()
    mkdirSync(join(folder, 'elsewhere'))
    const real = join(folder, 'elsewhere', 'real.json')
    const link = join(folder, 'link.json')
    writeFileSync(real, 'one')
    symlinkSync(real, link)
    writeDurably(link, 'two', true)
    expect(readlinkSync(link)).toBe(real)
    expect(readFileSync(real, 'utf8')).toBe('two')
  })

  it('follows a link to a file that does not exist yet', () => {
    const folder = temporaryFolder()
    symlinkSync('real.json', join(folder, 'link.json'))
    writeDurably(join(folder, 'link.json'), 'one', true)
    expect(readFileSync(join(folder, 'real.json'), 'utf8')).toBe('one')
  })

  it('leaves the old text and no temporary file when it fails', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    mkdirSync(path)
    expect(() => writeDurably(path, 'two', false)).toThrow(/EISDIR|ENOTEMPTY|EEXIST/)
    expect(readdirSync(folder)).toEqual(['a.json'])
  })

  it('succeeds if a crash between two renames left two names of one file', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    writeDurably(path, 'one', true)
    linkSync(path, backupOf(path))
    writeDurably(path, 'two', true)
    writeDurably(path, 'three', true)
    expect(readdirSync(folder).sort()).toEqual(['a.json', 'a.json.bak'])
    expect(readFileSync(backupOf(path), 'utf8')).toBe('two')
  })
})

it('creates a folder and its parents, private to the user', () => {
  const path = join(temporaryFolder(), 'one', 'two')
  makeFolder(path)
  makeFolder(path)
  expect(statSync(path).mode & 0o777).toBe(0o700)
  expect(statSync(join(path, '..')).mode & 0o777).toBe(0o700)
})
