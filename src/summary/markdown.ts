import type { Session } from '../session/model.ts'
import { isAmongChanges } from './changes.ts'
import type { SummaryContext } from './estimate.ts'
import { notePhrases } from './notes.ts'
import { type DoneWork, partName } from './performed.ts'
import {
  besideText,
  distancePhrase,
  donePhrase,
  estimatePhrases,
  fuelPhrases,
  fullPhrases,
  itemPhrases,
  loadPhrase,
  massText,
  restPhrases,
  rounded,
  setsText,
  splitText,
  whenPhrase,
} from './phrases.ts'
import { plainOf } from './plain.ts'
import { racePhrases } from './race.ts'
import { type SummaryOptions, type SummaryView, viewOf } from './summarise.ts'

/** Writes a session as GitHub-flavoured Markdown. Escapes all outside text: it cannot end a cell, begin a
 * heading or become a link. Ends with a line feed. */
export function summaryMarkdown(session: Session, context: SummaryContext, options: SummaryOptions): string {
  const view = viewOf(session, context, options)
  const { summary } = view
  const load = loadPhrase(summary)
  const blocks = [
    [`## ${escaped(summary.session.title)}`],
    [`${whenPhrase(summary)}${load === '' ? '' : `, ${load}`}`],
    [escaped(donePhrase(view))].filter((line) => line !== ''),
    ...list('Pain', notePhrases(view.state, 'pain')),
    partsTable(view),
    ...runBlocks('run', view),
    ...runBlocks('cross', view),
    liftTable(view),
    ...list('Fuel', fuelPhrases(view)),
    ...list('Notes', notePhrases(view.state, 'words')),
    ...(view.full ? list('Besides', fullPhrases(view)) : []),
  ]
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  if (rows.length === 0) return []
  const row = (cells: readonly string[]) => `| ${cells.join(' | ')} |`
  return [row(head), row(head.map(() => '---')), ...rows.map(row)]
}

function partsTable({ summary }: SummaryView): string[] {
  const told = summary.parts.filter((part) => part.kind !== 'fuel' && (part.minutes ?? part.effort) !== null)
  const number = (value: number | null) => (value === null ? '' : rounded(value))
  return table(
    ['part', 'min', 'effort', 'session load', 'min since the part before', 'with'],
    told.map((part) => [
      escaped(partName(part)),
      number(part.minutes),
      number(part.effort),
      number(part.effortMinutes),
      number(part.gapMinutes),
      part.with === null ? '' : escaped(part.with),
    ]),
  )
}

function runBlocks(kind: 'run' | 'cross', view: SummaryView): string[][] {
  const figures = kind === 'run' ? view.summary.running : view.summary.cross
  if (figures.items.length === 0) return []
  const distance = distancePhrase(kind, view)
  const title = kind === 'run' ? 'Running' : 'Cross'
  const rows = view.works[kind].flatMap(({ done, item }) => {
    if (isAmongChanges(done, view.summary)) return []
    const said = [...racePhrases(item, done, view), ...itemPhrases(item, done, view)]
      .map(escaped)
      .join('<br>')
    return [[escaped(done.work.text), splitsCell(done, view), said]]
  })
  if (rows.length === 0) return []
  return [[`### ${title}${distance === '' ? '' : `: ${distance}`}`], table(['work', 'done', 'figures'], rows)]
}

function splitsCell(work: DoneWork, view: SummaryView): string {
  if (work.splits.length === 0) return 'nothing recorded'
  return work.splits
    .map((split) => {
      const beside = besideText(split)
      return escaped(`${splitText(split, view.distance)}${beside === '' ? '' : ` (${beside})`}`)
    })
    .join(', ')
}

function liftTable(view: SummaryView): string[] {
  const main = view.exercises.find(({ figures }) => figures.oneRepMax !== null)
  const rows = view.exercises.map((each) => {
    const { exercise, figures } = each
    const estimate = each === main || view.full ? estimatePhrases(figures, exercise, view) : []
    const tonnage = view.full && figures.tonnageKg > 0 ? [`${massText(figures.tonnageKg, view)} in all`] : []
    const said = [...estimate, ...tonnage, ...restPhrases(figures, view)].map(escaped).join('<br>')
    return [escaped(exercise.name), escaped(setsText(exercise, view)), said]
  })
  return rows.length === 0 ? [] : ['### Lifting', '', ...table(['exercise', 'sets', 'figures'], rows)]
}

function list(title: string, lines: readonly string[]): string[][] {
  return lines.length === 0 ? [] : [[`### ${title}`], lines.map((line) => `- ${escaped(line)}`)]
}

/** Escapes text so that GitHub-flavoured Markdown shows it unchanged, in a block or in a cell: it becomes no
 * heading, list, link, mention of an address, mark-up or end of a cell. */
export function escaped(text: string): string {
  return plainOf(text)
    .trim()
    .replace(/[\\`*_{}[\]<>#|~$]/g, '\\$&')
    .replace(/&(?=[#\w])/g, '\\&')
    .replace(/:(?=\/\/)/g, '\\:')
    .replace(/(?<=\w)@(?=\w)/g, '\\@')
    .replace(/\bwww(?=\.)/gi, '$&\\')
    .replace(/^[-+=]/, '\\$&')
    .replace(/^(\d+)(?=[.)])/, '$1\\')
}
