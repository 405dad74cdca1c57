import { describe, expect, test } from 'vitest'
import { runProgram } from './runProgram.ts'

const paces = (race: string, time: string, ...more: string[]) =>
  runProgram(['paces', '--race', race, '--time', time, ...more])

describe('pausebook paces', () => {
  test('shows eight lanes with --lanes', async () => {
    const { code, stdout, stderr } = await paces('10 km', '40:00', '--lanes')
    expect([code, stderr]).toEqual([0, ''])
    expect(stdout).toBe(`10 km in 40:00 is 4:00.0/km, 6:26.2/mi

One lap of a 400 m track at that pace
  lane         1       2       3       4       5       6       7       8
  metres  400.00  407.04  414.70  422.37  430.03  437.70  445.37  453.03
  time    1:36.0  1:37.7  1:39.5  1:41.4  1:43.2  1:45.0  1:46.9  1:48.7

Equal performances
  distance      Daniels & Gilbert 1979     Riegel 1981
  1500 m                          5:13            5:21
  1 mi                            5:38            5:46
  3 km                           11:10           11:10
  5 km                           19:18           19:11
  10 km                          40:00           40:00
  half marathon                1:28:33         1:28:15
  marathon                     3:04:38         3:04:00
  Only from a race or a time trial, and no promise: half of all marathon runners
  are at least ten minutes slower than Riegel says (Vickers & Vertosick 2016).
  From a goal time: goals for a race, not training paces.
`)
  })
  test('shows the lap of lane 1 in one line without --lanes, and the rest as before', async () => {
    const short = (await paces('10 km', '40:00')).stdout
    const [head, lanes, equals] = (await paces('10 km', '40:00', '--lanes')).stdout.split('\n\n')
    expect(lanes).toContain('lane')
    expect(short).toBe(`${head}\nOne lap of a 400 m track: 1:36.0\n\n${equals}`)
  })
  test('shows the lap of another track', async () => {
    // 42:00 over 10 km is 50.4 s for 200 m.
    const indoors = await paces('10 km', '42:00', '--lap', '200')
    expect(indoors.stdout).toContain('\nOne lap of a 200 m track: 0:50.4\n')
    expect((await paces('10 km', '42:00', '--lap', '200', '--lanes')).stderr).toBe(
      'pausebook: --lanes are those of a 400 m track. Leave out --lanes or --lap.\n',
    )
  })
  test('refuses lanes on the race card', async () => {
    expect(await paces('10 km', '40:00', '--card', '--lanes')).toEqual({
      code: 2,
      stdout: '',
      stderr: 'pausebook: --lanes is not for the race card. Leave out --lanes or --card.\n',
    })
  })
  test('gives no training paces, from an 800 m or from any race', async () => {
    for (const race of [
      ['800 m', '2:10'],
      ['marathon', '4:29:00'],
    ] as const) {
      expect((await paces(race[0], race[1])).stdout).not.toMatch(/easy running|VO2max/)
    }
  })
  test('marks a time outside the equations', async () => {
    const { stdout } = await paces('marathon', '3:59:00')
    expect(stdout).toContain('  marathon                     3:59:00         3:59:00 (*)\n')
    expect(stdout).toContain(
      '  * neither holds there, (*) Riegel does not: 3.5 min to 4 h, Riegel to 230 min\n',
    )
    expect((await paces('800 m', '2:10')).stdout).toContain(
      '  marathon                     2:32:24         2:24:59 *\n',
    )
    expect((await paces('10 km', '40:00')).stdout).not.toContain('*')
  })
  test('prints no line wider than 80 columns, and none that ends in a space', async () => {
    for (const [race, time] of [
      ['marathon', '5:59:00'],
      ['100 m', '10'],
      ['half marathon', '2:30:00'],
    ] as const) {
      for (const line of (await paces(race, time.length < 3 ? `${time} s` : time)).stdout.split('\n')) {
        expect(line.length).toBeLessThanOrEqual(80)
        expect(line).toBe(line.trimEnd())
      }
    }
  })
  test('prints JSON for programs, in SI and full precision', async () => {
    const read = JSON.parse((await paces('half marathon', '1:20:00', '--json')).stdout)
    expect(Object.keys(read)).toEqual(['race', 'lap', 'laps', 'equalPerformances'])
    expect(read.race).toEqual({
      distance: 'half marathon',
      meters: 21_097.5,
      seconds: 4800,
      secondsPerKm: expect.closeTo(227.515108, 6),
      secondsPerMile: expect.closeTo(366.150075, 6),
    })
    expect(read.laps[0]).toEqual({ lane: 1, meters: 400, seconds: expect.closeTo(91.006, 3) })
    expect(read.laps).toHaveLength(8)
    expect(read.equalPerformances.map((each: { distance: string }) => each.distance)).toEqual([
      '1500 m',
      '1 mi',
      '3 km',
      '5 km',
      '10 km',
      'half marathon',
      'marathon',
    ])
    expect(read.equalPerformances[5]).toEqual({
      distance: 'half marathon',
      meters: 21_097.5,
      danielsGilbert: { seconds: expect.closeTo(4800, 6), holds: true },
      riegel: { seconds: 4800, holds: true },
    })
  })

  const refused = async (race: string, time: string) => {
    const { code, stdout, stderr } = await paces(race, time)
    expect(stdout).toBe('')
    return [code, stderr]
  }
  test.each(['0 m', '0', '10', '10 parsecs', ''])('refuses a race of "%s"', async (race) => {
    expect(await refused(race, '40:00')).toEqual([
      2,
      `pausebook: Invalid distance "${race}". Example: "10 km", "1 mi" or "half marathon".\n`,
    ])
  })
  test.each(['0', '0:00', '40', '40:75', '40:5', 'soon'])('refuses a time of "%s"', async (time) => {
    expect(await refused('10 km', time)).toEqual([
      2,
      `pausebook: Invalid time "${time}". Example: 40:00 or 1:28:30.\n`,
    ])
  })
  test('suggests 1:28:00 for a half marathon in 1:28', async () => {
    expect(await refused('half marathon', '1:28')).toEqual([
      1,
      'pausebook: half marathon in 1:28 (88 s) is faster than any human: did you mean 1:28:00?\n',
    ])
  })
  test('refuses what is slower than walking', async () => {
    expect(await refused('400 m', '80:00')).toEqual([
      1,
      'pausebook: 400 m in 1:20:00 is slower than a walk: did you mean 1:20?\n',
    ])
    expect(await refused('1 m', '200 h')).toEqual([
      1,
      'pausebook: 1 m in 200:00:00 is slower than a walk. Check the distance and the time.\n',
    ])
  })
  test('refuses a race without its time', async () => {
    for (const argv of [['paces'], ['paces', '--race', '10 km'], ['paces', '--time', '40:00']]) {
      expect(await runProgram(argv)).toEqual({
        code: 2,
        stdout: '',
        stderr: 'pausebook: paces needs a race and its time. Write --race "10 km" --time 40:00.\n',
      })
    }
  })
})
