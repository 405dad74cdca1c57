import { expect, test } from 'vitest'
import { equipmentWith } from '../../src/app/equipment.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { isOnBar } from '../../src/prescription/exercise.ts'
import { dayOf } from '../day.ts'

test.each([
  'dumbbell press',
  'DB bench',
  'dumbbell row',
  'Kettlebell swing',
  'kettle-bell clean',
  'seated cable row',
  'seated press',
  'leg press',
  'leg press machine',
  'lat pulldown',
  'lat pull-down',
  'leg curl',
  'leg extension',
  'landmine press',
  'goblet squat',
  'band row',
  'banded squat',
  'medicine-ball throw',
  'farmer carry',
  'step-up',
  'curl',
  'walking lunge',
  'calf raise',
  'plank',
  'bellringer',
  'single-arm row',
  'one arm press',
  'suitcase deadlift',
])('%s shows no plates', (name) => expect(isOnBar({ name, side: null })).toBe(false))

test.each([
  'bench press',
  'back squat',
  'Romanian deadlift',
  'row',
  'barbell row',
  'power clean',
  'push press',
  'split jerk',
  'hip thrust',
  'good morning',
  'curl with bar',
  'barbell lunge',
  'trap bar carry',
])('%s shows plates', (name) => expect(isOnBar({ name, side: null })).toBe(true))

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
