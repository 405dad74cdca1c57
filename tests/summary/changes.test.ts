import { describe, expect, it } from 'vitest'
import { summarise } from '../../src/summary/summarise.ts'
import { dayOf as wholeDay } from '../day.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept, keptDay } from './kept.ts'

/* What was not as written; days and results are invented. */

const dayOf = (lines: string) => wholeDay(`A day\n${lines}`)

describe('the changes', () => {
  const changes = (day: Kept) => summarise(day.session, context).changes
  const row = dayOf('lift\n  row 2 x 5 @ 40 kg\n  curl 2 x 8 @ 20 kg\n')
  const now = { at: null, up: null }

  it('leave out what may still be done', () => {
    expect(changes(new Kept(row).type('5'))).toEqual([])
    expect(changes(new Kept(row).type('5', '-'))).toEqual(['row: 1 of 2 sets'])
    expect(changes(new Kept(row).type('-'))).toEqual(['row: 1 of 2 sets skipped'])
  })

  it('list what was never recorded, once the day is over', () => {
    expect(changes(new Kept(row).type('5').finish())).toEqual(['curl: not done', 'row: 1 of 2 sets'])
    expect(changes(new Kept(row).close(0, 5, 10))).toEqual(['row: not done', 'curl: not done'])
  })

  it('list each set that fell short', () => {
    expect(changes(new Kept(row).type('4', '3 !'))).toEqual(['row set 1 (4 of 5)', 'row set 2 (3, failed)'])
  })

  it('list one more set, another exercise, another order, a cut', () => {
    const added = new Kept(row).add({ type: 'stepAdded', ...now, step: 'more', like: '1.1.s1' })
    expect(changes(added.type('5', '5', '5'))).toEqual(['row: 3 sets, 2 prescribed'])
    const swapped = new Kept(row)
      .type('5')
      .add({ type: 'exerciseSwapped', ...now, step: '1.1.s2', name: 'pull' })
    expect(changes(swapped.type('5 x 30'))).toEqual(['row: pull instead from set 2 on'])
    const first = new Kept(row).add({ type: 'exerciseSwapped', ...now, step: '1.1.s1', name: 'pull' })
    expect(changes(first.type('5 x 30', '5 x 30'))).toEqual(['row: pull instead'])
    const moved = new Kept(row).add({ type: 'itemMoved', ...now, item: [0, 1], before: [0, 0] })
    expect(changes(moved)).toEqual(['curl: moved'])
    const cut = new Kept(row).add({ type: 'dayCut', ...now, minutes: 8, steps: ['1.2.s1', '1.2.s2'] })
    expect(changes(cut)).toEqual(['curl: cut', 'cut to the 8 min that were left'])
  })

  it('list a load other than prescribed, but not one within its range', () => {
    const typed = (line: string, ...entries: string[]) =>
      changes(keptDay(`max: squat 100 kg\nlift\n  ${line}\n`, ...entries))
    expect(typed('squat 2 x 5 @ 80-85 kg', '5 x 85', '5 x 90')).toEqual([
      'squat: set 2 at 90 kg instead of 80-85 kg',
    ])
    expect(typed('squat 2 x 5 @ 80%', '5 x 75', '5')).toEqual(['squat: 75 kg instead of 80 kg (80%)'])
    expect(typed('squat 2 x 5 @ 2x22.5 kg', '5 x 2x25', '5 x 2x22.5')).toEqual([
      'squat: set 1 at 2x25 kg instead of 2x22.5 kg',
    ])
    expect(typed('squat 3/3 @ 60/65 kg', '3', '3 x 60')).toEqual(['squat: set 2 at 60 kg instead of 65 kg'])
  })

  it('name the sets of each other load', () => {
    const typed = (lines: string, ...entries: string[]) => changes(keptDay(`lift\n  ${lines}\n`, ...entries))
    const squat = 'squat 5 x 5 @ 80 kg'
    expect(typed(squat, '5', '5 x 85', '5 x 85', '5 x 90', '5 x 90')).toEqual([
      'squat: sets 2, 3 at 85 kg instead of 80 kg, sets 4, 5 at 90 kg instead of 80 kg',
    ])
    expect(typed(squat, '5 x 85', '5 x 80', '5 x 85')).toEqual(['squat: sets 1, 3 at 85 kg instead of 80 kg'])
    expect(typed(squat, '5 x 85', '5 x 85')).toEqual(['squat: 85 kg instead of 80 kg'])
    expect(typed('squat 3/3 @ 60/65 kg', '3 x 70', '3 x 70')).toEqual([
      'squat: set 1 at 70 kg instead of 60 kg, set 2 at 70 kg instead of 65 kg',
    ])
  })

  it('hold a load against bodyweight, a pair, a range and a percentage of a known maximum', () => {
    const typed = (line: string, entry: string) =>
      changes(keptDay(`max: squat 100 kg\nlift\n  ${line}\n`, entry))
    expect(typed('dip 1 x 5 @ bodyweight', '5')).toEqual([])
    expect(typed('dip 1 x 5 @ bodyweight', '5 x bw+5')).toEqual([
      'dip: bodyweight+5 kg instead of bodyweight',
    ])
    expect(typed('dip 1 x 5 @ bodyweight+10 kg', '5 x bw+5')).toEqual([
      'dip: bodyweight+5 kg instead of bodyweight+10 kg',
    ])
    expect(typed('row 1 x 5 @ 2x20 kg', '5 x 2x20')).toEqual([])
    expect(typed('squat 1 x 5 @ 80-85 kg', '5 x 80')).toEqual([])
    expect(typed('squat 1 x 5 @ 80-85 kg', '5 x 79.5')).toEqual(['squat: 79.5 kg instead of 80-85 kg'])
    expect(typed('squat 1 x 5 @ 75-80%', '5 x 75')).toEqual([])
    expect(typed('squat 1 x 5 @ 75-80%', '5 x 72.5')).toEqual(['squat: 72.5 kg instead of 75-80 kg (75-80%)'])
    expect(typed('press 1 x 5 @ 80%', '5 x 40')).toEqual([])
    expect(typed('row 1 x 5', '5 x 40')).toEqual([])
  })

  it('tell a cut from what was skipped, and no meal or recovery that was left out', () => {
    const day = dayOf('prep\n  leg swings\nfuel\n  after: protein 20 g\nlift\n  row 2 x 5\n  curl 1 x 8\n')
    expect(changes(new Kept(day).finish())).toEqual([
      'leg swings: not done',
      'row: not done',
      'curl: not done',
    ])
    const cut = new Kept(day).add({ type: 'dayCut', ...now, minutes: 8, steps: ['3.1.s2', '3.2.s1'] })
    expect(changes(cut)).toEqual(['curl: cut', 'row: 1 of 2 sets skipped', 'cut to the 8 min that were left'])
    cut.add({ type: 'stepSkipped', ...now, step: '3.1.s1' })
    cut.add({ type: 'dayCut', ...now, minutes: 8, steps: [] })
    expect(changes(cut)).toEqual(['row: skipped', 'curl: cut', 'cut to the 8 min that were left'])
    const both = new Kept(day).add({ type: 'stepSkipped', ...now, step: '3.1.s1' }).finish()
    expect(changes(both)[1]).toBe('row: not done')
    const fuel = new Kept(day).add({ type: 'stepSkipped', ...now, step: '2.1.f1' })
    expect(changes(fuel)).toEqual(['fuel after: skipped'])
  })

  it('name the highest heart rate above the written one', () => {
    const day = dayOf('run\n  3 km easy, hr under 140\n  6 km @ hr 150-160, split 2 km\n')
    const typed = (...entries: string[]) => changes(new Kept(day).type(...entries))
    expect(typed('16:00 hr 168', '9:00 hr 158', '9:00 hr 176', '9:00 hr 170')).toEqual([
      '3 km easy: hr 168, 28 over',
      '6 km @ hr 150-160: hr 176, 16 over',
    ])
    expect(typed('16:00 hr 139', '9:00 hr 160', '9:00', '9:00 hr 149')).toEqual([])
  })

  // This program's own rule: from 1 on.
  it('name the highest effort above the written one', () => {
    const day = dayOf(
      'run\n  2 x 3 km @ rpe 6, jog 400 m\nlift\n  bench press 2 x 5 @ 70 kg rpe 8\n  row 1 x 5\n',
    )
    const typed = (...entries: string[]) => changes(new Kept(day).type(...entries))
    expect(typed('12:00 rpe 7', '12:00 rpe 6.5', '5 @9', '5 @9.5', '5 x 40 @10')).toEqual([
      '2 x 3 km @ rpe 6: rpe 7, 1 over',
      'bench press: rpe 9.5, 1.5 over',
    ])
    expect(typed('12:00 rpe 6.5', '12:00', '5 @8.5', '5', '5 x 40')).toEqual([])
  })

  // This program's own rule: less than nine tenths.
  it('name a run that was cut short, with its repeat', () => {
    const day = dayOf('run\n  10 min easy\n  12 km easy\n  2 x 1 km @ 4:00/km, rest 2:00\n')
    const typed = (...entries: string[]) => changes(new Kept(day).type(...entries))
    expect(typed('5:00', '8 km 40:00', '4:00', '600 m 2:24')).toEqual([
      '10 min easy: 5:00 of 10:00',
      '12 km easy: 8 km of 12 km',
      '2 x 1 km @ 4:00/km: 600 m of 1 km in repeat 2',
    ])
    expect(typed('9:00', '10.8 km 54:00', '4:00', '4:02')).toEqual([])
  })

  it('hold no load of another exercise against the prescription', () => {
    const day = dayOf('lift\n  row 1 x 5 @ 40 kg\n')
    const swapped = new Kept(day).add({ type: 'exerciseSwapped', ...now, step: '1.1.s1', name: 'pull' })
    expect(changes(swapped.type('5 x 30'))).toEqual(['row: pull instead'])
  })

  it('call what was moved by its name', () => {
    const moved = (lines: string, from: number) =>
      changes(keptDay(lines).add({ type: 'itemMoved', ...now, item: [0, from], before: [0, 0] }))
    expect(moved('prep\n  leg swings\n  plank hold\n', 1)).toEqual(['plank hold: moved'])
    expect(moved('lift\n  row 1 x 5\n  dip 1 x 5 + curl 1 x 8\n', 1)).toEqual(['dip + curl: moved'])
    expect(moved('run\n  1 km easy\n  2 x 400 m @ 4:00/km, jog 200 m\n', 1)).toEqual([
      '2 x 400 m @ 4:00/km: moved',
    ])
  })

  it('list what was left out of a run', () => {
    const run = dayOf('run\n  3 x 400 m @ 4:00/km, jog 200 m\n  3 km easy, split 1 km\n')
    expect(changes(new Kept(run).type('96', '-', '-', '5:00').finish())).toEqual([
      '3 x 400 m @ 4:00/km: 1 of 3 repeats',
      '3 km easy: 1 of 3 splits',
    ])
  })
})
