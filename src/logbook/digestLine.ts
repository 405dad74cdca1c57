import { DigestDay } from './digestDay.ts'
import { packingOf } from './packing.ts'

const packing = packingOf(DigestDay)

/** What a line of the digest says about the file it was made from, without reading the whole line. */
export interface DigestHead {
  /** Below the folder of the sessions: `2026/2026-11-26-ID.json`. */
  file: string
  size: number
  /** Milliseconds since 1970, with fractions as the file system has them. */
  mtime: number
  /** Which figures it holds: changes with the form of the digest and with the settings that figures depend on. */
  basis: string
  finished: boolean
  /** Milliseconds since 1970; null where the start is not known. */
  started: number | null
}

/* The head comes first and in this order, so that ten thousand lines are told apart without reading JSON. */
const pattern =
  /^\{"file":"(\d{4}\/[\w-]{1,80}\.json)","size":(\d{1,15}),"mtime":(\d{1,15}(?:\.\d{1,20})?),"basis":"([\w-]{1,80})","finished":(true|false),"started":(-?\d{1,17}|null),"day":\[/

export function printDigestLine(head: DigestHead, day: DigestDay): string {
  const { file, size, mtime, basis, finished, started } = head
  return JSON.stringify({ file, size, mtime, basis, finished, started, day: packing.pack(day) })
}

/** The head of a line; null for what is no whole line of the digest. */
export function readDigestHead(line: string): DigestHead | null {
  const parts = pattern.exec(line)
  if (parts === null || !line.endsWith(']}')) return null
  const [, file = '', size, mtime, basis = '', finished, started] = parts
  return {
    file,
    size: Number(size),
    mtime: Number(mtime),
    basis,
    finished: finished === 'true',
    started: started === 'null' ? null : Number(started),
  }
}

/** What no line of this program holds: control characters, written out or as escapes. */
const forbidden = /\\[bfnru]|[\u007F-\u009F\u2028\u2029\u202A-\u202E\u2066-\u2069]/

/** The day of a line; null for a line that is not as this program writes it, whoever wrote it. */
export function readDigestDay(line: string): DigestDay | null {
  if (forbidden.test(line)) return null
  try {
    return packing.unpack(JSON.parse(line).day)
  } catch {
    return null
  }
}
