import { effortTexts } from '../session/entry/entry.ts'
import { toDecimals } from '../units/decimal.ts'
import { formatClock, formatClockShort, formatPace, type PaceUnit, paceIn } from '../units/duration.ts'
import { formatLength, formatMeters } from '../units/length.ts'
import type { RunningItem } from './model.ts'
import type { DoneSplit, DoneWork } from './performed.ts'
import { cardRaceOf, fullSplits } from './running.ts'
import type { SummaryView } from './summarise.ts'

/** For splits shorter than this, in metres, only --full shows deviation and fade, as below a kilometre the gap to
 * goal pace. This program's own rule. */
const shortestMeters = 800

/** With fewer full splits the deviation says little. This program's own rule. */
const fewSplits = 6
const noise = 1e-6

const rowing = /\brow(er|ing)?\b|\bski[ -]?erg\b/i

/** The unit of a work's paces: 500 m where its pace is written for each 500 m, and, if none is written, on a rower or a
 * ski erg by the part's name. Common practice, no source. */
export function paceUnitOf({ work, part }: DoneWork, { state, distance }: SummaryView): PaceUnit {
  const { kind, name } = state.parts[part]!
  const isRowed = work.paceUnit === null && kind === 'cross' && rowing.test(name ?? '')
  return work.paceUnit === '500 m' || isRowed ? '500 m' : distance
}

/** `4:07/km`, `2:02.5/500 m`, which is usually read to a tenth. */
export function paceText(secondsPerKm: number, done: DoneWork, view: SummaryView): string {
  const unit = paceUnitOf(done, view)
  return formatPace(secondsPerKm, unit, unit === '500 m' ? 1 : 0)
}

/** The figures of a work in words, one phrase a line. */
export function itemPhrases(item: RunningItem, done: DoneWork, view: SummaryView): string[] {
  return [
    meanPhrase(item, done, view),
    deviationPhrase(item, done, view),
    // A race begins with them.
    item.goal === null ? halvesPhrase(item, done, view) : '',
    goalPhrase(item, done, view),
  ].filter((phrase) => phrase !== '')
}

/** The text beside the name of an interval in a note: `20:35, 4:07/km, 5 of 5 in range`, of repeats
 * `mean 1:48.8, 5 of 6 in range`. */
export function leadPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  // A race is opened with its time.
  if (item.goal !== null) return ''
  const { repeats } = done.work
  const { meanSeconds, seconds, secondsPerKm } = item
  const whole = seconds === null ? [] : [clock(seconds)]
  const mean = meanSeconds === null ? [] : [`mean ${formatClock(meanSeconds, 1)}`]
  const pace = secondsPerKm === null ? [] : [paceText(secondsPerKm, done, view)]
  const judged = item.judged > 1 ? [`${item.inRange} of ${item.judged} in range`] : []
  return [...(repeats && mean.length > 0 ? mean : [...whole, ...pace]), ...judged].join(', ')
}

/** In a note: how evenly it was run and how far from the goal, `negative split, 1.0 %; 10.0 s/km slower than goal pace
 * 3:57/km`; a spread of many splits on a line of its own. */
export function shortPhrases(item: RunningItem, done: DoneWork, view: SummaryView): string[] {
  const evenness = item.goal === null ? shortHalves(item, done) : ''
  return [
    [evenness, goalPhrase(item, done, view)].filter((text) => text !== '').join('; '),
    deviationPhrase(item, done, view),
  ].filter((phrase) => phrase !== '')
}

function shortHalves({ halves }: RunningItem, { work }: DoneWork): string {
  if (halves === null) return ''
  const percent = `${toDecimals(Math.abs(halves.changePercent), 1)} %`
  if (!work.repeats) return halves.shape === 'even' ? 'even split' : `${halves.shape} split, ${percent}`
  if (halves.shape === 'even') return 'both halves even'
  return `second half ${percent} ${halves.changePercent < 0 ? 'faster' : 'slower'}`
}

/** `4:09  4:08  4:07.2  4:06 fast  4:05    hr 161 to 174, rpe 8` */
export function splitsPhrase({ splits }: DoneWork, view: SummaryView): string {
  const times = splits.map((split) => {
    const outside = split.target === 'fast' || split.target === 'slow' ? ` ${split.target}` : ''
    return `${splitText(split, view.distance)}${outside}`
  })
  const isLong = times.some((time) => time.includes(','))
  const rates = splits.flatMap(({ result }) => result.heartRate ?? [])
  const efforts = splits.flatMap(({ result }) => result.rpe ?? [])
  const beside = [spanOf('hr', rates), spanOf('rpe', efforts)].filter((text) => text !== '').join(', ')
  return `${times.join(isLong ? '; ' : '  ')}${beside === '' ? '' : `    ${beside}`}`
}

function spanOf(name: string, values: readonly number[]): string {
  if (values.length === 0) return ''
  const [low, high] = [Math.min(...values), Math.max(...values)]
  return low === high ? `${name} ${low}` : `${name} ${low} to ${high}`
}

function meanPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const texts: string[] = []
  if (item.meanSeconds !== null) texts.push(`mean ${formatClock(item.meanSeconds, 1)}`)
  if (item.splits.length > 1 && item.secondsPerKm !== null)
    texts.push(paceText(item.secondsPerKm, done, view))
  if (item.rangeSeconds !== null) texts.push(`range ${toDecimals(item.rangeSeconds, 1)} s`)
  if (item.judged > 1) texts.push(`${item.inRange} of ${item.judged} in ${rangeText(done)}${spareText(done)}`)
  return texts.join(', ')
}

/** The range of a full split, if all have the same. */
function rangeText(done: DoneWork): string {
  const ranges = new Set(
    done.splits
      .filter((split) => split.range && !split.step.short)
      .map(({ range }) => (range ? clockSpan(range) : '')),
  )
  const [only] = ranges
  return ranges.size === 1 && only !== undefined ? only : 'range'
}

/** How many splits count as in range that miss it by less than their rounding. */
function spareText(done: DoneWork): string {
  const spared = done.splits.filter(({ result: { seconds }, range, target }) => {
    if (target !== 'in' || range === null || seconds === null) return false
    return seconds < range.from - noise || seconds > range.to + noise
  })
  return spared.length === 0 ? '' : ` (${spared.length} of them by rounding)`
}

function clockSpan(range: { from: number; to: number }): string {
  const text = (seconds: number) =>
    formatClock(seconds, Number.isInteger(Math.round(seconds * 1000) / 1000) ? 0 : 1)
  return `${text(range.from)}-${text(range.to)}`
}

/** Standard deviation, coefficient of variation and fade. */
function deviationPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const { sdSeconds, cvPercent, fadePercentPerSplit } = item
  if (sdSeconds === null || cvPercent === null) return ''
  const isShort = (done.work.nominalMeters ?? shortestMeters) < shortestMeters
  if (!view.full && (isShort || fullSplits(done).length < fewSplits)) return ''
  const fade = fadePercentPerSplit === null ? '' : `, fade ${signed(fadePercentPerSplit, 2)} % a split`
  return `standard deviation ${toDecimals(sdSeconds, 1)} s (${toDecimals(cvPercent, 1)} % of the mean)${fade}`
}

/** `halves 3:56.0, 3:54.4/km: 0.7 % faster, a negative split`; empty without halves. */
function halvesPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const { halves } = item
  if (!halves) return ''
  const [first, second] = [halves.firstSecondsPerKm, halves.secondSecondsPerKm].map((pace) =>
    formatPace(pace, paceUnitOf(done, view), 1),
  )
  const whose = done.work.repeats ? 'first and second half of the repeats' : 'halves'
  const percent = toDecimals(Math.abs(halves.changePercent), 1)
  const faster = `${percent} % ${halves.changePercent < 0 ? 'faster' : 'slower'}`
  const named = done.work.repeats ? faster : `${faster}, a ${halves.shape} split`
  const shape = halves.shape === 'even' ? 'even' : named
  return `${whose} ${first?.split('/')[0]}, ${second}: ${shape}`
}

function goalPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const goal = view.summary.running.goal
  const meters = done.work.repeats ? (done.work.nominalMeters ?? 1000) : (item.meters ?? 0)
  if (!view.full && meters < 1000) return ''
  if (item.offGoalSecondsPerKm === null || goal === null || item.goal !== null) return ''
  const off = paceIn(item.offGoalSecondsPerKm, view.distance)
  const pace = formatPace(goal.secondsPerKm, view.distance)
  if (Math.abs(off) < 0.05) return `at goal pace ${pace}`
  return `${toDecimals(Math.abs(off), 1)} s/${view.distance} ${off < 0 ? 'faster' : 'slower'} than goal pace ${pace}`
}

function signed(value: number, digits: number): string {
  const text = toDecimals(value, digits)
  return Number(text) > 0 ? `+${text}` : text
}

/** The result of one split, as typed: `1:49.2`, `820 m in 3:00`, `2 km, not timed`. */
export function splitText({ step, result }: DoneSplit, distance: 'km' | 'mi'): string {
  const { meters, seconds } = result
  const isAsPrescribed = step.seconds === null && meters === step.meters
  const far = meters === null ? null : formatLength(meters, distance)
  if (seconds === null) return far === null || isAsPrescribed ? 'done, not timed' : `${far}, not timed`
  const clock = formatClockShort(seconds, result.precision)
  if (isAsPrescribed) return clock
  return far === null ? `${clock}, metres not known` : `${far} in ${clock}`
}

/** Remarks after a split: `slow`, `hr 171/183`, `rpe 8`; empty without any. */
export function besideText(split: DoneSplit): string {
  const outside = split.target === 'fast' || split.target === 'slow' ? [split.target] : []
  return [...outside, ...effortTexts(split.result)].join(' ')
}

/** The first lines of a race or trial: finish and gap to the goal, halves, fastest and slowest splits, the running
 * times next to the even card of the plan's race or the day's goal. Empty for other work. */
export function racePhrases(item: RunningItem, done: DoneWork, view: SummaryView): string[] {
  const { goal: race } = item
  if (race === null) return []
  return [
    finishPhrase(race),
    halvesPhrase(item, done, view),
    extremesPhrase('fastest splits', race.fastest, done),
    extremesPhrase('slowest splits', race.slowest, done),
    cardPhrase(race, view),
  ].filter((phrase) => phrase !== '')
}

type Race = NonNullable<RunningItem['goal']>

/** `finish 39:12, 18 s ahead of the goal 39:30` */
function finishPhrase({ finishSeconds, offGoalSeconds }: Race): string {
  const finish = `finish ${clock(finishSeconds)}`
  if (offGoalSeconds === null) return finish
  const off = toDecimals(Math.abs(offGoalSeconds), Number.isInteger(offGoalSeconds) ? 0 : 1)
  const gap = offGoalSeconds === 0 ? 'exactly' : `${off} s ${offGoalSeconds < 0 ? 'ahead of' : 'behind'}`
  return `${finish}, ${gap} the goal ${formatClock(finishSeconds - offGoalSeconds)}`
}

/** `fastest splits: 3:51 (10), 3:52 (9), 3:54 (1)` */
function extremesPhrase(name: string, numbers: readonly number[], done: DoneWork): string {
  if (numbers.length === 0) return ''
  const times = new Map(fullSplits(done).map(({ number, seconds }) => [number, seconds]))
  return `${name}: ${numbers.map((number) => `${clock(times.get(number) ?? 0)} (${number})`).join(', ')}`
}

/** The most places at which the race is compared with a card. */
const mostPlaces = 12

/** `even card 3:57/km: 2 km 7:54, 4 s behind; 4 km 15:48, on it`; `even card of the plan` if it is the plan's. */
function cardPhrase({ card }: Race, view: SummaryView): string {
  const [first, last] = [card[0], card.at(-1)]
  if (first === undefined || last === undefined || card.length < 2) return ''
  const each = Math.ceil(card.length / mostPlaces)
  const shown = card.filter((_, index) => (index + 1) % each === 0 || index === card.length - 1)
  const places = shown.map(({ meters, runningSeconds, cardSeconds }) => {
    const off = Math.round(runningSeconds) - Math.round(cardSeconds)
    const gap = off === 0 ? 'on it' : `${Math.abs(off)} s ${off < 0 ? 'ahead' : 'behind'}`
    return `${formatMeters(meters, view.distance)} ${formatClock(Math.round(cardSeconds))}, ${gap}`
  })
  const pace = formatPace((first.cardSeconds / first.meters) * 1000, view.distance)
  const raced = cardRaceOf(last.meters, view.summary.running.goal, view.race)
  return `even card${raced?.isPlans ? ' of the plan' : ''} ${pace}: ${places.join('; ')}`
}

function clock(seconds: number): string {
  return formatClock(seconds, Number.isInteger(Math.round(seconds * 10) / 10) ? 0 : 1)
}
