/* The shapes that values from outside must have. The schemas are zod's, which takes longer to load than a command takes
 * to run; the build turns them into these shapes, which are plain data. */

/** A shape, and by name the shapes it refers to. */
export interface Shapes {
  top: Shape
  named: Readonly<Record<string, Shape>>
}

export type Shape =
  | { is: 'number'; whole?: true; least?: number; above?: number; most?: number }
  | { is: 'text'; shortest?: number; like?: 'date' | 'date-time'; pattern?: string }
  | { is: 'boolean' }
  /** One of these values, or just this one. */
  | { is: 'one of'; values: readonly (string | number)[] }
  | { is: 'nullable'; of: Shape }
  | { is: 'list'; of: Shape; shortest?: number; longest?: number }
  /** A list in which each place has its own shape. */
  | { is: 'row'; of: readonly Shape[] }
  /** Unknown fields are refused unless it is `open`. */
  | { is: 'object'; of: Readonly<Record<string, Shape>>; optional?: readonly string[]; open?: true }
  /** Objects distinguished by the value of one field. */
  | { is: 'tagged'; by: string; of: Readonly<Record<string, Shape>> }
  | { is: 'either'; of: readonly Shape[] }
  | { is: 'named'; name: string }

/** What is wrong at one place of a value. `option`: its kind is unknown. */
export interface Fault {
  /** Keys, and list indexes counted from 0. */
  path: readonly (string | number)[]
  what:
    | { wrong: 'missing' | 'option' | 'pattern' | 'short' | 'long' }
    | { wrong: 'type'; expected: 'number' | 'whole number' | 'text' | 'boolean' | 'list' | 'object' }
    | { wrong: 'less' | 'not more' | 'more'; than: number }
    | { wrong: 'value'; values: readonly (string | number)[] }
    | { wrong: 'date' | 'date-time' }
    | { wrong: 'extra'; keys: readonly string[] }
}
