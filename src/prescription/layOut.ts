import { expandLiftItem, type RampOf } from './layOutLift.ts'
import { expandRunItem } from './layOutRun.ts'
import type { Part, Prescription } from './model.ts'
import type { ExpandedItem, ExpandedPart, Step } from './step.ts'

/** A day as the steps it is walked in, part by part and item by item.
 * @param rampOf how warm-up ramps are made up, which depends on the plates at hand */
export function expand(prescription: Prescription, rampOf: RampOf): ExpandedPart[] {
  return prescription.parts.map((part, index) => ({
    kind: part.kind,
    name: part.name,
    items: withRecoveriesCounted(layOutItems(part, index, prescription, rampOf)),
  }))
}

function layOutItems(
  part: Part,
  partIndex: number,
  prescription: Prescription,
  rampOf: RampOf,
): ExpandedItem[] {
  const placeOf = (item: number) => ({ part: partIndex, item })
  const idOf = (item: number, letter: string) => `${partIndex + 1}.${item + 1}.${letter}1`
  switch (part.kind) {
    case 'prep':
      return part.items.map((prep, item) => ({
        text: prep.text,
        line: prep.line,
        steps: [{ id: idOf(item, 'x'), ...placeOf(item), kind: 'prep', prep }],
        works: [],
      }))
    case 'fuel':
      return part.items.map((fuel, item) => ({
        text: fuel.text,
        line: fuel.line,
        steps: [{ id: idOf(item, 'f'), ...placeOf(item), kind: 'fuel', fuel }],
        works: [],
      }))
    case 'lift':
      return part.items.map((lift, item) => expandLiftItem(lift, placeOf(item), prescription, rampOf))
    default: {
      const treadmill = /treadmill/i.test(part.name ?? '')
      return part.items.map((run, item) => expandRunItem(run, { ...placeOf(item), treadmill }, prescription))
    }
  }
}

/** A recovery on a line of its own counts as run once anything of the item before it is recorded. */
function withRecoveriesCounted(items: ExpandedItem[]): ExpandedItem[] {
  return items.map((item, index) => {
    const before = items
      .slice(0, index)
      .reverse()
      .find((earlier) => earlier.steps.some((step) => step.kind === 'piece'))
    const pieces = before?.steps.filter((step) => step.kind === 'piece').map((step) => step.id) ?? []
    const steps = item.steps.map(
      (step): Step =>
        step.kind === 'recovery' && step.countsWith.length === 0 ? { ...step, countsWith: pieces } : step,
    )
    return { ...item, steps }
  })
}
