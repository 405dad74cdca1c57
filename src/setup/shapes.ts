import * as z from 'zod'
import { IndexRow, LockText, Mornings, Settings } from '../logbook/model.ts'
import { Prescription } from '../prescription/model.ts'
import { Session, SessionEvent } from '../session/model.ts'
import type { Shape, Shapes } from '../validate/faults.ts'

/* The code that is generated from the schemas before the program is built, so that it starts without zod. */

/** By path below src/, without extension. */
export function compiledTexts(): Record<string, { text: string; types: string }> {
  return {
    'prescription/generated/shapes': shapesModule({ prescriptionShape: Prescription }),
    'logbook/generated/shapes': shapesModule({
      settingsShape: Settings,
      sessionShape: Session,
      eventShape: SessionEvent,
      lockShape: LockText,
      indexRowShape: IndexRow,
      morningsShape: Mornings,
    }),
  }
}

/** Each is a function, because most commands need one or none of them. Parsing text starts faster than code. */
function shapesModule(schemas: Readonly<Record<string, z.ZodType>>): { text: string; types: string } {
  const functions = Object.entries(schemas).map(([name, schema]) => ({
    text: `let ${name}Made
export const ${name} = () => (${name}Made ??= JSON.parse(${JSON.stringify(JSON.stringify(shapesOf(schema)))}))\n`,
    types: `export function ${name}(): Shapes\n`,
  }))
  return {
    text: functions.map(({ text }) => text).join(''),
    types: `import type { Shapes } from '../../validate/faults.ts'\n${functions.map(({ types }) => types).join('')}`,
  }
}

/* A zod schema as plain data, by way of zod's JSON Schema. */

type Json = z.core.JSONSchema.BaseSchema

/** The part of JSON Schema that a shape can express: the keywords of each kind of schema. */
const keywords: Record<string, readonly string[]> = {
  $ref: [],
  anyOf: [],
  oneOf: [],
  const: [],
  enum: [],
  boolean: [],
  number: ['minimum', 'exclusiveMinimum', 'maximum'],
  integer: ['minimum', 'exclusiveMinimum', 'maximum'],
  string: ['format', 'pattern', 'minLength'],
  array: ['items', 'prefixItems', 'minItems', 'maxItems'],
  object: ['properties', 'required', 'additionalProperties'],
}

/** The shape of values that a schema accepts.
 * @throws TypeError for a schema that a shape cannot express */
export function shapesOf(schema: z.ZodType): Shapes {
  const { $schema: _, $defs = {}, ...top } = z.toJSONSchema(schema, { io: 'input', reused: 'ref' })
  const defs = $defs as Record<string, Json>
  const named = Object.entries(defs).map(([name, json]) => [name, shapeOf(json, defs)])
  return { top: shapeOf(top, defs), named: Object.fromEntries(named) }
}

function shapeOf(json: Json, defs: Record<string, Json>): Shape {
  const turn = (inner: unknown) => shapeOf(inner as Json, defs)
  if (Array.isArray(json.type)) {
    const [type, ...others] = json.type.filter((each: string) => each !== 'null')
    if (others.length > 0) throw new TypeError(`a value of the types ${json.type} has no shape`)
    return { is: 'nullable', of: turn({ ...json, type }) }
  }
  const kind = ['$ref', 'anyOf', 'oneOf', 'const', 'enum'].find((word) => word in json) ?? String(json.type)
  const known = keywords[kind]
  if (known === undefined) throw new TypeError(`a value of the type ${kind} has no shape`)
  const other = Object.keys(json).find((key) => key !== 'type' && key !== kind && !known.includes(key))
  if (other !== undefined) throw new TypeError(`a schema with "${other}" has no shape`)
  switch (kind) {
    case '$ref':
      return { is: 'named', name: nameIn(json) }
    case 'anyOf':
    case 'oneOf':
      return unionOf(json[kind] as Json[], turn, defs)
    case 'const':
      return { is: 'one of', values: [json.const as string | number] }
    case 'enum':
      return { is: 'one of', values: json.enum as (string | number)[] }
    case 'boolean':
      return { is: 'boolean' }
    case 'string':
      return textOf(json)
    case 'array':
      if (json.prefixItems !== undefined) return { is: 'row', of: json.prefixItems.map(turn) }
      return { is: 'list', of: turn(json.items), shortest: json.minItems, longest: json.maxItems }
    case 'object':
      return objectOf(json, turn)
    default:
      return numberOf(json)
  }
}

function nameIn({ $ref = '' }: Json): string {
  return $ref.replace('#/$defs/', '')
}

function numberOf({ type, minimum, exclusiveMinimum, maximum }: Json): Shape {
  // zod's own bounds for integers only say that a number is a safe integer.
  const bound = (value: unknown) =>
    typeof value === 'number' && Math.abs(value) < Number.MAX_SAFE_INTEGER ? value : undefined
  return {
    is: 'number',
    whole: type === 'integer' ? true : undefined,
    least: bound(minimum),
    above: bound(exclusiveMinimum),
    most: bound(maximum),
  }
}

function textOf({ format, pattern, minLength }: Json): Shape {
  if (format !== undefined && format !== 'date' && format !== 'date-time')
    throw new TypeError(`a text of the format ${format} has no shape`)
  return { is: 'text', shortest: minLength, like: format, pattern }
}

function objectOf({ properties = {}, required = [], additionalProperties }: Json, turn: Turn): Shape {
  if (typeof additionalProperties === 'object' && Object.keys(additionalProperties).length > 0)
    throw new TypeError('an object that says what its other fields are has no shape')
  const optional = Object.keys(properties).filter((key) => !required.includes(key))
  return {
    is: 'object',
    of: Object.fromEntries(Object.entries(properties).map(([key, json]) => [key, turn(json)])),
    optional: optional.length === 0 ? undefined : optional,
    open: additionalProperties === false ? undefined : true,
  }
}

type Turn = (inner: unknown) => Shape

function unionOf(all: Json[], turn: Turn, defs: Record<string, Json>): Shape {
  const options = all.filter(({ type }) => type !== 'null')
  const of = options.length === 1 ? turn(options[0]) : eitherOf(options, turn, defs)
  return options.length === all.length ? of : { is: 'nullable', of }
}

/** If all options have a distinguishing word, the value itself tells which option applies. */
function eitherOf(options: Json[], turn: Turn, defs: Record<string, Json>): Shape {
  for (const by of ['kind', 'type']) {
    const words = options.map((option) => {
      const { properties } = option.$ref === undefined ? option : (defs[nameIn(option)] ?? {})
      return (properties?.[by] as Json | undefined)?.const
    })
    if (words.some((word) => typeof word !== 'string') || new Set(words).size < words.length) continue
    const of = Object.fromEntries(options.map((option, index) => [words[index], turn(option)]))
    return { is: 'tagged', by, of }
  }
  return { is: 'either', of: options.map(turn) }
}
