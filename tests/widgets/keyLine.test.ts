import { describe, expect, it } from 'vitest'
import { keyHintsThatFit } from '../../src/ui/widgets/KeyLine.tsx'

const hints = [
  { key: 'Space', label: 'done' },
  { key: 'Enter', label: 'record' },
  { key: 'u', label: 'undo' },
  { key: '?', label: 'keys' },
]
const shown = (columns: number) =>
  keyHintsThatFit(hints, columns)
    .map(({ key, label }) => `${key} ${label}`.trimEnd())
    .join('   ')

describe('the line of keys', () => {
  it('shows all keys if there is room', () => {
    expect(shown(80)).toBe('Space done   Enter record   u undo   ? keys')
  })

  it('drops keys from the end, but never the last', () => {
    expect(shown(36)).toBe('Space done   Enter record   ?')
    expect(shown(20)).toBe('Space done   ?')
    expect(shown(10)).toBe('?')
  })

  it('keeps the key that leads to the others', () => {
    const more = [...hints, { key: 'q', label: 'quit' }]
    const line = (columns: number) =>
      keyHintsThatFit(more, columns)
        .map(({ key }) => key)
        .join(' ')
    expect(line(60)).toBe('Space Enter u ? q')
    expect(line(46)).toBe('Space Enter ? q')
    expect(line(25)).toBe('Space ? q')
  })

  it('leaves out the label of that key below 60 columns', () => {
    expect(shown(60)).toBe('Space done   Enter record   u undo   ? keys')
    expect(shown(59)).toBe('Space done   Enter record   u undo   ?')
  })

  it('keeps the vital keys before the last one', () => {
    const vital = hints.map((hint) => (hint.key === '?' ? hint : { ...hint, isVital: true }))
    const line = (columns: number) =>
      keyHintsThatFit([...vital, { key: 'q', label: 'quit' }], columns)
        .map(({ key }) => key)
        .join(' ')
    expect(line(46)).toBe('Space Enter u ?')
    expect(line(38)).toBe('Space Enter u ?')
    expect(line(34)).toBe('Space Enter u')
    expect(line(33)).toBe('Space Enter')
    expect(line(60)).toBe('Space Enter u ? q')
  })

  it('fits exactly', () => {
    for (let columns = 6; columns < 60; columns++) expect(shown(columns).length).toBeLessThanOrEqual(columns)
    expect(shown(38)).toHaveLength(38)
  })

  it('is empty without keys', () => {
    expect(keyHintsThatFit([], 80)).toEqual([])
  })
})
