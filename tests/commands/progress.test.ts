import { describe, expect, it } from 'vitest'
import { pageNames } from '../../src/progress/overview.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keepOnPaper } from './onPaper.ts'
import { now, runOn, sixteenWeeks } from './overWeeks.ts'
import { runProgram } from './runProgram.ts'

const run = runOn(sixteenWeeks())
const empty = runOn('/nowhere/logbook')

describe('progress', () => {
  /* Golden texts, read by eye once. After an intended change, rewrite a text with
   * `npx vitest run -c tests/vitest.config.ts tests/commands/progress.test.ts -u`. */
  it.each([
    ['all', []],
    ['lift-front-squat', ['lift', 'front', 'squat']],
    ['run', ['run']],
    ['load', ['load']],
    ['pain', ['pain']],
    ['body', ['body']],
  ] as [string, string[]][])('prints %s at 80 and at 40 columns', async (name, words) => {
    for (const columns of [80, 40]) {
      const { code, stdout, stderr } = await run(['progress', ...words], { columns })
      expect({ code, stderr }).toEqual({ code: 0, stderr: '' })
      await expect(stdout).toMatchFileSnapshot(`golden/progress-${name}-${columns}.txt`)
      for (const line of stdout.split('\n')) expect([...line].length).toBeLessThanOrEqual(columns)
    }
  })

  it('shows the only lift whose name contains the words, and says which', async () => {
    const [asked, whole] = [
      await run(['progress', 'lift', 'squat']),
      await run(['progress', 'lift', 'front', 'squat']),
    ]
    expect(asked).toEqual({
      ...whole,
      stderr: 'pausebook: "squat" is read as "front squat", the only lift that contains it.\n',
    })
  })

  it('shows the year of a day if the weeks include a change of year', async () => {
    const logbook = temporaryFolder()
    const lift = 'Legs\n\nlift\n  front squat 1 x 5 @ 100 kg\n'
    const track = 'Track\n\nrun\n  2 x 1 km @ 4:00/km\n'
    const dates = ['2025-12-30', '2026-01-06', '2026-01-13', '2026-01-20']
    for (const [index, date] of dates.entries()) {
      await keepOnPaper(logbook, lift, `5 x ${100 + 2 * index} @8\n`, { date })
      await keepOnPaper(logbook, track, '4:00\n4:00\n', { date })
    }
    const span = ['--from', '2025-12-29', '--to', '2026-01-25']
    const squat = (await runOn(logbook)(['progress', 'lift', 'front', 'squat', ...span])).stdout
    expect(squat.replace(/\s+/g, ' ')).toContain('kg on 30 Dec 2025 to ')
    expect((await runOn(logbook)(['progress', 'run', ...span])).stdout).toContain('\n  30 Dec 2025  4:00/km')
  })

  it('calls no figure strain, not even with --full', async () => {
    for (const words of [['load', '--full'], ['load'], []]) {
      const { stdout } = await run(['progress', ...words])
      expect(stdout).not.toMatch(/\bstrain\b/)
    }
  })

  it('prints in the requested units', async () => {
    const { stdout } = await run(['progress', 'lift', 'front', 'squat', '--units', 'lb'])
    expect(stdout).toContain('\n  4 x 214.95 lb, 14 Nov 2026\n'.replace('  4', '        4'))
    expect((await run(['progress', 'run', '--units', 'mi'])).stdout).toContain('by week from Monday: mi;')
  })

  it('keeps the written unit: a mile and 155 lb in a logbook of kilometres and kilograms', async () => {
    const logbook = temporaryFolder()
    const day = 'A mile and the bench\n\nrun\n  1 mi trial\n\nlift\n  bench press 2 x 5 @ 155 lb\n'
    await keepOnPaper(logbook, day, '5:40\n5 @8\n5 @8.5\n', { date: '2026-11-22' })
    const runHere = runOn(logbook)
    const lift = await runHere(['progress', 'lift', 'bench press'])
    expect(lift.stdout).toContain('\n  5 x 155 lb, 22 Nov 2026\n')
    expect((await runHere(['progress', 'run'])).stdout).toContain('\n  1 mi  5:40  3:31/km  non-stop, 22 Nov')
    expect((await runHere(['history'])).stdout).toContain('  1 mi  ')
    expect((await runHere(['summary'])).stdout).toContain('\nrun, 1 mi\n')
    // The requested units go before the written ones.
    expect((await runHere(['history', '--units', 'km'])).stdout).toContain('  1.61 km  ')
    expect((await runHere(['progress', 'lift', 'bench press', '--units', 'kg'])).stdout).toContain(
      '5 x 70.31 kg',
    )
    const { bestSplits } = JSON.parse((await runHere(['progress', 'run', '--json'])).stdout)
    expect(bestSplits[0].meters).toBe(1609.344)
  })

  it('prints the points as JSON', async () => {
    const { stdout } = await run(['progress', 'lift', 'Front-Squats', '--json'])
    const lift = JSON.parse(stdout)
    expect(Object.keys(lift)).toEqual([
      'name',
      'unit',
      'from',
      'to',
      'estimates',
      'trends',
      'runCost',
      'weeks',
      'bestSets',
    ])
    expect(lift).toMatchObject({ name: 'front squat', from: '2026-08-10', to: '2026-11-29' })
    expect(lift.estimates[0]).toEqual({
      session: expect.any(String),
      date: '2026-08-13',
      kg: expect.any(Number),
      lowKg: expect.any(Number),
      highKg: expect.any(Number),
      atLeast: false,
      kind: 'clusterAfterRun',
      isOnBody: false,
      isPair: false,
      formula: 'median',
    })
    expect(lift.weeks).toHaveLength(16)
    const running = JSON.parse((await run(['progress', 'run', '--json'])).stdout)
    expect(running.towardRace.goal).toEqual({
      meters: 10000,
      seconds: 2370,
      date: '2027-04-18',
      secondsPerKm: 237,
    })
    expect(running.towardRace.daysLeft).toBe(144)
    expect(JSON.parse((await run(['progress', 'load', '--json'])).stdout).weeks).toHaveLength(16)
    expect(JSON.parse((await run(['progress', '--json'])).stdout).lifts[0].name).toBe('front squat')
  })

  it('shows whole weeks of the requested days', async () => {
    const { stdout } = await run(['progress', 'load', '--from', '2026-10-01', '--to', '2026-10-10', '--json'])
    expect(JSON.parse(stdout)).toMatchObject({ from: '2026-09-28', to: '2026-10-11' })
  })

  it('shows every page of the app', async () => {
    for (const name of pageNames.filter((name) => name !== 'all'))
      expect(await run(['progress', name])).toMatchObject({ code: 0, stderr: '' })
  })

  it.each([['lift', 'dip'], ['run'], ['load']])('draws %s as a picture', async (...words) => {
    const { code, stdout } = await run(['progress', ...words, '--format', 'svg'])
    expect(code).toBe(0)
    expect(stdout).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" .*<\/svg>\n$/s)
    expect(stdout).toContain('16 weeks, 10 Aug to 29 Nov 2026')
    expect(stdout).not.toMatch(/NaN|undefined|Infinity/)
  })

  it.each([
    [['lift', 'press'], 1, 'No session has "press". Write one of "bench press", "overhead press".'],
    [['lift', 'frnt', 'squatt'], 1, 'No session has "frnt squatt". Write "front squat".'],
    [
      ['lift', 'snatch'],
      1,
      'No session has "snatch". Write one of "front squat", "bench press", "dip", "dumbbell row", "overhead press".',
    ],
    [['lift'], 2, 'progress lift needs the name of a lift. Write one as in progress lift front squat.'],
    [['run', 'far'], 2, 'progress run takes no further words. Leave "far" out, or write progress lift far.'],
    [
      ['swim'],
      2,
      `Value 'swim' is invalid for argument 'SUBJECT'. Allowed choices are lift, run, load, pain, body. See "pausebook progress --help".`,
    ],
    [['run', '--from', '2026-02-30'], 2, 'Invalid date "2026-02-30". Example: --from 2026-11-26.'],
    [['run', '--to', 'today'], 2, 'Invalid date "today". Example: --to 2026-11-26.'],
    [
      ['load', '--from', '2026-11-02', '--to', '2026-11-01'],
      2,
      '--from 2026-11-02 is after --to 2026-11-01. Give the earlier date first.',
    ],
    [['--format', 'svg'], 2, 'Only progress lift NAME, progress run and progress load have a picture.'],
  ] as [string[], number, string][])('refuses %j', async (words, code, message) => {
    const refused = await run(['progress', ...words])
    expect(refused.stderr).toContain(`pausebook: ${message}`)
    expect(refused).toMatchObject({ code, stdout: '' })
  })

  it('shows the pains of the mornings of a logbook without a session', async () => {
    const logbook = temporaryFolder()
    expect((await runProgram(['progress', 'pain'], { logbook, now })).code).toBe(1)
    await runProgram(['morning', 'left calf 3'], { logbook, now })
    const { code, stdout } = await runProgram(['progress', 'pain', '--json'], { logbook, now })
    expect(code).toBe(0)
    expect(JSON.parse(stdout).places).toMatchObject([
      { place: 'left calf', days: [{ session: null, levels: [3] }] },
    ])
  })

  it('says if there is no session, also to programs, but shows the body without one', async () => {
    expect((await empty(['progress', 'body'])).stdout).toContain('body mass: nothing typed in 28 days\n')
    const message = 'There is no session in the logbook /nowhere/logbook yet. Record one with "pausebook".'
    expect(await empty(['progress'])).toEqual({ code: 1, stdout: '', stderr: `pausebook: ${message}\n` })
    const { stdout } = await empty(['progress', 'load', '--json'])
    expect(JSON.parse(stdout)).toEqual({ error: { code: 'no_sessions', message, problems: [] } })
  })
})
