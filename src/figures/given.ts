/* Checks the inputs of figures, because a figure computed from NaN or Infinity could look like a real one. */

/** Returns the number if it is finite and above 0.
 * @param what names it in the error: "the load"
 * @throws RangeError with the invalid value */
export function positive(value: number, what: string): number {
  if (Number.isFinite(value) && value > 0) return value
  throw new RangeError(`${what} must be above 0, got ${value}`)
}

/** Returns the number if it is finite and not below 0.
 * @throws RangeError with the invalid value */
export function notNegative(value: number, what: string): number {
  if (Number.isFinite(value) && value >= 0) return value
  throw new RangeError(`${what} must be 0 or more, got ${value}`)
}

/** Returns the number if it is finite.
 * @throws RangeError with the invalid value */
export function finite(value: number, what: string): number {
  if (Number.isFinite(value)) return value
  throw new RangeError(`${what} must be a number, got ${value}`)
}

/** Returns the number if it is from `low` to `high`, both included.
 * @throws RangeError with the invalid value */
export function between(value: number, low: number, high: number, what: string): number {
  if (Number.isFinite(value) && value >= low && value <= high) return value
  throw new RangeError(`${what} must be from ${low} to ${high}, got ${value}`)
}

/** Returns the number if it is whole and at least `low`.
 * @throws RangeError with the invalid value */
export function wholeFrom(value: number, low: number, what: string): number {
  if (Number.isInteger(value) && value >= low) return value
  throw new RangeError(`${what} must be a whole number from ${low} up, got ${value}`)
}
