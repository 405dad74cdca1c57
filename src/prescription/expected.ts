/* Where a line stops being readable, in words. */

type Expected =
  | { type: 'literal'; text: string }
  | { type: 'other'; description: string }
  | { type: 'class'; parts: unknown }
  | { type: 'any' }
  | { type: 'end' }

const runClauses = ['jog', 'walk', 'stand', 'rest', 'split', 'negative', 'lane', 'grade', 'hr']
const liftClauses = ['pause', 'rest', 'every', 'tempo', 'build']
const pieces = 'a piece such as 6 x 500 m or 10 min easy, or a recovery such as jog 400 m'
const signs: Record<string, string> = {
  ',': 'a comma',
  '"': 'a text in quotes',
  '(': 'a bracket (',
  ')': 'a bracket )',
  ':': 'a colon',
  '+': 'a +',
  x: 'an x',
  '/': 'a unit such as /km',
  '-': '',
  ' ': '',
}

/** What the grammar would have gone on with, as a list in words. */
export function expectedInWords(expected: readonly Expected[]): string {
  const words = new Set(expected.map(wordOf))
  words.delete('')
  group(words, runClauses, 'a clause (jog, walk, stand, rest, split, negative, lane, grade, hr)')
  group(words, liftClauses, 'a clause (pause, rest, every, tempo, build from)')
  group(words, ['each', 'a unit such as /km'], 'each side')
  group(words, ['@', 'at'], '@')
  group(words, ['a colon', 'sets (3 x 8, or 10/8/6)'], 'sets (3 x 8, or 10/8/6)')
  group(words, ['warm', 'cool', 'all'], 'a word such as easy')
  group(words, ['jog', 'a number', 'a bracket ('], pieces)
  if (words.has(pieces)) return pieces
  if (words.size > 1) words.delete('the end of the line')
  const list = [...words]
  const last = list.pop() ?? 'the end of the line'
  return list.length === 0 ? last : `${list.join(', ')} or ${last}`
}

function wordOf(expected: Expected): string {
  if (expected.type === 'end') return 'the end of the line'
  if (expected.type === 'other') return expected.description
  if (expected.type !== 'literal') return ''
  return signs[expected.text] ?? expected.text
}

/** Words that stand for one thing together become one. */
function group(words: Set<string>, members: readonly string[], name: string): void {
  if (!members.every((word) => words.has(word))) return
  for (const word of members) words.delete(word)
  words.add(name)
}
