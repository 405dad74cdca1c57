import { describe, expect, test } from 'vitest'
import { fuelRangePhrases } from '../../src/summary/phrases.ts'
import { viewOf } from '../../src/summary/summarise.ts'
import { walkThrough } from '../day.ts'

/* Thomas, Erdman and Burke 2016 (ACSM joint position statement): 1 to 4 g of carbohydrate for each kg in the 1 to
 * 4 h before more than an hour's work. Jaeger et al. 2017 (ISSN): 0.25 g of protein for each kg, or 20 to 40 g, a meal. */

function phrases(fuel: string, minutes: string, athlete = 'athlete: 68 kg\n'): string[] {
  const day = `Thursday\n${athlete}fuel\n  before ${fuel}\nrun\n  12 km easy\n`
  const walked = walkThrough(day).enter().entry('1:05:00')
  walked.typed('f').entry('6').entry(minutes)
  return fuelRangePhrases(viewOf(walked.session(), { equation: 'median' }, { full: true }))
}

const protein = 'protein of a meal: 17 g by body mass, 20 to 40 g is usual'
const cautions = "ranges for healthy adults; a dietitian's word goes before them"

describe('general ranges beside what was eaten', () => {
  test('a meal two hours before more than an hour of work stands beside 68 to 272 g for 68 kg', () => {
    expect(phrases('2 h: carbs 75 g, protein 20 g', '66')).toEqual([
      "carbs 1 to 4 h before more than an hour's work: 68 g to 272 g is the usual range, 75 g eaten",
      protein,
      cautions,
    ])
  })

  test('no range of carbohydrate for an hour or less, nor where it is not said how long before', () => {
    expect(phrases('2 h: carbs 75 g, protein 20 g', '60')).toEqual([protein, cautions])
    expect(phrases(': carbs 75 g, protein 20 g', '66')).toEqual([protein, cautions])
  })

  test('nothing without a body mass', () => {
    const day = 'Thursday\nfuel\n  before 2 h: carbs 75 g\nrun\n  12 km easy\n'
    const walked = walkThrough(day)
    walked.model = { ...walked.model, state: { ...walked.state, bodyMassKg: null } }
    walked.enter()
    const session = walked.session()
    const start = session.events[0]
    if (start?.type === 'sessionStarted') start.bodyMassKg = null
    expect(fuelRangePhrases(viewOf(session, { equation: 'median' }, { full: true }))).toEqual([])
  })
})
