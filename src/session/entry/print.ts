import { printNumber } from '../../units/decimal.ts'
import { printTime } from '../../units/duration.ts'
import type { MassUnit } from '../../units/model.ts'
import type { Answer, IntervalPrompt, Prompt, SetPrompt } from '../prompt.ts'
import type { IntervalResult, LiftedLoad, SetResult } from '../result.ts'
import { readEntry } from './entry.ts'
import { printFuel } from './fuel.ts'
import { remarksText, typedTimeOf } from './lex.ts'
import { defaultUnit, printLoad } from './load.ts'

/* Writes an answer as it would be typed, and in words. */

/** Writes an entry that parses to the same answer under the same prompt. */
export function printEntry(answer: Answer, asked: Prompt): string {
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
      return printSet(answer.result, asked.kind === 'set' ? asked : null)
    case 'interval':
      return printInterval(answer.result, asked.kind === 'interval' ? asked : null)
  }
}

/** What Enter alone would record, shown in the empty field: `3 x 92.5`, `1:52.4, timed by you`, `done, not timed`. Null
 * when something must be typed. */
export function describeEmpty(asked: Prompt): string | null {
  const reading = readEntry('', asked)
  if (reading.outcome !== 'answer') return null
  const { answer } = reading
  switch (answer.kind) {
    case 'interval':
      return describeInterval(answer.result)
    case 'set':
      return describeSet(answer.result, asked)
    case 'fuel':
      return printFuel(answer.result) || 'done'
    default:
      return 'done'
  }
}

function printSet(result: SetResult, asked: SetPrompt | null): string {
  const load = result.load === null ? '' : ` x ${loadsOf(result, result.load, unitOf(asked))}`
  const effort = result.rpe === null ? '' : ` @${printNumber(result.rpe)}`
  return `${countOf(result, asked)}${result.failed ? '!' : ''}${load}${effort}${remarksText(result)}`
}

/** The load, or the loads of the drops: `20>15>10`. */
function loadsOf({ loads = [] }: SetResult, load: LiftedLoad, unit: MassUnit | null): string {
  const lower = loads.slice(1).map((each) => printNumber(each.kind === 'mass' ? each.value : each.added))
  const [number = '', ...behind] = printLoad(load, unit).split(' ')
  return [[number, ...lower].join('>'), ...behind].join(' ')
}

function countOf(result: SetResult, asked: SetPrompt | null): string {
  if (result.groups !== null)
    return result.groups.join(asked?.dose.kind === 'drop' || result.loads ? '>' : '+')
  if (result.seconds !== null) return printTime(result.seconds)
  if (result.meters !== null) return `${printNumber(result.meters)} m`
  const isMeasured = asked?.dose.kind === 'time' || asked?.dose.kind === 'distance'
  return `${printNumber(result.reps ?? 0)}${isMeasured ? ' reps' : ''}`
}

function unitOf(asked: SetPrompt | null): 'kg' | 'lb' | null {
  return asked === null ? null : defaultUnit(asked)
}

function printInterval(result: IntervalResult, asked: IntervalPrompt | null): string {
  const behind = `${heartRateText(result)}${result.rpe === null ? '' : ` rpe ${printNumber(result.rpe)}`}${remarksText(result)}`
  const isMeasured = result.byKey && asked !== null && asked.offered !== null
  const clock = result.seconds === null || isMeasured ? '' : typedTimeOf(result.seconds, result.precision)
  const isAsPrescribed = result.meters === null || result.meters === metersKnown(result, asked)
  const distance = isAsPrescribed ? '' : `${printNumber(result.meters ?? 0)} m`
  const done = [distance, clock].filter((text) => text !== '').join(' in ')
  return `${done === '' ? '=' : done}${behind}`
}

/** The metres that need not be typed. */
function metersKnown(result: IntervalResult, asked: IntervalPrompt | null): number | null {
  if (asked === null) return null
  if (asked.seconds === null) return asked.meters
  return asked.treadmillSpeed === null || result.seconds === null
    ? null
    : asked.treadmillSpeed * result.seconds
}

function heartRateText(result: IntervalResult): string {
  if (result.heartRate === null) return ''
  return ` hr ${result.heartRate}${result.heartRateMax === null ? '' : `/${result.heartRateMax}`}`
}

function describeInterval(result: IntervalResult): string {
  if (result.seconds === null) return 'done, not timed'
  const clock = typedTimeOf(result.seconds, result.precision)
  if (result.byKey) return `${clock}, timed by you`
  return result.meters === null
    ? `${clock}, metres not known`
    : `${clock}, ${printNumber(Math.round(result.meters))} m`
}

function describeSet(result: SetResult, asked: Prompt): string {
  const text = printSet(result, asked.kind === 'set' ? asked : null)
  const isBareCount = result.load === null && result.groups === null && result.reps !== null
  return isBareCount ? `${text} ${result.reps === 1 ? 'rep' : 'reps'}` : text
}
