import { statSync } from 'node:fs'
import { basename, join, parse } from 'node:path'
import { type Plan, wordsOn } from '../plan/model.ts'
import { readPlan } from '../plan/read.ts'
import type { Diagnostic } from '../prescription/lines.ts'
import type { Prescription } from '../prescription/model.ts'
import { type Reading, readPrescription } from '../prescription/read.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { type Food, plainFoods, readFoods } from '../session/entry/fuel.ts'
import { mostTextBytes } from '../validate/unsafe.ts'
import { addDurably, isThere, makeFolder, writeKeepingPrevious } from './durableFile.ts'
import { ifKnown, LogbookError, orRefuse, unlessRefused, writingAdvice } from './errors.ts'
import { type OnDamage, pathsInFolder } from './logbookFiles.ts'
import { readFileBytes, readTextFile } from './text.ts'

/** The athlete's own texts in a logbook. They are written only when the athlete asks for it. */
export const ownTexts = ['plan.txt', 'foods.txt'] as const
export type OwnText = (typeof ownTexts)[number]

/** The path of one of the athlete's texts; the file need not exist. */
export function ownTextPath(logbook: string, name: OwnText): string {
  return join(logbook, name)
}

/** The names under which this program finds the athlete's texts. A listing may spell them differently: on a file
 * system that ignores case, plan.txt is there if the file is named Plan.txt. */
export function ownTextsIn(logbook: string): OwnText[] {
  return ownTexts.filter((name) => isThere(ownTextPath(logbook, name)))
}

/** One of the athlete's texts, with its line endings and byte-order mark; null if it does not exist.
 * @throws LogbookError `cannot_read` for a folder, or a file over 1 MiB, not in UTF-8 or without read permission */
export function readOwnText(logbook: string, name: OwnText): string | null {
  const path = ownTextPath(logbook, name)
  const text = readTextFile(path, mostTextBytes, true)
  if (text === null || typeof text === 'string') return text
  throw new LogbookError('cannot_read', `${name} ${text.wrong}. Correct or move ${path}.`)
}

/** The plan of a logbook; null if there is none or it has problems, which "pausebook plan" shows. */
export function planIn(logbook: string): Plan | null {
  const text = unlessRefused(
    () => readOwnText(logbook, 'plan.txt'),
    () => null,
  )
  const reading = text === null ? null : readPlan(text)
  return reading !== null && 'plan' in reading ? reading.plan : null
}

/** The athlete's foods, or the built-in ones without a `foods.txt`; none if it cannot be read.
 * @param onProblems called with the problems of the file; its other lines still count */
export function foodsIn(logbook: string, onProblems: (problems: Diagnostic[]) => void = () => {}): Food[] {
  const text = unlessRefused(
    () => readOwnText(logbook, 'foods.txt') ?? plainFoods,
    () => '',
  )
  const { foods, problems } = readFoods(text)
  if (problems.length > 0) onProblems(problems)
  return foods
}

/** Writes a text to a new file, which is on the disk when this returns.
 * @returns false if the file exists already; it is left as it is
 * @throws LogbookError `cannot_write` */
export function addOwnText(logbook: string, name: OwnText, text: string): boolean {
  const path = ownTextPath(logbook, name)
  return writing(path, () => {
    makeFolder(logbook)
    return addDurably(path, text)
  })
}

/** Changes a text that was read; the previous text is kept as `.bak`.
 * @param was the text as it was read; a file that has changed since is left as it is
 * @throws LogbookError `cannot_write` */
export function changeOwnText(logbook: string, name: OwnText, was: string, text: string): void {
  const path = ownTextPath(logbook, name)
  if (readOwnText(logbook, name) !== was) {
    throw new LogbookError('cannot_write', `${name} was changed meanwhile and is left as it is. Try again.`)
  }
  writing(path, () => writeKeepingPrevious(path, text))
}

function writing<T>(path: string, work: () => T): T {
  const message = (reason: string) =>
    `${path} cannot be written: ${reason}. Nothing was changed. ${writingAdvice}`
  return orRefuse('cannot_write', message, work)
}

const mostLetters = 60

/** A day's file name without its ending: `2026-11-26-track-and-legs`. It has letters and digits only, so that it
 * cannot lead to another folder and is valid on every system.
 * @param date YYYY-MM-DD */
export function prescriptionName(title: string, date: string): string {
  const words = title
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
  const short = [...words].slice(0, mostLetters).join('').replace(/^-|-$/g, '')
  return short === '' ? `${date}-day` : `${date}-${short}`
}

/** The bytes of a day's file, among the prescriptions or anywhere else.
 * @throws LogbookError `cannot_read` for no file, a folder, a pipe, a file over 1 MiB or without read permission */
export function readDayFile(path: string): Buffer {
  const bytes = readFileBytes(path, mostTextBytes)
  if (Buffer.isBuffer(bytes)) return bytes
  throw new LogbookError('cannot_read', `the file ${bytes?.wrong ?? 'is gone'}`)
}

/** Reads the day in a file; `refused` says why the file cannot be read. */
export function readDayAt(path: string, defaults: ReadingDefaults): Reading | { refused: string } {
  return unlessRefused(
    () => readPrescription(readDayFile(path), defaults),
    ({ message }) => ({ refused: message }),
  )
}

/** As `readDayAt`; else says in one line what is wrong, and how to see all of it. */
export function dayOrMessage(
  path: string,
  defaults: ReadingDefaults,
): { prescription: Prescription } | { message: string } {
  const reading = readDayAt(path, defaults)
  if ('refused' in reading) return { message: reading.refused }
  if ('prescription' in reading) return reading
  const [first, ...others] = reading.problems
  const more = others.length > 0 ? ` (and ${others.length} more; "pausebook check" shows all)` : ''
  return { message: first ? `line ${first.line}: ${first.message}${more}` : 'it is not a prescription' }
}

/** Writes a text into a new file among the prescriptions: `NAME.txt`, or `NAME-2.txt` and so on if that is
 * taken. It never overwrites anything. The file is on the disk when this returns.
 * @returns its path
 * @throws LogbookError `cannot_write` */
export function addPrescription(logbook: string, name: string, text: string): string {
  const folder = join(logbook, 'prescriptions')
  const message = (reason: string) =>
    `The day cannot be written into ${folder}: ${reason}. Give another logbook with --logbook.`
  return orRefuse('cannot_write', message, () => {
    makeFolder(folder)
    for (let number = 1; ; number += 1) {
      const path = join(folder, `${name}${number === 1 ? '' : `-${number}`}.txt`)
      if (addDurably(path, text)) return path
    }
  })
}

/** The prescriptions in a folder, by name: files, and no pipe, device or link without a target.
 * @param name of the folder within `home`, as for `pathsInFolder` */
export function prescriptionsIn(
  home: string,
  name: string,
  onDamage?: OnDamage,
): { name: string; path: string }[] {
  return pathsInFolder(home, name, onDamage)
    .map((path) => ({ name: basename(path), path: join(home, path) }))
    .filter(({ name, path }) => /^[^.].*\.(txt|json)$/.test(name) && ifKnown(() => statSync(path).isFile()))
    .sort((a, b) => a.name.localeCompare(b.name))
}

/** Whether a file is named after a word, ignoring case, the ending, and hyphens for spaces: then that word of the plan
 * means that day. */
export function isNamedAfter(file: string, word: string): boolean {
  const [name, other] = [parse(file).name, word].map((each) => each.toLowerCase().replace(/[\s_-]+/g, ' '))
  return name === other
}

/** Whether a word of the plan for a date names a day file. */
export function isNamedOn(plan: Plan | null, date: string, file: string): boolean {
  return plan !== null && wordsOn(plan, date).some((word) => isNamedAfter(file, word))
}
