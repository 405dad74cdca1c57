import type { Building } from './building.ts'
import { anyPartKind, type PartKind, partKinds } from './partKinds.ts'
import { isReadable, type LineRule, strictSyntaxOf } from './readLine.ts'
import type { PartNode, PrepNode } from './syntax.ts'

/* What people write for the line of a part or of a header, and lines that stand in the wrong place. */

const otherWords: Record<PartKind, string[]> = {
  prep: ['warm-up', 'warm up', 'warmup', 'mobility', 'activation', 'prehab', 'stretching', 'preparation'],
  run: [
    'running',
    'track',
    'runs',
    'main',
    'main set',
    'main part',
    'intervals',
    'workout',
    'cool-down',
    'cool down',
    'cooldown',
  ],
  cross: ['bike', 'biking', 'cycling', 'ride', 'swim', 'swimming', 'row', 'rowing', 'rower', 'erg', 'ski'],
  lift: [
    'lifting',
    'lifts',
    'strength',
    'weights',
    'gym',
    'legs',
    'push',
    'pull',
    'upper',
    'lower',
    'accessories',
  ],
  fuel: ['food', 'nutrition', 'meal', 'meals', 'eat', 'eating', 'fuelling', 'fueling'],
}

export const ruleOf: Record<PartKind, LineRule> = {
  prep: 'prepItem',
  run: 'runItem',
  cross: 'runItem',
  lift: 'liftItem',
  fuel: 'fuelItem',
}

/** The part that a line means which names one by another word, and how its line is written. */
export function headingOf(text: string): { kind: PartKind; name: string | null; written: string } | null {
  const [, word = '', after] = /^ *([\p{L}-]+(?: (?:up|down|set|part))?) *(?:: *(.*))?$/iu.exec(text) ?? []
  const key = word.toLowerCase()
  for (const [kind, words] of Object.entries(otherWords) as [PartKind, string[]][]) {
    if (!words.includes(key)) continue
    const name = after === undefined || after === '' ? key : after
    return { kind, name, written: `${kind}: ${name}` }
  }
  return null
}

const kindAndName = new RegExp(`^ *(${partKinds.join('|')}) +(\\p{L}.*)$`, 'iu')

/** A part's kind with its name behind it and no colon between: `run track`. */
export function missingColon(text: string): { kind: PartKind; name: string; written: string } | null {
  const [, word = '', name = ''] = kindAndName.exec(text) ?? []
  const kind = word.toLowerCase() as PartKind
  return word === '' ? null : { kind, name, written: `${kind}: ${name}` }
}

/** In the order in which they are named. The grammar has them too. */
export const headerNames = ['date', 'units', 'goal', 'athlete', 'bar', 'lap', 'max', 'note']

const otherHeaders: Record<string, string> = {
  day: 'date',
  when: 'date',
  unit: 'units',
  weight: 'athlete',
  bodyweight: 'athlete',
  'body weight': 'athlete',
  race: 'goal',
  target: 'goal',
  '1rm': 'max',
  maxes: 'max',
  best: 'max',
  notes: 'note',
  comment: 'note',
  barbell: 'bar',
  laps: 'lap',
}

const headerWithoutColon = new RegExp(`^ *(${headerNames.join('|')}) +(.*)$`, 'i')

/** Whether a header is meant by another word. */
export function isOtherHeader(word: string): boolean {
  return Object.hasOwn(otherHeaders, word.toLowerCase())
}

/** What to say of a line before the first part that is neither header nor part; `isNowhere`: only that it
 * stands in no part, which is said once. */
export function strayMessage(
  text: string,
  units: Building['units'],
): { message: string; isNowhere: boolean } {
  const [, word = '', rest = ''] = /^ *([\p{L}\p{N} ]{1,40}?) *: *(.*)$/u.exec(text) ?? []
  const header = isOtherHeader(word) ? otherHeaders[word.toLowerCase()] : undefined
  const said = (message: string) => ({ message, isNowhere: false })
  if (header !== undefined) return said(`no header is called ${word}; write: ${header}: ${rest}`)
  const [, bare, value] = headerWithoutColon.exec(text) ?? []
  if (bare !== undefined) return said(`a header has a colon; write: ${bare.toLowerCase()}: ${value}`)
  for (const kind of ['run', 'lift', 'fuel'] as const)
    if (isReadable(text, ruleOf[kind], units))
      return { message: `this item stands in no part: write ${kind} on a line above it`, isNowhere: true }
  const isHeader = word !== '' && !/\d/.test(rest)
  if (isHeader)
    return said(
      `no header is called ${word}: there are ${headerNames.slice(0, -1).join(', ')} and ${headerNames.at(-1)}`,
    )
  return {
    message: `this line stands in no part: write ${anyPartKind} on a line above it`,
    isNowhere: true,
  }
}

/** `5x5 squat`: a count, a number without a unit, and a word that no run has. */
const setsThenName =
  /^ *\d+ *x *\d+ +(?!(?:m|km|k|mi|miles?|yd|yards?|laps?|s|secs?|seconds?|mins?|minutes?|h|hrs?|hours?|met(?:er|re)s?|kilomet(?:er|re)s?|kms|at|in|easy|steady|tempo|threshold|hard|fast|strides|relaxed|all|warm|cool|race|trial|jog|walk|stand|rest|with|w|x)\b)\p{L}{2}/iu

/** What to say of a line that is no item of its part but of another kind of part; null for any other line. */
export function misplacedMessage(text: string, kind: PartKind, units: Building['units']): string | null {
  const rest = kind === 'lift' ? /^ *rest +(\d+(?::\d\d)?)( *\p{L}*)$/iu.exec(text) : null
  if (rest !== null) {
    const time = rest[2] === '' && !rest[1]?.includes(':') ? `${rest[1]} s` : `${rest[1]}${rest[2]}`
    return `a rest stands behind the sets that it belongs to, such as squat 3 x 8, rest ${time}`
  }
  if (ruleOf[kind] === 'runItem' && setsThenName.test(text))
    return 'this reads as an item of a lift part, where the name comes first: write lift on a line above it'
  const others = (['run', 'lift', 'fuel'] as const).filter((other) => ruleOf[other] !== ruleOf[kind])
  const other = others.find((each) => isReadable(text, ruleOf[each], units))
  return other === undefined
    ? null
    : `this reads as an item of a ${other} part: write ${other} on a line above it`
}

/** Whether the name of a part is an item that should stand on a line of its own. */
export function isItem(part: PartNode, units: Building['units']): boolean {
  const name = part.name?.name ?? ''
  if (part.kind !== 'prep') return isReadable(name, ruleOf[part.kind], units)
  const item = strictSyntaxOf(name, 'prepItem', units) as PrepNode | null
  return item !== null && item.dose !== null && (item.dose.kind !== 'reps' || item.count !== null)
}
