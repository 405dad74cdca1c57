import { printableOf } from './printable.ts'

/* What the logbook's files have in common: each is one JSON object. */

/** The JSON object in a text, or what it is instead, as the end of a sentence. */
export function readObject(text: string): Record<string, unknown> | string {
  if (text.trim() === '') return 'is empty'
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch (error) {
    const isCutOff = /end of JSON input|Unterminated|after (array element|property value)/.test(
      (error as Error).message,
    )
    return isCutOff ? 'breaks off before its end' : 'is not JSON'
  }
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return value as Record<string, unknown>
  return `holds ${value === null ? 'null' : Array.isArray(value) ? 'a list' : `a ${typeof value}`} instead of a session`
}

/** For a message: printable, and no longer than 200 characters. */
export function clipped(text: string): string {
  const printable = printableOf(text)
  return printable.length > 200 ? `${printable.slice(0, 200)}…` : printable
}
