import { liftLineOf } from './buildLift.ts'
import { checkedRun } from './checkRun.ts'
import { homeOf, misplaced, misplacedMessage, strangeMessage } from './headings.ts'
import { type Line, lineOf } from './lines.ts'
import type { PartKind, PrepItem, RunItem } from './model.ts'
import { type Item, printItem } from './print.ts'
import { type LineRead, readLine, refused, strictlyRead, writtenSurely } from './readLine.ts'
import { type LineRule, ruleOf } from './words.ts'
import { type Context, wholeOf } from './written.ts'

/* Reads one item of a part: the grammar makes it, and a check of its kind may follow. */

export function readItem(kind: PartKind, line: Line, context: Context): LineRead<Item> {
  const strange = strangeMessage(line.text, kind)
  if (strange !== null) return refused(line, { at: wholeOf(line.text), message: strange })
  const elsewhere = () => misplacedMessage(line.text, kind)
  const reworded = () => rewordedMessage(line, kind, context)
  return readLine(line, { ...lineKindOf(kind, line), elsewhere, reworded }, context)
}

function lineKindOf(kind: PartKind, line: Line) {
  const rule = ruleOf[kind]
  const check = checks[rule]
  const build = (parsed: object, own: Context) =>
    ({ line: line.number, text: line.written, ...(check?.(parsed as never, own, line) ?? parsed) }) as Item
  return { rule, build, print: printItem }
}

/** A name, and sets without a distance or a time: among runs three digits after x are metres. */
const setsOfReps =
  /^(?!w(?:\/|ith\b))(?=[^,]*\p{L}{3})(?![^,]*x \d{3})(?![^,]*\d(?: (?:m|km|mi|yd|laps?|s|min|h)\b|:\d))/u

/** The message for a line that another kind of part reads once it is reworded; null for any other line. */
function rewordedMessage(line: Line, kind: PartKind, context: Context): string | null {
  for (const other of ['run', 'lift'] as const) {
    if (ruleOf[other] === ruleOf[kind]) continue
    const part = { kind: other, name: null }
    const item = writtenSurely(line, lineKindOf(other, line), { ...context, part })
    if (item === null) continue
    // Beside a distance any words can be one's own, and beside a distance or a time any can be an exercise.
    const isGuess = other === 'run' ? item.includes('"') : !setsOfReps.test(item)
    if (!isGuess) return `${misplaced(other)}, and below it ${item}`
  }
  return null
}

/** Report what cannot be right in what the grammar made of a line, and put right what was probably meant. */
const checks: Partial<Record<LineRule, (parsed: never, context: Context, line: Line) => object>> = {
  prepItem: checkedPrep,
  runItem: checkedRun,
  liftItem: liftLineOf,
}

/** Warns of a run or sets among prep, where nearly any words are an item. */
function checkedPrep(item: PrepItem, context: Context, { text }: Line): PrepItem {
  const run = item.amount?.kind === 'distance' ? strictlyRead<RunItem>(text, 'runItem') : null
  const home = run?.step.kind === 'work' ? 'run' : item.amount === null ? homeOf(text, 'prep') : null
  if (home !== null) context.warn(wholeOf(text), misplaced(home))
  return item
}

/** Writes an item in the notation, as read or as suggested; null if neither is possible. */
export function itemText(line: Line, item: string, context: Context): string | null {
  const read = readItem(context.part.kind, lineOf(item, line.number), context)
  return read.value === null ? (read.problems[0]?.suggestion ?? null) : printItem(read.value)
}

/** The path of the first place where two values differ (apart from the source of items); null if they are equal. */
export function firstDifference(a: unknown, b: unknown, path: PropertyKey[]): PropertyKey[] | null {
  if (typeof a !== 'object' || a === null || typeof b !== 'object' || b === null)
    return Object.is(a, b) ? null : path
  const keys = new Set([...Object.keys(a), ...Object.keys(b)])
  for (const key of keys) {
    if ((key === 'line' || key === 'text') && path.at(-2) === 'items') continue
    const found = firstDifference((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], [
      ...path,
      Array.isArray(a) ? Number(key) : key,
    ])
    if (found !== null) return found
  }
  return null
}
