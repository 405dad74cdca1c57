import { describe, expect, test } from 'vitest'
import { fuelRangePhrases } from '../../src/summary/blocks.ts'
import { summaryViewOf } from '../../src/summary/view.ts'
import { walkThrough } from '../day.ts'
import { bareContext } from './bareContext.ts'

/* Thomas, Erdman and Burke 2016 (ACSM joint position statement): 1 to 4 g of carbohydrate for each kg in the 1 to
 * 4 h before more than an hour's work, read as 1 g for each hour ahead. Jaeger et al. 2017 (ISSN): 0.25 g of protein
 * for each kg, or 20 to 40 g, a meal. */

function phrases(
  fuel: string,
  minutes: string,
  athlete = 'athlete: 68 kg\n',
  toNextHard: number | null = null,
): string[] {
  const day = `Thursday\n${athlete}fuel\n  before ${fuel}\nrun\n  12 km easy\n`
  const walked = walkThrough(day).enter().entry('1:05:00')
  walked.typed('f').entry('6').entry(minutes)
  return fuelRangePhrases(
    summaryViewOf(walked.session(), { ...bareContext, nextHard: toNextHard }, { full: true }),
  )
}

const protein = 'protein of a meal: 17 g by body mass, 20 to 40 g is usual'
const cautions = "ranges for healthy adults; a dietitian's word takes precedence"

describe('general ranges beside what was eaten', () => {
  test('show 136 g for 68 kg next to 75 g two hours before more than an hour of work', () => {
    expect(phrases('2 h: carbs 75 g, protein 20 g', '66')).toEqual([
      "carbs 2 h before more than an hour's work: about 136 g (1 g a kg for each hour ahead), 75 g eaten",
      protein,
      cautions,
    ])
  })

  test('show that 304 g 90 minutes ahead are far more than 102 g', () => {
    expect(phrases('1.5 h: carbs 304 g', '66')[0]).toBe(
      "carbs 1.5 h before more than an hour's work: about 102 g (1 g a kg for each hour ahead), 304 g eaten",
    )
  })

  test('are not given below one hour: small, what sits well', () => {
    expect(phrases('30 min: carbs 40 g', '66')[0]).toBe(
      'carbs less than an hour before: small, what sits well; 40 g eaten',
    )
  })

  test('are not given for an hour of work or less, or if the time before is unknown', () => {
    expect(phrases('2 h: carbs 75 g, protein 20 g', '60')).toEqual([protein, cautions])
    expect(phrases(': carbs 75 g, protein 20 g', '66')).toEqual([protein, cautions])
  })

  test('include carbohydrate after the session only if the next hard session is within 8 hours', () => {
    const after = (seconds: number | null) => phrases(': carbs 75 g', '66', 'athlete: 68 kg\n', seconds)
    expect(after(7.5 * 3600)).toEqual([
      'carbs after: 68 to 82 g an hour for 4 h, the next hard session is 7.5 h away',
      protein,
      cautions,
    ])
    expect(after(8 * 3600)).toHaveLength(3)
    expect(after(8 * 3600 + 1)).toEqual([protein, cautions])
    expect(after(null)).toEqual([protein, cautions])
  })

  test('always include protein, also if none was eaten', () => {
    expect(phrases(': carbs 75 g', '66')).toEqual([protein, cautions])
  })

  test('are not given without a body mass', () => {
    const day = 'Thursday\nfuel\n  before 2 h: carbs 75 g\nrun\n  12 km easy\n'
    const walked = walkThrough(day)
    walked.model = { ...walked.model, state: { ...walked.state, bodyMassKg: null } }
    walked.enter()
    const session = walked.session()
    const start = session.events[0]
    if (start?.type === 'sessionStarted') start.bodyMassKg = null
    expect(fuelRangePhrases(summaryViewOf(session, bareContext, { full: true }))).toEqual([])
  })
})
