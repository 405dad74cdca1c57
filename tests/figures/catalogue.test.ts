import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { catalogue, figureNames, figureOf } from '../../src/figures/catalogue.ts'
import { sources } from '../../src/figures/figure.ts'

describe('the catalogue of figures', () => {
  test.each(figureNames)('lists %s in whole words, with a full explanation', (name) => {
    const entry = catalogue[name]
    expect(name).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/)
    for (const text of [entry.title, entry.holds, entry.holdsNot])
      expect(text.trim().length).toBeGreaterThan(3)
    expect(entry.equation.length).toBeGreaterThan(0)
    expect(entry.sources.length).toBeGreaterThan(0)
    expect(entry.sources.filter((source) => !(source in sources))).toEqual([])
  })
  test.each(figureNames)('writes %s in plain characters', (name) => {
    const { example, ...entry } = catalogue[name]
    expect(JSON.stringify(entry) + example().join('')).toMatch(/^[\x20-\x7e]*$/)
  })
  test.each(figureNames)('ends the worked example of %s with a figure, not with "none"', (name) => {
    const steps = catalogue[name].example()
    expect(steps.length).toBeGreaterThan(0)
    expect(steps.join(' ')).not.toMatch(/NaN|Infinity|undefined|null|not known$|no estimate/)
  })
  test('has no word for two figures', () => {
    const words = figureNames.flatMap((name) => [name, ...catalogue[name].aliases])
    const plain = words.map((word) => word.replaceAll('-', ''))
    expect(plain.filter((word, index) => plain.indexOf(word) !== index)).toEqual([])
  })
  test('finds a figure in any case, by name or by another word', () => {
    expect(figureOf('One-Rep-Max')?.name).toBe('one-rep-max')
    expect(figureOf('one rep max')?.name).toBe('one-rep-max')
    expect(figureOf('CV')?.name).toBe('splits')
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
  test('what is a rule of this program is marked so: envelope, weights, warmUp, next load, what comes next', () => {
    const own: readonly string[] = figureNames.filter((name) =>
      (catalogue[name].sources as readonly string[]).includes("This program's own rule"),
    )
    for (const name of ['one-rep-max', 'session-maximum', 'warm-up-sets', 'next-load', 'next', 'hard', 'cut'])
      expect(own).toContain(name)
  })
  test('shows the times of equal performances, never a score', () => {
    expect(figureNames.filter((name) => /vo2/i.test(name + catalogue[name].title))).toEqual([])
    expect(catalogue['equal-performance'].example().at(-1)).toBe(
      'the same quotient over 21097.5 m: VO2 44.7294 / F 0.861106, in 1:28:32.8',
    )
  })
  test('uses each source for some figure, or prints it beside one', () => {
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

/* Computed by hand: on paper, or with a calculator for roots and powers; deviations, lines and intervals with numpy
 * 2.4.6 and scipy 1.17.1. */
describe('the worked example of', () => {
  test.each([
    // 237 x 0.98 = 232.26, 237 x 1.02 = 241.74; 3000 of 8000 m
    [
      'goal-share',
      ['at goal pace: 3:52.3/km to 4:01.7/km', '3000 m at 3:56.0/km', '5000 m at 5:00.0/km', 'share 37.5 %'],
    ],
    // 36.5 + 1.22 + 0.2 = 37.92; 237 x 0.40704 = 96.47
    ['lane', ['lane 2: 168.78 + 6.283185 x 37.92 = 407.04 m', 'at 3:57.0/km: 1:36.5 a lap']],
    // 225 + 227 + 228 / 2 = 566 and 228 / 2 + 231 + 234 = 579 over 2.5 km each; 13 / 566
    ['halves', ['5000 m cut at 2500 m', 'first 3:46.4/km, second 3:51.6/km', 'change 2.3 %: positive']],
    ['in-range', ['range 1:47.5 to 1:52.5', '1:49.2 in', '1:47.4 fast', '1:53 slow', '1 of 3 in']],
    // 229 - 225 = 4 and so on; 50 / 4 = 12.5, its root 3.5355; (2 x 4 + 1 x 2 + 1 x 2 + 2 x 5) / 10 = 2.2; 2.2 / 229
    [
      'splits',
      [
        '(1, 3:45) (2, 3:47) (3, 3:48) (4, 3:51) (5, 3:54)',
        'mean 229 s; range 234 s - 225 s = 9 s',
        'squares of the differences: 16 + 4 + 1 + 4 + 25; / (5 - 1), square root: SD 3.536 s',
        'CV 3.536 s / 229 s x 100 = 1.544 %',
        'slope 2.2 s a split / mean 229 s x 100 = 0.961 % a split',
      ],
    ],
    // -4.60 + 0.182258 x 250 + 0.000104 x 250^2 = 47.4645
    // (2 x 2.5 + 1.5 + 0.5 + 2 x 2.5) / 10 = 1.2; the errors squared are 1.6, and the root of 1.6 / 3 / 10 is 0.231
    [
      'trend',
      ['(0, 100) (1, 101) (2, 103.5) (3, 103) (4, 105)', 'means 2 and 102.5; slope 1.2 +- 0.231 kg a week'],
    ],
    ['rest-taken', ['measured: 150, 163, 176 s', 'mean 163 s, prescribed 150 s']],
    ['top-set', ['set 1: 5 x 90 kg', 'set 2: 2 x 100 kg', 'set 3: 3 x 100 kg', 'top: set 3']],
    [
      'tonnage',
      ['3 x 92.5 kg: 3 x 92.5 kg = 277.5 kg', '10 each side x 45 kg: 20 x 45 kg = 900 kg', 'sum 1177.5 kg'],
    ],
    // 52.5 / 18.5 = 2.84, and 52.5 in 3 steps; 40 / 92.5 = 43 %
    [
      'warm-up-sets',
      [
        '(92.5 - 40) / (20 % of 92.5) = 2.84: 3 steps of 17.5',
        '40 x 8 (43 %), rest 60 s',
        '60 x 5 (65 %), rest 60 s',
        '75 x 3 (81 %), rest 60 s',
        '85 x 1 (92 %), rest 90 s',
      ],
    ],
    // 2 x 68; 1 and 1.2 x 68; 0.25 x 68
    [
      'fuel-ranges',
      [
        '2 h before 110 min: carbohydrate 136 g',
        '7 h until the next session: carbohydrate 68 to 82 g an hour',
        'protein 17 g a meal (20 to 40 g for anyone)',
      ],
    ],
    [
      'session-load',
      ['run: 8 x 62 min = 496', 'lift: 7 x 48 min = 336, 95 min after the part before', 'session 832'],
    ],
    ['goal-pace', ['10000 m in 39:30: 3:57.0/km', '3 km: 240 - 237 = 3 s/km']],
    // (42 + 45 + 30 + 51) / 4; a cut by 60 and by 41 %
    [
      'taper',
      ['m = (42 + 45 + 30 + 51) / 4 = 42 km', 'from = 42 x 0.40 = 16.8 km', 'to = 42 x 0.59 = 24.78 km'],
    ],
    // The root of a half; 6 x 0.7071 = 4.24, and repeats are whole
    [
      'cut',
      [
        'f = square root of (5000 / 10000) = 0.7071',
        '5000 m x 0.7071 = 3535.53 m, rounded 3500 m',
        '6 repeats x 0.7071 = 4.24, rounded up 5',
      ],
    ],
    // 4 % x (8 - 10) = - 8 %: 85.1, and 85 is the nearest load.
    [
      'next-load',
      ['RPE 8 written, 10 typed: change -8 %', '92.5 x 0.92 = 85.1 kg, the nearest that can be made 85 kg'],
    ],
    // 485 to 510 s for 2 km are 4:02.5 to 4:15.0; the range is 4:05 less 1 % to 4:10.
    ['rest-of-interval', ['so far 4:06.7/km; 2000 m left in 8:05.0 to 8:30.0', '4:02.6 to 4:10.0/km']],
    ['plates', ['20 + 2 x (25 + 10 + 1.25) = 92.5']],
    // 92.5 x 0.9 = 83.25
    [
      'next',
      [
        '5 weeks since the last time: 10 % less',
        '92.5 x 0.9 = 83.25 kg, the nearest that can be made 82.5 kg',
      ],
    ],
    ['hard', ['easy 10 km at heart rate 178, hr-max 190: 178 / 190 = 93.7 %, so hard']],
    [
      'week-load',
      [
        '360 + 0 + 315 + 160 + 0 + 720 + 180 = 1735',
        'mean 247.8571 / SD 250.0643 = monotony 0.991174',
        '1735 x 0.991174 = 1719.69 load x monotony',
      ],
    ],
    [
      'run-cost',
      [
        '12 days, 6 after running',
        '-5.5 % (-6.5 to -4.4)',
        'at the newest day about 97.5 kg after running, 103.2 kg fresh',
      ],
    ],
    [
      'leg-cost',
      [
        'mean of 6 days after heavy legs 347.3 s/km, of 7 others 340.1 s/km',
        'degrees of freedom 8.9',
        'difference 7.2 s/km (2.8 to 11.5)',
      ],
    ],
    ['pace-at-heart-rate', ['345, 341, 350, 338 s/km', 'mean 343.5 s/km (335.2 to 351.8)']],
    [
      'critical-speed',
      ['800 m in 140 s, 1500 m in 285 s, 3000 m in 610 s', "CS 4.67 +- 0.05 m/s, D' 156 +- 20 m"],
    ],
    // ln 2.1 / ln 2 = 1.0704
    ['own-exponent', ['5000 m in 1200 s, 10000 m in 2520 s', 'k = 1.07']],
    // 2800 / 2940 = 0.952
    [
      'heart-rate-drift',
      ['4000 m in 2800 beats: 1.429 m a beat', '4000 m in 2940 beats: 1.361 m a beat', '-4.8 %'],
    ],
    // The median of three is 109.5 s; 3 % more is 112.8 s.
    [
      'repeats-advice',
      [
        'range 1:47.5 to 1:52.5; so far 1:49.0, 1:50.0, 1:49.5, 1:54.0, 1:54.5',
        'rest longer, ease off, or stop here',
      ],
    ],
    ['running-energy', ['68 kg x 13.6 km x 0.8 to 1.0 = 739.84 to 924.8 kcal', 'printed 750 to 900 kcal']],
  ] as const)('%s is printed step by step', (name, lines) => {
    expect(catalogue[name].example()).toEqual(lines)
  })
})

/* Computes each side of an equals sign separately, from the printed text. */
describe('the sums of the worked examples', () => {
  const sumsOf = (name: (typeof figureNames)[number]) =>
    catalogue[name].example().flatMap((line) =>
      line
        .replace(/^[^=]*: /, '')
        // As many hundredths as that many percent.
        .replace(/ x 100(?= = [\d.]+ %)/, '')
        .split(/, | so /)
        .flatMap((part) => {
          const sides = part.split(' = ').map(worthOf)
          return sides.slice(1).map((right, index) => ({ line, left: sides[index] ?? null, right }))
        })
        .filter(({ left, right }) => left !== null && right !== null),
    )

  test('are found in many of them', () => {
    expect(figureNames.filter((name) => sumsOf(name).length > 0).length).toBeGreaterThan(15)
  })

  test.each(figureNames)('add up in %s', (name) => {
    for (const { line, left, right } of sumsOf(name))
      expect(Math.abs((left ?? 0) - (right ?? 0)), line).toBeLessThanOrEqual(0.002 * Math.abs(right ?? 0))
  })
})

/** The value of numbers with + - x / ^ and brackets, without units; null for anything else. */
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
