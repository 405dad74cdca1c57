import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readSettings } from '../../src/logbook/settings.ts'
import { expectPrivate } from '../expectPrivate.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

const now = new Date('2026-11-26T07:00:00+01:00')

function morning(logbook: string, ...words: string[]) {
  return runProgram(['morning', ...words], { logbook, now })
}

describe('pausebook morning', () => {
  it('records what is typed, corrects what is named and asks for what is missing', async () => {
    const logbook = temporaryFolder()
    expect((await morning(logbook)).stdout).toContain(
      '2026-11-26: nothing typed yet\nOptional, not typed: sleep',
    )
    const ran = await morning(logbook, ...'6:40 h, 48 bpm, 67.8 kg, left calf 2,'.split(' '), 'late train')
    expect(ran).toMatchObject({
      code: 0,
      stdout: '2026-11-26: 6:40 h, 48 bpm, 67.8 kg, left calf 2, "late train"\n',
    })
    await morning(logbook, '67.6 kg, "later train"')
    const shown = await morning(logbook)
    expect(shown.stdout).toBe('2026-11-26: 6:40 h, 48 bpm, 67.6 kg, left calf 2, "later train"\n')
    expect((await morning(logbook, '--undo')).stdout).toContain('67.8 kg')
    const path = join(logbook, 'mornings', '2026.json')
    expectPrivate(path)
    expect(JSON.parse((await morning(logbook, '--json')).stdout).morning).toMatchObject({
      restingHeartRate: 48,
      bodyMass: { value: 67.8, unit: 'kg' },
    })
  })

  it.each([
    ['chest pain 5, "felt faint on the stairs"', 'faint, chest'],
    ['left calf 0, "a good night"', null],
    ['tight chest', 'tight chest'],
  ])('%s: says who should see a doctor', async (text, signs) => {
    const { stdout } = await morning(temporaryFolder(), text)
    expect(/See a doctor before you train again: (.+)\. A sign/.exec(stdout)?.[1] ?? null).toBe(signs)
  })

  it.each(['300 bpm', '6:75 h', '678 kg', '2026-11-27, 48 bpm', 'legs 12'])(
    'refuses %s and stores nothing',
    async (text) => {
      const logbook = temporaryFolder()
      const ran = await morning(logbook, text)
      expect(ran).toMatchObject({ code: 1, stdout: '' })
      expect(existsSync(join(logbook, 'mornings'))).toBe(false)
    },
  )

  it.each([
    ['6:40 h, dizzy, 48 bpm', '6:40 h, 48 bpm, "dizzy"'],
    ['2026-11-26 dizzy', '"dizzy"'],
    ['dizzy, chest pain', '"dizzy, chest pain"'],
  ])('takes a warning sign without quotes, as in %s', async (typed, shown) => {
    const { stdout } = await morning(temporaryFolder(), typed)
    expect(stdout).toContain(`2026-11-26: ${shown}\nSee a doctor`)
  })

  it('keeps a warning sign beside a later note of the same morning, until it is taken back', async () => {
    const logbook = temporaryFolder()
    await morning(logbook, 'dizzy')
    const later = (await morning(logbook, '"late train"')).stdout
    expect(later).toContain('"dizzy; late train"\n')
    expect(later).toContain('See a doctor before you train again: dizzy.')
    await morning(logbook, '--undo')
    expect((await morning(logbook, '--undo')).stdout).toContain('2026-11-26: nothing typed yet\n')
  })

  it('says how a warning sign ends, and no more of a doctor once it has', async () => {
    const logbook = temporaryFolder()
    const { stdout } = await morning(logbook, 'left arm numb, dizzy')
    expect(stdout).toContain(
      'See a doctor before you train again: arm numb, dizzy. A sign that is over ends with 0: arm numb 0.\n',
    )
    expect((await morning(logbook, 'arm numb 0')).stdout).toContain('train again: dizzy. A sign')
    expect((await morning(logbook, 'dizzy 0')).stdout).not.toContain('doctor')
    expect((await morning(logbook, '"dizzy again"')).stdout).toContain('See a doctor')
  })

  it('uses its body mass for bodyweight lifts and fuel from that day on, and leaves the settings alone', async () => {
    const logbook = temporaryFolder()
    await runProgram(['settings', 'body-mass', '70 kg'], {
      logbook,
      now: new Date('2026-11-01T07:00:00+01:00'),
    })
    const before = readFileSync(join(logbook, 'settings.json'), 'utf8')
    expect((await morning(logbook)).stdout).toContain('body mass (70 kg)')
    await morning(logbook, '67.8 kg')
    expect(
      readSettings(logbook)
        .settings.bodyMasses.map(({ date, value }) => [date, value])
        .at(-1),
    ).toEqual(['2026-11-26', 67.8])
    await runProgram(['settings', 'advice', 'off'], { logbook, now })
    expect(JSON.parse(readFileSync(join(logbook, 'settings.json'), 'utf8')).bodyMasses).toEqual(
      JSON.parse(before).bodyMasses,
    )
    const none = await runProgram(['settings', 'body-mass', 'none'], { logbook, now })
    expect(none.stdout).toBe('67.8 kg on 2026-11-26\n')
  })

  it('takes the word undo as the app does', async () => {
    const logbook = temporaryFolder()
    await morning(logbook, '48 bpm')
    await morning(logbook, '52 bpm')
    expect((await morning(logbook, 'undo')).stdout).toContain('2026-11-26: 48 bpm\n')
  })

  it('names a damaged file once when it takes back what was typed', async () => {
    const logbook = temporaryFolder()
    await morning(logbook, '48 bpm')
    writeFileSync(join(logbook, 'mornings', '2020.json'), '{')
    expect((await morning(logbook, '--undo')).stderr).toMatch(/^pausebook: mornings\/2020\.json: [^\n]+\n$/)
  })

  it('names a damaged file before it says that there is nothing to take back', async () => {
    const logbook = temporaryFolder()
    await morning(logbook, '48 bpm')
    for (const name of ['2026.json', '2026.json.bak']) writeFileSync(join(logbook, 'mornings', name), '{')
    const { code, stderr } = await morning(logbook, '--undo')
    expect(code).toBe(1)
    expect(stderr).toMatch(/^pausebook: mornings\/2026\.json: /)
    expect(stderr).toContain('Nothing was typed for')
  })

  it('is missed aloud where its body mass counts: a session from paper keeps the mass of its day', async () => {
    const logbook = temporaryFolder()
    await morning(logbook, '67.8 kg')
    writeFileSync(join(logbook, 'mornings', '2026.json'), '{')
    const files = { day: 'Pull\n\nlift\n  pull-up 3 x 5\n', results: 'date: 2026-11-26\n5\n5\n5\n' }
    for (const argv of [['backfill', 'day', 'results'], ['history']]) {
      const ran = await runProgram(argv, { logbook, now, files })
      expect(ran, argv[0]).toMatchObject({ code: 3, stdout: expect.stringMatching(/./) })
      expect(ran.stderr).toContain('mornings/2026.json: The file breaks off before its end.')
    }
  })

  it('uses the copy before a ruined file, and verify --repair restores it', async () => {
    const logbook = temporaryFolder()
    await morning(logbook, '48 bpm')
    await morning(logbook, '49 bpm')
    const path = join(logbook, 'mornings', '2026.json')
    writeFileSync(path, '{"format": 1, "ev')
    expect(await morning(logbook)).toMatchObject({ code: 3, stdout: expect.stringContaining('48 bpm') })
    expect(await runProgram(['progress', 'body'], { logbook, now })).toMatchObject({ code: 3 })
    const verified = await runProgram(['verify'], { logbook, now })
    expect(verified.stdout).toContain(
      'mornings/2026.json: The file breaks off before its end. Nothing was changed; the previous copy (2026.json.bak) is used instead.',
    )
    const repaired = await runProgram(['verify', '--repair'], { logbook, now })
    expect(repaired.stdout).toContain(
      'Moved to 2026.json.damaged-1; restored the previous copy (2026.json.bak).',
    )
    expect((await runProgram(['verify'], { logbook, now })).stdout).toContain(
      'mornings/2026.json.damaged-1: This is a damaged file that an earlier repair moved here.',
    )
    rmSync(`${path}.damaged-1`)
    expect((await runProgram(['verify'], { logbook, now })).code).toBe(0)
    rmSync(path)
    expect((await morning(logbook)).stdout).toContain('48 bpm')
  })
})
