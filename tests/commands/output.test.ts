import { describe, expect, it } from 'vitest'
import { outputOf } from '../../src/commands/io.ts'

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
})
