/** Numbers that look like chance and are the same for the same seed. */
export interface Chance {
  /** From 0 up to, not including, 1. */
  next(): number
  /** Around a middle, hardly ever further off than twice the spread. */
  around(middle: number, spread: number): number
  /** True with a probability from 0 to 1. */
  happens(probability: number): boolean
  /** One of a list that is not empty. */
  oneOf<T>(list: readonly T[]): T
}

/** The generator is mulberry32 (T. Ettinger, public domain): 32 bits of state, plenty for made-up days. */
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
  return {
    next,
    around: (middle, spread) => middle + spread * (next() + next() + next() - 1.5) * 2,
    happens: (probability) => next() < probability,
    oneOf: (list) => list[Math.floor(next() * list.length)] as (typeof list)[number],
  }
}
