import type { Session } from '../session/model.ts'
import { isAmongChanges } from './changes.ts'
import type { SummaryContext } from './estimate.ts'
import { fullPhrases, massText } from './fullPhrases.ts'
import { distancePhrase, fuelPhrases, loadPhrase, rounded, whenPhrase } from './headPhrases.ts'
import { exercisesDone } from './lifted.ts'
import { estimatePhrases, restPhrases, setsText } from './liftPhrases.ts'
import { escaped } from './markdownText.ts'
import { partName } from './names.ts'
import { notePhrases } from './notes.ts'
import { type DoneWork, worksDone } from './performed.ts'
import { itemPhrases } from './runPhrases.ts'
import { besideText, splitText } from './splitText.ts'
import { type SummaryOptions, type SummaryView, viewOf } from './view.ts'

/** A session as GitHub-flavoured Markdown. Everything from outside is escaped: it cannot end a cell, begin a
 * heading or become a link. Ends with a line feed. */
export function summaryMarkdown(session: Session, context: SummaryContext, options: SummaryOptions): string {
  const view = viewOf(session, context, options)
  const { summary } = view
  const load = loadPhrase(summary)
  const blocks = [
    [`## ${escaped(summary.session.title)}`],
    [`${whenPhrase(summary)}${load === '' ? '' : `, ${load}`}`],
    partsTable(view),
    ...runBlocks('run', view),
    ...runBlocks('cross', view),
    liftTable(view),
    ...list('Changes', summary.changes),
    ...list('Fuel', fuelPhrases(view)),
    ...list('Notes', notePhrases(view.state)),
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
    ['part', 'min', 'effort', 'effort-minutes', 'min since the part before', 'with'],
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
  const works = worksDone(view.state, kind)
  const title = kind === 'run' ? 'Running' : 'Cross'
  const rows = works.flatMap((work, index) => {
    if (isAmongChanges(work, view.summary)) return []
    const item = figures.items[index]
    const said = item ? itemPhrases(item, work, view).map(escaped).join('<br>') : ''
    return [[escaped(work.work.text), splitsCell(work, view), said]]
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
  const lifted = view.summary.lifting.exercises
  const main = lifted.findIndex((each) => each.oneRepMax !== null)
  const rows = exercisesDone(view.state).flatMap((exercise, index) => {
    const each = lifted[index]
    if (!each) return []
    const estimate = index === main || view.full ? estimatePhrases(each, exercise, view) : []
    const tonnage = view.full && each.tonnageKg > 0 ? [`${massText(each.tonnageKg, view)} in all`] : []
    const said = [...estimate, ...tonnage, ...restPhrases(each, view)].map(escaped).join('<br>')
    return [[escaped(exercise.name), escaped(setsText(exercise, view)), said]]
  })
  return rows.length === 0 ? [] : ['### Lifting', '', ...table(['exercise', 'sets', 'figures'], rows)]
}

function list(title: string, lines: readonly string[]): string[][] {
  return lines.length === 0 ? [] : [[`### ${title}`], lines.map((line) => `- ${escaped(line)}`)]
}
