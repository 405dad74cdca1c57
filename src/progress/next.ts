import type { LiftItem, Prescription } from '../prescription/model.ts'
import { printItem } from '../prescription/print.ts'
import { painsAndSigns } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { worksDone } from '../summary/performed.ts'
import type { MassUnit } from '../units/model.ts'
import { liftLines } from './liftDays.ts'
import type { AtHand } from './loadSteps.ts'
import { decideLift } from './nextLift.ts'
import { type Decision, decideRun, type Made, workAt } from './nextRun.ts'
import { type DatedPain, standingPains } from './pain.ts'

/* Decides, line by line, what changes in the next session like this one. These are this program's own rules; only the
 * slow loss of strength has a source (Mujika & Padilla 2000). A line without a rule stays as it is. */

export interface Next {
  /** Without a date, because it is for another day. */
  prescription: Prescription
  decisions: Decision[]
  /** The pains that count today, whether or not a line stays as it is for them. */
  pains: readonly DatedPain[]
}

/** @param earlier the sessions before it, newest first; read only as far as needed
 * @param today local date of the decision, YYYY-MM-DD
 * @param atHand the loads that can be made, by unit
 * @param pains that count today
 * @param ranOn the date of the last run of any kind; null if unknown
 * @param later the sessions after it, newest first; read as those before it */
export function nextOf(
  state: SessionState,
  earlier: Iterable<SessionState>,
  today: string,
  atHand: (unit: MassUnit) => AtHand,
  pains: readonly DatedPain[] = standingPains(painsAndSigns(state)),
  ranOn: string | null = null,
  later: Iterable<SessionState> = [],
): Next {
  const prescription: Prescription = { ...structuredClone(state.prescription), date: null }
  const others = { later: remembered(later), before: remembered(earlier) }
  const decisions: Decision[] = []
  for (const run of worksDone(state, 'run')) {
    decide(run, decideRun(state, run, workAt(prescription, run), others, pains, today, ranOn))
  }
  for (const line of liftLines(state)) {
    const item = prescription.parts[line.part]?.items[line.item] as LiftItem
    decide(line, decideLift(state, line, item, others, pains, today, atHand))
  }
  return { prescription, decisions, pains }

  function decide({ part, item }: { part: number; item: number }, made: Made): void {
    if (made.decision === null) return
    decisions.push({ part, item, ...made })
    const changed = prescription.parts[part]?.items[item]
    if (made.decision !== 'same' && changed) changed.text = printItem(changed)
  }
}

/** How many sessions before and after are read for a line that was not done recently. */
const mostReadSessions = 60

/** Reads other sessions once, and only as far as they are needed. */
function remembered(earlier: Iterable<SessionState>): Iterable<SessionState> {
  const known: SessionState[] = []
  const rest = earlier[Symbol.iterator]()
  return {
    *[Symbol.iterator]() {
      for (let at = 0; at < mostReadSessions; at++) {
        const state = known[at] ?? rest.next().value
        if (state === undefined) return
        known[at] = state
        yield state
      }
    },
  }
}
