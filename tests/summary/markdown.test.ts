import { marked, type Token, type Tokens } from 'marked'
import { describe, expect, it } from 'vitest'
import { Prescription } from '../../src/prescription/model.ts'
import { escaped, summaryMarkdown } from '../../src/summary/text.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept } from './kept.ts'
import { exampleDay, wholeDay } from './wholeDay.ts'

/* Parsed by marked, a general-purpose parser of GitHub-flavoured Markdown. */

const tokensOf = (markdown: string): Token[] => marked.lexer(markdown, { gfm: true })
const tables = (markdown: string) =>
  tokensOf(markdown).filter((token): token is Tokens.Table => token.type === 'table')

/** The characters that a reader sees. */
function shown(tokens: readonly Token[] | undefined): string {
  return (tokens ?? []).map(shownOne).join('')
}

function shownOne(token: Token): string {
  if ('tokens' in token && token.tokens) return shown(token.tokens)
  if (token.type === 'html') return token.raw === '<br>' ? '\n' : token.raw
  if (token.type === 'escape') return token.raw.slice(1)
  const text = 'text' in token ? String(token.text) : ''
  return text.replace(/&(quot|#39|lt|gt|amp);/g, (_, name: string) => entities[name] ?? '')
}
const entities: Record<string, string> = { quot: '"', '#39': "'", lt: '<', gt: '>', amp: '&' }

describe('a session as Markdown', () => {
  const written = (full = false) => summaryMarkdown(wholeDay().session, context, { full })
  const listsIn = (markdown: string) =>
    tokensOf(markdown).filter((token): token is Tokens.List => token.type === 'list')
  const items = (list: Tokens.List | undefined) => list?.items.map((item) => shown(item.tokens))
  const rows = (table: Tokens.Table | undefined) =>
    table?.rows.map((row) => row.map((cell) => shown(cell.tokens)))

  it('has a table of the work of each part', () => {
    const [running, lifting] = tables(written())
    expect(rows(running)?.[2]).toEqual([
      '6 x 500 m @ 3:35-3:45/km',
      'mean 1:49.2, 3 of 6 in range\n1:49.2  1:47.4 fast  1:50.0  1:48.8  1:53.1 slow  1:46.5 fast    hr 171',
      'second half 0.6 % slower',
    ])
    expect(rows(lifting)?.[0]?.slice(0, 2)).toEqual(['front squat', '5 x (1+1+1) x 92.5 kg @- - - 7.5 8'])
  })

  it('has a heading for the day, its parts, fuel and notes, with what was not as planned and pain in the first list', () => {
    const markdown = written()
    const lists = listsIn(markdown)
    const headings = tokensOf(markdown).filter((token) => token.type === 'heading')
    expect(headings.map(shownOne)).toEqual([
      'Thursday: five hundreds, then front squat',
      'Run: track, 13.6 km, 62 min, effort 8',
      'Lift: legs, 48 min, effort 7',
      'Fuel',
      'Notes',
    ])
    expect(items(lists[0])?.slice(2)).toEqual([
      'pull-up, set 3 of 4, pain: left elbow',
      '110 min, session load 832 (run 496, lift 336) · slept 5 h · flats, windy',
    ])
    expect(items(lists[0])?.[1]).toMatch(
      /^Done as planned but: leg swings: skipped; plank: skipped; pull-up: 3 of 4 sets;/,
    )
    expect(items(lists[2])).toEqual(['6 x 500 m, repeat 1 of 6: windy back straight'])
  })

  it('says in full what was lifted in all of each exercise with a load', () => {
    const [, lifting] = tables(written(true))
    const said = (rows(lifting) ?? []).map(([name, , figures]) => [
      name,
      /[\d.]+ kg in all/.exec(figures ?? '')?.[0],
    ])
    // front squat 15 x 92.5; dip 16 x 10 and 16 x 5
    expect(said).toEqual([
      ['front squat', '1387.5 kg in all'],
      ['pull-up', undefined],
      ['dip', '240 kg in all'],
    ])
    expect(written()).not.toContain('in all')
    // Only a list mark needs a backslash.
    expect(written(true)).toContain('1387.5 kg')
  })

  it('has one empty line between two blocks, and none for what is not there', () => {
    for (const markdown of [
      written(),
      written(true),
      summaryMarkdown(new Kept(exampleDay).session, context, { full: true }),
    ])
      expect(markdown).not.toMatch(/\n\n\n|^\n|\n\n$/)
  })

  it.each([
    'a | b',
    '# no heading',
    '- no list',
    '+ 10 kg',
    '12. no list either',
    '*no* _mark_ ~up~ `here`',
    '[no](https://link.example)',
    'https://link.example',
    'www.link.example',
    'no@link.example',
    '<b>no</b>',
    '&lt; is no entity',
    '> no quote',
    'a\\|b',
    '$x$',
    '1) no',
    '=====',
    '---',
  ])('shows %j unchanged, in a cell and in a list', (text) => {
    const typed = JSON.stringify(exampleDay).replaceAll('"2 km easy"', JSON.stringify(text))
    const day = new Kept(Prescription.parse(JSON.parse(typed))).type('=', '-', '=')
    day.add({ type: 'noteAdded', at: null, up: null, about: null, text, pain: false }).close(1, 8, 62)
    const written = summaryMarkdown(day.session, context, { full: false })
    const [table] = tables(written)
    expect(shown(table?.rows[0]?.[0]?.tokens)).toBe(text)
    const list = tokensOf(written).findLast((token): token is Tokens.List => token.type === 'list')
    expect(shown(list?.items[0]?.tokens)).toBe(text)
    expect(JSON.stringify(tokensOf(`${escaped(text)}\n`))).not.toContain('"type":"link"')
  })
})
