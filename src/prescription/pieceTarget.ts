import { timeRange, timeRangeOfPace } from '../figures/range.ts'
import { metersOf } from '../units/length.ts'
import type { Prescription, Span, Target } from './model.ts'
import type { PieceTarget } from './step.ts'

const metersOfPer = { km: 1000, mi: 1609.344, '500 m': 500 } as const
const metersPerHour = { 'km/h': 1000, mph: 1609.344 } as const

/** Seconds per kilometre of the file's goal; null without a goal. */
export function goalSecondsPerKm(prescription: Prescription): number | null {
  if (!prescription.goal) return null
  return prescription.goal.seconds / (metersOf(prescription.goal.length, lapMetersOf(prescription)) / 1000)
}

/** Metres of one lap where no lane is named: the header's, else 400. */
export function lapMetersOf(prescription: Prescription): number {
  return prescription.lap ? metersOf(prescription.lap) : 400
}

/** The pace range that a target asks for, in seconds per kilometre, not yet widened; null when it fixes no pace.
 * @param wholeMeters what an `in` target is shared out over: the whole piece */
function paceOf(target: Target, wholeMeters: number | null, prescription: Prescription): Span | null {
  switch (target.kind) {
    case 'pace': {
      const kilometers = metersOfPer[target.per] / 1000
      return { from: target.from / kilometers, to: target.to / kilometers }
    }
    case 'speed': {
      const kilometersPerHour = metersPerHour[target.unit] / 1000
      return { from: 3600 / (target.to * kilometersPerHour), to: 3600 / (target.from * kilometersPerHour) }
    }
    case 'goal': {
      const goal = goalSecondsPerKm(prescription)
      return goal === null ? null : { from: goal, to: goal }
    }
    case 'time': {
      if (wholeMeters === null) return null
      return { from: target.from / (wholeMeters / 1000), to: target.to / (wholeMeters / 1000) }
    }
    default:
      return null
  }
}

/** What one piece is held against.
 * @param meters of this piece or split; null when it is given by time
 * @param wholeMeters of the whole piece that an `in` target is for
 * @returns null when nothing is prescribed */
export function pieceTargetOf(
  target: Target | null,
  heartRate: Span | null,
  meters: number | null,
  wholeMeters: number | null,
  prescription: Prescription,
): PieceTarget | null {
  if (!target && !heartRate) return null
  const pace = target ? paceOf(target, wholeMeters, prescription) : null
  const seconds = pace && meters !== null ? timeRangeOfPace(pace, meters) : null
  return {
    seconds,
    secondsPerKm: seconds && meters !== null ? scaled(seconds, 1000 / meters) : pace && timeRange(pace),
    rpe: target?.kind === 'rpe' ? { from: target.from, to: target.to } : null,
    heartRate: heartRate ?? (target?.kind === 'heartRate' ? { from: target.from, to: target.to } : null),
    word: target?.kind === 'word' ? target.word : null,
  }
}

function scaled(span: Span, factor: number): Span {
  return { from: span.from * factor, to: span.to * factor }
}
