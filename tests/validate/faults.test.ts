import { describe, expect, it } from 'vitest'
import { faultsIn, hasShape, named, type Shape } from '../../src/validate/faults.ts'

function said(shape: Shape, value: unknown, most = 9): string[] {
  return faultsIn(shape, value, most).map(({ path, wrong }) => `${path.join('.')} ${wrong}`.trim())
}

const set: Shape = {
  type: 'object',
  properties: {
    reps: { type: 'integer', minimum: 0, maximum: 100 },
    kg: { type: ['number', 'null'], exclusiveMinimum: 0 },
    on: { type: 'string', format: 'date', pattern: '^\\d{4}-\\d\\d-\\d\\d$' },
    note: { type: 'string', minLength: 1 },
  },
  required: ['reps', 'kg', 'on'],
  additionalProperties: false,
}
const sound = { reps: 5, kg: 92.5, on: '2026-11-26' }

describe('the faults of a value', () => {
  it('are none if it fits', () => {
    expect(said(set, sound)).toEqual([])
    expect(said(set, { ...sound, kg: null, note: 'easy' })).toEqual([])
    expect(hasShape(set, sound)).toBe(true)
    expect(hasShape(set, { ...sound, reps: '5' })).toBe(false)
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
    expect(
      said(
        { type: 'object', properties: { constructor: { type: 'boolean' } }, required: ['constructor'] },
        {},
      ),
    ).toEqual(['constructor is missing'])
    expect(
      said({ type: 'object', properties: {}, additionalProperties: false }, JSON.parse('{"__proto__": 1}')),
    ).toEqual(['has a field that does not belong there, "__proto__"'])
  })

  it('are reported at their index in a list', () => {
    const list: Shape = { type: 'array', items: { enum: ['kg', 'lb'] }, minItems: 1, maxItems: 2 }
    expect(said(list, ['kg', 'stone'])).toEqual(['1 is not one of kg, lb'])
    expect(said(list, [])).toEqual(['is too short'])
    expect(said(list, ['kg', 'kg', 'kg'])).toEqual(['is too long'])
    expect(said(list, {})).toEqual(['is not a list'])
    const row: Shape = { type: 'array', prefixItems: [{ type: 'boolean' }, { type: 'string' }] }
    expect(said(row, [1, 'x'])).toEqual(['0 is not true or false'])
    expect(said(row, [true])).toEqual(['is too short'])
    expect(said(row, [true, 'x', 1])).toEqual(['is too long'])
    expect(said(row, 'x')).toEqual(['is not a list'])
  })

  it('are those of the kind that it names, if it is one of several', () => {
    const load: Shape = {
      oneOf: [
        { type: 'object', properties: { kind: { const: 'mass' }, kg: { type: 'number' } } },
        { type: 'object', properties: { kind: { const: 'bodyweight' } } },
        { type: 'null' },
      ],
    }
    expect(said(load, null)).toEqual([])
    expect(said(load, { kind: 'mass', kg: 'x' })).toEqual(['kg is not a number'])
    expect(said(load, { kind: 'heavy' })).toEqual(['kind has an unknown kind'])
    expect(said(load, { kind: 'toString' })).toEqual(['kind has an unknown kind'])
    expect(said(load, 5)).toEqual(['is not an object'])
  })

  it('are those of the closest alternative', () => {
    const bell: Shape = { anyOf: [{ enum: ['on'] }, { type: 'array', items: { type: 'string' } }] }
    expect(said(bell, 'on')).toEqual([])
    expect(said(bell, ['play'])).toEqual([])
    expect(said(bell, ['play', 5])).toEqual(['1 is not a text'])
    expect(said(bell, 5)).toEqual(['has an unknown kind'])
  })

  it('may be in a recursive shape', () => {
    const steps: Shape = { type: 'array', items: { $ref: '#/$defs/group' } }
    const group: Shape = { type: 'object', properties: { steps } }
    const shape: Shape = { $ref: '#/$defs/group', $defs: { group } }
    const nested = { steps: [{ steps: [{ steps: 5 }] }] }
    expect(faultsIn(shape, nested, 1).map(({ path }) => path.join('.'))).toEqual(['steps.0.steps.0.steps'])
  })

  it('include the value that a schema requires, or the pattern', () => {
    expect(said({ const: 1 }, 2)).toEqual(['is not 1'])
    expect(said({ type: 'string', pattern: '^a$' }, 'b')).toEqual(['is not in the expected form'])
    expect(said({ type: 'string', format: 'date-time', pattern: 'T' }, 'b')).toEqual([
      'is not a date and time',
    ])
  })
})

describe('the part of a value that its shape names', () => {
  it('has no other field, in objects, lists and alternatives to null', () => {
    const shape: Shape = {
      type: 'object',
      properties: {
        top: { $ref: '#/$defs/set' },
        best: { anyOf: [{ $ref: '#/$defs/set' }, { type: 'null' }] },
        sets: { type: 'array', items: { $ref: '#/$defs/set' } },
      },
      $defs: { set },
    }
    const full = { ...sound, kg: null, pain: 'knee' }
    const kept = { ...sound, kg: null }
    expect(named(shape, { top: full, best: full, sets: [full, full], other: 1 })).toEqual({
      top: kept,
      best: kept,
      sets: [kept, kept],
    })
    expect(named(shape, { top: full, best: null })).toEqual({ top: kept, best: null })
  })

  it('is everything where there are several alternatives', () => {
    const either: Shape = { oneOf: [set, { type: 'object', properties: { seconds: { type: 'number' } } }] }
    expect(named(either, { seconds: 30, note: 'hard' })).toEqual({ seconds: 30, note: 'hard' })
  })
})
