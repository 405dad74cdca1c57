import * as z from 'zod'
import { IndexRow, LockText, Mornings, Settings } from '../logbook/model.ts'
import { Prescription } from '../prescription/model.ts'
import { Session, SessionEvent } from '../session/model.ts'
import { isObject, type Shape } from '../validate/faults.ts'

/* The code that is generated from the schemas before the program is built, so that it starts without zod. */

/** Keyed by path below src/, without extension. */
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
export const ${name} = () => (${name}Made ??= JSON.parse(${JSON.stringify(JSON.stringify(shapeOf(schema)))}))\n`,
    types: `export function ${name}(): Shape\n`,
  }))
  return {
    text: functions.map(({ text }) => text).join(''),
    types: `import type { Shape } from '../../validate/faults.ts'\n${functions.map(({ types }) => types).join('')}`,
  }
}

type Json = z.core.JSONSchema.BaseSchema

const kinds = ['$ref', 'anyOf', 'oneOf', 'const', 'enum', 'type']
/** What the checker reads of JSON Schema. */
const keywords = [
  ...kinds,
  ...['minimum', 'exclusiveMinimum', 'maximum', 'format', 'pattern', 'minLength'],
  ...['items', 'prefixItems', 'minItems', 'maxItems', 'properties', 'required', 'additionalProperties'],
]

/** The shape of values that a schema accepts.
 * @throws TypeError for a schema that the checker cannot read */
export function shapeOf(schema: z.ZodType): Shape {
  const { $schema: _, $defs = {}, ...top } = z.toJSONSchema(schema, { io: 'input', reused: 'ref' })
  for (const json of [top, ...Object.values($defs)]) refuseUnreadable(json as Json)
  return { ...top, $defs } as Shape
}

function refuseUnreadable(json: Json): void {
  const { properties = {}, items, prefixItems = [], anyOf = [], oneOf = [], additionalProperties } = json
  const strange = Object.keys(json).find((key) => !keywords.includes(key))
  const { format } = json
  const wrong = [
    strange !== undefined && `with "${strange}"`,
    !kinds.some((kind) => kind in json) && 'of anything',
    isObject(additionalProperties) &&
      Object.keys(additionalProperties).length > 0 &&
      'of an object that says what its other fields are',
    format !== undefined && format !== 'date' && format !== 'date-time' && `of the format ${format}`,
  ].find((each) => each !== false)
  if (wrong !== undefined) throw new TypeError(`a schema ${wrong} has no shape`)
  const inner = [...Object.values(properties), ...prefixItems, ...anyOf, ...oneOf, ...(items ? [items] : [])]
  for (const each of inner.flat()) refuseUnreadable(each as Json)
}
