import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { beforeAll, describe, expect, it } from 'vitest'
import { builtProgram } from '../terminal/harness.ts'

/* README's pictures are drawn from the program's screen, again in each long run. */

const { pictures } = createRequire(import.meta.url)('../../src/setup/pictures.cjs')

let drawn: Record<string, string> = {}
beforeAll(async () => {
  await builtProgram()
  drawn = await pictures()
})

/** Its lines of text, in order. */
function wordsIn(svg: string): string[] {
  return [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text = '']) => text)
}

describe('the pictures', () => {
  it.each(['recorder.svg', 'summary.svg', 'run-through.svg', 'three-metres.svg'])(
    '%s shows the program as it is (else: npm run docs)',
    (name) => {
      const kept = readFileSync(`shared/pictures/${name}`, 'utf8')
      expect(wordsIn(kept)).toEqual(wordsIn(drawn[name] ?? ''))
      expect(kept).toBe(drawn[name])
    },
  )

  it('show a cluster set and two repeats, one frame after the other, for ever', () => {
    const moving = drawn['run-through.svg'] ?? ''
    const words = wordsIn(moving).join('\n')
    for (const said of [
      'group 1 of 3',
      'group 3 of 3',
      'recorded 1+1+1',
      'repeat 1 of 3',
      'repeat 2 of 3',
      'jog',
    ])
      expect(words).toContain(said)
    const [first = '', ...others] = [
      ...moving.matchAll(/<animate [^>]*dur="([^"]*)" repeatCount="indefinite"/g),
    ].map(([, duration]) => duration ?? '')
    expect(others.length).toBeGreaterThan(50)
    expect(new Set([first, ...others]).size).toBe(1)
  })

  it('show a rest with its clock, and a summary with its bars', () => {
    expect(wordsIn(drawn['recorder.svg'] ?? '')).toContain('rest')
    // A rest is drawn in outlines, with a bar that empties.
    const recorder = wordsIn(drawn['recorder.svg'] ?? '')
    expect(recorder.filter((text) => /[┌└]─+[┐┘]/.test(text)).length).toBeGreaterThan(4)
    expect(recorder.some((text) => text.includes('━━━'))).toBe(true)
    expect(wordsIn(drawn['summary.svg'] ?? '').some((text) => text.includes('========['))).toBe(true)
  })
})
