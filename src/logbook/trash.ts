import { lstatSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs'
import { basename, join } from 'node:path'
import { flushFolder, makeFolder, writeDurably } from './durableFile.ts'
import { localTimeOf, type Machine } from './machine.ts'

/* What sync deletes goes to trash/YYYY-MM-DD/ in the logbook and stays there for 90 days. It is brought back by moving
 * it to its old place. */

const days = 90
const dayName = /^\d{4}-\d{2}-\d{2}$/

/** Moves a file into the trash; nothing where there is none. */
export function moveToTrash(home: string, path: string, machine: Machine): void {
  if (lstatSync(path, { throwIfNoEntry: false }) === undefined) return
  const place = freePlace(home, basename(path), machine)
  renameSync(path, place)
  flushFolder(join(place, '..'))
}

/** Puts the text of a file that is gone already into the trash. */
export function writeToTrash(home: string, name: string, text: string, machine: Machine): void {
  writeDurably(freePlace(home, name, machine), text, false)
}

function freePlace(home: string, name: string, machine: Machine): string {
  const folder = join(home, 'trash', localTimeOf(machine.now()).slice(0, 10))
  makeFolder(folder)
  for (let number = 1; ; number += 1) {
    const path = join(folder, number === 1 ? name : `${name}.${number}`)
    if (lstatSync(path, { throwIfNoEntry: false }) === undefined) return path
  }
}

/** Removes what has been in the trash for 90 days. A folder of another name is somebody's own. */
export function sweepTrash(home: string, machine: Machine): void {
  const trash = join(home, 'trash')
  if (lstatSync(trash, { throwIfNoEntry: false })?.isDirectory() !== true) return
  const oldest = localTimeOf(new Date(machine.now().getTime() - days * 24 * 60 * 60 * 1000)).slice(0, 10)
  for (const name of readdirSync(trash)) {
    if (!dayName.test(name) || name >= oldest) continue
    for (const file of readdirSync(join(trash, name))) rmSync(join(trash, name, file), { force: true })
    rmdirSync(join(trash, name))
  }
}
