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
  /** With `null` after it where a value may be null. */
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
  const search: Search = { most, found: [], path: [], defs: shape.$defs ?? {} }
  check(shape, value, search)
  return search.found.slice(0, most)
}

/** A value without the fields that its shape does not name. One of several alternatives stays as it is. */
export function named<T>(shape: Shape, value: T, defs: Defs = shape.$defs ?? {}): T {
  const { $ref, anyOf = shape.oneOf, items, properties } = shape
  if ($ref !== undefined) return named(referred(shape, defs), value, defs)
  if (anyOf !== undefined) {
    const [only, ...others] = anyOf.filter(({ type }) => type !== 'null')
    return only === undefined || others.length > 0 ? value : named(only, value, defs)
  }
  if (Array.isArray(value) && items) return value.map((each) => named(items, each, defs)) as T
  if (!isObject(value) || properties === undefined) return value
  const fields = Object.entries(value).filter(([key]) => Object.hasOwn(properties, key))
  return Object.fromEntries(fields.map(([key, inner]) => [key, named(properties[key]!, inner, defs)])) as T
}

type Defs = Readonly<Record<string, Shape>>

interface Search {
  readonly most: number
  readonly found: Fault[]
  readonly path: (string | number)[]
  readonly defs: Defs
}

function check(shape: Shape, value: unknown, search: Search): void {
  const { $ref, anyOf = shape.oneOf, type } = shape
  if ($ref !== undefined) check(referred(shape, search.defs), value, search)
  else if (anyOf !== undefined) checkAny(anyOf, value, search)
  else if (value !== null || !type?.includes('null')) checkOne(shape, value, search)
}

function checkOne(shape: Shape, value: unknown, search: Search): void {
  const { const: only, enum: choices = only === undefined ? undefined : [only], type } = shape
  if (type?.includes('object')) checkObject(shape, value, search)
  else if (type?.includes('array')) checkList(shape, value, search)
  else {
    const wrong = choices === undefined ? plainFault(shape, value) : choiceFault(choices, value)
    if (wrong !== null) report(search, wrong)
  }
}

function referred(shape: Shape, defs: Defs): Shape {
  return shape.$ref === undefined ? shape : (defs[shape.$ref.slice('#/$defs/'.length)] as Shape)
}

/** @param at keys from the value to the place of the fault */
function report({ found, path }: Search, wrong: string, ...at: string[]): void {
  found.push({ path: [...path, ...at], wrong })
}

function checkList(shape: Shape, value: unknown, search: Search): void {
  const { items, prefixItems: row, minItems = 0, maxItems = Number.POSITIVE_INFINITY } = shape
  if (!Array.isArray(value)) report(search, 'is not a list')
  else if (value.length < (row?.length ?? minItems)) report(search, 'is too short')
  else if (value.length > (row?.length ?? maxItems)) report(search, 'is too long')
  else
    for (let index = 0; index < value.length && search.found.length < search.most; index += 1)
      checkAt(index, (row?.[index] ?? items) as Shape, value[index], search)
}

function checkObject(shape: Shape, value: unknown, search: Search): void {
  if (!isObject(value)) {
    report(search, 'is not an object')
    return
  }
  const { properties = {}, required = [], additionalProperties } = shape
  for (const key of Object.keys(properties)) {
    if (search.found.length >= search.most) return
    const inner = Object.hasOwn(value, key) ? value[key] : undefined
    if (inner !== undefined) checkAt(key, properties[key]!, inner, search)
    else if (required.includes(key)) report(search, 'is missing', key)
  }
  if (additionalProperties !== false) return
  const extra = Object.keys(value).filter((key) => !Object.hasOwn(properties, key))
  if (extra.length === 0) return
  const names = extra.map((key) => JSON.stringify(key)).join(', ')
  report(search, `has a field that does not belong there, ${names}`)
}

function checkAt(key: string | number, shape: Shape, value: unknown, search: Search): void {
  search.path.push(key)
  check(shape, value, search)
  search.path.pop()
}

const unknownKind = 'has an unknown kind'

/** If all alternatives have a distinguishing word, the value itself tells which one applies. */
function checkAny(all: readonly Shape[], value: unknown, search: Search): void {
  const options = all.filter(({ type }) => type !== 'null').map((option) => referred(option, search.defs))
  if (value === null && options.length < all.length) return
  const by = ['kind', 'type'].find((key) => options.every((option) => wordOf(option, key) !== null))
  if (options.length === 1 || by === undefined) checkEither(options, value, search)
  else if (!isObject(value)) report(search, 'is not an object')
  else {
    const meant = options.filter((option) => Object.hasOwn(value, by) && wordOf(option, by) === value[by])
    if (meant.length === 0) report(search, unknownKind, by)
    else checkEither(meant, value, search)
  }
}

/** The only text that a field of an alternative may be; null without one. */
function wordOf({ properties }: Shape, key: string): string | null {
  const word = properties?.[key]?.const
  return typeof word === 'string' ? word : null
}

/** If none of several alternatives fits, the faults are those of the one that fits furthest down. */
function checkEither(options: readonly Shape[], value: unknown, search: Search): void {
  let furthest: Fault[] = [{ path: [...search.path], wrong: unknownKind }]
  for (const option of options) {
    const found: Fault[] = []
    check(option, value, { ...search, found })
    const [first] = found
    if (first === undefined) return
    if (options.length === 1 || first.path.length > (furthest[0]?.path.length ?? 0)) furthest = found
  }
  search.found.push(...furthest)
}

/** Whether a value is an object, neither null nor an array. */
export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function plainFault(shape: Shape, value: unknown): string | null {
  if (shape.type?.includes('boolean')) return typeof value === 'boolean' ? null : 'is not true or false'
  return shape.type?.includes('string') ? textFault(shape, value) : numberFault(shape, value)
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
