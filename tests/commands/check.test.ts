import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keepOnPaper } from './onPaper.ts'
import { runProgram } from './runProgram.ts'

const sample = readFileSync('sample-sessions/track-and-cluster.txt', 'utf8')
const check = (text: string, ...options: string[]) =>
  runProgram(['check', 'day.txt', ...options], { files: { 'day.txt': text } })

describe('check', () => {
  it('prints the day expanded: times and laps to run, plates a side, the warm-up, how much and how long', async () => {
    const { code, stdout, stderr } = await check(sample)
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' })
    expect(stdout).toBe(`Thursday: five hundreds, then front squat
Thu 26 Nov 2026
13.6 km, 16 sets, 1707.5 kg in all
about 104 min, a rough guess
31 results to enter

prep, about 6 min
  foam roll 3:00
  leg swings 2 x 10 each side

run: track, 13.6 km, about 63 min
  2 km easy
  5 km @ 4:05-4:10/km, split 1 km, negative
    1 km in 4:05-4:10, lap 1:38-1:40
  jog 600 m
  6 x 500 m @ 3:35-3:45/km, jog 200 m
    500 m in 1:47.5-1:52.5, lap 1:26-1:30
  2 km easy

lift: legs, about 36 min
  front squat: 5 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from
    40 kg
    warm-up 8 x 40 kg: 10 a side
    warm-up 5 x 60 kg: 20 a side
    warm-up 3 x 75 kg: 25 + 2.5 a side
    warm-up 1 x 85 kg: 25 + 5 + 2.5 a side
    92.5 kg: 25 + 10 + 1.25 a side
  pull-up 4 x 6 @ bodyweight + dip 4 x 8 @ bodyweight+10 kg, pause 0:20,
    rest 1:30
  plank: 3 x 45 s, rest 0:45

fuel
  before 2 h: carbs 75 g, protein 20 g, fat 10 g, "porridge and fruit"
  after: carbs 80 g, protein 35 g
`)
  })

  it('prints sums in the units of --units, which never change what a day without units means', async () => {
    const bare = 'A day\nrun\n  5 km @ 4:05\nlift\n  squat 3 x 5 @ 100\n'
    const { stdout } = await check(bare, '--units', 'mi lb')
    // 5 / 1.609344 miles; 15 x 100 / 0.45359237 lb; 1 % around 5 x 4:05
    expect(stdout).toContain('\n3.11 mi, 3 sets, 3306.9 lb in all\n')
    expect(stdout).toContain('\n    5 km in 20:12.8-20:37.3,')
    expect(stdout).toContain('\n    100 kg: 25 + 15 a side\n')
    expect(await check(bare, '--units', 'mi lb', '--json')).toEqual(await check(bare, '--json'))
  })

  it('counts running among lifts on its line, as in the sum', async () => {
    const { stdout } = await check(
      'A day\nrun\n  2 km easy\nlift\n  for time: 2 rounds of 20 step-up, 60 m carry, 200 m run\n',
      '--json',
    )
    const { parts, runMeters } = JSON.parse(stdout)
    expect(parts.map(({ items }: { items: { meters: number }[] }) => items[0]?.meters)).toEqual([2000, 400])
    expect(runMeters).toBe(2400)
  })

  it('shows the effect of a lane on a lap, and loads that cannot be made', async () => {
    const { stdout } = await check(
      'A day\nrun\n  1200 m @ 4:00/km, lane 4\n  10 min @ 4:00/km\nlift\n  press 3 x 4 @ 91 kg\n  squat 2 x 5 @ 75%\n  curl 3 x 10 @ 12 kg\n',
    )
    // lane 4 is 422.37 m: a lap at 240 s/km within 1 % is 100.4 to 102.4 s
    expect(stdout).toContain('\n    1.2 km in 4:45.1-4:50.9, lap in lane 4 1:40.4-1:42.4\n')
    expect(stdout).toContain('\n    3:58/km to 4:02/km, lap 1:35-1:37\n')
    expect(stdout).toContain(
      '\n    91 kg: not possible with these plates; nearest: 90 kg (25 + 10 a\n      side) or 92.5 kg (25 + 10 + 1.25 a side)\n',
    )
    expect(stdout).toContain('\n    75% of an unknown maximum: you type the load at the first set\n')
    expect(stdout).toContain('\n  curl 3 x 10 @ 12 kg\n')
  })

  it('counts work by time beside the metres', async () => {
    const { stdout } = await check(
      'A day\nrun\n  2 km easy\n  15:00 @ 4:10/km\n  jog 300 m\n  3 x 500 m, jog 1:00\nlift\n  squat 2 x 5\n',
    )
    // 2000 + 300 + 3 x 500 m; the jogs by time are rests, not work
    expect(stdout).toContain('\n3.8 km and 15 min, 2 sets\n')
    expect(stdout).toContain('\nrun, 3.8 km and 15 min, about ')
  })

  it('says the minutes of a run by time once', async () => {
    const { stdout } = await check('A day\nrun\n  40 min easy\n')
    expect(stdout).toContain('A day\nabout 40 min, a rough guess\n')
    expect(stdout).toContain('\nrun, about 40 min\n')
  })

  it('shows no plates without a bar', async () => {
    const { stdout } = await check(
      'A day\nmax: dumbbell press 40 kg\nlift\n  kettlebell swing 3 x 12 @ 24 kg\n  dumbbell press 3 x 8 @ 75%\n  row 3 x 8 each arm @ 30 kg, build from 20 kg\n',
    )
    expect(stdout).toContain('\n    warm-up 5 x 20 kg\n')
    expect(stdout).toMatch(/\n {2}kettlebell swing 3 x 12 @ 24 kg\n {2}dumbbell press 3 x 8 @ 75%\n/)
    expect(stdout).toContain('\n    75% of 40 kg (max: in the file): 30 kg\n')
  })

  it('shows what a load from last time is, also without a bar', async () => {
    const logbook = temporaryFolder()
    const lines = (load: string, added: string) =>
      `A day\nlift\n  db press 1 x 8 @ ${load}\n  dip 1 x 5 @ ${added}\n`
    await keepOnPaper(logbook, lines('2x20 kg', 'bodyweight+10 kg'), '=\n=\n', { date: '2026-11-19' })
    const files = { 'day.txt': lines('last + 2.5 kg', 'last + 2.5 kg') }
    const { stdout } = await runProgram(['check', 'day.txt'], { logbook, files })
    expect(stdout).toContain('\n    2x22.5 kg\n')
    expect(stdout).toContain('\n    bodyweight+12.5 kg\n')
  })

  it('shows laps in a run that may be on a track, and none on the road', async () => {
    const laps = async (name: string, header = '') => {
      const { stdout } = await check(`A day\n${header}run${name}\n  5 km @ 4:00/km\n`)
      return /, lap (\S+)/.exec(stdout)?.[1] ?? null
    }
    // 96 s within 1 %, and half of that on a track of 200 m.
    expect(await laps('')).toBe('1:35-1:37')
    expect(await laps(': intervals')).toBe('1:35-1:37')
    expect(await laps(': indoor track', 'lap: 200 m\n')).toBe('0:47.5-0:48.5')
    expect(await laps(': road')).toBeNull()
    expect(await laps(': road', 'lap: 200 m\n')).toBe('0:47.5-0:48.5')
  })

  it('shows no laps on a machine', async () => {
    const { stdout } = await check(
      'A day\ncross: rower\n  2 km @ 2:00/500 m\nrun: treadmill\n  1 km @ 12 km/h\n',
    )
    expect(stdout).toContain('\n    2 km in 7:55.2-8:04.8\n')
    expect(stdout).toContain('\n    1 km in 4:57-5:03\n')
  })

  it('points at every problem, for people and for programs', async () => {
    const { code, stdout, stderr } = await check('A day\nrun\n  6 x 500 m @ 3:75/km, jog 200 m\n', '--json')
    const message = 'a pace is written m:ss, so 3:75 cannot be read (seconds run from 00 to 59)'
    expect(code).toBe(1)
    expect(stderr).toBe(`pausebook: The prescription "day.txt" has 1 problem. Correct the file.
day.txt:3:15: ${message}
    6 x 500 m @ 3:75/km, jog 200 m
                ^^^^
`)
    expect(JSON.parse(stdout).error.problems).toEqual([{ line: 3, column: 15, message }])
  })

  it('points at lines that are not UTF-8, and reads the other lines', async () => {
    const day = Buffer.from('A day\nrun\n  2 km \xff easy\n  6 x 500, jog 200 m\n', 'latin1')
    const { code, stderr } = await runProgram(['check', 'day.txt'], { files: { 'day.txt': day } })
    expect(code).toBe(1)
    expect(stderr).toBe(`pausebook: The prescription "day.txt" has 2 problems. Correct the file.
day.txt:3:8: this is not UTF-8: save the file as UTF-8
    2 km \ufffd easy
         ^
day.txt:4:7: a distance or a time needs a unit; write: 6 x 500 m, jog 200 m
    6 x 500, jog 200 m
        ^^^
`)
  })

  it('warns of implausible values, and reads them', async () => {
    const { code, stdout, stderr } = await check('A day\nlift\n  squat 3 x 5 @ 925 kg, "fast"\n')
    expect(code).toBe(0)
    expect(stdout).toContain('\n  squat 3 x 5 @ 925 kg, "fast"\n')
    expect(
      stderr,
    ).toBe(`day.txt:3:17: warning: 925 kg is more than anyone lifts (500 kg); did you mean 92.5 kg?
    squat 3 x 5 @ 925 kg, "fast"
                  ^^^^^^
`)
  })

  it('calls standard input by its name in a warning as in an error', async () => {
    const said = async (text: string) => (await runProgram(['check', '-'], { files: { '-': text } })).stderr
    expect(await said('A day\nlift\n  squat 3 x 5 @ 80 kg, socks\n')).toMatch(
      /^standard input:3:\d+: warning: /,
    )
    expect(await said('A day\nlift\n  squat 3 x 5 @ 8\n')).toMatch(/\nstandard input:3:\d+: /)
  })

  it('prints hints beside the day', async () => {
    const { code, stdout, stderr } = await check('A day\nmax: sqaut 100 kg\nlift\n  squat 3 x 5 @ 80 kg\n')
    expect(code).toBe(0)
    expect(stdout).toContain('squat 3 x 5 @ 80 kg')
    expect(stderr).toContain('day.txt:2:')
    expect(stderr).toContain('warning: no exercise of this day is called sqaut')
  })

  it('knows the maxima of earlier days for a warm-up up to a load in percent', async () => {
    const logbook = temporaryFolder()
    const before = 'Squats\ndate: 2026-11-24\nlift\n  squat 1 x 1 @ 100 kg\n'
    await keepOnPaper(logbook, before, '1 @10\n')
    const files = { 'day.txt': 'Squats\nlift\n  squat 3 x 5 @ 80%, build from 40 kg\n' }
    const { code, stdout } = await runProgram(['check', 'day.txt'], { logbook, files })
    expect(code).toBe(0)
    expect(stdout).toContain('    80% of 100 kg (estimate of 24 Nov 2026): 80 kg')
    expect(stdout).toContain('    warm-up 5 x 40 kg')
  })
})
