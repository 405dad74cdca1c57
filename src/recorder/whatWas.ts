import type { SessionEvent } from '../session/model.ts'
import { stepOf, type WalkState } from '../session/state.ts'
import { stepTitle } from './titles.ts'

/** What an event was, in words for the athlete: "the result of set 3 of 5", "the end of repeat 2 of 6". */
export function whatWas(state: WalkState, event: SessionEvent): string {
  const of = (id: string) => {
    const step = stepOf(state, id)
    return step ? stepTitle(step) : 'a step'
  }
  switch (event.type) {
    case 'setRecorded':
    case 'pieceRecorded':
    case 'prepRecorded':
    case 'fuelRecorded':
      return `the result of ${of(event.step)}`
    case 'mealRecorded':
      return `what was eaten ${event.meal}`
    case 'effortBegun':
      return `the start of ${of(event.step)}`
    case 'effortEnded':
    case 'startForgotten':
      return `the end of ${of(event.step)}`
    case 'groupEnded':
      return `the end of group ${event.group + 1} of ${of(event.step)}`
    case 'groupBegun':
      return `the start of group ${event.group + 1} of ${of(event.step)}`
    case 'stepSkipped':
      return `skipping ${of(event.step)}`
    case 'itemSkipped':
      return 'skipping the rest of the item'
    case 'restChanged':
      return `${event.seconds > 0 ? 'lengthening' : 'shortening'} the rest by ${Math.abs(event.seconds)} s`
    case 'stepAdded':
      return 'the one more'
    case 'exerciseSwapped':
      return `the swap to ${event.name}`
    case 'itemMoved':
      return 'the new order'
    case 'dayCut':
      return 'the cut'
    case 'noteAdded':
      return 'the note'
    case 'conditionsNoted':
      return 'the conditions'
    case 'held':
      return 'the hold'
    case 'resumed':
      return 'going on'
    case 'paceSet':
      return 'the pace'
    default:
      return 'the last thing'
  }
}
