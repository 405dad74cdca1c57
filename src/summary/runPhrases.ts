import { formatClock } from '../units/duration.ts'
import { formatPace } from '../units/pace.ts'
import type { RunningItem } from './model.ts'
import type { DoneWork } from './performed.ts'
import type { SummaryView } from './view.ts'

/** Below so many splits the spread of them says little. Invented. */
const fewSplits = 6
const noise = 1e-6

/** What the figures of a piece of work say, each phrase a line of its own. */
export function itemPhrases(item: RunningItem, done: DoneWork, view: SummaryView): string[] {
  return [
    meanPhrase(item, done, view),
    spreadPhrase(item, view),
    halvesPhrase(item, done, view),
    goalPhrase(item, view),
  ].filter((phrase) => phrase !== '')
}

function meanPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const texts: string[] = []
  if (item.meanSeconds !== null) texts.push(`mean ${formatClock(item.meanSeconds, 1)}`)
  if (item.splits.length > 1 && item.secondsPerKm !== null)
    texts.push(formatPace(item.secondsPerKm, view.distance))
  if (item.rangeSeconds !== null) texts.push(`spread ${item.rangeSeconds.toFixed(1)} s`)
  if (item.judged > 1) texts.push(`${item.inRange} of ${item.judged} in ${rangeText(done)}${spareText(done)}`)
  return texts.join(', ')
}

/** The range of a full split, where all have the same. */
function rangeText(done: DoneWork): string {
  const ranges = new Set(
    done.splits
      .filter((split) => split.range && !split.step.short)
      .map(({ range }) => (range ? clockSpan(range) : '')),
  )
  const [only] = ranges
  return ranges.size === 1 && only !== undefined ? only : 'range'
}

/** Said where a split beyond an end counts as in all the same. */
function spareText(done: DoneWork): string {
  const isSpared = done.splits.some(({ result: { seconds }, range, target }) => {
    if (target !== 'in' || range === null || seconds === null) return false
    return seconds < range.from - noise || seconds > range.to + noise
  })
  return isSpared ? ' (ends with half a digit to spare)' : ''
}

function clockSpan(range: { from: number; to: number }): string {
  const text = (seconds: number) =>
    formatClock(seconds, Number.isInteger(Math.round(seconds * 1000) / 1000) ? 0 : 1)
  return `${text(range.from)}-${text(range.to)}`
}

/** Standard deviation, coefficient of variation and fade. */
function spreadPhrase(item: RunningItem, view: SummaryView): string {
  const { sdSeconds, cvPercent, fadePercentPerSplit } = item
  if (sdSeconds === null || cvPercent === null) return ''
  if (!view.full && item.splits.length < fewSplits) return ''
  const fade = fadePercentPerSplit === null ? '' : `, fade ${signed(fadePercentPerSplit, 2)} % a split`
  return `standard deviation ${sdSeconds.toFixed(1)} s (${cvPercent.toFixed(1)} % of the mean)${fade}`
}

function halvesPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const { halves } = item
  if (!halves) return ''
  const [first, second] = [halves.firstSecondsPerKm, halves.secondSecondsPerKm].map((pace) =>
    formatPace(pace, view.distance, 1),
  )
  const whose = done.work.repeats ? 'first and second half of the repeats' : 'halves'
  const percent = Math.abs(halves.changePercent).toFixed(1)
  const faster = `${percent} % ${halves.changePercent < 0 ? 'faster' : 'slower'}`
  const named = done.work.repeats ? faster : `${faster}, a ${halves.shape} split`
  const shape = halves.shape === 'even' ? 'even' : named
  return `${whose} ${first?.split('/')[0]}, ${second}: ${shape}`
}

function goalPhrase(item: RunningItem, view: SummaryView): string {
  const goal = view.summary.running.goal
  if (item.offGoalSecondsPerKm === null || goal === null) return ''
  const scale = view.distance === 'km' ? 1 : 1.609344
  const off = item.offGoalSecondsPerKm * scale
  const pace = formatPace(goal.secondsPerKm, view.distance)
  if (Math.abs(off) < 0.05) return `at goal pace ${pace}`
  return `${Math.abs(off).toFixed(1)} s/${view.distance} ${off < 0 ? 'faster' : 'slower'} than goal pace ${pace}`
}

function signed(value: number, digits: number): string {
  const text = value.toFixed(digits)
  return value > 0 ? `+${text}` : text
}
