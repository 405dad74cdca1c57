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

/** What is wrong at one place in a value. `option`: none of the alternatives fits. */
export interface Fault {
  /** Keys, and list indexes counted from 0. */
  path: readonly (string | number)[]
  what:
    | { wrong: 'missing' | 'option' | 'pattern' | 'short' | 'long' }
    | { wrong: 'type'; expected: 'number' | 'whole number' | 'text' | 'boolean' | 'list' | 'object' }
    | { wrong: 'less' | 'not more' | 'more'; than: number }
    | { wrong: 'value'; values: readonly (string | number)[] }
    | { wrong: 'date' | 'date-time' }
    | { wrong: 'extra'; keys: readonly string[] }
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
  found: Fault[]
  readonly path: (string | number)[]
}

function report({ found, path }: Search, what: Fault['what']): void {
  found.push({ path: [...path], what })
}

function check(shape: Shape, value: unknown, search: Search): void {
  const what = faultItself(shape, value)
  if (what !== null) {
    report(search, what)
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

type Of<Kind extends Shape['is']> = Extract<Shape, { is: Kind }>
type Fields = Record<string, unknown>

/** What is wrong with the value itself; its contents are not checked. */
function faultItself(shape: Shape, value: unknown): Fault['what'] | null {
  switch (shape.is) {
    case 'number':
      return numberFault(shape, value)
    case 'text':
      return textFault(shape, value)
    case 'boolean':
      return typeof value === 'boolean' ? null : { wrong: 'type', expected: 'boolean' }
    case 'one of':
      return (shape.values as readonly unknown[]).includes(value)
        ? null
        : { wrong: 'value', values: shape.values }
    case 'list':
      return Array.isArray(value) ? null : { wrong: 'type', expected: 'list' }
    case 'row':
      if (!Array.isArray(value)) return { wrong: 'type', expected: 'list' }
      if (value.length === shape.of.length) return null
      return { wrong: value.length < shape.of.length ? 'short' : 'long' }
    case 'object':
    case 'tagged':
      return isObject(value) ? null : { wrong: 'type', expected: 'object' }
    default:
      return null
  }
}

function checkList({ of, shortest = 0, longest }: Of<'list'>, value: unknown[], search: Search): void {
  if (value.length < shortest) report(search, { wrong: 'short' })
  if (longest !== undefined && value.length > longest) report(search, { wrong: 'long' })
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
    } else if (!optional?.includes(key)) reportAt(key, { wrong: 'missing' }, search)
  }
  const keys = Object.keys(value)
  if (open || keys.length === known) return
  const extra = keys.filter((key) => !Object.hasOwn(of, key))
  if (extra.length > 0) report(search, { wrong: 'extra', keys: extra })
}

function checkTagged({ by, of }: Of<'tagged'>, value: Fields, search: Search): void {
  const tag = Object.hasOwn(value, by) ? value[by] : undefined
  if (typeof tag === 'string' && Object.hasOwn(of, tag)) check(of[tag] as Shape, value, search)
  else reportAt(by, { wrong: 'option' }, search)
}

/** If no alternative fits, reports the faults of the one that fits furthest down. */
function checkEither({ of }: Of<'either'>, value: unknown, search: Search): void {
  let furthest: Fault[] = [{ path: [...search.path], what: { wrong: 'option' } }]
  for (const shape of of) {
    const attempt = { ...search, found: [] as Fault[] }
    check(shape, value, attempt)
    const [first] = attempt.found
    if (first === undefined) return
    if (first.path.length > (furthest[0]?.path.length ?? 0)) furthest = attempt.found
  }
  search.found.push(...furthest)
}

function checkAt(key: string | number, shape: Shape, value: unknown, search: Search): void {
  search.path.push(key)
  check(shape, value, search)
  search.path.pop()
}

function reportAt(key: string, what: Fault['what'], search: Search): void {
  search.path.push(key)
  report(search, what)
  search.path.pop()
}

/** Whether a value is an object, neither null nor an array. */
export function isObject(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function numberFault({ whole, least, above, most }: Of<'number'>, value: unknown): Fault['what'] | null {
  if (typeof value !== 'number' || !Number.isFinite(value)) return { wrong: 'type', expected: 'number' }
  if (whole && !Number.isSafeInteger(value)) return { wrong: 'type', expected: 'whole number' }
  if (least !== undefined && value < least) return { wrong: 'less', than: least }
  if (above !== undefined && value <= above) return { wrong: 'not more', than: above }
  return most !== undefined && value > most ? { wrong: 'more', than: most } : null
}

function textFault({ shortest = 0, like, pattern }: Of<'text'>, value: unknown): Fault['what'] | null {
  if (typeof value !== 'string') return { wrong: 'type', expected: 'text' }
  if (value.length < shortest) return { wrong: 'short' }
  return pattern === undefined || patternOf(pattern).test(value) ? null : { wrong: like ?? 'pattern' }
}

const patterns = new Map<string, RegExp>()

function patternOf(pattern: string): RegExp {
  const known = patterns.get(pattern) ?? new RegExp(pattern)
  patterns.set(pattern, known)
  return known
}

/** Describes a fault as the end of a sentence: "is not a number". */
export function faultWords({ what }: Fault): string {
  switch (what.wrong) {
    case 'missing':
      return 'is missing'
    case 'option':
      return 'has an unknown kind'
    case 'pattern':
      return 'is not in the expected form'
    case 'date':
      return 'is not a date'
    case 'date-time':
      return 'is not a date and time'
    case 'short':
      return 'is too short'
    case 'long':
      return 'is too long'
    case 'type':
      return what.expected === 'boolean'
        ? 'is not true or false'
        : `is not ${/^[aeiou]/.test(what.expected) ? 'an' : 'a'} ${what.expected}`
    case 'less':
    case 'not more':
    case 'more':
      return `is ${what.wrong} than ${what.than}`
    case 'value':
      return what.values.length === 1 ? `is not ${what.values[0]}` : `is not one of ${what.values.join(', ')}`
    case 'extra':
      return `has a field that does not belong there, ${what.keys.map((key) => JSON.stringify(key)).join(', ')}`
  }
}
