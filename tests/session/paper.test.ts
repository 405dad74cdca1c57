import { describe, expect, it } from 'vitest'
import { printDiagnostics } from '../../src/prescription/lines.ts'
import type { Prescription } from '../../src/prescription/model.ts'
import { readFoods } from '../../src/session/entry/fuel.ts'
import { SessionEvent } from '../../src/session/model.ts'
import { type PaperOptions, readPaper } from '../../src/session/paper/paper.ts'
import { replay } from '../../src/session/replay.ts'
import { dayOf } from '../day.ts'
import fc, { anyCharacter, times } from '../fastCheck.ts'

const dayText = `Thursday: fast five hundreds, then front squat
date: 2026-11-26
athlete: 68 kg

prep
  foam roll 3:00
  leg swings 2 x 10 each side

run: track
  2 km easy
  3 km @ 3:50-4:00/km, split 1 km
  2 x 500 m @ 3:35-3:45/km, jog 200 m

lift: legs
  front squat: 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30
  pull-up 2 x 6 @ bodyweight + plank 2 x 45 s, rest 1:30
  good morning 2 x 8 @ rpe 7

fuel
  before 2 h: carbs 75 g
  after: carbs 80 g
`
const day = dayOf(dayText)
const twoRuns = dayOf(`${dayText}\nrun: Evening\n  5 km easy\n`)

const options: PaperOptions = {
  date: null,
  foods: [],
  known: () => ({ bodyMassKg: 68, maxima: [] }),
  instantOf: (date, time) => `${date}T${time}+01:00`,
}

const wholeDay = `
# kept on paper, typed in the evening
date: 2026-11-26
start: 06:40
=
-  "no room"
=            # easy
4:00
3:58.4 hr 168
3:55 "wind behind"
[07:31:10] 1:49.2 hr 171/183
[7:35] 1:48
=
1+1+0 x 95 @9
6 x +5
45
5!
0:50
8 x 40 @7
=
run: effort 8, 62 min
lift: 35 min, effort very hard
run with: flats, track, windy
fuel before: carbs 70 g, protein 18 g
note: slept 5 h
note: pain left knee
`

function read(results: string, prescription: Prescription = day, more: Partial<PaperOptions> = {}) {
  return readPaper(results, prescription, { ...options, ...more })
}

/** The events after the start, or what is wrong. */
function eventsIn(results: string, prescription: Prescription = day): SessionEvent[] {
  const reading = read(results, prescription)
  if (reading.outcome !== 'session') throw new Error(JSON.stringify(reading))
  return [reading.start, ...reading.events]
}

function problemsIn(results: string, prescription: Prescription = day): string {
  const reading = read(results, prescription)
  return reading.outcome === 'problems' ? printDiagnostics(reading.problems, 'results.txt') : reading.outcome
}

const resultsOf = (events: SessionEvent[]) =>
  events.flatMap((event) => {
    if (event.type === 'setRecorded')
      return [event.result.groups?.join('+') ?? event.result.reps ?? `${event.result.seconds} s`]
    if (event.type === 'pieceRecorded') return [event.result.seconds]
    return event.type === 'prepRecorded' ? ['done'] : event.type === 'stepSkipped' ? ['skipped'] : []
  })

describe('a session that was kept on paper', () => {
  it('is read without the marks of a list, but - is a skipped result', () => {
    const squats = dayOf('Day\ndate: 2026-11-26\nlift\n  squat 3 x 5 @ 100 kg\n')
    expect(eventsIn('• 5\n-\n3) 4\n', squats)).toEqual(eventsIn('5\n-\n4\n', squats))
    expect(problemsIn('• 5\n• foo\n', squats)).toContain('results.txt:2:3: ')
  })

  it('is read without its ticked box, but an empty box is not a result', () => {
    const squats = dayOf('Day\ndate: 2026-11-26\nlift\n  squat 3 x 5 @ 100 kg\n')
    expect(eventsIn('[x] 5\n✓ 4\n', squats)).toEqual(eventsIn('5\n4\n', squats))
    expect(problemsIn('• [ ] 5\n', squats)).toContain('results.txt:1:1: ')
    expect(problemsIn('☐ 5\n', squats)).toContain('results.txt:1:1: ')
  })

  it("has the entries in the order of the recorder's prompts", () => {
    expect(resultsOf(eventsIn(wholeDay))).toEqual([
      'done',
      'skipped',
      null,
      240,
      238.4,
      235,
      109.2,
      108,
      '1+1+1',
      '1+1+0',
      6,
      '45 s',
      5,
      '50 s',
      8,
      8,
    ])
  })

  it('consists of the same events as a live one', () => {
    const events = eventsIn(wholeDay)
    for (const event of events) expect(SessionEvent.parse(event)).toEqual(event)
    expect(events.map((event) => event.type)).toEqual([
      'sessionStarted',
      'fuelRecorded',
      'prepRecorded',
      'stepSkipped',
      'noteAdded',
      'partClosed',
      'conditionsNoted',
      ...Array(6).fill('pieceRecorded'),
      'partClosed',
      ...Array(8).fill('setRecorded'),
      'partClosed',
      'noteAdded',
      'noteAdded',
      'sessionFinished',
    ])
  })

  it('replays to a finished day', () => {
    const events = eventsIn(wholeDay)
    const state = replay({ prescription: day, events })
    expect(state.finished).toBe(true)
    expect(state.fromPaper).toBe(true)
    expect(state.bodyMassKg).toBe(68)
    expect(state.recorded.size).toBe(16)
    expect(state.skipped.size).toBe(1)
    expect(state.partStates.map(({ effort, minutes }) => [effort, minutes])).toEqual([
      [null, null],
      [8, 62],
      [7, 35],
      [null, null],
    ])
    expect(state.partStates[1]?.conditions).toBe('flats, track, windy')
    expect(state.notes.map(({ text, pain, about }) => [text, pain, about])).toEqual([
      ['no room', false, '1.2.x1'],
      ['slept 5 h', false, null],
      ['left knee', true, null],
    ])
  })

  it('may repeat the figures of the result before on the same line', () => {
    const lifts = dayOf('One\ndate: 2026-11-26\n\nlift\n  squat 3 x 5 @ 100 kg\n  row 2 x 8 @ 60 kg\n')
    const typed = resultsOf(eventsIn('4! x 95 @9\nsame\nsame @8\nsame\n7', lifts))
    const written = resultsOf(eventsIn('4! x 95 @9\n4! x 95\n4! x 95 @8\n=\n7', lifts))
    expect(typed).toEqual(written)
  })

  it('remembers the load last typed on a line, because the bar is still loaded', () => {
    const loads = eventsIn(wholeDay).flatMap((event) =>
      event.type === 'setRecorded' ? [event.result.load] : [],
    )
    const kilograms = (value: number) => ({ kind: 'mass', value, unit: 'kg', pair: false })
    const body = { kind: 'bodyweight', added: 5, unit: 'kg' }
    expect(loads).toEqual([
      kilograms(92.5),
      kilograms(95),
      body,
      null,
      body,
      null,
      kilograms(40),
      kilograms(40),
    ])
  })

  it('has times in local time if the results have them', () => {
    const events = eventsIn(wholeDay)
    expect(events[0]).toMatchObject({ at: '2026-11-26T06:40:00+01:00', date: '2026-11-26' })
    const times = events.flatMap((event) => (event.type === 'pieceRecorded' ? [event.at] : []))
    expect(times).toEqual([null, null, null, null, '2026-11-26T07:31:10+01:00', '2026-11-26T07:35:00+01:00'])
    expect(events.at(-1)).toEqual({ type: 'sessionFinished', at: null, up: null })
  })

  it('ends with the time of its last result, if that has one', () => {
    const events = eventsIn('[7:04] =\n[7:10] =\n[7:20] 8:20')
    expect(events.at(-1)).toMatchObject({ type: 'sessionFinished', at: '2026-11-26T07:20:00+01:00' })
  })

  it('has no start time unless the results give one', () => {
    expect(eventsIn('=')[0]?.at).toBeNull()
  })

  it('continues after midnight', () => {
    const events = eventsIn('start: 23:50:59\n[23:58] =\n[0:04] =\n[0:04] 8:20')
    expect(events.flatMap((event) => event.at ?? []).slice(0, 4)).toEqual([
      '2026-11-26T23:50:59+01:00',
      '2026-11-26T23:58:00+01:00',
      '2026-11-27T00:04:00+01:00',
      '2026-11-27T00:04:00+01:00',
    ])
  })

  it('has passed midnight when the clock goes back by more than half a day', () => {
    const second = (results: string) => {
      const reading = read(results)
      return reading.outcome === 'session'
        ? reading.events.flatMap((event) => event.at ?? [])[1]
        : reading.outcome
    }
    expect(second('[18:00] =\n[5:59] =')).toBe('2026-11-27T05:59:00+01:00')
    expect(second('[18:00] =\n[6:00] =')).toBe('problems')
  })

  it('knows the maxima and the last loads of that day', () => {
    const lift = dayOf('One\ndate: 2026-11-26\n\nlift\n  squat: 1 x 5 @ 80%\n  row: 1 x 5 @ last + 2.5 kg\n')
    const load = { kind: 'mass', value: 40, unit: 'kg', pair: false } as const
    const reading = read('=\n=', lift, {
      known: () => ({
        bodyMassKg: 68,
        maxima: [{ name: 'squat', kg: 100, basis: 'typed' }],
        lastLoads: [{ name: 'row', date: '2026-11-20', load, isKept: false }],
      }),
    })
    const events = reading.outcome === 'session' ? reading.events : []
    expect(
      events.flatMap((event) => (event.type === 'setRecorded' ? [event.result.load] : [])),
    ).toMatchObject([{ value: 80 }, { value: 42.5 }])
  })

  it('has meals before the session first, and all others last', () => {
    const types = (results: string) => eventsIn(results).map((event) => event.type)
    expect(types('fuel after: carbs 90 g\nfuel before: carbs 70 g\nfuel between: carbs 30 g')).toEqual([
      'sessionStarted',
      'fuelRecorded',
      ...Array(3).fill('partClosed'),
      'fuelRecorded',
      'mealRecorded',
      'sessionFinished',
    ])
    expect(types('fuel before: -').filter((type) => type === 'fuelRecorded')).toEqual([])
  })

  it('may have a pain for an entry', () => {
    expect(problemsIn(`${wholeDay}\npain: calf 3`)).toContain(
      'the prescription asks for 16 results; a pain of the whole day is a note: note: pain calf 3',
    )
    expect(eventsIn('pain: calf')[1]).toMatchObject({ type: 'prepRecorded', result: { pain: 'calf' } })
    expect(problemsIn('pain left: calf')).toContain('":" is not understood')
  })

  it('has notes as they were written, in quotes or without', () => {
    const notes = (text: string) =>
      eventsIn(`note: ${text}`).flatMap((event) =>
        event.type === 'noteAdded' ? [[event.text, event.pain]] : [],
      )
    expect(notes('"slept 5 h"')).toEqual([['slept 5 h', false]])
    expect(notes('“ slept 5 h ”')).toEqual([['slept 5 h', false]])
    expect(notes('"windy" and "cold"')).toEqual([['"windy" and "cold"', false]])
    expect(notes('said "go"')).toEqual([['said "go"', false]])
    expect(notes('pain:  left knee')).toEqual([['left knee', true]])
    expect(notes('pain "left knee"')).toEqual([['left knee', true]])
    expect(notes('"pain left knee"')).toEqual([['left knee', true]])
    expect(notes('pain "left knee" 4')).toEqual([['left knee 4', true]])
    expect(notes('pain: left calf 3, "right  knee" 2')).toEqual([['left calf 3, right knee 2', true]])
    expect(notes('no pain today')).toEqual([['no pain today', false]])
    expect(notes('painful')).toEqual([['painful', false]])
  })

  it('may call a part by a number, which is not read as an entry', () => {
    const numbered = {
      ...day,
      parts: day.parts.map((part) => (part.kind === 'run' ? { ...part, name: '4' } : part)),
    }
    expect(resultsOf(eventsIn(wholeDay, numbered))).toEqual(resultsOf(eventsIn(wholeDay)))
  })

  it('is stored as closed if it has too few lines; the rest counts as not done', () => {
    const state = replay({ prescription: day, events: eventsIn('=\n=\n8:20') })
    expect(state.finished).toBe(true)
    expect(state.recorded.size).toBe(3)
    expect(state.skipped.size).toBe(0)
    expect(state.partStates.map((part) => part.closed)).toEqual([true, true, true, false])
  })

  it('may say how long before the session a meal was, as the prescription does', () => {
    const events = eventsIn('fuel before 1:30: carbs 70 g\nfuel after: carbs 90 g, "soup"')
    expect(
      events.flatMap((event) => (event.type === 'fuelRecorded' ? [[event.step, event.result.carbsG]] : [])),
    ).toEqual([
      ['4.1.f1', 70],
      ['4.2.f1', 90],
    ])
  })

  it('may have foods for a meal, also after how long before it was, and insisted on', () => {
    const { foods } = readFoods('egg: 1 C 6 P\nrice 100 g: 28 C\n')
    const reading = read('fuel before 2 h: 2 eggs # boiled\nFUEL after : 5 kg rice, 4 kg rice\n', day, {
      foods,
    })
    expect(reading).toMatchObject({ problems: [{ line: 2 }] })
    const insisted = read('fuel before 2 h: 2 eggs # boiled\nFUEL after : 4000 g rice !!\n', day, { foods })
    const events = 'events' in insisted ? insisted.events : []
    expect(events.flatMap((event) => (event.type === 'fuelRecorded' ? [event.result] : []))).toMatchObject([
      { carbsG: 2, proteinG: 12, note: '2 eggs' },
      { carbsG: 1120, note: '4000 g rice' },
    ])
  })

  it('may have a meal that is not prescribed', () => {
    const state = replay({ prescription: day, events: eventsIn('fuel between: carbs 30 g, "banana"') })
    expect(state.meals).toEqual([
      {
        when: 'between',
        result: { carbsG: 30, proteinG: null, fatG: null, kcal: null, note: 'banana', pain: null },
      },
    ])
  })

  it('may insist on a meal', () => {
    expect(eventsIn('fuel before: carbs 1001 g !!')[1]).toMatchObject({
      type: 'fuelRecorded',
      result: { carbsG: 1001 },
    })
  })

  it('may have been closed without a single result', () => {
    expect(eventsIn('run: effort 8, 62 min').map((event) => event.type)).toEqual([
      'sessionStarted',
      'partClosed',
      'partClosed',
      'partClosed',
      'sessionFinished',
    ])
  })

  it('reads the same with a byte-order mark, carriage returns, tabs and without a last line end', () => {
    const odd = `\uFEFF${wholeDay.trim().replaceAll('\n', '\r\n').replaceAll('  ', '\t ')}`
    expect(eventsIn(odd)).toEqual(eventsIn(wholeDay))
  })
})

describe('the date', () => {
  it('is that of the results, else of the prescription, else the given one', () => {
    const undated = { ...day, date: null }
    const dateOf = (results: string, prescription: Prescription, date: string | null) => {
      const reading = read(results, prescription, { date })
      return reading.outcome === 'session' ? reading.start.date : reading.outcome
    }
    expect(dateOf('date: 2026-11-28\n=', day, '2026-11-30')).toBe('2026-11-28')
    expect(dateOf('=', day, '2026-11-30')).toBe('2026-11-26')
    expect(dateOf('=', undated, '2026-11-30')).toBe('2026-11-30')
    expect(dateOf('=', undated, null)).toBe('noDate')
  })
})

describe('a part', () => {
  const closed = (results: string, prescription: Prescription) =>
    replay({ prescription, events: eventsIn(results, prescription) }).partStates.map(
      ({ effort, minutes }) => [effort, minutes],
    )

  it('is named by its kind, and by its own name if a day has two of a kind', () => {
    expect(closed('track: effort 8, 62 min\nevening: effort 4, 30 min\nlift: effort 6', twoRuns)).toEqual([
      [null, null],
      [8, 62],
      [6, null],
      [null, null],
      [4, 30],
    ])
  })

  it('is called by its kind, too, where another part has that word for a name', () => {
    const parts = day.parts.map((part) => (part.kind === 'run' ? { ...part, name: 'lift' } : part))
    const named = { ...day, parts }
    expect(closed('lift: effort 6\nrun lift: effort 8', named)).toEqual(
      closed('lift: effort 6\nrun: effort 8', day),
    )
    expect(problemsIn('lift: effort 6\nlift: effort 8', named)).toContain('write them once')
  })

  it('may share its name with another: the lines go to them in order', () => {
    const [run] = day.parts.filter((part) => part.kind === 'run')
    const twins = { ...day, parts: run ? [run, run] : [] }
    expect(closed('track: effort 8, 62 min\ntrack: effort 4, 30 min', twins)).toEqual([
      [8, 62],
      [4, 30],
    ])
    expect(problemsIn('track: effort 8\ntrack: effort 4\ntrack: effort 3', twins)).toBe(
      'results.txt:3:1: effort and minutes of this part are already given; write them once\n  track: effort 3\n  ^^^^^^^^^^^^^^^',
    )
  })

  it('has a name of one word or more, whatever the case and the spaces', () => {
    const named = {
      ...day,
      parts: day.parts.map((part) => (part.kind === 'run' ? { ...part, name: ' Long  RUN ' } : part)),
    }
    for (const line of [
      'run : effort 8',
      'long run: effort 8',
      'LONG   run: effort 8',
      'run  Long run: effort 8',
    ])
      expect(closed(line, named)[1], line).toEqual([8, null])
  })

  it('is not called by a kind that a day has twice under names, or by the word for meals', () => {
    expect(problemsIn('run: effort 8', twoRuns)).toContain(
      '"run:" names no part of this day, which has prep, run track, lift legs and run Evening;',
    )
    expect(problemsIn('fuel: effort 8')).toContain('"fuel:" names no part of this day')
    const parts = twoRuns.parts.map((part) => (part.name === 'Evening' ? { ...part, name: null } : part))
    const half: Prescription = { ...twoRuns, parts: parts as Prescription['parts'] }
    expect(closed('run: effort 4', half)[4]).toEqual([4, null])
    expect(problemsIn('late: effort 8', half)).toContain('which has prep, run track, lift legs and run;')
  })

  it.each([
    ['effort 8, 62 min', [8, 62]],
    ['62 min, effort 8', [8, 62]],
    ['effort 8', [8, null]],
    ['62 min', [null, 62]],
    ['1:02', [null, 62]],
    ['effort 8,5, 62 min', [8.5, 62]],
    ['effort very, very easy, 1 h 2 min', [1, 62]],
    ['effort 8 62 min', [8, 62]],
    ['effort:   8', [8, null]],
    ['effort 8 , , 62 min,', [8, 62]],
    ['1:02:30, effort 8', [8, 62.5]],
  ])('was as %j says', (text, figures) => {
    expect(closed(`run: ${text}`, day)[1]).toEqual(figures)
  })
})

describe('results that cannot be stored', () => {
  it('say which line, and what was expected there', () => {
    expect(problemsIn('=\n=\n=\n4:75\n3:58\n3:57\n  1:49  # fast\n6@100')).toBe(
      [
        'results.txt:4:1: 4:75 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11 (expected here: split 1 of 3: 1 km, line 11 of the prescription)',
        '  4:75',
        '  ^^^^',
        'results.txt:8:1: 100 is not an RPE: it runs from 1 to 10, in halves (expected here: repeat 2 of 2: 500 m, line 12 of the prescription)',
        '  6@100',
        '  ^^^^^',
      ].join('\n'),
    )
  })

  it.each([
    [
      '=\nrolled',
      '"rolled" is not understood; type = or nothing for done, - for not done (expected here: leg swings, line 7 of the prescription)',
    ],
    [
      '=\n=\n=\n=',
      'a target is never a result: type the time of 1 km, such as 5:00 (expected here: split 1 of 3: 1 km, line 11 of the prescription)',
    ],
    [
      '=\n=\n=\n4.00',
      '4.00 s for 1 km is faster than any human; did you mean 4:00? If it is right, end the line with !! (expected here: split 1 of 3: 1 km, line 11 of the prescription)',
    ],
    ['date: 1969-12-31', 'Invalid date "1969-12-31". Example: 2026-11-26'],
    ['start: 7:60', 'Invalid start "7:60". Example: 06:40'],
    ['start: 7:04:60', 'Invalid start "7:04:60". Example: 06:40'],
    ['start: 24:00', 'Invalid start "24:00". Example: 06:40'],
    ['start: at 7:04', 'Invalid start "at 7:04". Example: 06:40'],
    ['start: 7:04 am', 'Invalid start "7:04 am". Example: 06:40'],
    ['run:', '"" is not understood; write how a part went as "effort 8, 62 min"'],
    ['run: no effort 8', '"no effort 8" is not understood; write how a part went as "effort 8, 62 min"'],
    ['fuel between:', 'the prescription has no meal between; write what was eaten: carbs 70 g, protein 18 g'],
    [
      'fuel before: porridge !!',
      '"porridge" is not understood; food is typed carbs 70 g, protein 18 g, fat 10 g, or 450 kcal',
    ],
    [
      'no fuel before: carbs 70 g',
      '"no fuel before:" names no part of this day, which has prep, run track and lift legs; other lines begin "date:", "start:", "fuel before:" or "note:"',
    ],
    [
      'relax: effort 4',
      '"relax:" names no part of this day, which has prep, run track and lift legs; other lines begin "date:", "start:", "fuel before:" or "note:"',
    ],
    [
      'okay: 4',
      '"okay:" names no part of this day, which has prep, run track and lift legs; other lines begin "date:", "start:", "fuel before:" or "note:"',
    ],
    ['[25:00] =', 'Invalid time of day "[25:00]". Examples: [7:04] or [7:04:10]'],
    ['[7:04', 'a time of day is written [7:04] or [7:04:10]'],
    ['[7:04]', 'write the entry after a time of day; = is as prescribed, - is skipped'],
    [
      '[7:04] =\n[7:03] =',
      '07:03:00 is earlier than 07:04:00 above it; if it is right, end the line with !!',
    ],
    [
      'start: 7:05\n[7:03] =',
      '07:03:00 is earlier than 07:05:00 above it; if it is right, end the line with !!',
    ],
    ['start: 7 am', 'Invalid start "7 am". Example: 06:40'],
    ['date: 26.11.2026', 'Invalid date "26.11.2026". Example: 2026-11-26'],
    ['date: 2026-02-30', 'Invalid date "2026-02-30". Example: 2026-11-26'],
    ['date: 2026-11-26\ndate: 2026-11-26', '"date:" is given twice; write it once'],
    ['start: 7:00\nstart: 7:00', '"start:" is given twice; write it once'],
    ['run: effort 11', 'invalid effort "11"; write 0 (rest) to 10 (maximal), halves allowed'],
    ['run: 301 min', '301 minutes are more than 5 hours; if it is right, end the line with !!'],
    ['run: hard', '"hard" is not understood; write how a part went as "effort 8, 62 min"'],
    ['run: effort 8, 62:30', 'invalid minutes "62:30"; write 62 or 1:02'],
    ['run with:', 'after "with:" write what it was done with: flats, track, windy'],
    [
      'run with: flats\nrun with: spikes',
      'what this part was done with is already given; write it on one line',
    ],
    ['note:', 'after "note:" write the note, such as note: slept 5 h'],
    [
      'fuel between: =',
      'the prescription has no meal between; write what was eaten: carbs 70 g, protein 18 g',
    ],
    [
      'fuel between: carbs 30 g\nfuel between: carbs 30 g',
      'what was eaten between is already given; write it on one line',
    ],
    [
      'fuel before: carbs 70 g\nfuel before: carbs 70 g',
      'what was eaten before is already given; write it on one line',
    ],
    ['fuel before: carbs 7000 g', '7000 g of carbs in one meal? If it is right, end the line with !!'],
    [
      'fuel before: porridge',
      '"porridge" is not understood; food is typed carbs 70 g, protein 18 g, fat 10 g, or 450 kcal',
    ],
    [
      'evening: effort 4',
      '"evening:" names no part of this day, which has prep, run track and lift legs; other lines begin "date:", "start:", "fuel before:" or "note:"',
    ],
    ['\u001b[2J', 'the character U+001B is not allowed: delete it'],
  ])('name the fault of %j', (results, message) => {
    const reading = read(results)
    expect(
      reading.outcome === 'problems' ? reading.problems.map((problem) => problem.message) : reading,
    ).toEqual([message])
  })

  // Whatever is wrong there may have been an entry, so that the lines below would answer the wrong results.
  it.each(['[25:00] =', '[7:04', '[7:04]', '\u001b[2J'])(
    'are not compared with the prescription if a line like %j cannot be read',
    (line) => {
      const reading = read(`${line}\n=\n=\n=\n4.00`)
      expect(reading.outcome === 'problems' && reading.problems.map((problem) => problem.line)).toEqual([1])
    },
  )

  it('are compared even if another line cannot be read, and listed by line', () => {
    const reading = read('=\n=\n=\n4.00\nevening: x\nstart: 7\ndate: x\nrun: x\nrun with:\nnote:')
    expect(reading.outcome === 'problems' && reading.problems.map((problem) => problem.line)).toEqual([
      4, 5, 6, 7, 8, 9, 10,
    ])
  })

  it('show where the problem is', () => {
    const marked = (results: string) => problemsIn(results).split('\n')
    expect(marked('  [7:04]  rolled 𝄞')).toEqual([
      expect.stringContaining('results.txt:1:11: "rolled" is not understood'),
      '    [7:04]  rolled 𝄞',
      '            ^^^^^^^^',
    ])
    expect(marked('[7:04] =\n  [7:03]  =').slice(1)).toEqual(['    [7:03]  =', '            ^'])
    expect(marked('𝄞 \u001b')[0]).toContain('results.txt:1:3: the character U+001B is not allowed')
    expect(marked('  = !!\n =\n =\n\t4.00 # fast').slice(1)).toEqual(['   4.00 # fast', '   ^^^^'])
  })

  it('may have 500 characters in a line', () => {
    expect(problemsIn(`note: ${'x'.repeat(494)}`)).toBe('session')
  })

  it('say which set was expected, and which run', () => {
    const upToSquat = '=\n=\n=\n4:00\n3:58\n3:55\n1:49\n1:48\n'
    expect(problemsIn(`${upToSquat}x`)).toContain(
      '(expected here: set 1 of 2 of front squat, line 15 of the prescription)',
    )
    expect(problemsIn('=\n=\nx')).toContain('(expected here: 2 km, line 10 of the prescription)')
  })

  it('report at most a hundred problems of remarks, and of results', () => {
    const twice = read('date: 2026-11-26\n'.repeat(300))
    expect(twice.outcome === 'problems' && twice.problems.length).toBe(101)
    const sets = dayOf(`One\n\nlift\n${'  row: 50 x 5 @ 50 kg\n'.repeat(3)}`)
    const unreadable = read('x\n'.repeat(150), sets, { date: '2026-11-26' })
    expect(unreadable.outcome === 'problems' && unreadable.problems.length).toBe(101)
  })

  it('have an entry too many', () => {
    const seventeen = `${wholeDay}\n8`
    expect(problemsIn(seventeen)).toBe(
      'results.txt:28:1: nothing is expected here: the prescription asks for 16 results\n  8\n  ^',
    )
  })

  it('have an entry although the day asks for none, or for one', () => {
    const only = (kind: 'fuel' | 'prep') => {
      const parts = day.parts.filter((part) => part.kind === kind)
      return {
        ...day,
        parts: parts.map((part) => ({ ...part, items: part.items.slice(0, 1) })) as Prescription['parts'],
      }
    }
    expect(problemsIn('=', only('fuel'))).toContain(
      'nothing is expected here: the prescription asks for no results',
    )
    expect(problemsIn('=\n=', only('prep'))).toContain(
      'nothing is expected here: the prescription asks for 1 result',
    )
  })

  it('report at most a hundred problems', () => {
    const reading = read('evening: x\n'.repeat(5000))
    expect(reading.outcome === 'problems' && reading.problems.length).toBe(101)
  })

  it('describe the prescription of an interval given by time', () => {
    const timed = dayOf('One\ndate: 2026-11-26\n\nrun\n  2 x 3:00 hard, jog 1:00\n')
    expect(problemsIn('=\n700', timed)).toContain(
      'the unit is missing; did you mean 700 m? (expected here: repeat 2 of 2: 3:00, line 5 of the prescription)',
    )
  })

  it('contain totals of a stopwatch that was never reset', () => {
    expect(problemsIn('=\n=\n=\n4:00\n7:58\n11:55')).toBe(
      'results.txt:4:1: running totals? The times on lines 4 to 6 would then be 4:00, 3:58, 3:57: write these, or, if the times are right, end one of the lines with !!\n  4:00\n  ^^^^',
    )
    expect(resultsOf(eventsIn('=\n=\n=\n4:00\n7:58 !!\n11:55'))).toEqual([
      'done',
      'done',
      null,
      240,
      478,
      715,
    ])
  })

  it('contain totals, too, where the last of them is far from the target', () => {
    const repeats = dayOf('One\ndate: 2026-11-26\n\nrun\n  4 x 400 m in 80 s, jog 200 m\n')
    const problems = problemsIn('1:20\n2:41\n4:00\n5:20', repeats)
    expect(problems).toContain(
      'running totals? The times on lines 1 to 4 would then be 1:20, 1:21, 1:19, 1:20',
    )
  })

  it('are no totals across two parts, or across two works', () => {
    const outcome = (run: string, results: string) =>
      problemsIn(results, dayOf(`One\ndate: 2026-11-26\n\n${run}\n`))
    expect(outcome('run: am\n  2 km easy\n\nrun: pm\n  2 km easy', '8:00\n16:00')).toBe('session')
    expect(outcome('run\n  2 x 2 km easy', '8:00\n16:00')).toContain('running totals?')
    expect(outcome('run\n  2 km easy\n  2 km easy', '8:00\n16:00')).toBe('session')
  })

  it('are empty', () => {
    expect(read('\n# nothing\n').outcome).toBe('nothing')
    expect(read('').outcome).toBe('nothing')
  })
})

describe('!! at the end of a line', () => {
  it('insists on what would be questioned', () => {
    expect(resultsOf(eventsIn('=\n=\n=\n4.00 !!'))).toEqual(['done', 'done', null, 4])
    expect(resultsOf(eventsIn('=\n=\n=\n4:00 hr 28!!'))).toEqual(['done', 'done', null, 240])
    expect(
      eventsIn('[7:04] =\n[7:03] = !!')
        .map((event) => event.at)
        .slice(1, 3),
    ).toEqual(['2026-11-26T07:04:00+01:00', '2026-11-26T07:03:00+01:00'])
  })

  it('insists on the minutes of a part', () => {
    const closed = (line: string) => eventsIn(line).filter(({ type }) => type === 'partClosed')
    expect(closed('run: effort 8, 400 min !!')).toContainEqual(
      expect.objectContaining({ effort: 8, minutes: 400 }),
    )
    expect(problemsIn('run: effort 8, 400 min')).toContain('400 minutes are more than 5 hours')
    expect(problemsIn('run: effort 8, 300 min')).toBe('session')
  })

  it('does not make an invalid figure valid', () => {
    expect(problemsIn('=\n=\n=\n4:75 !!')).toContain('4:75 is neither')
    expect(problemsIn('=\n=\n=\n4:00\n3:58\n3:55\n1:49\n1:48\n2 !!')).toContain(
      '2 repetitions in groups: 1+1+0? (expected here',
    )
  })
})

describe('any results file', () => {
  const line = fc.oneof(
    fc.constantFrom(
      '=',
      '-',
      '4:00',
      '1:49',
      '6',
      '6 x 100 @8',
      'run: effort 8, 62 min',
      'start: 7:00',
      '[7:04] =',
      'note: x',
      '!!',
      '# x',
      'fuel before: carbs 70 g',
      'lift with: belt',
      'date: 2026-01-01',
      '45',
    ),
    fc.string({ unit: anyCharacter, maxLength: 30 }),
  )

  it('is stored completely or not at all, and never throws', () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 20 }), (lines) => {
        const reading = read(lines.join('\n'))
        if (reading.outcome === 'session') {
          for (const event of [reading.start, ...reading.events]) SessionEvent.parse(event)
          expect(replay({ prescription: day, events: [reading.start, ...reading.events] }).finished).toBe(
            true,
          )
        } else if (reading.outcome === 'problems') {
          expect(reading.problems.length).toBeGreaterThan(0)
          expect(printDiagnostics(reading.problems, 'results.txt')).not.toMatch(
            /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/,
          )
        }
      }),
      times(60),
    )
  })

  it.each([
    ['=\n', 1],
    ['evening: x\n', 1],
    ['\n', 0],
    ['note: x\n', 1],
    [':', 1],
    ['"', 1],
    ['[', 1],
    [`${'a:'.repeat(200)}\n`, 101],
    ['4:00 !!\n', 1],
  ])('ends, if it is 1 MiB of %j, after %i problems', (text, problems) => {
    const mebibyte = 1 << 20
    const reading = read(text.repeat(Math.ceil(mebibyte / text.length)).slice(0, mebibyte))
    expect(reading.outcome === 'problems' ? reading.problems.length : 0).toBe(problems)
  })
})
