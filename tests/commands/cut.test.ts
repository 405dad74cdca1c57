import { describe, expect, it } from 'vitest'
import { printPrescription } from '../../src/prescription/print.ts'
import { dayOf as dayIn } from '../day.ts'
import { runProgram } from './runProgram.ts'

const day = `Thursday: five hundreds, then front squat
date: 2026-11-26
goal: 10 km in 39:30 on 2027-04-18

run: track
  2 km easy
  5 km @ 4:05-4:10/km, split 1 km
  jog 600 m
  6 x 500 m @ 3:35-3:45/km, jog 200 m
  2 km easy

lift: legs
  front squat: 5 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 40 kg
  pull-up 4 x 6 @ bodyweight
  plank: 3 x 45 s, rest 0:45
`
const cut = (...options: string[]) =>
  runProgram(['cut', 'day.txt', ...options], { files: { 'day.txt': day } })

describe('pausebook cut', () => {
  it('reckons a goal in laps by the lap of the day', async () => {
    const laps = 'Laps\nlap: 300 m\ngoal: 30 laps in 39:30\n\nrun\n  2 km easy\n  4 km @ 4:00/km\n'
    const ran = await runProgram(['cut', 'day.txt', '--for', '4.5km'], { files: { 'day.txt': laps } })
    // Half of 9 km: 0.7071 of the day.
    expect(ran.stdout).toContain('  3 km @ 4:00/km  # was 4 km\n')
  })

  it('--by 40% takes 40 % off the expected minutes, --to 60% keeps 60 %, as notation that reads as the same day', async () => {
    const ran = await cut('--by', '40%')
    expect(ran.stderr).toBe('')
    expect(ran.code).toBe(0)
    const lines = ran.stdout.split('\n').filter((line) => line.startsWith('  '))
    expect(lines.map((line) => line.trim().split('  # '))).toEqual([
      ['2 km easy'],
      ['4 km @ 4:05-4:10/km, split 1 km', 'was 5 km'],
      ['jog 600 m'],
      ['3 x 500 m @ 3:35-3:45/km, jog 200 m', 'was 6 x'],
      ['1.1 km easy', 'was 2 km'],
      ['front squat 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 40 kg', 'was 5 sets'],
      ['# left out: pull-up 4 x 6 @ bodyweight'],
      ['# left out: plank 3 x 45 s, rest 45 s'],
    ])
    const read = dayIn(ran.stdout)
    expect(printPrescription(dayIn(printPrescription(read)))).toBe(printPrescription(read))
    for (const same of [
      ['--by', '40'],
      ['--by', '0.4'],
      ['--by', '.4'],
      ['--to', '60%'],
      ['--to', '0.6'],
    ])
      expect((await cut(...same)).stdout).toBe(ran.stdout)
    const { expectedMinutes } = JSON.parse((await cut('--by', '40%', '--json')).stdout)
    expect(expectedMinutes.after).toBeLessThanOrEqual(0.6 * expectedMinutes.before)
  })

  // sqrt(5 km / 10 km) is 0.707: 5 km to 3.5 km, 6 repeats to 5; the lifts stay, and the warm-up.
  it('--for cuts the running for a race by the root of its share of the goal', async () => {
    const { stdout } = await cut('--for', '5 km')
    expect(stdout).toContain('\n  3.5 km @ 4:05-4:10/km')
    expect(stdout).toContain('\n  5 x 500 m')
    expect(stdout).toContain('\n  pull-up 4 x 6 @ bodyweight\n')
    expect((await cut('--for', 'marathon')).stdout).not.toContain('# was')
  })

  it('cuts to the available minutes', async () => {
    const ran = await cut('--minutes', '75')
    expect(ran.stderr).toBe('')
    const json = JSON.parse((await cut('--minutes', '75', '--json')).stdout)
    expect(json.text).toBe(ran.stdout)
    expect(json.expectedMinutes.before).toBeGreaterThan(75)
    expect(json.expectedMinutes.after).toBeLessThanOrEqual(75)
    expect(ran.stdout).toContain('5 km @ 4:05-4:10/km')
  })

  it('offers the run only and the lift only if the minutes are too short for both', async () => {
    const ran = await cut('--minutes', '45')
    expect(ran.code).toBe(1)
    expect(ran.stderr).toMatch(
      /^pausebook: 45 min is too short for both: the run only \(4\d min\) or the lift only \(3\d min\)\. Choose with --only run or --only lift\.\n$/,
    )
    const days: string[] = []
    for (const only of ['run', 'lift']) {
      const chosen = await cut('--minutes', '45', '--only', only, '--json')
      expect(chosen).toMatchObject({ code: 0, stderr: '' })
      const { text, expectedMinutes } = JSON.parse(chosen.stdout)
      expect(expectedMinutes.after).toBeLessThanOrEqual(45)
      dayIn(text)
      days.push(`# the ${only} only\n${text}`)
    }
    expect(ran.stdout).toBe(days.join('\n'))
    const { error } = JSON.parse((await cut('--minutes', '45', '--json')).stdout)
    expect(ran.stderr).toBe(`pausebook: ${error.message}\n`)
  })

  it('refuses minutes into which no cut fits', async () => {
    const short = await cut('--minutes', '5')
    expect(short.code).toBe(1)
    expect(short.stdout).toBe('')
    expect(short.stderr).toMatch(
      /^pausebook: 5 min is too short: cut as far as possible, it takes about \d+ min\. Give more minutes, or leave parts out by hand\.\n$/,
    )
  })

  it('refuses a share of a day of meals, which take no time', async () => {
    const meals = 'Meals\n\nfuel\n  after: carbs 80 g\n'
    const ran = await runProgram(['cut', 'meals.txt', '--by', '30%'], { files: { 'meals.txt': meals } })
    expect(ran).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: Nothing in this day takes time, so no share of it can be cut. Give a day with prep, running or lifting.\n',
    })
  })

  const ways = '--by 30% (30 % less), --to 70% (70 % stays), --for DISTANCE and --minutes N'

  it.each([
    [[], `Nothing says how much to cut. Give one of ${ways}.`],
    [['--by', '0.5', '--minutes', '40'], `Several options say how much to cut. Give one of ${ways}.`],
    ...['0', '1', '100', '150', '150%', '-1', 'half', ''].map((share): [string[], string] => [
      [`--by=${share}`],
      `Invalid share "${share}". Example: --by 30%; it is above 0 and below 100%.`,
    ]),
    ...['0', '0.0', '-5', '1e3', 'ten'].map((minutes): [string[], string] => [
      [`--minutes=${minutes}`],
      `Invalid number of minutes "${minutes}". Example: --minutes 45.`,
    ]),
    ...['0 km', '5', 'far'].map((distance): [string[], string] => [
      [`--for=${distance}`],
      `Invalid distance "${distance}". Example: --for 5km or --for "half marathon".`,
    ]),
    [
      ['--for=5 km', '--only=run'],
      '--for cuts the running alone, so --only has no effect. Leave one of them out.',
    ],
    [
      ['--minutes=40', '--only=legs'],
      `Option '--only <PART>' argument 'legs' is invalid. Allowed choices are run, lift. See "pausebook cut --help".`,
    ],
  ])('%j is refused', async (options, message) => {
    expect(await cut(...options)).toEqual({ code: 2, stdout: '', stderr: `pausebook: ${message}\n` })
  })

  it('cannot cut for a race without a goal', async () => {
    const files = { 'day.txt': day.replace(/goal.*\n/, '') }
    expect(await runProgram(['cut', 'day.txt', '--for', '5 km'], { files })).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: The day has no goal, so its race is unknown. Add a line such as "goal: 10 km in 39:30", or cut it with --by.\n',
    })
  })

  it('says what is wrong with the prescription', async () => {
    const files = { 'day.txt': day.replace('3:35', '3:75') }
    const ran = await runProgram(['cut', 'day.txt', '--by', '0.5'], { files })
    expect(ran.code).toBe(1)
    expect(ran.stderr).toMatch(
      /^pausebook: The prescription "day.txt" has 1 problem\. Correct the file\.\nday\.txt:9:/,
    )
  })
})
