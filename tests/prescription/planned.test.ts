import { describe, expect, it } from 'vitest'
import { usualPlates } from '../../src/figures/bar.ts'
import { expand } from '../../src/prescription/expand.ts'
import { warmUpWith } from '../../src/prescription/planned.ts'
import { stepsOf } from '../../src/prescription/step.ts'
import { dayFiguresOf } from '../../src/summary/day.ts'
import { dayOf as wholeDay } from '../day.ts'
import { exampleDay } from '../summary/wholeDay.ts'

/* The day is the sample's, invented; expected figures are computed by hand beside them. */

const warmUpOf = warmUpWith(() => ({ bar: 20, collar: 0, plates: usualPlates.kg }), [])

const dayOf = (lines: string) => wholeDay(`A day\n${lines}`)

describe('an expanded day', () => {
  it('counts entries, metres, sets, tonnage and minutes of the whole day', () => {
    const { parts, ...totals } = dayFiguresOf(exampleDay, warmUpOf)
    expect(totals).toEqual({
      title: 'Thursday: five hundreds, then front squat',
      date: '2026-11-26',
      entries: 2 + 1 + 5 + 6 + 1 + 5 + 8 + 3,
      runMeters: 2000 + 5000 + 600 + 3000 + 1000 + 2000,
      liftSets: 16,
      plannedTonnageKg: 15 * 92.5 + 32 * 10,
      // prep 180 + 160; run 592.5 + 1237.5 + 252 + 660 + 420 + 592.5; ramp 4 x 60 + 270, squat 260 + 600,
      // pull-up and dip 304 + 270, plank 135 + 90: 6263.5 s
      expectedMinutes: 104,
    })
    expect(parts[1]?.items[3]).toEqual({
      text: '6 x 500 m @ 3:35-3:45/km, jog 200 m',
      line: 16,
      entries: 6,
      meters: 4000,
      targetSeconds: [107.5, 112.5],
    })
    expect(parts[1]?.items[2]).toEqual({ text: 'jog 600 m', line: 15, entries: 0, meters: 600 })
  })

  it('warms up with dumbbells of the step that the athlete has', () => {
    const day = dayOf('lift\n  dumbbell press 3 x 8 @ 2x20 kg, build from 10 kg\n')
    const loads = (dumbbellStep?: number) => {
      const equipment = { bar: 20, collar: 0, plates: usualPlates.kg, ...(dumbbellStep && { dumbbellStep }) }
      const steps = stepsOf(
        expand(
          day,
          warmUpWith(() => equipment, []),
        ),
      )
      return steps.flatMap((step) => (step.kind === 'warm-up' ? step.load.value : []))
    }
    // Three equal steps: 10, 13.3 and 16.7 kg.
    expect(loads(2)).toEqual([10, 14, 16])
    expect(loads()).toEqual([10, 12.5, 17.5])
  })

  it.each([
    ['bike 1 x 5 min', 0],
    ['assault bike 3 x 10 min', 0],
    ['row 1 x 500 m', 0],
    ['run 2 x 400 m', 0],
    ['treadmill run 1 x 10 min', 0],
    // Repetitions, a load, or another lift make sets.
    ['row 3 x 8', 3],
    ['ring row 3 x 30 s', 3],
    ['row 2 x 30 s @ 20 kg', 2],
    ['plank 3 x 45 s', 3],
    ['bicycle crunch 2 x 30 s', 2],
    ['farmer walk 3 x 40 m', 3],
  ])('counts in %s so many lifted sets: %i', (line, sets) => {
    expect(dayFiguresOf(dayOf(`lift\n  ${line}\n`), warmUpOf).liftSets).toBe(sets)
  })

  it('leaves a target out if the entries have different ones', () => {
    const lines = [
      '1-2-1 laps @ 4:00/km, jog 1 lap',
      '5.5 km @ 4:00-4:10/km, split 1 km',
      '20-40-20 s fast',
      '20 min easy',
    ]
    const [ladder, tempo, seconds, easy] =
      dayFiguresOf(dayOf(`run\n  ${lines.join('\n  ')}\n`), warmUpOf).parts[0]?.items ?? []
    // 4 laps of 400 m, and two jogs of one.
    expect(ladder).toEqual({ text: lines[0], line: 3, entries: 3, meters: 2400 })
    expect(seconds).toMatchObject({ entries: 3, meters: 0 })
    expect(tempo).toMatchObject({ entries: 6, targetSeconds: [240, 250] })
    expect(easy).toMatchObject({ entries: 1, meters: 0 })
  })

  it('has a target for each work of a group, in the order in which they stand', () => {
    const day = dayOf('run\n  3 x (1 km @ 3:45-3:50, jog 400 m, 200 m in 35-37 s, jog 200 m, 400 m easy)\n')
    const [group] = dayFiguresOf(day, warmUpOf).parts[0]?.items ?? []
    expect(group).not.toHaveProperty('targetSeconds')
    expect(group).toMatchObject({
      entries: 9,
      targets: [
        { entries: 3, targetSeconds: [225, 230] },
        { entries: 3, targetSeconds: [35, 37] },
        { entries: 3 },
      ],
    })
  })

  it('counts both of a pair, both sides and lower ends, and leaves out unknown loads', () => {
    const tonnage = (line: string) => dayFiguresOf(dayOf(`lift\n  ${line}\n`), warmUpOf).plannedTonnageKg
    expect(tonnage('press 3 x 8-10 @ 2x22.5 kg')).toBe(3 * 8 * 45)
    expect(tonnage('split squat 2 x 6 each leg @ 40-50 kg')).toBe(2 * 12 * 40)
    expect(tonnage('squat 3 x 5 @ 80%')).toBe(0)
    expect(tonnage('squat 3 x 5+ @ 100 kg')).toBe(1500)
    expect(tonnage('carry 2 x 40 m @ 95 kg')).toBe(0)
    expect(tonnage('plank 3 x 45 s @ 20 kg')).toBe(0)
    expect(tonnage('press 3 x max @ 40 kg')).toBe(0)
    // The two repetitions that are written for each set.
    expect(tonnage('squat 3 x (2+max) @ 40 kg, pause 20 s')).toBe(3 * 2 * 40)
    expect(tonnage('pull-up 2 x 5 @ bodyweight-20 kg')).toBe(0)
  })

  it('computes percentages of maxima in the logbook', () => {
    const day = dayOf('lift\n  squat 1 x 5 @ 80%\n')
    expect(dayFiguresOf(day, warmUpOf, [{ name: 'Squats', kg: 125, basis: 'known' }]).plannedTonnageKg).toBe(
      500,
    )
  })

  it('begins a round when it is due, and a way back takes as long as the way out', () => {
    const minutes = (lines: string) => dayFiguresOf(dayOf(lines), warmUpOf).expectedMinutes
    // nine rounds of 120 s, and 10 x 4 + 10 x 4 s at the end: 1160 s
    expect(minutes('lift\n  press 10 x 10 @ 40 kg + row 10 x 10 @ 40 kg, every 2:00\n')).toBe(19)
    // 200 m at 6:00/km is 72 s; seven walks back at 10:00/km 120 s: 1416 s
    expect(minutes('run\n  8 x 200 m, walk back\n')).toBe(24)
  })
})
