import { restOfPiece } from '../../figures/advice/continuous.ts'
import { repeatsAdvice } from '../../figures/advice/repeats.ts'
import type { PieceStep } from '../../prescription/step.ts'
import type { SessionState } from '../../session/state.ts'
import { formatClock } from '../../units/duration.ts'
import { formatMeters } from '../../units/length.ts'
import { isSameItem, stepNow } from '../availability.ts'
import { exactlyOne } from '../labels.ts'

/** The mean so far of a continuous piece, and what the rest of it must be. */
export function restOfPieceAdvice(state: SessionState): string | null {
  const now = stepNow(state)
  if (now?.kind !== 'piece' || !now.split) return null
  const splits = state.steps.filter(
    (step): step is PieceStep => step.kind === 'piece' && isSameItem(step, now) && step.work === now.work,
  )
  const done = { meters: 0, seconds: 0 }
  for (const split of splits) {
    const recorded = state.recorded.get(split.id)
    if (recorded?.kind !== 'piece' || recorded.result.seconds === null) continue
    done.meters += recorded.result.meters ?? split.meters ?? 0
    done.seconds += recorded.result.seconds
  }
  const whole = splits.reduce((sum, split) => sum + (split.meters ?? 0), 0)
  const range = splits.reduce(
    (sum, split) => ({
      from: sum.from + (split.target?.seconds?.from ?? Number.NaN),
      to: sum.to + (split.target?.seconds?.to ?? Number.NaN),
    }),
    { from: 0, to: 0 },
  )
  if (done.meters === 0 || Number.isNaN(range.to)) return null
  const rest = restOfPiece(done, whole, range)
  if (!rest) return null
  const unit = state.prescription.units.distance
  const per = unit === 'km' ? 1 : 1.609344
  const pace = (secondsPerKm: number) => formatClock(secondsPerKm * per)
  const { from, to } = rest.restSecondsPerKm
  const needed = `${exactlyOne(pace(from ?? to), pace(to))}/${unit}${from === null ? ' or faster' : ''}`
  return `mean so far ${pace(rest.meanSecondsPerKm)}/${unit}; the ${formatMeters(rest.restMeters, unit)} left in ${needed} ends in the range`
}

/** Repeats that leave their range. */
export function repeatAdvice(state: SessionState): string | null {
  const now = stepNow(state)
  if (!now || (now.kind !== 'piece' && now.kind !== 'recovery')) return null
  const repeats = state.steps.filter(
    (step): step is PieceStep => step.kind === 'piece' && isSameItem(step, now) && !step.split,
  )
  const first = repeats[0]
  if (!first) return null
  const done = repeats
    .filter((step) => step.work === first.work)
    .flatMap((step) => {
      const recorded = state.recorded.get(step.id)
      if (recorded?.kind !== 'piece' || recorded.result.seconds === null || !step.target?.seconds) return []
      const precision = recorded.result.precision ?? 1
      return [{ seconds: recorded.result.seconds, precision, range: step.target.seconds }]
    })
  return repeatsAdvice(done, first.grade)?.words ?? null
}
