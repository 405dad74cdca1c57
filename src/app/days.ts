import { basename } from 'node:path'
import { writeDurably } from '../logbook/durableFile.ts'
import { attempt, LogbookError, messageOf } from '../logbook/errors.ts'
import { addPrescription, prescriptionName, readDayFile } from '../logbook/ownTexts.ts'
import { textOf } from '../logbook/text.ts'
import { printPrescription } from '../prescription/print.ts'
import { readHead, readPrescription } from '../prescription/read.ts'
import { printDate } from '../units/calendarDate.ts'
import type { Choice } from './choices.ts'
import type { Known } from './known.ts'
import { likeText, templateOf } from './newDay.ts'
import { listOf, type Screens } from './screens.ts'

/* Writes and changes days from the first screen. */

/** Lists the models for a new day: none, a day of the first screen, or an earlier session.
 * @param choices of the first screen */
export function showModels(choices: readonly Choice[], known: Known, screens: Screens): void {
  const { logbook, entries, settings, defaults, today: date } = known
  const days = choices.filter(({ kind }) => kind === 'day')
  const titles = new Set(days.map(({ title }) => title))
  const sessions = entries.filter(({ brief }) => !titles.has(brief.title) && titles.add(brief.title))
  const models = [
    { line: 'an empty day', text: () => templateOf(null, date, settings.units) },
    ...days.map(({ id, when, title }) => ({
      line: `${when.padEnd(12)}${title}`,
      text: () => likeText(readDayFile(id).toString('utf8'), null, date, defaults),
    })),
    ...sessions.map(({ id, date: done, brief }) => ({
      line: `${printDate(done, 'd MMM yyyy').padEnd(12)}${brief.title}`,
      text: () => likeText(printPrescription(logbook.read(id).session.prescription), null, date, defaults),
    })),
  ]
  screens.show(
    listOf({
      title: 'A new day like',
      rows: models.map(({ line }, index) => ({ id: `${index}`, lines: () => [line] })),
      picked: null,
      enter: { label: 'write it', does: 'opens a copy in the editor, dated today' },
      open: (index) => editDay({ text: models[index]?.text() ?? '' }, screens),
      leave: () => screens.back(null),
    }),
  )
}

/** Opens the text for the built-in editor, with its line endings and its byte-order mark.
 * @throws LogbookError for a file that cannot be read, or is not UTF-8 and so could not be written back unchanged */
function textIn(path: string): string {
  const text = textOf(readDayFile(path), true)
  if (typeof text === 'string') return text
  throw new LogbookError(
    'cannot_read',
    'The file is not UTF-8 text. Save it as UTF-8 in the editor that wrote it.',
  )
}

/** A stored day, or the text of a new one. */
type EditedDay = { path: string } | { text: string }

/** Opens a day in the user's editor, for which a new one is stored first, or in the built-in one; then returns to the
 * first screen.
 * @returns resolves when the user's editor is closed
 * @throws LogbookError or the system's error if it cannot be read or stored */
export async function editDay(day: EditedDay, screens: Screens): Promise<void> {
  const { edit } = screens
  if (edit === null) return editHere(day, screens)
  const path = 'path' in day ? day.path : storeNew(day.text, screens)
  return screens.terminal
    .lend(() => edit(path))
    .then(
      () => screens.back(path),
      (error: unknown) => screens.back(path, messageOf(error)),
    )
}

function editHere(day: EditedDay, screens: Screens): void {
  const path = 'path' in day ? day.path : null
  const text = 'path' in day ? textIn(day.path) : day.text
  const { defaults } = screens.known()
  const problemOf = (written: string) => {
    const reading = readPrescription(written, defaults)
    const [first] = 'problems' in reading ? reading.problems : []
    return first ? { line: first.line, message: first.message } : null
  }
  screens.show({
    kind: 'editor',
    title: path === null ? 'a new day' : basename(path),
    text,
    isNew: path === null,
    problemOf,
    save: (written) =>
      attempt(() => {
        const problem = problemOf(written)
        const notice = problem && `saved, but cannot be used yet: line ${problem.line}: ${problem.message}`
        if (path !== null) storeChanged(path, text, written)
        screens.back(path ?? storeNew(written, screens), notice)
      }),
    leave: () => screens.back(path),
  })
}

/** Stores a new day under its title and its date, else today's; returns its path. */
function storeNew(text: string, screens: Screens): string {
  const { logbook, defaults, today } = screens.known()
  const { title, date } = readHead(text, defaults)
  return addPrescription(logbook.directory, prescriptionName(title, date ?? today), text)
}

/** @throws LogbookError if another program has changed the file since it held `before` */
function storeChanged(path: string, before: string, text: string): void {
  writeDurably(path, text, () => {
    if (textIn(path) === before) return
    throw new LogbookError(
      'cannot_write',
      'Another program has changed the file meanwhile. Esc leaves it as it is.',
    )
  })
}
