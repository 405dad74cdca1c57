import { describe, expect, it } from 'vitest'
import type { Prescription } from '../../src/prescription/model.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { sessionSteps } from '../../src/summary/explain.ts'
import { figuresOf, summarise } from '../../src/summary/summarise.ts'
import { summaryText } from '../../src/summary/text.ts'
import { dayOf as wholeDay } from '../day.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept, keptDay } from './kept.ts'

/* Sessions with the clock running; days and results are invented. */

const dayOf = (lines: string) => wholeDay(`A day\n${lines}`)

/** A session whose clock steps are given as `clock what step`. */
function live(prescription: Prescription, beats: readonly string[]): Kept {
  const day = new Kept(prescription)
  for (const beat of beats) {
    const [clock = '', what = '', step = '', group = '0'] = beat.split(' ')
    const when = day.when(clock)
    if (what === 'begin') day.add({ type: 'effortBegun', ...when, step, auto: false })
    else if (what === 'end') day.add({ type: 'effortEnded', ...when, step, auto: false })
    else if (what === 'groupEnd')
      day.add({ type: 'groupEnded', ...when, step, group: Number(group), auto: false })
    else if (what === 'groupBegin')
      day.add({ type: 'groupBegun', ...when, step, group: Number(group), auto: true })
    else if (what === 'finish') day.add({ type: 'sessionFinished', ...when })
    else throw new Error(beat)
  }
  return day
}

const squats = dayOf(
  'run\n  1 km easy\nlift: legs\n  front squat: 2 x (1+1) @ 90 kg, pause 20 s, rest 2:30\n',
)

function squatted(): Kept {
  const day = live(squats, [
    '06:40:00 begin 1.1.p1',
    '06:45:00 end 1.1.p1',
    '07:10:00 begin 2.1.s1',
    '07:10:05 groupEnd 2.1.s1 0',
    '07:10:25 groupBegin 2.1.s1 1',
    '07:10:30 end 2.1.s1',
    '07:13:30 begin 2.1.s2',
    '07:13:35 groupEnd 2.1.s2 0',
    '07:13:59 groupBegin 2.1.s2 1',
    '07:14:04 end 2.1.s2',
  ])
  day.type('5:00', '= @8', '= @9').close(0, 3, 5).close(1, 7, 20)
  day.add({ type: 'sessionFinished', ...day.when('07:15:00') })
  return day
}

describe('a session with the clock running', () => {
  it('has its times, to the second, and the gap between run and lift', () => {
    const summary = summarise(squatted().session, context)
    expect(summary.session).toMatchObject({
      startedAt: '2026-11-26T06:40:00+01:00',
      finishedAt: '2026-11-26T07:15:00+01:00',
      minutes: 25,
      effortMinutes: 155,
    })
    expect(summary.parts.map((part) => [part.startedAt?.slice(11, 19), part.gapMinutes])).toEqual([
      ['06:40:00', null],
      ['07:10:00', 25],
    ])
  })

  it('has no gap before a part that was begun while the one before it went on', () => {
    const day = live(squats, [
      '07:05:00 begin 1.1.p1',
      '07:10:30 end 1.1.p1',
      '07:10:00 begin 2.1.s1',
      '07:12:00 end 2.1.s1',
    ])
    day.type('5:30', '=', '=')
    expect(summarise(day.session, context).parts.map(({ gapMinutes }) => gapMinutes)).toEqual([null, null])
  })

  it('measures pauses and rests', () => {
    expect(summarise(squatted().session, context).lifting.exercises[0]).toMatchObject({
      pauses: { prescribedSeconds: 20, meanSeconds: 22, paced: false },
      rests: { prescribedSeconds: 150, meanSeconds: 180 },
    })
  })

  it('shows in the note the times, the gap, and the rests that differ from the prescription', () => {
    const lines = summaryText(squatted().session, context, { full: false }).split('\n')
    expect(lines).toContain('Thu 26 Nov 2026, 06:40 to 07:15')
    expect(lines.join('\n')).toContain('lift: legs, 20 min, effort 7, 25 min after\n  the part before\n')
    expect(lines).toContain('  mean rest 3:00, 2:30 prescribed')
    expect(lines.join()).not.toContain('mean pause')
    expect(summaryText(squatted().session, context, { full: true })).toContain(
      '  mean pause 0:22, 0:20 prescribed\n',
    )
  })

  it('computes the rests and pauses from the measured times', () => {
    expect(sessionSteps('rest-taken', figuresOf(squatted().session, context))).toEqual([
      { of: 'front squat, rests', steps: ['measured: 180 s', 'mean 180 s, prescribed 150 s'] },
      { of: 'front squat, pauses', steps: ['measured: 20, 24 s', 'mean 22 s, prescribed 20 s'] },
    ])
  })

  it('says that the clock set the pauses of a paced set', () => {
    const paced = new Kept(squats).add({
      type: 'paceSet',
      at: null,
      up: null,
      exercise: 'front squat',
      secondsPerRep: 4,
    })
    paced.add({ type: 'effortBegun', ...paced.when('07:10:00'), step: '2.1.s1', auto: false })
    paced.type('= @8')
    expect(summarise(paced.session, context).lifting.exercises[0]?.pauses).toMatchObject({ paced: true })
  })

  it('has no measurements for results typed without a clock', () => {
    const typed = new Kept(squats).type('5:00', '=', '=')
    expect(summarise(typed.session, context).lifting.exercises[0]).toMatchObject({
      pauses: { prescribedSeconds: 20, meanSeconds: null, paced: false },
      rests: { prescribedSeconds: 150, meanSeconds: null },
    })
  })
})

describe('a session from paper', () => {
  const paper = (times: readonly (string | null)[]) => {
    const day = new Kept(dayOf('run\n  2 x 1 km easy\nlift\n  squat 2 x 5 @ 100 kg\n'), { fromPaper: true })
    const entries = ['5:00', '5:00', '5', '5']
    for (const [index, entry] of entries.entries()) {
      day.type(entry)
      const last = day.session.events.at(-1)
      const clock = times[index] ?? null
      if (last && clock) last.at = day.when(clock).at
    }
    return summarise(day.session, context).parts.map((part) => [
      part.startedAt?.slice(11, 16) ?? null,
      part.finishedAt?.slice(11, 16) ?? null,
      part.gapMinutes,
    ])
  }

  it('knows when a part began and ended if its first and last result have a time', () => {
    expect(paper(['07:05:00', '07:15:00', '07:35:00', '07:40:00'])).toEqual([
      ['07:00', '07:15', null],
      ['07:35', '07:40', 20],
    ])
    expect(paper([null, '07:15:00', '07:35:00', null])).toEqual([
      [null, '07:15', null],
      ['07:35', null, 20],
    ])
    expect(paper(['07:05:00', null, null, '07:40:00'])).toEqual([
      ['07:00', null, null],
      [null, '07:40', null],
    ])
  })
})

describe('a superset', () => {
  it('has its pause after each exercise, and its rest after the last of the round', () => {
    const day = live(dayOf('lift\n  dip 2 x 5 @ bodyweight + row 2 x 5 @ 40 kg, pause 0:15, rest 1:30\n'), [
      '07:00:00 begin 1.1.s1',
      '07:00:20 end 1.1.s1',
      '07:00:36 begin 1.1.s2',
      '07:01:00 end 1.1.s2',
      '07:02:40 begin 1.1.s3',
    ])
    const [dip, row] = summarise(day.type('5', '5', '5', '5').session, context).lifting.exercises
    expect(dip).toMatchObject({ pauses: { prescribedSeconds: 15, meanSeconds: 16 }, rests: null })
    expect(row).toMatchObject({ pauses: null, rests: { prescribedSeconds: 90, meanSeconds: 100 } })
  })
})

describe('a rest', () => {
  it('is not measured after a set that was typed without the key that ends it', () => {
    const day = live(dayOf('lift\n  squat 4 x 5 @ 100 kg, rest 2:30\n'), [
      '07:00:00 begin 1.1.s1',
      '07:00:20 end 1.1.s1',
      '07:03:20 begin 1.1.s2',
      '07:03:40 end 1.1.s2',
    ]).type('5', '5')
    day.add({ ...day.session.events.at(-1), ...day.when('07:08:00'), step: '1.1.s3' } as SessionEvent)
    day.add({ type: 'effortBegun', ...day.when('07:08:30'), step: '1.1.s4', auto: false })
    const [squat] = summarise(day.session, context).lifting.exercises
    expect(squat?.rests).toEqual({ prescribedSeconds: 150, meanSeconds: 180 })
  })

  it.each([
    ['rest 2:00-2:30', '07:03:20', 150],
    ['rest 3:00-4:00', '07:02:50', 180],
    ['rest 2:00-3:00', '07:03:00', null],
  ])(
    'of a range, %s, that ends at %s is compared with the end it missed: %s',
    (rest, next, prescribedSeconds) => {
      const day = live(dayOf(`lift\n  squat 2 x 5 @ 100 kg, ${rest}\n`), [
        '07:00:00 begin 1.1.s1',
        '07:00:20 end 1.1.s1',
        `${next} begin 1.1.s2`,
      ]).type('5', '5')
      const [squat] = summarise(day.session, context).lifting.exercises
      expect(squat?.rests?.prescribedSeconds).toBe(prescribedSeconds)
    },
  )
})

describe('a lift part closed without an effort', () => {
  const day = dayOf('run\n  10 km easy\nlift\n  squat 1 x 5 @ 100 kg\n')
  const kept = new Kept(day).type('50:00', '5').close(0, 3, 70).close(1, null, 12)

  it('makes the load of the session "at least", not 0', () => {
    const summary = summarise(kept.session, context)
    expect(summary.session).toMatchObject({ minutes: 82, effortMinutes: 210, effortMinutesAtLeast: true })
    expect(summaryText(kept.session, context, { full: false })).toContain(
      '82 min, session load 210+ (run 210)\n',
    )
  })

  it('is mentioned in explain, whether the part was closed or not', () => {
    const open = new Kept(day).type('50:00', '5').close(0, 3, 70)
    for (const { session } of [kept, open]) {
      const steps = sessionSteps('session-load', figuresOf(session, context))
      expect(steps?.[0]?.steps).toEqual([
        'run: 3 x 70 min = 210',
        'lift: not known',
        'session 210+, at least',
      ])
    }
  })

  it('makes nothing unknown if nothing of it was done', () => {
    const left = new Kept(day).type('50:00').close(0, 3, 70).finish()
    expect(summarise(left.session, context).session).toMatchObject({
      effortMinutes: 210,
      effortMinutesAtLeast: false,
    })
  })
})

describe('a session that is gone on with two days later', () => {
  it('ends on that day in its heading, not at a time of the day on which it began', () => {
    const day = keptDay('run\n  5 km easy\n', '25:00')
    day.add({ type: 'sessionFinished', at: '2026-11-28T08:52:00+01:00', up: null })
    const [, heading] = summaryText(day.session, context, { full: true }).split('\n')
    expect(heading).toMatch(/^Thu 26 Nov 2026, \d\d:\d\d to Sat 28 Nov, 08:52$/)
  })
})

describe('a session of last month that is reopened', () => {
  it('keeps its end when a result is corrected today', () => {
    const day = keptDay('run\n  5 km easy\n', '25:00').finish()
    const before = summarise(day.session, context).session.finishedAt
    const later = '2026-12-24T06:42:00+01:00'
    const at = (day.session.events.at(-1)?.at ?? null) && later
    day.add({ type: 'sessionReopened', at, up: null })
    day.add({ type: 'sessionFinished', at, up: null })
    expect(summarise(day.session, context).session.finishedAt).toBe(before)
  })
})
