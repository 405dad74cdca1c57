import { greatest } from 'd3-array'
import { isClearCost } from '../figures/longTerm.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { runCostOf } from '../progress/lift.ts'
import { isRecent, type PastPain } from '../progress/pain.ts'
import { lineKey } from '../progress/run.ts'
import { dayWithin } from '../progress/weeks.ts'
import type { LastTimeOf } from '../recorder/model.ts'
import { kilogramsOfLoad, typedLoad } from '../session/load.ts'
import { isSign, needsADoctor } from '../session/pain.ts'
import { shortSetsText } from '../summary/liftingText.ts'
import { dayAfter } from '../units/calendarDate.ts'
import { formatClockShort } from '../units/duration.ts'
import { formatAsWritten } from '../units/length.ts'
import { type Known, remembered } from './known.ts'

/** Days after which a session no longer counts as "last time". */
const lastTimeWithin = 366

/** What the recorder knows from other days, last time's sets and the best before looked up when first asked; `isUnwell`:
 * a sign that needs a doctor was noted today. */
export function earlierDays(known: Known) {
  const { today } = known
  const oldest = dayAfter(today, -lastTimeWithin)
  const lately = () => known.entries.filter(({ date }) => date >= oldest)
  const nameOf = (date: string) => dayWithin({ from: date, to: today }, date)
  const lifts = known.entries
    .filter(({ date }) => date === today)
    .flatMap(({ brief, lifted }) => brief.exercises.flatMap((name) => lifted(exerciseKey(name)) ?? []))
  const isOfToday = (pain: PastPain) => pain.date === today
  return {
    lastTime: remembered((key: LastTimeOf) => lastTime(lately(), key, nameOf)),
    bestBefore: (exercise: string, reps: number) => bestBefore(known.entries, exercise, reps, nameOf),
    exercises: remembered(() => [...new Set(lately().flatMap(({ brief }) => brief.exercises))]),
    runCost: remembered((exercise: string) => {
      const cost = runCostOf(known.entries, exerciseKey(exercise), today)
      return cost !== null && isClearCost(cost) ? cost : null
    }),
    earlierToday: {
      pains: known.pains.filter((pain) => isOfToday(pain) || (isRecent(pain, today) && isSign(pain))),
      hasFailed: lifts.some(({ sets }) => sets.some(({ failed }) => failed)),
    },
    isUnwell: known.pains.some((pain) => isOfToday(pain) && needsADoctor(pain)),
  }
}

/** The name of a date: `26 Nov`, with its year if that is over. */
type NameOf = (date: string) => string

function lastTime(entries: readonly IndexEntry[], key: LastTimeOf, nameOf: NameOf): string | null {
  for (const entry of entries) {
    const sets = 'exercise' in key ? (entry.lifted(exerciseKey(key.exercise))?.sets ?? []) : []
    const text = 'exercise' in key ? shortSetsText(sets, key.unit) : runText(entry, key)
    if (text !== '') return `${nameOf(entry.date)}: ${text}`
  }
  return null
}

function runText(
  { running, brief, summary }: IndexEntry,
  { text, far }: Extract<LastTimeOf, { text: string }>,
): string {
  const cross = brief.parts.some(({ kind }) => kind === 'cross') ? (summary()?.cross.items ?? []) : []
  const key = lineKey(text)
  // A range that has moved on is still the same line.
  const alike = [...running.items, ...cross].filter((each) => lineKey(each.text) === key)
  const plain = (line: string) => line.toLowerCase().replace(/\s+/g, '')
  const item = alike.find((each) => plain(each.text) === plain(text)) ?? alike[0]
  const done = item?.splits.flatMap(({ seconds, meters }) => {
    if (far !== undefined) return meters === null ? [] : [formatAsWritten(meters, far)]
    return seconds === null ? [] : [formatClockShort(seconds)]
  })
  return (done ?? []).join(far === undefined ? ' ' : ', ')
}

/** The heaviest load lifted for at least this many repetitions without a pause. */
function bestBefore(entries: readonly IndexEntry[], exercise: string, reps: number, nameOf: NameOf) {
  const lifted = entries.flatMap((entry) =>
    (entry.lifted(exerciseKey(exercise))?.sets ?? []).flatMap(({ load, groups, isTotal, reps: done }) => {
      if (load === null || groups !== null || isTotal || (done ?? 0) < reps) return []
      return [{ load, date: entry.date, kg: kilogramsOfLoad(load) }]
    }),
  )
  const best = greatest(lifted, ({ kg }) => kg)
  if (best === undefined) return null
  return { kg: best.kg, text: `${typedLoad(best.load, null)}, ${nameOf(best.date)}` }
}
