import { describe, expect, it } from 'vitest'
import { placeInPlan, taperAround, wordsOn } from '../../src/plan/model.ts'
import { readPlan } from '../../src/plan/read.ts'
import { printDiagnostics } from '../../src/prescription/lines.ts'
import { expectGoldenTable } from '../goldenTable.ts'

const sample = `Ten under forty
race: 10 km in 39:30 on 2027-04-18
week: Mon pull, Tue track, Wed push, Thu tempo + legs, Sat legs, Sun long
2026-12-07: 42 km, long 16 km, "first week of threes"
2026-12-14: 45 km, long 17 km
2026-12-21: 30 km, easy
2027-04-05: taper
2027-04-12: race week
`

function planIn(text: string) {
  const reading = readPlan(text)
  if ('problems' in reading) throw new Error(printDiagnostics(reading.problems, 'plan.txt'))
  return reading.plan
}

describe('readPlan', () => {
  it.each([
    ['2026-12-07 42 km, 16 km long, Thu: tempo', '2026-12-07: 42 km, long 16 km, Thu tempo'],
    ['2026-12-07: 42km; long run 16km', '2026-12-07: 42 km, long 16 km'],
    ['2026-12-07: 42 km, easy week', '2026-12-07: 42 km, easy'],
    ['week: Mon: pull; Tue: track', 'week: Mon pull, Tue track'],
  ])('reads %s as %s', (scribbled, written) => {
    expect(planIn(`A\n${scribbled}\n`)).toEqual(planIn(`A\n${written}\n`))
  })

  it('reads a title, a race, the words of the weekdays and the weeks', () => {
    const plan = planIn(sample)
    expect(plan.title).toBe('Ten under forty')
    expect(plan.race).toEqual({
      length: { value: 10, unit: 'km' },
      seconds: 2370,
      on: '2027-04-18',
      line: 2,
    })
    expect(plan.days.Thu).toEqual(['tempo', 'legs'])
    expect(plan.weeks.map(({ monday, kind }) => [monday, kind])).toEqual([
      ['2026-12-07', null],
      ['2026-12-14', null],
      ['2026-12-21', 'easy'],
      ['2027-04-05', 'taper'],
      ['2027-04-12', 'race week'],
    ])
    expect(plan.weeks[0]).toMatchObject({ long: { value: 16, unit: 'km' }, notes: ['first week of threes'] })
  })

  it('takes a title alone, comments, carriage returns, miles and a weekday of one week', () => {
    const plan = planIn('Block # a comment\r\n\r\n2026-12-07: 26 mi, Thursday rest, Fri five hundreds\r\n')
    expect(plan.title).toBe('Block')
    expect(wordsOn(plan, '2026-12-10')).toEqual([])
    expect(wordsOn(plan, '2026-12-11')).toEqual(['five hundreds'])
  })

  it('takes words in any case, and any number of spaces between them', () => {
    const plan = planIn(
      'A\nRace: 10 KM in 39:30 on 2027-04-18\nWEEK: tue track\n2027-04-12: Race  Week, Long 8 km\n',
    )
    expect([plan.race?.seconds, plan.days]).toEqual([2370, { Tue: ['track'] }])
    expect(plan.weeks[0]).toMatchObject({ kind: 'race week', long: { value: 8, unit: 'km' } })
  })

  it('takes sun after a weekday as a word, not as the next day', () => {
    const plan = planIn('A\nweek: Wed sun salutation, Sun long\n2026-12-07: Thu sun salutation\n')
    expect(plan.days).toEqual({ Wed: ['sun salutation'], Sun: ['long'] })
    expect(plan.weeks[0]?.days).toEqual({ Thu: ['sun salutation'] })
  })

  it('takes weeks in any order', () => {
    const { weeks } = planIn('A\n2026-12-14: 45 km\n2026-12-07: 42 km\n')
    expect(weeks.map(({ monday, line }) => [monday, line])).toEqual([
      ['2026-12-07', 3],
      ['2026-12-14', 2],
    ])
  })

  it('knows the weeks before a race in which training is cut back, and a week ahead of them', () => {
    const plan = planIn('Block\nrace: 10 km in 39:30 on 2027-04-18\n2027-03-29: 45 km\n2027-04-05: taper\n')
    const kinds = ['2027-03-28', '2027-03-29', '2027-04-11', '2027-04-12', '2027-04-18', '2027-04-19']
    expect(kinds.map((date) => taperAround('2027-04-18', plan.weeks, date))).toEqual([
      null,
      'taper',
      'taper',
      'race week',
      'race week',
      null,
    ])
  })

  it('cuts nothing back any more on the day after a race in the middle of its week', () => {
    const plan = planIn('Block\nrace: 10 km in 39:30 on 2027-04-14\n2027-04-12: race week\n')
    const kinds = ['2027-04-14', '2027-04-15'].map((date) => taperAround('2027-04-14', plan.weeks, date))
    expect(kinds).toEqual(['race week', null])
  })

  it('has the race on its day instead of what the weekday is for, unless that week says otherwise', () => {
    const plan = 'Block\nrace: 10 km in 39:30 on 2027-04-18\nweek: Sun long\n'
    expect(wordsOn(planIn(plan), '2027-04-18')).toEqual(['10 km race'])
    expect(wordsOn(planIn(plan), '2027-04-11')).toEqual(['long'])
    expect(wordsOn(planIn(`${plan}2027-04-12: race week, Sun town race\n`), '2027-04-18')).toEqual([
      'town race',
    ])
  })

  it('has no words after the race but those of a week of its own, because the block is over', () => {
    const plan = 'Block\nrace: 10 km in 39:30 on 2027-04-18\nweek: Tue track, Sun long\n'
    expect(wordsOn(planIn(plan), '2027-04-20')).toEqual([])
    expect(wordsOn(planIn(plan), '2027-04-25')).toEqual([])
    expect(wordsOn(planIn(`${plan}2027-04-19: easy, Sat walk\n`), '2027-04-24')).toEqual(['walk'])
    const withoutRace = plan.replace(/^race:.*\n/m, '')
    expect(wordsOn(planIn(withoutRace), '2027-04-25')).toEqual(['long'])
  })

  it('says which day of the block a date is and how far the race is', () => {
    const plan = planIn(sample)
    expect(placeInPlan(plan, '2026-12-24')).toBe('Thursday of week 3 of 19, 115 days to 10 km in 39:30')
    expect(placeInPlan(plan, '2027-04-18')).toBe('Sunday of week 19 of 19, today 10 km in 39:30')
    expect(placeInPlan(plan, '2026-11-26')).toBe('143 days to 10 km in 39:30')
    expect(placeInPlan(plan, '2027-04-19')).toBeNull()
  })

  it('answers what cannot be read with its line, column and length, and what to write', async () => {
    await expectGoldenTable(new URL('golden/plan.txt', import.meta.url), (typed, where) => {
      const reading = readPlan(where === 'below a title' ? `A\n${typed}\n` : typed)
      const problems = 'problems' in reading ? reading.problems : []
      return problems.map(({ line, column, length, message }) => `${line}:${column}+${length} ${message}`)
    })
  })
})
