import { createRequire } from 'node:module'
import { pathToFileURL } from 'node:url'
import { build, type Plugin } from 'esbuild'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

/* What the bundle changes in a package must not be seen. */

const { changedPackages, oneColumn } = createRequire(import.meta.url)('../../src/setup/bundle.cjs')

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

describe('text that Ink has taken apart', () => {
  const entry = `
    export { styledCharsFromTokens, styledCharsToString, tokenize } from '@alcalzone/ansi-tokenize'
    export { default as sliceAnsi } from 'slice-ansi'
    export { default as wrapAnsi } from 'wrap-ansi'`

  async function packages(plugins: Plugin[]) {
    const { outputFiles } = await build({
      stdin: { contents: entry, resolveDir: process.cwd() },
      bundle: true,
      write: false,
      format: 'esm',
      platform: 'node',
      plugins,
    })
    return await import(`data:text/javascript,${encodeURIComponent(outputFiles[0]?.text ?? '')}`)
  }

  it('comes out of the changed packages as of those that are not', async () => {
    const [changed, plain] = await Promise.all([packages([changedPackages]), packages([])])
    const words = [
      'set 2 of 4',
      ' ',
      '\u001b[1m',
      '\u001b[22m',
      '\u001b[36m',
      '\u001b[39m',
      '4\u20e3',
      '👩‍🚀',
      'é',
      '█▀',
      '日',
    ]
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...words), { maxLength: 12 }), fc.nat(20), (parts, width) => {
        const text = parts.join('')
        const each = [changed, plain].map(
          ({ styledCharsFromTokens, styledCharsToString, tokenize, ...other }) => [
            styledCharsToString(styledCharsFromTokens(tokenize(text))),
            other.sliceAnsi(text, 1, width),
            other.wrapAnsi(text, width + 1, { hard: true, trim: false }),
          ],
        )
        expect(each[0]).toEqual(each[1])
      }),
    )
  })
})
