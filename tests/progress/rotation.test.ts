import { describe, expect, it } from 'vitest'
import { dueOf } from '../../src/progress/week.ts'

const day = (date: string, part: string | null, title = 'Thursday') => ({
  date,
  title,
  parts: [
    { kind: 'run', name: 'track' },
    { kind: 'lift', name: part },
  ],
  sets: 12,
})

describe('the kind of day that is due', () => {
  const rotation = ['legs', 'push', 'pull']

  it('does not exist without a rotation', () => {
    expect(dueOf([], [day('2026-11-26', 'legs')])).toBeNull()
  })

  it('reads no more days than the rotation has, and one', () => {
    let read = 0
    function* history() {
      for (;;) {
        read += 1
        yield day('2026-11-24', rotation[read % 3] ?? null)
      }
    }
    expect(dueOf(rotation, history())?.last?.kind).toBe('push')
    expect(read).toBe(4)
  })

  it('is the first before any was done', () => {
    expect(dueOf(rotation, [])).toEqual({ kind: 'legs', last: null })
    expect(dueOf(rotation, [day('2026-11-26', 'intervals')])).toEqual({ kind: 'legs', last: null })
  })

  it('follows the one that was done last, whatever came in between', () => {
    const history = [day('2026-11-26', null), day('2026-11-24', 'Push, short'), day('2026-11-22', 'legs')]
    expect(dueOf(rotation, history)).toEqual({ kind: 'pull', last: { kind: 'push', date: '2026-11-24' } })
  })

  it('begins again after the last', () => {
    expect(dueOf(rotation, [day('2026-11-26', 'pull')])?.kind).toBe('legs')
  })

  it('is recognised by the title if no part has the name, and only by whole words', () => {
    expect(dueOf(rotation, [day('2026-11-26', null, 'Pull day')])?.kind).toBe('legs')
    expect(dueOf(rotation, [day('2026-11-26', 'pullover', 'Pullover')])?.last).toBeNull()
  })

  it('is recognised by the days before if a kind occurs in the rotation twice', () => {
    const twice = ['legs', 'push', 'legs', 'pull']
    expect(dueOf(twice, [day('2026-11-26', 'legs'), day('2026-11-24', 'push')])?.kind).toBe('pull')
    expect(dueOf(twice, [day('2026-11-26', 'legs'), day('2026-11-24', 'pull')])?.kind).toBe('push')
    expect(dueOf(twice, [day('2026-11-26', 'legs')])?.kind).toBe('push')
  })

  it('ignores a lift without a recorded set, both by its name and by the title', () => {
    const begun = { ...day('2026-11-26', 'push', 'Push day'), sets: 0 }
    expect(dueOf(['legs', 'push'], [begun])).toEqual({ kind: 'legs', last: null })
    expect(dueOf(['legs', 'track'], [begun])?.last?.kind).toBe('track')
  })
})
