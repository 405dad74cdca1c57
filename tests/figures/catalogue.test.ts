import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { catalogue, figureNames, figureOf } from '../../src/figures/catalogue.ts'
import { sources } from '../../src/figures/figure.ts'

describe('the catalogue of figures', () => {
  test.each(figureNames)('%s stands under its own name, in whole words, and is explained in full', (name) => {
    const entry = catalogue[name]
    expect(entry.name).toBe(name)
    expect(name).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/)
    for (const text of [entry.title, entry.holds, entry.holdsNot])
      expect(text.trim().length).toBeGreaterThan(3)
    expect(entry.equation.length).toBeGreaterThan(0)
    expect(entry.sources.length).toBeGreaterThan(0)
    expect(entry.sources.filter((source) => !(source in sources))).toEqual([])
  })
  test.each(figureNames)('%s is written in plain characters', (name) => {
    const { example, ...entry } = catalogue[name]
    expect(JSON.stringify(entry) + example().join('')).toMatch(/^[\x20-\x7e]*$/)
  })
  test.each(figureNames)('the worked example of %s ends in a figure, not in "none"', (name) => {
    const steps = catalogue[name].example()
    expect(steps.length).toBeGreaterThan(0)
    expect(steps.join(' ')).not.toMatch(/NaN|Infinity|undefined|null|not known$|no estimate/)
  })
  test('no word leads to two figures', () => {
    const words = figureNames.flatMap((name) => [name, ...catalogue[name].aliases])
    const plain = words.map((word) => word.replaceAll('-', ''))
    expect(plain.filter((word, index) => plain.indexOf(word) !== index)).toEqual([])
  })
  test('a figure is found whatever the case, by name or by another word', () => {
    expect(figureOf('One-Rep-Max')?.name).toBe('one-rep-max')
    expect(figureOf('one rep max')?.name).toBe('one-rep-max')
    expect(figureOf('CV')?.name).toBe('variation')
    expect(figureOf('Brzycki')?.name).toBe('one-rep-max')
    expect(figureOf('cadence')).toBeNull()
  })
  test('a marathon time of Riegel has its warning, and that of the other equation has none', () => {
    const withVickers = figureNames.filter((name) =>
      (catalogue[name].sources as readonly string[]).includes('Vickers 2016'),
    )
    expect(withVickers).toEqual(['riegel'])
  })
  test('an estimated maximum says what the equations do not know', () => {
    const { sources, holdsNot, holds } = catalogue['one-rep-max']
    for (const source of ['Richens 2014', 'Halperin 2022', 'Nuzzo 2024', 'LeSuer 1997'] as const)
      expect(sources).toContain(source)
    expect(`${holds} ${holdsNot}`).toMatch(/endurance/)
    expect(`${holds} ${holdsNot}`).toMatch(/deadlift/)
    expect(`${holds} ${holdsNot}`).toMatch(/charts/)
  })
  test('what is a rule of this program is marked so: envelope, weights, ramp, next load, what comes next', () => {
    const own: readonly string[] = figureNames.filter((name) =>
      (catalogue[name].sources as readonly string[]).includes("This program's own rule"),
    )
    for (const name of ['one-rep-max', 'session-maximum', 'warm-up-ramp', 'next-load', 'next', 'hard', 'cut'])
      expect(own).toContain(name)
  })
  test('of equal performances the times are shown, never a score', () => {
    expect(figureNames.filter((name) => /vo2/i.test(name + catalogue[name].title))).toEqual([])
    expect(catalogue['equal-performance'].example().at(-1)).toBe(
      'the same quotient over 21097.5 m: VO2 44.7294 / F 0.861106, in 1:28:32.8',
    )
  })
  test('each source is that of some figure, or printed where something is said from it', () => {
    const used = new Set<string>(figureNames.flatMap((name) => catalogue[name].sources))
    const folder = join(import.meta.dirname, '../../src')
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) =>
      /\.tsx?$/.test(file),
    )
    const texts = files.map((file) => readFileSync(join(folder, file), 'utf8')).join('\n')
    const isPrinted = (name: string) => texts.includes(`sourceLine('${name}')`)
    expect(Object.keys(sources).filter((name) => !used.has(name) && !isPrinted(name))).toEqual([])
  })
})

describe('figures worked out from given numbers', () => {
  test('a straight set, step by step', () => {
    const set = { kg: 140, reps: 4, rpe: 9, failed: false, openEnded: false, formula: 'brzycki' } as const
    expect(catalogue['one-rep-max'].work(set)).toEqual([
      'w = 140 kg',
      'r = 10 - RPE 9 = 1',
      'n = 4 + 1 = 5',
      'all seven at n = 5: epley 163.3, brzycki 157.5, lander 159.2,',
      '  lombardi 164.4, mayhew 166.6, oconner 157.5, wathan 163.2',
      'brzycki: 36 x 140 / (37 - 5) = 157.5 kg',
      'range 152.73 kg to 170.06 kg',
    ])
  })
  test.each([
    ['epley', '120 x (1 + 5 / 30) = 140 kg'],
    ['lander', '100 x 120 / (101.3 - 2.67123 x 5) = 136.45 kg'],
    ['lombardi', '120 x 5^0.10 = 140.95 kg'],
    ['mayhew', '100 x 120 / (52.2 + 41.9 e^(-0.055 x 5)) = 142.81 kg'],
    ['oconner', '120 x (1 + 0.025 x 5) = 135 kg'],
    ['wathan', '100 x 120 / (48.8 + 53.8 e^(-0.075 x 5)) = 139.9 kg'],
  ] as const)('%s with its numbers put in', (equation, line) => {
    const set = { kg: 120, reps: 5, rpe: 10, failed: false, openEnded: false, formula: equation }
    expect(catalogue['one-rep-max'].work(set)[5]).toBe(`${equation}: ${line}`)
  })
  test('a set without an effort is "at least", one of bodyweight has the body taken off', () => {
    const set = {
      kg: 10,
      bodyKg: 68,
      reps: 6,
      rpe: null,
      failed: false,
      openEnded: false,
      formula: 'epley',
    } as const
    const steps = catalogue['one-rep-max'].work(set)
    expect([...steps.slice(0, 3), steps[5]]).toEqual([
      'w = body 68 kg + added 10 kg = 78 kg',
      'r = 0: no effort was recorded, so the figure is "at least"',
      'n = 6 + 0 = 6',
      'epley: 78 x (1 + 6 / 30) - body 68 = 25.6 kg',
    ])
    expect(steps.at(-1)).toBe('range 21.7 kg to 26.75 kg; at least, since no effort was recorded')
  })
  test('a lift of one is said to be one', () => {
    const set = { kg: 120, reps: 1, rpe: 10, failed: false, openEnded: false, formula: 'wathan' } as const
    expect(catalogue['one-rep-max'].work(set)).toContain(
      'n = 1: the load itself, 120 kg: a lift, not an estimate',
    )
  })
  test('no estimate is said to be none', () => {
    const set = { kg: 120, reps: 5, rpe: 6, failed: false, openEnded: false, formula: 'wathan' } as const
    expect(catalogue['one-rep-max'].work(set).slice(-3)).toEqual([
      'RPE 6 is below 7: no estimate',
      'n = 5 + 0 = 5',
      'no estimate',
    ])
    expect(catalogue['one-rep-max'].work({ ...set, bodyKg: null })[0]).toBe(
      'the body mass is not known: no figure',
    )
  })
  test('a cluster set that failed, and one without an upper end', () => {
    const set = {
      kg: 140,
      groups: [2, 1, 0],
      rpe: null,
      failed: true,
      openEnded: false,
      formula: 'wathan',
    } as const
    expect(catalogue['cluster-one-rep-max'].work(set).slice(1, 3)).toEqual([
      'r = 0: a repetition failed, nothing was in reserve',
      'n = max(2, 1 + 0) = 2; all repetitions + r = 3',
    ])
    const long = catalogue['cluster-one-rep-max'].work({ ...set, groups: [4, 4, 4], rpe: 8, failed: false })
    expect(long.at(-1)).toMatch(/to no upper end \(above 12 repetitions\)$/)
  })
  test('what cannot be worked out says so', () => {
    const one = [{ number: 1, seconds: 90 }]
    expect(catalogue.pace.work({ splits: [] })).toEqual(['nothing has both a time and a distance'])
    expect(catalogue['split-mean'].work({ splits: one })).toEqual(['1:30', 'mean not known'])
    expect(catalogue['split-deviation'].work({ splits: one })).toEqual(['fewer than two splits: none'])
    expect(catalogue['split-range'].work({ splits: one })).toEqual(['fewer than two splits: none'])
    expect(catalogue.fade.work({ splits: one })).toEqual(['fewer than three splits: none'])
    expect(catalogue.halves.work({ splits: [{ meters: 400, seconds: 90 }] })).toEqual([
      'fewer than two splits: none',
    ])
    expect(catalogue.trend.work({ points: [{ x: 0, y: 1 }], unit: 'kg' })).toEqual([
      'fewer than two different times: no line',
    ])
    expect(catalogue['session-load'].work({ parts: [{ name: 'run', effort: null, minutes: 60 }] })).toEqual([
      'run: not known',
      'session not known',
    ])
    const days = Array.from({ length: 7 }, (_, day) => ({ effortMinutes: 100, known: day !== 3 }))
    expect(catalogue['week-load'].work({ days })).toEqual([
      '100 + 100 + 100 + 100? + 100 + 100 + 100 = 700, at least: a day is not known',
      'no monotony: a day is not known, fewer than three days of training, or all days alike',
    ])
    expect(catalogue['meal-energy'].work({ carbsG: 70, proteinG: 18, fatG: null })).toEqual([
      '4 x 70 g + 4 x 18 g + 9 x not known',
      '= 352 kcal',
    ])
  })
})

/* Each side of an equals sign is computed apart, from what is printed. */
describe('the sums of the worked examples', () => {
  const sums = figureNames.flatMap((name) =>
    catalogue[name].example().flatMap((line) =>
      line
        .replace(/^[^=]*: /, '')
        // As many hundredths as that many percent.
        .replace(/ x 100(?= = [\d.]+ %)/, '')
        .split(/, | so /)
        .flatMap((part) => {
          const sides = part.split(' = ').map(worthOf)
          return sides.slice(1).map((right, index) => ({ name, line, left: sides[index] ?? null, right }))
        }),
    ),
  )
  const told = sums.filter(({ left, right }) => left !== null && right !== null)

  test('are found', () => {
    expect(new Set(told.map(({ name }) => name)).size).toBeGreaterThan(15)
  })

  test.each(told)('$name: $line', ({ left, right }) => {
    expect(Math.abs((left ?? 0) - (right ?? 0))).toBeLessThanOrEqual(0.002 * Math.abs(right ?? 0))
  })
})

/** The value of numbers with + - x / ^ and brackets, units left out; null for anything else. */
function worthOf(text: string): number | null {
  const plain = text
    .replace(/(?<=\d) (?:kg|lb|min|mi|g|m|s|s\/km|kcal|ml\/kg\/min)(?= |\)|$)/g, '')
    .replace(/ %( a week)?$/, ' / 100')
  const tokens = plain.match(/\d+(?:\.\d+)?|[-+x/^()]/g) ?? []
  if (tokens.join('') !== plain.replaceAll(' ', '') || tokens.length === 0) return null
  const next = () => tokens.shift() ?? ''
  const atom = (): number => {
    const token = next()
    if (token !== '(') return Number(token)
    const inner = sum()
    next()
    return inner
  }
  const power = (): number => {
    let value = atom()
    while (tokens[0] === '^' && next()) value **= atom()
    return value
  }
  const product = (): number => {
    let value = power()
    while (tokens[0] === 'x' || tokens[0] === '/') value = next() === 'x' ? value * power() : value / power()
    return value
  }
  const sum = (): number => {
    let value = product()
    while (tokens[0] === '+' || tokens[0] === '-')
      value = next() === '+' ? value + product() : value - product()
    return value
  }
  return sum()
}
