/** A number as plain digits: never an exponent, and read back it is the same number.
 * @param value finite; a sign is kept */
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
