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
  const search: Search = { most, found: [], path: [] }
  checkOf(shape, shape.$defs ?? {})(value, search)
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

interface Search {
  readonly most: number
  readonly found: Fault[]
  readonly path: (string | number)[]
}

type Check = (value: unknown, search: Search) => void
type Defs = Readonly<Record<string, Shape>>

const checks = new WeakMap<Shape, Check>()

/** The check of a shape, made once: asking each shape for its keywords again takes three times as long. */
function checkOf(shape: Shape, defs: Defs): Check {
  const known = checks.get(shape) ?? newCheck(shape, defs)
  checks.set(shape, known)
  return known
}

function newCheck(shape: Shape, defs: Defs): Check {
  const { $ref, anyOf = shape.oneOf, enum: several, const: only, type } = shape
  if ($ref !== undefined) {
    // A shape may refer to itself.
    let check: Check | null = null
    return (value, search) => {
      check ??= checkOf(referred(shape, defs), defs)
      check(value, search)
    }
  }
  if (anyOf !== undefined) return anyCheck(anyOf, defs)
  const isNullable = type?.includes('null')
  const check = typedCheck(shape, defs)
  const choices = only === undefined ? several : [only]
  const itself = choices === undefined ? check : faultCheck((value) => choiceFault(choices, value))
  return isNullable ? (value, search) => value !== null && itself(value, search) : itself
}

function typedCheck(shape: Shape, defs: Defs): Check {
  switch (typeof shape.type === 'string' ? shape.type : shape.type?.find((each) => each !== 'null')) {
    case 'object':
      return objectCheck(shape, defs)
    case 'array':
      return listCheck(shape, defs)
    case 'boolean':
      return faultCheck((value) => (typeof value === 'boolean' ? null : 'is not true or false'))
    case 'string':
      return faultCheck((value) => textFault(shape, value))
    default:
      return faultCheck((value) => numberFault(shape, value))
  }
}

function referred(shape: Shape, defs: Defs): Shape {
  return shape.$ref === undefined ? shape : (defs[shape.$ref.replace('#/$defs/', '')] as Shape)
}

/** @param faultOf what is wrong with a value; null if nothing is */
function faultCheck(faultOf: (value: unknown) => string | null): Check {
  return (value, search) => {
    const wrong = faultOf(value)
    if (wrong !== null) report(search, wrong)
  }
}

/** @param at keys from the value to the place of the fault */
function report({ found, path }: Search, wrong: string, ...at: string[]): void {
  found.push({ path: [...path, ...at], wrong })
}

function listCheck(shape: Shape, defs: Defs): Check {
  const { items, prefixItems, minItems = 0, maxItems = Number.POSITIVE_INFINITY } = shape
  const row = prefixItems?.map((each) => checkOf(each, defs))
  const check = items && checkOf(items, defs)
  return (value, search) => {
    if (!Array.isArray(value)) report(search, 'is not a list')
    else if (value.length < (row?.length ?? minItems)) report(search, 'is too short')
    else if (value.length > (row?.length ?? maxItems)) report(search, 'is too long')
    else
      for (let index = 0; index < value.length && search.found.length < search.most; index += 1)
        checkAt(index, (row?.[index] ?? check) as Check, value[index], search)
  }
}

function objectCheck(shape: Shape, defs: Defs): Check {
  const { properties = {}, required = [], additionalProperties } = shape
  const fields = Object.entries(properties).map(([key, each]) => ({
    key,
    check: checkOf(each, defs),
    isRequired: required.includes(key),
  }))
  return (value, search) => {
    if (!isObject(value)) return report(search, 'is not an object')
    let known = 0
    for (const { key, check, isRequired } of fields) {
      if (search.found.length >= search.most) return
      const inner = Object.hasOwn(value, key) ? value[key] : undefined
      if (inner !== undefined) {
        known += 1
        checkAt(key, check, inner, search)
      } else if (isRequired) report(search, 'is missing', key)
    }
    if (additionalProperties !== false) return
    const keys = Object.keys(value)
    if (keys.length === known) return
    const extra = keys.filter((key) => !Object.hasOwn(properties, key)).map((key) => JSON.stringify(key))
    if (extra.length > 0) report(search, `has a field that does not belong there, ${extra.join(', ')}`)
  }
}

function checkAt(key: string | number, check: Check, value: unknown, search: Search): void {
  search.path.push(key)
  check(value, search)
  search.path.pop()
}

const unknownKind = 'has an unknown kind'

function anyCheck(all: readonly Shape[], defs: Defs): Check {
  const options = all.filter(({ type }) => type !== 'null')
  const [only, ...others] = options.map((option) => checkOf(option, defs)) as [Check]
  const check = others.length === 0 ? only : (taggedCheck(options, defs) ?? eitherCheck([only, ...others]))
  return options.length === all.length ? check : (value, search) => value !== null && check(value, search)
}

/** If all alternatives have a distinguishing word, the value itself tells which one applies; null if they have none. */
function taggedCheck(options: readonly Shape[], defs: Defs): Check | null {
  for (const by of ['kind', 'type']) {
    const words = options.map((option) => referred(option, defs).properties?.[by]?.const)
    const checkBy = new Map<unknown, Check>(
      options.map((option, index) => [words[index], checkOf(option, defs)]),
    )
    if (checkBy.size < options.length || words.some((word) => typeof word !== 'string')) continue
    return (value, search) => {
      if (!isObject(value)) return report(search, 'is not an object')
      const check = checkBy.get(Object.hasOwn(value, by) ? value[by] : undefined)
      if (check === undefined) report(search, unknownKind, by)
      else check(value, search)
    }
  }
  return null
}

/** If no alternative fits, reports the faults of the one that fits furthest down. */
function eitherCheck(options: readonly Check[]): Check {
  return (value, search) => {
    let furthest: Fault[] = [{ path: [...search.path], wrong: unknownKind }]
    for (const check of options) {
      const found: Fault[] = []
      check(value, { ...search, found })
      const [first] = found
      if (first === undefined) return
      if (first.path.length > (furthest[0]?.path.length ?? 0)) furthest = found
    }
    search.found.push(...furthest)
  }
}

/** Whether a value is an object, neither null nor an array. */
export function isObject(value: unknown): value is Record<string, unknown> {
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
