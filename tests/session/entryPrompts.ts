import { readEntry } from '../../src/session/entry/entry.ts'
import type { Answer, FuelPrompt, IntervalPrompt, Prompt, SetPrompt } from '../../src/session/prompt.ts'

/* The prompts in the tests of entries; all invented. */

export const straight = Object.freeze<SetPrompt>({
  kind: 'set',
  name: 'front squat',
  dose: { kind: 'reps', from: 6, to: 8 },
  side: null,
  shown: { kind: 'mass', value: 92.5, unit: 'kg', pair: false },
  lower: [],
  loadUnknown: false,
  unit: 'kg',
  offered: null,
})
export const cluster = Object.freeze<SetPrompt>({ ...straight, dose: { kind: 'cluster', groups: [2, 2] } })
export const bodyweight = Object.freeze<SetPrompt>({
  ...straight,
  name: 'pull-up',
  shown: { kind: 'bodyweight', added: 0, unit: 'kg' },
})
export const pair = Object.freeze<SetPrompt>({
  ...straight,
  name: 'dumbbell press',
  shown: { kind: 'mass', value: 22.5, unit: 'kg', pair: true },
})
export const unknownLoad = Object.freeze<SetPrompt>({ ...straight, shown: null, loadUnknown: true })
export const unloaded = Object.freeze<SetPrompt>({ ...straight, name: 'press-up', shown: null })
export const asManyAsGo = Object.freeze<SetPrompt>({ ...unloaded, dose: { kind: 'max' } })
export const hold = Object.freeze<SetPrompt>({
  ...unloaded,
  name: 'plank',
  dose: { kind: 'time', seconds: 45 },
})
export const carry = Object.freeze<SetPrompt>({
  ...straight,
  name: 'carry',
  dose: { kind: 'distance', length: { value: 40, unit: 'm' } },
})

const lowerLoad = { kind: 'mass', value: 15, unit: 'kg', pair: false } as const
export const dropSet = Object.freeze<SetPrompt>({
  ...straight,
  dose: {
    kind: 'drop',
    reps: [12, 10],
    lower: [{ kind: 'mass', from: 15, to: 15, unit: 'kg', pair: false }],
  },
  lower: [lowerLoad],
})
export const complex = Object.freeze<SetPrompt>({
  ...straight,
  dose: {
    kind: 'complex',
    lifts: [
      { name: 'clean', reps: 1 },
      { name: 'front squat', reps: 2 },
    ],
  },
})
const stations = [
  { name: 'row', dose: { kind: 'reps' as const, from: 8, to: 8 }, side: null, load: null },
  {
    name: 'carry',
    dose: { kind: 'distance' as const, length: { value: 40, unit: 'm' as const } },
    side: null,
    load: null,
  },
]
export const roundsIn = Object.freeze<SetPrompt>({
  ...unloaded,
  dose: { kind: 'roundsIn', seconds: 720, stations },
})
export const forTime = Object.freeze<SetPrompt>({
  ...unloaded,
  dose: { kind: 'forTime', rounds: 2, stations },
})

export const mile = Object.freeze<IntervalPrompt>({
  kind: 'interval',
  part: 'run',
  meters: 1609.344,
  seconds: null,
  hasTarget: true,
  target: null,
  offered: null,
  treadmillSpeed: null,
  unit: 'km',
  label: '1 mi',
})
export const fiveHundred = Object.freeze<IntervalPrompt>({ ...mile, meters: 500, label: '500 m' })
export const easyTwo = Object.freeze<IntervalPrompt>({
  ...mile,
  meters: 2000,
  label: '2 km',
  hasTarget: false,
})
export const timedByKey = Object.freeze<IntervalPrompt>({ ...fiveHundred, offered: 112.4 })
export const twentyMinutes = Object.freeze<IntervalPrompt>({
  ...mile,
  meters: null,
  seconds: 1200,
  label: '20:00',
})
export const treadmill = Object.freeze<IntervalPrompt>({ ...twentyMinutes, treadmillSpeed: 3 })

export const porridge = Object.freeze<FuelPrompt>({
  kind: 'fuel',
  prescribed: { carbsG: 75, proteinG: 20, fatG: 10, kcal: null, note: null, pain: null },
})
export const foamRoll = Object.freeze<Prompt>({ kind: 'prep' })

/** The answer of an entry that is accepted. */
export function answered(text: string, asked: Prompt): Answer {
  const reading = readEntry(text, asked)
  if (reading.outcome !== 'answer') throw new Error(`"${text}" is no answer: ${reading.message}`)
  return reading.value
}
