import { extent } from 'd3-array'
import { secondsPerKm } from '../figures/splits.ts'
import { isRowing } from '../prescription/exercise.ts'
import { effortTexts } from '../session/entry/entry.ts'
import { workName } from '../session/names.ts'
import { signed, toDecimals } from '../units/decimal.ts'
import {
  formatClock,
  formatClockShort,
  formatPace,
  gapText,
  offGoalText,
  type PaceUnit,
  paceIn,
} from '../units/duration.ts'
import { formatAsWritten, formatMeters } from '../units/length.ts'
import { joined, neighbours } from '../units/lists.ts'
import type { DistanceUnit } from '../units/model.ts'
import type { RunningItem } from './model.ts'
import type { DoneSplit, DoneWork } from './performed.ts'
import { wrapped } from './plain.ts'
import { cardRaceOf, fullSplits, hasBoth, type WorkView } from './running.ts'
import { barLines, type SplitBar, type SplitRow } from './splitBars.ts'
import { type Row, rowOf, type SummaryView } from './view.ts'

/* What was run, in words. A phrase is empty where there is nothing to say. */

const indent = 2

/** Below this length of a split, in metres, only --full shows deviation and fade. This program's own rule. */
const shortestMeters = 800

/** With fewer full splits the deviation says little. This program's own rule. */
const fewSplits = 6

/** The first row of a race or trial: finish and gap to the goal, then halves, fastest and slowest splits, the running
 * times next to the even card of the plan's race or the day's goal. Empty for other work. */
export function raceRow(work: WorkView, view: SummaryView): Row[] {
  const { goal: race } = work.item
  if (race === null) return []
  const figures = [
    halvesPhrase(work, view),
    extremesPhrase('fastest splits', race.fastest, work.done),
    extremesPhrase('slowest splits', race.slowest, work.done),
    cardPhrase(race, view),
  ]
  return [rowOf(nameOf(work, view), finishPhrase(race), figures)]
}

/** What was done of a work, and its figures; empty if nothing was. */
export function workRow(work: WorkView, view: SummaryView): Row[] {
  const { splits } = work.done
  const [only, ...others] = splits
  if (only === undefined) return []
  const lead = others.length === 0 ? onlySplit(only, work, view) : leadPhrase(work, view)
  // A race begins with its halves.
  const halves = work.item.goal === null ? halvesPhrase(work, view) : ''
  const figures = [joined('; ', [halves, goalPhrase(work, view)]), deviationPhrase(work, view)]
  const row = rowOf(nameOf(work, view), lead, figures)
  if (others.length === 0) return [row]
  if (!view.bars) return [{ ...row, splits: splitsPhrase(work.done, view) }]
  const rows = splits.map((split) => splitRow(split, view.distance))
  const texts = rows.map(({ text, beside }) => joined(' ', [text, beside && `(${beside})`]))
  return [{ ...row, splits: texts.join(', '), bars: barLinesOf(rows, work.done, view) }]
}

/** The splits below each other with their bars, and what the ends of the scale are. */
function barLinesOf(rows: readonly SplitRow[], done: DoneWork, view: SummaryView): string[] {
  const { lines, hasBars } = barLines(rows, view.columns - indent)
  const indented = lines.map((line) => ' '.repeat(indent) + line)
  const [shortest = 0, longest = 0] = extent(rows, ({ bar }) => bar?.value)
  const [from, to] = [longest, shortest].map((pace) => formatPace(pace, paceUnitOf(done, view), 1))
  if (!hasBars || from === to) return indented
  const scale = `the longest bar is ${from}, the shortest ${to}; longer is slower`
  return [...indented, ...wrapped(scale, view.columns, indent)]
}

/** A split with the bar of its pace: `4:07.2`, `820 m in 3:00`. */
export function splitRow(split: DoneSplit, distance: DistanceUnit): SplitRow {
  return { text: splitText(split, distance), bar: barOf(split), beside: besideText(split) }
}

/** The name of a work: in a note up to its first comma, with bars as it was written. */
function nameOf({ item }: WorkView, view: SummaryView): string {
  return view.bars ? item.text : workName(item.text)
}

/** `20:35, 4:07/km, in range, hr 171` */
function onlySplit(split: DoneSplit, { done, item: { secondsPerKm } }: WorkView, view: SummaryView): string {
  return joined(', ', [
    splitText(split, view.distance),
    secondsPerKm !== null && paceText(secondsPerKm, done, view),
    split.target === 'in' && 'in range',
    besideText(split),
  ])
}

function barOf({ result, range, target }: DoneSplit): SplitBar | null {
  if (!hasBoth(result)) return null
  const pace = (seconds: number) => secondsPerKm(result.meters, seconds)
  return {
    value: pace(result.seconds),
    range: range && { from: pace(range.from), to: pace(range.to) },
    target,
  }
}

/** The unit of a work's paces: 500 m where its pace is written for each 500 m, and, if none is written, on a rower, a boat
 * or a ski machine by the part's name. Common practice, no source. */
function paceUnitOf({ work, part }: DoneWork, { state, distance }: SummaryView): PaceUnit {
  const { kind, name } = state.parts[part]!
  const isRowed = work.paceUnit === null && kind === 'cross' && isRowing(name ?? '')
  return work.paceUnit === '500 m' || isRowed ? '500 m' : distance
}

/** `4:07/km`, `2:02.5/500 m`, which is usually read to a tenth. */
function paceText(secondsPerKm: number, done: DoneWork, view: SummaryView): string {
  const unit = paceUnitOf(done, view)
  return formatPace(secondsPerKm, unit, unit === '500 m' ? 1 : 0)
}

/** The text beside the name of an interval: `20:35, 4:07/km, 5 of 5 in range`, of repeats
 * `mean 1:48.8, 5 of 6 in range`. */
function leadPhrase({ item, done }: WorkView, view: SummaryView): string {
  const { meanSeconds, seconds, secondsPerKm, inRange, judged } = item
  // A race begins with its time.
  if (item.goal !== null) return ''
  const isMean = done.work.repeats && meanSeconds !== null
  return joined(', ', [
    isMean && `mean ${formatClock(meanSeconds, 1)}`,
    !isMean && seconds !== null && formatClockShort(seconds),
    !isMean && secondsPerKm !== null && paceText(secondsPerKm, done, view),
    judged > 1 && `${inRange} of ${judged} in range`,
  ])
}

/** `negative split, 1.0 %`, of repeats `second half 0.7 % faster`; in full and of a race followed by the paces of the
 * halves, `: 3:56.0, then 3:54.4/km`. */
function halvesPhrase({ item: { halves, goal }, done }: WorkView, view: SummaryView): string {
  if (halves === null) return ''
  const { changePercent, shape } = halves
  const percent = `${toDecimals(Math.abs(changePercent), 1)} %`
  const ofRun = shape === 'even' ? 'even split' : `${shape} split, ${percent}`
  const ofRepeats =
    shape === 'even'
      ? 'both halves even'
      : `second half ${percent} ${changePercent < 0 ? 'faster' : 'slower'}`
  const text = done.work.repeats ? ofRepeats : ofRun
  if (!view.full && goal === null) return text
  const pace = (secondsPerKm: number) => formatPace(secondsPerKm, paceUnitOf(done, view), 1)
  return `${text}: ${pace(halves.firstSecondsPerKm).split('/')[0]}, then ${pace(halves.secondSecondsPerKm)}`
}

/** `4:09  4:08  4:07.2  4:06 fast  4:05    hr 161 to 174, rpe 8` */
function splitsPhrase({ splits }: DoneWork, view: SummaryView): string {
  const times = splits.map((split) => joined(' ', [splitText(split, view.distance), outside(split)]))
  const isLong = times.some((time) => time.includes(','))
  const alike = neighbours(times, (time, before) => isLong && time === before)
  const texts = alike.map((same) => `${same[0]}${same.length > 1 ? ` (${same.length} times)` : ''}`)
  const beside = [spanOf('hr', splits, 'heartRate'), spanOf('rpe', splits, 'rpe')]
  return joined('    ', [texts.join(isLong ? '; ' : '  '), joined(', ', beside)])
}

/** `hr 161 to 174` */
function spanOf(name: string, splits: readonly DoneSplit[], of: 'heartRate' | 'rpe'): string {
  const [low, high] = extent(splits, ({ result }) => result[of])
  if (low === undefined) return ''
  return low === high ? `${name} ${low}` : `${name} ${low} to ${high}`
}

function deviationPhrase({ item, done }: WorkView, view: SummaryView): string {
  const { sdSeconds, cvPercent, rangeSeconds, fadePercentPerSplit } = item
  if (sdSeconds === null || cvPercent === null) return ''
  const isShort = (done.work.nominalMeters ?? shortestMeters) < shortestMeters
  if (!view.full && (isShort || fullSplits(done).length < fewSplits)) return ''
  return joined(', ', [
    `standard deviation ${toDecimals(sdSeconds, 1)} s (${toDecimals(cvPercent, 1)} % of the mean)`,
    view.full && `range ${toDecimals(rangeSeconds ?? 0, 1)} s`,
    fadePercentPerSplit !== null && `fade ${signed(fadePercentPerSplit, 2)} % a split`,
  ])
}

function goalPhrase({ item, done }: WorkView, { summary, full, distance }: SummaryView): string {
  const { goal } = summary.running
  const longest = Math.max(0, ...done.splits.map(({ result }) => result.meters ?? 0))
  const meters = done.work.repeats ? longest : (item.meters ?? 0)
  if (!full && meters < 1000) return ''
  if (item.offGoalSecondsPerKm === null || goal === null || item.goal !== null) return ''
  const off = paceIn(item.offGoalSecondsPerKm, distance)
  const pace = formatPace(goal.secondsPerKm, distance)
  // The pace is shown in whole seconds.
  if (Math.abs(off) < 0.5) return `at goal pace ${pace}`
  return `${toDecimals(Math.abs(off), 1)} s/${distance} ${off < 0 ? 'faster' : 'slower'} than goal pace ${pace}`
}

/** The result of one split, as typed: `1:49.2`, `820 m in 3:00`, `2 km, not timed`. */
function splitText({ step, result }: DoneSplit, distance: DistanceUnit): string {
  const { meters, seconds } = result
  const isAsPrescribed = step.seconds === null && meters === step.meters
  const far = meters === null ? null : formatAsWritten(meters, distance)
  if (seconds === null) return far === null || isAsPrescribed ? 'done, not timed' : `${far}, not timed`
  const clock = formatClockShort(seconds, result.precision)
  if (isAsPrescribed) return clock
  return far === null ? `${clock}, metres not known` : `${far} in ${clock}`
}

/** Remarks after a split: `slow`, `hr 171/183`, `rpe 8`; empty without any. */
function besideText(split: DoneSplit): string {
  return joined(' ', [outside(split), ...effortTexts(split.result)])
}

function outside({ target }: DoneSplit): string {
  return target === 'fast' || target === 'slow' ? target : ''
}

type Race = NonNullable<RunningItem['goal']>

/** `finish 39:12, 18 s ahead of the goal 39:30` */
function finishPhrase({ finishSeconds, offGoalSeconds }: Race): string {
  const finish = `finish ${formatClockShort(finishSeconds)}`
  if (offGoalSeconds === null) return finish
  return `${finish}, ${offGoalText(offGoalSeconds)} ${formatClock(finishSeconds - offGoalSeconds)}`
}

/** `fastest splits: 3:51 (10), 3:52 (9), 3:54 (1)` */
function extremesPhrase(name: string, numbers: readonly number[], done: DoneWork): string {
  if (numbers.length === 0) return ''
  const times = new Map(fullSplits(done).map(({ number, seconds }) => [number, seconds]))
  return `${name}: ${numbers.map((number) => `${formatClockShort(times.get(number) ?? 0)} (${number})`).join(', ')}`
}

/** A distance as it was written, unless another unit was asked for. */
export function metersIn(meters: number, { state, distance }: SummaryView): string {
  return (distance === state.prescription.units.distance ? formatAsWritten : formatMeters)(meters, distance)
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
    return `${metersIn(meters, view)} ${formatClock(Math.round(cardSeconds))}, ${off === 0 ? 'on it' : gapText(off)}`
  })
  const pace = formatPace((first.cardSeconds / first.meters) * 1000, view.distance)
  const raced = cardRaceOf(last.meters, view.summary.running.goal, view.context.race)
  return `even card${raced?.isPlans ? ' of the plan' : ''} ${pace}: ${places.join('; ')}`
}
