/* Checks values from outside without zod, which takes longer to load than most commands take to run: the build turns
 * the zod schemas into these shapes, which are plain data. */

/** A shape, with the shapes it refers to by name. */
export interface Shapes {
  top: Shape
  named: Readonly<Record<string, Shape>>
}

export type Shape =
  | { is: 'number'; whole?: true; least?: number; above?: number; most?: number }
  | { is: 'text'; shortest?: number; like?: 'date' | 'date-time'; pattern?: string }
  | { is: 'boolean' }
  /** A single value is a constant. */
  | { is: 'one of'; values: readonly (string | number)[] }
  | { is: 'nullable'; of: Shape }
  | { is: 'list'; of: Shape; shortest?: number; longest?: number }
  /** A list of fixed length; each position has a shape of its own. */
  | { is: 'row'; of: readonly Shape[] }
  /** Unknown fields are refused unless it is `open`. */
  | { is: 'object'; of: Readonly<Record<string, Shape>>; optional?: readonly string[]; open?: true }
  /** Objects distinguished by the value of one field. */
  | { is: 'tagged'; by: string; of: Readonly<Record<string, Shape>> }
  | { is: 'either'; of: readonly Shape[] }
  | { is: 'named'; name: string }

/** What is wrong at one place in a value. */
export interface Fault {
  /** Keys, and list indexes counted from 0. */
  path: readonly (string | number)[]
  /** The end of a sentence: "is not a number". */
  wrong: string
}

export function hasShape<T>(shapes: Shapes, value: unknown): value is T {
  return faultsIn(shapes, value, 1).length === 0
}

/** The faults of a value, in the order of the shape's fields; an empty list if it fits.
 * @param most stop after this many
 * @throws RangeError for a value nested too deeply to check */
export function faultsIn({ top, named }: Shapes, value: unknown, most: number): Fault[] {
  const search: Search = { named, most, found: [], path: [] }
  check(top, value, search)
  return search.found.slice(0, most)
}

interface Search {
  readonly named: Shapes['named']
  readonly most: number
  readonly found: Fault[]
  readonly path: (string | number)[]
}

type Of<Kind extends Shape['is']> = Extract<Shape, { is: Kind }>
type Fields = Record<string, unknown>

/** @param at keys from the value to the place of the fault */
function report({ found, path }: Search, wrong: string, ...at: string[]): void {
  found.push({ path: [...path, ...at], wrong })
}

function check(shape: Shape, value: unknown, search: Search): void {
  const wrong = faultItself(shape, value)
  if (wrong !== null) {
    report(search, wrong)
    return
  }
  switch (shape.is) {
    case 'nullable':
      if (value !== null) check(shape.of, value, search)
      break
    case 'named':
      check(search.named[shape.name] as Shape, value, search)
      break
    case 'list':
      checkList(shape, value as unknown[], search)
      break
    case 'row':
      for (const [index, each] of shape.of.entries())
        checkAt(index, each, (value as unknown[])[index], search)
      break
    case 'object':
      checkObject(shape, value as Fields, search)
      break
    case 'tagged':
      checkTagged(shape, value as Fields, search)
      break
    case 'either':
      checkEither(shape, value, search)
  }
}

/** What is wrong with the value itself; its contents are not checked. */
function faultItself(shape: Shape, value: unknown): string | null {
  switch (shape.is) {
    case 'number':
      return numberFault(shape, value)
    case 'text':
      return textFault(shape, value)
    case 'boolean':
      return typeof value === 'boolean' ? null : 'is not true or false'
    case 'one of':
      return choiceFault(shape, value)
    case 'list':
    case 'row':
      return Array.isArray(value) ? lengthFault(shape, value) : 'is not a list'
    case 'object':
    case 'tagged':
      return isObject(value) ? null : 'is not an object'
    default:
      return null
  }
}

function checkList({ of }: Of<'list'>, value: unknown[], search: Search): void {
  for (let index = 0; index < value.length && search.found.length < search.most; index += 1)
    checkAt(index, of, value[index], search)
}

function checkObject({ of, optional, open }: Of<'object'>, value: Fields, search: Search): void {
  let known = 0
  for (const key in of) {
    if (search.found.length >= search.most) return
    const inner = Object.hasOwn(value, key) ? value[key] : undefined
    if (inner !== undefined) {
      known += 1
      checkAt(key, of[key] as Shape, inner, search)
    } else if (!optional?.includes(key)) report(search, 'is missing', key)
  }
  const keys = Object.keys(value)
  if (open || keys.length === known) return
  const extra = keys.filter((key) => !Object.hasOwn(of, key)).map((key) => JSON.stringify(key))
  if (extra.length > 0) report(search, `has a field that does not belong there, ${extra.join(', ')}`)
}

function checkTagged({ by, of }: Of<'tagged'>, value: Fields, search: Search): void {
  const tag = Object.hasOwn(value, by) ? value[by] : undefined
  if (typeof tag === 'string' && Object.hasOwn(of, tag)) check(of[tag] as Shape, value, search)
  else report(search, unknownKind, by)
}

const unknownKind = 'has an unknown kind'

/** If no alternative fits, reports the faults of the one that fits furthest down. */
function checkEither({ of }: Of<'either'>, value: unknown, search: Search): void {
  let furthest: Fault[] = [{ path: [...search.path], wrong: unknownKind }]
  for (const shape of of) {
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

function numberFault({ whole, least, above, most }: Of<'number'>, value: unknown): string | null {
  if (typeof value !== 'number' || !Number.isFinite(value)) return 'is not a number'
  if (whole && !Number.isSafeInteger(value)) return 'is not a whole number'
  if (least !== undefined && value < least) return `is less than ${least}`
  if (above !== undefined && value <= above) return `is not more than ${above}`
  return most !== undefined && value > most ? `is more than ${most}` : null
}

function textFault({ shortest = 0, like, pattern }: Of<'text'>, value: unknown): string | null {
  if (typeof value !== 'string') return 'is not a text'
  if (value.length < shortest) return 'is too short'
  if (pattern === undefined || patternOf(pattern).test(value)) return null
  if (like === undefined) return 'is not in the expected form'
  return like === 'date' ? 'is not a date' : 'is not a date and time'
}

function lengthFault(shape: Of<'list' | 'row'>, { length }: unknown[]): string | null {
  const { shortest = 0, longest = Number.POSITIVE_INFINITY } =
    shape.is === 'list' ? shape : { shortest: shape.of.length, longest: shape.of.length }
  if (length < shortest) return 'is too short'
  return length > longest ? 'is too long' : null
}

function choiceFault({ values }: Of<'one of'>, value: unknown): string | null {
  if ((values as readonly unknown[]).includes(value)) return null
  return values.length === 1 ? `is not ${values[0]}` : `is not one of ${values.join(', ')}`
}

const patterns = new Map<string, RegExp>()

function patternOf(pattern: string): RegExp {
  const known = patterns.get(pattern) ?? new RegExp(pattern)
  patterns.set(pattern, known)
  return known
}
