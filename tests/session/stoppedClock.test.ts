import { expect, test } from 'vitest'
import { walkThrough } from '../day.ts'

test('a stop moved back subtracts nothing that an earlier stop has already subtracted', () => {
  const walked = walkThrough('Rower\n\ncross: rower\n  2 km easy\n').space()
  walked.typed('h').wait(30).typed('h').wait(20).typed('h').typed('b').wait(10).typed('h')
  // A minute since the beginning, all of it stopped: 30 s, then the 20 s in between by moving back, then 10 s.
  walked.wait(7)
  expect(walked.shows).toBe('piece 0:07')
})
