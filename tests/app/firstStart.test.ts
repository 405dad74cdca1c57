import childProcess from 'node:child_process'
import { existsSync, mkdirSync, writeFileSync } from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import { join } from 'node:path'
import { beforeEach, describe, expect, onTestFinished, test, vi } from 'vitest'
import { ringerOf } from '../../src/app/app.ts'
import { firstStart } from '../../src/app/firstStart.ts'
import { morningOn, morningText, takeMorning } from '../../src/app/morning.ts'
import type { Screen, Screens } from '../../src/app/screens.ts'
import { samplesFolder } from '../../src/commands/open.ts'
import { attempt } from '../../src/logbook/errors.ts'
import { changeSettings, defaultSettings, readSettings, setOwnBell } from '../../src/logbook/settings.ts'
import { readMorning } from '../../src/plan/morning.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { atTime } from './appOnGlass.ts'
import { propsOf } from './propsOf.ts'

/* What the first start stores, and how signals sound. */

beforeEach(() => atTime('2026-11-26T06:40:00+01:00'))

/** The first start on a logbook: its screens, and what the keys of the one that is shown do. */
function opened(logbook = join(temporaryFolder(), 'book')) {
  let shown: Screen | null = null
  const did: string[] = []
  if (!existsSync(logbook)) mkdirSync(logbook, { mode: 0o700 })
  const screens = {
    logbook: { directory: logbook },
    show: (next: Screen) => {
      shown = next
    },
    ring: () => void did.push('ring'),
    leave: () => void did.push('quit'),
  }
  firstStart(screens as unknown as Screens, () => void did.push('done'))
  const text = () => propsOf('text', shown)
  const asked = () => propsOf('ask', shown)
  const enter = () =>
    text()
      .keys.find(({ key }) => key === 'Enter')
      ?.acts.enter?.()
  return { text, asked, enter, did, settings: () => readSettings(logbook).settings }
}

/** Where the units are asked for, and where the body mass is. */
function atUnits(logbook?: string) {
  const start = opened(logbook)
  start.enter()
  return start
}
function atBodyMass(logbook?: string) {
  const start = atUnits(logbook)
  start.asked().leave.act()
  return start
}

describe('the first start', () => {
  test.each([
    ['', { distance: 'km', mass: 'kg' }],
    ['mi lb', { distance: 'mi', mass: 'lb' }],
    ['mi', { distance: 'mi', mass: 'lb' }],
    ['MI kg', { distance: 'mi', mass: 'kg' }],
    ['km lb', { distance: 'km', mass: 'lb' }],
    ['lb', { distance: 'km', mass: 'lb' }],
    ['km', { distance: 'km', mass: 'kg' }],
    ['kg', { distance: 'km', mass: 'kg' }],
    [' MILB ', { distance: 'mi', mass: 'lb' }],
    ['mi   kg', { distance: 'mi', mass: 'kg' }],
  ])('takes the units "%s", and then asks for the body mass', (typed, units) => {
    const { asked, settings } = atUnits()
    expect(asked().label).toBe('units')
    expect(asked().take(typed)).toBeNull()
    expect(settings().units).toEqual(units)
    expect(asked().label).toBe('body mass')
  })

  test('refuses other units, stores nothing of them, and asks again', () => {
    const { asked, settings } = atUnits()
    expect(asked().take(' Miles ')).toBe('units are km or mi, and kg or lb; "miles" is neither')
    for (const wrong of ['mi lb kg', 'xkm', 'kg x', 'mi x lb', 'kmi'])
      expect(asked().take(wrong), wrong).not.toBeNull()
    expect(settings().units).toEqual(defaultSettings.units)
    expect(asked().label).toBe('units')
  })

  test('takes a body mass as the setting does, dated today; the last one of a day counts', () => {
    const { asked, settings, did } = atBodyMass()
    for (const wrong of ['19 kg', '401', 'heavy'])
      expect(asked().take(wrong), wrong).toMatch(/^Invalid body-mass ".+"\. Write a mass from 20 to 400 kg/)
    expect(settings().bodyMasses).toEqual([])
    expect(did).toEqual([])
    for (const right of ['20', '400', ' 68 ']) expect(asked().take(right), right).toBeNull()
    expect(settings().bodyMasses).toEqual([{ date: '2026-11-26', value: 68, unit: 'kg' }])
  })

  test('takes a body mass without a unit in the one that was typed before', () => {
    const { asked, settings } = atUnits()
    asked().take('mi lb')
    expect(asked().placeholder).toBe('Enter: skip, or type 150 lb')
    expect(asked().take('150')).toBeNull()
    expect(settings().bodyMasses).toEqual([{ date: '2026-11-26', value: 150, unit: 'lb' }])
  })

  test('keeps the body masses of other days', () => {
    const { asked, settings } = atBodyMass()
    asked().take('67')
    atTime('2026-11-27T06:40:00+01:00')
    asked().take('150 lb')
    expect(settings().bodyMasses).toEqual([
      { date: '2026-11-26', value: 67, unit: 'kg' },
      { date: '2026-11-27', value: 150, unit: 'lb' },
    ])
  })

  test('says why something cannot be stored, and goes on all the same', () => {
    const file = join(temporaryFolder(), 'file')
    writeFileSync(file, '')
    expect(atUnits(file).asked().take('mi')).toMatch(/\S/)
    const { asked, did } = atBodyMass(file)
    expect(asked().take('68')).toMatch(/\S/)
    asked().leave.act()
    expect(did).toEqual(['done'])
    expect(
      attempt(() => {
        throw 'a text'
      }),
    ).toBe('a text')
  })

  test('is not shown again once the body mass is typed or skipped', () => {
    for (const end of [
      ({ asked }: ReturnType<typeof opened>) => void asked().take('68'),
      ({ asked }: ReturnType<typeof opened>) => asked().leave.act(),
    ]) {
      const start = atBodyMass()
      expect(start.settings().firstStartSeen).toBe(false)
      end(start)
      expect(start.settings().firstStartSeen).toBe(true)
      expect(start.did).toEqual(['done'])
    }
  })

  test('sounds the signal with t, and is left by q', () => {
    const { text, did } = opened()
    expect(
      text()
        .keys.find(({ key }) => key === 't')
        ?.acts.t?.(),
    ).toBe(' go ')
    text().leave.act()
    expect(did).toEqual(['ring', 'quit'])
  })

  test('finds the sample days that come with the program', () => {
    expect(samplesFolder()).toMatch(/[\\/]sample-sessions$/)
  })
})

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
  test('is stored for today or for the date in it, in the mass unit of the settings, and undone from the last of today', () => {
    const logbook = temporaryFolder()
    changeSettings(logbook, (settings) => ({ ...settings, units: { distance: 'km', mass: 'lb' } }))
    expect(takeMorning(logbook, ' Undo ')).toBe('nothing was typed for today')
    expect(takeMorning(logbook, '2026-11-25, 50 bpm')).toBeNull()
    expect(takeMorning(logbook, 'undo')).toBe('nothing was typed for today')
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

describe('a signal', () => {
  const heard = (
    settings: Partial<typeof defaultSettings>,
    signal: 'short' | 'long',
    env: Record<string, string> = {},
  ) => {
    const calls: string[] = []
    const terminal = { ring: () => void calls.push('bell'), notify: (text: string) => void calls.push(text) }
    ringerOf(() => ({ ...defaultSettings, ...settings }), terminal, env)(signal)
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

  test("runs the user's own command with the kind of the signal as its last word, without a shell", () => {
    const env = { XDG_CONFIG_HOME: temporaryFolder() }
    const bell = ['ding', '--loud']
    setOwnBell(bell, env)
    const child = { on: vi.fn(), unref: vi.fn() }
    const spawn = vi.spyOn(childProcess, 'spawn').mockReturnValue(child as never)
    syncBuiltinESMExports()
    onTestFinished(() => {
      spawn.mockRestore()
      syncBuiltinESMExports()
    })
    expect(heard({ bell }, 'short', env)).toEqual([])
    expect(spawn.mock.calls).toEqual([
      ['ding', ['--loud', 'short'], { stdio: 'ignore', detached: true, windowsHide: true }],
    ])
    expect(child.unref).toHaveBeenCalledOnce()
    const [[event, failed]] = child.on.mock.calls as [[string, () => void]]
    expect(event).toBe('error')
    expect(failed).not.toThrow()
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
