import { describe, expect, it } from 'vitest'
import { summarise } from '../../src/summary/summarise.ts'
import { summaryText } from '../../src/summary/text.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept, keptDay } from './kept.ts'
import { exampleDay } from './wholeDay.ts'

/* What a summary works out from the runs of a day; days and results are invented, figures worked out by hand. */

describe('running', () => {
  it('has a gap for a skipped split, and no figures that it would make wrong', () => {
    const day = keptDay('run\n  5 x 400 m @ 4:00/km, jog 200 m\n', '96', '-', '97', '98', '99')
    const item = summarise(day.session, context).running.items[0]
    // 1, 3, 4, 5: slope of 96, 97, 98, 99 is 6.5 / 8.75; mean 97.5
    expect(item?.fadePercentPerSplit).toBeCloseTo((6.5 / 8.75 / 97.5) * 100, 9)
    expect(summarise(day.session, context).running.meters).toBe(4 * 400 + 3 * 200)
    expect(summarise(new Kept(exampleDay).session, context).running.items[1]).toMatchObject({
      splits: [],
      meters: 0,
      seconds: 0,
      secondsPerKm: null,
      meanSeconds: null,
      halves: null,
      offGoalSecondsPerKm: null,
    })
  })

  it('has a time only if that of every recorded interval is known', () => {
    const running = (...entries: string[]) =>
      summarise(keptDay('run\n  2 km easy\n  1 km easy\n', ...entries).session, context).running
    // Of 3 km only 8 min are known: no total of 3 km in 8 min.
    expect(running('8:00', '=')).toMatchObject({ meters: 3000, seconds: null })
    expect(running('8:00', '-')).toMatchObject({ meters: 2000, seconds: 480 })
    expect(running()).toMatchObject({ meters: 0, seconds: 0 })
  })

  it('counts no metres of a jog that was skipped', () => {
    const day = keptDay('run\n  3 x 400 m @ 4:00/km, jog 200 m\n', '96', '97', '98')
    const skipped = day.state.steps.find(({ kind }) => kind === 'recovery')?.id ?? ''
    expect(summarise(day.session, context).running.meters).toBe(3 * 400 + 2 * 200)
    day.add({ type: 'stepSkipped', at: null, up: null, step: skipped })
    expect(summarise(day.session, context).running.meters).toBe(3 * 400 + 200)
  })

  it('holds a repeat of another length against the pace, and not against the time of the whole', () => {
    const day = keptDay('run\n  2 x 500 m in 1:45-1:50, jog 200 m\n', '1:48', '400 m in 1:26')
    const [item] = summarise(day.session, context).running.items
    // 1:45 to 1:50 for 500 m is 1:24 to 1:28 for 400 m.
    expect(item?.splits.map(({ target }) => target)).toEqual(['in', 'in'])
  })

  it('has unknown metres for an interval by time until they are typed', () => {
    const day = keptDay('athlete: 70 kg\nrun\n  2 x (10 min @ 4:00/km, stand 1:00)\n', '2.5 km', '10:00')
    const { running, fuel } = summarise(day.session, context)
    expect(running).toMatchObject({ meters: 2500, workMeters: 2500, seconds: 1200 })
    expect(running.items[0]).toMatchObject({
      meters: null,
      seconds: 1200,
      secondsPerKm: 240,
      judged: 1,
      inRange: 1,
    })
    expect(running.items[0]?.splits[1]).toMatchObject({ meters: null, seconds: 600, target: null })
    expect(fuel.runningKcal).toBeNull()
  })

  it('gives unknown metres for all running if no distance of it is known', () => {
    const day = 'athlete: 70 kg\nrun\n  20 min easy\n  jog 300 m\n  10 min easy\ncross\n  10 min easy\n'
    const { running, cross } = summarise(keptDay(day, '20:00', '-').session, context)
    // The jog was run.
    expect(running).toMatchObject({ meters: 300, workMeters: null, seconds: 1200 })
    expect(cross).toMatchObject({ meters: 0, workMeters: 0, seconds: 0 })
    const typed = summarise(keptDay(day, '20:00', '-', '10:00').session, context)
    expect(typed.cross).toMatchObject({ meters: null, workMeters: null, seconds: 600 })
  })

  it('leaves a shorter last split, and one of another length, out of the spread', () => {
    const day = keptDay('run\n  3.5 km @ 4:00/km, split 1 km\n')
    const item = summarise(day.type('4:00', '4:02', '1.1 km in 4:30', '2:00').session, context).running
      .items[0]
    expect(item).toMatchObject({ meanSeconds: 241, rangeSeconds: 2, fadePercentPerSplit: null, seconds: 872 })
    expect(item?.splits.map((split) => split.target)).toEqual(['in', 'in', 'slow', 'in'])
    expect(item?.meters).toBeCloseTo(3600, 9)
  })

  it('is compared with the goal only with a target and on the level', () => {
    const lines = 'goal: 10 km in 40:00\nrun\n  1 km @ 4:00/km, grade 3%\n  1 km easy\n  1 km @ 4:00/km\n'
    const day = keptDay(`athlete: 70 kg\n${lines}`, '4:10', '5:00', '4:05')
    const { running, fuel } = summarise(day.session, context)
    expect(running.items.map((item) => item.offGoalSecondsPerKm)).toEqual([null, null, 5])
    expect(fuel.runningKcal).toBeNull()
  })

  it('does not include rowing on the machine', () => {
    const day = keptDay('goal: 10 km in 40:00\ncross: rower\n  2 km @ 4:00/km\n', '8:00')
    const { running, cross } = summarise(day.session, context)
    expect(running.meters).toBe(0)
    expect(cross).toMatchObject({ meters: 2000, goal: null, items: [{ offGoalSecondsPerKm: null }] })
  })
})

describe('splits', () => {
  const item = (line: string, ...typed: string[]) =>
    summarise(keptDay(`run\n  ${line}\n`, ...typed).session, context).running.items[0]

  it('have no halves across a skipped one, in a ladder, or of fewer than four repeats', () => {
    const line = '4 km @ 4:00-4:10/km, split 1 km'
    expect(item(line, '4:05', '4:06', '4:04', '4:03')?.halves).not.toBeNull()
    expect(item(line, '4:05', '-', '4:04', '4:03')?.halves).toBeNull()
    expect(item('400-800-800-400 m @ 3:40/km, jog 200 m', '88', '2:56', '2:56', '88')?.halves).toBeNull()
    expect(item('1-2-2-1 min hard, jog 2:00', '0.3 km', '0.6 km', '0.6 km', '0.3 km')?.halves).toBeNull()
    expect(item('4 x 400 m @ 3:40/km, jog 200 m', '88', '88', '88', '88')?.halves).not.toBeNull()
    expect(item('3 x 400 m @ 3:40/km, jog 200 m', '88', '88', '88')?.halves).toBeNull()
    expect(item('2 km @ 4:00-4:10/km, split 1 km', '4:05', '4:06')?.halves).not.toBeNull()
  })

  it('have no halves where the distance of a repeat by time is unknown', () => {
    const line = '4 x 5 min hard, jog 2:00'
    expect(item(line, '1.3 km', '1.3 km', '1.3 km', '1.3 km')?.halves?.shape).toBe('even')
    expect(item(line, '1.3 km', '=', '1.3 km', '1.35 km')?.halves).toBeNull()
    expect(item(line, '1.3 km', '1.3 km', '1.3 km', '=')?.halves).toBeNull()
  })

  it('show no standard deviation for five full ones and a short one', () => {
    const day = keptDay('run\n  5.5 km @ 4:00-4:10/km, split 1 km\n')
    day.type('4:05', '4:06', '4:04', '4:03', '4:05', '2:02')
    expect(summaryText(day.session, context, { full: false })).not.toContain('standard deviation')
  })

  it('typed as 47.1 s are as precise as 47.1, and print as they were typed', () => {
    const day = keptDay('run\n  2 x 300 m in 45-47 s, jog 200 m\n', '47.1 s', '47.1')
    const splits = summarise(day.session, context).running.items[0]?.splits
    expect(splits?.map(({ target }) => target)).toEqual(['slow', 'slow'])
    expect(summaryText(day.session, context, { full: false })).not.toContain('47.10')
  })
})
