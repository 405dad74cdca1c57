import { expect, it } from 'vitest'
import { type Key, type Line, lineAfter, type NamedKey } from '../../src/recorder/line.ts'

/** A line with its cursor written as `|`. */
function after(line: string, ...keys: (Key | NamedKey)[]): string {
  const start: Line = { text: line.replace('|', ''), column: line.indexOf('|') }
  const { text, column } = keys
    .map((key): Key => (typeof key === 'string' ? { kind: 'named', name: key } : key))
    .reduce(lineAfter, start)
  return `${text.slice(0, column)}|${text.slice(column)}`
}

it.each<[string, string, NamedKey, string]>([
  ['the cursor goes left', '5 x| 90', 'left', '5 |x 90'],
  ['the cursor stays at the beginning', '|5', 'left', '|5'],
  ['the cursor goes right', '5| x', 'right', '5 |x'],
  ['the cursor stays at the end', '5|', 'right', '5|'],
  ['the cursor goes to the beginning', '5 x| 90', 'home', '|5 x 90'],
  ['the cursor goes to the end', '5 x| 90', 'end', '5 x 90|'],
  ['backspace deletes before the cursor', '5 x| 90', 'backspace', '5 | 90'],
  ['delete deletes at the cursor', '5 x| 90', 'delete', '5 x|90'],
  ['backspace deletes a whole runner', 'ran 🏃|', 'backspace', 'ran |'],
  ['the cursor passes a whole runner', '🏃|!', 'left', '|🏃!'],
  ['ctrl-u deletes up to the cursor', '5 x| 90', 'ctrl+u', '| 90'],
  ['ctrl-k deletes from the cursor on', '5 x| 90', 'ctrl+k', '5 x|'],
  ['ctrl-w deletes the last word', '5:10 hr 140 |', 'ctrl+w', '5:10 hr |'],
  ['another key changes nothing', '5 x| 90', 'insert', '5 x| 90'],
])('%s: %s', (_, line, key, expected) => {
  expect(after(line, key)).toBe(expected)
})

it('takes a character and a paste at the cursor, a paste as one line', () => {
  expect(after('5| 90', { kind: 'text', text: 'x' })).toBe('5x| 90')
  expect(after('|', { kind: 'paste', text: '6:07\n6:05\n' })).toBe('6:07 6:05|')
})
