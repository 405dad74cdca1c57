import type { Dose } from '../prescription/model.ts'
import { NotTaken } from './entryText.ts'

/* The groups of a cluster set. */

type Groups = Extract<Dose, { kind: 'cluster' }>['groups']

/** The groups as prescribed; null when one of them is as many as go. */
export function prescribedGroups(groups: Groups): number[] | null {
  const counted = groups.filter((group) => group !== 'max')
  return counted.length === groups.length ? counted : null
}

/** The groups that were done, those not typed filled up with 0. */
export function doneGroups(typed: readonly number[], groups: Groups): number[] {
  return [...typed, ...Array<number>(Math.max(0, groups.length - typed.length)).fill(0)]
}

/** The groups of a set that was typed as its total.
 * @param rest what was typed behind the total, for the suggestion: " x 140"
 * @throws NotTaken that asks which groups, when the total is not the prescribed one */
export function groupsOfTotal(total: number, groups: Groups, rest: (groups: string) => string): number[] {
  const prescribed = prescribedGroups(groups)
  if (prescribed !== null && sum(prescribed) === total) return prescribed
  if (groups.length === 1) return [total]
  if (total === 0) return groups.map(() => 0)
  const filled = filledInOrder(total, groups).join('+')
  const even = spreadEvenly(total, groups.length).join('+')
  const turned = filled.split('+').reverse().join('+')
  const other = even === filled ? turned : even
  const isSecond = other !== filled && !other.startsWith('0')
  throw new NotTaken(
    `${total} ${total === 1 ? 'repetition' : 'repetitions'} in groups: ${filled}${isSecond ? ` or ${other}` : ''}?`,
    rest(filled),
  )
}

function filledInOrder(total: number, groups: Groups): number[] {
  let left = total
  return groups.map((group, index) => {
    const done = group === 'max' || index === groups.length - 1 ? left : Math.min(left, group)
    left -= done
    return done
  })
}

function spreadEvenly(total: number, count: number): number[] {
  return Array.from(
    { length: count },
    (_, index) => Math.floor(total / count) + (index < total % count ? 1 : 0),
  )
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}
