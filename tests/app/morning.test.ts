import { beforeEach, describe, expect, test } from 'vitest'
import { morningOn, morningText, takeMorning } from '../../src/app/morning.ts'
import { changeSettings } from '../../src/logbook/settings.ts'
import { readMorning } from '../../src/plan/morning.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { atTime } from './appOnGlass.ts'

beforeEach(() => atTime('2026-11-26T06:40:00+01:00'))

describe('the text of a morning', () => {
  test('names what is not typed, and nothing once all is', () => {
    const date = '2026-11-26'
    expect(morningText({ restingHeartRate: 48, sleepSeconds: 24_000 }, date, null, [])).toBe(
      '2026-11-26: 6:40 h, 48 bpm\nOptional, not typed: body mass, soreness or pain by place, 0 to 10 (legs 3).\n',
    )
    const all = readMorning('6:40 h, 48 bpm, 67.8 kg, legs 3', date)
    if ('problem' in all) throw new Error(all.problem)
    expect(morningText(all.values, date, null, [])).toBe('2026-11-26: 6:40 h, 48 bpm, 67.8 kg, legs 3\n')
    expect(morningText(undefined, date, '67.8 kg', [])).toBe(
      '2026-11-26: nothing typed yet\nOptional, not typed: sleep (6:40 h), resting heart rate (48 bpm), body mass (67.8 kg), soreness or pain by place, 0 to 10 (legs 3).\n',
    )
  })
})

describe('a line of the morning', () => {
  test('is stored for today or for the date in it, in the mass unit of the settings, and undone from the last one on', () => {
    const logbook = temporaryFolder()
    changeSettings(logbook, (settings) => ({ ...settings, units: { distance: 'km', mass: 'lb' } }))
    expect(takeMorning(logbook, ' Undo ')).toBe('nothing was typed today')
    expect(takeMorning(logbook, '2026-11-25, 50 bpm')).toBeNull()
    expect(takeMorning(logbook, 'undo')).toBeNull()
    expect(takeMorning(logbook, 'undo')).toBe('nothing was typed today')
    expect(takeMorning(logbook, '2026-11-25, 50 bpm')).toBeNull()
    expect(takeMorning(logbook, '48 bpm, weight 150')).toBeNull()
    expect(takeMorning(logbook, '47 bpm')).toBeNull()
    expect(morningOn(logbook, '2026-11-25').morning).toEqual({ date: '2026-11-25', restingHeartRate: 50 })
    expect(morningOn(logbook, '2026-11-26').morning).toMatchObject({
      restingHeartRate: 47,
      bodyMass: { value: 150, unit: 'lb' },
    })
    expect(takeMorning(logbook, ' Undo ')).toBeNull()
    expect(morningOn(logbook, '2026-11-26').morning?.restingHeartRate).toBe(48)
    expect(morningOn(logbook, '2026-11-27').morning).toBeUndefined()
  })

  test('is undone in January, too, after a line for December, which is in the file of another year', () => {
    atTime('2027-01-01T06:40:00+01:00')
    const logbook = temporaryFolder()
    expect(takeMorning(logbook, '48 bpm')).toBeNull()
    atTime('2027-01-01T06:41:00+01:00')
    expect(takeMorning(logbook, '2026-12-31, 50 bpm')).toBeNull()
    expect(takeMorning(logbook, 'undo')).toBeNull()
    expect(morningOn(logbook, '2026-12-31').morning).toBeUndefined()
    expect(morningOn(logbook, '2027-01-01').morning?.restingHeartRate).toBe(48)
  })

  test('is refused if it holds a wrong value or only a date, and stores nothing', () => {
    const logbook = temporaryFolder()
    expect(takeMorning(logbook, '300 bpm')).toMatch(/^Invalid resting heart rate 300 bpm/)
    expect(takeMorning(logbook, '2026-11-26')).toBe(
      'The line holds nothing but a date. Example: 6:40 h, 48 bpm, 67.8 kg.',
    )
    expect(morningOn(logbook, '2026-11-26').morning).toBeUndefined()
  })

  test('shows the last body mass up to its day as an example', () => {
    const logbook = temporaryFolder()
    expect(morningOn(logbook, '2026-11-26').text()).toContain('body mass, soreness')
    const bodyMasses = [
      { date: '2026-11-20', value: 67.8, unit: 'kg' as const },
      { date: '2026-11-26', value: 150, unit: 'lb' as const },
    ]
    changeSettings(logbook, (settings) => ({ ...settings, bodyMasses }))
    expect(morningOn(logbook, '2026-11-19').text()).toContain('body mass, soreness')
    expect(morningOn(logbook, '2026-11-25').text()).toContain('body mass (67.8 kg)')
    expect(morningOn(logbook, '2026-11-26').text()).toContain('body mass (150 lb)')
    expect(takeMorning(logbook, '48 bpm')).toBeNull()
    expect(morningOn(logbook, '2026-11-26').text()).toMatch(/^2026-11-26: 48 bpm\n/)
  })
})
