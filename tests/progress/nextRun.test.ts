import { describe, expect, it } from 'vitest'
import { standingPains } from '../../src/progress/pain.ts'
import type { SessionState } from '../../src/session/state.ts'
import { dayOf } from '../day.ts'
import { Kept } from '../summary/kept.ts'
import { gear, nextOf } from './nextDays.ts'

/* What a run means for the next one like it: which lines have a decision, and what is read for it. These are this
 * program's own rules. */

const today = '2026-11-26'

function state(date: string, lines: string, entries: string, effort: number | null = null): SessionState {
  const day = new Kept(dayOf(`A day\ngoal: 10 km in 40:00\n${lines}\n`)).type(...entries.split(', '))
  if (effort !== null) day.close(0, effort, 30)
  return { ...day.state, date }
}

const next = (now: SessionState, before: readonly SessionState[] = [], ...pains: { place: string }[]) =>
  nextOf(now, before, today, gear, standingPains(pains.map((pain) => ({ level: 4, ...pain }))))
const reasons = (...given: Parameters<typeof next>) =>
  next(...given).decisions.map(({ decision, reason }) => `${decision}: ${reason}`)

const line = 'run\n  4 x 500 m in 1:50-1:55, jog 200 m'
const good = '1:52, 1:52, 1:52, 1:52'

describe('a line of a run', () => {
  it('gets no faster range in the weeks before a race', () => {
    const [past, now] = [state('2026-11-19', line, good, 8), state(today, line, good, 8)]
    const { decisions } = nextOf(now, [past], today, gear, [], null, [], 'taper')
    expect(decisions).toMatchObject([
      { decision: 'same', reason: '4 of 4 in range at effort 8, twice -> same range: taper' },
    ])
  })

  it('gives no faster range after a day on which it hurt, also once that is over, but gives one if it was typed as over', () => {
    const hurting = (date: string, pain: string) =>
      state(date, line, `1:52, 1:52 pain "${pain}", 1:52, 1:52`, 8)
    const after = (pain: string) => reasons(state(today, line, good, 8), [hurting('2026-11-19', pain)])
    // A morning with a 0 after it: nothing hurts today.
    const over = (pain: string) =>
      nextOf(hurting(today, pain), [state('2026-11-19', line, good, 8)], today, gear, []).decisions[0]
    expect(after('left calf 4')).toEqual(['same: 4 of 4 in range at effort 8 -> same range, once more'])
    expect(over('left calf 4')?.decision).toBe('same')
    const faster = ['up: 4 of 4 in range at effort 8, twice -> 1 % faster, in 1:49-1:54']
    for (const pain of ['left calf 0', 'left wrist 4']) {
      expect(after(pain)).toEqual(faster)
      expect(over(pain)?.decision).toBe('up')
    }
  })

  it('gets no faster range after a heart rate above the written one on either day', () => {
    const capped = 'run\n  2 x 500 m in 1:50-1:55, hr under 160, jog 200 m'
    const [under, over] = ['1:52 hr 158, 1:52 hr 160', '1:52 hr 158, 1:52 hr 163']
    const after = (before: string, now: string) =>
      reasons(state(today, capped, now, 8), [state('2026-11-19', capped, before, 8)])
    expect(after(under, under)).toEqual([
      'up: 2 of 2 in range at effort 8, twice -> 1 % faster, in 1:49-1:54',
    ])
    expect(after(over, under)).toEqual(['same: 2 of 2 in range at effort 8 -> same range, once more'])
    expect(after(under, over)).toEqual(['same: 2 of 2 in range at effort 8, hr 3 over -> same range'])
  })

  it('moves each of the times of its repeats, and both paces of a progression', () => {
    const twice = (line: string, entries: string) => {
      const day = (date: string) => state(date, `run\n  ${line}`, entries, 8)
      const { decisions, prescription } = next(day(today), [day('2026-11-19')])
      return [decisions[0]?.reason.replace(/^.*-> /, ''), prescription.parts[0]?.items[0]?.text]
    }
    const repeats = (times: string) => `4 x 400 m in ${times} s, jog 200 m`
    // 1 % of 80 s and of 71 s are about a second.
    expect(twice(repeats('80/77/74/71'), '1:20, 1:17, 1:14, 1:11')).toEqual([
      '1 % faster, in 79/76/73/70 s',
      repeats('79/76/73/70'),
    ])
    // 2 % of 36 s are 1 s, of 72 s too, and of 150 s 3 s.
    expect(twice('200-400-800 m in 36/72/150 s, jog 200 m', '40, 1:20, 2:40')[0]).toBe(
      '2 % slower, in 0:37/1:13/2:33',
    )
    expect(twice('200-300 m in 36/45 s, jog 200 m', '36, 45')[0]).toBe('same range: less than a second')
    const faster = (paces: string) => `4 km @ ${paces}/km, split 1 km`
    expect(twice(faster('4:15 to 3:55'), '4:15, 4:08, 4:02, 3:55')).toEqual([
      '1 % faster, @ 4:13 to 3:53/km',
      faster('4:13 to 3:53'),
    ])
  })

  it('keeps the pace of the goal, of which less is run after weeks without a pace', () => {
    const line = 'run\n  4 x 1 km @ goal, jog 200 m'
    const day = (date: string, entry: string) => state(date, line, Array(4).fill(entry).join(', '), 8)
    const after = (entry: string) => reasons(day(today, entry), [day('2026-11-19', entry)])
    expect(after('4:00')).toEqual(["same: 4 of 4 in range at effort 8, twice -> same range: the goal's"])
    expect(after('4:10')).toEqual(["same: 0 of 4 in range at effort 8 -> same range: the goal's"])
    const { decisions } = nextOf(day('2026-10-20', '4:00'), [], today, gear, [], '2026-11-23')
    expect(decisions[0]?.reason).toContain('5 weeks since the last paced run -> half (was 4 x)')
  })

  it('on a treadmill gets faster or slower by whole tenths of its speed, and stays as it is if it is easy', () => {
    const repeats = 'run: treadmill\n  4 x (3 min @ 14-14.2 km/h, jog 2 min)'
    // 14.1 km/h is 4:15/km; 700 m in 3:00 is 14 km/h, 680 m is 13.6.
    const twice = (lines: string, entries: string) =>
      reasons(state(today, lines, entries, 8), [state('2026-11-19', lines, entries, 8)])
    expect(twice(repeats, '=, =, =, 700 m')).toEqual([
      'up: 4 of 4 in range at effort 8, twice -> 1 % faster, @ 14.1-14.3 km/h',
    ])
    expect(twice(repeats, '=, 680 m, 680 m, 680 m')).toEqual([
      'down: 1 of 4 in range at effort 8 -> 2 % slower, @ 13.7-13.9 km/h',
    ])
    const { decisions } = next(state(today, repeats, '=, =, =, =', 8))
    expect(decisions.map(({ name }) => name)).toEqual(['4 x 3:00'])
    // 15 % slower than the goal of 4:00/km is 13.04 km/h.
    expect(twice('run: treadmill\n  30 min @ 11 km/h', '=')).toEqual([])
    expect(twice('run: treadmill\n  2 x (1 min @ 4.9 mph, jog 1 min)', '=, =')).toEqual([])
  })

  it('is named as it is written without its target, at its place, and is printed with the new range', () => {
    const lines =
      'prep\n  skip 2 min\nrun\n  2 km easy\n  4 x 500 m @ 3:35-3:45/km, jog 200 m\n  5 km @ 4:00-4:10/km'
    const { decisions, prescription } = next(
      state(today, lines, '=, 10:00, 2:00 rpe 8, 2:00, 2:00, 2:00, 20:30 rpe 8'),
    )
    // 2 % of the middle, 220 s/km, are 4.4 s.
    expect(decisions).toEqual([
      {
        part: 1,
        item: 1,
        name: '4 x 500 m',
        decision: 'down',
        reason: '0 of 4 in range at effort 8 -> 2 % slower, @ 3:39-3:49/km',
      },
      {
        part: 1,
        item: 2,
        name: '5 km',
        decision: 'same',
        reason: '1 of 1 in range at effort 8 -> same range, once more',
      },
    ])
    expect(prescription.parts[1]?.items.map(({ text }) => text)).toEqual([
      '2 km easy',
      '4 x 500 m @ 3:39-3:49/km, jog 200 m',
      '5 km @ 4:00-4:10/km',
    ])
  })

  it.each([
    ['5 km @ 4:00-4:10/km', '21:30', true],
    ['5 km in 20:00-20:50', '21:30', true],
    ['5 km @ 14-15 km/h', '21:30', true],
    ['5 km at goal', '21:30', true],
    ['5 km', '21:30', false],
    ['5 km @ rpe 6-7', '21:30 rpe 9', false],
    ['5 km @ hr 140-150', '21:30 hr 160', false],
    ['5 km hard', '21:30', false],
  ])('%s has a decision only with a pace, a time or a speed: %s', (written, entry, has) => {
    expect(reasons(state(today, `run\n  ${written}`, entry, 8))).toHaveLength(has ? 1 : 0)
  })

  it('is found in a group that begins with a recovery', () => {
    const lines = 'run\n  2 x (jog 200 m, 500 m in 1:50-1:55, walk 100 m, 300 m in 1:05-1:08)'
    expect(
      reasons(state(today, lines, '1:52, 1:15, 1:52, 1:15', 8)).map((reason) => reason.slice(0, 12)),
    ).toEqual(['same: 2 of 2', 'down: 0 of 2'])
  })

  it('counts only the repeats whose pace is known', () => {
    expect(reasons(state(today, 'run\n  2 x 3 min @ 4:00-4:10/km, jog 1 min', '730 m, =', 9))).toEqual([
      'same: 1 of 1 in range at effort 9 -> same range',
    ])
  })

  it('misses no repeat that was added and left out again', () => {
    const day = new Kept(dayOf(`A day\n${line}\n`))
    const at = { at: null, up: null }
    day.add({ type: 'stepAdded', ...at, step: 'more', like: '1.1.p4' }).type(...good.split(', '), '-')
    expect(day.state.steps.filter(({ kind }) => kind === 'interval')).toHaveLength(5)
    expect(reasons({ ...day.state, date: today })).toEqual([
      'same: 4 of 4 in range, no effort typed -> same range',
    ])
  })

  it('is as wide after a season of faster ranges as before it', () => {
    let range = '4:15-4:25'
    for (const _ of Array(8)) {
      const day = (date: string) => state(date, `run\n  5 km @ ${range}/km`, '1 km in 4:00', 7)
      range = /@ (.*)\/km/.exec(reasons(day(today), [day('2026-11-19')])[0] ?? '')?.[1] ?? ''
    }
    // 0.99 to the eighth of 255 and 265 s/km are 235 and 245.
    expect(range).toBe('3:55-4:05')
  })

  it.each([
    // 1 % of the middle, rounded: 0.5, 0.34 and 0.94 s.
    ['0:49-0:51', '50', 'same: 2 of 2 in range at effort 7, twice -> same range: less than a second'],
    ['0:33.5-0:35', '34', 'same: 2 of 2 in range at effort 7, twice -> same range: less than a second'],
    ['1:32-1:36', '94', 'up: 2 of 2 in range at effort 7, twice -> 1 % faster, in 91-95 s'],
  ])('with the range %s changes if its middle changes by a whole second', (range, entry, reason) => {
    const day = (date: string) =>
      state(date, `run\n  2 x 200 m in ${range}, jog 200 m`, `${entry}, ${entry}`, 7)
    expect(reasons(day(today), [day('2026-11-19')])).toEqual([reason])
  })

  it.each([
    ['1 x 500 m', good.slice(0, 4), 'same: 4 weeks since the last paced run -> no faster range'],
    ['2 x 500 m', '1:52, 1:52', 'fewer: 4 weeks since the last paced run -> half (was 2 x), no faster range'],
    [
      '5 x 500 m',
      '1:52, 1:52, 1:52, 1:52, 1:52',
      'fewer: 4 weeks since the last paced run -> half (was 5 x), no faster range',
    ],
  ])('halves %s after weeks away, rounded up', (repeats, entries, reason) => {
    const old = state('2026-10-29', `run\n  ${repeats} in 1:50-1:55, jog 200 m`, entries, 7)
    expect(reasons(old)).toEqual([reason])
  })
})

describe('a line after weeks away', () => {
  const old = (lines: string, entries: string) =>
    next(state('2026-10-29', `run\n  ${lines}`, entries, 7)).prescription.parts[0]?.items[0]?.text

  it('keeps the pace of a time for all of it, and halves a group once', () => {
    expect(old('5 km in 20:00-20:50', '20:30')).toBe('2.5 km in 10:00-10:25')
    const group = 'run\n  4 x (500 m in 1:50-1:55, jog 200 m, 300 m in 1:05-1:08)'
    const day = state('2026-10-29', group, Array(4).fill('1:52, 1:06').join(', '), 7)
    const { decisions, prescription } = next(day)
    expect(decisions.map(({ decision, reason }) => `${decision}: ${reason}`)).toEqual([
      'fewer: 4 weeks since the last paced run -> half (was 4 x), no faster range',
      'same: 4 weeks since the last paced run -> no faster range',
    ])
    expect(prescription.parts[0]?.items[0]?.text).toMatch(/^2 x \(500 m/)
  })
})

describe('a line that weeks away halved', () => {
  const before = '2026-10-01'
  const repeats = (times: number, date: string, range = '1:50-1:55', time = '1:52', effort = 7) =>
    state(date, `run\n  ${times} x 500 m in ${range}, jog 200 m`, Array(times).fill(time).join(', '), effort)
  const decided = (now: SessionState, earlier: SessionState[]) => {
    const { decisions, prescription } = next(now, earlier)
    return [...decisions.map(({ reason }) => reason), prescription.parts[0]?.items[0]?.text]
  }

  it('comes back by three quarters, then in full, after each day that was done well, before its range is faster', () => {
    const [whole, half, more] = [repeats(8, before), repeats(4, '2026-11-19'), repeats(6, '2026-11-22')]
    expect(decided(repeats(4, today), [half, whole])).toEqual([
      '4 of 4 in range at effort 7 -> three quarters (was 8 x before the break)',
      '6 x 500 m in 1:50-1:55, jog 200 m',
    ])
    expect(decided(repeats(6, today), [half, whole])).toEqual([
      '6 of 6 in range at effort 7 -> all of it again (was 8 x before the break)',
      '8 x 500 m in 1:50-1:55, jog 200 m',
    ])
    expect(decided(repeats(8, today), [more, half, whole])[0]).toContain('same range, once more')
  })

  it('stays after a day that was too hard, and comes back in the slower range of the last day', () => {
    const whole = repeats(8, before)
    const slow = repeats(4, '2026-11-19', '1:50-1:55', '2:00')
    expect(decided(repeats(4, today, '1:50-1:55', '1:52', 9), [whole])[0]).toContain('same range')
    expect(decided(repeats(4, today, '1:52-1:57'), [slow, whole])[1]).toBe(
      '6 x 500 m in 1:52-1:57, jog 200 m',
    )
  })

  it('stays if its time for the whole, or those of its repeats, are others than before, or were a pace', () => {
    const once = (text: string, time: string, date: string) => state(date, `run\n  ${text}`, time, 7)
    const ran = (text: string, time: string, whole: string, before: string) =>
      decided(once(text, time, today), [once(whole, before, '2026-10-01')])
    const same = (text: string, count: number) => [
      `${count} of ${count} in range at effort 7 -> same range, once more`,
      text,
    ]
    expect(ran('5 km in 20:00', '20:00', '10 km @ 4:00/km', '40:00')).toEqual(same('5 km in 20:00', 1))
    expect(ran('5 km in 20:24', '20:24', '10 km in 40:00', '40:00')).toEqual(same('5 km in 20:24', 1))
    expect(ran('5 km @ 4:10/km', '20:50', '10 km in 40:00', '40:00')).toEqual(same('5 km @ 4:10/km', 1))
    const [half, whole] = ['2 x 400 m in 80/78 s', '4 x 400 m @ 3:20/km']
    expect(ran(half, '80, 78', whole, '80, 80, 80, 80')).toEqual(same(half, 2))
  })

  it('comes back as a run by time at a pace at which half of its time is less than half of 6:00/km', () => {
    const easy = (minutes: number, km: number, date: string) =>
      state(date, `run\n  ${minutes} min easy`, `${km} km`, 4)
    expect(decided(easy(45, 6.4, today), [easy(90, 12.9, before)])[1]).toBe('1:08:00 easy')
  })

  it('stays after a day on which it was cut short', () => {
    const whole = state(before, 'run\n  16 km easy', '=', 4)
    expect(decided(state(today, 'run\n  8 km easy', '5 km in 30:00', 4), [whole])).toEqual(['8 km easy'])
  })

  it('stays if the shorter day was written without weeks away', () => {
    const days = [repeats(8, '2026-11-12'), repeats(8, before)]
    expect(decided(repeats(4, today), days)[0]).toContain('same range, once more')
  })

  it('stays if it was run in the shorter form before the weeks away, too, or for more than eight weeks since', () => {
    const long = (km: number, date: string) => state(date, `run\n  ${km} km easy`, '=', 4)
    const [season, spring] = [long(16, '2026-03-05'), long(8, '2026-09-03')]
    expect(decided(long(8, today), [long(8, '2026-11-19'), spring, season])[0]).toBe('8 km easy')
    const weekly = ['11-19', '11-05', '10-22', '10-08', '09-24'].map((day) => long(8, `2026-${day}`))
    expect(decided(long(8, today), [...weekly, season])[0]).toBe('8 km easy')
  })

  it('comes back as a long run without a range, and as a group', () => {
    const long = (km: number, date: string) => state(date, `run\n  ${km} km easy`, '=', 4)
    expect(decided(long(8, today), [long(16, before)])).toEqual([
      'complete at effort 4 -> three quarters (was 16 km before the break)',
      '12 km easy',
    ])
    const group = (times: number, date: string) =>
      state(
        date,
        `run\n  ${times} x (500 m in 1:50-1:55, jog 200 m, 300 m in 1:05-1:08)`,
        Array(times).fill('1:52, 1:06').join(', '),
        7,
      )
    expect(decided(group(2, today), [group(3, before)])).toEqual([
      '2 of 2 in range at effort 7 -> all of it again (was 3 x before the break)',
      '2 of 2 in range at effort 7 -> same range',
      '3 x (500 m in 1:50-1:55, jog 200 m, 300 m in 65-68 s)',
    ])
  })
})

describe('the days before', () => {
  it('do not count as good if the line was left out', () => {
    const left = state('2026-11-19', line, '-, -, -, -', 7)
    const before = [left, state('2026-11-12', line, good, 7)]
    expect(reasons(state(today, line, good, 7), before)[0]).toContain('once more')
  })
})

describe('a pain', () => {
  const old = state('2026-10-29', line, good, 7)
  const now = state(today, line, good, 7)
  const [calf, chest, elbow] = [{ place: 'left calf' }, { place: 'chest' }, { place: 'elbow' }]

  it('goes before everything if it needs a doctor, even after weeks away', () => {
    const stop = ['same: chest: pain 4 -> unchanged, see a doctor first']
    expect([reasons(now, [], calf, chest), reasons(old, [], calf, chest)]).toEqual([stop, stop])
    expect(next(now, [], calf, chest).decisions[0]?.pain).toMatchObject(chest)
  })

  it('leaves the line as it is, and after weeks away halves the repeats', () => {
    expect(reasons(now, [now], calf)).toEqual(['same: left calf: pain 4 -> unchanged'])
    expect(reasons(old, [], calf)).toEqual([
      'fewer: left calf: pain 4, 4 weeks since the last paced run -> half (was 4 x), no faster range',
    ])
  })

  it('changes nothing if it is in the arm', () => {
    expect(reasons(now, [], elbow)).toEqual(['same: 4 of 4 in range at effort 7 -> same range, once more'])
    expect(reasons(now, [], elbow, calf)).toEqual(['same: left calf: pain 4 -> unchanged'])
  })
})
