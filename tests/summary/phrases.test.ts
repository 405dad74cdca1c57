import { describe, expect, it } from 'vitest'
import { blocksOf } from '../../src/summary/blocks.ts'
import { restPhrases } from '../../src/summary/liftingText.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { type SummaryOptions, summaryViewOf } from '../../src/summary/view.ts'
import { dayOf } from '../day.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept, keptDay } from './kept.ts'

/* What a summary says line by line, before it is wrapped. Wording and thresholds are this program's own; the figures
 * beside it are computed by hand. */

const short: SummaryOptions = { full: false }
const full: SummaryOptions = { full: true }
const now = { at: null, up: null }

/** Every line of the blocks after the head: headings in brackets, splits and figures indented. */
function said(
  day: Kept,
  options: SummaryOptions,
  more: Parameters<typeof summaryViewOf>[1] = context,
): string[] {
  const [, ...blocks] = blocksOf(summaryViewOf(day.session, more, options))
  return blocks.flatMap(({ title, phrases, rows }) => [
    `[${title}]`,
    ...phrases,
    ...rows.flatMap(({ name, lead, splits, figures }) => [
      `${name}: ${lead}`,
      ...(splits === '' ? [] : [` ${splits}`]),
      ...figures.map((figure) => ` ${figure}`),
    ]),
  ])
}

const head = (day: Kept, more: Parameters<typeof summaryViewOf>[1] = context) =>
  blocksOf(summaryViewOf(day.session, more, short))[0]?.phrases

describe('a run in splits', () => {
  const day = () =>
    keptDay(
      'run\n  4 km @ 4:00-4:10/km, split 1 km\n',
      '4:05 hr 150 rpe 6',
      '4:06 hr 155',
      '4:04',
      '4:12 rpe 7',
    )

  it('has in a note its time, pace and range, the splits in a row, and its evenness', () => {
    expect(said(day(), short)).toEqual([
      '[run, 4 km]',
      '4 km @ 4:00-4:10/km: 16:27, 4:07/km, 3 of 4 in range',
      ' 4:05  4:06  4:04  4:12 slow    hr 150 to 155, rpe 6 to 7',
      ' positive split, 1.0 %',
    ])
  })

  it('has in full each split by itself, and the spread', () => {
    // Mean 246.75; squares about it 38.75, over 3: 3.59; slope 9.5 / 5 a split; halves 245.5 and 248.
    expect(said(day(), full)).toEqual([
      '[run, 4 km]',
      '4 km @ 4:00-4:10/km, split 1 km: 16:27, 4:07/km, 3 of 4 in range',
      ' 4:05 (hr 150 rpe 6), 4:06 (hr 155), 4:04, 4:12 (slow rpe 7)',
      ' positive split, 1.0 %: 4:05.5, then 4:08.0/km',
      ' standard deviation 3.6 s (1.5 % of the mean), range 8.0 s, fade +0.77 % a split',
      '[more figures]',
      'ran 4 km',
    ])
  })

  it('is even if both halves take the same time', () => {
    const even = keptDay('run\n  4 km @ 4:00-4:10/km, split 1 km\n', '4:00', '4:00', '4:00', '4:00')
    expect(said(even, short).at(-1)).toBe(' even split')
    expect(said(even, full).slice(-4, -2)).toEqual([
      ' even split: 4:00.0, then 4:00.0/km',
      ' standard deviation 0.0 s (0.0 % of the mean), range 0.0 s, fade 0.00 % a split',
    ])
  })

  it('has a fade with its sign if it became faster', () => {
    // Mean 240, slope (-1.5 x 246 - 0.5 x 242 + 0.5 x 238 + 1.5 x 234) / 5 = -4.
    const faster = keptDay('run\n  4 km @ 4:00-4:10/km, split 1 km\n', '4:06', '4:02', '3:58', '3:54')
    expect(said(faster, short).at(-1)).toBe(' negative split, 3.3 %')
    expect(said(faster, full).at(-3)).toContain(', fade -1.67 % a split')
    expect(said(faster, full).at(-4)).toBe(' negative split, 3.3 %: 4:04.0, then 3:56.0/km')
  })
})

describe('repeats', () => {
  const line = 'goal: 10 km in 40:00\nrun\n  4 x 1 km @ 3:55-4:00/km, jog 200 m\n'

  it('have the mean before the pace, and their evenness beside the gap to the goal', () => {
    expect(said(keptDay(line, '4:00', '4:00', '4:00', '4:00'), short).slice(1)).toEqual([
      '4 x 1 km @ 3:55-4:00/km: mean 4:00.0, 4 of 4 in range',
      ' 4:00  4:00  4:00  4:00',
      ' both halves even; at goal pace 4:00/km',
    ])
    // 0.3 s/km off a pace in whole seconds.
    expect(said(keptDay(line, '4:00', '4:00', '4:00', '4:01'), short).at(-1)).toContain(
      'at goal pace 4:00/km',
    )
    expect(said(keptDay(line, '4:00', '4:00', '4:06', '4:06'), short).at(-1)).toBe(
      ' second half 2.5 % slower; 3.0 s/km slower than goal pace 4:00/km',
    )
    expect(said(keptDay(line, '3:55', '3:55', '3:50', '3:50'), full).at(-4)).toBe(
      ' second half 2.1 % faster: 3:55.0, then 3:50.0/km; 7.5 s/km faster than goal pace 4:00/km',
    )
  })

  it('are told in miles if miles are asked for', () => {
    // 232.5 s/km is 374.2 s/mi, 7.5 s/km is 12.1 s/mi; 2.2 km are 1.37 mi.
    const told = said(keptDay(line.replace('4 x', '2 x'), '3:55', '3:50'), {
      full: true,
      units: { distance: 'mi', mass: null },
    })
    expect(told[0]).toBe('[run, 1.37 mi]')
    expect(told).toContain('ran 1.37 mi, 1.24 mi of it without the recoveries')
    expect(told).toContain('2 x 1 km @ 3:55-4:00/km, jog 200 m: mean 3:52.5, 1 of 2 in range')
    expect(told).toContain(' 12.1 s/mi faster than goal pace 6:26/mi')
  })

  it('have their spread in a note from six of 800 m on', () => {
    const of = (count: number, meters: number) =>
      said(
        keptDay(`run\n  ${count} x ${meters} m @ 4:00/km, jog 200 m\n`, ...Array<string>(count).fill('3:12')),
        short,
      ).some((each) => each.includes('standard deviation'))
    expect([of(5, 800), of(6, 800), of(6, 799)]).toEqual([false, true, false])
  })

  it('have in full their spread and the gap to the goal at any length', () => {
    const day = keptDay(
      'goal: 10 km in 40:00\nrun\n  3 x 500 m @ 4:00/km, jog 200 m\n',
      '2:00',
      '2:01',
      '2:02',
    )
    expect(said(day, short).join()).not.toMatch(/deviation|fade|goal pace/)
    for (const word of ['standard deviation', 'fade', 'goal pace'])
      expect(said(day, full).join()).toContain(word)
  })

  it('are compared with the goal in a note from 1 km on', () => {
    const of = (meters: number) =>
      said(
        keptDay(`goal: 10 km in 40:00\nrun\n  2 x ${meters} m @ 4:00/km, jog 200 m\n`, '4:10', '4:10'),
        short,
      ).some((each) => each.includes('goal pace'))
    expect([of(999), of(1000)]).toEqual([false, true])
    const ladder = (meters: string) =>
      said(keptDay(`goal: 10 km in 40:00\nrun\n  ${meters} m @ 4:00/km\n`, '1:36', '3:12', '1:36'), short).at(
        -1,
      )
    expect(ladder('400-800-400')).toBe(' 1:36  3:12  1:36')
    expect(ladder('400-1000-400')).toContain('goal pace')
  })

  it('have no mean and no common range in seconds if their lengths differ', () => {
    const ladder = keptDay('run\n  400-800-400 m @ 3:40/km, jog 200 m\n', '88', '2:56', '88')
    expect(said(ladder, short)).toEqual([
      '[run, 2 km]',
      '400-800-400 m @ 3:40/km: 5:52, 3:40/km, 3 of 3 in range',
      ' 1:28  2:56  1:28',
    ])
    expect(said(ladder, full).at(-3)).toBe(' 1:28, 2:56, 1:28')
  })
})

describe('a single split', () => {
  const only = (line: string, entry: string) => said(keptDay(`run\n  ${line}\n`, entry), short)[1]

  it('says what is known of its distance and its time', () => {
    expect(only('2 km easy', '=')).toBe('2 km easy: done, not timed')
    expect(only('2 km easy', '2.1 km')).toBe('2 km easy: 2.1 km, not timed')
    expect(only('2 km easy', '2.1 km in 10:00')).toBe('2 km easy: 2.1 km in 10:00, 4:46/km')
    expect(only('20 min easy', '20:00')).toBe('20 min easy: 20:00, metres not known')
  })

  it('keeps the digits that were typed, and what was typed beside it', () => {
    expect(only('1 km easy', '4:05')).toBe('1 km easy: 4:05, 4:05/km')
    expect(only('1 km easy', '4:05.3')).toBe('1 km easy: 4:05.3, 4:05/km')
    expect(only('100 m easy', '15.25')).toBe('100 m easy: 0:15.25, 2:33/km')
    expect(only('1 km @ 4:00-4:10/km', '4:05 hr 170/181 rpe 8')).toBe(
      '1 km @ 4:00-4:10/km: 4:05, 4:05/km, in range, hr 170/181 rpe 8',
    )
    expect(only('1 km @ 4:00-4:10/km', '4:15')).toBe('1 km @ 4:00-4:10/km: 4:15, 4:15/km, slow')
  })
})

describe('intervals by time', () => {
  it('are parted by semicolons if one of them has a comma', () => {
    const day = keptDay('run\n  3 x (3 min @ 4:00/km, walk 1:00)\n', '820 m in 3:00', '3:00', '750 m')
    expect(said(day, short).slice(1, 3)).toEqual([
      '3 x (3 min @ 4:00/km, walk 1:00): 9:00, 3:49/km, 1 of 2 in range',
      ' 820 m in 3:00 fast; 3:00, metres not known; 750 m in 3:00',
    ])
  })

  it('are said once where several in a row are the same', () => {
    const day = keptDay('run\n  4 x (20 s fast, walk 1:00)\n', '=', '=', '=', '100 m')
    expect(said(day, short)[2]).toBe(' 0:20, metres not known (3 times); 100 m in 0:20')
  })
})

// Common practice, no source.
describe('a pace per 500 m', () => {
  it.each([
    ['cross: rower', '5 km', '20:00, 2:00.0/500 m'],
    ['cross: Ski-erg', '5 km', '20:00, 2:00.0/500 m'],
    ['cross: erg', '5 km', '20:00, 2:00.0/500 m'],
    ['cross: bike erg', '5 km', '20:00, 4:00/km'],
    ['cross: rower', '5 km @ 4:00/km', '20:00, 4:00/km, in range'],
    ['cross: bike', '5 km @ 2:00/500 m', '20:00, 2:00.0/500 m, in range'],
    ['run', '5 km @ 2:00/500 m', '20:00, 2:00.0/500 m, in range'],
    ['run: row', '5 km', '20:00, 4:00/km'],
  ])('of %s, %s: %s', (part, line, text) => {
    expect(said(keptDay(`${part}\n  ${line}\n`, '20:00'), short)[1]).toBe(`${line}: ${text}`)
  })

  it('is not read out of a note', () => {
    const day = keptDay('run\n  5 km easy, "lost 1/500 of a bottle"\n', '20:00')
    expect(said(day, short)[1]).toBe('5 km easy: 20:00, 4:00/km')
  })

  it('is that of the whole and of the halves of a row in splits', () => {
    const day = keptDay('cross: rower\n  4 km, split 1 km\n', '4:00', '4:00', '4:10', '4:10')
    expect(said(day, short)[1]).toBe('4 km: 16:20, 2:02.5/500 m')
    const lines = said(day, full)
    expect(lines).toContain('4 km, split 1 km: 16:20, 2:02.5/500 m')
    expect(lines).toContain(' positive split, 4.2 %: 2:00.0, then 2:05.0/500 m')
  })
})

describe('several parts', () => {
  const day = () =>
    keptDay(
      'run: track\n  1 km easy\ncross: rower\n  2 km @ 4:00/km\nrun\n  2 x 400 m @ 4:00/km, jog 200 m\nlift: circuit\n  2 rounds: 10 push-up @ bodyweight, 200 m run\n',
      ...['5:00', '8:00', '96', '96', '10', '200 m', '10', '200 m'],
    )
      .close(0, 3, 5.25)
      .close(1, null, 10)
      .add({ type: 'conditionsNoted', ...now, part: 0, text: 'track, windy' })

  it('have a distance each, recoveries included, and in full that of the day', () => {
    expect(said(day(), short)).toEqual([
      '[run: track, 1 km, 5.3 min, effort 3]',
      '1 km easy: 5:00, 5:00/km',
      '[cross: rower, 2 km, 10 min]',
      '2 km @ 4:00/km: 8:00, 4:00/km, in range',
      '[run, 1 km]',
      '2 x 400 m @ 4:00/km: mean 1:36.0, 2 of 2 in range',
      ' 1:36  1:36',
      '[lift: circuit]',
      'push-up: 2 x 10 x bodyweight',
      'run: 2 x 200 m, counted as running',
    ])
    // 1 km + 2 x 400 m + 200 m of jogging, and 2 x 200 m in the circuit.
    expect(said(day(), full)).toContain(
      'ran 2.4 km, 2.2 km of it without the recoveries, 400 m of it in the lift part',
    )
  })

  it('have a load that is at least that of the closed ones, with their conditions', () => {
    expect(head(day())?.slice(1)).toEqual(['15.3 min, session load 15.8+ (run 15.8) · windy'])
  })

  it('have their conditions beside each other if two of them have some', () => {
    const two = day().add({ type: 'conditionsNoted', ...now, part: 1, text: 'hall' })
    expect(head(two)?.slice(1)).toEqual([
      '15.3 min, session load 15.8+ (run 15.8) · track: windy; rower: hall',
    ])
  })

  it('have each the sets of an exercise that they share, and the last of them its figures', () => {
    const both = keptDay(
      'lift: morning\n  squat 2 x 5 @ 100 kg\n  row 1 x 8 @ 50 kg\nlift: evening\n  curl 1 x 8 @ 20 kg\n  squats 1 x 3 @ 110 kg\n',
      ...['5 @8', '5 @9', '8', '8', '3 @9'],
    )
    expect(said(both, full).filter((line) => !line.includes('maximum'))).toEqual([
      '[lift: morning]',
      'squat: 2 x 5 x 100 kg @8 9',
      'row: 8 x 50 kg',
      ' 400 kg in all',
      '[lift: evening]',
      'curl: 8 x 20 kg',
      ' 160 kg in all',
      'squat: 3 x 110 kg @9',
      ' 1330 kg in all',
      '[more figures]',
      'lifted 5 sets, 29 repetitions, 1890 kg over different exercises',
    ])
    const estimate = said(both, short).findIndex((line) => line.startsWith(' estimated'))
    expect(said(both, short)[estimate - 1]).toBe('squat: 3 x 110 kg @9')
  })

  it('are told in full with what was lifted, if there was any', () => {
    const lifted = (lines: string, ...entries: string[]) =>
      said(keptDay(lines, ...entries), full).filter((line) => line.startsWith('lifted'))
    expect(lifted('run\n  5 km easy\n', '25:00')).toEqual([])
    expect(lifted('lift\n  plank: 2 x 45 s\n', '45', '45')).toEqual(['lifted 2 sets'])
    expect(lifted('lift\n  pull-up 1 x 5 @ bodyweight\n', '5')).toEqual(['lifted 1 set, 5 repetitions'])
  })

  it('leave out prep and what was not done, but for its minutes or effort', () => {
    const prep = () => keptDay('prep\n  leg swings\nrun\n  1 km easy\n', '=', '5:00')
    expect(said(keptDay('run\n  1 km easy\nlift\n  squat 1 x 5 @ 60 kg\n', '-', '5'), short)[0]).toBe(
      '[lift]',
    )
    expect(said(prep(), short)[0]).toBe('[run, 1 km]')
    expect(said(prep().close(0, 2, null), short)[0]).toBe('[prep, effort 2]')
    expect(said(prep().close(0, null, 10), short)[0]).toBe('[prep, 10 min]')
  })
})

describe('sets', () => {
  const lift = (line: string, ...entries: string[]) => keptDay(`lift\n  ${line}\n`, ...entries)

  it('say the rounds against the clock, and what they make of each exercise', () => {
    const amrap = '10 min amrap: 5 pull-up @ bodyweight, 10 push-up @ bodyweight'
    expect(said(lift(amrap, '8+7'), short).slice(1)).toEqual([
      'pull-up + push-up: 8 rounds and 7 reps',
      'pull-up: 45 x bodyweight',
      'push-up: 82 x bodyweight',
    ])
    expect(said(lift(amrap, '1+0'), short)[1]).toBe('pull-up + push-up: 1 round')
  })

  it('say the time of rounds for time, each station, and the metres run', () => {
    const day = lift('for time: 3 rounds of 10 step-up @ 20 kg, 60 m carry, 100 m run', '6:30')
    expect(said(day, short).slice(1)).toEqual([
      'step-up + carry + run: 6:30',
      'step-up: 30 x 20 kg',
      'carry: 180 m',
    ])
    // How long the running took was not timed.
    expect(summarise(day.session, context).running).toMatchObject({ meters: 300, seconds: null })
  })

  it('say seconds or metres of a hold or a carry, and a mass in the unit asked for', () => {
    const day = keptDay(
      'lift\n  row 2 x 5 @ 2x20 kg\n  plank 2 x 45 s\n  farmer carry: 1 x 40 m @ 2x24 kg\n',
      ...['5', '5 x 2x22.5', '45', '50.5', '30 m'],
    )
    expect(said(day, { full: true, units: { distance: null, mass: 'lb' } }).slice(1)).toEqual([
      'row: 5 x 2x44.09 lb, 5 x 2x49.6 lb',
      // 45 kg x 5 x the median of the seven, 1.1658: 52.5 kg.
      ' maximum at least 115.7 lb both together (the equations say 111.6 to 118.1), set 2, by median',
      ' 937 lb in all',
      'plank: 45 s, 50.5 s',
      'farmer carry: 30 m x 2x52.91 lb',
      '[more figures]',
      'lifted 5 sets, 10 repetitions, 937 lb over different exercises',
    ])
  })

  it('have an estimate only of the first lift in a note, and of each in full', () => {
    const day = keptDay('lift\n  squat 1 x 5 @ 100 kg\n  bench press 1 x 5 @ 80 kg\n', '5 @9', '5 @9')
    const estimates = (options: SummaryOptions) =>
      said(day, options).filter((each) => each.includes('maximum'))
    // 6 to failure: lombardi's 100 x 6 ^ 0.1 = 119.6 is the middle one.
    expect(estimates(short)).toEqual([' estimated maximum 119.6 kg (112.5 to 124), set 1'])
    expect(estimates(full)).toEqual([
      ' estimated maximum 119.6 kg (112.5 to 124), set 1, by median',
      ' estimated maximum 95.7 kg (90 to 99.2), set 1, by median',
    ])
  })

  it("have in a note the estimate of each part's first lift that has one for it, after a curl or a set of twelve", () => {
    const day = keptDay(
      'lift: legs\n  curl 1 x 5 @ 20 kg\n  leg press 1 x 12 @ 90 kg\n  squat 1 x 5 @ 100 kg\n  row 1 x 5 @ 60 kg\nlift: push\n  bench press 1 x 5 @ 80 kg\n',
      ...['5 @9', '12 @9', '5 @9', '5 @9', '5 @9'],
    )
    const lines = said(day, short)
    const before = lines.flatMap((_, at) => (lines[at + 1]?.includes('maximum') ? [lines[at]] : []))
    expect(before).toEqual(['squat: 5 x 100 kg @9', 'bench press: 5 x 80 kg @9'])
  })

  it('have a maximum in the unit of its set, unless another was asked for', () => {
    const maxima = (line: string, entry: string, options: SummaryOptions = short) =>
      said(keptDay(`lift\n  ${line}\n`, entry), options).filter((each) => each.includes('maximum'))
    // 225 lb once, to failure, is itself; 102.06 kg.
    expect(maxima('deadlift 1 x 1 @ 225 lb', '1 @10')).toEqual([' measured maximum 225 lb, set 1'])
    // 6 to failure: lombardi's 225 x 6 ^ 0.1 = 269.2 is the middle one; wathan's 225 / (0.488 + 0.538 e ^ -0.525) is
    // 279.1.
    expect(maxima('deadlift 1 x 5 @ 225 lb', '5 @9')).toEqual([
      ' estimated maximum 269.2 lb (253.1 to 279.1), set 1',
    ])
    expect(maxima('deadlift 1 x 1 @ 100 kg', '1 x 225 lb @10')).toEqual([' measured maximum 225 lb, set 1'])
    const inPounds = { ...short, units: { distance: null, mass: 'lb' } } as const
    expect(maxima('deadlift 1 x 1 @ 100 kg', '1 @10', inPounds)).toEqual([
      ' measured maximum 220.5 lb, set 1',
    ])
  })

  it('have their loads in pounds if those were asked for, also in a day in pounds', () => {
    const day = keptDay('units: mi lb\nlift\n  squat 1 x 5 @ 100 kg\n', '5')
    const inPounds = { ...short, units: { distance: null, mass: 'lb' } } as const
    expect(said(day, short)).toContain('squat: 5 x 100 kg')
    expect(said(day, inPounds)).toContain('squat: 5 x 220.46 lb')
  })

  it('have a maximum below the body mass if they were helped', () => {
    const day = new Kept(dayOf('A day\nlift\n  pull-up 1 x 5 @ bodyweight-20 kg\n'), { bodyMassKg: 70 })
    expect(said(day.type('5 @8'), short).slice(1)).toEqual([
      'pull-up: 5 x bodyweight-20 kg @8',
      ' estimated maximum bodyweight-9.3 kg (-12.5 to -6.2), set 1',
    ])
  })

  it('say that the estimate takes in the pauses of clusters', () => {
    expect(said(lift('squat 1 x (2+2) @ 100 kg', '2+2'), short).slice(2)).toEqual([
      ' maximum at least 105.1 kg (the equations say 102.9 to 116.5), set 1',
      ' a cluster set: from its longest group alone to no pause at all',
    ])
  })
})

describe('rests and pauses', () => {
  const lifted = (rest: { prescribedSeconds: number | null; meanSeconds: number | null }) => {
    const day = keptDay('lift\n  squat 1 x 5 @ 100 kg\n', '5')
    const [exercise] = summarise(day.session, context).lifting.exercises
    if (!exercise) throw new Error('no exercise')
    return (options: SummaryOptions) =>
      restPhrases({ ...exercise, rests: rest }, summaryViewOf(day.session, context, options))
  }

  it('count as prescribed in a note within 10 s or a tenth, whichever is more', () => {
    const says = (prescribedSeconds: number | null, meanSeconds: number | null) =>
      lifted({ prescribedSeconds, meanSeconds })(short)
    expect(says(60, 70)).toEqual([])
    expect(says(60, 70.5)).toEqual(['mean rest 1:11, 1:00 prescribed'])
    expect(says(60, 49)).toEqual(['mean rest 0:49, 1:00 prescribed'])
    expect(says(200, 220)).toEqual([])
    expect(says(200, 221)).toEqual(['mean rest 3:41, 3:20 prescribed'])
    expect(says(null, 90)).toEqual([])
  })

  it('are all told in full, if they were measured', () => {
    expect(lifted({ prescribedSeconds: 60, meanSeconds: 60 })(full)).toEqual([
      'mean rest 1:00, 1:00 prescribed',
    ])
    expect(lifted({ prescribedSeconds: null, meanSeconds: 90 })(full)).toEqual(['mean rest 1:30'])
    expect(lifted({ prescribedSeconds: 60, meanSeconds: null })(full)).toEqual([])
  })
})

describe('what was eaten', () => {
  const nothing = { carbsG: null, proteinG: null, fatG: null, kcal: null, note: null, pain: null }
  const day = () => {
    const eaten = keptDay('athlete: 70 kg\nfuel\n  before 2 h: carbs 75 g\nrun\n  1 km easy\n', '5:00')
    const some = { ...nothing, carbsG: 70.25, proteinG: 12, fatG: 10, kcal: 500 }
    eaten.add({ type: 'mealRecorded', ...now, meal: 'before', result: some })
    const soup = { ...nothing, note: 'soup', pain: 'stomach' }
    return eaten.add({ type: 'mealRecorded', ...now, meal: 'after', result: soup })
  }

  it('is summed over the meals of the day and those besides, each under its time', () => {
    const eaten = keptDay('fuel\n  before 2 h: carbs 75 g\n', 'carbs 70 g')
    for (const [meal, carbsG] of [
      ['before', 20],
      ['between', 30],
      ['after', 40],
      ['after', 45],
    ] as const)
      eaten.add({ type: 'mealRecorded', ...now, meal, result: { ...nothing, carbsG } })
    const { before, between, after } = summarise(eaten.session, context).fuel
    expect([before?.carbsG, between?.carbsG, after?.carbsG]).toEqual([90, 30, 85])
    // 4 kcal a gram of carbohydrate, Atwater's general factor.
    expect(after).toMatchObject({ atwaterKcal: 340, proteinG: null })
  })

  it('is told with every amount that is known, and what was said of it', () => {
    expect(said(day(), short).slice(2)).toEqual([
      '[fuel]',
      'before: carbs 70.3 g, protein 12 g, fat 10 g, 500 kcal',
      'after: soup, amounts not known',
    ])
    expect(head(day())?.at(-1)).toBe('fuel after, pain: stomach')
  })

  it('is named where its amounts are not known, as prescribed or as typed', () => {
    const gel = { type: 'fuelRecorded' as const, ...now, result: nothing }
    const lines = 'fuel\n  before: "gel"\n  between: carbs 20 g\n  after: "rice", "curry"\nrun\n  1 km easy\n'
    const eaten = keptDay(lines, '5:00')
    eaten.add({ ...gel, step: '1.1.f1' }).add({ ...gel, step: '1.2.f1', result: { ...nothing, carbsG: 20 } })
    eaten.add({ ...gel, step: '1.3.f1', result: { ...nothing, note: 'too hot' } })
    eaten.add({ type: 'mealRecorded', ...now, meal: 'between', result: { ...nothing, note: 'half a bar' } })
    eaten.add({ type: 'mealRecorded', ...now, meal: 'before', result: nothing })
    expect(said(eaten, short).slice(2)).toEqual([
      '[fuel]',
      'before: gel, amounts not known',
      'between: carbs 20 g; half a bar, amounts not known',
      'after: rice, curry, amounts not known',
      '[notes]',
      'fuel after: too hot',
    ])
    const unnamed = keptDay('run\n  1 km easy\n', '5:00')
    unnamed.add({ type: 'mealRecorded', ...now, meal: 'before', result: nothing })
    expect(said(unnamed, short).at(-1)).toBe('before: eaten, amounts not known')
  })

  it('is told in full with the energy of its grams and of the running', () => {
    // 70.25 x 4 + 12 x 4 + 10 x 9 = 419; 70 kg over 1 km take 56 to 70 kcal, each to the nearest 50.
    const told = said(day(), full)
    expect(told).toContain('before: carbs 70.3 g, protein 12 g, fat 10 g, 500 kcal, 419 kcal from its grams')
    expect(told).toContain('the running took about 50 kcal above rest, on the level')
  })
})

describe('next time', () => {
  it('is told of what changes', () => {
    const next = [
      { item: 'squat', decision: 'up' as const, reason: '102.5 kg' },
      { item: 'row', decision: 'same' as const, reason: 'again' },
    ]
    const day = keptDay('lift\n  squat 2 x 5 @ 100 kg\n', '5', '5')
    expect(said(day, short, { ...context, next }).slice(-2)).toEqual(['[next time]', 'squat: 102.5 kg'])
  })
})
