import { describe, expect, test } from 'vitest'
import { carbsWhileRacing } from '../../src/figures/race.ts'

describe('the race card', () => {
  // Thomas, Erdman & Burke 2016, Med Sci Sports Exerc 48(3):543-568: 30-60 g/h in 1 to 2.5 h, up to 90 beyond; by
  // duration as Jeukendrup 2014, Sports Med 44(Suppl 1):S25-S33.
  test.each([
    [3600, null],
    [3601, { from: 30, to: 60 }],
    [2.5 * 3600, { from: 30, to: 60 }],
    [2.5 * 3600 + 1, { from: 30, to: 90 }],
  ])('has the right carbohydrate for a race of %d s', (seconds, range) => {
    expect(carbsWhileRacing(seconds)).toEqual(range)
  })
})
