import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { describe, expect, it } from 'vitest'
import { LogbookError } from '../../src/logbook/errors.ts'
import { thisMachine } from '../../src/logbook/machine.ts'
import { addMornings } from '../../src/logbook/mornings.ts'
import {
  bodyMassOn,
  changeSettings,
  defaultSettings,
  foreignBellText,
  isOwnBell,
  readSettings,
  setOwnBell,
  settingsFile,
  settingsKind,
} from '../../src/logbook/settings.ts'
import { settingKeys, settingsWith } from '../../src/logbook/settingsKeys.ts'
import { loadStored, repairUnderLock } from '../../src/logbook/storedFile.ts'
import { expectPrivate } from '../expectPrivate.ts'
import fc, { anyCharacter, times } from '../fastCheck.ts'
import { onWindows } from '../onWindows.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { failing, insteadOf } from './otherCalls.ts'

const today = '2026-11-26'
const repaired = (folder: string) => repairUnderLock(folder, settingsFile, settingsKind, thisMachine())
const isSealed = (folder: string) => loadStored(folder, settingsFile, settingsKind).isSealed

describe('settings', () => {
  it('have their defaults if they were never set, and no file is created for them', () => {
    const folder = join(temporaryFolder(), 'logbook')
    expect(readSettings(folder)).toEqual({ settings: defaultSettings, damages: [] })
    expect(existsSync(folder)).toBe(false)
  })

  it('are private to the user and available to the next reader', () => {
    const folder = join(temporaryFolder(), 'logbook')
    changeSettings(folder, (settings) => settingsWith(settings, 'units', 'mi lb', today))
    expect(readSettings(folder).settings.units).toEqual({ distance: 'mi', mass: 'lb' })
    expectPrivate(join(folder, 'settings.json'))
    expect(readdirSync(folder)).toEqual(['settings.json'])
  })

  it.each(settingKeys.map((setting) => [setting.key, setting] as const))(
    '%s can be read back from its printed value',
    (key, setting) => {
      const changed = {
        ...defaultSettings,
        rotation: ['legs', 'push'],
        bell: ['play', 'bell.oga'],
        syncRemote: 'ssh://garage/book',
      }
      const settings = settingsWith(changed, 'body-mass', '68 kg on 2026-10-01, 150 lb on 2026-11-01', today)
      expect(settingsWith(settings, key, setting.print(settings), today)).toEqual(settings)
    },
  )

  it.each([
    ['units', 'stone', 'Write km or mi, kg or lb, or one of each.'],
    [
      'body-mass',
      '680 kg',
      'Write a mass from 20 to 400 kg, for today or with its date: 68 kg on 2026-11-26, or none.',
    ],
    ['bar-kg', '45 lb', 'Write a mass in kg, as in 20 kg.'],
    ['bar-lb', '0', 'Write a mass in lb, as in 45 lb.'],
    ['dumbbell-step-kg', 'none', 'Write a mass in kg, as in 2 kg.'],
    ['collar-kg', 'heavy', 'Write a mass in kg, as in 2.5 kg, or none.'],
    ['plates-kg', '4 x 25, 4 x 25', 'Write pairs and mass as in 4 x 25, 2 x 2.5, each mass once, or none.'],
    ['plates-lb', '0 x 45', 'Write pairs and mass as in 4 x 45, 2 x 2.5, each mass once, or none.'],
    ['formula', 'mine', 'Write median, epley, brzycki, lander, lombardi, mayhew, oconner or wathan.'],
    ['hr-max', '90', 'Write beats a minute from 100 to 240, or none.'],
    ['bell', '[]', 'Write on, off, or a command and its arguments as JSON: ["play", "bell.oga"].'],
    ['seconds-per-repetition', '0', 'Write seconds from 0.5 to 60, as in 4.'],
    ['advice', 'maybe', 'Write on or off.'],
    ['clock', 'round', 'Write blocks or plain.'],
    ['rotation', 'legs,,pull', 'Write words with commas between them, as in legs, push, pull, or none.'],
    ['sync-remote', '--upload-pack=x', 'Write an address that git knows, or none.'],
  ])('%s refuses %s and says what to write', (key, text, write) => {
    const message = `Invalid ${key} "${text}". ${write}`
    expect(() => settingsWith(defaultSettings, key, text, today)).toThrow(message)
  })

  it.each<[string, string, Partial<typeof defaultSettings>]>([
    ['units', 'MI, lb', { units: { distance: 'mi', mass: 'lb' } }],
    ['units', 'pounds km', { units: { distance: 'km', mass: 'lb' } }],
    ['units', 'miles', { units: { distance: 'mi', mass: 'kg' } }],
    ['body-mass', '20 kg', { bodyMasses: [{ date: today, value: 20, unit: 'kg' }] }],
    ['body-mass', '400 kg on 2026-10-01', { bodyMasses: [{ date: '2026-10-01', value: 400, unit: 'kg' }] }],
    ['body-mass', '68,5 kg', { bodyMasses: [{ date: today, value: 68.5, unit: 'kg' }] }],
    ['body-mass', 'None', { bodyMasses: [] }],
    ['bar-kg', '100 kg', { bar: { kg: 100, lb: 45 } }],
    ['bar-lb', '35', { bar: { kg: 20, lb: 35 } }],
    ['dumbbell-step-kg', '2 kg', { dumbbellStep: { kg: 2, lb: 5 } }],
    ['dumbbell-step-lb', '2.5', { dumbbellStep: { kg: 2.5, lb: 2.5 } }],
    ['collar-kg', '2.5', { collar: { kg: 2.5, lb: 0 } }],
    ['collar-kg', '0', { collar: { kg: 0, lb: 0 } }],
    ['collar-kg', '0.00 kg', { collar: { kg: 0, lb: 0 } }],
    ['collar-lb', '0lb', { collar: { kg: 0, lb: 0 } }],
    ['collar-lb', 'none', { collar: { kg: 0, lb: 0 } }],
    [
      'plates-kg',
      '1 x 2.5, 12×20',
      {
        plates: {
          ...defaultSettings.plates,
          kg: [
            { pairs: 12, mass: 20 },
            { pairs: 1, mass: 2.5 },
          ],
        },
      },
    ],
    ['plates-kg', 'NONE', { plates: { ...defaultSettings.plates, kg: [] } }],
    ['formula', 'Epley', { formula: 'epley' }],
    ['hr-max', '100', { hrMax: 100 }],
    ['hr-max', '240', { hrMax: 240 }],
    ['hr-max', 'None', { hrMax: null }],
    ['bell', 'OFF', { bell: 'off' }],
    ['bell', 'On', { bell: 'on' }],
    ['bell', '["play", ""]', { bell: ['play', ''] }],
    ['seconds-per-repetition', '0.5', { secondsPerRepetition: 0.5 }],
    ['seconds-per-repetition', '60 s', { secondsPerRepetition: 60 }],
    ['advice', 'OFF', { advice: false }],
    ['screen-reader', 'on', { screenReader: true }],
    ['rotation', ' legs ,push', { rotation: ['legs', 'push'] }],
    ['rotation', 'legs / push / pull', { rotation: ['legs', 'push', 'pull'] }],
    ['rotation', 'None', { rotation: [] }],
    ['rotation', Array(30).fill('a').join(), { rotation: Array(30).fill('a') }],
    ['on-bar', ' thruster, good morning', { onBar: ['thruster', 'good morning'] }],
    ['off-bar', Array(100).fill('a').join(), { offBar: Array(100).fill('a') }],
    ['sync-remote', 'ssh://garage/book', { syncRemote: 'ssh://garage/book' }],
    ['sync-remote', 'None', { syncRemote: null }],
  ])('%s takes %s', (key, text, changed) => {
    expect(settingsWith(defaultSettings, key, text, today)).toEqual({ ...defaultSettings, ...changed })
  })

  it('sync-remote takes a folder as seen from where it is typed, because git runs in the logbook', () => {
    const folder = temporaryFolder()
    const typed = relative(process.cwd(), folder)
    expect(settingsWith(defaultSettings, 'sync-remote', typed, today).syncRemote).toBe(folder)
  })

  it.each([
    ['units', 'xkm kg'],
    ['units', 'km mi'],
    ['units', 'm kg'],
    ['body-mass', '19.9 kg'],
    ['body-mass', '400.1 kg'],
    ['body-mass', '68 kg on 2026-02-30'],
    ['bar-kg', '500.5 kg'],
    ['bar-kg', '0'],
    ['bar-kg', 'none'],
    ['collar-kg', '0 lbs'],
    ['collar-kg', '10'.repeat(2)],
    ['plates-kg', '100 x 20'],
    ['plates-kg', 'a 2 x 20'],
    ['plates-kg', '2 x 20 lb'],
    ['plates-kg', '2 x 501'],
    ['plates-kg', '4 x 20, 2 x'],
    ['plates-kg', '99 x 0.001, 99 x 0.1, 99 x 10'],
    ['hr-max', '99'],
    ['hr-max', '099'],
    ['hr-max', '241'],
    ['hr-max', '1500'],
    ['bell', '"play"'],
    ['bell', '["play", 7]'],
    ['bell', '["play", "a\\u0007"]'],
    ['bell', '[""]'],
    ['seconds-per-repetition', '0.4'],
    ['seconds-per-repetition', '60.5'],
    ['seconds-per-repetition', '4 min'],
    ['seconds-per-repetition', 'a4'],
    ['rotation', 'a\u0007'],
    ['rotation', Array(31).fill('a').join()],
    ['on-bar', 'row,'],
    ['on-bar', 'a\u0007'],
    ['on-bar', Array(101).fill('a').join()],
    ['sync-remote', ''],
    ['sync-remote', 'a\u0007'],
  ])('%s refuses %j', (key, text) => {
    expect(() => settingsWith(defaultSettings, key, text, today)).toThrow(`Invalid ${key} `)
  })

  it('print what is not set as none', () => {
    const printed = Object.fromEntries(settingKeys.map(({ key, print }) => [key, print(defaultSettings)]))
    expect(printed).toMatchObject({
      'body-mass': 'none',
      'hr-max': 'none',
      rotation: 'none',
      'on-bar': 'none',
    })
    expect(printed).toMatchObject({ 'sync-remote': 'none', advice: 'on', notifications: 'off', bell: 'on' })
    expect(
      settingKeys
        .find(({ key }) => key === 'plates-kg')
        ?.print({ ...defaultSettings, plates: { kg: [], lb: [] } }),
    ).toBe('none')
  })

  it('shorten a long value in their message', () => {
    expect(() => settingsWith(defaultSettings, 'advice', 'a'.repeat(60), today)).toThrow(
      `"${'a'.repeat(60)}"`,
    )
    expect(() => settingsWith(defaultSettings, 'advice', 'a'.repeat(61), today)).toThrow(
      `"${'a'.repeat(60)}…"`,
    )
  })

  it('replace the body mass of the same day, and keep them in order of dates', () => {
    const before = settingsWith(defaultSettings, 'body-mass', '70 kg on 2026-11-20, 68 kg', today)
    const after = settingsWith(before, 'body-mass', '69 kg on 2026-11-20, 71 kg on 2026-11-01', today)
    expect(after.bodyMasses.map(({ date, value }) => [date, value])).toEqual([
      ['2026-11-01', 71],
      ['2026-11-20', 69],
      ['2026-11-26', 68],
    ])
    expect(bodyMassOn(after, '2026-11-20')?.value).toBe(69)
  })

  it('refuse any text with a proper message', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...settingKeys.map((setting) => setting.key)),
        fc.string({ unit: anyCharacter }),
        (key, text) => {
          try {
            settingsWith(defaultSettings, key, text, today)
          } catch (error) {
            expect((error as Error).name).toBe('LogbookError')
            expect((error as Error).message).not.toMatch(
              /[\u0000-\u0008\u000a-\u001f\u007f-\u009f\u202a-\u202e]/,
            )
          }
        },
      ),
      times(150),
    )
  })

  it('give the body mass that applied on a day', () => {
    const settings = settingsWith(
      defaultSettings,
      'body-mass',
      '70 kg on 2026-11-01, 68 kg on 2026-11-20',
      today,
    )
    expect(bodyMassOn(settings, '2026-10-31')).toBeNull()
    expect(bodyMassOn(settings, '2026-11-19')?.value).toBe(70)
    expect(bodyMassOn(settings, '2026-11-26')?.value).toBe(68)
  })
})

describe('a damaged settings file', () => {
  function damaged(text: string, backup?: string): string {
    const folder = temporaryFolder()
    writeFileSync(join(folder, 'settings.json'), text)
    if (backup !== undefined) writeFileSync(join(folder, 'settings.json.bak'), backup)
    return folder
  }

  const rest = '; "pausebook verify --repair" keeps the rest'

  it.each([
    ['', 'The file is empty.', rest],
    ['null', 'The file holds null instead of settings.', rest],
    ['{"format": 1, "adv', 'The file breaks off before its end.', rest],
    ['{"format": 2}', 'The file has format 2, written by a newer program; this one reads format 1.', ''],
    [
      '{"format": 1, "equation": "mine"}',
      'The file is wrong: formula is not one of median, epley, brzycki, lander, lombardi, mayhew, oconner, wathan.',
      rest,
    ],
    [
      '{"format": 1, "__proto__": {"advice": false}}',
      'The file is wrong: it has a field that does not belong there, "__proto__".',
      rest,
    ],
  ])('%j is reported', (text, wrong, repair) => {
    const done = `Nothing was changed; defaults are used for what cannot be read${repair}.`
    expect(readSettings(damaged(text))).toEqual({
      settings: defaultSettings,
      damages: [{ file: 'settings.json', wrong, done }],
    })
  })

  it.each([
    ['"wathan"', 'median'],
    ['"epley"', 'epley'],
  ])('is read with the equation of an earlier version, %s, as the formula %s', (equation, formula) => {
    const reading = readSettings(damaged(`{"format": 1, "equation": ${equation}}`))
    expect(reading).toMatchObject({ settings: { formula }, damages: [] })
  })

  it('loses only the invalid value', () => {
    const text = '{"format": 1, "advice": false, "clock": "round", "onBar": ["thruster"]}'
    const { settings } = readSettings(damaged(text))
    expect(settings).toEqual({ ...defaultSettings, advice: false, onBar: ['thruster'] })
  })

  it('is left as it is when something else is set, until it is repaired', () => {
    const folder = damaged('{"format": 1, "adv')
    const change = () => changeSettings(folder, (settings) => ({ ...settings, advice: false }))
    expect(change).toThrow('"pausebook verify --repair" keeps the rest')
    expect(readdirSync(folder)).toEqual(['settings.json'])
    expect(readFileSync(join(folder, 'settings.json'), 'utf8')).toBe('{"format": 1, "adv')
    repaired(folder)
    expect(readFileSync(join(folder, 'settings.json.damaged-1'), 'utf8')).toBe('{"format": 1, "adv')
    expect(change().advice).toBe(false)
  })

  it('is left alone if a newer program wrote it', () => {
    const folder = damaged('{"format": 2}')
    expect(() => changeSettings(folder, (settings) => settings)).toThrow(
      `${join(folder, 'settings.json')}: The file has format 2, written by a newer program; this one reads format 1. Nothing was changed; defaults are used for what cannot be read. Correct it or move it away.`,
    )
    expect(readFileSync(join(folder, 'settings.json'), 'utf8')).toBe('{"format": 2}')
  })

  it('may be a folder, which is left alone', () => {
    const folder = temporaryFolder()
    mkdirSync(join(folder, 'settings.json'))
    expect(readSettings(folder).damages[0]?.wrong).toBe('The file is a folder.')
    expect(() => changeSettings(folder, (settings) => settings)).toThrow('The file is a folder.')
  })

  it('is read from its previous copy if it is gone, empty or no text', () => {
    const backup = JSON.stringify({ format: 1, advice: false })
    const gone = temporaryFolder()
    writeFileSync(join(gone, 'settings.json.bak'), backup)
    expect(readSettings(gone)).toEqual({
      settings: { ...defaultSettings, advice: false },
      damages: [
        {
          file: 'settings.json',
          wrong: 'The file is gone.',
          done: 'Nothing was changed; the previous copy (settings.json.bak) is used instead. "pausebook verify --repair" restores it.',
        },
      ],
    })
    const folder = damaged('', backup)
    for (const [text, wrong] of [
      ['', 'The file is empty.'],
      [Buffer.from([0xff, 0xfe]), 'The file is not UTF-8 text.'],
    ] as const) {
      writeFileSync(join(folder, 'settings.json'), text)
      expect(readSettings(folder)).toMatchObject({ settings: { advice: false }, damages: [{ wrong }] })
    }
    const defaultsUsed = (why: string) =>
      `Nothing was changed; the previous copy (settings.json.bak) is damaged too: it is ${why}; defaults are used for what cannot be read${rest}.`
    writeFileSync(join(folder, 'settings.json.bak'), '{"format": 1, "advice": 7}')
    expect(readSettings(folder).damages[0]?.done).toBe(defaultsUsed('wrong: advice is not true or false'))
    rmSync(join(folder, 'settings.json.bak'))
    mkdirSync(join(folder, 'settings.json.bak'))
    expect(readSettings(folder).damages[0]?.done).toBe(defaultsUsed('a folder'))
  })

  it('is not replaced by defaults while a newer program can read its previous copy', () => {
    const folder = temporaryFolder()
    writeFileSync(join(folder, 'settings.json.bak'), '{"format": 2}')
    const done =
      'Nothing was changed; the previous copy (settings.json.bak) has format 2, written by a newer program; this one reads format 1; defaults are used for what cannot be read.'
    expect(repaired(folder)?.done).toBe(done)
    expect(() => changeSettings(folder, (settings) => settings)).toThrow(done)
    expect(readdirSync(folder)).toEqual(['settings.json.bak'])
  })

  it('has the usual bar and plates instead of ones of which no load can be made', () => {
    const text = JSON.stringify({ format: 1, advice: false, bar: { kg: 20, lb: -1 } })
    const { settings, damages } = readSettings(damaged(text))
    expect(settings).toEqual({ ...defaultSettings, advice: false })
    expect(damages[0]?.wrong).toMatch(/^The file /)
    const kg = [{ mass: 0.0001, pairs: 1 }]
    const tiny = JSON.stringify({ format: 1, advice: false, plates: { ...defaultSettings.plates, kg } })
    expect(readSettings(damaged(tiny))).toMatchObject({
      settings: { ...defaultSettings, advice: false },
      damages: [{ wrong: 'The file has a bar and plates in kg from which no load can be made.' }],
    })
  })

  it.each(['{"format": 2}', '{"format": 1}'])('is not repaired if it is newer or sound: %s', (text) => {
    const folder = damaged(text)
    expect(repaired(folder)).toEqual(readSettings(folder).damages[0] ?? null)
    expect(readdirSync(folder)).toEqual(['settings.json'])
    expect(readFileSync(join(folder, 'settings.json'), 'utf8')).toBe(text)
  })

  it('says whether it has its checksum', () => {
    expect(isSealed(damaged('{"format": 1}'))).toBe(false)
    expect(isSealed(temporaryFolder())).toBe(true)
    expect(isSealed(damaged(''))).toBe(true)
    expect(isSealed(damaged('{"format": 1, "advice": 7}'))).toBe(true)
    const unreadable = temporaryFolder()
    mkdirSync(join(unreadable, 'settings.json'))
    expect(isSealed(unreadable)).toBe(true)
    const folder = temporaryFolder()
    changeSettings(folder, (settings) => settings)
    expect(isSealed(folder)).toBe(true)
    writeFileSync(
      join(folder, 'settings.json'),
      readFileSync(join(folder, 'settings.json'), 'utf8').replace('true', 'false'),
    )
    expect(readSettings(folder).damages[0]?.wrong).toBe(
      'The file does not match its checksum, so a disk or another program changed it (if you did, take its checksum line out).',
    )
  })

  it('is repaired with what could be read', () => {
    const folder = damaged('{"format": 1, "advice": false, "clock": "round"}')
    expect(repaired(folder)?.done).toBe(
      'Moved to settings.json.damaged-1; restored the readable settings, else the defaults.',
    )
    expect(readSettings(folder)).toEqual({
      settings: { ...defaultSettings, advice: false },
      damages: [],
    })
  })
})

describe('settings that cannot be saved', () => {
  it('say why, and that they are as before', () => {
    const file = join(temporaryFolder(), 'file')
    writeFileSync(file, '')
    const change = () => changeSettings(file, (settings) => ({ ...settings, advice: false }))
    expect(change).toThrow(
      /file.settings\.json cannot be saved: .*\. It is as before\. Make room .*try again\.$/,
    )
    expect(change).toThrow(LogbookError)
    const folder = temporaryFolder()
    changeSettings(folder, (settings) => settings)
    failing('renameSync', 'EROFS')
    expect(() => changeSettings(folder, (settings) => ({ ...settings, advice: false }))).toThrow(
      `${join(folder, 'settings.json')} cannot be saved: the disk is read-only. It is as before. Make room or change the permissions there, and try again.`,
    )
    expect(readSettings(folder).settings.advice).toBe(true)
  })

  it('say so if they may have changed after all', () => {
    const folder = temporaryFolder()
    changeSettings(folder, (settings) => settings)
    insteadOf('renameSync', (renameSync) => (from: string, to: string) => {
      renameSync(from, to)
      if (to.endsWith('settings.json')) throw Object.assign(new Error('EIO'), { code: 'EIO' })
    })
    expect(() => changeSettings(folder, (settings) => ({ ...settings, advice: false }))).toThrow(
      'settings.json cannot be saved: the disk reports an error. It has changed all the same.',
    )
  })

  it('are reported as left alone if a damaged file cannot be set aside', () => {
    const folder = temporaryFolder()
    writeFileSync(join(folder, 'settings.json'), '')
    failing('linkSync', 'EROFS')
    expect(repaired(folder)?.done).toBe(
      'It could not be repaired: the disk is read-only. Nothing was changed.',
    )
  })

  it('are as they were if the change is refused, whatever it throws', () => {
    const folder = temporaryFolder()
    const refuse = (error: Error) => () => {
      throw error
    }
    expect(() => changeSettings(folder, refuse(new TypeError('a mistake')))).toThrow(TypeError)
    expect(() => changeSettings(folder, refuse(new LogbookError('bad_setting', 'No. Yes.')))).toThrow(
      'No. Yes.',
    )
    expect(existsSync(join(folder, 'settings.json'))).toBe(false)
  })
})

describe('the body masses of the mornings', () => {
  it('are among those of the settings, in order of dates, and count before one of the same date', () => {
    const folder = temporaryFolder()
    const mass = (date: string, value: number) => ({ date, value, unit: 'kg' as const })
    changeSettings(folder, (settings) => ({
      ...settings,
      bodyMasses: [mass('2026-11-27', 70), mass('2026-11-20', 69)],
    }))
    const typed = (date: string, kg: number | null) =>
      addMornings(folder, [
        {
          type: 'typed',
          at: `${date}T07:00:00+01:00`,
          date,
          values: kg === null ? { restingHeartRate: 48 } : { bodyMass: { value: kg, unit: 'kg' } },
        },
      ])
    typed('2026-11-21', null)
    expect(readSettings(folder).settings.bodyMasses).toEqual([mass('2026-11-20', 69), mass('2026-11-27', 70)])
    typed('2026-11-27', 68)
    typed('2026-11-24', 67)
    expect(readSettings(folder).settings.bodyMasses).toEqual([
      mass('2026-11-20', 69),
      mass('2026-11-24', 67),
      mass('2026-11-27', 68),
    ])
  })
})

describe('the bell command of this user', () => {
  const command = ['play', 'bell.oga']

  it('is remembered in the folder for settings, or in the home', () => {
    const home = temporaryFolder()
    expect(isOwnBell(command, { HOME: home })).toBe(false)
    expect(setOwnBell(command, { HOME: home })).toBe(true)
    expect(isOwnBell(command, { HOME: home })).toBe(true)
    expect(isOwnBell(['play', 'other.oga'], { HOME: home })).toBe(false)
    expect(readFileSync(join(home, '.config', 'pausebook', 'bell.json'), 'utf8')).toBe(
      '["play","bell.oga"]\n',
    )
    const settings = temporaryFolder()
    expect(isOwnBell(command, { HOME: home, XDG_CONFIG_HOME: settings })).toBe(false)
    expect(setOwnBell(command, { HOME: home, XDG_CONFIG_HOME: settings })).toBe(true)
    expect(isOwnBell(command, { XDG_CONFIG_HOME: settings })).toBe(true)
    // The XDG specification ignores a relative path.
    expect(isOwnBell(command, { HOME: home, XDG_CONFIG_HOME: 'settings' })).toBe(true)
  })

  it('is remembered in the roaming folder on Windows, and only there', () => {
    const [home, roaming] = [temporaryFolder(), temporaryFolder()]
    const env = { HOME: home, APPDATA: roaming }
    const paths = () => [join(home, '.config'), roaming].map((folder) => readdirSync(folder))
    expect(setOwnBell(command, env)).toBe(true)
    expect(paths()).toEqual([['pausebook'], []])
    onWindows()
    expect(isOwnBell(command, env)).toBe(false)
    expect(setOwnBell(command, env)).toBe(true)
    expect(paths()).toEqual([['pausebook'], ['pausebook']])
    expect(isOwnBell(command, { HOME: home })).toBe(true)
  })

  it('is not run where it cannot be remembered or read, with a sentence that says how to allow it', () => {
    const home = temporaryFolder()
    writeFileSync(join(home, '.config'), '')
    expect(setOwnBell(command, { HOME: home })).toBe(false)
    expect(isOwnBell(command, { HOME: home })).toBe(false)
    const other = temporaryFolder()
    mkdirSync(join(other, '.config', 'pausebook', 'bell.json'), { recursive: true })
    expect(isOwnBell(command, { HOME: other })).toBe(false)
    expect(foreignBellText(command)).toContain(`pausebook settings bell '["play","bell.oga"]'`)
  })
})
