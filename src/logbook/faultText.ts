import type { Fault } from '../shapes/fault.ts'
import { faultWords } from '../shapes/faultWords.ts'
import { clipped } from './jsonObject.ts'

/** What keeps a file from being read, as the end of a sentence: "does not read at event 5 (setRecorded): reps is no
 * number". @param value that has the fault */
export function faultText(fault: Fault, value: unknown): string {
  const { place, rest } = placeOf(fault.path, value)
  return clipped(`does not read${place === '' ? '' : ` at ${place}`}: ${fieldOf(rest)} ${faultWords(fault)}`)
}

/** The event, or the item of the prescription, that a path leads into, counted from 1; and the way on in it. */
function placeOf(path: Fault['path'], value: unknown): { place: string; rest: Fault['path'] } {
  const [first, second, third, fourth, fifth] = path
  if (first === 'events' && typeof second === 'number') {
    const type = valueAt(value, ['events', second, 'type'])
    const kind = typeof type === 'string' ? ` (${type})` : ''
    return { place: `event ${second + 1}${kind}`, rest: path.slice(third === 'result' ? 3 : 2) }
  }
  if (first !== 'prescription') return { place: '', rest: path }
  if (second !== 'parts' || typeof third !== 'number')
    return { place: 'its prescription', rest: path.slice(1) }
  if (fourth !== 'items' || typeof fifth !== 'number')
    return { place: `part ${third + 1} of its prescription`, rest: path.slice(3) }
  return { place: `part ${third + 1}, item ${fifth + 1} of its prescription`, rest: path.slice(5) }
}

function fieldOf(path: Fault['path']): string {
  return path.length === 0 ? 'it' : path.map((key) => (typeof key === 'number' ? key + 1 : key)).join('.')
}

function valueAt(value: unknown, path: Fault['path']): unknown {
  return path.reduce<unknown>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null && Object.hasOwn(inner, key)
        ? (inner as Record<string, unknown>)[key]
        : undefined,
    value,
  )
}
