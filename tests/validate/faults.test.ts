import { describe, expect, it } from 'vitest'
import { faultsIn, hasShape, type Shape } from '../../src/validate/faults.ts'

function said(top: Shape, value: unknown, most = 9): string[] {
  return faultsIn({ top, named: {} }, value, most).map(({ path, wrong }) =>
    `${path.join('.')} ${wrong}`.trim(),
  )
}

const set: Shape = {
  is: 'object',
  of: {
    reps: { is: 'number', whole: true, least: 0, most: 100 },
    kg: { is: 'nullable', of: { is: 'number', above: 0 } },
    on: { is: 'text', like: 'date', pattern: '^\\d{4}-\\d\\d-\\d\\d$' },
    note: { is: 'text', shortest: 1 },
  },
  optional: ['note'],
}
const sound = { reps: 5, kg: 92.5, on: '2026-11-26' }

describe('the faults of a value', () => {
  it('are none if it fits', () => {
    expect(said(set, sound)).toEqual([])
    expect(said(set, { ...sound, kg: null, note: 'easy' })).toEqual([])
    expect(hasShape({ top: set, named: {} }, sound)).toBe(true)
    expect(hasShape({ top: set, named: {} }, { ...sound, reps: '5' })).toBe(false)
  })

  it.each<[object | null, string[]]>([
    [null, ['is not an object']],
    [[], ['is not an object']],
    [{ ...sound, reps: '5' }, ['reps is not a number']],
    [{ ...sound, reps: 5.5 }, ['reps is not a whole number']],
    [{ ...sound, reps: -1 }, ['reps is less than 0']],
    [{ ...sound, reps: 101 }, ['reps is more than 100']],
    [{ ...sound, kg: 0 }, ['kg is not more than 0']],
    [{ ...sound, kg: Number.NaN }, ['kg is not a number']],
    [{ ...sound, kg: undefined }, ['kg is missing']],
    [{ ...sound, on: 5 }, ['on is not a text']],
    [{ ...sound, on: 'today' }, ['on is not a date']],
    [{ ...sound, note: '' }, ['note is too short']],
    [{ ...sound, a: 1, b: 2 }, ['has a field that does not belong there, "a", "b"']],
    [
      { a: 1 },
      ['reps is missing', 'kg is missing', 'on is missing', 'has a field that does not belong there, "a"'],
    ],
  ])('are named for %j', (value, faults) => {
    expect(said(set, value)).toEqual(faults)
  })

  it('are limited to the requested number', () => {
    expect(said(set, {}, 2)).toEqual(['reps is missing', 'kg is missing'])
  })

  it('ignore inherited properties', () => {
    expect(said({ is: 'object', of: { constructor: { is: 'boolean' as const } } }, {})).toEqual([
      'constructor is missing',
    ])
    expect(said({ is: 'object', of: {} }, JSON.parse('{"__proto__": 1}'))).toEqual([
      'has a field that does not belong there, "__proto__"',
    ])
  })

  it('are reported at their index in a list', () => {
    const list: Shape = { is: 'list', of: { is: 'one of', values: ['kg', 'lb'] }, shortest: 1, longest: 2 }
    expect(said(list, ['kg', 'stone'])).toEqual(['1 is not one of kg, lb'])
    expect(said(list, [])).toEqual(['is too short'])
    expect(said(list, ['kg', 'kg', 'kg'])).toEqual(['is too long'])
    expect(said(list, {})).toEqual(['is not a list'])
    const row: Shape = { is: 'row', of: [{ is: 'boolean' }, { is: 'text' }] }
    expect(said(row, [1, 'x'])).toEqual(['0 is not true or false'])
    expect(said(row, [true])).toEqual(['is too short'])
    expect(said(row, [true, 'x', 1])).toEqual(['is too long'])
    expect(said(row, 'x')).toEqual(['is not a list'])
  })

  it('are those of the kind that it names, if it is one of several', () => {
    const load: Shape = {
      is: 'tagged',
      by: 'kind',
      of: {
        mass: { is: 'object', of: { kind: { is: 'one of', values: ['mass'] }, kg: { is: 'number' } } },
        bodyweight: { is: 'object', of: { kind: { is: 'one of', values: ['bodyweight'] } } },
      },
    }
    expect(said(load, { kind: 'mass', kg: 'x' })).toEqual(['kg is not a number'])
    expect(said(load, { kind: 'heavy' })).toEqual(['kind has an unknown kind'])
    expect(said(load, { kind: 'toString' })).toEqual(['kind has an unknown kind'])
    expect(said(load, 5)).toEqual(['is not an object'])
  })

  it('are those of the closest alternative', () => {
    const bell: Shape = {
      is: 'either',
      of: [
        { is: 'one of', values: ['on'] },
        { is: 'list', of: { is: 'text' } },
      ],
    }
    expect(said(bell, 'on')).toEqual([])
    expect(said(bell, ['play'])).toEqual([])
    expect(said(bell, ['play', 5])).toEqual(['1 is not a text'])
    expect(said(bell, 5)).toEqual(['has an unknown kind'])
  })

  it('may be in a recursive shape', () => {
    const group: Shape = { is: 'object', of: { steps: { is: 'list', of: { is: 'named', name: 'group' } } } }
    const shapes = { top: group, named: { group } }
    const nested = { steps: [{ steps: [{ steps: 5 }] }] }
    expect(faultsIn(shapes, nested, 1).map(({ path }) => path.join('.'))).toEqual(['steps.0.steps.0.steps'])
  })

  it('include the value that a schema requires, or the pattern', () => {
    expect(said({ is: 'one of', values: [1] }, 2)).toEqual(['is not 1'])
    expect(said({ is: 'text', pattern: '^a$' }, 'b')).toEqual(['is not in the expected form'])
    expect(said({ is: 'text', like: 'date-time', pattern: 'T' }, 'b')).toEqual(['is not a date and time'])
  })
})
