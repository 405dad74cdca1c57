import type * as z from 'zod'
import { clipped } from './jsonObject.ts'

/* What keeps a file from being read, in words; the schemas' own words are for programmers. */

type Issue = z.core.$ZodIssue

/** The end of a sentence about a file: "does not read at event 5 (setRecorded): reps is no number".
 * @param value what the schema was given */
export function issueOf(issue: Issue | undefined, value: unknown): string {
  if (issue === undefined) return 'does not read'
  const { path, what } = innermost(issue, [])
  const { place, rest } = placeOf(path, value)
  const missing = what.code === 'invalid_type' && valueAt(value, path) === undefined
  const said = `${fieldOf(rest)} ${missing ? 'is missing' : wordsOf(what)}`
  return clipped(`does not read${place === '' ? '' : ` at ${place}`}: ${said}`)
}

/** Of the shapes that a value may have the one that it says it has. */
function innermost(issue: Issue, outer: readonly PropertyKey[]): { path: PropertyKey[]; what: Issue } {
  const path = [...outer, ...issue.path]
  if (issue.code !== 'invalid_union') return { path, what: issue }
  const isOther = (each: Issue) => each.path.length === 1 && each.path[0] === 'kind'
  const [inner] = issue.errors.find((issues) => !issues.some(isOther)) ?? []
  return inner === undefined ? { path, what: issue } : innermost(inner, path)
}

/** The event, or the item of the prescription, that a path leads into, counted from 1; and the way on in it. */
function placeOf(path: readonly PropertyKey[], value: unknown): { place: string; rest: PropertyKey[] } {
  const [first, second, third, fourth, fifth] = path
  if (first === 'events' && typeof second === 'number') {
    const type = valueAt(value, ['events', second, 'type'])
    const kind = typeof type === 'string' ? ` (${type})` : ''
    return { place: `event ${second + 1}${kind}`, rest: path.slice(third === 'result' ? 3 : 2) }
  }
  if (first !== 'prescription') return { place: '', rest: [...path] }
  if (second !== 'parts' || typeof third !== 'number')
    return { place: 'its prescription', rest: path.slice(1) }
  if (fourth !== 'items' || typeof fifth !== 'number')
    return { place: `part ${third + 1} of its prescription`, rest: path.slice(3) }
  return { place: `part ${third + 1}, item ${fifth + 1} of its prescription`, rest: path.slice(5) }
}

function fieldOf(path: readonly PropertyKey[]): string {
  return path.length === 0
    ? 'it'
    : path.map((key) => (typeof key === 'number' ? key + 1 : String(key))).join('.')
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null && Object.hasOwn(inner, key)
        ? (inner as Record<PropertyKey, unknown>)[key]
        : undefined,
    value,
  )
}

const kinds: Record<string, string> = {
  number: 'number',
  int: 'whole number',
  string: 'text',
  array: 'list',
  tuple: 'list',
  object: 'object',
  null: 'null',
}

function wordsOf(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected === 'boolean'
        ? 'is neither true nor false'
        : `is no ${kinds[issue.expected] ?? issue.expected}`
    case 'too_small':
      return issue.origin === 'array' || issue.origin === 'string'
        ? 'is too short'
        : `is ${issue.inclusive === false ? 'not more' : 'less'} than ${issue.minimum}`
    case 'too_big':
      return issue.origin === 'array' || issue.origin === 'string'
        ? 'is too long'
        : `is ${issue.inclusive === false ? 'not less' : 'more'} than ${issue.maximum}`
    case 'invalid_value':
      return issue.values.length === 1
        ? `is not ${String(issue.values[0])}`
        : `is none of ${issue.values.map(String).join(', ')}`
    case 'invalid_format':
      return issue.format === 'date'
        ? 'is no date'
        : issue.format === 'datetime'
          ? 'is no date and time'
          : 'is not written as it should be'
    case 'unrecognized_keys':
      return `has a field that does not belong there, ${issue.keys.map((key) => JSON.stringify(key)).join(', ')}`
    case 'invalid_union':
      return 'is of no kind that there is'
    default:
      return 'is not as it should be'
  }
}
