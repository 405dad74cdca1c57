import { describe, expect, it } from 'vitest'
import { printDiagnostics } from '../../src/prescription/lines.ts'
import { plainFoods, readFoods, sumOfFoods, withFoodsSummed } from '../../src/session/entry/fuel.ts'

const { foods, problems } = readFoods(plainFoods)

describe('readFoods', () => {
  it('reads the plain foods of the project', () => {
    expect(problems).toEqual([])
    expect(foods).toHaveLength(13)
  })

  it('names the list of foods in what is wrong with the whole file', () => {
    const said = (input: Uint8Array | string) => readFoods(input).problems.map(({ message }) => message)
    expect(said('a'.repeat(1024 * 1024 + 1))).toEqual([
      'this file is larger than 1 MiB, more than any list of foods needs: start a new one',
    ])
    expect(said(new Uint8Array([0, 0xff]))).toEqual([
      'this is not text: write the list of foods as a text file in UTF-8',
    ])
  })

  // USDA National Nutrient Database for Standard Reference, Release 26 (2013), public domain: carbohydrate by difference,
  // protein and total lipid of 100 g (ABBREV.txt, by the number of the food), the weight of a medium banana and apple, a
  // large egg, a tablespoon of honey, a cup of coffee (WEIGHT.txt). The caffeine of coffee, 40 mg in 100 g, is from memory.
  it.each([
    ['banana', '09040', 118, 22.84, 1.09, 0.33],
    ['apple', '09003', 182, 13.81, 0.26, 0.17],
    ['egg', '01123', 50, 0.72, 12.56, 9.51],
    ['oats', '08120', 100, 67.7, 13.15, 6.52],
    ['rice, cooked', '20045', 100, 28.17, 2.69, 0.28],
    ['spaghetti, cooked', '20121', 100, 30.86, 5.8, 0.93],
    ['potato, boiled', '11367', 100, 20.01, 1.71, 0.1],
    ['milk', '01077', 100, 4.8, 3.15, 3.25],
    ['chicken breast', '05064', 100, 0, 31.02, 3.57],
    ['olive oil', '04053', 100, 0, 0, 100],
    ['honey', '19296', 21, 82.4, 0.3, 0],
    ['sugar', '19335', 100, 99.98, 0, 0],
    ['coffee', '14209', 237, 0, 0.12, 0.02],
  ])('has the published values of %s, number %s', (name, _, grams, carbs, protein, fat) => {
    const food = foods.find((each) => each.name === name)
    expect(food?.amount).toEqual({ value: grams, unit: 'g' })
    const found = [food?.carbsG, food?.proteinG, food?.fatG]
    const published = [carbs, protein, fat].map((of100) => (of100 * grams) / 100)
    for (const [at, value] of published.entries())
      expect(Math.abs((found[at] ?? Number.NaN) - value)).toBeLessThanOrEqual(0.051)
  })

  it.each([
    [
      'banana 27 C',
      'foods.txt:1:1: a food is a name, a colon and its grams. Example: banana 118 g: 27 C 1.3 P 0.4 F',
    ],
    ['egg: 1 C\nEggs: 2 C', 'foods.txt:2:1: two lines are for "Eggs". Delete one'],
    ['egg: 1 C 2 Q', 'foods.txt:1:1: "2" is not understood; write the amounts as 27 C 1.3 P 0.4 F'],
    ['egg:', 'foods.txt:1:1: there are no grams after the colon.'],
    ['egg: 1 C 2 C', 'foods.txt:1:1: c typed twice; type it once'],
    ['egg 50 g: 80 C', 'that makes 80 g in 50 g of food. Check the numbers'],
    ['egg 50 g: 51.1 C', 'foods.txt:1:1: that makes 51.1 g in 50 g of food. Check the numbers'],
    ['  egg 1 C', 'foods.txt:1:3: a food is a name'],
    ['12: 1 C', 'foods.txt:1:1: Invalid food name "12".'],
    ['egg: 1 kcal 2 kcal', 'foods.txt:1:1: kcal typed twice; type it once'],
    ['egg: 1 mg caffeine 2 mg caffeine', 'foods.txt:1:1: caffeine typed twice; type it once'],
    ['egg: 1 Cal', 'foods.txt:1:1: "1" is not understood'],
    ['egg: 1 C, some, more', 'foods.txt:1:1: "some" is not understood'],
    ['a\u0007b: 1 C', 'foods.txt:1:2: the character U+0007 is not allowed: delete it'],
  ])('answers %j with what to write', (text, message) => {
    expect(printDiagnostics(readFoods(text).problems, 'foods.txt')).toContain(message)
  })

  it.each([
    ['  egg 1 C  ', 3, 7],
    ['egg 50 g: 20 C 20 P 20 F', 1, 24],
    ['\u0007b: 1 C', 1, 1],
  ])('marks the line of %j: column %i, %i characters', (text, column, length) => {
    const reading = readFoods(text)
    expect(reading.foods).toEqual([])
    expect(reading.problems.map((problem) => [problem.column, problem.length])).toEqual([[column, length]])
  })

  it('ends after a hundred problems, with one that says there are more', () => {
    expect(readFoods('egg\n'.repeat(150)).problems).toHaveLength(101)
  })

  it('refuses a file that is not UTF-8, and a line that is not', () => {
    const utf16 = readFoods(new Uint8Array([0xff, 0xfe, 0x61, 0x00]))
    expect(utf16.foods).toEqual([])
    expect(utf16.problems.map(({ message }) => message)).toEqual([
      'this file is written in UTF-16: save it as UTF-8',
    ])
    const encoder = new TextEncoder()
    const mixed = readFoods(
      new Uint8Array([...encoder.encode('egg: 1 C\n'), 0xff, ...encoder.encode('\nbun: 9 C')]),
    )
    expect(mixed.foods.map(({ name }) => name)).toEqual(['egg', 'bun'])
    expect(mixed.problems.map(({ line, message }) => [line, message])).toEqual([
      [2, 'this is not UTF-8: save the file as UTF-8'],
    ])
  })

  it('reads names, weights and amounts as they may be written', () => {
    const one = (text: string) => readFoods(text).foods[0]
    const nothing = { carbsG: null, proteinG: null, fatG: null, kcal: null, caffeineMg: null }
    expect(one('oat  milk, plain 240 ML : 16c 3.5P, 120 KCAL')).toEqual({
      ...nothing,
      name: 'oat milk, plain',
      amount: { value: 240, unit: 'ml' },
      carbsG: 16,
      proteinG: 3.5,
      kcal: 120,
    })
    expect(one('cola 330: 35 C 32 mg caffeine')).toMatchObject({
      name: 'cola 330',
      amount: null,
      caffeineMg: 32,
    })
    expect(one('  # none\n   \nnut   bar\t50.25g: 1.25 C, 30 mg  caffeine')).toEqual({
      ...nothing,
      name: 'nut bar',
      amount: { value: 50.25, unit: 'g' },
      carbsG: 1.25,
      caffeineMg: 30,
    })
    expect(one('bar 37,5 g: 20,5 C')).toMatchObject({ amount: { value: 37.5, unit: 'g' }, carbsG: 20.5 })
    expect(one('air 0 g: 0 C')).toMatchObject({ amount: null, carbsG: 0 })
    expect(one('gel 40 g: 1000 kcal')).toMatchObject({ kcal: 1000 })
    // What is eaten of a drink may weigh more than its millilitres; a gram may be off by rounding.
    expect(one('syrup 50 ml: 60 C')).toMatchObject({ carbsG: 60 })
    expect(one('sugar 50 g: 51 C')).toMatchObject({ carbsG: 51 })
  })

  it('still reads the other lines when one has a problem', () => {
    expect(readFoods('egg 1 C\nbread: 15 C\n').foods.map(({ name }) => name)).toEqual(['bread'])
  })
})

describe('sumOfFoods', () => {
  it('adds intervals and weights up', () => {
    // By hand: 2 x 0.4 + 27 + 0.8 x 67.7 = 81.96; 2 x 6.3 + 1.3 + 0.8 x 13.2 = 24.46; 2 x 4.8 + 0.4 + 0.8 x 6.5 = 15.2.
    expect(sumOfFoods('2 eggs, banana, 80 g oats', foods)).toEqual({
      text: 'carbs 82 g, protein 24.5 g, fat 15.2 g',
      unknown: [],
    })
    expect(sumOfFoods('Banana + oats 80 g + coffee', foods)?.text).toMatch(/, caffeine 95 mg$/)
  })

  it('knows a food by one or many, in any case, and by weight only if it has one', () => {
    const own = readFoods(
      'potato: 20 C\npeach: 10 C\nglass: 5 C\nmilk 100 ml: 5 C\nBig-Mix, sweet 50 g: 30 C 100 kcal\n',
    ).foods
    const carbs = (text: string) => sumOfFoods(text, own)?.text ?? null
    expect(carbs('potatoes')).toBe('carbs 20 g')
    expect(carbs('2 x peaches')).toBe('carbs 20 g')
    expect(carbs('glasses')).toBe('carbs 5 g')
    expect(carbs('250 ml milk')).toBe('carbs 12.5 g')
    expect(carbs('milk 250 ML')).toBe('carbs 12.5 g')
    expect(carbs('0.5 big mix sweet')).toBe('carbs 15 g, 50 kcal')
    expect(carbs('big mix sweet, potato')).toBe('carbs 50 g')
    expect(carbs('2  potatoes')).toBe('carbs 40 g')
    expect(carbs('1.25 peach')).toBe('carbs 12.5 g')
    expect(carbs('62.25 ml milk+milk  62.25ml')).toBe('carbs 6.2 g')
    expect(carbs('2 x milk 100 ml')).toBe('carbs 10 g')
    expect(carbs('2 X peaches')).toBe('carbs 20 g')
    expect(carbs('12')).toBeNull()
    expect(carbs('250 g milk')).toBeNull()
    expect(carbs('100 g potato')).toBeNull()
  })

  it('lists the foods that are unknown', () => {
    expect(sumOfFoods('banana, 2 pancakes', foods)).toMatchObject({ unknown: ['2 pancakes'] })
    expect(sumOfFoods('200 ml banana, egg', foods)?.unknown).toEqual(['200 ml banana'])
    expect(sumOfFoods(' egg ,, plum  jam ,', foods)?.unknown).toEqual(['plum  jam'])
  })

  it('adds amounts and caffeine that are typed beside foods', () => {
    // By hand: 27 + 30 g of carbohydrate, 1.3 + 20 g of protein.
    const sum = { text: 'carbs 57 g, protein 21.3 g, fat 0.4 g', unknown: [] }
    expect(sumOfFoods('banana, carbs 30 g, 20 g protein', foods)).toEqual(sum)
    expect(sumOfFoods('30 g of carbohydrate + banana + 20 protein', foods)).toEqual(sum)
    expect(sumOfFoods('banana, 50 mg caffeine, carbs 30 mg', foods)).toMatchObject({
      text: 'carbs 27 g, protein 1.3 g, fat 0.4 g, caffeine 50 mg',
      unknown: ['carbs 30 mg'],
    })
  })

  it.each([
    ...['carbs 70 g, protein 18 g', '450 kcal', '', '=', 'pancakes', '450 kcal, banana'],
    ...['caffeine 100 mg', 'carbs 50 g, caffeine 100 mg', 'carbohydrate 70 g', '20 g protein, pancakes'],
    ...['banana "ripe"'],
  ])('leaves %j to the other entries', (text) => {
    expect(sumOfFoods(text, foods)).toBeNull()
  })

  it('turns a meal into its grams and caffeine with the words as a note, unless it has no grams or an unknown food', () => {
    expect(withFoodsSummed('2 eggs, banana, 80 g oats', foods)).toBe(
      'carbs 82 g, protein 24.5 g, fat 15.2 g "2 eggs, banana, 80 g oats"',
    )
    expect(withFoodsSummed('coffee', foods)).toBe(
      'carbs 0 g, protein 0.3 g, fat 0 g, caffeine 95 mg "coffee"',
    )
    for (const meal of ['egg, pancake', 'pancakes', 'egg "late"', 'carbs 30 g', ''])
      expect(withFoodsSummed(meal, foods)).toBe(meal)
  })
})
