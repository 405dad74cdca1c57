/* Checks values from outside without zod, which takes longer to load than most commands take to run: the build turns
 * the zod schemas into JSON Schema, which is plain data. */

/** The part of JSON Schema that is checked here; the build refuses any other keyword. */
export interface Shape {
  readonly $defs?: Readonly<Record<string, Shape>>
  readonly $ref?: string
  readonly anyOf?: readonly Shape[]
  readonly oneOf?: readonly Shape[]
  readonly const?: string | number
  readonly enum?: readonly (string | number)[]
  /** With `null` beside it where a value may be null. */
  readonly type?: string | readonly string[]
  readonly minimum?: number
  readonly exclusiveMinimum?: number
  readonly maximum?: number
  readonly format?: string
  readonly pattern?: string
  readonly minLength?: number
  readonly items?: Shape
  /** A list of fixed length; each position has a shape of its own. */
  readonly prefixItems?: readonly Shape[]
  readonly minItems?: number
  readonly maxItems?: number
  readonly properties?: Readonly<Record<string, Shape>>
  readonly required?: readonly string[]
  /** False refuses unknown fields. */
  readonly additionalProperties?: unknown
}

/** What is wrong at one place in a value. */
export interface Fault {
  /** Keys, and list indexes counted from 0. */
  path: readonly (string | number)[]
  /** The end of a sentence: "is not a number". */
  wrong: string
}

export function hasShape<T>(shape: Shape, value: unknown): value is T {
  return faultsIn(shape, value, 1).length === 0
}

/** The faults of a value, in the order of the shape's fields; an empty list if it fits.
 * @param most stop after this many
 * @throws RangeError for a value nested too deeply to check */
export function faultsIn(shape: Shape, value: unknown, most: number): Fault[] {
  const search: Search = { defs: shape.$defs ?? {}, most, found: [], path: [] }
  check(shape, value, search)
  return search.found.slice(0, most)
}

interface Search {
  readonly defs: Readonly<Record<string, Shape>>
  readonly most: number
  readonly found: Fault[]
  readonly path: (string | number)[]
}

type Fields = Record<string, unknown>

/** @param at keys from the value to the place of the fault */
function report({ found, path }: Search, wrong: string, ...at: string[]): void {
  found.push({ path: [...path, ...at], wrong })
}

function check(shape: Shape, value: unknown, search: Search): void {
  const { type, anyOf = shape.oneOf } = shape
  if (shape.$ref !== undefined) check(referred(shape, search), value, search)
  else if (anyOf !== undefined) checkAnyOf(anyOf, value, search)
  else if (value !== null || !type?.includes('null')) {
    const wrong = faultItself(shape, value)
    if (wrong !== null) report(search, wrong)
    else if (Array.isArray(value)) checkList(shape, value, search)
    else if (isObject(value)) checkObject(shape, value, search)
  }
}

function referred(shape: Shape, { defs }: Search): Shape {
  return shape.$ref === undefined ? shape : (defs[shape.$ref.replace('#/$defs/', '')] as Shape)
}

/** What is wrong with the value itself; its contents are not checked. */
function faultItself(shape: Shape, value: unknown): string | null {
  const choices = shape.const === undefined ? shape.enum : [shape.const]
  if (choices !== undefined) return choiceFault(choices, value)
  switch (typeof shape.type === 'string' ? shape.type : shape.type?.find((each) => each !== 'null')) {
    case 'number':
    case 'integer':
      return numberFault(shape, value)
    case 'string':
      return textFault(shape, value)
    case 'boolean':
      return typeof value === 'boolean' ? null : 'is not true or false'
    case 'array':
      return Array.isArray(value) ? lengthFault(shape, value) : 'is not a list'
    default:
      return isObject(value) ? null : 'is not an object'
  }
}

function checkList({ items, prefixItems }: Shape, value: unknown[], search: Search): void {
  for (let index = 0; index < value.length && search.found.length < search.most; index += 1)
    checkAt(index, (prefixItems?.[index] ?? items) as Shape, value[index], search)
}

function checkObject(shape: Shape, value: Fields, search: Search): void {
  const { properties = {}, required, additionalProperties } = shape
  let known = 0
  for (const key in properties) {
    if (search.found.length >= search.most) return
    const inner = Object.hasOwn(value, key) ? value[key] : undefined
    if (inner !== undefined) {
      known += 1
      checkAt(key, properties[key] as Shape, inner, search)
    } else if (required?.includes(key)) report(search, 'is missing', key)
  }
  const keys = Object.keys(value)
  if (additionalProperties !== false || keys.length === known) return
  const extra = keys.filter((key) => !Object.hasOwn(properties, key)).map((key) => JSON.stringify(key))
  if (extra.length > 0) report(search, `has a field that does not belong there, ${extra.join(', ')}`)
}

function checkAnyOf(options: readonly Shape[], value: unknown, search: Search): void {
  if (value === null && options.some(({ type }) => type === 'null')) return
  const { only, tagged } = choiceOf(options, search)
  if (only !== null) check(only, value, search)
  else if (tagged === null) checkEither(options, value, search)
  else if (!isObject(value)) report(search, 'is not an object')
  else {
    const tag = Object.hasOwn(value, tagged.by) ? value[tagged.by] : undefined
    const meant = tagged.of.get(tag)
    if (meant === undefined) report(search, unknownKind, tagged.by)
    else check(meant, value, search)
  }
}

interface Choice {
  /** The only alternative besides null. */
  only: Shape | null
  /** Objects distinguished by the value of one field. */
  tagged: { by: string; of: ReadonlyMap<unknown, Shape> } | null
}

const choices = new WeakMap<readonly Shape[], Choice>()

/** How one of several alternatives is chosen: if all have a distinguishing word, the value itself tells. */
function choiceOf(all: readonly Shape[], search: Search): Choice {
  const known = choices.get(all)
  if (known !== undefined) return known
  const options = all.filter(({ type }) => type !== 'null')
  const taggedBy = (by: string) => {
    const words = options.map((option) => referred(option, search).properties?.[by]?.const)
    const of = new Map(options.map((option, index) => [words[index] as unknown, option]))
    return of.size === options.length && words.every((word) => typeof word === 'string') ? [{ by, of }] : []
  }
  const [tagged = null] = ['kind', 'type'].flatMap(taggedBy)
  const choice = { only: options.length === 1 ? options[0]! : null, tagged }
  choices.set(all, choice)
  return choice
}

const unknownKind = 'has an unknown kind'

/** If no alternative fits, reports the faults of the one that fits furthest down. */
function checkEither(options: readonly Shape[], value: unknown, search: Search): void {
  let furthest: Fault[] = [{ path: [...search.path], wrong: unknownKind }]
  for (const shape of options) {
    const found: Fault[] = []
    check(shape, value, { ...search, found })
    const [first] = found
    if (first === undefined) return
    if (first.path.length > (furthest[0]?.path.length ?? 0)) furthest = found
  }
  search.found.push(...furthest)
}

function checkAt(key: string | number, shape: Shape, value: unknown, search: Search): void {
  search.path.push(key)
  check(shape, value, search)
  search.path.pop()
}

/** Whether a value is an object, neither null nor an array. */
export function isObject(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function numberFault(shape: Shape, value: unknown): string | null {
  const { type, minimum, exclusiveMinimum, maximum } = shape
  if (typeof value !== 'number' || !Number.isFinite(value)) return 'is not a number'
  if (type?.includes('integer') && !Number.isSafeInteger(value)) return 'is not a whole number'
  if (minimum !== undefined && value < minimum) return `is less than ${minimum}`
  if (exclusiveMinimum !== undefined && value <= exclusiveMinimum)
    return `is not more than ${exclusiveMinimum}`
  return maximum !== undefined && value > maximum ? `is more than ${maximum}` : null
}

function textFault({ minLength = 0, format, pattern }: Shape, value: unknown): string | null {
  if (typeof value !== 'string') return 'is not a text'
  if (value.length < minLength) return 'is too short'
  if (pattern === undefined || patternOf(pattern).test(value)) return null
  if (format === undefined) return 'is not in the expected form'
  return format === 'date' ? 'is not a date' : 'is not a date and time'
}

function lengthFault({ prefixItems, minItems = 0, maxItems }: Shape, { length }: unknown[]): string | null {
  if (length < (prefixItems?.length ?? minItems)) return 'is too short'
  return length > (prefixItems?.length ?? maxItems ?? Number.POSITIVE_INFINITY) ? 'is too long' : null
}

function choiceFault(values: readonly (string | number)[], value: unknown): string | null {
  if ((values as readonly unknown[]).includes(value)) return null
  return values.length === 1 ? `is not ${values[0]}` : `is not one of ${values.join(', ')}`
}

const patterns = new Map<string, RegExp>()

function patternOf(pattern: string): RegExp {
  const known = patterns.get(pattern) ?? new RegExp(pattern)
  patterns.set(pattern, known)
  return known
}
