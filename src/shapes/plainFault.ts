import type { Fault } from './fault.ts'
import type { Shape } from './shape.ts'

type Plain<Kind extends Shape['is']> = Extract<Shape, { is: Kind }>

/** What is wrong with a value that has no others within; null for nothing. */
export function plainFault(
  shape: Plain<'number' | 'text' | 'boolean' | 'one of'>,
  value: unknown,
): Fault['what'] | null {
  switch (shape.is) {
    case 'number':
      return numberFault(shape, value)
    case 'text':
      return textFault(shape, value)
    case 'boolean':
      return typeof value === 'boolean' ? null : { wrong: 'type', expected: 'boolean' }
    case 'one of':
      return (shape.values as readonly unknown[]).includes(value)
        ? null
        : { wrong: 'value', values: shape.values }
  }
}

function numberFault({ whole, least, above, most }: Plain<'number'>, value: unknown): Fault['what'] | null {
  if (typeof value !== 'number' || !Number.isFinite(value)) return { wrong: 'type', expected: 'number' }
  if (whole && !Number.isSafeInteger(value)) return { wrong: 'type', expected: 'whole number' }
  if (least !== undefined && value < least) return { wrong: 'less', than: least }
  if (above !== undefined && value <= above) return { wrong: 'not more', than: above }
  return most !== undefined && value > most ? { wrong: 'more', than: most } : null
}

function textFault({ shortest = 0, like, pattern }: Plain<'text'>, value: unknown): Fault['what'] | null {
  if (typeof value !== 'string') return { wrong: 'type', expected: 'text' }
  if (value.length < shortest) return { wrong: 'short' }
  return pattern === undefined || patternOf(pattern).test(value) ? null : { wrong: like ?? 'pattern' }
}

const patterns = new Map<string, RegExp>()

function patternOf(pattern: string): RegExp {
  const known = patterns.get(pattern) ?? new RegExp(pattern)
  patterns.set(pattern, known)
  return known
}
