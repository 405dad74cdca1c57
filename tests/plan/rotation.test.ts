import { describe, expect, it } from 'vitest'
import { dueOf } from '../../src/plan/model.ts'

const day = (date: string, part: string | null, title = 'Thursday') => ({
  date,
  brief: {
    title,
    parts: [
      { kind: 'run' as const, name: 'track' },
      { kind: 'lift' as const, name: part },
    ],
    sets: 12,
  },
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
    const { date, brief } = day('2026-11-26', 'push', 'Push day')
    const begun = { date, brief: { ...brief, sets: 0 } }
    expect(dueOf(['legs', 'push'], [begun])).toEqual({ kind: 'legs', last: null })
    expect(dueOf(['legs', 'track'], [begun])?.last?.kind).toBe('track')
  })
})

describe('the words of a day', () => {
  const rotation = ['legs', 'push', 'pull']
  const done = (title: string, ...names: (string | null)[]) => ({
    date: '2026-11-26',
    brief: { title, parts: names.map((name) => ({ kind: 'lift' as const, name })), sets: 12 },
  })
  const kind = (day: ReturnType<typeof done>, words = rotation) => dueOf(words, [day])?.last?.kind ?? null

  it('name its kind in a part, else in the title, whatever is around them', () => {
    expect(kind(done('Thursday', null, '(Push), short'))).toBe('push')
    expect(kind(done('Pull day', null))).toBe('pull')
    expect(kind(done('Pull day', 'legs'))).toBe('legs')
    expect(kind(done('Pullover day', 'pushing'))).toBeNull()
    expect(kind(done('***'))).toBeNull()
  })

  it('match those of the rotation by themselves, without signs or double spaces', () => {
    expect(kind(done('Thursday', 'heavy legs'), ['legs!', 'push'])).toBe('legs!')
    expect(kind(done('Thursday', 'lower body day'), ['Lower  body', 'push'])).toBe('Lower  body')
    // Letters of full width, as some keyboards type them.
    expect(kind(done('Thursday', '\uff50ull'))).toBe('pull')
  })

  it('tell which of several occurrences it was by the days before, and count as the newest place', () => {
    const twice = ['legs', 'push', 'legs', 'pull']
    const days = ['legs', 'pull', 'legs', 'push'].map((name) => done('Thursday', name))
    expect(dueOf(twice, days)?.kind).toBe('push')
    expect(dueOf(twice, days.slice(2))?.kind).toBe('pull')
  })
})
