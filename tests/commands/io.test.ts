import { execFileSync } from 'node:child_process'
import { chmodSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, describe, expect, it, onTestFinished, vi } from 'vitest'
import { outputOf, processIo } from '../../src/commands/io.ts'
import { writeBytes } from '../../src/ui/terminal/capabilities.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

const folder = temporaryFolder(afterAll)
const { readText } = processIo(outputOf())

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

describe('reading a text file', () => {
  it('returns its text, including a byte-order mark', () => {
    expect(readText(file('day', '\ufeffThursday\n'), 'prescription')).toBe('\ufeffThursday\n')
    expect(readText(file('empty', ''), 'prescription')).toBe('')
  })

  it('says that it does not exist', () => {
    const path = join(folder, 'none')
    expect(() => readText(path, 'prescription')).toThrow(
      `There is no prescription "${path}". Check the path.`,
    )
  })

  it('says that it is a folder', () => {
    expect(() => readText(folder, 'prescription')).toThrow(
      `The prescription "${folder}" is a folder. Give another file.`,
    )
  })

  it.skipIf(process.platform === 'win32')(
    'refuses a pipe, a device and a link to itself at once (skipped on Windows, which has no such files)',
    () => {
      const pipe = join(folder, 'pipe')
      execFileSync('mkfifo', [pipe])
      const loop = join(folder, 'loop')
      symlinkSync(loop, loop)
      for (const path of [pipe, '/dev/zero'])
        expect(() => readText(path, 'prescription')).toThrow(
          `The prescription "${path}" is not a regular file. Give another file.`,
        )
      expect(() => readText(loop, 'table')).toThrow('cannot be read (ELOOP).')
    },
  )

  it('says that it is not text', () => {
    const path = file('binary', Uint8Array.of(0xff, 0xfe, 0x00))
    expect(() => readText(path, 'results file')).toThrow(
      `The results file "${path}" is not UTF-8 text. Save it as UTF-8.`,
    )
  })

  it('accepts a file of exactly the limit and refuses one more byte', () => {
    expect(readText(file('large', 'x'.repeat(1024 * 1024)), 'prescription')).toHaveLength(1024 * 1024)
    const path = file('larger', 'x'.repeat(1024 * 1024 + 1))
    expect(() => readText(path, 'prescription')).toThrow(
      `The prescription "${path}" is larger than 1 MiB. Give another file.`,
    )
  })

  it.skipIf((process.getuid?.() ?? 0) === 0)(
    'says that it may not be read (skipped for root, who may, and on Windows, which has no modes)',
    () => {
      const path = file('private', 'x')
      chmodSync(path, 0)
      expect(() => readText(path, 'prescription')).toThrow('may not be read')
    },
  )

  it('shows a path without its control characters', () => {
    expect(() => readText('\u0007', 'prescription')).toThrow(
      'There is no prescription "\uFFFD". Check the path.',
    )
  })
})

/** An output whose receiver takes what `takes` says, call by call: a number of bytes, or an error of this code.
 * Afterwards it takes everything. */
function outputTo(...takes: (number | string)[]) {
  const written = { 1: [] as Uint8Array[], 2: [] as Uint8Array[] }
  const output = outputOf((descriptor, bytes) => {
    const take = takes.shift() ?? bytes.length
    if (typeof take === 'string') throw Object.assign(new Error(take), { code: take })
    written[descriptor as 1 | 2].push(bytes.slice(0, take))
    return Math.min(take, bytes.length)
  })
  const textOf = (descriptor: 1 | 2) => Buffer.concat(written[descriptor]).toString('utf8')
  return { ...output, shown: () => textOf(1), said: () => textOf(2) }
}

describe('written output', () => {
  it('arrives complete if it is taken bit by bit, even within a character', () => {
    const output = outputTo(1, 2, 'EAGAIN', 1, 'EAGAIN')
    output.out('→ Übung\n')
    expect(output.shown()).toBe('→ Übung\n')
    expect(output.status()).toBeNull()
  })

  it('does not fail if the reader has read enough, and nothing follows it', () => {
    const output = outputTo(3, 'EPIPE')
    output.out('one\ntwo\n')
    output.out('three\n')
    expect([output.shown(), output.said(), output.status()]).toEqual(['one', '', 0])
  })

  it('fails without a message if the terminal was closed', () => {
    const output = outputTo('EIO')
    output.out('one\n')
    expect([output.shown(), output.said(), output.status()]).toEqual(['', '', 1])
  })

  it('fails with the reason if the disk is full, once', () => {
    const output = outputTo(2, 'ENOSPC')
    output.out('one\n')
    output.out('two\n')
    expect([output.shown(), output.status()]).toEqual(['on', 1])
    expect(output.said()).toBe(
      'pausebook: The output cannot be written: the disk is full. Make room or send it elsewhere.\n',
    )
  })

  it('is lost on standard error if nobody reads it, and the command still succeeds', () => {
    const output = outputTo('EPIPE')
    output.err('a warning\n')
    output.out('one\n')
    expect([output.shown(), output.said(), output.status()]).toEqual(['one\n', '', null])
  })

  it('gives a Windows console characters, each stream its own, and leaves no byte', () => {
    const said: string[] = []
    for (const name of ['stdout', 'stderr'] as const) {
      const write = vi.spyOn(process[name], 'write').mockImplementation((text) => {
        said.push(`${name} ${new TextDecoder().decode(text as Uint8Array)}`)
        return true
      })
      onTestFinished(() => write.mockRestore())
    }
    const bytes = new TextEncoder().encode('é')
    expect([writeBytes(1, bytes, true), writeBytes(2, bytes, true)]).toEqual([2, 2])
    expect(said).toEqual(['stdout é', 'stderr é'])
  })
})
