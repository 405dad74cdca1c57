import { marked, type Token, type Tokens } from 'marked'
import { describe, expect, it } from 'vitest'
import { escaped, summaryMarkdown } from '../../src/summary/markdown.ts'
import { exampleDay } from './exampleDay.ts'
import { Kept } from './kept.ts'
import { wholeDay } from './wholeDay.ts'

/* Parsed by marked, a general-purpose parser of GitHub-flavoured Markdown. */

const context = { equation: 'median' } as const
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
  const markdown = summaryMarkdown(wholeDay().session, context, { full: false })
  const [parts, running, lifting] = tables(markdown)
  const rows = (table: Tokens.Table | undefined) =>
    table?.rows.map((row) => row.map((cell) => shown(cell.tokens)))

  it('has a table of parts, of runs and of lifts', () => {
    expect(rows(parts)).toEqual([
      ['run: track', '62', '8', '496', '', 'flats, track, windy'],
      ['lift: legs', '48', '7', '336', '', ''],
    ])
    expect(rows(running)?.[2]).toEqual([
      '6 x 500 m @ 3:35-3:45/km, jog 200 m',
      '1:49.2 (hr 171), 1:47.4 (fast), 1:50.0, 1:48.8, 1:53.1 (slow), 1:46.5 (fast)',
      [
        'mean 1:49.2, 3:38/km, range 6.6 s, 3 of 6 in 1:47.5-1:52.5',
        'first and second half of the repeats 3:37.7, 3:38.9/km: 0.6 % slower',
      ].join('\n'),
    ])
    expect(rows(lifting)?.[0]?.slice(0, 2)).toEqual(['front squat', '5 x (1+1+1) x 92.5 kg @- - - 7.5 8'])
  })

  it('has the title as its heading and lists of pain, fuel and notes', () => {
    const headings = tokensOf(markdown).filter((token) => token.type === 'heading')
    expect(headings.map(shownOne)).toEqual([
      'Thursday: five hundreds, then front squat',
      'Pain',
      'Running: 13.6 km, 12 km of it without the jogs',
      'Lifting',
      'Fuel',
      'Notes',
    ])
    const lists = tokensOf(markdown).filter((token): token is Tokens.List => token.type === 'list')
    expect(lists[2]?.items.map((item) => shown(item.tokens))).toEqual([
      'slept 5 h',
      '6 x 500 m, repeat 1: windy back straight',
    ])
    expect(lists[0]?.items.map((item) => shown(item.tokens))).toEqual(['pull-up, set 3, pain: left elbow'])
    expect(markdown).toContain(
      'Done as planned but: leg swings: skipped; plank: skipped; pull-up: 3 of 4 sets;',
    )
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
    const day = new Kept(exampleDay).add({ type: 'conditionsNoted', at: null, up: null, part: 1, text })
    day.add({ type: 'noteAdded', at: null, up: null, about: null, text, pain: false }).close(1, 8, 62)
    const written = summaryMarkdown(day.session, context, { full: false })
    const [table] = tables(written)
    expect(shown(table?.rows[0]?.[5]?.tokens)).toBe(text)
    const list = tokensOf(written).findLast((token): token is Tokens.List => token.type === 'list')
    expect(shown(list?.items[0]?.tokens)).toBe(text)
    expect(JSON.stringify(tokensOf(`${escaped(text)}\n`))).not.toContain('"type":"link"')
  })
})
