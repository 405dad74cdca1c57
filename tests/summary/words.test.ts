import { describe, expect, it } from 'vitest'
import { replay } from '../../src/session/replay.ts'
import { sleptPhrase } from '../../src/summary/blocks.ts'
import { notePhrases } from '../../src/summary/notes.ts'
import { wrapped } from '../../src/summary/plain.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { summaryMarkdown, summaryText } from '../../src/summary/text.ts'
import { plainContext, walkThrough } from '../day.ts'
import { bareContext as context } from './bareContext.ts'
import { type Kept, keptDay } from './kept.ts'

/* Wording is this program's own; days and results are invented. */

const linesOf = (day: Kept, full = false) => summaryText(day.session, context, { full }).split('\n')

describe('the words of the note', () => {
  it('have whole minutes of a set by time as minutes', () => {
    const day = keptDay('lift\n  bike 1 x 5 min\n  plank 2 x 90 s\n', '=', '=', '60 s')
    const text = linesOf(day).join('\n')
    expect(text).toContain('bike: 5 min\nplank: 90 s, 1 min')
    expect(text).toContain('plank set 2 (1 min of\n  90 s)')
  })

  it('count no bike among the sets, but keep it as an exercise', () => {
    const { lifting } = summarise(
      keptDay('lift\n  bike 1 x 5 min\n  squat 2 x 5 @ 100 kg\n', '=', '5', '5').session,
      context,
    )
    expect(lifting.sets).toBe(2)
    expect(lifting.exercises.map(({ name, sets }) => [name, sets])).toEqual([
      ['bike', 1],
      ['squat', 2],
    ])
  })

  it('give the spread of the equations beside an "at least" estimate', () => {
    // 85 x 5: wathan 99.1; the lowest is oconner's 85 x 1.125,
    // the highest mayhew's 8500 / (52.2 + 41.9 e^-0.275)
    const lines = linesOf(keptDay('lift\n  squat 1 x 5 @ 85 kg\n', '5'))
    expect(lines[4]).toBe('squat: 5 x 85 kg')
    expect(lines.slice(5, 7)).toEqual([
      '  maximum at least 99.1 kg (the equations',
      '    say 95.6 to 101.2), set 1',
    ])
  })

  it('say a pain once that was noted and then typed with the result of the same step', () => {
    const painLines = (noted: string, typed: string) => {
      const day = keptDay('run\n  2 x 400 m easy, jog 200 m\n', '1:24', `1:22.9 pain "${typed}"`)
      const about = '1.1.p2'
      day.add({ type: 'noteAdded', ...day.when('07:20:00'), about, text: noted, pain: true })
      return notePhrases(day.state, 'pain')
    }
    expect(painLines('left calf', 'left calf')).toEqual(['2 x 400 m easy, repeat 2 of 2, pain: left calf'])
    expect(painLines('Left calf', 'left calf 4')).toEqual([
      '2 x 400 m easy, repeat 2 of 2, pain: left calf 4',
    ])
    expect(painLines('left calf 4', 'left calf')).toEqual([
      '2 x 400 m easy, repeat 2 of 2, pain: left calf 4',
    ])
    expect(painLines('left calf 6', 'left calf 4')).toHaveLength(2)
    expect(painLines('left calf, sharp', 'left calf')).toEqual([
      '2 x 400 m easy, repeat 2 of 2, pain: left calf, sharp',
    ])
    expect(painLines('right knee', 'left calf')).toHaveLength(2)
    expect(painLines('left calf, sharp', 'left calf, dull')).toHaveLength(2)
    expect(painLines('left calf; right knee', 'left calf')).toEqual([
      '2 x 400 m easy, repeat 2 of 2, pain: left calf; right knee',
    ])
    expect(painLines('left calf; right knee', 'left calf; hip')).toHaveLength(2)
  })

  it('name the place of each note: the day, a step of any kind, a meal', () => {
    const day = keptDay(
      'prep\n  leg swings\nrun\n  1 km easy\n  2 km easy, split 1 km\nlift\n  squat: 1 x 3 @ 80 kg\n  Squats 1 x 5 @ 60 kg\nfuel\n  after: protein 20 g\n',
    )
    const about = (kind: string, nth = 0) =>
      day.state.steps.filter((step) => step.kind === kind)[nth]?.id ?? ''
    const note = (step: string | null, text: string, pain = false) =>
      day.add({ type: 'noteAdded', ...day.when('07:20:00'), about: step, text, pain })
    note(about('set', 1), 'easy')
    note(about('prep'), 'short')
    note(about('fuel'), 'late')
    note(about('interval'), 'windy')
    note(about('interval', 2), 'tired')
    note('nowhere', 'rain')
    note(null, 'sun')
    note(about('set'), 'deep')
    note(about('set'), 'left knee 2', true)
    expect(notePhrases(day.state, 'words')).toEqual([
      'rain',
      'sun',
      'leg swings: short',
      '1 km easy: windy',
      '2 km easy, split 2 of 2: tired',
      'squat, set 1 of 1: deep',
      'Squats, set 1 of 1: easy',
      'fuel after: late',
    ])
    expect(notePhrases(day.state, 'pain')).toEqual(['squat, set 1 of 1, pain: left knee 2'])
  })

  it('name the warm-up of a lift', () => {
    const { prescription, events } = walkThrough(
      'A day\nlift\n  squat: 1 x 3 @ 80 kg, build from 40 kg\n',
    ).session()
    const note = {
      type: 'noteAdded',
      at: null,
      up: null,
      about: '1.1.b1',
      text: 'stiff',
      pain: false,
    } as const
    const state = replay({ prescription, events: [...events, note] }, plainContext.warmUpOf)
    expect(notePhrases(state, 'words')).toEqual(['squat, warm-up: stiff'])
  })

  it('give the sleep as a note has it, else as the morning has it', () => {
    expect(sleptPhrase(24_000, ['windy', 'Slept 7.5 h'])).toBe('Slept 7.5 h')
    expect(sleptPhrase(24_000, ['slept 5 h badly', 'not slept 5 h', 'slept badly'])).toBe('slept 6:40 h')
    expect(sleptPhrase(24_000, ['slept 12h'])).toBe('slept 12h')
    expect(sleptPhrase(null, ['windy'])).toBe('')
  })

  it('say in full how much of the metres was work', () => {
    const jogged = keptDay('run\n  2 x 1 km easy, jog 400 m\n', '5:00', '5:00')
    expect(linesOf(jogged)[3]).toBe('run, 2.4 km')
    expect(linesOf(jogged, true)).toContain('  ran 2.4 km, 2 km of it without the recoveries')
  })

  it('keep the unit in which a carried distance was written', () => {
    const told = linesOf(keptDay('lift\n  farmer carry: 2 x 40 yd @ 2x50 lb\n', '=', '='))
    expect(told).toContain('farmer carry: 2 x 40 yd x 2x50 lb')
    const metric = linesOf(keptDay('lift\n  farmer carry: 2 x 40 m @ 2x24 kg\n', '=', '='))
    expect(metric).toContain('farmer carry: 2 x 40 m x 2x24 kg')
  })

  it('leave out a gap of less than a minute between two parts, and give a long one in hours', () => {
    const liftBegunAt = (time: string) => {
      const day = keptDay('run\n  1 km easy\nlift\n  squat 1 x 5 @ 80 kg\n')
      day.add({ type: 'effortBegun', ...day.when('07:00:00'), step: '1.1.p1', auto: false })
      day.add({ type: 'effortEnded', ...day.when('07:05:00'), step: '1.1.p1', auto: false })
      return day.add({ type: 'effortBegun', ...day.when(time), step: '2.1.s1', auto: false }).close(1, 6, 9)
    }
    expect(summarise(liftBegunAt('07:05:20').session, context).parts[1]?.gapMinutes).toBeCloseTo(1 / 3, 9)
    expect(linesOf(liftBegunAt('07:05:20'))).toContain('lift, 9 min, effort 6')
    const heading = (time: string) => linesOf(liftBegunAt(time)).join(' ').replace(/ +/g, ' ')
    expect(heading('08:45:00')).toContain('100 min after the part before')
    expect(heading('17:57:00')).toContain('10:52 h after the part before')
  })

  it('say once, among the changes, that nothing was done of a work', () => {
    const day = keptDay('run\n  1 km easy\n  4 x 400 m @ 4:00/km, jog 200 m\n', '5:00', '-', '-', '-', '-')
    const told = (text: string) => text.split('\n').filter((line) => line.includes('400 m'))
    expect(told(linesOf(day).join('\n'))).toEqual(['So far as planned but: 4 x 400 m @ 4:00/km:'])
    expect(told(summaryMarkdown(day.session, context, { full: false }))).toEqual([
      '- So far as planned but: 4 x 400 m @ 4:00/km: skipped',
    ])
  })

  it('say where each note belongs, while the figures keep what was typed', () => {
    const day = keptDay('athlete: 68 kg\nrun\n  5 km @ 4:10/km\nlift\n  front squat 3 x 5 @ 80 kg\n')
    day.type('20:50 "windy"', '5', '5', '5 pain "left knee" "lost brace"')
    expect(linesOf(day).slice(-4)).toEqual([
      'notes',
      '  5 km: windy',
      '  front squat, set 3 of 3: lost brace',
      '',
    ])
    expect(linesOf(day)[2]).toBe('front squat, set 3 of 3, pain: left knee')
    expect(summarise(day.session, context).notes).toEqual(['windy', 'lost brace', 'pain: left knee'])
  })

  it('explain the scale of the bars in full', () => {
    const day = keptDay('run\n  3 x 1 km @ 4:00-4:10/km, jog 200 m\n', '4:00', '4:05', '4:10')
    expect(linesOf(day, true)).toContain(
      '  the longest bar is 4:10.0/km, the shortest 4:00.0/km; longer is slower',
    )
    expect(linesOf(day).join()).not.toContain('bar')
    const rowed = keptDay('cross: rower\n  2 x 500 m in 1:50-2:00, rest 2:00\n', '1:55', '2:00')
    expect(linesOf(rowed, true).join('\n')).toContain(
      'the longest bar is 2:00.0/500 m, the shortest 1:55.0/500 m;',
    )
  })
})

describe('a note without a space', () => {
  it('is cut into whole lines, however long it is', () => {
    const text = '0123456789'.repeat(40_000)
    const lines = wrapped(text, 44, 0, 0)
    expect(lines).toHaveLength(Math.ceil(text.length / 44))
    expect(lines.join('')).toBe(text)
  })
})
