import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { firstStart } from '../../src/app/firstStart.ts'
import { foodsIn } from '../../src/app/foods.ts'
import { morningText } from '../../src/app/morning.ts'
import { signalWith } from '../../src/app/signal.ts'
import { defaultSettings, readSettings, setOwnBell } from '../../src/logbook/settings.ts'
import { readMorning } from '../../src/plan/morning.ts'
import { temporaryFolder } from '../logbook/temporaryFolder.ts'
import { atTime } from './appOnGlass.ts'

/* What the first start stores, and how signals sound. */

beforeEach(() => atTime('2026-11-26T06:40:00+01:00'))

function opened() {
  const logbook = join(temporaryFolder(), 'book')
  mkdirSync(logbook, { mode: 0o700 })
  let done = 0
  const shown = firstStart(
    logbook,
    () => {},
    () => {
      done += 1
    },
  )
  if (shown.screen !== 'firstStart') throw new Error(shown.screen)
  return { ...shown.given, settings: () => readSettings(logbook).settings, isDone: () => done }
}

describe('the first start', () => {
  test.each([
    ['', { distance: 'km', mass: 'kg' }],
    ['mi lb', { distance: 'mi', mass: 'lb' }],
    ['mi', { distance: 'mi', mass: 'lb' }],
    ['MI kg', { distance: 'mi', mass: 'kg' }],
    ['km lb', { distance: 'km', mass: 'lb' }],
    ['lb', { distance: 'km', mass: 'lb' }],
  ])('takes the units "%s"', (typed, units) => {
    const { takeUnits, settings } = opened()
    expect(takeUnits(typed)).toBeNull()
    expect(settings().units).toEqual(units)
  })

  test('refuses other units, and stores nothing of them', () => {
    const { takeUnits, settings } = opened()
    expect(takeUnits('miles')).toContain('"miles"')
    expect(takeUnits('mi lb kg')).not.toBeNull()
    expect(settings().units).toEqual(defaultSettings.units)
  })

  test('takes a body mass of 20 to 700, dated today; the last one of a day counts', () => {
    const { takeBodyMass, settings } = opened()
    expect(takeBodyMass('')).toBeNull()
    expect(settings().bodyMasses).toEqual([])
    for (const wrong of ['19 kg', '701', 'heavy']) expect(takeBodyMass(wrong), wrong).not.toBeNull()
    expect(settings().bodyMasses).toEqual([])
    for (const right of ['20', '700', '68']) expect(takeBodyMass(right), right).toBeNull()
    expect(settings().bodyMasses).toEqual([{ date: '2026-11-26', value: 68, unit: 'kg' }])
  })

  test('is not shown again once it is done', () => {
    const { done, settings, isDone } = opened()
    expect(settings().firstStartSeen).toBe(false)
    done()
    expect(settings().firstStartSeen).toBe(true)
    expect(isDone()).toBe(1)
  })
})

describe('the text of a morning', () => {
  test('names what is not typed, and nothing once all is', () => {
    const date = '2026-11-26'
    expect(morningText({ restingHeartRate: 48, sleepSeconds: 24_000 }, date)).toBe(
      '2026-11-26: 6:40 h, 48 bpm\nNot typed, none of it needed: body mass, soreness or pain by place, 0 to 10 (legs 3).\n',
    )
    const all = readMorning('6:40 h, 48 bpm, 67.8 kg, legs 3', date)
    if ('problem' in all) throw new Error(all.problem)
    expect(morningText(all.words, date)).toBe('2026-11-26: 6:40 h, 48 bpm, 67.8 kg, legs 3\n')
  })
})

describe('the foods of a logbook', () => {
  test('are the plain ones without a file, and none where the file cannot be read', () => {
    const logbook = temporaryFolder()
    expect(foodsIn(logbook).length).toBeGreaterThan(10)
    mkdirSync(join(logbook, 'foods.txt'))
    expect(foodsIn(logbook)).toEqual([])
  })
})

describe('a signal', () => {
  const heard = (
    settings: Partial<typeof defaultSettings>,
    signal: 'short' | 'long',
    env: Record<string, string> = {},
  ) => {
    const calls: string[] = []
    const terminal = { ring: () => void calls.push('bell'), notify: (text: string) => void calls.push(text) }
    signalWith({ ...defaultSettings, ...settings }, terminal, env)(signal)
    return calls
  }

  test('rings the bell if it is on, short ones too', () => {
    expect(heard({ bell: 'on' }, 'short')).toEqual(['bell'])
    expect(heard({ bell: 'off' }, 'long')).toEqual([])
  })

  test('is a desktop notification only if that is enabled, and only the long one', () => {
    expect(heard({ bell: 'off', notifications: true }, 'long')).toEqual(['go'])
    expect(heard({ bell: 'off', notifications: true }, 'short')).toEqual([])
    expect(heard({ bell: 'on' }, 'long')).toEqual(['bell'])
  })

  test('continues without a command that cannot be started', () => {
    const env = { XDG_CONFIG_HOME: temporaryFolder() }
    expect(setOwnBell(['no-such-command-of-anyone'], env)).toBe(true)
    expect(heard({ bell: ['no-such-command-of-anyone'] }, 'long', env)).toEqual([])
  })

  test('does not run a command that only the logbook names', () => {
    const env = { XDG_CONFIG_HOME: temporaryFolder() }
    setOwnBell(['another-command'], env)
    expect(heard({ bell: ['no-such-command-of-anyone'] }, 'long', env)).toEqual(['bell'])
    expect(heard({ bell: ['no-such-command-of-anyone'] }, 'long', { XDG_CONFIG_HOME: '/nowhere' })).toEqual([
      'bell',
    ])
  })
})
