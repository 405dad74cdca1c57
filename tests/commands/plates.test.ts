import { describe, expect, test } from 'vitest'
import { drawSide } from '../../src/commands/plates.ts'
import { runProgram } from './runProgram.ts'

const plates = async (...words: string[]) => runProgram(['plates', ...words])
const refused = async (...words: string[]) => {
  const { code, stdout, stderr } = await plates(...words)
  expect(stdout).toBe('')
  return [code, stderr]
}

describe('pausebook plates', () => {
  test('draws and prints 92.5 kg', async () => {
    expect(await plates('92.5')).toEqual({
      code: 0,
      stderr: '',
      stdout: [
        '92.5 kg (bar 20 kg)',
        '',
        '  25 + 10 + 1.25 a side',
        '',
        '            ||',
        '            ||',
        '            ||   ||   ||',
        '  ==========||===||===||=======',
        '            ||   ||   ||',
        '            ||',
        '            ||',
        '            25   10   1.25',
        '',
      ].join('\n'),
    })
  })
  test('accepts the bar alone as a load', async () => {
    expect((await plates('20', 'kg')).stdout).toBe(
      '20 kg (bar 20 kg)\n\n  the bar alone\n\n  ==============\n',
    )
  })
  test('prints the nearest two loads if a load is impossible', async () => {
    expect((await plates('93kg')).stdout).toBe(
      'Nothing here makes 93 kg (bar 20 kg). The nearest:\n\n  92.5 kg  25 + 10 + 1.25 a side\n    95 kg  25 + 10 + 2.5 a side\n',
    )
  })
  test('prints only the nearest load below if all plates are not enough', async () => {
    expect((await plates('100', '--have', '1 x 25')).stdout).toBe(
      'Nothing here makes 100 kg (bar 20 kg). The nearest:\n\n  70 kg  25 a side\n',
    )
  })
  test('counts many plates', async () => {
    expect((await plates('300')).stdout).toContain('  4 x 25 + 2 x 20 a side\n')
  })
  test('includes collars and another bar', async () => {
    const { stdout } = await plates('60', '--bar', '15 kg', '--collars', '2.5')
    expect(stdout).toContain('60 kg (bar 15 kg, collars 2.5 kg each)\n\n  20 a side\n')
    expect((await plates('60', '--collars', 'none')).stdout).toContain('60 kg (bar 20 kg)\n')
  })
  test('keeps pounds: 225 lb is two of 45 on a bar of 45', async () => {
    expect((await plates('225', 'lb')).stdout).toContain('225 lb (bar 45 lb)\n\n  45 + 45 a side\n')
    expect((await plates('225', '--units', 'lb')).stdout).toContain('225 lb (bar 45 lb)\n')
  })
  test('converts a bar of 20 kg to 44.09 lb, never 45', async () => {
    expect((await plates('225 lb', '--bar', '20 kg')).stdout).toBe(
      'Nothing here makes 225 lb (bar 44.09 lb). The nearest:\n\n  224.09 lb  45 + 45 a side\n  229.09 lb  45 + 45 + 2.5 a side\n',
    )
  })
  test('prints JSON for programs', async () => {
    const { stdout, code } = await plates('225 lb', '--json')
    expect(code).toBe(0)
    expect(JSON.parse(stdout)).toEqual({
      load: 225,
      unit: 'lb',
      kg: 102.05828325,
      bar: 45,
      collar: 0,
      exact: { load: 225, kg: 102.05828325, side: [45, 45] },
      below: null,
      above: null,
    })
    expect(JSON.parse((await plates('21', '--json')).stdout)).toMatchObject({
      exact: null,
      below: { load: 20, side: [] },
      above: { load: 22.5, side: [1.25] },
    })
  })

  test('refuses a load below the bar', async () => {
    expect(await refused('15')).toEqual([
      1,
      'pausebook: 15 kg is less than the bar alone, 20 kg. Give at least that, or another bar with --bar.\n',
    ])
    expect(await refused('22', '--collars', '2.5')).toEqual([
      1,
      'pausebook: 22 kg is less than the bar and its collars alone, 25 kg. Give at least that, or another bar with --bar.\n',
    ])
  })
  test.each(['abc', '92,5', '92.5 stone', '0', '1e400'])('refuses the mass %s', async (text) => {
    expect(await refused(text)).toEqual([
      2,
      `pausebook: Invalid mass "${text}". Example: 92.5 kg or 225 lb.\n`,
    ])
  })
  test('refuses an invalid bar or collar', async () => {
    expect(await refused('60', '--bar', 'long')).toEqual([
      2,
      'pausebook: Invalid mass "long". Example: 20 kg.\n',
    ])
    expect(await refused('60', '--collars', 'two')).toEqual([
      2,
      'pausebook: Invalid mass "two". Example: 2.5 kg, the mass of one collar, or none.\n',
    ])
  })
  test('refuses plates that cannot be read', async () => {
    expect(await refused('60', '--have', '25+25')).toEqual([
      2,
      'pausebook: "25+25" cannot be read as plates in kg. Write pairs and mass as in 4 x 25, 2 x 2.5, each mass once, or none.\n',
    ])
  })
  test('never prints control characters of an invalid word', async () => {
    expect((await refused('\u001b[31m60'))[1]).toContain('"\uFFFD[31m60"')
  })
})

describe('the drawing of a side', () => {
  test('is left out if it would be too wide', () => {
    expect(drawSide(Array<number>(26).fill(25), 25, 80)).toEqual([])
    expect(drawSide([25, 10], 25, 80)).not.toEqual([])
  })
  test('never has a line wider than the terminal', () => {
    for (const line of drawSide(Array<number>(20).fill(20), 25, 80))
      expect(line.length).toBeLessThanOrEqual(78)
  })
})
