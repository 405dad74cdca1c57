import {
  chmodSync,
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, it, onTestFinished, test, vi } from 'vitest'
import {
  addDurably,
  backupOf,
  ChangedElsewhere,
  durableFile,
  makeFolder,
  removeFile,
  renameOver,
  replaceDamaged,
  sweepLogbook,
  writeDurably,
  writeKeepingPrevious,
} from '../../src/logbook/durableFile.ts'
import { spillSession } from '../../src/logbook/sessionFile.ts'
import { readFileBytes } from '../../src/logbook/text.ts'
import { expectPrivate } from '../expectPrivate.ts'
import { onPlatform, onWindows } from '../onWindows.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { failing, insteadOf } from './otherCalls.ts'
import { sampleSession } from './sampleSession.ts'
import { machineWith, muchLater } from './testMachine.ts'

describe('a rename over a file that another program has open', () => {
  const busy = (name: 'renameSync' | 'rmSync', code: string | undefined, times: number) => {
    let calls = 0
    insteadOf(name, () => () => {
      calls += 1
      if (calls <= times) throw Object.assign(new Error(code ?? 'no code'), { code })
    })
    return () => calls
  }

  it.each(['EPERM', 'EACCES', 'EBUSY'])('is retried on Windows after %s', (code) => {
    onWindows()
    const calls = busy('renameSync', code, 2)
    renameOver('a', 'b')
    expect(calls()).toBe(3)
  })

  it('is retried as a removal is', () => {
    const calls = busy('rmSync', 'EBUSY', 3)
    onPlatform('linux')
    expect(() => removeFile('a')).toThrow('EBUSY')
    onWindows()
    removeFile('a')
    expect(calls()).toBe(4)
  })

  it('fails at once on other systems, and for other reasons', () => {
    onPlatform('linux')
    const calls = busy('renameSync', 'EACCES', 2)
    expect(() => renameOver('a', 'b')).toThrow('EACCES')
    expect(calls()).toBe(1)
    onWindows()
    busy('renameSync', 'ENOSPC', 1)
    expect(() => renameOver('a', 'b')).toThrow('ENOSPC')
    busy('renameSync', undefined, 1)
    expect(() => renameOver('a', 'b')).toThrow('no code')
  })

  it('is tried twenty times on Windows, 50 ms apart', () => {
    const waits: number[] = []
    const wait = vi.spyOn(Atomics, 'wait').mockImplementation((_array, _index, _value, milliseconds = 0) => {
      waits.push(milliseconds)
      return 'timed-out'
    })
    onTestFinished(() => wait.mockRestore())
    onWindows()
    const calls = busy('renameSync', 'EBUSY', 100)
    expect(() => renameOver('a', 'b')).toThrow('EBUSY')
    expect(calls()).toBe(20)
    expect(waits).toEqual(Array(19).fill(50))
  })
})

describe('a durable write', () => {
  it('leaves the text in a file private to the user, and no other file', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    writeKeepingPrevious(path, 'one')
    expect(readFileSync(path, 'utf8')).toBe('one')
    expectPrivate(path)
    expect(readdirSync(folder)).toEqual(['a.json'])
  })

  it('keeps the previous text as .bak, and only that one', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    for (const text of ['one', 'two', 'three']) writeKeepingPrevious(path, text)
    expect(readFileSync(backupOf(path), 'utf8')).toBe('two')
    expect(readdirSync(folder).sort()).toEqual(['a.json', 'a.json.bak'])
  })

  it('keeps no previous text unless asked to', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    for (const text of ['one', 'two']) writeDurably(path, text)
    expect(readdirSync(folder)).toEqual(['a.json'])
  })

  it('changes nothing if the previous text cannot be kept', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    writeKeepingPrevious(path, 'one')
    mkdirSync(join(folder, 'a.json.bak'))
    expect(() => writeKeepingPrevious(path, 'two')).toThrow(/EISDIR|ENOTEMPTY|EEXIST|EPERM/)
    expect(readFileSync(path, 'utf8')).toBe('one')
    expect(readdirSync(folder).sort()).toEqual(['a.json', 'a.json.bak'])
  })

  it('makes a file private that others could read', () => {
    const path = join(temporaryFolder(), 'a.json')
    writeFileSync(path, 'one')
    chmodSync(path, 0o644)
    writeKeepingPrevious(path, 'two')
    expectPrivate(path)
  })

  it('follows a link to the file it names', () => {
    const folder = temporaryFolder()
    mkdirSync(join(folder, 'elsewhere'))
    const real = join(folder, 'elsewhere', 'real.json')
    const link = join(folder, 'link.json')
    writeFileSync(real, 'one')
    symlinkSync(real, link)
    writeKeepingPrevious(link, 'two')
    expect(readlinkSync(link)).toBe(real)
    expect(readFileSync(real, 'utf8')).toBe('two')
  })

  it('follows a link to a file that does not exist yet', () => {
    const folder = temporaryFolder()
    symlinkSync('real.json', join(folder, 'link.json'))
    writeKeepingPrevious(join(folder, 'link.json'), 'one')
    expect(readFileSync(join(folder, 'real.json'), 'utf8')).toBe('one')
  })

  it('leaves the old text and no temporary file when it fails', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    mkdirSync(path)
    expect(() => writeDurably(path, 'two')).toThrow(/EISDIR|ENOTEMPTY|EEXIST/)
    expect(readdirSync(folder)).toEqual(['a.json'])
  })

  it('succeeds if a crash between two renames left two names of one file', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    writeKeepingPrevious(path, 'one')
    linkSync(path, backupOf(path))
    writeKeepingPrevious(path, 'two')
    writeKeepingPrevious(path, 'three')
    expect(readdirSync(folder).sort()).toEqual(['a.json', 'a.json.bak'])
    expect(readFileSync(backupOf(path), 'utf8')).toBe('two')
  })
})

it('creates a folder and its parents, private to the user', () => {
  const path = join(temporaryFolder(), 'one', 'two')
  makeFolder(path)
  makeFolder(path)
  expectPrivate(path)
  expectPrivate(join(path, '..'))
})

describe('a new file', () => {
  it('is written whole, private to the user, and never replaces one', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.txt')
    expect(addDurably(path, 'one')).toBe(true)
    expect(addDurably(path, 'two')).toBe(false)
    expect(readFileSync(path, 'utf8')).toBe('one')
    expectPrivate(path)
    expect(readdirSync(folder)).toEqual(['a.txt'])
    expect(() => addDurably(join(folder, 'gone', 'a.txt'), 'one')).toThrow('ENOENT')
  })

  it.each(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EISDIR', 'EACCES'])(
    'is copied into place on a file system without links (%s), and its previous text is kept, too',
    (code) => {
      const folder = temporaryFolder()
      const path = join(folder, 'a.txt')
      failing('linkSync', code)
      expect(addDurably(path, 'one')).toBe(true)
      expect(addDurably(path, 'two')).toBe(false)
      writeKeepingPrevious(path, 'three')
      expect(readFileSync(path, 'utf8')).toBe('three')
      expect(readFileSync(backupOf(path), 'utf8')).toBe('one')
      expect(readdirSync(folder).sort()).toEqual(['a.txt', 'a.txt.bak'])
    },
  )

  it('is not copied for another error', () => {
    const folder = temporaryFolder()
    failing('linkSync', 'EIO')
    expect(() => addDurably(join(folder, 'a.txt'), 'one')).toThrow('EIO')
    expect(readdirSync(folder)).toEqual([])
  })
})

test('every file that is opened is closed again', () => {
  const folder = temporaryFolder()
  const path = join(folder, 'a.txt')
  const open = new Set<number>()
  insteadOf('openSync', (openSync) => (which: string, flags: string, mode: number) => {
    const descriptor = openSync(which, flags, mode)
    open.add(descriptor)
    return descriptor
  })
  insteadOf('closeSync', (closeSync) => (descriptor: number) => {
    closeSync(descriptor)
    open.delete(descriptor)
  })
  writeKeepingPrevious(path, 'one')
  addDurably(join(folder, 'b.txt'), 'two')
  replaceDamaged(path, 'three')
  makeFolder(join(folder, 'c'))
  expect(spillSession(sampleSession(), 'd', folder)).not.toBeNull()
  expect(readFileBytes(path)).toEqual(Buffer.from('three'))
  expect(readFileBytes(folder)).toEqual({ wrong: 'is a folder' })
  expect(open).toEqual(new Set())
  failing('linkSync', 'EPERM')
  addDurably(join(folder, 'e.txt'), 'copied')
  expect(open).toEqual(new Set())
})

describe('a file that cannot be written', () => {
  it('is as before if its change is refused at the last moment, and leaves no other file', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.txt')
    writeFileSync(path, 'one')
    const refuse = () => {
      throw new Error('refused')
    }
    expect(() => writeKeepingPrevious(path, 'two', refuse)).toThrow('refused')
    expect(readFileSync(path, 'utf8')).toBe('one')
    expect(readdirSync(folder)).toEqual(['a.txt'])
  })

  it('is reported by its first error, even if its temporary file cannot be removed', () => {
    const path = join(temporaryFolder(), 'a.txt')
    failing('rmSync', 'EBUSY')
    const refuse = () => {
      throw new Error('refused')
    }
    expect(() => writeDurably(path, 'two', refuse)).toThrow('refused')
  })

  it('is one whose folder cannot be made', () => {
    const folder = temporaryFolder()
    failing('mkdirSync', 'EACCES')
    expect(() => makeFolder(join(folder, 'one'))).toThrow('EACCES')
  })

  it('is not one whose folder another program makes at the same moment', () => {
    const folder = join(temporaryFolder(), 'one')
    insteadOf('mkdirSync', (mkdirSync) => (path: string) => {
      mkdirSync(path)
      mkdirSync(path)
    })
    makeFolder(folder)
    expect(statSync(folder).isDirectory()).toBe(true)
  })
})

describe('a damaged file', () => {
  it('is set aside under the next free number when another text replaces it', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    expect(replaceDamaged(path, 'good')).toBeNull()
    for (const number of [1, 2]) {
      writeFileSync(path, `bad ${number}`)
      expect(replaceDamaged(path, 'good')).toBe(`a.json.damaged-${number}`)
      expect(readFileSync(`${path}.damaged-${number}`, 'utf8')).toBe(`bad ${number}`)
      expect(readFileSync(path, 'utf8')).toBe('good')
    }
  })

  it('stays as it is if it cannot be set aside', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.json')
    writeFileSync(path, 'bad')
    failing('linkSync', 'EIO')
    expect(() => replaceDamaged(path, 'good')).toThrow('EIO')
    expect(readFileSync(path, 'utf8')).toBe('bad')
    expect(readdirSync(folder)).toEqual(['a.json'])
  })
})

describe('a file that is written again and again', () => {
  const numberIn = (folder: string) =>
    durableFile<number>(
      join(folder, 'a.txt'),
      (text) => {
        if (Number.isNaN(Number(text))) throw new Error(`"${text}" is not a number`)
        return Number(text)
      },
      String,
    )

  it('is read and written, with the previous text beside it', () => {
    const folder = temporaryFolder()
    const file = numberIn(folder)
    expect(file.read()).toBeNull()
    for (const number of [1, 2, 3]) file.write(number)
    expect(file.read()).toBe(3)
    expect(readFileSync(join(folder, 'a.txt.bak'), 'utf8')).toBe('2')
  })

  it('is not overwritten if it cannot be read, or was changed since it was read', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.txt')
    writeFileSync(path, 'one')
    expect(() => numberIn(folder).write(1)).toThrow('"one" is not a number')
    expect(readFileSync(path, 'utf8')).toBe('one')
    writeFileSync(path, '1')
    const file = numberIn(folder)
    expect(file.read()).toBe(1)
    for (const other of ['17', Buffer.from([0xff, 0xfe])]) {
      writeFileSync(path, other)
      expect(() => file.write(2)).toThrow(ChangedElsewhere)
      expect(readFileSync(path)).toEqual(Buffer.from(other))
    }
  })

  it('is written if only its time has changed, if it is gone, or if a write that seemed to fail had arrived', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'a.txt')
    const file = numberIn(folder)
    file.write(1)
    writeFileSync(path, '1')
    file.write(2)
    writeFileSync(path, '3')
    expect(() => file.write(3)).not.toThrow()
    rmSync(path)
    file.write(4)
    expect(readFileSync(path, 'utf8')).toBe('4')
    // The flush of the folder fails after the rename.
    let calls = 0
    insteadOf('fsyncSync', (fsyncSync) => (descriptor: number) => {
      calls += 1
      if (calls === 2) throw Object.assign(new Error('EIO'), { code: 'EIO' })
      fsyncSync(descriptor)
    })
    expect(() => file.write(5)).toThrow('EIO')
    expect(readFileSync(path, 'utf8')).toBe('5')
    file.write(6)
    expect(readFileSync(path, 'utf8')).toBe('6')
  })
})

describe('what a killed program has left', () => {
  const day = 24 * 60 * 60 * 1000
  const now = Date.parse('2026-11-26T12:00:00+01:00')
  const machine = machineWith({ now: () => new Date(now), isRunning: () => false })
  /** The names that stay of these; a name with a slash is a file in a folder. */
  const staying = (names: string[], age = 0) => {
    const home = temporaryFolder()
    const folder = join(home, 'mornings')
    for (const name of names) {
      mkdirSync(join(folder, name, '..'), { recursive: true })
      writeFileSync(join(folder, name), '')
      utimesSync(join(folder, name), (now - age) / 1000, (now - age) / 1000)
    }
    sweepLogbook(home, machine)
    return readdirSync(folder).sort()
  }

  it('stays for a day, since another machine that shares the folder may be writing it', () => {
    const file = '.pausebook.8.abcdefgh.tmp'
    expect(staying([file])).toEqual([file])
    expect(staying([file], day)).toEqual([file])
    expect(staying([file], day + 1000)).toEqual([])
  })

  it('is also a right to a lock, after a day', () => {
    const right = 'settings.json.lock.abcdefghijkl'
    expect(staying([right])).toEqual([right])
    expect(staying([right], day + 1000)).toEqual([])
    expect(staying(['settings.json.lock'], 2 * day)).toEqual(['settings.json.lock'])
    const others = [
      '2026-11-26-abcdef2345.json.lock.abcdefghijkl',
      '2026.json.lock.a-cdefg8',
      'sync.lock.abcdefgh',
    ]
    expect(staying(others, 2 * day)).toEqual([])
  })

  it('is no file that this program would not write', () => {
    const others = [
      'letter.8.abcdefgh.tmp',
      'letter.json.lock.abcdefghijkl',
      'settings.json',
      '.pausebook.8.abcdefg.tmp',
      '.pausebook.8.abcdefgh.tmp.txt',
      'my.pausebook.8.abcdefgh.tmp',
    ]
    expect(staying(others, 2 * day)).toEqual(others.toSorted())
  })

  it('is a folder of sessions that are stored together, too', () => {
    const home = temporaryFolder()
    mkdirSync(join(home, '.pausebook.8.abcdefgh.tmp'))
    writeFileSync(join(home, '.pausebook.8.abcdefgh.tmp', '2026-11-26-abcdef2345.json'), '')
    sweepLogbook(home, muchLater)
    expect(readdirSync(home)).toEqual([])
  })

  it('is swept from every folder of a logbook', () => {
    const home = temporaryFolder()
    const folders = [
      '.',
      'prescriptions',
      'prescriptions/spring',
      'mornings',
      'sessions/2024',
      'sessions/2026',
    ]
    const left = folders.map((folder) => join(home, folder, '.pausebook.8.abcdefgh.tmp'))
    for (const path of left) {
      mkdirSync(dirname(path), { recursive: true })
      writeFileSync(path, '')
    }
    sweepLogbook(home, muchLater)
    expect(left.filter((path) => existsSync(path))).toEqual([])
  })
})
