import { describe, expect, it } from 'vitest'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
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

function dayIn(text: string) {
  const reading = readPrescription(text)
  if ('problems' in reading) throw new Error(JSON.stringify(reading.problems))
  return reading.prescription
}

describe('pausebook cut', () => {
  // By hand, at 0.5: 2 km to 1 km, 5 km to 2.5 km, 6 repeats to 3, 5 sets to 3 (rounded up), 4 to 2, 3 to 2.
  it('prints the day cut by a fraction as notation that reads as the same day, each change a comment', async () => {
    const ran = await cut('--by', '0.5')
    expect(ran.stderr).toBe('')
    expect(ran.code).toBe(0)
    const lines = ran.stdout.split('\n').filter((line) => line.startsWith('  '))
    expect(lines.map((line) => line.trim().split('  # '))).toEqual([
      ['1 km easy', 'was 2 km'],
      ['2.5 km @ 4:05-4:10/km, split 1 km', 'was 5 km'],
      ['jog 600 m'],
      ['3 x 500 m @ 3:35-3:45/km, jog 200 m', 'was 6 x'],
      ['1 km easy', 'was 2 km'],
      ['front squat 3 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 40 kg', 'was 5 sets'],
      ['pull-up 2 x 6 @ bodyweight', 'was 4 sets'],
      ['plank 2 x 45 s, rest 45 s', 'was 3 sets'],
    ])
    const read = dayIn(ran.stdout)
    expect(printPrescription(dayIn(printPrescription(read)))).toBe(printPrescription(read))
    expect((await cut('--by', '50%')).stdout).toBe(ran.stdout)
    expect((await cut('--by', '.5')).stdout).toBe(ran.stdout)
  })

  // sqrt(5 km / 10 km) is 0.707: 2 km to 1.4 km, 5 km to 3.5 km, 6 repeats to 5.
  it('cuts for a race by the root of its share of the goal', async () => {
    const { stdout } = await cut('--for', '5 km')
    expect(stdout).toContain('\n  1.4 km easy  # was 2 km\n  3.5 km @ 4:05-4:10/km')
    expect(stdout).toContain('\n  5 x 500 m')
    expect((await cut('--for', 'marathon')).stdout).not.toContain('# was')
  })

  it('cuts to the minutes there are, and says when nothing more is cut', async () => {
    const ran = await cut('--minutes', '75')
    expect(ran.stderr).toBe('')
    const json = JSON.parse((await cut('--minutes', '75', '--json')).stdout)
    expect(json.text).toBe(ran.stdout)
    expect(json.expectedMinutes.before).toBeGreaterThan(75)
    expect(json.expectedMinutes.after).toBeLessThanOrEqual(75)
    expect(ran.stdout).toContain('5 km @ 4:05-4:10/km')
    const short = await cut('--minutes', '5')
    expect(short.code).toBe(0)
    expect(short.stderr).toMatch(
      /^pausebook: The day is still expected to take about \d+ min: what is left is not cut further\.\n$/,
    )
    dayIn(short.stdout)
  })

  it.each([
    [[], 'It is not said how to cut. Give --by FRACTION, --for DISTANCE or --minutes N.'],
    [
      ['--by', '0.5', '--minutes', '40'],
      'Only one way to cut can be taken. Give --by FRACTION, --for DISTANCE or --minutes N.',
    ],
    ...['0', '1.01', '150%', '-1', 'half', ''].map((fraction): [string[], string] => [
      [`--by=${fraction}`],
      `"${fraction}" is no fraction above 0 and at most 1. Write one as in --by 0.6 or --by 60%.`,
    ]),
    ...['0', '0.0', '-5', '1e3', 'ten'].map((minutes): [string[], string] => [
      [`--minutes=${minutes}`],
      `"${minutes}" is no number of minutes above 0. Write one as in --minutes 45.`,
    ]),
    ...['0 km', '5', 'far'].map((distance): [string[], string] => [
      [`--for=${distance}`],
      `"${distance}" is no distance. Write one as in --for 5km or --for "half marathon".`,
    ]),
  ])('%j is refused', async (options, message) => {
    expect(await cut(...options)).toEqual({ code: 2, stdout: '', stderr: `pausebook: ${message}\n` })
  })

  it('cannot cut for a race without a goal', async () => {
    const files = { 'day.txt': day.replace(/goal.*\n/, '') }
    expect(await runProgram(['cut', 'day.txt', '--for', '5 km'], { files })).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: The day has no goal, so nothing says for which race it is. Write a line as in "goal: 10 km in 39:30", or cut it with --by.\n',
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
