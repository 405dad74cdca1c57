import type { SourceName } from '../sources.ts'

/** What can be said about a figure without any session. */
export interface Explanation {
  /** Whole words with hyphens, as typed on the command line. */
  name: string
  title: string
  /** Other words by which it is found. */
  aliases: readonly string[]
  /** In plain characters, a line each. */
  equation: readonly string[]
  /** What the letters stand for, each with its unit. */
  symbols: readonly { symbol: string; meaning: string; unit: string }[]
  sources: readonly SourceName[]
  holds: string
  holdsNot: string
}

/** A figure that can be worked out, step by step, from given numbers. */
export interface Figure<Inputs> extends Explanation {
  /** The steps with the numbers put in, a line each, the result last.
   * @throws RangeError as the figure itself */
  work: (inputs: Inputs) => string[]
  /** The same for the invented athlete of the samples. */
  example: () => string[]
}

/** A figure with its worked example, which is worked out by the same code. */
export function figure<Inputs>(
  explanation: Explanation & { example: Inputs; work: (inputs: Inputs) => string[] },
): Figure<Inputs> {
  const { example, ...rest } = explanation
  return { ...rest, example: () => rest.work(example) }
}

/** A number for a step: at most so many decimals, no zeros at the end. */
export function num(value: number, decimals = 2): string {
  return String(Number(value.toFixed(decimals)))
}

/** A figure that may not be known, as it stands in a step. */
export function known(value: number | null, unit = '', decimals = 2): string {
  return value === null ? 'not known' : `${num(value, decimals)}${unit === '' ? '' : ` ${unit}`}`
}
