import type { PrescribedSet } from '../../prescription/model.ts'
import { readPrescription } from '../../prescription/read.ts'
import type { SetStep } from '../../prescription/step.ts'
import type { SessionState } from '../../session/state.ts'
import { wordsFor } from '../../units/words.ts'
import { applyFacts, recording } from '../apply.ts'
import { type Mode, type RecorderModel, stay, type Updated, withNotice } from '../model.ts'
import { panelWith, saveOrCancel } from './keysAndPanels.ts'
import { noteAlone } from './notes.ts'

/** Takes another exercise in place of that of a step. */
export function swapping(step: string): Mode {
  return {
    kind: 'swapping',
    panel: ({ state, context }) => {
      const used = state.steps.flatMap((each) => (each.kind === 'set' ? [each.name] : []))
      // A complex is kept as `row + step-up`: here one exercise is chosen.
      const names = [...used, ...context.exercises()].flatMap((name) => name.split(' + '))
      return panelWith({ title: 'another exercise from here on', lines: [...new Set(names)] })
    },
    prompt: () => ({ label: 'instead', placeholder: 'name, or goblet squat 3 x 8 @ 40 kg' }),
    keys: ({ draft }) => saveOrCancel((model) => swapped(model, step), draft !== ''),
    // `x 102.5` is a load, though x alone swaps the exercise.
    onText: (model, value) =>
      model.draft === '' && /^[\s\d]$/.test(value)
        ? stay({ ...recording(model), draft: `x ${value.trimStart()}` })
        : null,
  }
}

/** Swaps the exercise of a step for the typed one. */
function swapped(model: RecorderModel, step: string): Updated {
  const remarks = noteAlone(model)
  if (remarks) return remarks
  const name = model.draft.trim()
  if (!/\p{L}/u.test(name)) return withNotice(model, 'type the name of the exercise; Escape cancels')
  const swap = readSwap(name, model.state)
  if ('message' in swap) return withNotice(model, swap.message)
  return applyFacts(recording(model), { type: 'exerciseSwapped', step, ...swap })
}

/** Signs that a name cannot have, and numbers with a unit: sets, a load, a distance. */
const isMoreThanName = new RegExp(
  String.raw`[,+@":]|[x×*]\s*\d|\d\s*sets\b|\d\s*(?:${wordsFor('kg', 'lb', 'm', 'km', 'mi', 's', 'min')})\b`,
  'i',
)

/** An exercise as written on a line of a day: its name, and its sets and loads if it has any. */
function readSwap(
  typed: string,
  { prescription }: SessionState,
): { name: string; sets?: PrescribedSet[]; side?: SetStep['side'] } | { message: string } {
  if (!isMoreThanName.test(typed)) return { name: typed }
  const { distance, mass } = prescription.units
  const reading = readPrescription(`Swap\nunits: ${distance} ${mass}\nlift\n  ${typed}\n`)
  if ('problems' in reading) return { message: reading.problems[0]?.message ?? 'it cannot be read' }
  const item = reading.prescription.parts[0]?.items[0]
  const [exercise, other] = item && 'exercises' in item ? item.exercises : []
  if (!exercise || other) return { message: 'type one exercise, such as goblet squat 3 x 8 @ 40 kg' }
  return { name: exercise.name, sets: exercise.sets, side: exercise.side }
}
