import { describe, expect, test } from 'vitest'
import { figureNames } from '../../src/figures/catalogue.ts'
import { runProgram } from './runProgram.ts'

const explain = (...words: string[]) => runProgram(['explain', ...words])

describe('pausebook explain', () => {
  test('puts a unit into brackets only where there is one', async () => {
    expect((await explain(...figureNames)).stdout).not.toContain('()')
  })
  test('lists all figures without a name', async () => {
    const { code, stdout } = await explain()
    expect(code).toBe(0)
    expect(stdout).toMatch(/^Figures that can be explained \(pausebook explain FIGURE\)\n\n/)
    for (const name of figureNames) expect(stdout).toContain(`\n  ${name} `)
  })
  test('prints the whole page of a figure', async () => {
    expect(await explain('riegel')).toEqual({
      code: 0,
      stderr: '',
      stdout: `Equal performance at another distance (Riegel) (riegel)

  T2 = T1 (D2 / D1)^1.06

  T         time (s)
  D         distance (m)

Holds
  from 3.5 to 230 minutes.

Does not hold
  for anything but a race or a time trial: no time is predicted from training.
  Nor for times outside its range. Half of all marathon runners are ten minutes
  slower or more (Vickers 2016).

Example, worked out just now
  2400 s x (21097.5 / 10000)^1.06 = 5295.37 s = 1:28:15

Sources
  - Riegel PS (1977) Time predicting. Runner's World, August (the exponent 1.06)
  - Riegel PS (1981) Athletic records and human endurance. American Scientist
    69(3):285-290 (the general form)
  - Vickers AJ, Vertosick EA (2016) BMC Sports Sci Med Rehabil 8:26 (on Riegel's
    rule)
`,
    })
  })
  test.each(figureNames)('fits %s into 80 columns, without spaces at the ends of lines', async (name) => {
    for (const line of (await explain(name)).stdout.split('\n')) {
      expect(line.length).toBeLessThanOrEqual(80)
      expect(line).toBe(line.trimEnd())
    }
  })
  test('finds a figure by another word, also in several words', async () => {
    expect((await explain('cv')).stdout).toMatch(
      /^Splits of the same length: mean, deviation, range, fade \(splits\)\n/,
    )
    expect((await explain('one', 'rep', 'max')).stdout).toMatch(
      /^Estimated one-repetition maximum \(one-rep-max\)/,
    )
  })
  test('prints JSON for programs', async () => {
    const read = JSON.parse((await explain('fade', '--json')).stdout)
    expect(Object.keys(read)).toEqual([
      'name',
      'title',
      'aliases',
      'equation',
      'symbols',
      'holds',
      'holdsNot',
      'sources',
      'example',
    ])
    expect(read.example.at(-1)).toBe('slope 2.2 s a split / mean 229 s x 100 = 0.961 % a split')
    expect(read.sources.map(({ name }: { name: string }) => name)).toContain('Least squares')
    const list = JSON.parse((await explain('--json')).stdout)
    expect(list.map((each: { name: string }) => each.name)).toEqual(figureNames)
  })
  test('explains several figures one after the other, if their words are not one figure', async () => {
    const [pace, halves] = [await explain('pace'), await explain('halves')]
    expect(await explain('pace', 'halves', 'pace')).toEqual({
      code: 0,
      stdout: `${pace.stdout}\n${halves.stdout}`,
      stderr: '',
    })
    const read = JSON.parse((await explain('pace', 'halves', '--json')).stdout)
    expect(read.map((each: { name: string }) => each.name)).toEqual(['pace', 'halves'])
    expect((await explain('pace', 'cadence')).stderr).toBe(
      'pausebook: There is no figure "pace cadence". Did you mean pace, goal-pace, goal-share or pace-at-heart-rate?\n',
    )
  })
  test('refuses an unknown figure, and suggests similar ones', async () => {
    expect(await explain('cadence')).toEqual({
      code: 1,
      stdout: '',
      stderr: 'pausebook: There is no figure "cadence". "pausebook explain" lists them all.\n',
    })
    expect((await explain('riegl')).stderr).toBe(
      'pausebook: There is no figure "riegl". Did you mean riegel?\n',
    )
    expect((await explain('tonage')).stderr).toContain('Did you mean tonnage?')
    expect((await explain('1rpm')).stderr).toContain('Did you mean one-rep-max?')
    expect((await explain('tonnages')).stderr).toBe(
      'pausebook: There is no figure "tonnages". Did you mean tonnage?\n',
    )
  })
})
