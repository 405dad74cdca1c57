import type { Fault } from './fault.ts'

/** What is wrong with a field, as the end of a sentence: "is no number". */
export function faultWords({ what }: Fault): string {
  switch (what.wrong) {
    case 'missing':
      return 'is missing'
    case 'option':
      return 'is of no kind that there is'
    case 'pattern':
      return 'is not written as it should be'
    case 'date':
      return 'is no date'
    case 'date-time':
      return 'is no date and time'
    case 'short':
      return 'is too short'
    case 'long':
      return 'is too long'
    case 'type':
      return what.expected === 'boolean' ? 'is neither true nor false' : `is no ${what.expected}`
    case 'less':
    case 'not more':
    case 'more':
      return `is ${what.wrong} than ${what.than}`
    case 'value':
      return what.values.length === 1 ? `is not ${what.values[0]}` : `is none of ${what.values.join(', ')}`
    case 'extra':
      return `has a field that does not belong there, ${what.keys.map((key) => JSON.stringify(key)).join(', ')}`
  }
}
