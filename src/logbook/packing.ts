import type { z } from 'zod'

/** Turns values of a schema into arrays without keys and back, so that a line of the digest takes a quarter
 * of the room and of the time. */
export interface Packing<T> {
  pack: (value: T) => unknown
  /** Checks the form of what it is given.
   * @throws TypeError for what is not packed by this schema */
  unpack: (packed: unknown) => T
}

/** @param schema of objects, lists, pairs, nullable values, unions told apart by a key, and plain values; limits of
 * numbers are not checked again
 * @throws TypeError for a schema of another kind */
export function packingOf<T>(schema: z.ZodType<T>): Packing<T> {
  return compiled(schema as unknown as z.core.$ZodTypes) as Packing<T>
}

// biome-ignore lint/suspicious/noExplicitAny: each packing knows its own values only
type AnyPacking = Packing<any>

function compiled(schema: z.core.$ZodTypes): AnyPacking {
  const { def } = schema._zod
  switch (def.type) {
    case 'object':
      return objectPacking(Object.entries(def.shape).map(([key, inner]) => [key, compiledInner(inner)]))
    case 'array': {
      const item = compiledInner(def.element)
      return {
        pack: (value: unknown[]) => value.map((each) => item.pack(each)),
        unpack: (packed) => listOf(packed).map((each) => item.unpack(each)),
      }
    }
    case 'tuple': {
      const items = def.items.map(compiledInner)
      return {
        pack: (value: unknown[]) => items.map((item, index) => item.pack(value[index])),
        unpack: (packed) => {
          const list = listOf(packed, items.length)
          return items.map((item, index) => item.unpack(list[index]))
        },
      }
    }
    case 'nullable': {
      const inner = compiledInner(def.innerType)
      return {
        pack: (value) => (value === null ? null : inner.pack(value)),
        unpack: (packed) => (packed === null ? null : inner.unpack(packed)),
      }
    }
    case 'union':
      return unionPacking(def)
    case 'enum': {
      const words: unknown[] = Object.values(def.entries)
      return plain((packed) => words.includes(packed))
    }
    case 'literal':
      return plain((packed) => (def.values as unknown[]).includes(packed))
    case 'string':
      return plain((packed) => typeof packed === 'string')
    case 'boolean':
      return plain((packed) => typeof packed === 'boolean')
    case 'number':
      return plain(Number.isFinite)
    default:
      throw new TypeError(`a value of the kind ${def.type} cannot be packed`)
  }
}

function compiledInner(schema: z.core.$ZodType): AnyPacking {
  return compiled(schema as z.core.$ZodTypes)
}

function objectPacking(entries: readonly (readonly [string, AnyPacking])[]): AnyPacking {
  return {
    pack: (value: Record<string, unknown>) => entries.map(([key, inner]) => inner.pack(value[key])),
    unpack: (packed) => {
      const list = listOf(packed, entries.length)
      const value: Record<string, unknown> = {}
      for (const [index, [key, inner]] of entries.entries()) value[key] = inner.unpack(list[index])
      return value
    },
  }
}

/** The number of the option comes first, then its values. */
function unionPacking(def: z.core.$ZodUnionDef): AnyPacking {
  const key = (def as z.core.$ZodDiscriminatedUnionDef).discriminator
  if (key === undefined)
    throw new TypeError('a union without a key that tells its options apart cannot be packed')
  const options = def.options.map((option) => ({
    schema: option as z.core.$ZodObject,
    packing: compiledInner(option),
  }))
  const accepts = (option: z.core.$ZodObject, word: unknown) =>
    ((option._zod.def.shape[key] as z.core.$ZodLiteral)._zod.def.values as unknown[]).includes(word)
  return {
    pack: (value: Record<string, unknown>) => {
      const number = options.findIndex((option) => accepts(option.schema, value[key]))
      return [number, options[number]?.packing.pack(value)]
    },
    unpack: (packed) => {
      const [number, values] = listOf(packed, 2)
      const option = options[number as number]
      if (option === undefined) throw new TypeError(`there is no option ${number}`)
      return option.packing.unpack(values)
    },
  }
}

function plain(isRight: (packed: unknown) => boolean): AnyPacking {
  return {
    pack: (value) => value,
    unpack: (packed) => {
      if (!isRight(packed)) throw new TypeError(`${typeof packed} is not what was packed here`)
      return packed
    },
  }
}

function listOf(packed: unknown, length?: number): unknown[] {
  if (Array.isArray(packed) && (length === undefined || packed.length === length)) return packed
  throw new TypeError('this is no list of that length')
}
