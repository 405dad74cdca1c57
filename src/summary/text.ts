import type { Session } from '../session/model.ts'
import { joined, upperFirst } from '../units/lists.ts'
import { blocksOf } from './blocks.ts'
import type { SummaryContext } from './model.ts'
import { plainOf, wrapped } from './plain.ts'
import { type Row, type SummaryOptions, type SummaryView, summaryViewOf } from './view.ts'

const indent = 2

/** Writes a session as a note: plain text in lines of at most 44 characters (72 in full) that fits any notes app.
 * Deviations and pain come before the figures. Ends with a line feed. */
export function summaryText(session: Session, context: SummaryContext, options: SummaryOptions): string {
  const view = summaryViewOf(session, context, options)
  const lines = blocksOf(view).flatMap(({ title, phrases, rows }, index) => [
    ...(index === 0 ? [] : ['']),
    ...wrapped(plainOf(title), view.columns),
    ...phrases.flatMap((phrase) => wrapped(plainOf(phrase), view.columns, index === 0 ? 0 : indent)),
    ...rows.flatMap((row) => rowLines(row, view)),
  ])
  return `${lines.join('\n')}\n`
}

/** `2 km easy: 8:02, 4:01/km`, then its splits in a line or as bars, then its figures. */
function rowLines({ name, lead, splits, bars, figures }: Row, { columns }: SummaryView): string[] {
  return [
    ...wrapped(plainOf(joined(': ', [name, lead])), columns),
    ...(bars.length > 0 ? bars : wrapped(splits, columns, indent)),
    ...figures.flatMap((phrase) => wrapped(plainOf(phrase), columns, indent)),
  ]
}

/** Writes a session as GitHub-flavoured Markdown. Escapes all outside text: it cannot end a cell, begin a
 * heading or become a link. Ends with a line feed. */
export function summaryMarkdown(session: Session, context: SummaryContext, options: SummaryOptions): string {
  const paragraphs = blocksOf(summaryViewOf(session, context, options)).flatMap(
    ({ title, phrases, rows }, index) => [
      index === 0 ? `## ${escaped(title)}` : `### ${upperFirst(escaped(title))}`,
      ...(phrases.length > 0 ? [phrases.map((phrase) => `- ${escaped(phrase)}`).join('\n')] : []),
      ...(rows.length > 0 ? [tableOf(rows)] : []),
    ],
  )
  return `${paragraphs.join('\n\n')}\n`
}

function tableOf(rows: readonly Row[]): string {
  const cells = rows.map(({ name, lead, splits, figures }) => [
    escaped(name),
    lines([lead, splits]),
    lines(figures),
  ])
  return [['work', 'done', 'figures'], ['---', '---', '---'], ...cells]
    .map((row) => `| ${row.join(' | ')} |`)
    .join('\n')
}

function lines(texts: readonly string[]): string {
  return joined('<br>', texts.map(escaped))
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
    .replace(/^(\d+)(?=[.)](\s|$))/, '$1\\')
}
