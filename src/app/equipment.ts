import { barIn, type Settings } from '../logbook/settings.ts'
import { isSameExercise } from '../prescription/exercise.ts'
import type { WarmUpOf } from '../prescription/expand.ts'
import { barFor, type EquipmentOf, type SourcedMaxima, warmUpWith } from '../prescription/planned.ts'
import { massIn } from '../units/mass.ts'

/** The equipment for an exercise: the bar that a header names for it, else for the day, else the settings' bar, with
 * the settings' collars and plates. */
export function equipmentWith(settings: Settings): EquipmentOf {
  return (unit, prescription, exercise) => {
    const bar = barFor(prescription, exercise)
    return {
      ...barIn(settings, unit),
      ...(bar && { bar: massIn(bar, unit) }),
      ...setForBar(settings, exercise),
    }
  }
}

/** The setting for an exercise: on a bar, off it, or nothing. */
function setForBar({ onBar = [], offBar = [] }: Settings, exercise: string): { isOnBar?: boolean } {
  const isNamed = (names: readonly string[]) => names.some((name) => isSameExercise(name, exercise))
  if (isNamed(offBar)) return { isOnBar: false }
  return isNamed(onBar) ? { isOnBar: true } : {}
}

/** The warm-up sets of a day, with the settings' bar and plates.
 * @param maxima for working loads by percent */
export function warmUpFor(settings: Settings, maxima: SourcedMaxima): WarmUpOf {
  return warmUpWith(equipmentWith(settings), maxima)
}
