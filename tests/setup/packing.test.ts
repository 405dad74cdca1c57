import { describe, expect, it } from 'vitest'
import * as z from 'zod'
import { packingText } from '../../src/setup/compiled/packing.ts'

const Sample = z.strictObject({
  name: z.string(),
  done: z.boolean(),
  kind: z.enum(['run', 'lift']),
  range: z.tuple([z.number(), z.number()]).nullable(),
  load: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('mass'), value: z.number() }),
    z.strictObject({ kind: z.literal('bodyweight'), added: z.number() }),
  ]),
  sets: z.array(z.strictObject({ reps: z.int().nullable() })),
})
const sample = {
  name: 'front squat',
  done: true,
  kind: 'lift',
  range: [1, 2],
  load: { kind: 'bodyweight', added: 10 },
  sets: [{ reps: 3 }, { reps: null }],
} satisfies z.infer<typeof Sample>
const { packings } = await import(
  `data:text/javascript,${encodeURIComponent(packingText('packings', { sample: Sample }))}`
)
const packing = packings.sample
const packed = ['front squat', true, 'lift', [1, 2], [1, ['bodyweight', 10]], [[3], [null]]]

describe('packing', () => {
  it('leaves the keys out and puts them back', () => {
    expect(packing.pack(sample)).toEqual(packed)
    expect(packing.unpack(JSON.parse(JSON.stringify(packed)))).toEqual(sample)
    expect(packing.unpack(packing.pack({ ...sample, range: null }))).toEqual({ ...sample, range: null })
  })

  it.each([
    ['no list', 'x'],
    ['a value too many', [...packed, 1]],
    ['a word for a number', ['front squat', true, 'lift', ['1', 2], [1, ['bodyweight', 10]], []]],
    ['no number', ['front squat', true, 'lift', [null, 2], [1, ['bodyweight', 10]], []]],
    ['a number for a word', [1, true, 'lift', null, [1, ['bodyweight', 10]], []]],
    ['another word', ['front squat', true, 'swim', null, [1, ['bodyweight', 10]], []]],
    ['a number for yes or no', ['front squat', 1, 'lift', null, [1, ['bodyweight', 10]], []]],
    ['another option', ['front squat', true, 'lift', null, [2, ['bodyweight', 10]], []]],
    [
      'the key of one option with the values of another',
      ['front squat', true, 'lift', null, [0, ['bodyweight', 10]], []],
    ],
  ])('refuses %s', (_, value) => {
    expect(() => packing.unpack(value)).toThrow(TypeError)
  })

  it('says what it cannot pack', () => {
    expect(() => packingText('packings', { x: z.record(z.string(), z.string()) })).toThrow(
      'a value of the kind record cannot be packed',
    )
    expect(() => packingText('packings', { x: z.union([z.string(), z.number()]) })).toThrow(
      'a union without a key that tells its options apart',
    )
  })
})
