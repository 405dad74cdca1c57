import { expect, test } from 'vitest'
import { isOnBar } from '../../src/prescription/exercise.ts'

test.each([
  'dumbbell row',
  'Kettlebell swing',
  'kettle-bell swing',
  'seated cable row',
  'leg press machine',
  'medicine-ball throw',
])('%s is on no bar', (name) => expect(isOnBar(name)).toBe(false))

test.each(['bench press', 'front squat with bands', 'row', 'barbell row', 'bellringer'])(
  '%s is on the bar',
  (name) => expect(isOnBar(name)).toBe(true),
)
