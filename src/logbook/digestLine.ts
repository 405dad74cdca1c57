import type { DigestDay } from './digestDay.ts'
import {
  packingOfSection,
  type SectionName,
  type Sections,
  sectionNames,
  sectionsOf,
} from './digestSections.ts'

/** What a line of the digest says of the file it was made from. */
export interface FileHead {
  /** Below the folder of the sessions: `2026/2026-11-26-ID.json`. */
  file: string
  size: number
  /** Milliseconds since 1970, with fractions as the file system has them. */
  mtime: number
}

export interface DigestHead extends FileHead {
  /** Which figures it holds: changes with the form of the digest and with the settings that figures depend on. */
  basis: string
  finished: boolean
  /** Milliseconds since 1970; null where the start is not known. */
  started: number | null
}

/* The head comes first, always written alike, so that whether a line holds for a file is one comparison of
 * text. No section has a key within, so that `,"lifting":[` cannot stand elsewhere in a line: in a string its
 * quotes would be escaped. */

export function printDigestLine(head: DigestHead, day: DigestDay): string {
  const sections = sectionsOf(day)
  const packed = sectionNames.map(
    (name) => `"${name}":${JSON.stringify(packingOfSection(name).pack(sections[name] as never))}`,
  )
  return `${beginningOf(head, head.basis)}"finished":${head.finished},"started":${head.started},${packed.join(',')}}`
}

/** How the line of a file begins while it holds. */
export function beginningOf({ file, size, mtime }: FileHead, basis: string): string {
  return `{"file":"${file}","size":${size},"mtime":${mtime},"basis":"${basis}",`
}

/** The file that a line is of; null for what is no whole line of the digest. */
export function fileOfLine(line: string): string | null {
  const end = line.indexOf('"', fileAt)
  return end > 0 && line.endsWith(']}') ? line.slice(fileAt, end) : null
}

const fileAt = '{"file":"'.length

export function isFinished(line: string): boolean {
  return line.includes('","finished":true,"started":')
}

/** Milliseconds since 1970; null where the start is not known. */
export function startOfLine(line: string): number | null {
  const [, started] = /","finished":(?:true|false),"started":(-?\d{1,17}),"/.exec(line) ?? []
  return started === undefined ? null : Number(started)
}

/** What no line of this program holds: control characters, written out or as escapes. */
const forbidden = /\\[bfnru]|[\u007F-\u009F\u2028\u2029\u202A-\u202E\u2066-\u2069]/

/** A section of a line; null for a line that is not as this program writes it, whoever wrote it. */
export function readSection<Name extends SectionName>(line: string, name: Name): Sections[Name] | null {
  const next = sectionNames[sectionNames.indexOf(name) + 1]
  const key = `,"${name}":`
  const from = line.indexOf(`${key}[`)
  const to = next === undefined ? line.length - 1 : line.indexOf(`,"${next}":[`, from)
  if (from < 0 || to < 0) return null
  const text = line.slice(from + key.length, to)
  if (forbidden.test(text)) return null
  try {
    return packingOfSection(name).unpack(JSON.parse(text))
  } catch {
    return null
  }
}
