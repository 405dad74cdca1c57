import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

const card = (race: string, time: string, ...more: string[]) =>
  runProgram(['paces', '--race', race, '--time', time, '--card', ...more])

describe('pausebook paces --card', () => {
  it('prints a split and the running time for each kilometre, and its purpose', async () => {
    const { stdout } = await card('10km', '39:30')
    expect(stdout).toMatch(
      /^10 km in 39:30: 3:57\/km, even\n {4}km {4}split {3}running\n {5}1 {5}3:57 {6}3:57\n/,
    )
    expect(stdout).toMatch(/\n {4}10 {5}3:57 {5}39:30\nfor the goal, not for training\n$/)
  })

  it('prints splits that add up to the running times, also with a faster second half', async () => {
    const { stdout } = await card('10km', '39:30', '--negative', '1%')
    expect(stdout).toContain('first half 3:58.2/km, second 3:55.8/km')
    const rows = stdout.split('\n').filter((line) => /^\s+\d/.test(line))
    const seconds = (clock = '') => clock.split(':').reduce((sum, part) => sum * 60 + Number(part), 0)
    const splits = rows.map((row) => seconds(row.trim().split(/\s+/)[1]))
    expect(splits.reduce((sum, each) => sum + each, 0)).toBe(2370)
  })

  it('takes laps of a track, tenths and all', async () => {
    const { stdout } = await card('5km', '20:00', '--lap', '400')
    expect(stdout).toContain('   lap    split   running\n     1   1:36.0    1:36.0\n')
    expect(stdout).toContain('  12.5   0:48.0   20:00.0\n')
    // A mile is four laps and 9.34 m, which is not a second fourth lap.
    expect((await card('1 mi', '5:00', '--lap', '400')).stdout).toContain('  4.02   0:01.7    5:00.0\n')
  })

  it('is in the miles of the settings, and a race in miles is so in any case', async () => {
    const logbook = temporaryFolder()
    const cardOf = async (...words: string[]) =>
      (await runProgram(['paces', '--time', '1:20:00', '--card', ...words], { logbook })).stdout
    expect(await cardOf('--race', '10km')).toContain('10 km in 1:20:00: 8:00/km, even')
    expect(await cardOf('--race', '6 mi')).toContain('6 mi in 1:20:00: 13:20/mi, even')
    await runProgram(['settings', 'units', 'mi lb'], { logbook })
    // 4800 s over 10 / 1.609344 miles.
    expect(await cardOf('--race', '10km')).toMatch(/^10 km in 1:20:00: 12:52\/mi, even\n +mi .*\n +1 +12:52 /)
    expect(await cardOf('--race', '10km', '--units', 'km')).toContain('10 km in 1:20:00: 8:00/km, even')
  })

  it('shows what to eat in an hour if the race lasts over one', async () => {
    expect((await card('half marathon', '1:28:00')).stdout).toContain('carbohydrate: 30-60 g an hour')
    expect((await card('marathon', '3:10:00')).stdout).toContain('carbohydrate: 30-90 g an hour')
  })

  it("takes the plan's race if none is given, and says what to write if the plan has none", async () => {
    const logbook = temporaryFolder()
    const cardIn = (...words: string[]) => runProgram(['paces', '--card', ...words, '--logbook', logbook])
    const none = await cardIn()
    expect(none).toMatchObject({ code: 2, stdout: '' })
    expect(none.stderr).toContain('plan.txt names no race. Write --race "10 km" --time 40:00, or write')
    writeFileSync(join(logbook, 'plan.txt'), 'A\nrace: 10 km in 39:30 on 2027-04-18\n')
    expect((await cardIn()).stdout).toBe((await card('10km', '39:30')).stdout)
    expect((await cardIn('--race', '5km', '--time', '20:00')).stdout).toContain('5 km in 20:00')
    expect((await cardIn('--time', '20:00')).stderr).toContain('paces needs a race and its time.')
  })

  it('points at what is wrong in a plan that cannot be read', async () => {
    const logbook = temporaryFolder()
    writeFileSync(join(logbook, 'plan.txt'), 'A\nrace: 10 km in 39:30 on 2027-04-18\nsomeday\n')
    const { code, stderr } = await runProgram(['paces', '--card', '--logbook', logbook])
    expect(code).toBe(1)
    expect(stderr).toMatch(/^pausebook: The plan "plan\.txt" has 1 problem\. Correct .*\nplan\.txt:3:1: /)
  })

  it.each([
    ['10km', '39:30'],
    ['half marathon', '1:28:00'],
    ['marathon', '3:59:59'],
    ['100 km', '11:00:00'],
  ])('keeps %s within 14 columns with --narrow', async (race, time) => {
    const { stdout } = await card(race, time, '--narrow')
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(14)
  })

  it.each([
    [['--negative', '20%'], 'Invalid percentage "20%". Write 0 to 10, as in --negative 1%.'],
    [['--lap', 'abc'], 'Invalid lap "abc". Write its length, from 20 m to the whole race: --lap 400.'],
    [['--lap', '20000'], 'Invalid lap "20000". Write its length, from 20 m to the whole race: --lap 400.'],
  ])('refuses %j and says what to write', async (more, message) => {
    const ran = await card('10km', '39:30', ...more)
    expect(ran).toMatchObject({ code: 2, stdout: '' })
    expect(ran.stderr).toContain(message)
  })

  it('has the 403 laps of 100 miles on a 400 m track, and never the 2000 of 100 km by 50 m', async () => {
    const { stdout } = await card('100 mi', '20:00:00', '--lap', '400')
    expect(stdout).toContain('   402   2:59.0  19:58:59.9\n402.34   1:00.1  20:00:00.0\n')
    const tooShort = await card('100 km', '10:00:00', '--lap', '50')
    expect(tooShort).toMatchObject({ code: 2, stdout: '' })
    expect(tooShort.stderr).toContain('Invalid lap "50". Write its length, from 200 m to the whole race')
  })

  it('says that --narrow is for the card', async () => {
    const ran = await runProgram(['paces', '--race', '10km', '--time', '39:30', '--narrow'])
    expect(ran.stderr).toContain('--narrow is for the race card. Add --card.')
  })
})
