import { describe, expect, it } from 'vitest'
import { dueOf } from '../../src/plan/model.ts'

/** A day with a run on the track and a lift; the lift may have a name. */
const day = (lift: string | null, title = 'Thursday', date = '2026-11-26', sets = 12) => {
  const parts = [
    { kind: 'run' as const, name: 'track' },
    { kind: 'lift' as const, name: lift },
  ]
  return { date, brief: { title, parts, sets } }
}
const rotation = ['legs', 'push', 'pull']

describe('the kind of day that is due', () => {
  it('does not exist without a rotation', () => {
    expect(dueOf([], [day('legs')])).toBeNull()
  })

  it('is the first before any was done', () => {
    expect(dueOf(rotation, [])).toEqual({ kind: 'legs', last: null })
    expect(dueOf(rotation, [day('intervals')])).toEqual({ kind: 'legs', last: null })
  })

  it('follows the one that was done last, whatever came in between, and begins again after the last', () => {
    const history = [day(null), day('Push, short', 'Tuesday', '2026-11-24'), day('legs')]
    expect(dueOf(rotation, history)).toEqual({ kind: 'pull', last: { kind: 'push', date: '2026-11-24' } })
    expect(dueOf(rotation, [day('pull')])?.kind).toBe('legs')
  })

  it('is told by the days before if a kind occurs in the rotation twice, else after its first place', () => {
    const twice = ['legs', 'push', 'legs', 'pull']
    const dueAfter = (...newestFirst: string[]) =>
      dueOf(
        twice,
        newestFirst.map((name) => day(name)),
      )?.kind
    expect(dueAfter('legs', 'push')).toBe('pull')
    expect(dueAfter('legs', 'pull', 'legs', 'push')).toBe('push')
    expect(dueAfter('legs')).toBe('push')
  })

  it('ignores a lift without a recorded set, both by its name and by the title', () => {
    const begun = day('push', 'Push day', '2026-11-26', 0)
    expect(dueOf(['legs', 'push'], [begun])).toEqual({ kind: 'legs', last: null })
    expect(dueOf(['legs', 'track'], [begun])?.last?.kind).toBe('track')
  })

  it('reads no more days than the rotation has, and one', () => {
    let read = 0
    function* history() {
      for (;;) {
        read += 1
        yield day(rotation[read % 3] ?? null)
      }
    }
    expect(dueOf(rotation, history())?.last?.kind).toBe('push')
    expect(read).toBe(4)
  })
})

describe('the kind of a day that was done', () => {
  it.each([
    [null, '(Push), short', 'push'],
    [null, 'Pull day', 'pull'],
    // The name of a part goes before the title.
    ['legs', 'Pull day', 'legs'],
    ['pushing', 'Pullover day', null],
    [null, '***', null],
    // Letters of full width, as some keyboards type them.
    ['\uff50ull', 'Thursday', 'pull'],
  ])('in a lift called %j with the title %j is %j', (lift, title, kind) => {
    expect(dueOf(rotation, [day(lift, title)])?.last?.kind ?? null).toBe(kind)
  })

  it('is a word of the rotation without its signs and double spaces', () => {
    expect(dueOf(['legs!', 'push'], [day('heavy legs')])?.last?.kind).toBe('legs!')
    expect(dueOf(['Lower  body', 'push'], [day('lower body day')])?.last?.kind).toBe('Lower  body')
  })
})
