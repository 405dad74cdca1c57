import { kilogramsInPound } from '../../units/mass.ts'
import { metersInPaceUnit } from '../../units/pace.ts'
import { cutCount, cutMeters, fractionForRace } from '../cutting.ts'
import {
  atwaterKcal,
  carbsAfterAnHour,
  carbsBefore,
  type Grams,
  printedKcal,
  proteinOfMeal,
  runningKcal,
} from '../fuel.ts'
import { figure, known, num } from './figure.ts'

const caution = "for anyone but healthy adults; a dietitian's word goes before it."

/** Source: see the entries. */
export const fuelFigures = {
  'meal-energy': figure<Grams>({
    name: 'meal-energy',
    title: 'Energy of what was eaten',
    aliases: ['atwater', 'kcal', 'calories', 'energy'],
    equation: ['energy = 4 x carbohydrate + 4 x protein + 9 x fat'],
    symbols: [
      {
        symbol: 'energy',
        meaning: 'of what is known; a typed total more than 10 % off is questioned',
        unit: 'kcal',
      },
      { symbol: 'carbohydrate, protein, fat', meaning: 'as eaten', unit: 'g' },
    ],
    sources: ['Merrill and Watt 1955', 'Invented'],
    holds: 'on the average over foods.',
    holdsNot: 'for single foods, whose own factors differ. Intake less expenditure is never printed.',
    example: { carbsG: 75, proteinG: 20, fatG: 10 },
    work: (meal) => [
      `4 x ${known(meal.carbsG, 'g')} + 4 x ${known(meal.proteinG, 'g')} + 9 x ${known(meal.fatG, 'g')}`,
      `= ${known(atwaterKcal(meal), 'kcal')}`,
    ],
  }),
  'running-energy': figure<{ bodyKg: number; meters: number }>({
    name: 'running-energy',
    title: 'Energy of running, above rest',
    aliases: ['running-kcal', 'expenditure'],
    equation: ['energy = 0.8 to 1.0 x body mass x kilometres, each end printed to 50 kcal'],
    symbols: [
      { symbol: 'energy', meaning: 'net, as a range', unit: 'kcal' },
      { symbol: 'body mass', meaning: "the file's athlete:, else the newest in the settings", unit: 'kg' },
    ],
    sources: ['Minetti 2002', 'Margaria 1963'],
    holds: 'on the level, whatever the speed.',
    holdsNot: 'with a grade over 1 %, in sand or wind, or where the body mass is not known.',
    example: { bodyKg: 68, meters: 13_600 },
    work: ({ bodyKg, meters }) => {
      const range = runningKcal(bodyKg, meters)
      const printed = printedKcal(range)
      return [
        `${num(bodyKg)} kg x ${num(meters / 1000, 3)} km x 0.8 to 1.0 = ${num(range.from)} to ${num(range.to)} kcal`,
        `printed ${printed.from} to ${printed.to} kcal`,
      ]
    },
  }),
  'fuel-ranges': figure<{
    bodyKg: number
    secondsBefore: number
    workSeconds: number
    secondsToNext: number
  }>({
    name: 'fuel-ranges',
    title: 'Ranges shown beside what was eaten',
    aliases: ['carbs', 'protein', 'nutrition', 'fuel'],
    equation: [
      "carbohydrate before: 1 to 4 g a kg, 1 to 4 h before more than an hour's work",
      'carbohydrate after: 1.0 to 1.2 g a kg and hour for 4 h, next session within 8 h',
      'protein: 0.25 g a kg, or 20 to 40 g, a meal',
    ],
    symbols: [{ symbol: 'kg', meaning: 'of the body', unit: 'kg' }],
    sources: ['Thomas 2016', 'Jaeger 2017'],
    holds: 'for healthy adults, in general; shown only when the item says how long before.',
    holdsNot: caution,
    example: { bodyKg: 68, secondsBefore: 7200, workSeconds: 6600, secondsToNext: 25_200 },
    work: ({ bodyKg, secondsBefore, workSeconds, secondsToNext }) => {
      const [before, after] = [
        carbsBefore(bodyKg, secondsBefore, workSeconds),
        carbsAfterAnHour(bodyKg, secondsToNext),
      ]
      const range = (each: { from: number; to: number } | null) =>
        each === null ? 'not shown' : `${num(each.from, 0)} to ${num(each.to, 0)} g`
      const protein = proteinOfMeal(bodyKg)
      return [
        `${num(secondsBefore / 3600, 1)} h before ${num(workSeconds / 60, 0)} min: carbohydrate ${range(before)}`,
        `${num(secondsToNext / 3600, 1)} h until the next session: carbohydrate ${range(after)} an hour`,
        `protein ${num(protein.byMass, 0)} g a meal (${range(protein.usual)} for anyone)`,
      ]
    },
  }),
  cut: figure<{ raceMeters: number; goalMeters: number; pieceMeters: number; repeats: number }>({
    name: 'cut',
    title: 'Cutting a day',
    aliases: ['cutting', 'fraction'],
    equation: [
      'f = square root of (race distance / goal distance), at most 1, at least 0.4',
      'distance or time x f: to 0.5 km or mi from 2 up, to 100 m or 0.05 mi below',
      'sets and repeats x f, rounded up; loads, rests and paces stay; nothing below one',
    ],
    symbols: [{ symbol: 'f', meaning: 'fraction of the day that is left', unit: '-' }],
    sources: ['Invented'],
    holds: 'after the common advice to halve a long day.',
    holdsNot: 'as a plan: it is a proposal to be edited.',
    example: { raceMeters: 5000, goalMeters: 10_000, pieceMeters: 5000, repeats: 6 },
    work: ({ raceMeters, goalMeters, pieceMeters, repeats }) => {
      const f = fractionForRace(raceMeters, goalMeters)
      return [
        `f = square root of (${num(raceMeters)} / ${num(goalMeters)}) = ${num(f, 4)}`,
        `${num(pieceMeters)} m x ${num(f, 4)} = ${num(pieceMeters * f)} m, rounded ${num(cutMeters(pieceMeters, f, 'km'))} m`,
        `${repeats} repeats x ${num(f, 4)} = ${num(repeats * f)}, rounded up ${cutCount(repeats, f)}`,
      ]
    },
  }),
  'distance-run': figure<{ workMeters: number; recoveryMeters: number }>({
    name: 'distance-run',
    title: 'Distance run',
    aliases: ['distance', 'meters', 'metres', 'mileage'],
    equation: ['distance = metres of recorded work + metres of recoveries by distance'],
    symbols: [{ symbol: 'recoveries', meaning: 'count when the piece before them was recorded', unit: 'm' }],
    sources: ['Invented'],
    holds: 'for running; what was done on a rower or a bicycle is counted apart.',
    holdsNot: 'for recoveries by time: their metres are not known.',
    example: { workMeters: 12_000, recoveryMeters: 1600 },
    work: ({ workMeters, recoveryMeters }) => [
      `${num(workMeters, 1)} m + ${num(recoveryMeters, 1)} m = ${num(workMeters + recoveryMeters, 1)} m`,
    ],
  }),
  units: figure<{ pounds: number; miles: number }>({
    name: 'units',
    title: 'Units',
    aliases: ['pound', 'mile', 'yard', 'conversion', 'kg', 'lb'],
    equation: ['1 lb = 0.45359237 kg, 1 mi = 1609.344 m, 1 yd = 0.9144 m'],
    symbols: [],
    sources: ['Yard and pound 1959', 'World Athletics distances'],
    holds: 'exactly, by definition; half marathon 21 097.5 m, marathon 42 195 m.',
    holdsNot: 'for plates: a load keeps the unit in which it was typed.',
    example: { pounds: 45, miles: 1 },
    work: ({ pounds, miles }) => [
      `${num(pounds)} lb x ${kilogramsInPound} = ${num(pounds * kilogramsInPound, 3)} kg`,
      `${num(miles)} mi x ${metersInPaceUnit.mi} = ${num(miles * metersInPaceUnit.mi, 3)} m`,
    ],
  }),
}
