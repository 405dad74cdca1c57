import { sum } from 'd3-array'
import { type Equipment, usualPlates } from '../../src/figures/bar.ts'
import { exerciseKey } from '../../src/prescription/exercise.ts'
import type { Load } from '../../src/prescription/model.ts'
import type { DecisionContext } from '../../src/progress/decision.ts'
import { heavierLoad, loadNear } from '../../src/progress/loadSteps.ts'
import { type Next, nextOf as nextWith } from '../../src/progress/next.ts'
import { type DatedPain, standingPains } from '../../src/progress/pain.ts'
import { painsAndSigns } from '../../src/session/pain.ts'
import type { SessionState } from '../../src/session/state.ts'
import { exercisesDone, worksDone } from '../../src/summary/performed.ts'
import { dayOf } from '../day.ts'
import { Kept } from '../summary/kept.ts'
import { restDay } from './doneSessions.ts'

/* Days of the invented athlete about which `next` decides. */

export const today = '2026-11-26'
/** A bar of 20 kg for every exercise, and the usual plates, of which 1.25 kg is the lightest. */
export const gear = (unit: 'kg' | 'lb'): Equipment => ({
  bar: unit === 'kg' ? 20 : 45,
  collar: 0,
  plates: usualPlates[unit],
  isOnBar: true,
})

/** What the index has of a session that `next` reads. */
function indexed(state: SessionState): DecisionContext['sessions'][number] {
  const runs = worksDone(state, 'run').map(({ text, splits }) => ({
    text,
    splits: splits.map(({ result }) => result),
    seconds: sum(splits, ({ result }) => result.seconds ?? 0),
    judged: splits.filter(({ target }) => target !== null).length,
  }))
  const lifts = exercisesDone(state).map(({ name }) => exerciseKey(name))
  return {
    date: state.date ?? '',
    day: {
      ...restDay,
      meters: 1000 * runs.flatMap(({ splits }) => splits).length,
      longestMeters: metersIn(state),
    },
    running: { items: runs },
    lifted: (key: string) => (lifts.includes(key) ? {} : null),
  } as unknown as DecisionContext['sessions'][number]
}

/** The metres of its runs. */
function metersIn(state: SessionState): number {
  return sum(worksDone(state, 'run'), ({ splits }) => sum(splits, ({ result }) => result.meters ?? 0))
}

/** A session with an easy run of 5 km, of which nothing else is known. */
const easyRun = (date: string) =>
  ({
    date,
    day: { ...restDay, meters: 5000, longestMeters: 5000 },
    running: { items: [] },
    lifted: () => null,
  }) as unknown as DecisionContext['sessions'][number]

/** What follows from a day, with the pains noted on it unless given.
 * @param ranOn the date of an easy run @param later the sessions after it, newest first */
export function nextOf(
  state: SessionState,
  earlier: readonly SessionState[],
  today: string,
  equipmentOf: (unit: 'kg' | 'lb') => Equipment,
  pains: readonly DatedPain[] = standingPains(painsAndSigns(state)),
  ranOn: string | null = null,
  later: readonly SessionState[] = [],
  taper: string | null = null,
): Next {
  const known = [...later, ...(state.date === null ? [] : [state]), ...earlier]
  const sessions = [...known.map(indexed), ...(ranOn === null ? [] : [easyRun(ranOn)])]
  const newest = sessions.sort((one, other) => other.date.localeCompare(one.date))
  const painsOn = (date: string | null) =>
    standingPains([...earlier, state].filter((each) => each.date === date).flatMap(painsAndSigns))
  return nextWith(state, { earlier, sessions: newest, today, equipmentOf, pains, painsOn, taper })
}

/** A lighter load, by share of the load or at most 10 % off, or a heavier one of at least `least`. */
export function changedLoad(
  load: Load,
  share: number,
  toward: 'share' | 'near' | 'above',
  equipmentOf: (unit: 'kg' | 'lb') => Equipment,
  { name, bodyKg, least }: { name: string; bodyKg: number | null; least: number },
): Load | null {
  const lifter = { name, side: null, bodyKg, equipmentOf }
  return toward === 'above'
    ? heavierLoad(load, least, Number.POSITIVE_INFINITY, lifter)
    : loadNear(load, share, lifter, { isNear: toward === 'near' })
}

/** A day of an athlete of 70 kg with these lines and what was entered for them, one after the other.
 * @param effort of its first part, which then took 30 min */
export function state(
  date: string,
  lines: string,
  entries: string,
  effort: number | null = null,
): SessionState {
  const day = new Kept(dayOf(`A day\n${lines}\n`), { bodyMassKg: 70 }).type(...entries.split(', '))
  if (effort !== null) day.close(0, effort, 30)
  return { ...day.state, date }
}
