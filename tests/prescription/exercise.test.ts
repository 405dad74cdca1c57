import { expect, test } from 'vitest'
import { equipmentWith } from '../../src/app/equipment.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { exerciseKey, isOnBar } from '../../src/prescription/exercise.ts'
import { dayOf } from '../day.ts'

/* What the name of an exercise says: which one it is, and whether it is done with a bar. */

test.each([
  ['pull-up', 'Pull Ups', 'pullup', 'PULL–UPS'],
  ['front squat', 'Front squats', 'front-squat', 'FrontSquat'],
  ['bench press', 'bench presses', 'Bench-Press'],
  ['farmer’s walk', "farmers' walk", 'farmer walk', 'Farmers Walks'],
  ['biceps curl', 'bicep curls'],
  ['fly', 'flies'],
  ['box', 'boxes'],
  ['db row', 'Dumbbell rows'],
  ['KB swing', 'kettlebell swing'],
  ['bb curl', 'barbell curl'],
  ['OHP', 'overhead press'],
  ['RDLs', 'Romanian deadlift'],
  ['bw squat', 'bodyweight squat'],
])('%s is the same exercise in every spelling', (...names) => {
  expect(new Set(names.map(exerciseKey)).size).toBe(1)
})

test('different exercises have different keys', () => {
  const names = ['squat', 'front squat', 'press', 'bench press', 'row', 'pull-up', 'push-up', 'split squat']
  expect(new Set(names.map(exerciseKey)).size).toBe(names.length)
})

test.each(
  `dumbbell press, DB bench, dumbbell row, Kettlebell swing, kettle-bell clean, seated cable row,
   seated press, leg press, leg press machine, lat pulldown, lat pull-down, leg curl,
   leg extension, landmine press, goblet squat, band row, banded squat, medicine-ball throw,
   farmer carry, step-up, curl, walking lunge, calf raise, plank,
   bellringer, single-arm row, one arm press, suitcase deadlift`.split(/,\s*/),
)('%s shows no plates', (name) => expect(isOnBar({ name, side: null })).toBe(false))

test.each(
  `bench press, back squat, Romanian deadlift, row, barbell row, power clean,
   push press, split jerk, hip thrust, good morning, curl with bar, barbell lunge,
   trap bar carry`.split(/,\s*/),
)('%s shows plates', (name) => expect(isOnBar({ name, side: null })).toBe(true))

test('a lift for each arm in turn shows no plates, unless the settings say so; one for each leg does', () => {
  expect(isOnBar({ name: 'row', side: 'each arm' }, {})).toBe(false)
  expect(isOnBar({ name: 'split squat', side: 'each leg' }, {})).toBe(true)
  expect(isOnBar({ name: 'landmine press', side: 'each arm' }, { isOnBar: true })).toBe(true)
})

test('the settings override the list in both directions', () => {
  const equipmentOf = equipmentWith({ ...defaultSettings, onBar: ['hip bridge'], offBar: ['Bench rows'] })
  const day = dayOf('Day\n\nlift\n  squat 3 x 5\n')
  const onBar = (name: string) => isOnBar({ name, side: null }, equipmentOf('kg', day, name))
  expect(['Hip-bridge', 'bench row', 'squat', 'plank'].map(onBar)).toEqual([true, false, true, false])
})
