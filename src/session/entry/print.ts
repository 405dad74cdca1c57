import { printNumber } from '../../units/decimal.ts'
import { formatClockShort, printTime } from '../../units/duration.ts'
import { exactLength } from '../../units/length.ts'
import type { MassUnit } from '../../units/model.ts'
import { typedLoad } from '../load.ts'
import type { Answer, IntervalPrompt, Prompt, SetPrompt } from '../prompt.ts'
import type { IntervalResult, LiftedLoad, SetResult } from '../result.ts'
import { printFuel } from './fuel.ts'
import { remarksText } from './lex.ts'
import { defaultUnit } from './load.ts'

/* Writes an answer as it would be typed, and in words. */

/** Writes an entry that parses to the same answer under the same prompt.
 * @param prompt of the kind of the answer */
export function printEntry(answer: Answer, prompt: Prompt): string {
  switch (answer.kind) {
    case 'skipped':
      return `-${remarksText(answer)}`
    case 'prep':
      return `=${remarksText(answer.result)}`
    case 'fuel': {
      const eaten = printFuel(answer.result)
      return `${eaten === '' ? '=' : eaten}${remarksText(answer.result)}`
    }
    case 'set':
      return printSet(answer.result, prompt as SetPrompt)
    case 'interval':
      return printInterval(answer.result, prompt as IntervalPrompt)
  }
}

/** An answer in a few words: `3 x 92.5`, `1:52.4, timed by you`, `done, not timed`.
 * @param prompt of the kind of the answer */
export function describeAnswer(answer: Answer, prompt: Prompt): string {
  switch (answer.kind) {
    case 'interval':
      return describeInterval(answer.result)
    case 'set':
      return describeSet(answer.result, prompt as SetPrompt)
    case 'fuel':
      return printFuel(answer.result) || 'done'
    default:
      return 'done'
  }
}

function printSet(result: SetResult, prompt: SetPrompt): string {
  const load = result.load === null ? '' : ` x ${loadsOf(result, result.load, defaultUnit(prompt))}`
  const effort = result.rpe === null ? '' : ` @${printNumber(result.rpe)}`
  return `${countOf(result, prompt)}${result.failed ? '!' : ''}${load}${effort}${remarksText(result)}`
}

/** The load, or the loads of the drops: `20>15>10`. */
function loadsOf({ loads = [] }: SetResult, load: LiftedLoad, unit: MassUnit): string {
  const lower = loads.slice(1).map((each) => printNumber(each.kind === 'mass' ? each.value : each.added))
  const [number = '', ...suffix] = typedLoad(load, unit).split(' ')
  return [[number, ...lower].join('>'), ...suffix].join(' ')
}

function countOf(result: SetResult, { dose }: SetPrompt): string {
  if (result.groups !== null) return result.groups.join(dose.kind === 'drop' || result.loads ? '>' : '+')
  if (result.seconds !== null) return printTime(result.seconds)
  if (result.meters !== null) return `${printNumber(result.meters)} m`
  const isMeasured = dose.kind === 'time' || dose.kind === 'distance'
  return `${printNumber(result.reps ?? 0)}${isMeasured ? ' reps' : ''}`
}

function printInterval(result: IntervalResult, prompt: IntervalPrompt): string {
  const suffix = `${heartRateText(result)}${result.rpe === null ? '' : ` rpe ${printNumber(result.rpe)}`}${remarksText(result)}`
  const isMeasured = result.byKey && prompt.offered !== null
  const clock =
    result.seconds === null || isMeasured ? '' : formatClockShort(result.seconds, result.precision)
  const isAsPrescribed = result.meters === null || result.meters === metersKnown(result, prompt)
  const distance = isAsPrescribed ? '' : exactLength(result.meters ?? 0, prompt.unit)
  const done = [distance, clock].filter((text) => text !== '').join(' in ')
  return `${done === '' ? '=' : done}${suffix}`
}

/** The metres that need not be typed. */
function metersKnown(result: IntervalResult, prompt: IntervalPrompt): number | null {
  if (prompt.seconds === null) return prompt.meters
  return prompt.treadmillSpeed === null || result.seconds === null
    ? null
    : prompt.treadmillSpeed * result.seconds
}

function heartRateText(result: IntervalResult): string {
  if (result.heartRate === null) return ''
  return ` hr ${result.heartRate}${result.heartRateMax === null ? '' : `/${result.heartRateMax}`}`
}

function describeInterval(result: IntervalResult): string {
  if (result.seconds === null) return 'done, not timed'
  const clock = formatClockShort(result.seconds, result.precision)
  if (result.byKey) return `${clock}, timed by you`
  return result.meters === null
    ? `${clock}, metres not known`
    : `${clock}, ${printNumber(Math.round(result.meters))} m`
}

function describeSet(result: SetResult, prompt: SetPrompt): string {
  const text = printSet(result, prompt)
  const isBareCount = result.load === null && result.groups === null && result.reps !== null
  return isBareCount ? `${text} ${result.reps === 1 ? 'rep' : 'reps'}` : text
}
