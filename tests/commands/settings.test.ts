import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { settingKeys } from '../../src/logbook/settingsKeys.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

const settings = (logbook: string, ...words: string[]) => runProgram(['settings', ...words], { logbook })

describe('pausebook settings', () => {
  it('sets a value and shows it', async () => {
    const logbook = temporaryFolder()
    const shown = { code: 0, stdout: '68 kg on 2026-11-26\n', stderr: '' }
    expect(await settings(logbook, 'body-mass', '68')).toEqual(shown)
    expect(await settings(logbook, 'body-mass')).toEqual(shown)
    expect(JSON.parse((await settings(logbook, '--json')).stdout)['body-mass']).toBe('68 kg on 2026-11-26')
  })

  it('shows the newest body mass among all settings, and all of them when asked for', async () => {
    const logbook = temporaryFolder()
    const both = '68 kg on 2026-11-01, 67.6 kg on 2026-11-20'
    await settings(logbook, 'body-mass', both)
    const [, shown] = /^body-mass +(.*)$/m.exec((await settings(logbook)).stdout) ?? []
    expect(shown).toBe('67.6 kg on 2026-11-20')
    expect((await settings(logbook, 'body-mass')).stdout).toBe(`${both}\n`)
  })

  it('refuses an invalid value and keeps the old one', async () => {
    const logbook = temporaryFolder()
    await settings(logbook, 'formula', 'epley')
    expect(await settings(logbook, 'formula', 'mine')).toEqual({
      code: 1,
      stdout: '',
      stderr: expect.stringMatching(/^pausebook: Invalid formula "mine"\. Write median, .+\.\n$/),
    })
    expect((await settings(logbook, 'formula')).stdout).toBe('epley\n')
  })

  it('changes nothing in a damaged file, of which the other settings would be lost, until it is repaired', async () => {
    const logbook = temporaryFolder()
    const set = (...words: string[]) => settings(logbook, ...words)
    await set('units', 'mi lb')
    await set('hr-max', '188')
    const path = join(logbook, 'settings.json')
    const damaged = readFileSync(path, 'utf8').replace('"mi"', '"mj"')
    writeFileSync(path, damaged)
    const { code, stderr } = await set('hr-max', '190')
    expect(code).toBe(3)
    expect(stderr).toContain('"pausebook verify --repair" restores it')
    expect(readFileSync(path, 'utf8')).toBe(damaged)
    await runProgram(['verify', '--repair'], { logbook })
    expect(await set('hr-max', '190')).toMatchObject({ code: 0, stdout: '190\n' })
    expect((await set('units')).stdout).toBe('mi lb\n')
  })

  it('has damaged ones named once by every command that needs them, which then ends with 3', async () => {
    const logbook = temporaryFolder()
    writeFileSync(join(logbook, 'settings.json'), '{"format": 1, "units": 7}')
    const plates = await runProgram(['plates', '60'], { logbook })
    expect(plates.code).toBe(3)
    expect(plates.stdout).toContain('60 kg')
    expect(plates.stderr).toMatch(/^pausebook: settings\.json: [^\n]+\n$/)
    expect((await settings(logbook, 'units')).code).toBe(3)
    expect((await runProgram(['plates', 'heavy'], { logbook })).code).toBe(2)
  })

  it('takes a value in one word or in several, as its advice writes it', async () => {
    const logbook = temporaryFolder()
    const set = async (...words: string[]) => (await settings(logbook, ...words)).stdout
    expect(await set('units', 'mi', 'lb')).toBe('mi lb\n')
    expect(await set('plates-kg', '4', 'x', '25,', '2', 'x', '2.5')).toBe('4 x 25, 2 x 2.5\n')
    expect(await set('units', 'km kg')).toBe('km kg\n')
    expect(await set('units')).toBe('km kg\n')
  })

  it('names the file of a bell command that cannot be written, and fails', async () => {
    const home = temporaryFolder()
    writeFileSync(join(home, '.config'), '')
    const ran = await runProgram(['settings', 'bell', '["play"]'], {
      logbook: join(home, 'logbook'),
      env: { HOME: home },
    })
    const file = join(home, '.config', 'pausebook', 'bell.json')
    expect(ran).toEqual({
      code: 1,
      stdout: '',
      stderr: `pausebook: The bell command is not run on this machine, because ${file} cannot be written; the terminal's bell sounds instead. Make that file writable and set the bell again.\n`,
    })
  })

  it('lists its keys when one is unknown', async () => {
    const ran = await settings(temporaryFolder(), 'color')
    expect(ran.code).toBe(1)
    expect(ran.stderr).toMatch(
      /^pausebook: There is no setting "color"\. Write units, body-mass, .* or first-start-seen\.\n$/,
    )
  })

  it('shows every key with its value and its purpose', async () => {
    const { stdout } = await settings(temporaryFolder())
    for (const { key, description } of settingKeys)
      expect(stdout).toMatch(new RegExp(`^${key} +\\S.*\\n +\\(${description}\\)$`, 'm'))
  })
})
