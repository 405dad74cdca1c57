import { exerciseKey } from '../prescription/exercise.ts'
import type { DigestDay, Section, SectionName } from './digestModel.ts'
import { sectionsOf } from './digestSections.ts'
import { packings } from './generated/packings.js'

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
 * text. No section has a key within, so that `,"running":[` cannot stand elsewhere in a line: in a string its
 * quotes would be escaped. Ten thousand lines are looked at each time: each thing that is done to a line here
 * takes ten milliseconds or none. */

export function printDigestLine(head: DigestHead, day: DigestDay): string {
  const { brief, lifts, running, rest } = sectionsOf(day)
  const { finished, started } = head
  return [
    `${beginningOf(head, head.basis)}"finished":${finished},"started":${started}`,
    `${keyOf('brief')}${printed('brief', brief)}`,
    ...lifts.map((lift) => `${liftKeyOf(exerciseKey(lift.figures.name))}${printed('lift', lift)}`),
    `${keyOf('running')}${printed('running', running)}`,
    `${keyOf('rest')}${printed('rest', rest)}}`,
  ].join('')
}

function printed<Name extends SectionName>(name: Name, section: Section<Name>): string {
  return JSON.stringify(packings[name].pack(section))
}

function keyOf(name: 'brief' | 'running' | 'rest'): string {
  return `,"${name}":`
}

/** @param key of `exerciseKey` */
function liftKeyOf(key: string): string {
  return `,${JSON.stringify(`lift:${key}`)}:`
}

/** How the line of a file begins while it holds. */
function beginningOf({ file, size, mtime }: FileHead, basis: string): string {
  const { seconds, micros } = timeOf(mtime)
  return `{"file":"${file}"${sizeKey}${size}${timeKey}${seconds},${micros}${basisKey}${basis}",`
}

const sizeKey = ',"size":'
const timeKey = ',"mtime":['
const basisKey = '],"basis":"'

/** Whole numbers, which are read in a tenth of the time that a fraction takes. */
function timeOf(mtime: number): { seconds: number; micros: number } {
  const seconds = Math.floor(mtime / 1000)
  return { seconds, micros: Math.round((mtime - seconds * 1000) * 1000) }
}

/** Whether a line holds for its file as it lies there now: made from a file of that size and time of change,
 * and of the same basis. @param line one of `fileOfLine`, of this file */
export function holds(line: string, { file, size, mtime }: FileHead, basis: string): boolean {
  const sizeAt = fileAt + file.length + 1 + sizeKey.length
  const timeAt = line.indexOf(timeKey, sizeAt)
  const microsAt = line.indexOf(',', timeAt + timeKey.length)
  const basisAt = line.indexOf(basisKey, microsAt)
  const { seconds, micros } = timeOf(mtime)
  return (
    Number(line.slice(sizeAt, timeAt)) === size &&
    Number(line.slice(timeAt + timeKey.length, microsAt)) === seconds &&
    Number(line.slice(microsAt + 1, basisAt)) === micros &&
    line.startsWith(basis, basisAt + basisKey.length) &&
    line.startsWith('",', basisAt + basisKey.length + basis.length)
  )
}

/** The file that a line is of; null for what is no whole line of the digest. */
export function fileOfLine(line: string): string | null {
  const end = line.indexOf('"', fileAt)
  return end > 0 && line.endsWith(']}') ? line.slice(fileAt, end) : null
}

export function isLineOf(line: string, file: string): boolean {
  return line.startsWith(file, fileAt) && line.startsWith('"', fileAt + file.length)
}

const fileAt = '{"file":"'.length

export function isFinished(line: string): boolean {
  return line.startsWith('true', line.indexOf(finishedKey) + finishedKey.length)
}

/** Milliseconds since 1970; null where the start is not known. */
export function startOfLine(line: string): number | null {
  const from = line.indexOf(startedKey) + startedKey.length
  const started = Number(line.slice(from, line.indexOf(',', from)))
  return line.startsWith('null', from) || !Number.isFinite(started) ? null : started
}

/** When the file of a line was changed last, in milliseconds since 1970. */
export function changeOfLine(line: string): number {
  const from = line.indexOf(timeKey) + timeKey.length
  const [seconds = 0, micros = 0] = line.slice(from, line.indexOf(basisKey, from)).split(',').map(Number)
  return seconds * 1000 + micros / 1000
}

/** Whether an exercise was lifted. @param key of `exerciseKey` */
export function hasLifted(line: string, key: string): boolean {
  return line.includes(`${liftKeyOf(key)}[`)
}

const finishedKey = '","finished":'
const startedKey = ',"started":'

/** What no line of this program holds: control characters, written out or as escapes. */
const forbidden = /\\[bfnru]|[\u007F-\u009F\u2028\u2029\u202A-\u202E\u2066-\u2069]/

/** A section of a line; null for a line that is not as this program writes it, whoever wrote it. */
export function readSection<Name extends 'brief' | 'running' | 'rest'>(
  line: string,
  name: Name,
): Section<Name> | null {
  return sectionAt(line, name, line.indexOf(`${keyOf(name)}[`), keyOf(name))
}

/** An exercise of a line; null for one that is not as this program writes it, or is not there.
 * @param key of `exerciseKey` */
export function readLift(line: string, key: string): Section<'lift'> | null {
  return sectionAt(line, 'lift', line.indexOf(`${liftKeyOf(key)}[`), liftKeyOf(key))
}

function sectionAt<Name extends SectionName>(
  line: string,
  name: Name,
  at: number,
  key: string,
): Section<Name> | null {
  if (at < 0) return null
  const from = at + key.length
  const text = line.slice(from, endOf(line, from))
  if (forbidden.test(text)) return null
  try {
    return packings[name].unpack(JSON.parse(text))
  } catch {
    return null
  }
}

/** A section ends where the next key begins, or with the line. */
function endOf(line: string, from: number): number {
  let next = line.indexOf('":[', from)
  // A quote in a string.
  while (line[next - 1] === '\\') next = line.indexOf('":[', next + 1)
  return next < 0 ? line.length - 1 : line.lastIndexOf(',"', next)
}
