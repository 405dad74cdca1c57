import fc from 'fast-check'

/* fast-check with a fixed seed, so that every run of the tests draws the same cases. Set
 * PAUSEBOOK_SEED to draw others. A failure prints the seed and the path to the case. */

const seed = Number(process.env.PAUSEBOOK_SEED ?? 20261126)
if (!Number.isInteger(seed)) throw new Error(`PAUSEBOOK_SEED must be a whole number, but is ${seed}.`)
fc.configureGlobal({ seed })

export default fc
