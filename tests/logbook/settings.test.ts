import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import {
  bodyMassOn,
  changeSettings,
  defaultSettings,
  readSettings,
  repairSettings,
} from '../../src/logbook/settings.ts'
import { settingKeys, settingsWith } from '../../src/logbook/settingsKeys.ts'
import { runProgram } from '../commands/runProgram.ts'
import fc from '../fastCheck.ts'
import { temporaryFolder } from './temporaryFolder.ts'

const today = '2026-11-26'

describe('settings', () => {
  it('have their defaults if they were never set, and no file is created for them', () => {
    const folder = join(temporaryFolder(), 'logbook')
    expect(readSettings(folder)).toEqual({ settings: defaultSettings, damage: null })
    expect(existsSync(folder)).toBe(false)
  })

  it('are private to the user and available to the next reader', () => {
    const folder = join(temporaryFolder(), 'logbook')
    changeSettings(folder, (settings) => settingsWith(settings, 'units', 'mi lb', today))
    expect(readSettings(folder).settings.units).toEqual({ distance: 'mi', mass: 'lb' })
    expect(statSync(join(folder, 'settings.json')).mode & 0o777).toBe(0o600)
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
    ['units', 'stone', 'Invalid units "stone". Write km kg, km lb, mi kg or mi lb.'],
    [
      'body-mass',
      '680 kg',
      'Invalid body-mass "680 kg". Write a mass from 20 to 400 kg, of today or with its date: 68 kg on 2026-11-26, or none.',
    ],
    [
      'body-mass',
      '68 kg on 2026-02-30',
      'Invalid body-mass "68 kg on 2026-02-30". Write a mass from 20 to 400 kg, of today or with its date: 68 kg on 2026-11-26, or none.',
    ],
    ['bar-kg', '45 lb', 'Invalid bar-kg "45 lb". Write a mass in kg, as in 20 kg.'],
    ['bar-lb', '0', 'Invalid bar-lb "0". Write a mass in lb, as in 45 lb.'],
    ['collar-kg', 'heavy', 'Invalid collar-kg "heavy". Write a mass in kg, as in 2.5 kg, or none.'],
    [
      'plates-kg',
      '4 x 25, 4 x 25',
      'Invalid plates-kg "4 x 25, 4 x 25". Write pairs and mass as in 4 x 25, 2 x 2.5, each mass once, or none.',
    ],
    [
      'plates-lb',
      '0 x 45',
      'Invalid plates-lb "0 x 45". Write pairs and mass as in 4 x 45, 2 x 2.5, each mass once, or none.',
    ],
    [
      'formula',
      'mine',
      'Invalid formula "mine". Write median, epley, brzycki, lander, lombardi, mayhew, oconner or wathan.',
    ],
    ['hr-max', '90', 'Invalid hr-max "90". Write beats a minute from 100 to 240, or none.'],
    [
      'bell',
      '[]',
      'Invalid bell "[]". Write on, off, or a command and its arguments as JSON: ["play", "bell.oga"].',
    ],
    ['bell', '["play", 7]', 'Invalid bell "["play", 7]".'],
    ['bell', '["play", "a\\u0007"]', 'Invalid bell "["play", "a\\u0007"]".'],
    [
      'seconds-per-repetition',
      '0',
      'Invalid seconds-per-repetition "0". Write seconds from 0.5 to 60, as in 4.',
    ],
    ['advice', 'maybe', 'Invalid advice "maybe". Write on or off.'],
    ['clock', 'round', 'Invalid clock "round". Write blocks or plain.'],
    [
      'rotation',
      'legs,,pull',
      'Invalid rotation "legs,,pull". Write words with commas between them, as in legs, push, pull, or none.',
    ],
    [
      'sync-remote',
      '--upload-pack=x',
      'Invalid sync-remote "--upload-pack=x". Write an address that git knows, or none.',
    ],
  ])('%s refuses %s and says what to write', (key, text, message) => {
    expect(() => settingsWith(defaultSettings, key, text, today)).toThrow(message)
  })

  it('refuse any text with a proper message', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...settingKeys.map((setting) => setting.key)),
        fc.string({ unit: 'binary' }),
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
      { numRuns: 500 },
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

  it.each([
    ['', 'The file is empty.', 'It was left alone; the defaults hold.'],
    ['null', 'The file holds null instead of settings.', 'It was left alone; the defaults hold.'],
    ['{"format": 1, "adv', 'The file breaks off before its end.', 'It was left alone; the defaults hold.'],
    [
      '{"format": 2}',
      'The file is of format 2, written by a newer program; this one reads format 1.',
      'It was left alone; what could be read of it holds.',
    ],
    [
      '{"format": 1, "equation": "mine"}',
      'The file does not read: formula is not one of median, epley, brzycki, lander, lombardi, mayhew, oconner, wathan.',
      'It was left alone; what could be read of it holds.',
    ],
    [
      '{"format": 1, "__proto__": {"advice": false}}',
      'The file does not read: it has a field that does not belong there, "__proto__".',
      'It was left alone; what could be read of it holds.',
    ],
  ])('%j is reported', (text, wrong, done) => {
    expect(readSettings(damaged(text))).toEqual({
      settings: defaultSettings,
      damage: { file: 'settings.json', wrong, done },
    })
  })

  it.each([
    ['"wathan"', 'median'],
    ['"epley"', 'epley'],
  ])('with the equation of an earlier version, %s, is read as the formula %s', (equation, formula) => {
    const reading = readSettings(damaged(`{"format": 1, "equation": ${equation}}`))
    expect(reading).toMatchObject({ settings: { formula }, damage: null })
  })

  it('is replaced by its previous copy', () => {
    const { settings, damage } = readSettings(damaged('', JSON.stringify({ format: 1, advice: false })))
    expect(settings.advice).toBe(false)
    expect(damage?.done).toBe('It was left alone; the copy before it (settings.json.bak) holds.')
  })

  it('loses only the invalid value', () => {
    const { settings } = readSettings(damaged('{"format": 1, "advice": false, "clock": "round"}'))
    expect(settings).toEqual({ ...defaultSettings, advice: false })
  })

  it('is moved away before something else is set, never overwritten', () => {
    const folder = damaged('{"format": 1, "adv')
    changeSettings(folder, (settings) => ({ ...settings, advice: false }))
    expect(readFileSync(join(folder, 'settings.json.damaged-1'), 'utf8')).toBe('{"format": 1, "adv')
    expect(readSettings(folder)).toEqual({ settings: { ...defaultSettings, advice: false }, damage: null })
  })

  it('is left alone if a newer program wrote it', () => {
    const folder = damaged('{"format": 2}')
    expect(() => changeSettings(folder, (settings) => settings)).toThrow(
      `The file is of format 2, written by a newer program; this one reads format 1. ${join(folder, 'settings.json')} was left alone; move it away or mend it.`,
    )
    expect(readFileSync(join(folder, 'settings.json'), 'utf8')).toBe('{"format": 2}')
  })

  it('may be a folder, which is left alone', () => {
    const folder = temporaryFolder()
    mkdirSync(join(folder, 'settings.json'))
    expect(readSettings(folder).damage?.wrong).toBe('The file is a folder.')
    expect(() => changeSettings(folder, (settings) => settings)).toThrow('The file is a folder.')
  })

  it('is repaired with what could be read', () => {
    const folder = damaged('{"format": 1, "advice": false, "clock": "round"}')
    expect(repairSettings(folder)?.done).toMatch(/^It was set aside as settings\.json\.damaged-1;/)
    expect(readSettings(folder)).toEqual({ settings: { ...defaultSettings, advice: false }, damage: null })
  })
})

describe('pausebook settings', () => {
  it('sets a value and shows it', async () => {
    const logbook = temporaryFolder()
    expect(await runProgram(['settings', 'body-mass', '68'], { logbook })).toEqual({
      code: 0,
      stdout: '68 kg on 2026-11-26\n',
      stderr: '',
    })
    expect((await runProgram(['settings', 'body-mass'], { logbook })).stdout).toBe('68 kg on 2026-11-26\n')
    expect(JSON.parse((await runProgram(['settings', '--json'], { logbook })).stdout)['body-mass']).toBe(
      '68 kg on 2026-11-26',
    )
  })

  it('refuses an invalid value and keeps the old one', async () => {
    const logbook = temporaryFolder()
    await runProgram(['settings', 'equation', 'epley'], { logbook })
    const ran = await runProgram(['settings', 'equation', 'mine'], { logbook })
    expect(ran).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: Invalid equation "mine". Write median, epley, brzycki, lander, lombardi, mayhew, oconner or wathan.\n',
    })
    expect((await runProgram(['settings', 'equation'], { logbook })).stdout).toBe('epley\n')
  })

  it('lists its keys when one is unknown', async () => {
    const ran = await runProgram(['settings', 'color'], { logbook: temporaryFolder() })
    expect(ran.code).toBe(1)
    expect(ran.stderr).toMatch(
      /^pausebook: There is no setting "color"\. Write units, body-mass, .* or first-start-seen\.\n$/,
    )
  })

  it('shows every key with its value and its purpose', async () => {
    const { stdout } = await runProgram(['settings'], { logbook: temporaryFolder() })
    for (const { key, description } of settingKeys)
      expect(stdout).toMatch(new RegExp(`^${key} +\\S.*\\n +\\(${description}\\)$`, 'm'))
  })
})
