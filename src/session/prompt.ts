import type { Span } from '../prescription/model.ts'
import { hasResult, type IntervalStep, type ResultStep, type SetStep } from '../prescription/step.ts'
import { isRaceWord } from '../prescription/words.ts'
import { roundTo } from '../units/decimal.ts'
import type { DistanceUnit, MassUnit } from '../units/model.ts'
import { lowerLoadsOf, shownLoadOf } from './load.ts'
import type { FuelResult, IntervalResult, LiftedLoad, Remarks, Result, SetResult } from './model.ts'
import { amountText } from './names.ts'
import {
  measuredOf,
  pendingSteps,
  type Recorded,
  type SessionState,
  stepsAhead,
  stepUnderWay,
} from './state.ts'

/* What the entry line asks for, and what an answer records. The recorder and a results file
 * share these prompts; entry.ts parses the answers. `before`: the result that an entry corrects, of which whatever is
 * not typed stays. */

export interface SetPrompt extends Pick<SetStep, 'kind' | 'name' | 'dose' | 'side'> {
  /** The load of an empty entry: the last one typed on this line today, else the lower end of the
   * prescribed one. Null when the exercise has no load or the load is unknown. */
  shown: LiftedLoad | null
  /** For a drop set, the loads after the first. */
  lower: LiftedLoad[]
  /** The prescribed load is still unknown (only an effort, or a % of an unknown maximum), so it must be typed. */
  loadUnknown: boolean
  /** The unit of a bare load if `shown` has no unit. */
  unit: MassUnit
  /** Whole seconds on the clock for a timed set, if they clearly differ from the prescribed time, or for rounds
   * for time; an empty entry then records them. Null: as prescribed. */
  offered: number | null
  before?: SetResult
}

export interface IntervalPrompt extends Pick<IntervalStep, 'kind' | 'meters' | 'seconds' | 'treadmillSpeed'> {
  /** On foot in a run part; on wheels, water or a machine in a cross part. */
  part: 'run' | 'cross'
  /** A pace, a time or an effort is prescribed, so an empty entry is refused unless there is an `offered` time. */
  hasTarget: boolean
  /** The prescribed range of its time in seconds; null where nothing prescribes one. */
  target: Span | null
  /** The time measured by key in seconds, which an empty entry accepts. For an interval by time, only when it clearly
   * differs from the prescribed one. */
  offered: number | null
  /** The day's unit of distance, which a bare number that must be a distance probably has. */
  unit: DistanceUnit
  /** For messages: "1 mi", "500 m". */
  label: string
  before?: IntervalResult
}

export interface FuelPrompt {
  kind: 'fuel'
  /** What an empty entry records: the prescription. */
  prescribed: FuelResult
  before?: FuelResult
}

export type Prompt = SetPrompt | IntervalPrompt | { kind: 'prep'; before?: Remarks } | FuelPrompt

export type Answer = Result | (Remarks & { kind: 'skipped' })

/** The step whose result the entry line asks for: the oldest pending one, else the one under way, else the next
 * in order. Null when no result is left to enter. */
export function promptedStep(state: SessionState): ResultStep | null {
  const underWay = stepUnderWay(state)
  if (pendingSteps(state).length === 0 && underWay && hasResult(underWay)) return underWay
  return stepsToPrompt(state)[0] ?? null
}

/** The steps that several entries on one line would fill, in order. */
export function stepsToPrompt(state: SessionState): ResultStep[] {
  return [...pendingSteps(state), ...stepsAhead(state).filter(hasResult)]
}

export function promptOf(state: SessionState, step: ResultStep): Prompt {
  switch (step.kind) {
    case 'set': {
      const { shown, unknown } = shownLoadOf(state, step)
      const { dose } = step
      const isTimed = dose.kind === 'time' || dose.kind === 'forTime'
      return {
        kind: 'set',
        name: step.name,
        dose,
        side: step.side,
        shown,
        lower: lowerLoadsOf(state, step),
        loadUnknown: unknown,
        unit: state.prescription.units.mass,
        offered: isTimed
          ? offeredSeconds(measuredOf(state, step.id).seconds, dose.kind === 'time' ? dose.seconds : null, 0)
          : null,
      }
    }
    case 'interval':
      return {
        kind: 'interval',
        part: state.prescription.parts[step.part]?.kind === 'cross' ? 'cross' : 'run',
        meters: step.meters,
        seconds: step.seconds,
        hasTarget: mustBeTimed(step),
        target: step.target?.seconds ?? null,
        offered: offeredSeconds(measuredOf(state, step.id).seconds, step.seconds, 1),
        treadmillSpeed: step.treadmillSpeed,
        unit: state.prescription.units.distance,
        label: amountText(step, state.prescription.units.distance),
      }
    case 'prep':
      return { kind: 'prep' }
    case 'fuel': {
      const { carbsG, proteinG, fatG, kcal } = step.fuel
      return { kind: 'fuel', prescribed: { carbsG, proteinG, fatG, kcal, note: null, pain: null } }
    }
  }
}

/** Asks for a correction of an earlier result; a set is shown at the load of that one. */
export function promptToCorrect(prompt: Prompt, { result }: Recorded): Prompt {
  const correcting = { ...prompt, before: result } as Prompt
  if (correcting.kind !== 'set' || !correcting.before?.load) return correcting
  const { load, loads } = correcting.before
  return { ...correcting, shown: load, lower: loads?.slice(1) ?? correcting.lower, loadUnknown: false }
}

/** Whether a result must be typed. A target is never a result; a word such as easy or tempo gives no figure; a race or
 * a trial needs its time. */
function mustBeTimed({ target }: IntervalStep): boolean {
  return target !== null && (target.word === null || isRaceWord(target.word))
}

/** How far from the prescribed time a key press still counts as on time, in seconds. This program's own rule. */
export const keyTolerance = 2

/** Measured seconds, rounded but never to 0; null if they are so close to the prescribed ones that only the key was
 * late. */
function offeredSeconds(seconds: number | null, prescribed: number | null, decimals: 0 | 1): number | null {
  const isOnTime = seconds !== null && prescribed !== null && Math.abs(seconds - prescribed) <= keyTolerance
  return seconds === null || isOnTime ? null : Math.max(10 ** -decimals, roundTo(seconds, decimals))
}
