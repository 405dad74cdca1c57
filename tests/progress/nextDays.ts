import { rackOf, usualPlates } from '../../src/figures/bar.ts'
import type { Load } from '../../src/prescription/model.ts'
import { type AtHand, heavierLoad, lighterLoad } from '../../src/progress/loadSteps.ts'
import { type Next, nextOf as nextWith } from '../../src/progress/next.ts'
import { type DatedPain, standingPains } from '../../src/progress/pain.ts'
import { painsAndSigns } from '../../src/session/pain.ts'
import type { SessionState } from '../../src/session/state.ts'
import { dayOf } from '../day.ts'
import { Kept } from '../summary/kept.ts'

/* Days of the invented athlete about which `next` decides. */

export const today = '2026-11-26'
/** A bar of 20 kg and the usual plates, of which 1.25 kg is the lightest. */
export const atHand = (unit: 'kg' | 'lb') => ({
  rack: rackOf({ bar: unit === 'kg' ? 20 : 45, collar: 0, plates: usualPlates[unit] }),
  smallest: unit === 'kg' ? 1.25 : 2.5,
})

/** What follows from a day, with the pains noted on it unless given. */
export function nextOf(
  state: SessionState,
  earlier: Iterable<SessionState>,
  today: string,
  atHand: (unit: 'kg' | 'lb') => AtHand,
  pains: readonly DatedPain[] = standingPains(painsAndSigns(state)),
  ranOn: string | null = null,
  later: Iterable<SessionState> = [],
): Next {
  return nextWith(state, earlier, later, { today, atHand, pains, ranOn })
}

/** A lighter load, by share of the load or at most 10 % off, or a heavier one of at least `least`. */
export function changedLoad(
  load: Load,
  share: number,
  toward: 'share' | 'near' | 'above',
  atHand: (unit: 'kg' | 'lb') => AtHand,
  { name, bodyKg, least }: { name: string; bodyKg: number | null; least: number },
): Load | null {
  const lifter = { name, side: null, bodyKg, atHand }
  return toward === 'above'
    ? heavierLoad(load, least, lifter)
    : lighterLoad(load, share, toward === 'near', lifter)
}

/** A day with these lines and what was entered for them, one after the other.
 * @param effort of its first part, which then took 30 min */
export function state(
  date: string,
  lines: string,
  entries: string,
  effort: number | null = null,
): SessionState {
  const day = new Kept(dayOf(`A day\nathlete: 70 kg\n${lines}\n`)).type(...entries.split(', '))
  if (effort !== null) day.close(0, effort, 30)
  return { ...day.state, date }
}

/** The reasons for the newest of these days, each with its date. */
export function reasons(
  lines: string,
  days: [date: string, entries: string, effort?: number][],
  asked = today,
): string[] {
  const [now, ...before] = days
    .map(([date, entries, effort]) => state(date, lines, entries, effort))
    .reverse()
  if (now === undefined) throw new Error('no day')
  return nextOf(now, before, asked, atHand).decisions.map(({ decision, reason }) => `${decision}: ${reason}`)
}
