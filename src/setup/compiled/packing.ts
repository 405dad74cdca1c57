import type * as z from 'zod'

/* How values of a schema are turned into arrays without keys and back, so that a line of the digest takes a third
 * of the room. Ten thousand days are unpacked at a time. A function made of text, which names every key, does that
 * three times as fast as one that looks the keys up; the text is made of our own schemas and nothing else. */

/** The text of an ES module that exports for each schema a pair of functions. `unpack` checks the form of what it
 * is given, and throws a TypeError for what is not packed by this schema.
 * @param name of what is exported
 * @param schemas of objects, lists, pairs, nullable values, unions told apart by a key, and plain values; limits of
 * numbers are not checked again
 * @throws TypeError for a schema of another kind */
export function packingText(name: string, schemas: Readonly<Record<string, z.ZodType>>): string {
  const functions: string[] = []
  const pairs = Object.entries(schemas).map(([key, schema]) => {
    const top = codeOf(schema as unknown as z.core.$ZodTypes, functions)
    return `  ${key}: { pack: (v) => ${top.pack('v')}, unpack: (p) => ${top.unpack('p')} },`
  })
  return `const fail = () => { throw new TypeError('this was not packed by this schema') }
const list = (p, n) => Array.isArray(p) && (n < 0 || p.length === n) ? p : fail()
${functions.join('\n')}
export const ${name} = {
${pairs.join('\n')}
}
`
}

/** Expressions for a value that is held by an expression. */
interface Code {
  pack: (value: string) => string
  unpack: (packed: string) => string
}

function codeOf(schema: z.core.$ZodTypes, functions: string[]): Code {
  const { def } = schema._zod
  const inner = (within: z.core.$ZodType) => codeOf(within as z.core.$ZodTypes, functions)
  switch (def.type) {
    case 'object': {
      const entries = Object.entries(def.shape).map(
        ([key, value]) => [JSON.stringify(key), inner(value)] as const,
      )
      const packed = entries.map(([key, code]) => code.pack(`v[${key}]`))
      const unpacked = entries.map(([key, code], index) => `${key}: ${code.unpack(`p[${index}]`)}`)
      return named(
        `[${packed.join(', ')}]`,
        `list(p, ${entries.length}) && { ${unpacked.join(', ')} }`,
        functions,
      )
    }
    case 'array': {
      const item = inner(def.element)
      return named(
        `v.map((e) => ${item.pack('e')})`,
        `list(p, -1).map((e) => ${item.unpack('e')})`,
        functions,
      )
    }
    case 'tuple': {
      const items = def.items.map(inner)
      const packed = items.map((item, index) => item.pack(`v[${index}]`))
      const unpacked = items.map((item, index) => item.unpack(`p[${index}]`))
      return named(
        `[${packed.join(', ')}]`,
        `list(p, ${items.length}) && [${unpacked.join(', ')}]`,
        functions,
      )
    }
    case 'nullable': {
      const code = inner(def.innerType)
      return {
        pack: (value) => `(${value} === null ? null : ${code.pack(value)})`,
        unpack: (packed) => `(${packed} === null ? null : ${code.unpack(packed)})`,
      }
    }
    case 'union':
      return unionCode(def, inner, functions)
    case 'enum':
      return plain((packed) =>
        Object.values(def.entries)
          .map((word) => equals(packed, word))
          .join(' || '),
      )
    case 'literal':
      return plain((packed) => def.values.map((word) => equals(packed, word)).join(' || '))
    case 'string':
    case 'boolean':
      return plain((packed) => `typeof ${packed} === '${def.type}'`)
    case 'number':
      return plain((packed) => `Number.isFinite(${packed})`)
    default:
      throw new TypeError(`a value of the kind ${def.type} cannot be packed`)
  }
}

/** The number of the option comes first, then its values. */
function unionCode(
  def: z.core.$ZodUnionDef,
  inner: (within: z.core.$ZodType) => Code,
  functions: string[],
): Code {
  const { discriminator: key } = def as z.core.$ZodDiscriminatedUnionDef
  if (key === undefined)
    throw new TypeError('a union without a key that tells its options apart cannot be packed')
  const options = def.options.map((option) => {
    const { values } = ((option as z.core.$ZodObject)._zod.def.shape[key] as z.core.$ZodLiteral)._zod.def
    return {
      isMeant: values.map((word) => equals(`v[${JSON.stringify(key)}]`, word)).join(' || '),
      ...inner(option),
    }
  })
  const packed = options.map(({ isMeant, pack }, number) => `${isMeant} ? [${number}, ${pack('v')}] : `)
  const unpacked = options.map(({ unpack }, number) => `p[0] === ${number} ? ${unpack('p[1]')} : `)
  return named(`${packed.join('')}fail()`, `list(p, 2) && (${unpacked.join('')}fail())`, functions)
}

function equals(expression: string, word: unknown): string {
  return `${expression} === ${JSON.stringify(word)}`
}

/** As functions of their own, so that an expression is not repeated wherever it is used. */
function named(pack: string, unpack: string, functions: string[]): Code {
  const number = functions.length
  functions.push(`const pack${number} = (v) => ${pack}; const unpack${number} = (p) => ${unpack}`)
  return { pack: (value) => `pack${number}(${value})`, unpack: (packed) => `unpack${number}(${packed})` }
}

function plain(isRight: (packed: string) => string): Code {
  return { pack: (value) => value, unpack: (packed) => `(${isRight(packed)} ? ${packed} : fail())` }
}
