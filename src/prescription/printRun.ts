import { printNumber } from '../units/decimal.ts'
import { printDuration, printDurationSpan } from '../units/duration.ts'
import { printLength } from '../units/length.ts'
import { printPace } from '../units/pace.ts'
import type { Amount, Piece, Recovery, Span, Target, Work } from './model.ts'

/** `5-7`, or `5` when both ends are the same. */
export function printSpan(span: Span): string {
  return span.from === span.to ? printNumber(span.from) : `${printNumber(span.from)}-${printNumber(span.to)}`
}

export function printQuoted(notes: readonly string[]): string[] {
  return notes.map((note) => `"${note}"`)
}

/** A work or a recovery as the notation writes it. */
export function printRunStep(step: Work | Recovery): string {
  return step.kind === 'recovery' ? printRecovery(step) : printWork(step)
}

/** One work as the notation writes it, the text of one work inside a group as well:
 * `6 x 500 m @ 3:35-3:45/km, jog 200 m`. */
export function printWork(work: Work): string {
  const times = work.times === null ? '' : `${work.times} x `
  const body =
    work.body.kind === 'group' ? `(${work.body.steps.map(printRunStep).join(', ')})` : printPiece(work.body)
  return [times + body, ...clausesOf(work)].join(', ')
}

function clausesOf(work: Work): string[] {
  const clauses = []
  if (work.recovery !== null) clauses.push(printRecovery(work.recovery))
  if (work.split !== null) clauses.push(`split ${printLength(work.split)}`)
  if (work.negative) clauses.push('negative')
  if (work.lane !== null) clauses.push(`lane ${work.lane}`)
  if (work.grade !== null) clauses.push(`grade ${printNumber(work.grade)}%`)
  if (work.heartRate !== null) clauses.push(`hr ${printSpan(work.heartRate)}`)
  return [...clauses, ...printQuoted(work.notes)]
}

function printPiece(piece: Piece): string {
  const amounts = printAmounts(piece.amounts)
  return piece.target === null ? amounts : `${amounts} ${printTarget(piece.target)}`
}

/** One amount, or a ladder with its one unit at the end. */
export function printAmounts(amounts: readonly Amount[]): string {
  const [first] = amounts
  if (first === undefined || amounts.length === 1) return first === undefined ? '' : printAmount(first)
  if (first.kind === 'time') return printLadderOfTimes(amounts)
  const values = amounts.map((amount) => (amount.kind === 'distance' ? amount.length.value : Number.NaN))
  return `${values.map(printNumber).join('-')} ${first.length.unit === 'lap' ? 'laps' : first.length.unit}`
}

function printLadderOfTimes(amounts: readonly Amount[]): string {
  const seconds = amounts.map((amount) => (amount.kind === 'time' ? amount.seconds : Number.NaN))
  const inMinutes = seconds.every((value) => value % 30 === 0)
  return `${seconds.map((value) => printNumber(inMinutes ? value / 60 : value)).join('-')} ${inMinutes ? 'min' : 's'}`
}

export function printAmount(amount: Amount): string {
  return amount.kind === 'time' ? printDuration(amount.seconds) : printLength(amount.length)
}

export function printTarget(target: Target): string {
  switch (target.kind) {
    case 'pace':
      return `@ ${printPace(target)}`
    case 'speed':
      return `@ ${printSpan(target)} ${target.unit}`
    case 'goal':
      return '@ goal'
    case 'time':
      return `in ${printDurationSpan(target)}`
    case 'rpe':
      return `@ rpe ${printSpan(target)}`
    case 'heartRate':
      return `@ hr ${printSpan(target)}`
    case 'word':
      return target.word
  }
}

/** A recovery as the notation writes it: `jog 200 m`, `walk back`, `rest 1:30`. */
export function printRecovery(recovery: Recovery): string {
  const { amount } = recovery
  return `${recovery.move} ${amount.kind === 'way' ? amount.way : printAmount(amount)}`
}
