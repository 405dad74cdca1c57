import type { Session } from '../session/model.ts'
import { type Block, blocksOf, type Row } from './blocks.ts'
import type { SummaryContext } from './estimate.ts'
import { plainOf } from './plain.ts'
import { type SummaryOptions, viewOf } from './summarise.ts'

/** Writes a session as GitHub-flavoured Markdown. Escapes all outside text: it cannot end a cell, begin a
 * heading or become a link. Ends with a line feed. */
export function summaryMarkdown(session: Session, context: SummaryContext, options: SummaryOptions): string {
  const paragraphs = blocksOf(viewOf(session, context, options)).flatMap(written)
  return `${paragraphs.join('\n\n')}\n`
}

/** A heading, then lists and tables in the order of what the block says. */
function written({ kind, title, says }: Block): string[] {
  const paragraphs = [kind === 'head' ? `## ${escaped(title)}` : `### ${upperFirst(escaped(title))}`]
  for (let from = 0; from < says.length; ) {
    const isRow = typeof says[from] !== 'string'
    const end = says.findIndex((each, at) => at > from && (typeof each !== 'string') !== isRow)
    const alike = says.slice(from, end < 0 ? says.length : end)
    paragraphs.push(
      isRow
        ? tableOf(alike.filter((each) => typeof each !== 'string'))
        : alike.map((line) => `- ${escaped(String(line))}`).join('\n'),
    )
    from += alike.length
  }
  return paragraphs
}

function upperFirst(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`
}

function tableOf(rows: readonly Row[]): string {
  const cells = rows.map(({ name, lead, inARow, splits, figures }) => {
    const each = splits.map(({ text, beside }) => (beside === '' ? text : `${text} (${beside})`)).join(', ')
    return [escaped(name), lines([lead, inARow, each]), lines(figures)]
  })
  return [['work', 'done', 'figures'], ['---', '---', '---'], ...cells]
    .map((row) => `| ${row.join(' | ')} |`)
    .join('\n')
}

/** The lines of a cell. */
function lines(texts: readonly string[]): string {
  return texts
    .filter((text) => text !== '')
    .map(escaped)
    .join('<br>')
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
