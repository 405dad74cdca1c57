import { describe, expect, it } from 'vitest'
import { outputOf } from '../../src/commands/io.ts'

/** An output whose other end takes what `takes` says, turn by turn: so many bytes, or an error of this code.
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

describe('what is written', () => {
  it('arrives whole where it is taken bit by bit, also within a character', () => {
    const output = outputTo(1, 2, 'EAGAIN', 1, 'EAGAIN')
    output.out('→ Übung\n')
    expect(output.shown()).toBe('→ Übung\n')
    expect(output.status()).toBeNull()
  })

  it('is no failure where the reader has seen enough, and nothing follows it', () => {
    const output = outputTo(3, 'EPIPE')
    output.out('one\ntwo\n')
    output.out('three\n')
    expect([output.shown(), output.said(), output.status()]).toEqual(['one', '', 0])
  })

  it('fails without a word where the terminal was closed', () => {
    const output = outputTo('EIO')
    output.out('one\n')
    expect([output.shown(), output.said(), output.status()]).toEqual(['', '', 1])
  })

  it('fails with the reason where the disk is full, once', () => {
    const output = outputTo(2, 'ENOSPC')
    output.out('one\n')
    output.out('two\n')
    expect([output.shown(), output.status()]).toEqual(['on', 1])
    expect(output.said()).toBe(
      'pausebook: The output cannot be written: the disk is full. Make room or send it elsewhere.\n',
    )
  })

  it('on standard error that nobody reads is lost, and no failure of what was asked', () => {
    const output = outputTo('EPIPE')
    output.err('a warning\n')
    output.out('one\n')
    expect([output.shown(), output.said(), output.status()]).toEqual(['one\n', '', null])
  })
})
