import { lapMetersOfLane } from '../figures/lanes.ts'
import { lapMetersOf } from '../prescription/pieceTarget.ts'
import type { PieceStep } from '../prescription/step.ts'
import type { WalkState } from '../session/state.ts'
import { formatClock } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'
import type { NowText } from './nowText.ts'

/** What a piece of running asks for: how far or how long, in which time, and what a lap of the track then takes. */
export function pieceText(state: WalkState, step: PieceStep): NowText {
  const unit = state.prescription.units.distance
  const amount = step.meters !== null ? formatMeters(step.meters, unit) : formatClock(step.seconds ?? 0)
  const range = step.target?.seconds ?? null
  const target = targetText(step, unit)
  const lap = lapText(state, step)
  const what = [`${amount}${target ? ` ${target}` : ''}`, lap].filter(Boolean).join(', ')
  const where = step.of > 1 ? `${step.split ? 'split' : 'repeat'} ${step.number} of ${step.of}` : ''
  const extra = [where, step.negative ? 'second half faster' : '', gradeText(step), ...step.notes]
  const number = range ? clockSpan({ from: Math.round(range.from), to: Math.round(range.to) }, 0) : null
  return { what, where: extra.filter(Boolean).join(', '), number }
}

function gradeText(step: PieceStep): string {
  return step.grade === null ? '' : `grade ${step.grade} %`
}

const kilometersOf = { km: 1, mi: 1.609344 } as const

function targetText(step: PieceStep, unit: 'km' | 'mi'): string {
  const { target } = step
  if (!target) return ''
  if (target.seconds)
    return `in ${clockSpan(target.seconds, step.meters !== null && step.meters < 1000 ? 1 : 0)}`
  const bits = [
    target.secondsPerKm ? `at ${clockSpan(scaled(target.secondsPerKm, kilometersOf[unit]), 0)}/${unit}` : '',
    target.word ?? '',
    target.rpe ? `at rpe ${plainSpan(target.rpe)}` : '',
    target.heartRate ? `at heart rate ${plainSpan(target.heartRate)}` : '',
  ]
  return bits.filter(Boolean).join(', ')
}

/** On a track a pace is felt as a lap; said where a piece is longer than one. */
function lapText(state: WalkState, step: PieceStep): string {
  const part = state.parts[step.part]
  const onTrack = step.lane !== null || state.prescription.lap !== null || /track/i.test(part?.name ?? '')
  const lap = step.lane === null ? lapMetersOf(state.prescription) : lapMetersOfLane(step.lane)
  const pace = step.target?.secondsPerKm
  if (!onTrack || !pace || step.meters === null || step.meters <= lap) return ''
  return `lap ${clockSpan(scaled(pace, lap / 1000), 1)}`
}

function clockSpan(span: { from: number; to: number }, decimals: 0 | 1): string {
  const [from, to] = [formatClock(span.from, decimals), formatClock(span.to, decimals)]
  return from === to ? from : `${from}-${to}`
}

function scaled(span: { from: number; to: number }, factor: number) {
  return { from: span.from * factor, to: span.to * factor }
}

function plainSpan(span: { from: number; to: number }): string {
  return span.from === span.to ? `${span.from}` : `${span.from}-${span.to}`
}
