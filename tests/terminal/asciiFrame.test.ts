import { expect, test } from 'vitest'
import { asciiFrame } from '../../src/ui/terminal/inkStreams.ts'

test('cut text ends with full stops, as wide as before, and keeps its colours', () => {
  expect(asciiFrame('front squat: 5 x…')).toBe('front squat: 5...')
  expect(asciiFrame('set 2 > …eft heel')).toBe('set 2 > ...t heel')
  expect(asciiFrame('\x1b[1mset 2…\x1b[22m')).toBe('\x1b[1mset...\x1b[22m')
  expect(asciiFrame('\x1b[36ma…\x1b[39m  b…\ncd…')).toBe('\x1b[36m..\x1b[39m ...\n...')
})
