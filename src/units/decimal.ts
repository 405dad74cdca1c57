/** Formats a number with this many decimals. Rounds the digits a person would see, halves away from 0: 1.005 gives
 * `1.01` although the binary number is smaller. Never gives `-0.00`.
 * @param value finite */
export function toDecimals(value: number, decimals: number): string {
  return roundTo(value, decimals).toFixed(decimals)
}

/** Rounds like `toDecimals`. */
export function roundTo(value: number, decimals: number): number {
  // A sum of measured figures has at most twelve significant digits; the rest is binary rounding noise.
  const [digits = '0', exponent = '0'] = Math.abs(value).toPrecision(13).split('e')
  const shifted = Math.round(Number(`${digits}e${Number(exponent) + decimals}`))
  return (Math.sign(value) * shifted) / 10 ** decimals
}

/** Formats a change with its sign and this many decimals: `+1.5`, `-0.2`, `0.0`. */
export function signed(change: number, decimals: number): string {
  const text = toDecimals(change, decimals)
  return Number(text) > 0 ? `+${text}` : text
}

/** Writes a number in plain digits, without an exponent; reading it gives the same number.
 * @param value finite; keeps its sign */
export function printNumber(value: number): string {
  const text = String(value)
  const parts = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(text)
  if (parts === null) return text
  const [, sign = '', first = '', rest = '', exponent = '0'] = parts
  const digits = first + rest
  const point = 1 + Number(exponent)
  if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${digits}`
  return sign + digits.padEnd(point, '0')
}

/** `1 set`, `3 sets`.
 * @param noun its plural must add an s */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}

const words = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

/** A count as a sentence has it: `no`, `one`, `two`; digits from 10 up. */
export function inWords(count: number): string {
  return words[count] ?? String(count)
}
