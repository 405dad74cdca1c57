import { createRequire } from 'node:module'
import { pathToFileURL } from 'node:url'
import { describe, expect, it } from 'vitest'

/* What the bundle changes in a package must not be seen. */

const { oneColumn } = createRequire(import.meta.url)('../../src/setup/bundle.cjs')

describe('the characters that the bundle takes for one column wide', () => {
  it('are one column wide to string-width, each and in a row', async () => {
    const url = pathToFileURL('node_modules/string-width/index.js').href
    const { default: stringWidth } = (await import(url)) as { default: (text: string) => number }
    const one = new RegExp(`^[${oneColumn}]$`)
    const all = Array.from({ length: 0x10000 }, (_, code) => String.fromCharCode(code)).filter((each) =>
      one.test(each),
    )
    expect(all.length).toBeGreaterThan(350)
    expect(all.filter((each) => stringWidth(each) !== 1)).toEqual([])
    for (let from = 0; from < all.length; from += 7) {
      const row = all.slice(from, from + 40).join('')
      expect(stringWidth(row)).toBe(row.length)
    }
  })
})
