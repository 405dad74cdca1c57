import { existsSync, mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { firstStart } from '../../src/app/firstStart.ts'
import type { Screen, Screens } from '../../src/app/screens.ts'
import { samplesFolder } from '../../src/commands/open.ts'
import { defaultSettings, readSettings } from '../../src/logbook/settings.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { atTime } from './appOnGlass.ts'
import { propsOf } from './propsOf.ts'

/* What the first start stores. */

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
    ['mi lb', { distance: 'mi', mass: 'lb' }],
    ['mi', { distance: 'mi', mass: 'lb' }],
    ['MI kg', { distance: 'mi', mass: 'kg' }],
    ['km lb', { distance: 'km', mass: 'lb' }],
    ['lb', { distance: 'km', mass: 'lb' }],
    ['km', { distance: 'km', mass: 'kg' }],
    ['kg', { distance: 'km', mass: 'kg' }],
    [' Miles ', { distance: 'mi', mass: 'lb' }],
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
    expect(asked().take(' Stone ')).toBe('units are km or mi, and kg or lb; "Stone" is neither')
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
