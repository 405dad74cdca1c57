import { describe, expect, it } from 'vitest'
import {
  differencesBetween,
  mergedEvents,
  morningsOf,
  printMorning,
  readMorning,
} from '../../src/plan/morning.ts'
import type { MorningEvent, MorningValues } from '../../src/plan/morningModel.ts'

const today = '2026-11-26'

function typed(at: string, values: MorningValues, date = today): MorningEvent {
  return { type: 'typed', at: `${today}T${at}:00+01:00`, date, values }
}

describe('readMorning', () => {
  it('takes a mood and other numbers that are about no place of the body as a note, because a place may hurt', () => {
    const values = { restingHeartRate: 48, note: 'mood 7, stress 3/10' }
    expect(readMorning('mood 7, 48 bpm, stress 3/10', today)).toEqual({ date: null, values })
    expect(readMorning('hrv 55 ms, "late train", mood 7', today)).toEqual({
      date: null,
      values: { note: 'hrv 55 ms, late train, mood 7' },
    })
  })

  it('reads every part, in any order', () => {
    const values = {
      sleepSeconds: 24_000,
      restingHeartRate: 48,
      bodyMass: { value: 67.8, unit: 'kg' },
      soreness: [
        { place: 'legs', level: 3 },
        { place: 'left calf', level: 2 },
      ],
      note: 'late train, cold',
    }
    expect(readMorning('6:40 h, 48 bpm, 67.8 kg, legs 3, left calf 2, "late train, cold"', today)).toEqual({
      date: null,
      values,
    })
    expect(
      readMorning('legs 3, "late train, cold", 67.8kg, Left  calf 2,48bpm, 400 min', today),
    ).toMatchObject({
      values,
    })
    expect(readMorning('2026-11-25, 149.5 lb', today)).toEqual({
      date: '2026-11-25',
      values: { bodyMass: { value: 149.5, unit: 'lb' } },
    })
    expect(readMorning('48 bpm, 67,8 kg, "68,2 kg in June"', today)).toMatchObject({
      values: { restingHeartRate: 48, bodyMass: { value: 67.8, unit: 'kg' }, note: '68,2 kg in June' },
    })
    expect(readMorning('slept 6:40 h, resting hr 48, weight 67.8 kg', today)).toMatchObject({
      values: { sleepSeconds: 24_000, restingHeartRate: 48, bodyMass: { value: 67.8, unit: 'kg' } },
    })
    expect(readMorning('sleep 7h hr 52 mass 72', today)).toEqual({
      date: null,
      values: { sleepSeconds: 25_200, restingHeartRate: 52, bodyMass: { value: 72, unit: 'kg' } },
    })
    expect(readMorning('2026-11-25 legs 3 mass 149.5 left calf 2 7 hr 52 "tired"', today, 'lb')).toEqual({
      problem: expect.stringContaining('"7" has no unit'),
    })
    expect(readMorning('2026-11-25 legs 3 mass 149.5 left calf 2 7 h hr 52 "tired"', today, 'lb')).toEqual({
      date: '2026-11-25',
      values: {
        sleepSeconds: 25_200,
        restingHeartRate: 52,
        bodyMass: { value: 149.5, unit: 'lb' },
        soreness: [
          { place: 'legs', level: 3 },
          { place: 'left calf', level: 2 },
        ],
        note: 'tired',
      },
    })
    expect(readMorning('', today)).toEqual({ date: null, values: {} })
  })

  it.each([
    ['6h40', { sleepSeconds: 24_000 }],
    ['6:40', { sleepSeconds: 24_000 }],
    ['6:40, “late train”', { sleepSeconds: 24_000, note: 'late train' }],
    [
      '48 bpm,67,8 kg, "67,8 kg on the old scale"',
      { restingHeartRate: 48, bodyMass: { value: 67.8, unit: 'kg' }, note: '67,8 kg on the old scale' },
    ],
    ['slept 6 hours 40 minutes', { sleepSeconds: 24_000 }],
    ['400 minutes', { sleepSeconds: 24_000 }],
    // 6 h 22.2 min.
    ['6.37 h', { sleepSeconds: 22_920 }],
    ['7 hr, 48 hr', { sleepSeconds: 25_200, restingHeartRate: 48 }],
    ['6:40 h sleep, 48 bpm resting', { sleepSeconds: 24_000, restingHeartRate: 48 }],
    ['7 h sleep 68 kg body mass', { sleepSeconds: 25_200, bodyMass: { value: 68, unit: 'kg' } }],
    ['legs sore 3', { soreness: [{ place: 'legs', level: 3 }] }],
    ['7 h 52 bpm', { sleepSeconds: 25_200, restingHeartRate: 52 }],
    ['mass 72 kilos', { bodyMass: { value: 72, unit: 'kg' } }],
    ['150 pounds', { bodyMass: { value: 150, unit: 'lb' } }],
    ['6:40 h,, 48 bpm,', { sleepSeconds: 24_000, restingHeartRate: 48 }],
    ['"slept 6h40, not more"', { note: 'slept 6h40, not more' }],
  ])('%s is read as people write it', (text, values) => {
    expect(readMorning(text, today)).toEqual({ date: null, values })
  })

  it.each([
    ['300 bpm', 'Invalid resting heart rate 300 bpm: it must be from 25 to 130. Example: 48 bpm.'],
    ['hr 300', 'Invalid resting heart rate 300 bpm: it must be from 25 to 130. Example: 48 bpm.'],
    ['2026-11-27 7 h', '2026-11-27 is in the future. Write 2026-11-26 or an earlier day.'],
    ['6:75 h', 'Invalid sleep "6:75 h": minutes go to 59. Example: 6:40 h.'],
    ['678 kg', 'Invalid body mass "678 kg": it must be from 25 to 300 kg. Example: 67.8 kg.'],
    ['2026-11-27, 48 bpm', '2026-11-27 is in the future. Write 2026-11-26 or an earlier day.'],
    ['2026-13-01', 'Invalid date "2026-13-01". Example: 2026-11-26.'],
    ['20 h', "20 h is too long for a night's sleep. Example: 6:40 h."],
    ['legs 11', '"legs 11": the scale goes from 0 to 10. Example: legs 3.'],
    ['legs 3, legs 4', '"legs" is given twice. Write it once.'],
    ['48 bpm, 50 bpm', 'There are two heart rates. Write one of them.'],
    ['48', '"48" has no unit. Write 48 h, 48 bpm or 48 kg.'],
    ['legs 3 weary', '"weary" is not understood.'],
    [
      'tired',
      '"tired" is not understood. A place takes a number from 0 to 10: legs 3; a note goes in quotes.',
    ],
  ])('answers %s with what to write', (text, problem) => {
    expect(readMorning(text, today)).toEqual({ problem: expect.stringContaining(problem) })
  })

  it('suggests the unit of the athlete for a number without one', () => {
    const problem = '"171" has no unit. Write 171 h, 171 bpm or 171 lb.'
    expect(readMorning('171', today, 'lb')).toEqual({ problem })
  })

  it.each([
    [
      'calf = 2; knee: 1',
      [
        ['calf', 2],
        ['knee', 1],
      ],
    ],
    [
      'calf 2/10, knee: 1',
      [
        ['calf', 2],
        ['knee', 1],
      ],
    ],
    [
      'hip flexor 4 and sore legs 3, sore throat 2 "late"',
      [
        ['hip flexor', 4],
        ['legs', 3],
        ['sore throat', 2],
      ],
    ],
    [
      'left ankle 3 pain, pain calf 2, "level 3 pain"',
      [
        ['left ankle pain', 3],
        ['pain calf', 2],
      ],
    ],
  ])('reads the places of %j', (text, places) => {
    expect(readMorning(text, today)).toMatchObject({
      values: { soreness: places.map(([place, level]) => ({ place, level })) },
    })
  })
})

describe('morningsOf', () => {
  const events = [
    typed('07:00', { sleepSeconds: 24_000, soreness: [{ place: 'legs', level: 3 }] }),
    typed('07:05', { bodyMass: { value: 67.8, unit: 'kg' }, soreness: [{ place: 'calf', level: 2 }] }),
    typed('07:06', { soreness: [{ place: 'legs', level: 1 }] }),
  ]

  it('lets a later entry correct only what it names', () => {
    const [morning] = morningsOf(events)
    expect(printMorning(morning ?? {})).toBe('6:40 h, 67.8 kg, legs 1, calf 2')
  })

  it('takes back the last entry, again and again', () => {
    const undone: MorningEvent = { type: 'undone', at: `${today}T07:10:00+01:00`, date: today }
    expect(printMorning(morningsOf([...events, undone])[0] ?? {})).toBe('6:40 h, 67.8 kg, legs 3, calf 2')
    expect(morningsOf([...events, undone, undone, undone, undone])).toEqual([])
  })

  it('keeps the entries of two machines and counts the later one', () => {
    const [here, there] = [
      [typed('07:00', { bodyMass: { value: 67.8, unit: 'kg' }, sleepSeconds: 24_000 })],
      [typed('06:50', { bodyMass: { value: 68.1, unit: 'kg' }, restingHeartRate: 48 })],
    ]
    const both = mergedEvents(here, there)
    expect(both).toEqual(mergedEvents(there, here))
    expect(both).toHaveLength(2)
    expect(printMorning(morningsOf(both)[0] ?? {})).toBe('6:40 h, 48 bpm, 67.8 kg')
    expect(mergedEvents(both, there)).toEqual(both)
  })

  it('keeps a correction that was typed after the clock had been turned back', () => {
    const mass = (value: number) => ({ bodyMass: { value, unit: 'kg' as const } })
    const here = [typed('07:00', mass(67.8)), typed('06:50', mass(68.1))]
    const there = [typed('06:55', { restingHeartRate: 48 })]
    for (const both of [mergedEvents(here, there), mergedEvents(there, here)])
      expect(printMorning(morningsOf(both)[0] ?? {})).toBe('48 bpm, 68.1 kg')
  })

  it('names what two machines typed for the same morning, but not what one of them corrected', () => {
    const mass = (value: number) => ({ bodyMass: { value, unit: 'kg' as const } })
    const known = typed('06:40', { ...mass(67.8), sleepSeconds: 24_000 })
    const here = [known, typed('07:00', { ...mass(68.1), soreness: [{ place: 'legs', level: 3 }] })]
    const same = typed('07:10', { soreness: [{ place: 'legs pain', level: 3 }], sleepSeconds: 25_200 })
    expect(differencesBetween(here, [known])).toEqual([])
    expect(differencesBetween(here, [known, same])).toEqual([])
    expect(differencesBetween(here, [known, same, typed('07:11', mass(68.4))])).toEqual([
      '2026-11-26: 68.1 kg here, 68.4 kg there',
    ])
    const undone: MorningEvent = { type: 'undone', at: `${today}T07:12:00+01:00`, date: today }
    expect(differencesBetween(here, [known, typed('07:11', mass(68.4)), undone])).toEqual([])
  })

  describe('of two machines of which one or both undo', () => {
    const undone = (time: string): MorningEvent => ({
      type: 'undone',
      at: `${today}T${time}:00+01:00`,
      date: today,
    })
    const [pulse, typo] = [
      typed('06:40', { restingHeartRate: 48 }),
      typed('06:50', { restingHeartRate: 84 }),
    ] as const
    const mass = typed('07:05', { bodyMass: { value: 71.5, unit: 'kg' } })
    const printed = (events: MorningEvent[]) => printMorning(morningsOf(events)[0] ?? {})

    it('lose the entry that both undid, and nothing else', () => {
      const [here, there] = [
        [pulse, typo, undone('07:00')],
        [pulse, typo, undone('07:10')],
      ]
      const both = mergedEvents(here, there)
      expect(printed(both)).toBe('48 bpm')
      for (const side of [here, there])
        for (const merged of [mergedEvents(both, side), mergedEvents(side, both)])
          expect(printed(merged)).toBe('48 bpm')
    })

    it('keep what was typed on the other machine before the undoing', () => {
      const here = [pulse, undone('07:10')]
      expect(printed(mergedEvents(here, [mass]))).toBe('71.5 kg')
      expect(printed(mergedEvents([mass], here))).toBe('71.5 kg')
      expect(mergedEvents(here, [pulse, mass])).toEqual([...here, mass])
    })

    it('keep an entry that was typed again in the second in which it was undone', () => {
      const here = [pulse, undone('06:40'), pulse]
      expect(printed(mergedEvents(here, [mass]))).toBe('48 bpm, 71.5 kg')
      expect(mergedEvents(here, here)).toEqual(here)
    })
  })
})
