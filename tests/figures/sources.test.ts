import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { sourceLine, sources } from '../../src/figures/figure.ts'

const folder = join(import.meta.dirname, '../../src/figures')
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
  (file) => file.endsWith('.ts') && !['figure.ts', 'catalogue.ts'].includes(file),
)

/** Every function and table that a file exports, with the comment right before it. */
function exportsOf(file: string): { name: string; docstring: string }[] {
  const text = readFileSync(join(folder, file), 'utf8')
  const pattern = /(\/\*\*(?:(?!\*\/)[\s\S])*\*\/)?\n*export (?:function|const) (\w+)/g
  return [...text.matchAll(pattern)].map(([, docstring = '', name = '']) => ({ name, docstring }))
}

const given = files.flatMap((file) => exportsOf(file).map((each) => ({ file, ...each })))
/** Lists of names and limits, and the parts of an explanation: they compute nothing. */
const plain = [
  'equationNames',
  'formulaNames',
  'mostRepetitions',
  'mostRepetitionsInANote',
  'lowestEffort',
  'lanes',
  'effortAtTheLimit',
  'lightPercent',
]
const explanation = /(Figures|Lines?|Sources|Entries)$/
const figures = given.filter(({ name }) => !plain.includes(name) && !explanation.test(name))

describe('the docstrings of the figures', () => {
  test('exist', () => {
    expect(figures.length).toBeGreaterThan(50)
  })
  test.each(figures)('name their sources, which are on the list: $name ($file)', ({ docstring }) => {
    const line = /Source: ([\s\S]+?)\.\s*\*\//.exec(docstring)?.[1]
    expect(line).toBeDefined()
    const names = (line ?? '').replace(/\s*\n\s*\*\s*/g, ' ').split('; ')
    expect(names.filter((name) => !(name in sources))).toEqual([])
  })
  test('say if a figure refuses numbers', () => {
    const refusing = figures.filter(({ file, name }) => {
      const text = readFileSync(join(folder, file), 'utf8')
      const body = text.slice(text.indexOf(`export function ${name}(`)).split('\n}\n')[0] ?? ''
      return text.includes(`export function ${name}(`) && body.includes('throw new RangeError')
    })
    expect(refusing.length).toBeGreaterThan(0)
    expect(
      refusing.filter(({ docstring }) => !docstring.includes('@throws RangeError')).map(({ name }) => name),
    ).toEqual([])
  })
})

describe('the list of sources', () => {
  test('says which entries are not publications', () => {
    expect(sourceLine('Common practice')).toBe('common practice, no source')
    expect(sourceLine("This program's own rule")).toBe("this program's own rule, no source")
    expect(sourceLine('Helms 2018')).toMatch(/\[from memory\]$/)
    expect(sourceLine('Yard and pound 1959')).toMatch(/\[by definition\]$/)
    expect(sourceLine('Epley 1985')).toMatch(/p\. 86$/)
  })
  test('gives each publication a year in its name and in its line', () => {
    for (const [name, source] of Object.entries(sources)) {
      const year = /\d{4}/.exec(name)?.[0]
      if (year !== undefined) expect(source).toContain(year)
    }
  })
})
