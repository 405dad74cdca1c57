/** What is wrong at one place of a value. `option`: it is of no kind that there is. */
export interface Fault {
  /** Keys, and places in lists counted from 0. */
  path: readonly (string | number)[]
  what:
    | { wrong: 'missing' | 'option' | 'pattern' | 'short' | 'long' }
    | { wrong: 'type'; expected: 'number' | 'whole number' | 'text' | 'boolean' | 'list' | 'object' }
    | { wrong: 'less' | 'not more' | 'more'; than: number }
    | { wrong: 'value'; values: readonly (string | number)[] }
    | { wrong: 'date' | 'date-time' }
    | { wrong: 'extra'; keys: readonly string[] }
}
