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

  it('is none without a rotation', () => {
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

  it('is the first before any of them was done', () => {
    expect(dueOf(rotation, [])).toEqual({ kind: 'legs', last: null })
    expect(dueOf(rotation, [day('2026-11-26', 'intervals')])).toEqual({ kind: 'legs', last: null })
  })

  it('follows the one that was done last, whatever lay in between', () => {
    const history = [day('2026-11-26', null), day('2026-11-24', 'Push, short'), day('2026-11-22', 'legs')]
    expect(dueOf(rotation, history)).toEqual({ kind: 'pull', last: { kind: 'push', date: '2026-11-24' } })
  })

  it('begins again after the last', () => {
    expect(dueOf(rotation, [day('2026-11-26', 'pull')])?.kind).toBe('legs')
  })

  it('is told by the title where no part is called so, and by whole words only', () => {
    expect(dueOf(rotation, [day('2026-11-26', null, 'Pull day')])?.kind).toBe('legs')
    expect(dueOf(rotation, [day('2026-11-26', 'pullover', 'Pullover')])?.last).toBeNull()
  })

  it('is told by the days before where a kind stands in the rotation twice', () => {
    const twice = ['legs', 'push', 'legs', 'pull']
    expect(dueOf(twice, [day('2026-11-26', 'legs'), day('2026-11-24', 'push')])?.kind).toBe('pull')
    expect(dueOf(twice, [day('2026-11-26', 'legs'), day('2026-11-24', 'pull')])?.kind).toBe('push')
    expect(dueOf(twice, [day('2026-11-26', 'legs')])?.kind).toBe('push')
  })

  it('counts no lift of which no set was done, neither by its name nor by the title', () => {
    const begun = { ...day('2026-11-26', 'push', 'Push day'), sets: 0 }
    expect(dueOf(['legs', 'push'], [begun])).toEqual({ kind: 'legs', last: null })
    expect(dueOf(['legs', 'track'], [begun])?.last?.kind).toBe('track')
  })
})
