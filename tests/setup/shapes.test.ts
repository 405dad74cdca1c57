import { describe, expect, it, test } from 'vitest'
import * as z from 'zod'
import { lockShape, morningsShape, sessionShape, settingsShape } from '../../src/logbook/generated/shapes.js'
import { LockText, Mornings, Settings } from '../../src/logbook/model.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { prescriptionShape } from '../../src/prescription/generated/shapes.js'
import { Prescription } from '../../src/prescription/model.ts'
import { Session } from '../../src/session/model.ts'
import { shapeOf } from '../../src/setup/shapes.ts'
import { faultsIn, type Shape } from '../../src/validate/faults.ts'
import fc, { times } from '../fastCheck.ts'
import { fullSession } from '../logbook/fullSession.ts'
import { day } from '../prescription/arbitraryDay.ts'

/* The program's shapes are generated from the schemas, and must find what zod finds. */

const others = [
  0,
  -1,
  1.5,
  1e16,
  Number.NaN,
  '',
  'x',
  '2026-02-29',
  '2026-13-01',
  null,
  true,
  [],
  {},
  undefined,
  [1, 2],
  { kind: 'x' },
]

/** A value with something exchanged, removed or added, at any depth. */
function changed(value: unknown): fc.Arbitrary<unknown> {
  return fc
    .tuple(fc.infiniteStream(fc.nat()), fc.constantFrom(...others), fc.nat(3))
    .map(([stream, other, how]) => {
      const copy = structuredClone(value)
      let holder = copy as Record<string, unknown>
      for (;;) {
        const keys = Object.keys(holder)
        const key = keys[(stream.next().value as number) % Math.max(1, keys.length)]
        if (key === undefined) return copy
        const inner = holder[key]
        const isInner = typeof inner === 'object' && inner !== null && Object.keys(inner).length > 0
        if (isInner && (stream.next().value as number) % 4 !== 0) {
          holder = inner as Record<string, unknown>
          continue
        }
        if (how === 0) delete holder[key]
        else if (how === 1 && !Array.isArray(holder)) holder.more = other
        else holder[key] = other
        return copy
      }
    })
}

const samples: [name: string, schema: z.ZodType, shape: Shape, values: fc.Arbitrary<unknown>][] = [
  ['a session', Session, sessionShape(), fc.constant(fullSession())],
  [
    'settings',
    Settings,
    settingsShape(),
    fc.constantFrom(
      {
        ...defaultSettings,
        bodyMasses: [{ date: '2026-11-26', value: 68, unit: 'kg' }],
        rotation: ['legs'],
        bell: ['a', 'b'],
      },
      defaultSettings,
    ),
  ],
  [
    'a year of mornings',
    Mornings,
    morningsShape(),
    fc.constant({
      format: 1,
      events: [
        {
          type: 'typed',
          at: '2026-11-26T06:20:00+01:00',
          date: '2026-11-26',
          values: {
            sleepSeconds: 24_000,
            restingHeartRate: 48,
            bodyMass: { value: 67.8, unit: 'kg' },
            soreness: [{ place: 'legs', level: 2 }],
            note: 'late train',
          },
        },
        { type: 'undone', at: '2026-11-26T06:21:00+01:00', date: '2026-11-26' },
      ],
    }),
  ],
  ['a prescription', Prescription, prescriptionShape(), day],
  [
    'a lock',
    LockText,
    lockShape(),
    fc.constant({ pid: 1, host: 'a', boot: null, began: null, at: '', name: 'b' }),
  ],
]

describe.each(samples)('%s', (_, schema, shape, values) => {
  it('fits its shape exactly if zod accepts it', () => {
    let refused = 0
    fc.assert(
      fc.property(
        values.chain((value) => fc.oneof(fc.constant(value), changed(value))),
        (value) => {
          const read = schema.safeParse(value)
          expect(faultsIn(shape, value, 1).length === 0).toBe(read.success)
          if (!read.success) refused += 1
          else expect(value).toMatchObject(read.data as object)
        },
      ),
      times(200),
    )
    expect(refused).toBeGreaterThan(times(200).numRuns / 6)
  })
})

test('options that share a word are distinguished by the rest of them', () => {
  // Two literals: a shared one would be a reference.
  const kind = () => z.literal('a')
  const shape = shapeOf(
    z.union([
      z.strictObject({ kind: kind(), kg: z.number() }),
      z.strictObject({ kind: kind(), name: z.string() }),
    ]),
  )
  expect(faultsIn(shape, { kind: 'a', kg: 1 }, 1)).toEqual([])
  expect(faultsIn(shape, { kind: 'a', name: 'x' }, 1)).toEqual([])
  expect(faultsIn(shape, { kind: 'a' }, 1)).toHaveLength(1)
})

test.each([
  ['a format that nothing is known of', z.email(), 'a schema of the format email has no shape'],
  [
    'keys that are not known beforehand',
    z.record(z.string(), z.number()),
    'a schema with "propertyNames" has no shape',
  ],
  ['numbers by their divisor', z.number().multipleOf(2), 'a schema with "multipleOf" has no shape'],
  ['yes or no with a default', z.boolean().default(true), 'a schema with "default" has no shape'],
  ['words with a default', z.enum(['kg', 'lb']).default('kg'), 'a schema with "default" has no shape'],
  ['one of two with a default', z.number().nullable().default(1), 'a schema with "default" has no shape'],
  [
    'fields that are not named, of one kind',
    z.object({ kg: z.number() }).catchall(z.number()),
    'a schema of an object that says what its other fields are has no shape',
  ],
  ['anything', z.unknown(), 'a schema of anything has no shape'],
])('a schema of %s is refused when the program is built', (_, schema, message) => {
  expect(() => shapeOf(schema)).toThrow(new TypeError(message))
})
