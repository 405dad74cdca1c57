import fc from 'fast-check'

/* fast-check with a fixed seed, so that every run of the tests draws the same cases. Set
 * PAUSEBOOK_SEED to draw others. A failure prints the seed and the path to the case. */

/** Halves of characters, which a text does not contain alone. */
const surrogates = 0x800

const seed = Number(process.env.PAUSEBOOK_SEED ?? 20261126)
if (!Number.isInteger(seed)) throw new Error(`PAUSEBOOK_SEED must be a whole number, but is ${seed}.`)
fc.configureGlobal({ seed })

/** How many cases a property draws: this many in `npm test`, PAUSEBOOK_FUZZ times as many in `npm run soak`. */
export function times(usual: number): { numRuns: number } {
  return { numRuns: usual * Number(process.env.PAUSEBOOK_FUZZ ?? 1) }
}

/** Any character, for `unit` of `fc.string`. fast-check's own unit 'binary' takes seconds to list all of them before
 * the first string is drawn. */
export const anyCharacter = fc
  .integer({ min: 0, max: 0x10ffff - surrogates })
  .map((number) => String.fromCodePoint(number < 0xd800 ? number : number + surrogates), numberOf)

function numberOf(character: unknown): number {
  const code = typeof character === 'string' ? character.codePointAt(0) : undefined
  if (code === undefined || String.fromCodePoint(code) !== character) throw new Error('not one character')
  return code < 0xd800 ? code : code - surrogates
}

export default fc
