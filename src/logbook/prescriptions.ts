import { closeSync, fsyncSync, openSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { flushFolder, makeFolder } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'

const mostLetters = 60

/** The folder of the prescriptions that lie ready. */
export function prescriptionsFolderOf(logbook: string): string {
  return join(logbook, 'prescriptions')
}

/** A file name of a day without its ending: `2026-11-26-track-and-legs`. Letters and digits only, so that it
 * leads to no other folder and is a name on every system.
 * @param date YYYY-MM-DD */
export function prescriptionName(title: string, date: string): string {
  const words = title
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
  const short = [...words].slice(0, mostLetters).join('').replace(/^-|-$/g, '')
  return short === '' ? `${date}-day` : `${date}-${short}`
}

/** Puts a text into a new file among the prescriptions: `NAME.txt`, or `NAME-2.txt` and so on where that is
 * taken; nothing is ever written over. On the disk when it returns.
 * @returns its path
 * @throws LogbookError `cannot_write` */
export function addPrescription(logbook: string, name: string, text: string): string {
  const folder = prescriptionsFolderOf(logbook)
  try {
    makeFolder(folder)
    for (let number = 1; ; number += 1) {
      const path = join(folder, `${name}${number === 1 ? '' : `-${number}`}.txt`)
      if (isWritten(path, text)) {
        flushFolder(folder)
        return path
      }
    }
  } catch (error) {
    const message = `The day cannot be written into ${folder}: ${reasonOf(error)}. Give another logbook with --logbook.`
    throw new LogbookError('cannot_write', message)
  }
}

/** False where the name is taken. */
function isWritten(path: string, text: string): boolean {
  let descriptor: number
  try {
    descriptor = openSync(path, 'wx', 0o600)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw error
  }
  try {
    writeFileSync(descriptor, text)
    fsyncSync(descriptor)
  } catch (error) {
    rmSync(path, { force: true })
    throw error
  } finally {
    closeSync(descriptor)
  }
  return true
}

/** Whether it can be read without waiting: a pipe or a device in a file's place cannot, a link that leads nowhere neither. */
function isPlainFile(path: string): boolean {
  try {
    return statSync(path).isFile()
  } catch {
    return false
  }
}

/** The prescriptions in a folder, by name. */
export function prescriptionsIn(folder: string): { name: string; path: string }[] {
  try {
    return readdirSync(folder)
      .filter((name) => /^[^.].*\.(txt|json)$/.test(name))
      .map((name) => ({ name, path: join(folder, name) }))
      .filter(({ path }) => isPlainFile(path))
      .sort((a, b) => a.name.localeCompare(b.name))
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return []
    throw error
  }
}
