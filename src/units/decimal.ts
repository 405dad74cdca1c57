/** Writes a number with this many decimals, rounding half of its written digits away from 0: 1.005 is `1.01` although
 * the nearest binary number is smaller. Never `-0.00`.
 * @param value finite */
export function toDecimals(value: number, decimals: number): string {
  const text = roundTo(value, decimals).toFixed(decimals)
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text
}

/** As `toDecimals`, as a number. */
export function roundTo(value: number, decimals: number): number {
  // A sum of measured figures has at most twelve significant digits; the rest is binary rounding noise.
  const [digits = '0', exponent = '0'] = Math.abs(value).toPrecision(13).split('e')
  const shifted = Math.round(Number(`${digits}e${Number(exponent) + decimals}`))
  return (Math.sign(value) * shifted) / 10 ** decimals
}

/** Writes a change with its sign and this many decimals: `+1.5`, `-0.2`, `0.0`. */
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
 * @param noun one whose plural adds an s */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}

const words = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

/** A count in a sentence: `two`; from ten on its digits. */
export function inWords(count: number): string {
  return words[count] ?? String(count)
}
