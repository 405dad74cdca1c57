import * as z from 'zod'
import { IndexRow, LockText, Mornings, Settings } from '../logbook/model.ts'
import { Prescription } from '../prescription/model.ts'
import { Session, SessionEvent } from '../session/model.ts'
import type { Shape, Shapes } from '../validate/faults.ts'

/* The code that is generated from the schemas before the program is built, so that it starts without zod. */

interface Compiled {
  text: string
  types: string
}

/** By path below src/, without extension. */
export function compiledTexts(): Record<string, Compiled> {
  return {
    'prescription/generated/shapes': shapesModule({ prescriptionShape: Prescription }),
    'logbook/generated/shapes': withTypes(
      shapesModule({
        settingsShape: Settings,
        sessionShape: Session,
        eventShape: SessionEvent,
        lockShape: LockText,
        indexRowShape: IndexRow,
        morningsShape: Mornings,
      }),
    ),
  }
}

/** Each is a function, because most commands need one or none of them. Parsing text starts faster than code. */
function shapesModule(schemas: Readonly<Record<string, z.ZodType>>): Compiled {
  const names = Object.keys(schemas)
  const texts = Object.entries(schemas).map(
    ([name, schema]) =>
      `let ${name}Made\nexport const ${name} = () => (${name}Made ??= JSON.parse(${JSON.stringify(JSON.stringify(shapesOf(schema)))}))`,
  )
  return {
    text: `${texts.join('\n')}\n`,
    types: `import type { Shapes } from '../../validate/faults.ts'
${names.map((name) => `export function ${name}(): Shapes`).join('\n')}
`,
  }
}

/** The words that distinguish events, next to their shape. */
function withTypes({ text, types }: Compiled): Compiled {
  const names = SessionEvent.options.map((option) => option.shape.type.value)
  return {
    text: `${text}export const eventTypes = ${JSON.stringify(names)}\n`,
    types: `${types}export const eventTypes: readonly unknown[]\n`,
  }
}

/* A zod schema as plain data, by way of zod's JSON Schema. */

type Json = z.core.JSONSchema.BaseSchema

/** The shape of values that a schema accepts.
 * @throws TypeError for a schema that a shape cannot express */
export function shapesOf(schema: z.ZodType): Shapes {
  const { $schema: _, $defs = {}, ...top } = z.toJSONSchema(schema, { io: 'input', reused: 'ref' })
  const turn = (json: Json): Shape => shapeOf(json, $defs as Record<string, Json>)
  const named = Object.entries($defs).map(([name, json]) => [name, turn(json as Json)])
  return { top: turn(top), named: Object.fromEntries(named) }
}

function shapeOf(json: Json, defs: Record<string, Json>): Shape {
  const turn = (inner: unknown) => shapeOf(inner as Json, defs)
  const { $ref, anyOf, oneOf, const: only, enum: values, type: _type, ...rest } = json
  if ($ref !== undefined) {
    refuse(rest)
    return { is: 'named', name: $ref.replace('#/$defs/', '') }
  }
  const options = (anyOf ?? oneOf) as Json[] | undefined
  if (options !== undefined) {
    refuse(rest)
    return unionOf(options, turn, defs)
  }
  if (Array.isArray(json.type)) {
    const [type, ...others] = json.type.filter((each: string) => each !== 'null')
    if (type === undefined || others.length > 0)
      throw new TypeError(`a value of the types ${json.type} has no shape`)
    return { is: 'nullable', of: turn({ ...json, type }) }
  }
  if (only !== undefined || values !== undefined) {
    refuse(rest)
    return { is: 'one of', values: (values ?? [only]) as (string | number)[] }
  }
  switch (json.type) {
    case 'boolean':
      refuse(rest)
      return { is: 'boolean' }
    case 'number':
    case 'integer':
      return numberOf(json)
    case 'string':
      return textOf(json)
    case 'array':
      return listOf(json, turn)
    case 'object':
      return objectOf(json, turn)
    default:
      throw new TypeError(`a value of the type ${json.type} has no shape`)
  }
}

/** Bounds for whole numbers apply to every number that is exactly whole. */
function numberOf({ type, minimum: least, exclusiveMinimum: above, maximum: most, ...rest }: Json): Shape {
  refuse(rest)
  const isBound = (value: unknown) => typeof value === 'number' && Math.abs(value) < Number.MAX_SAFE_INTEGER
  return {
    is: 'number',
    ...(type === 'integer' ? { whole: true as const } : {}),
    ...(isBound(least) ? { least: least as number } : {}),
    ...(isBound(above) ? { above: above as number } : {}),
    ...(isBound(most) ? { most: most as number } : {}),
  }
}

function textOf({ type: _type, format, pattern, minLength, ...rest }: Json): Shape {
  refuse(rest)
  if (format !== undefined && format !== 'date' && format !== 'date-time')
    throw new TypeError(`a text of the format ${format} has no shape`)
  return {
    is: 'text',
    ...(minLength === undefined ? {} : { shortest: minLength }),
    ...(format === undefined ? {} : { like: format }),
    ...(pattern === undefined ? {} : { pattern }),
  }
}

function listOf(json: Json, turn: (inner: unknown) => Shape): Shape {
  const { type: _type, prefixItems, items, minItems, maxItems, ...rest } = json
  refuse(rest)
  if (prefixItems !== undefined) return { is: 'row', of: prefixItems.map(turn) }
  return {
    is: 'list',
    of: turn(items),
    ...(minItems === undefined ? {} : { shortest: minItems }),
    ...(maxItems === undefined ? {} : { longest: maxItems }),
  }
}

function objectOf(json: Json, turn: (inner: unknown) => Shape): Shape {
  const { type: _type, properties = {}, required = [], additionalProperties, ...rest } = json
  refuse(rest)
  if (typeof additionalProperties === 'object' && Object.keys(additionalProperties).length > 0)
    throw new TypeError('an object that says what its other fields are has no shape')
  const keys = Object.keys(properties)
  const optional = keys.filter((key) => !required.includes(key))
  return {
    is: 'object',
    of: Object.fromEntries(keys.map((key) => [key, turn(properties[key])])),
    ...(optional.length === 0 ? {} : { optional }),
    ...(additionalProperties === false ? {} : { open: true as const }),
  }
}

const tags = ['kind', 'type']

function unionOf(options: Json[], turn: (inner: unknown) => Shape, defs: Record<string, Json>): Shape {
  const others = options.filter(({ type }) => type !== 'null')
  const [first] = others
  const of = first !== undefined && others.length === 1 ? turn(first) : eitherOf(others, turn, defs)
  return others.length === options.length ? of : { is: 'nullable', of }
}

/** If all options have a distinguishing word, the value itself tells which option applies. */
function eitherOf(options: Json[], turn: (inner: unknown) => Shape, defs: Record<string, Json>): Shape {
  for (const by of tags) {
    const words = options.map((option) => {
      const { properties } =
        option.$ref === undefined ? option : (defs[option.$ref.replace('#/$defs/', '')] ?? {})
      return (properties?.[by] as Json | undefined)?.const
    })
    const areApart = words.every((word) => typeof word === 'string') && new Set(words).size === words.length
    if (!areApart) continue
    return {
      is: 'tagged',
      by,
      of: Object.fromEntries(options.map((option, index) => [words[index], turn(option)])),
    }
  }
  return { is: 'either', of: options.map(turn) }
}

/** Refuses to drop a rule that a shape cannot express. */
function refuse(rest: object): void {
  const [other] = Object.keys(rest)
  if (other !== undefined) throw new TypeError(`a schema with "${other}" has no shape`)
}
