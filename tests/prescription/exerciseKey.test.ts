import { expect, test } from 'vitest'
import { exerciseKey } from '../../src/prescription/exercise.ts'

test.each([
  ['pull-up', 'Pull Ups', 'pullup', 'PULL–UPS'],
  ['front squat', 'Front squats', 'front-squat', 'FrontSquat'],
  ['bench press', 'bench presses', 'Bench-Press'],
  ['farmer’s walk', "farmers' walk", 'farmer walk', 'Farmers Walks'],
  ['biceps curl', 'bicep curls'],
  ['fly', 'flies'],
  ['box', 'boxes'],
])('%s is the same exercise in every spelling', (...names) => {
  expect(new Set(names.map(exerciseKey)).size).toBe(1)
})

test('different exercises have different keys', () => {
  const names = ['squat', 'front squat', 'press', 'bench press', 'row', 'pull-up', 'push-up', 'split squat']
  expect(new Set(names.map(exerciseKey)).size).toBe(names.length)
})
