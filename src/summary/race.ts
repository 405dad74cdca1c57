import { toDecimals } from '../units/decimal.ts'
import { formatClock } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'
import { formatPace } from '../units/pace.ts'
import type { RunningItem } from './model.ts'
import type { DoneWork } from './performed.ts'
import { halvesPhrase } from './phrases.ts'
import { cardRaceOf, fullSplits } from './running.ts'
import type { SummaryView } from './summarise.ts'

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
