import { describe, expect, it } from 'vitest'
import {
  differencesBetween,
  mergedEvents,
  morningsOf,
  printMorning,
  readMorning,
} from '../../src/plan/morning.ts'
import type { MorningEvent, MorningValues } from '../../src/plan/morningModel.ts'
import { expectGoldenTable } from '../goldenTable.ts'

const today = '2026-11-26'

function typed(at: string, values: MorningValues, date = today): MorningEvent {
  return { type: 'typed', at: `${today}T${at}:00+01:00`, date, values }
}

describe('readMorning', () => {
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
    const typed = '6:40 h, 48 bpm, 67.8 kg, legs 3, left calf 2, "late train, cold"'
    expect(readMorning(typed, today)).toEqual({ date: null, values })
    expect(printMorning(values as MorningValues)).toBe(typed)
    expect(readMorning('2026-11-25', today)).toEqual({ date: '2026-11-25', values: {} })
    expect(readMorning('', today)).toEqual({ date: null, values: {} })
  })

  // A mood and other numbers that are about no place of the body are a note, because a place may hurt.
  it('reads a morning as people write it, or answers with what to write', async () => {
    await expectGoldenTable(new URL('golden/mornings.txt', import.meta.url), (typed, unit) => {
      const reading = readMorning(typed, today, unit as 'kg' | 'lb')
      if ('problem' in reading) return [`! ${reading.problem}`]
      const printed = [reading.date, printMorning(reading.values)].filter(Boolean).join(', ')
      expect(readMorning(printed, today, unit as 'kg' | 'lb')).toEqual(reading)
      return [`= ${printed}`]
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

  it('keeps a note that must not be lost beside a later one that does not repeat it', () => {
    const noteAfter = (...notes: string[]) => {
      const events = notes.map((note, index) => typed(`07:0${index}`, { note }))
      return morningsOf(events, (note) => note.includes('chest'))[0]?.note
    }
    expect(noteAfter('late train', 'cold')).toBe('cold')
    expect(noteAfter('chest pain', 'cold')).toBe('chest pain; cold')
    expect(noteAfter('chest pain', 'cold, chest pain')).toBe('cold, chest pain')
    expect(
      printMorning(morningsOf([typed('07:00', { note: 'chest pain' }), ...events], () => true)[0] ?? {}),
    ).toBe('6:40 h, 67.8 kg, legs 1, calf 2, "chest pain"')
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
    const sorer = typed('07:11', {
      soreness: [
        { place: 'legs', level: 5 },
        { place: 'calf', level: 2 },
      ],
    })
    expect(differencesBetween(here, [known, sorer])).toEqual(['2026-11-26: legs 3 here, legs 5 there'])
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
