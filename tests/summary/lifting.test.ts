import { describe, expect, it } from 'vitest'
import { setRows } from '../../src/commands/export.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { summaryText } from '../../src/summary/text.ts'
import { dayOf as wholeDay } from '../day.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept, keptDay } from './kept.ts'

/* What a summary works out from the sets of a day; days and results are invented, figures worked out by hand. */

const dayOf = (lines: string) => wholeDay(`A day\n${lines}`)

describe('an estimate', () => {
  const liftThenRun = dayOf('run\n  1 km easy\nlift\n  squat 1 x 5 @ 100 kg\n')

  it('is after the run in the order in which the day was done', () => {
    const moved = {
      type: 'itemMoved',
      at: null,
      up: null,
      item: [1, 0] as [number, number],
      before: [0, 0] as [number, number],
    } as const
    const fresh = new Kept(liftThenRun).add(moved).type('5 @9', '5:00')
    expect(summarise(fresh.session, context).lifting.exercises[0]?.oneRepMax?.afterRun).toBe(false)
    const tired = new Kept(liftThenRun).type('5:00', '5 @9')
    expect(summarise(tired.session, context).lifting.exercises[0]?.oneRepMax?.afterRun).toBe(true)
    const skipped = new Kept(liftThenRun).type('-', '5 @9')
    expect(summarise(skipped.session, context).lifting.exercises[0]?.oneRepMax?.afterRun).toBe(false)
  })

  it('is the added load for a bodyweight exercise, and is missing without a body mass', () => {
    const pulls = dayOf('lift\n  pull-up 1 x 5 @ bodyweight+20 kg\n')
    const typed = (more: { bodyMassKg?: number }) => new Kept(pulls, more).type('5 @10').session
    // 68 + 20 = 88 kg x 5: the median of the seven is wathan, 88 x 1.16583 = 102.59, minus the body
    const known = summarise(typed({ bodyMassKg: 68 }), context).lifting.exercises[0]
    expect(known?.oneRepMax?.kg.toFixed(2)).toBe('34.59')
    expect(known?.top?.kg).toBe(20)
    expect(summarise(typed({}), context).lifting.exercises[0]?.oneRepMax).toBeNull()
    const later = summarise(typed({}), { ...context, bodyMassKg: 68 }).lifting.exercises[0]
    expect(later?.oneRepMax).toEqual(known?.oneRepMax)
  })

  it('names the set with the greatest weight, by its number in the session', () => {
    const lines = dayOf('lift\n  squat 2 x 5 @ 100 kg\n  Squats: 3 x 3 @ 105 kg\n').parts
    const day = new Kept({ ...dayOf('lift\n  squat 1 x 1 @ 1 kg\n'), parts: lines })
    const summary = summarise(day.type('5', '-', '3 @9', '3 @8', '3 @8').session, context)
    const [squat, ...others] = summary.lifting.exercises
    expect(others).toEqual([])
    expect(squat).toMatchObject({ name: 'squat', sets: 4, reps: 14, oneRepMax: { fromSet: 3 } })
    expect(squat?.tonnageKg).toBe(5 * 100 + 9 * 105)
  })

  it('is missing for 0 repetitions, a hold or too many, and "at least" far from failure', () => {
    const of = (line: string, entry: string) =>
      summarise(keptDay(`lift\n  ${line}\n`, entry).session, context).lifting.exercises[0]
    expect(of('squat 1 x 3 @ 100 kg', '0!')).toMatchObject({ sets: 1, reps: 0, top: null, oneRepMax: null })
    expect(of('plank 1 x 45 s', '=')).toMatchObject({ reps: 0, tonnageKg: 0, oneRepMax: null })
    expect(of('squat 1 x 12 @ 60 kg', '12 @10')?.oneRepMax).toBeNull()
    expect(of('squat 1 x 5 @ 60 kg', '5 @6')?.oneRepMax).toMatchObject({ atLeast: true })
    expect(of('squat 1 x 5 @ 60 kg', '5')?.oneRepMax).toMatchObject({ atLeast: true })
    expect(of('squat 1 x 5+ @ 60 kg', '7')?.oneRepMax).toMatchObject({ atLeast: false })
  })
})

describe('what is estimated from a set', () => {
  const note = (line: string, entry: string, full = false) =>
    summaryText(keptDay(`lift\n  ${line}\n`, entry).session, context, { full })

  it('is in the full note only for more than 8 repetitions to failure, and for one joint', () => {
    expect(note('squat 1 x 8 @ 60 kg', '8 @10')).toContain('estimated maximum')
    for (const [line, entry] of [
      ['squat 1 x 8 @ 60 kg', '8 @9'],
      ['curl 1 x 6 @ 20 kg', '6 @10'],
    ] as const) {
      expect(note(line, entry)).not.toContain('estimated maximum')
      expect(note(line, entry, true)).toContain('estimated maximum')
    }
  })

  it('is nothing for drop sets and complexes', () => {
    for (const [line, entry] of [
      ['squat 1 x (6 > 4) @ 80/60 kg', '6>4 @10'],
      ['1 x (clean 3 + jerk 2) @ 60 kg', '3+2 @10'],
    ] as const)
      expect(note(line, entry, true)).not.toContain('maximum')
  })
})

describe('the sets in the note', () => {
  const line = (lift: string, ...entries: string[]) => {
    const day = keptDay(`athlete: 68 kg\nlift\n  ${lift}\n`, ...entries)
    const lines = summaryText(day.session, context, { full: false })
      .replaceAll(/\n( {4}| {2}(?=[\dx@]))/g, ' ')
      .split('\n')
    return lines.slice(lines.indexOf('lift') + 1)
  }

  it('are merged, with their efforts and failures', () => {
    expect(line('deadlift 4 x (2+2) @ 140 kg', '= @8', '= @8', '= @8.5', '2+2! @9')[0]).toBe(
      'deadlift: 4 x (2+2) x 140 kg @8 8 8.5 9!',
    )
    expect(line('press 3 x 5 each arm @ 2x20 kg', '5', '5', '4!')[0]).toBe(
      'press: 2 x 5 each arm x 2x20 kg, 4 each arm x 2x20 kg @!',
    )
  })

  it('include the result of added load on a bodyweight exercise', () => {
    // 88 kg at 7: the middle is lombardi's 106.9; the lowest at 6 is oconner's 101.2, the highest at 8 wathan's 112.4;
    // less 68
    expect(line('dip 1 x 5 @ bodyweight+20 kg', '5 @8')).toEqual([
      'dip: 5 x bodyweight+20 kg @8',
      '  estimated maximum bodyweight+38.9 kg (+33.2 to +44.4), set 1',
      '',
    ])
    expect(line('squat 1 x 1 @ 100 kg', '1 @10')[1]).toBe('  measured maximum 100 kg, set 1')
  })
})

describe('a set in several pieces', () => {
  const exercises = (line: string, ...entries: string[]) =>
    summarise(keptDay(`lift\n  ${line}\n`, ...entries).session, context).lifting

  it('has the tonnage of each drop, and is one set', () => {
    // 8 x 20 + 6 x 15 + 4 x 10
    expect(exercises('curl 1 x (8 > 6 > 4) @ 20/15/10 kg', '8>6>4')).toMatchObject({
      sets: 1,
      reps: 18,
      tonnageKg: 290,
    })
    // A drop that was not begun is none.
    expect(exercises('curl 1 x (8 > 6 > 4) @ 20/15/10 kg', '8>6>0')).toMatchObject({
      reps: 14,
      tonnageKg: 250,
    })
    expect(exercises('curl 1 x (8 > 6) @ 20/15 kg', '0>0').exercises[0]).toMatchObject({ reps: 0, top: null })
  })

  it('counts for each lift of a complex that was done', () => {
    const { exercises: found, sets } = exercises('2 x (clean 1 + jerk 2) @ 60 kg', '1+2', '1+0')
    expect(sets).toBe(2)
    expect(found.map(({ name, sets, reps, tonnageKg }) => [name, sets, reps, tonnageKg])).toEqual([
      ['clean', 2, 2, 120],
      ['jerk', 1, 2, 120],
    ])
  })

  it('counts the repetitions of each exercise in rounds, at the load it is written with', () => {
    const rounds = '10 min amrap: 5 row @ 40 kg, 10 m carry @ 2x20 kg, 20 s plank, 100 m run'
    const { exercises: found } = exercises(rounds, '3+5')
    expect(found.map(({ name, reps, tonnageKg }) => [name, reps, tonnageKg])).toEqual([
      ['row + carry + plank + run', 0, 0],
      ['row', 20, 800],
      ['carry', 0, 0],
      ['plank', 0, 0],
    ])
  })

  it('is numbered among all sets of its exercise', () => {
    const day = new Kept(
      dayOf('lift\n  squat 1 x 5 @ 60 kg\n  1 x (clean 1 + squat 2) @ 60 kg\n  Squats 1 x 5 @ 70 kg\n'),
    )
    const rows = setRows(day.type('5', '1+2', '5').state, 'one')
    expect(rows.map(({ exercise, set }) => [exercise, set])).toEqual([
      ['squat', 1],
      ['clean', 1],
      ['squat', 2],
      ['Squats', 3],
    ])
  })
})

it('has one row a drop of a drop set, its pain in the first and its failure and effort in the last', () => {
  const day = keptDay('lift\n  curl: 1 x (12 > 10) @ 20/15 kg\n')
  const rows = setRows(day.type('12>9! pain "elbow 3"').state, 'one')
  expect(rows.map(({ reps, failed, pain }) => [reps, failed, pain])).toEqual([
    [12, null, 'elbow 3'],
    [9, 'yes', null],
  ])
})

it('has the effort and the failure of rounds against the clock in the row of the rounds', () => {
  const day = keptDay('lift\n  12 min of: 5 pull-up, 10 push-up\n')
  const rows = setRows(day.type('3+4! @9.5').state, 'one')
  expect(rows.map(({ exercise, rpe, failed }) => [exercise, rpe, failed])).toEqual([
    ['pull-up + push-up', 9.5, 'yes'],
    ['pull-up', null, null],
    ['push-up', null, null],
  ])
})
