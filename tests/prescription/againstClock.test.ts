import { describe, expect, it } from 'vitest'
import { namesFromLastTime, usesPercent } from '../../src/prescription/planned.ts'
import { readPaper } from '../../src/session/paper/paper.ts'
import { dayFiguresOf } from '../../src/summary/day.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { summaryText } from '../../src/summary/text.ts'
import { dayOf, walkThrough } from '../day.ts'
import { bareContext } from '../summary/bareContext.ts'
import { liftDay as day } from './liftLine.ts'

/* Drop sets, complexes, and rounds against the clock: what is typed, what the clock does, and what
 * the summary counts. The forms are the notation's; the figures are sums worked out by hand. */

const summaryAfter = (line: string, ...entries: string[]) => {
  const walked = walkThrough(day(line))
  for (const entry of entries) walked.entry(entry)
  return summarise(walked.session(), { ...bareContext, equation: 'epley' })
}

describe('a drop set', () => {
  const line = 'curl 2 x (12 > 10 > 8) @ 20/15/10 kg, rest 1:30'

  it('is one effort and one entry, with the loads going down inside it', () => {
    const walked = walkThrough(day(line))
    expect(walked.view.now.what).toBe('curl 12>10>8 at 20 kg, then 15 kg, then 10 kg')
    walked.effort(60)
    expect(walked.shows).toBe('rest 1:30')
    walked.entry('12>10>7 @9')
    expect(walked.recorded('1.1.s1')).toMatchObject({
      reps: 29,
      groups: [12, 10, 7],
      load: { value: 20 },
      loads: [{ value: 20 }, { value: 15 }, { value: 10 }],
      rpe: 9,
    })
    walked.effort(60).enter()
    expect(walked.recorded('1.1.s2')).toMatchObject({ groups: [12, 10, 8] })
  })

  it('takes other loads with the same sign, and only some of the drops', () => {
    const walked = walkThrough(day(line))
    walked.entry('12>9 x 22.5>15>10')
    expect(walked.recorded('1.1.s1')).toMatchObject({
      groups: [12, 9, 0],
      loads: [{ value: 22.5 }, { value: 15 }, { value: 10 }],
    })
  })

  it('is one set with tonnage at each load, and gives no estimate', () => {
    const { lifting } = summaryAfter(line, '12>10>7', '12>10>8')
    // 240 + 150 + 70, and 240 + 150 + 80.
    expect(lifting).toMatchObject({ sets: 2, reps: 59, tonnageKg: 930 })
    expect(lifting.exercises).toMatchObject([
      { name: 'curl', sets: 2, reps: 59, top: { kg: 20, reps: 12 }, oneRepMax: null },
    ])
  })
})

describe('a complex', () => {
  const line = '3 x (clean 1 + front squat 2 + jerk 1) @ 60 kg, rest 2:00'

  it('takes one entry: as prescribed, a number of lifts, or repetitions by lift', () => {
    const walked = walkThrough(day(line))
    expect(walked.view.now.what).toBe('clean + front squat + jerk 1+2+1 at 60 kg: 20 a side')
    walked.effort(15).enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 4, groups: [1, 2, 1], load: { value: 60 } })
    walked.space().wait(15).space().entry('2 of 3 lifts')
    expect(walked.recorded('1.1.s2')).toMatchObject({ reps: 3, groups: [1, 2, 0] })
    walked.space().wait(15).space().entry('1+2+0 x 62.5!')
    expect(walked.recorded('1.1.s3')).toMatchObject({
      groups: [1, 2, 0],
      load: { value: 62.5 },
      failed: true,
    })
  })

  it('counts for each lift by name, and once as a set', () => {
    const { lifting } = summaryAfter(line, '1+2+1', '1+2+0', '1+2+1')
    expect(lifting).toMatchObject({ sets: 3, reps: 11, tonnageKg: 660 })
    expect(
      lifting.exercises.map(({ name, reps, tonnageKg, oneRepMax }) => [name, reps, tonnageKg, oneRepMax]),
    ).toEqual([
      ['clean', 3, 180, null],
      ['front squat', 6, 360, null],
      ['jerk', 2, 120, null],
    ])
  })
})

describe('an AMRAP of rounds', () => {
  const line = '12 min of: 8 row @ 30 kg, 6 step-up, 40 m carry, 200 m run'

  it('counts down, signals its end, and takes rounds and repetitions', () => {
    const walked = walkThrough(day(line))
    walked.space().wait(60)
    expect(walked.shows).toBe('rounds 11:00')
    walked.wait(660)
    expect(walked.rung).toEqual(['short', 'short', 'short', 'long'])
    walked.space().entry('6+12')
    expect(walked.recorded('1.1.s1')).toMatchObject({ groups: [6, 12], reps: 6 * 14 + 12 })
  })

  it('must be typed, and a whole extra round counts as a round', () => {
    const walked = walkThrough(day(line))
    walked.effort(720).enter()
    expect(walked.notice).toContain('type the whole rounds')
    walked.entry('6+18')
    expect(walked.view.panel?.title).toContain('7+2')
  })

  it('is counted station by station, with its running as running', () => {
    const { lifting, running } = summaryAfter(line, '6+12')
    expect(running.meters).toBe(1200)
    expect(lifting.exercises.map(({ name, reps, tonnageKg }) => [name, reps, tonnageKg])).toEqual([
      ['row + step-up + carry + run', 0, 0],
      ['row', 56, 1680],
      ['step-up', 40, 0],
      ['carry', 0, 0],
    ])
    expect(lifting.sets).toBe(1)
  })
})

describe('rounds for time', () => {
  const line = 'for time: 2 rounds of 20 step-up, 60 m carry, 200 m run'

  it('counts up, and offers the measured time', () => {
    const walked = walkThrough(day(line))
    walked.space().wait(90)
    expect(walked.shows).toBe('rounds 1:30')
    walked.wait(60).space().enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ seconds: 150, reps: null })
  })

  it('is typed as a time on paper', () => {
    const walked = walkThrough(day(line))
    expect(walked.prompt('1.1.s1')).toMatchObject({ offered: null })
    walked.entry('8:41')
    expect(walked.recorded('1.1.s1')).toMatchObject({ seconds: 521 })
  })
})

describe('stations in turn', () => {
  const line = 'every 1:00 for 4 min: 3 power clean @ 70 kg, 10 push-up'

  it('each begin by the clock at their start, and a late one moves the next', () => {
    const walked = walkThrough(day(line))
    walked.space().wait(20).space()
    expect(walked.shows).toBe('rest 0:40')
    expect(walked.view.now.what).toContain('push-up 10')
    walked.wait(40)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: true })
    walked.wait(70).space()
    walked.wait(1)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s3', auto: true })
    walked.entry('3').entry('8').entry('3')
    expect(walked.recorded('1.1.s2')).toMatchObject({ reps: 8 })
    expect(walked.recorded('1.1.s3')).toMatchObject({ reps: 3, load: { value: 70 } })
  })
})

describe('a percentage at a station', () => {
  const maxima = 'max: clean 100 kg\nmax: step-up 50 kg\nmax: power clean 90 kg\n'
  const dayWith = (line: string) => dayOf(`Day\n${maxima}\nlift\n  ${line}\n`)
  const tonnage = (line: string) => dayFiguresOf(dayWith(line), () => []).plannedTonnageKg

  it('counts its maximum in the planned tonnage, as elsewhere', () => {
    expect(tonnage('for time: 2 rounds of 20 step-up @ 40%, 60 m carry')).toBe(2 * 20 * 20)
    // 70 % of 90 kg is 63 kg, which the plates make 62.5 kg.
    expect(tonnage('every 1:00 for 4 min: 3 power clean @ 70%, 10 push-up')).toBe(2 * 3 * 62.5)
    expect(tonnage('3 rounds of 10 step-up @ 50%, 200 m run')).toBe(3 * 10 * 25)
    // The whole complex uses one bar, loaded by its first lift.
    expect(tonnage('2 x (clean 1 + front squat 2) @ 70%')).toBe(2 * 3 * 70)
    expect(tonnage('12 min of: 5 power clean @ 50%')).toBe(0)
  })

  it('counts its maximum in the finished tonnage, with the rounds that were done', () => {
    const done = (line: string, ...entries: string[]) => {
      const walked = walkThrough(`Day\n${maxima}\nlift\n  ${line}\n`)
      for (const entry of entries) walked.entry(entry)
      return summarise(walked.session(), bareContext).lifting.tonnageKg
    }
    expect(done('for time: 2 rounds of 20 step-up @ 40%, 60 m carry', '8:41')).toBe(2 * 20 * 20)
    // Six rounds, and four repetitions of the next: 34 cleans, 36 step-ups.
    expect(done('12 min of: 5 power clean @ 50%, 6 step-up @ 40%', '6+4')).toBe(34 * 45 + 36 * 20)
    expect(done('every 1:00 for 2 min: 3 power clean @ 70%, 10 push-up', '3', '10')).toBe(3 * 62.5)
  })

  it('is expanded, and looks up a maximum of earlier days', () => {
    expect(usesPercent(dayWith('12 min of: 5 power clean @ 50%'))).toBe(true)
    expect(namesFromLastTime(dayWith('12 min of: 5 power clean @ last + 2 kg'))).toEqual(['power clean'])
    const load = { kind: 'mass' as const, value: 60, unit: 'kg' as const, pair: false }
    const last = [{ name: 'power clean', date: '2026-11-19', load, isKept: false }]
    const planned = dayFiguresOf(dayWith('for time: 5 power clean @ last + 2 kg'), () => [], [], last)
    expect(planned.plannedTonnageKg).toBe(5 * 62)
  })
})

it('all of them can be kept on paper, with one line for each result', () => {
  const text = `Day

lift
  curl 1 x (12 > 10) @ 20/15 kg
  1 x (clean 1 + jerk 1) @ 60 kg
  10 min of: 8 row, 6 step-up
  for time: 20 step-up, 60 m carry
  every 1:00 for 2 min: 3 clean @ 70 kg, 10 push-up
  squat 1 x 4 @ last + 2 kg
`
  const load = { kind: 'mass' as const, value: 100, unit: 'kg' as const, pair: false }
  const reading = readPaper('12>9\n=\n6+3\n4:10\n=\n8\n=\n', dayOf(text), {
    date: '2026-11-26',
    foods: [],
    known: () => ({
      bodyMassKg: null,
      maxima: [],
      lastLoads: [{ name: 'squat', date: '2026-11-19', load, isKept: false }],
    }),
    instantOf: (date, time) => `${date}T${time}+01:00`,
  })
  if (reading.outcome !== 'session') throw new Error(JSON.stringify(reading))
  const results = reading.events.flatMap((event) => (event.type === 'setRecorded' ? [event.result] : []))
  expect(results).toMatchObject([
    { groups: [12, 9], loads: [{ value: 20 }, { value: 15 }] },
    { groups: [1, 1], load: { value: 60 } },
    { groups: [6, 3], reps: 6 * 14 + 3 },
    { seconds: 250 },
    { reps: 3, load: { value: 70 } },
    { reps: 8 },
    { reps: 4, load: { value: 102 } },
  ])
})

it('the summary describes rounds, times and sides in words', () => {
  const text = (line: string, entry: string) => {
    const walked = walkThrough(day(line))
    walked.entry(entry)
    return summaryText(walked.session(), bareContext, { full: false })
  }
  expect(text('12 min of: 8 row each arm, 6 step-up', '6+12')).toContain(
    'row + step-up: 6 rounds and 12 reps\n',
  )
  expect(text('12 min of: 8 row each arm, 6 step-up', '6+12')).toContain('row: 56 each arm\n')
  expect(text('for time: 20 step-up, 60 m carry', '8:41')).toContain('step-up + carry: 8:41\n')
  expect(text('1 x (clean 1 + jerk 1) @ 60 kg', '1+0')).not.toContain('jerk:')
})
