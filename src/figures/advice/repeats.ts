import { judge, type Range } from '../range.ts'
import { median } from '../statistics.ts'

export interface RepeatsAdvice {
  kind: 'ease' | 'rangeLooksFast' | 'restLonger'
  words: string
}

const tooFast = 0.02
const tooSlow = 0.03

/** What repeats that leave their range suggest. The first two more than 2 % fast: ease; the first two slow: the
 * range looks fast; later two in a row slower than the range and more than 3 % slower than the median of those
 * before: rest longer. Null when there is nothing to say, and never on a grade over 1 %.
 * @param done the repeats so far, in order: seconds, the value of the last typed digit, and the range of each
 * @throws RangeError for a time or a precision that is not above 0
 * Source: Invented. */
export function repeatsAdvice(
  done: readonly { seconds: number; precision: number; range: Range }[],
  gradePercent: number | null,
): RepeatsAdvice | null {
  if (Math.abs(gradePercent ?? 0) > 1 || done.length < 2) return null
  const lastTwo = done.slice(-2)
  const areSlow = lastTwo.every((each) => judge(each.seconds, each.range, each.precision) === 'slow')
  if (done.length === 2) {
    const areFast = lastTwo.every((each) => each.seconds < each.range.from * (1 - tooFast))
    if (areFast) return { kind: 'ease', words: 'ease, the range is there' }
    return areSlow ? { kind: 'rangeLooksFast', words: 'the range looks fast today' } : null
  }
  const before = median(done.slice(0, -2).map((each) => each.seconds))
  if (done.length < 4 || before === null || !areSlow) return null
  const haveFallenOff = lastTwo.every((each) => each.seconds > before * (1 + tooSlow))
  return haveFallenOff ? { kind: 'restLonger', words: 'rest longer, ease off, or stop here' } : null
}
