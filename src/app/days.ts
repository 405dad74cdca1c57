import { basename } from 'node:path'
import { writeDurably } from '../logbook/durableFile.ts'
import { attempt, LogbookError, messageOf } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { addPrescription, prescriptionName, readDayFile } from '../logbook/ownTexts.ts'
import { printPrescription } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import { printDate } from '../units/calendarDate.ts'
import type { Choice } from './choices.ts'
import { listOf, type Screens } from './screens.ts'

/* Writes and changes days from the first screen. */

/** Lists the models for a new day: none, a day of the first screen, or an earlier session.
 * @param choices of the first screen, @param entries the earlier sessions, newest first */
export function showModels(
  choices: readonly Choice[],
  entries: readonly IndexEntry[],
  screens: Screens,
  now: Date,
): void {
  const { logbook } = screens
  const { template, like } = screens.commands
  const date = todayOf(now)
  const defaults = screens.defaults()
  const days = choices.filter(({ kind }) => kind === 'day')
  const titles = new Set(days.map(({ title }) => title))
  const sessions = entries.filter(({ brief }) => !titles.has(brief.title) && titles.add(brief.title))
  const models = [
    { line: 'an empty day', text: () => template(date, defaults.units ?? { distance: 'km', mass: 'kg' }) },
    ...days.map(({ id, when, title }) => ({
      line: `${when.padEnd(12)}${title}`,
      text: () => like(readDayFile(id).toString('utf8'), date, defaults),
    })),
    ...sessions.map(({ id, date: done, brief }) => ({
      line: `${printDate(done, 'd MMM yyyy').padEnd(12)}${brief.title}`,
      text: () => like(printPrescription(logbook.read(id).session.prescription), date, defaults),
    })),
  ]
  screens.show(
    listOf({
      title: 'A new day like',
      rows: models.map(({ line }, index) => ({ id: `${index}`, lines: () => [line] })),
      picked: null,
      enter: { label: 'write it', does: 'opens a copy in the editor, dated today' },
      open: (index) => editDay({ path: null, text: models[index]?.text() ?? '' }, screens, date),
      leave: () => screens.back(null),
    }),
  )
}

/** Opens the text for the built-in editor, with its line endings and its byte-order mark.
 * @throws LogbookError for a file that cannot be read, or is not UTF-8 and so could not be written back unchanged */
function textIn(path: string): string {
  const bytes = readDayFile(path)
  const text = bytes.toString('utf8')
  if (Buffer.from(text, 'utf8').equals(bytes)) return text
  throw new LogbookError(
    'cannot_read',
    'The file is not UTF-8 text. Save it as UTF-8 in the editor that wrote it.',
  )
}

/** Opens a day in the user's editor, or in the built-in one, then returns to the first screen.
 * @param day `path` is null for a new day; the user's editor needs it stored first, the built-in one stores it when
 * the athlete saves
 * @returns resolves when the user's editor is closed
 * @throws LogbookError or the system's error if it cannot be read or stored */
export async function editDay(
  day: { path: string | null; text?: string },
  screens: Screens,
  today: string,
): Promise<void> {
  const { edit } = screens.commands
  const text = day.text ?? (edit ? '' : textIn(day.path ?? ''))
  const store = (written: string): string => {
    if (day.path === null) return addPrescription(screens.logbook.directory, nameOf(written), written)
    const path = day.path
    writeDurably(path, written, () => {
      if (textIn(path) === text) return
      throw new LogbookError(
        'cannot_write',
        'Another program has changed the file meanwhile. Esc leaves it as it is.',
      )
    })
    return path
  }
  const nameOf = (written: string): string => {
    const reading = readPrescription(written, screens.defaults())
    const known = 'prescription' in reading ? reading.prescription : null
    const title = known?.title ?? written.split('\n').find((line) => /^[^#\s]/.test(line)) ?? ''
    return prescriptionName(title, known?.date ?? today)
  }
  if (edit) {
    const path = day.path ?? store(text)
    return screens.terminal
      .lend(() => edit(path))
      .then(
        () => screens.back(path),
        (error: unknown) => screens.back(path, messageOf(error)),
      )
  }
  const problemOf = (written: string) => {
    const reading = readPrescription(written, screens.defaults())
    const [first] = 'problems' in reading ? reading.problems : []
    return first ? { line: first.line, message: first.message } : null
  }
  screens.show({
    kind: 'editor',
    title: day.path === null ? 'a new day' : basename(day.path),
    text,
    isNew: day.path === null,
    problemOf,
    save: (written) =>
      attempt(() => {
        const problem = problemOf(written)
        const notice = problem && `saved, but cannot be used yet: line ${problem.line}: ${problem.message}`
        screens.back(store(written), notice)
      }),
    leave: () => screens.back(day.path),
  })
}
