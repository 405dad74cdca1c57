import { describe, expect, it } from 'vitest'
import { rackOf, usualPlates } from '../../src/figures/bar.ts'
import type { Load } from '../../src/prescription/model.ts'
import { changedLoad, fewerReps, loadKilograms, moreReps } from '../../src/progress/loadSteps.ts'
import { nextOf } from '../../src/progress/next.ts'
import { lineOutcome } from '../../src/progress/nextLift.ts'
import {
  isRunCoveredByPain,
  needsADoctor,
  painCovering,
  painReason,
  painsOf,
  sinceText,
} from '../../src/progress/pain.ts'
import { daysBetween } from '../../src/progress/weeks.ts'
import type { SessionState } from '../../src/session/state.ts'
import { dayOf } from '../day.ts'
import { Kept } from '../summary/kept.ts'

/* What a day means for the next one like it, on either side of each limit. These are this program's own rules. */

const today = '2026-11-26'
/** A bar of 20 kg and the usual plates, of which 1.25 kg is the lightest. */
const atHand = (unit: 'kg' | 'lb') => ({
  rack: rackOf({ bar: unit === 'kg' ? 20 : 45, collar: 0, plates: usualPlates[unit] }),
  smallest: unit === 'kg' ? 1.25 : 2.5,
})

function state(date: string, lines: string, entries: string, effort: number | null = null): SessionState {
  const day = new Kept(dayOf(`A day\nathlete: 70 kg\n${lines}\n`)).type(...entries.split(', '))
  if (effort !== null) day.close(0, effort, 30)
  return { ...day.state, date }
}

/** The reasons for the newest of these days, each with its date. */
function reasons(
  lines: string,
  days: [date: string, entries: string, effort?: number][],
  asked = today,
): string[] {
  const [now, ...before] = days
    .map(([date, entries, effort]) => state(date, lines, entries, effort))
    .reverse()
  if (now === undefined) throw new Error('no day')
  return nextOf(now, before, asked, atHand).decisions.map(({ decision, reason }) => `${decision}: ${reason}`)
}

describe('a run', () => {
  const line = 'run\n  4 x 500 m in 1:50-1:55, jog 200 m'
  const good = '1:52, 1:52, 1:52, 1:52'
  const run = (...days: [string, string, number?][]) => reasons(line, days)[0]

  it.each<[string, number | undefined, string]>([
    // Half of them in range are enough to keep it.
    ['1:52, 1:52, 2:00, 2:00', 9, 'same: 2 of 4 in range at effort 9 -> same range'],
    ['1:52, 2:00, 2:00, 2:00', undefined, 'down: 1 of 4 in range -> 2 % slower, in 1:52-1:57'],
    ['1:45, 2:00, 2:00, 2:00', 8, 'down: 1 of 4 in range or faster at effort 8 -> 2 % slower, in 1:52-1:57'],
    // Faster than written in half of them, and at an effort of 9.
    ['1:45, 1:45, 1:52, 1:52', 9, 'same: 2 of 4 faster than the range at effort 9 -> run the written range'],
    ['1:45, 1:45, 1:52, 1:52', 8.5, 'same: 4 of 4 in range or faster at effort 8.5 -> same range'],
    ['1:45, 1:52, 1:52, 1:52', 9, 'same: 4 of 4 in range or faster at effort 9 -> same range'],
    [good, 8, 'same: 4 of 4 in range at effort 8 -> same range, once more'],
    [good, 8.5, 'same: 4 of 4 in range at effort 8.5 -> same range'],
    ['1:52, 1:52, 1:52, 2:00', 8, 'same: 3 of 4 in range at effort 8 -> same range'],
    // An effort typed with a repeat goes before that of the part.
    ['1:52, 1:52 rpe 9, 1:52 rpe 7, 1:52', 5, 'same: 4 of 4 in range at effort 9 -> same range'],
  ])('of %s at effort %s: %s', (entries, effort, reason) => {
    expect(run([today, entries, effort])).toBe(reason)
  })

  it('is 1 % faster after two good days, and not after a good and a bad one', () => {
    expect(run(['2026-11-19', good, 8], [today, good, 7])).toBe(
      'up: 4 of 4 in range at effort 7, twice -> 1 % faster, in 1:49-1:54',
    )
    expect(run(['2026-11-19', good, 9], [today, good, 7])).toContain('once more')
    expect(run(['2026-11-19', good], [today, good, 7])).toContain('once more')
    expect(
      run(['2026-11-12', good, 8], ['2026-11-19', '2:00, 2:00, 2:00, 2:00', 8], [today, good, 7]),
    ).toContain('once more')
  })

  it('of five repeats is good with four in range', () => {
    const five = reasons('run\n  5 x 500 m in 1:50-1:55, jog 200 m', [
      [today, '1:52, 1:52, 1:52, 1:52, 2:00', 8],
    ])
    expect(five).toEqual(['same: 4 of 5 in range at effort 8 -> same range, once more'])
  })

  it('keeps a range that 1 % changes by less than a second', () => {
    const short = 'run\n  2 x 200 m in 0:33-0:35, jog 200 m'
    expect(
      reasons(short, [
        ['2026-11-19', '34, 34', 7],
        [today, '34, 34', 7],
      ]),
    ).toEqual(['same: 2 of 2 in range at effort 7, twice -> same range: less than a second'])
  })

  it('begins with half of the repeats after more than three weeks, and easily after more than eight', () => {
    const away = (date: string) => run([date, good, 7])
    expect(away('2026-11-05')).toContain('once more')
    expect(away('2026-11-04')).toBe('fewer: 3 weeks since the last time -> 2 repeats, no faster range')
    expect(away('2026-10-01')).toBe('fewer: 8 weeks since the last time -> 2 repeats, no faster range')
    expect(away('2026-09-30')).toBe(
      'fewer: 8 weeks since the last time -> 2 repeats, no faster range, easy running first',
    )
    expect(reasons('run\n  5 km @ 4:00-4:10/km', [['2026-11-01', '20:30']])).toEqual([
      'same: 3 weeks since the last time -> no faster range',
    ])
  })

  it('of another line, or another interval of the line, is not the time before', () => {
    const lines = `${line}\n  4 x 500 m in 1:55-2:00, jog 200 m`
    const first = '1:52, 1:52, 1:52, 1:52'
    const slow = '2:05, 2:05, 2:05, 2:05'
    const of = (before: string, now: string) =>
      reasons(lines, [
        ['2026-11-19', before, 7],
        [today, now, 7],
      ])
    expect(of(`${slow}, ${first}`, `${first}, 1:57, 1:57, 1:57, 1:57`)[0]).toContain('once more')
    expect(of(`${first}, ${slow}`, `${first}, 1:57, 1:57, 1:57, 1:57`)[0]).toContain('1 % faster')
    expect(of(`${first}, ${slow}`, `${first}, 1:57, 1:57, 1:57, 1:57`)[1]).toContain('once more')
    const two = (before: string, now: string) =>
      reasons('run\n  2 x (500 m in 1:50-1:55, jog 200 m, 500 m in 1:55-2:00, jog 200 m)', [
        ['2026-11-19', before, 7],
        [today, now, 7],
      ])
    const decided = two('1:52, 2:05, 1:52, 2:05', '1:52, 1:57, 1:52, 1:57')
    expect(decided.map((reason) => reason.replace(/.*-> /, ''))).toEqual([
      '1 % faster, in 1:49-1:54',
      'same range, once more',
    ])
  })

  it('that was left out today counts from the last day on which it was run', () => {
    const none = '-, -, -, -'
    expect(run(['2026-11-01', good, 7], [today, none])).toBe(
      'fewer: 3 weeks since the last time -> 2 repeats, no faster range',
    )
    expect(run(['2026-11-01', good, 7], ['2026-11-20', none], [today, none])).toContain('3 weeks since')
    expect(run(['2026-11-20', good, 7], [today, none])).toBeUndefined()
  })

  it('has no decision without a range or a result', () => {
    expect(reasons('run\n  5 km easy', [[today, '25:00', 5]])).toEqual([])
    expect(reasons(line, [[today, '-, -, -, -', 5]])).toEqual([])
  })
})

describe('a lift', () => {
  const line = 'lift\n  front squat 2 x 3 @ 92.5 kg'
  const lift = (...days: [string, string][]) => reasons(line, days)[0]

  it('is heavier after two complete days at a reasonable effort', () => {
    expect(lift(['2026-11-19', '3 @8, 3 @8.5'], [today, '3 @8.5, 3 @8'])).toBe(
      'up: complete at 8.5, 8 on 92.5 kg twice -> 95 kg',
    )
    expect(lift([today, '3, 3'])).toBe('same: complete on 92.5 kg once -> same, once more')
    expect(lift(['2026-11-19', '3, 3 @9'], [today, '3, 3'])).toContain('once more')
    expect(lift([today, '3, 3 @9'])).toBeUndefined()
    expect(lift([today, '3 @9.5, 3'])).toBeUndefined()
    expect(lift([today, '3 @10, 3'])).toBe('same: effort 10 -> same load')
  })

  it('with a written effort is complete at it, and too hard one above it', () => {
    const written = (entries: string) =>
      reasons('lift\n  front squat 2 x 3 @ 92.5 kg rpe 8', [[today, entries]])
    expect(written('3 @8, 3 @7')).toEqual(['same: complete at 8, 7 on 92.5 kg once -> same, once more'])
    expect(written('3 @8.5, 3 @8')).toEqual([])
    expect(written('3 @9, 3 @8')).toEqual(['same: effort 9, written 8 -> same load'])
    expect(written('3, 3 @8')).toEqual([])
  })

  it('keeps the load after one failure and is 5 % lighter after two', () => {
    expect(lift([today, '3, 2!'])).toBe('same: 3, 2 failed -> same load, aim for 3')
    expect(lift([today, '3, 2'])).toBe('same: 3, 2 short -> same load, aim for 3')
    expect(lift(['2026-11-19', '2, 3'], [today, '3, 2'])).toBe(
      'down: 3, 2 short, twice at 92.5 kg -> 5 % less, 87.5 kg',
    )
    expect(lift(['2026-11-12', '2, 2'], ['2026-11-19', '3, 3'], [today, '3, 2'])).toContain('same load')
  })

  it('is 10 % lighter after more than three weeks, and 20 % after more than eight', () => {
    expect(lift(['2026-11-05', '3, 3'])).toContain('once more')
    // 83.25 and 74 kg, at the next load that can be made.
    expect(lift(['2026-11-04', '3, 3'])).toBe('down: 3 weeks since the last time -> 10 % less load, 85 kg')
    expect(lift(['2026-10-01', '3, 3'])).toContain('10 % less load, 85 kg')
    expect(lift(['2026-09-30', '3, 3'])).toBe('down: 8 weeks since the last time -> 20 % less load, 75 kg')
    const body = (added: string) =>
      reasons(`lift\n  pull-up 1 x 5 @ bodyweight${added}`, [['2026-11-01', '5']])
    expect(body('+12.5 kg')).toEqual([
      'down: 3 weeks since the last time -> 10 % less added load, bodyweight+11.25 kg',
    ])
    expect(body('+10 kg')).toEqual(['same: 3 weeks since the last time -> begin easily'])
    expect(body('')).toEqual(['same: 3 weeks since the last time -> begin easily'])
  })

  it('is not blamed for a hard run before it', () => {
    const both = (entries: string, effort: number | null) => {
      const lines = 'run\n  2 x 500 m in 1:50-1:55, jog 200 m\nlift\n  front squat 1 x 3 @ 92.5 kg'
      const now = state(today, lines, entries, effort)
      return nextOf(now, [], today, atHand).decisions.at(-1)?.reason
    }
    const blamed = '2 short after a hard run -> unchanged, run the written pace first'
    expect(both('1:45, 1:52, 2', null)).toBe(blamed)
    expect(both('1:52, 1:52, 2', 9)).toBe(blamed)
    expect(both('1:52, 1:52, 2', 8.5)).toBe('2 short -> same load, aim for 3')
    expect(both('1:52, 1:57, 2', null)).toBe('2 short -> same load, aim for 3')
  })

  it('counts only days of the same sets and side', () => {
    const earlier = (lines: string, entries: string) => state('2026-11-19', lines, entries)
    const after = (before: SessionState) =>
      nextOf(state(today, line, '3, 3'), [before], today, atHand).decisions[0]?.decision
    expect(after(earlier('lift\n  Front Squats 2 x 3 @ 92.5 kg', '3, 3'))).toBe('up')
    for (const other of [
      'lift\n  front squat 3 x 3 @ 92.5 kg',
      'lift\n  front squat 2 x 3 each leg @ 92.5 kg',
      'lift\n  front squat 2 x 3+ @ 92.5 kg',
      'lift\n  front squat 2 x 3 @ 90 kg',
      'lift\n  front squat 2 x 4 @ 92.5 kg',
    ])
      expect(after(earlier(other, other.includes('3 x 3') ? '3, 3, 3' : '4, 4')), other).toBe('same')
  })

  it('is judged by its own sets, whatever else the day has', () => {
    const lines = `lift
  front squat 2 x 3 @ 92.5 kg
  pull-up 1 x 5 @ bodyweight + dip 1 x 8 @ bodyweight
lift
  bench press 1 x 5 @ 60 kg
  row 1 x 8 @ 40 kg`
    expect(reasons(lines, [[today, '3, 3, 4, 8, 5, 8']])).toEqual([
      'same: complete on 92.5 kg once -> same, once more',
      'same: 4 short -> same load, aim for 5',
      'same: complete on bodyweight once -> same, once more',
      'same: complete on 60 kg once -> same, once more',
      'same: complete on 40 kg once -> same, once more',
    ])
  })

  it('that was left out today counts from the last day on which it was lifted', () => {
    const none = '-, -'
    const away = 'down: 3 weeks since the last time -> 10 % less load, 85 kg'
    expect(lift([today, none])).toBeUndefined()
    expect(lift(['2026-11-20', '3, 3'], [today, none])).toBeUndefined()
    expect(lift(['2026-11-01', '3, 3'], [today, none])).toBe(away)
    expect(lift(['2026-11-01', '3, 3'], ['2026-11-20', none], [today, none])).toBe(away)
    expect(lift(['2026-11-01', '3, 3'], [today, '3, -'])).toBeUndefined()
    // It looks back over six days with the line.
    const since = (days: number) => {
      const untried = Array.from({ length: days }, (_, at): [string, string] => [`2026-11-1${at}`, none])
      return lift(['2026-11-01', '3, 3'], ...untried, [today, none])
    }
    expect([since(5), since(6)]).toEqual([away, undefined])
  })

  it('is compared with the last day on which it was lifted', () => {
    const none = '-, -'
    const last = '2026-11-12'
    expect(lift([last, '3, 3'], ['2026-11-19', none], [today, '3, 3'])).toContain('twice -> 95 kg')
    expect(lift([last, '2, 3'], ['2026-11-19', none], [today, '3, 2'])).toContain('5 % less, 87.5 kg')
    expect(lift([last, '3, -'], [today, '3, 3'])).toContain('once more')
  })

  it('is looked for in sixty sessions', () => {
    const now = state(today, line, '3, 3')
    const before = state('2026-11-19', line, '3, 3')
    const other = state('2026-11-20', 'lift\n  curl 1 x 8 @ 10 kg', '8')
    const decided = (count: number) =>
      nextOf(now, [...Array(count).fill(other), before], today, atHand).decisions[0]?.decision
    expect([decided(59), decided(60)]).toEqual(['up', 'same'])
  })

  it('of an undated day is not long ago', () => {
    const undated = { ...state(today, line, '3, 3'), date: null }
    expect(nextOf(undated, [], today, atHand).decisions[0]?.reason).toContain('once more')
  })

  it('stays as it is after a warning sign, even after weeks away', () => {
    expect(lift(['2026-10-20', '3 pain "chest", 3'])).toBe(
      'same: pain: chest -> unchanged, see a doctor first',
    )
  })

  it('of other sets is not the time before', () => {
    const since = (earlier: string, entries: string) => {
      const before = state('2026-11-01', `lift\n  front squat ${earlier} @ 92.5 kg`, entries)
      const decided = nextOf(state(today, line, '-, -'), [before], today, atHand).decisions
      return decided[0]?.decision
    }
    expect([since('2 x 3', '3, 3'), since('2 x 5', '5, 5')]).toEqual(['down', 'down'])
    expect([since('1 x 3', '3'), since('3 x 3', '3, 3, 3')]).toEqual([undefined, undefined])
    expect([since('2 x 3+', '3, 3'), since('3/max', '3, 3')]).toEqual([undefined, undefined])
    expect(since('2 x 3 each leg', '3, 3')).toBeUndefined()
  })

  it('with a written effort of 9 is complete at 9, and 10 is not a whole point above 9.5', () => {
    const written = (rpe: number, entries: string) =>
      reasons(`lift\n  front squat 2 x 3 @ 92.5 kg rpe ${rpe}`, [[today, entries]])
    expect(written(9, '3 @9, 3 @9')).toEqual(['same: complete at 9, 9 on 92.5 kg once -> same, once more'])
    expect(written(9, '3 @9, 3 @10')).toEqual(['same: effort 10, written 9 -> same load'])
    expect(written(9.5, '3 @9, 3 @10')).toEqual([])
  })

  it('has the efforts in its reason only if each set has one', () => {
    expect(lift([today, '3 @8, 3'])).toBe('same: complete on 92.5 kg once -> same, once more')
  })

  it.each<[string, string, string[]]>([
    ['push-up 2 x 10', '10, 10', ['same: complete once -> same, once more']],
    ['plank 1 x 45 s', '40', ['same: 40 short -> same']],
    ['calf raise 1 x 15', '12', ['same: 12 short -> same, aim for 15']],
    ['calf raise 1 x 15', '15 @10', ['same: effort 10 -> same']],
    ['carry 1 x 40 m @ 20 kg', '39 m', ['same: 39 short -> same load']],
    ['squat 1 x (2+2) @ 60 kg', '2+1', ['same: 2+1 short -> same load']],
    ['squat 5/3 @ 60/70 kg', '5, 3', ['same: complete on 60 kg/70 kg once -> same, once more']],
    ['squat 5/3 @ 60/70 kg', '4, 3', ['same: 4, 3 short -> same load, aim for 5']],
  ])('%s, done %s once: %j', (written, entries, expected) => {
    expect(reasons(`lift\n  ${written}`, [[today, entries]])).toEqual(expected)
  })

  it.each<[string, string, string]>([
    // Up: 5 % exactly, then a repetition, then 10 % exactly where repetitions are not counted.
    ['curl 1 x 8 @ 2x50 kg', '8', 'up: complete on 2x50 kg twice -> 2x52.5 kg'],
    [
      'curl 2 x 8 @ 2x47.5 kg',
      '8, 8',
      'more: complete on 2x47.5 kg twice; the next load is too far -> one rep more, 9',
    ],
    [
      'curl 8/6 @ 2x40 kg',
      '8, 6',
      'more: complete on 2x40 kg twice; the next load is too far -> one rep more, 9/7',
    ],
    ['hold 1 x 30 s @ 2x25 kg', '30', 'up: complete on 2x25 kg twice -> 2x27.5 kg'],
    [
      'hold 1 x 30 s @ 2x22.5 kg',
      '30',
      'same: complete on 2x22.5 kg twice; no next load within 10 % -> same',
    ],
    ['plank 1 x 30 s', '30', 'same: complete twice -> same'],
    // Down: where one of the loads cannot go down, none does.
    ['squat 5/5 @ 20/100 kg', '4, 5', 'fewer: 4, 5 short, twice at 20 kg/100 kg -> same load, 2 reps fewer'],
    ['curl 1 x (8 > 6) @ 20/15 kg', '8>5', 'same: 8+5 short, twice at 20 kg -> same load'],
    ['push-up 2 x 2', '2, 1', 'same: 2, 1 short, twice -> same'],
    ['push-up 2 x 4', '4, 3', 'fewer: 4, 3 short, twice -> same, 2 reps fewer'],
    ['calf raise 1 x 15', '15', 'more: complete twice -> one rep more, 16'],
  ])('%s, done %s twice: %s', (written, entries, expected) => {
    const days = ['2026-11-19', today].map((date): [string, string] => [date, entries])
    expect(reasons(`lift\n  ${written}`, days)).toEqual([expected])
  })

  it.each([
    ['push-up 2 x 10', '10, 10'],
    ['curl 1 x (8 > 6) @ 25/20 kg', '8>6'],
  ])('%s begins easily after three weeks away', (written, entries) => {
    expect(reasons(`lift\n  ${written}`, [['2026-11-01', entries]])).toEqual([
      'same: 3 weeks since the last time -> begin easily',
    ])
  })

  it('takes the next load after two added repetitions at this load, not at another', () => {
    const day = (date: string, reps: number, kg: number) =>
      state(date, `lift\n  curl 1 x ${reps} @ 2x${kg} kg`, String(reps))
    const after = (...before: SessionState[]) => {
      const { decisions, prescription } = nextOf(day(today, 10, 27.5), before, today, atHand)
      return [decisions[0]?.reason.replace(/.*twice/, ''), prescription.parts[0]?.items[0]?.text]
    }
    const same = day('2026-11-19', 10, 27.5)
    const more = ['; the next load is too far -> one rep more, 11', 'curl 1 x 11 @ 2x27.5 kg']
    expect(after(same)).toEqual(more)
    expect(after(same, day('2026-11-12', 9, 27.5))).toEqual(more)
    expect(after(same, day('2026-11-12', 8, 27.5))).toEqual([' -> 2x30 kg x 8', 'curl 1 x 8 @ 2x30 kg'])
    expect(after(same, day('2026-11-12', 8, 25))).toEqual(more)
  })

  it('is blamed on no run after it, and on no easy one', () => {
    const squat = 'lift\n  front squat 1 x 3 @ 92.5 kg'
    const repeats = 'run\n  2 x 500 m in 1:50-1:55, jog 200 m'
    const plain = 'same: 2 short -> same load, aim for 3'
    expect(reasons(`${squat}\n${repeats}`, [[today, '2, 1:45, 1:45']])).toContain(plain)
    expect(reasons(`run\n  2 km easy\n${squat}`, [[today, '10:00, 2']])).toEqual([plain])
  })

  it.each([
    ['40 kg', '85 kg', '40 kg'],
    ['82.5 kg', '85 kg', '82.5 kg'],
    ['185 lb', '85 kg', '185 lb'],
    ['85 kg', '85 kg; no warm-up from 85 kg', null],
    ['87.5 kg', '85 kg; no warm-up from 87.5 kg', null],
    ['190 lb', '85 kg; no warm-up from 190 lb', null],
  ])('with a warm-up from %s becomes %s after three weeks', (from, told, kept) => {
    const now = state('2026-11-01', `lift\n  front squat 1 x 3 @ 92.5 kg, build from ${from}`, '3')
    const { decisions, prescription } = nextOf(now, [], today, atHand)
    expect(decisions[0]?.reason).toBe(`3 weeks since the last time -> 10 % less load, ${told}`)
    const text = prescription.parts[0]?.items[0]?.text
    expect(text).toBe(`front squat 1 x 3 @ 85 kg${kept === null ? '' : `, build from ${kept}`}`)
  })

  it('keeps its spelling if nothing changes', () => {
    const text = (...days: string[]) => {
      const [now, before] = days.map((entries) => state(today, 'lift\n  front squat: 2x3 at 92.5kg', entries))
      if (now === undefined) throw new Error('no day')
      return nextOf(now, before ? [before] : [], today, atHand).prescription.parts[0]?.items[0]?.text
    }
    expect(text('3, 3')).toBe('front squat: 2x3 at 92.5kg')
    expect(text('3, 3', '3, 3')).toBe('front squat 2 x 3 @ 95 kg')
  })
})

describe('how a line went', () => {
  const outcomeOf = (done: SessionState, item = 0) =>
    lineOutcome(
      done,
      done.steps.flatMap((step) => (step.kind === 'set' && step.item === item ? [step] : [])),
    )
  const went = (line: string, entries: string) => outcomeOf(state(today, `lift\n  ${line}`, entries))

  it.each([
    ['squat 1 x 5 @ 100 kg', '5', 'complete'],
    ['squat 1 x 5 @ 100 kg', '6', 'complete'],
    ['squat 1 x 5 @ 100 kg', '4', 'missed'],
    ['squat 1 x 5 @ 100 kg', '5!', 'missed'],
    ['squat 1 x 5 @ 100 kg', '5 x 97.5', 'missed'],
    ['squat 1 x 5 @ 100 kg', '5 x 102.5', 'complete'],
    ['squat 1 x 5 @ 100 kg', '5 pain "knee 3"', 'other'],
    ['squat 1 x 5 @ 100 kg', '-', 'other'],
    ['squat 1 x 4-6 @ 100 kg', '6', 'complete'],
    ['squat 1 x 4-6 @ 100 kg', '5', 'other'],
    ['squat 1 x 4-6 @ 100 kg', '3', 'missed'],
    ['squat 1 x 5+ @ 100 kg', '5', 'complete'],
    ['squat 1 x 5+ @ 100 kg', '4', 'missed'],
    ['squat 1 x (2+2) @ 100 kg', '2+2', 'complete'],
    ['squat 1 x (2+2) @ 100 kg', '2+1', 'missed'],
    ['squat 1 x (2+max) @ 100 kg', '2+0', 'complete'],
    ['plank 1 x 45 s', '45', 'complete'],
    ['plank 1 x 45 s', '44.5', 'missed'],
    ['carry 1 x 40 m @ 20 kg', '40 m', 'complete'],
    ['carry 1 x 40 m @ 20 kg', '39 m', 'missed'],
    ['curl 1 x (8 > 6) @ 20/15 kg', '8>6', 'complete'],
    ['curl 1 x (8 > 6) @ 20/15 kg', '8>5', 'missed'],
    ['1 x (clean 1 + jerk 2) @ 60 kg', '1+2', 'complete'],
    ['1 x (clean 1 + jerk 2) @ 60 kg', '1+1', 'missed'],
    ['squat 1 x max @ 60 kg', '12', 'other'],
    ['pull-up 1 x 5', '5 x bw-20', 'complete'],
    ['pull-up 1 x 5 @ bodyweight', '5 x bw-20', 'missed'],
    ['squat 2 x 5 @ 100 kg', '5, 4', 'missed'],
    ['squat 2 x 5 @ 100 kg', '5, -', 'other'],
    ['squat 1 x 5 @ 100 kg rpe 8', '5 @8', 'complete'],
    ['squat 1 x 5 @ 100 kg rpe 8', '5 @8.5', 'other'],
    ['squat 1 x 5 @ 100 kg rpe 8', '5', 'other'],
  ])('%s, done %s: %s', (line, entries, outcome) => expect(went(line, entries)).toBe(outcome))

  it('is not known of a line that is missing, or after a pain noted for one of its sets', () => {
    const done = state(today, 'lift\n  squat 1 x 5 @ 100 kg', '5')
    expect(outcomeOf(done, 1)).toBe('other')
    const day = new Kept(dayOf('A day\nlift\n  squat 1 x 5 @ 100 kg\n')).type('5')
    day.add({ type: 'noteAdded', at: null, up: null, about: '1.1.s1', text: 'knee 3', pain: true })
    expect(outcomeOf(day.state)).toBe('other')
  })

  it('is not known only for the line of the pain, of which one set is enough', () => {
    const outcomes = (about: string, pain: boolean) => {
      const day = new Kept(dayOf('A day\nlift\n  squat 2 x 5 @ 100 kg\n  row 1 x 8 @ 40 kg\n')).type(
        '5',
        '5',
        '8',
      )
      day.add({ type: 'noteAdded', at: null, up: null, about, text: 'knee 3', pain })
      return [outcomeOf(day.state), outcomeOf(day.state, 1)]
    }
    expect(outcomes('1.1.s2', true)).toEqual(['other', 'complete'])
    expect(outcomes('1.2.s1', true)).toEqual(['complete', 'other'])
    expect(outcomes('1.1.s2', false)).toEqual(['complete', 'complete'])
    expect(went('squat 2 x 5 @ 100 kg', '4, 5 pain "knee 3"')).toBe('other')
  })

  it('is not known after another exercise was done instead, which is no result of it', () => {
    const swapped = (date: string, step: string) => {
      const day = new Kept(dayOf('A day\nlift\n  squat 2 x 5 @ 100 kg\n'))
      if (step === '1.1.s2') day.type('5')
      day.add({ type: 'exerciseSwapped', at: null, up: null, step, name: 'leg press' })
      return { ...day.type(...(step === '1.1.s2' ? ['5 x 120'] : ['5 x 120', '5'])).state, date }
    }
    expect([outcomeOf(swapped(today, '1.1.s1')), outcomeOf(swapped(today, '1.1.s2'))]).toEqual([
      'other',
      'other',
    ])
    const after = (...[now, ...before]: [SessionState, ...SessionState[]]) =>
      nextOf(now, before, today, atHand).decisions.map(({ decision }) => decision)
    expect(after(swapped('2026-11-01', '1.1.s1'))).toEqual([])
    expect(after(swapped('2026-11-01', '1.1.s2'))).toEqual(['down'])
  })
})

describe('another load', () => {
  const mass = (from: number, more: { to?: number; pair?: boolean } = {}): Load => ({
    kind: 'mass',
    from,
    to: more.to ?? from,
    unit: 'kg',
    pair: more.pair ?? false,
  })
  const body = (added: number): Load => ({ kind: 'bodyweight', added, unit: 'kg' })
  const made = (load: Load | null) =>
    load?.kind === 'mass' ? load.from : load?.kind === 'bodyweight' ? load.added : null

  it.each<[Load, number, 'share' | 'near', number | null]>([
    // On the bar in steps of 2.5 kg.
    [mass(100), 0.9, 'share', 90],
    [mass(92.5), 0.9, 'share', 85],
    [mass(92.5), 0.95, 'near', 87.5],
    [mass(42.5), 0.95, 'near', 40],
    [mass(22.5), 0.95, 'near', null],
    [mass(20), 0.9, 'share', null],
    // Dumbbells in steps of 2.5 kg.
    [mass(22.5, { pair: true }), 0.9, 'share', null],
    [mass(25, { pair: true }), 0.9, 'share', 22.5],
    [mass(25, { pair: true }), 0.95, 'near', 22.5],
    [mass(10, { pair: true }), 0.95, 'near', null],
    [mass(10), 0.8, 'share', null],
    // On the body in steps of the lightest plate.
    [body(10), 0.9, 'share', null],
    [body(12.5), 0.8, 'share', 10],
    [body(12.5), 0.8, 'near', 10],
    [body(11.25), 0.9, 'near', 10],
    [body(0), 0.9, 'share', null],
    [body(-10), 0.9, 'share', null],
  ])('%j taken down to %d (%s) is %s', (load, share, toward, expected) => {
    expect(made(changedLoad(load, share, toward, atHand))).toBe(expected)
  })

  it('follows the plates at hand on a bar, and steps of 2.5 kg for dumbbells and below the bar', () => {
    const plates = [
      { mass: 10, pairs: 2 },
      { mass: 5, pairs: 1 },
    ]
    // 20, 30, 40, 50, 60 or 70 kg.
    const few = () => ({ rack: rackOf({ bar: 20, collar: 0, plates }), smallest: 5 })
    const to = (load: Load, share: number, toward: 'share' | 'near' | 'above', least = 1) =>
      made(changedLoad(load, share, toward, few, { name: 'dip', bodyKg: 70, least }))
    expect([to(mass(40), 0.9, 'share'), to(mass(40), 0.75, 'share'), to(mass(40), 0.95, 'near')]).toEqual([
      ...[null, 30, null],
    ])
    expect([to(mass(50), 0.8, 'near'), to(mass(20), 0.9, 'near'), to(mass(70), 0.9, 'near')]).toEqual([
      ...[null, null, null],
    ])
    expect([to(mass(40), 1, 'above'), to(mass(70), 1, 'above'), to(mass(17.5), 1, 'above')]).toEqual([
      50,
      null,
      20,
    ])
    expect([to(mass(40), 1, 'above', 1.25), to(mass(40), 1, 'above', 1.26)]).toEqual([50, 60])
    expect(to(mass(50, { to: 70 }), 1, 'above')).toBeNull()
    const dumbbells = mass(40, { pair: true })
    expect([to(dumbbells, 0.9, 'share'), to(dumbbells, 0.95, 'near'), to(dumbbells, 1, 'above')]).toEqual([
      ...[37.5, 37.5, 42.5],
    ])
    expect([to(mass(2), 0.9, 'share'), to(mass(2.5), 0.5, 'near'), to(mass(12.5), 0.8, 'share')]).toEqual([
      ...[null, null, 10],
    ])
    expect([to(body(10), 0.9, 'near'), to(body(10), 0.5, 'share')]).toEqual([5, 5])
    // 110 kg are 70 kg with eight of the lightest plates.
    expect([
      to(body(0), 1, 'above', 1.07),
      to(body(0), 1, 'above', 11 / 7),
      to(body(0), 1, 'above', 1.58),
    ]).toEqual([...[5, 40, null]])
  })

  it('of a push-up is the same however it is spelt', () => {
    const kg = (name: string) => loadKilograms(body(0), name, 100)
    expect(['push-up', 'push up', 'Pushups', 'press'].map(kg)).toEqual([64, 64, 64, 100])
  })

  it('goes up by the least step that is enough', () => {
    const up = (load: Load, least: number, bodyKg: number | null = 70, name = 'dip') =>
      made(changedLoad(load, 1, 'above', atHand, { name, bodyKg, least }))
    expect(up(mass(92.5), 1.025)).toBe(95)
    expect(up(mass(110), 1.025)).toBe(115)
    expect(up(mass(100), 1)).toBe(102.5)
    expect(up(mass(22.5, { pair: true }), 1.025)).toBe(25)
    expect(up(body(0), 1.025)).toBe(2.5)
    expect(up(body(0), 1)).toBe(1.25)
    // 64 % of the body in a push-up: 44.8 kg, of which 1.25 are enough.
    expect(up(body(0), 1.025, 70, 'push-up')).toBe(1.25)
    expect(up(body(0), 1.025, null)).toBeNull()
    expect(up(body(0), 1.15)).toBeNull()
    expect(up(body(-70), 1.025)).toBeNull()
    const percent: Load = { kind: 'percent', from: 80, to: 80 }
    expect(changedLoad(percent, 0.9, 'share', atHand)).toBeNull()
    expect(changedLoad(mass(90, { to: 100 }), 0.9, 'share', atHand)).toMatchObject({ from: 82.5, to: 90 })
  })

  it('counts both of a pair, and the body', () => {
    expect(loadKilograms(mass(20, { pair: true }), 'row', null)).toBe(40)
    expect(loadKilograms(body(-20), 'pull-up', 70)).toBe(50)
    expect(loadKilograms(body(10), 'pull-up', null)).toBeNull()
    expect(loadKilograms({ kind: 'percent', from: 80, to: 80 }, 'squat', 70)).toBeNull()
  })

  it('or other repetitions, never fewer than one, and only where they are counted', () => {
    const exercise = (line: string) => {
      const [part] = dayOf(`A day\nlift\n  ${line}\n`).parts
      const item = part?.items[0]
      if (!item || !('exercises' in item) || !item.exercises[0]) throw new Error(line)
      return item.exercises[0]
    }
    const squat = exercise('squat 2 x 3-5 @ 60 kg')
    expect(fewerReps(squat, 3)).toBe(false)
    expect(fewerReps(squat, 2)).toBe(true)
    expect(squat.sets.map(({ dose }) => dose)).toEqual(Array(2).fill({ kind: 'reps', from: 1, to: 3 }))
    expect(moreReps(squat, 1)).toBe(true)
    expect(squat.sets[0]?.dose).toEqual({ kind: 'reps', from: 2, to: 4 })
    const mixed = exercise('squat 5/3/max @ 60 kg')
    expect([moreReps(mixed, 1), fewerReps(mixed, 1)]).toEqual([false, false])
    expect(fewerReps(exercise('squat 5/2 @ 60 kg'), 2)).toBe(false)
    expect(moreReps(exercise('plank 2 x 45 s'), 1)).toBe(false)
    expect(fewerReps(exercise('plank 2 x 45 s'), 1)).toBe(false)
  })
})

describe('a pain', () => {
  const pain = (place: string, level: number | null = 4) => ({ place, level })
  const covers = (place: string, exercise: string) => painCovering([pain(place)], exercise) !== undefined

  it.each([
    ['left shoulder', 'bench press', true],
    ['left shoulder', 'squat', false],
    ['left shoulder', 'deadlift', true],
    ['forearm', 'goblet squat', true],
    ['forearm', 'lunge', false],
    ['elbows', 'row', true],
    ['left calf', 'squat', true],
    ['left calf', 'pull-up', true],
    ['left calf', 'bench press', false],
    ['left calf', 'seated press', false],
    ['left calf', 'leg press, seated', true],
    ['chest', 'bench press', true],
    ['dizzy', 'curl', true],
  ])('in the %s, a %s: %s', (place, exercise, is) => expect(covers(place, exercise)).toBe(is))

  it('stops running faster unless it is of shoulder, arm or wrist', () => {
    expect(
      ['left calf', 'shoulder', 'wrist', 'chest', 'numb arm'].map((place) => isRunCoveredByPain(pain(place))),
    ).toEqual([true, false, false, true, true])
  })

  it('of several is the one that needs a doctor, else that of the arm for a lift of the arm', () => {
    const pains = [pain('left calf'), pain('elbow'), pain('chest')]
    expect(painCovering(pains, 'row')?.place).toBe('chest')
    expect(painCovering(pains.slice(0, 2), 'row')?.place).toBe('elbow')
    expect(painCovering(pains.slice(0, 2), 'squat')?.place).toBe('left calf')
  })

  it('is told with its level and its day', () => {
    expect(painReason(pain('left calf'))).toBe('left calf: pain 4 -> unchanged')
    expect(painReason(pain('left calf', null), 'running')).toBe('pain: left calf -> running unchanged')
    expect(painReason(pain('chest'))).toBe('chest: pain 4 -> unchanged, see a doctor first')
    const dated = { ...pain('left calf'), on: { date: '2026-11-24', begun: 0 } }
    expect(painReason(dated)).toBe('left calf: pain 4 on Tue 24 Nov -> unchanged')
    expect(sinceText(34, dated)).toBe('left calf: pain 4 on Tue 24 Nov, 4 weeks since the last time')
    expect(sinceText(35, undefined)).toBe('5 weeks since the last time')
    expect(daysBetween('2026-11-26', '2026-11-24')).toBe(-2)
    expect(daysBetween('2026-10-01', '2026-11-26')).toBe(56)
  })

  it('counts once a place, the last time it was typed, unless that was 0 or a morning ended it', () => {
    const now = state(today, 'run\n  2 x 1 km easy', '5:00 pain "left calf 3", 5:00')
    const places = (...more: Parameters<typeof painsOf> extends [unknown, ...infer Rest] ? Rest : never) =>
      painsOf(now, ...more).map(({ place, level }) => `${place} ${level}`)
    expect(places()).toEqual(['left calf 3'])
    expect(places([pain('left calf', 5), pain('knee', 2)])).toEqual(['left calf 3', 'knee 2'])
    expect(places([], [pain('Left  calf', 0)])).toEqual([])
    expect(places([], [], ({ place }) => place === 'left calf')).toEqual([])
    const warned = state(today, 'run\n  1 km easy', '5:00 "fainted"')
    expect(painsOf(warned).map(needsADoctor)).toEqual([true])
    expect(painReason(painsOf(warned)[0] ?? pain(''))).toBe(
      'a warning sign was noted -> unchanged, see a doctor first',
    )
  })
})
