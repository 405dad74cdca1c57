import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { dayLoad, effortMinutes, effortWords, weekLoad } from '../../src/figures/load.ts'
import { restSeconds } from '../../src/figures/restScheme.ts'

const week = (loads: number[]) => weekLoad(loads.map((effortMinutes) => ({ effortMinutes, known: true })))

describe('load and rest against the publications', () => {
  // Foster et al. 2001, J Strength Cond Res 15(1):109-115; as reproduced in Egan et al. 2006, J Sports Sci Med 5:289.
  test.each(Object.entries(reference.tables.effortWords.words))(
    'an effort of %s is called "%s" by Foster 2001',
    (effort, word) => {
      expect(effortWords[Number(effort)] ?? null).toBe(word)
    },
  )

  // Foster 1998, Med Sci Sports Exerc 30(7):1164-1168: rating times minutes.
  test('an effort of 6 for 60 minutes is 360, of 4 for 40 minutes 160', () => {
    expect([effortMinutes(6, 60), effortMinutes(4, 40)]).toEqual([360, 160])
  })

  // Foster 1998: monotony = mean / SD, strain = load x monotony; worked out apart from this program with n - 1.
  test('a week of 1735 has monotony 0.991174 and strain 1719.69', () => {
    const { effortMinutes: load, monotony, strain } = week([360, 0, 315, 160, 0, 720, 180])
    expect(load).toBe(1735)
    expect(monotony).toBeCloseTo(0.991174, 6)
    expect(strain).toBeCloseTo(1719.69, 2)
  })

  // With n instead of n - 1 monotony would be larger by sqrt(7/6) = 1.080123.
  test("the standard deviation of the week is the sample's", () => {
    expect((week([360, 0, 315, 160, 0, 720, 180]).monotony ?? 0) * 1.080123).toBeCloseTo(1.07059, 5)
  })

  // Foster 1998 divides by the SD, which is 0 here: there is no such figure.
  test('seven equal days have no monotony and no strain', () => {
    expect(week(Array<number>(7).fill(300))).toEqual({
      effortMinutes: 2100,
      atLeast: false,
      monotony: null,
      strain: null,
    })
  })

  test('a day without a session is 0, not unknown', () => {
    expect(dayLoad([])).toEqual({ effortMinutes: 0, known: true })
  })

  // Tufano et al. 2017, J Hum Kinet (PMC5548153): the total rest of each scheme.
  test.each(reference.tables.restSchemes.schemes)(
    '$name is $totalSeconds s of rest (Tufano 2017)',
    (scheme) => {
      expect(restSeconds(scheme)).toBe(scheme.totalSeconds)
    },
  )
})
