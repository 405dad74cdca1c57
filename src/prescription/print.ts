import { sum } from 'd3-array'
import { printNumber } from '../units/decimal.ts'
import {
  printClock,
  printClockSpan,
  printDuration,
  printDurationSpan,
  printPace,
  printTime,
} from '../units/duration.ts'
import { printLength } from '../units/length.ts'
import { joined, neighbours } from '../units/lists.ts'
import { printMass } from '../units/mass.ts'
import type {
  Amount,
  Dose,
  Exercise,
  FuelItem,
  HeartRate,
  Interval,
  LiftItem,
  Load,
  Part,
  PrepItem,
  PrescribedSet,
  Prescription,
  Recovery,
  Span,
  Station,
  Target,
  Work,
} from './model.ts'

export type Item = Part['items'][number]

/** The most characters (code points) on a line. */
export const mostCharacters = 500

export interface PrintedLine {
  text: string
  /** Its item, by the indexes of part and item; a part's line has only a part, a header's line neither. */
  part: number | null
  item: number | null
}

/** Writes a prescription in the notation. Reading it gives the same prescription (apart from `line` and
 * `text` of its items, which are those of the new file), and printing that gives the same text. Ends with a line end. */
export function printPrescription(prescription: Prescription): string {
  return `${printedLines(prescription)
    .map((line) => line.text)
    .join('\n')}\n`
}

/** The lines of a printed prescription, in order; the first is line 1 of the file. */
export function printedLines(prescription: Prescription): PrintedLine[] {
  const heads = [prescription.title, ...headersOf(prescription)]
  const lines: PrintedLine[] = heads.map((text) => ({ text, part: null, item: null }))
  for (const [part, value] of prescription.parts.entries()) {
    lines.push({ text: '', part: null, item: null })
    lines.push({ text: partName(value), part, item: null })
    for (const [item, each] of itemsOf(value).entries())
      lines.push({ text: `  ${printItem(each)}`, part, item })
  }
  return lines
}

/** The name of a part, which is also its line: its kind, a colon and its own name. */
export function partName({ kind, name }: { kind: string; name: string | null }): string {
  return name === null ? kind : `${kind}: ${name}`
}

function headersOf(prescription: Prescription): string[] {
  const { date, units, goal, athlete, bar, bars = [], lap, maxima, notes } = prescription
  const on = goal === null || goal.on === null ? '' : ` on ${goal.on}`
  const lines = [
    date && `date: ${date}`,
    `units: ${units.distance} ${units.mass}`,
    goal && `goal: ${printLength(goal.length)} in ${printDuration(goal.seconds)}${on}`,
    athlete && `athlete: ${printMass(athlete)}`,
    bar && `bar: ${printMass(bar)}`,
    ...bars.map(({ name, mass }) => `bar: ${name} ${printMass(mass)}`),
    lap && `lap: ${printLength(lap)}`,
    ...maxima.map(({ name, mass }) => `max: ${name} ${printMass(mass)}`),
    ...notes.map((note) => `note: ${note}`),
  ]
  return lines.filter((line) => line !== null)
}

/** The items of a part, whatever its kind. */
export function itemsOf(part: Part): Item[] {
  return part.items
}

/** Writes one item in the notation. */
export function printItem(item: Item): string {
  if ('exercises' in item) return printLiftItem(item)
  if ('step' in item) return printRunStep(item.step)
  if ('when' in item) return printFuelItem(item)
  return printPrepItem(item)
}

function printPrepItem({ name, count, amount, side, notes }: PrepItem): string {
  const dose = amount && (amount.kind === 'reps' ? String(amount.reps) : printAmount(amount))
  const item = joined(' ', [name, count !== null && `${count} x`, dose, side])
  return [item, ...printQuoted(notes)].join(', ')
}

function printFuelItem(item: FuelItem): string {
  const { when, seconds, notes } = item
  const bits = joined(', ', [printFood(item), ...printQuoted(notes)])
  return `${when}${seconds === null ? '' : ` ${printLongTime(seconds)}`}: ${bits}`
}

/** `carbs 75 g, protein 20 g`: the amounts that are known, in a fixed order; empty without any. */
export function printFood(food: Pick<FuelItem, 'carbsG' | 'proteinG' | 'fatG' | 'kcal'>): string {
  const { carbsG, proteinG, fatG, kcal } = food
  return joined(', ', [
    carbsG !== null && `carbs ${printNumber(carbsG)} g`,
    proteinG !== null && `protein ${printNumber(proteinG)} g`,
    fatG !== null && `fat ${printNumber(fatG)} g`,
    kcal !== null && `${printNumber(kcal)} kcal`,
  ])
}

/** Writes a long time in the largest unit that divides it: `2 h`, `30 min`. */
function printLongTime(seconds: number): string {
  return seconds % 3600 === 0 ? `${printNumber(seconds / 3600)} h` : printTime(seconds)
}

/** `5-7`, or `5` when both ends are the same. */
export function printSpan(span: Span): string {
  return span.from === span.to ? printNumber(span.from) : `${printNumber(span.from)}-${printNumber(span.to)}`
}

function printQuoted(notes: readonly string[]): string[] {
  return notes.map((note) => `"${note}"`)
}

function printRunStep(step: Work | Recovery): string {
  return step.kind === 'recovery' ? printRecovery(step) : printWork(step)
}

/** Writes one work in the notation, also inside a group:
 * `6 x 500 m @ 3:35-3:45/km, jog 200 m`. */
export function printWork(work: Work): string {
  const times = work.times === null ? '' : `${work.times} x `
  const body =
    work.body.kind === 'group'
      ? `(${work.body.steps.map(printRunStep).join(', ')})`
      : printInterval(work.body)
  return joined(', ', [
    times + body,
    work.recovery && printRecovery(work.recovery),
    work.split && `split ${printLength(work.split)}`,
    work.negative && 'negative',
    work.lane !== null && `lane ${work.lane}`,
    work.grade !== null && `grade ${printNumber(work.grade)}%`,
    work.heartRate && `hr ${printHeartRate(work.heartRate)}`,
    work.every != null && `every ${printDuration(work.every)}`,
    ...printQuoted(work.notes),
  ])
}

function printInterval(interval: Interval): string {
  const amounts = printAmounts(interval.amounts)
  return interval.target === null ? amounts : `${amounts} ${printTarget(interval.target)}`
}

/** One amount, or a ladder with its one unit at the end. */
export function printAmounts(amounts: readonly Amount[]): string {
  if (amounts.length === 1) return amounts.map(printAmount).join('')
  const [first] = amounts
  const inMinutes = amounts.every((amount) => amount.kind === 'time' && amount.seconds % 30 === 0)
  const values = amounts.map((amount) =>
    amount.kind === 'distance' ? amount.length.value : inMinutes ? amount.seconds / 60 : amount.seconds,
  )
  const unit = first?.kind === 'distance' ? first.length.unit : inMinutes ? 'min' : 's'
  return `${values.map(printNumber).join('-')} ${unit === 'lap' ? 'laps' : unit}`
}

export function printAmount(amount: Amount): string {
  return amount.kind === 'time' ? printDuration(amount.seconds) : printLength(amount.length)
}

export function printTarget(target: Target): string {
  return printed<Target>(target, {
    pace: (pace) => `@ ${printPace(pace)}`,
    speed: (speed) => `@ ${printSpan(speed)} ${speed.unit}`,
    goal: () => '@ goal',
    time: (time) => `in ${printDurationSpan(time)}`,
    times: ({ each }) => `in ${printTimes(each)}`,
    progression: ({ first, last, per }) => `@ ${printClock(first)} to ${printClock(last)}/${per}`,
    rpe: (rpe) => `@ rpe ${printSpan(rpe)}`,
    heartRate: (range) => `@ hr ${printSpan(range)}`,
    heartRateUnder: (ceiling) => `@ hr ${printHeartRate(ceiling)}`,
    word: ({ word }) => word,
  })
}

type Kind<T, K> = Extract<T, { kind: K }>

/** Writes a value with the printer of its kind. */
function printed<T extends { kind: string }>(
  value: T,
  printers: { [K in T['kind']]: (value: Kind<T, K>) => string },
): string {
  const print: (value: never) => string = printers[value.kind as T['kind']]
  return print(value as never)
}

/** Writes a recovery in the notation: `jog 200 m`, `walk back`, `rest 1:30`. */
export function printRecovery({ move, amount }: Recovery): string {
  const text = printed<Recovery['amount']>(amount, {
    time: printAmount,
    distance: printAmount,
    distanceIn: ({ length, seconds }) => `${printLength(length)} in ${printDuration(seconds)}`,
    way: ({ way }) => way,
    same: () => 'same time',
  })
  return `${move} ${text}`
}

/** `150-160`, or `under 140`. */
function printHeartRate(heartRate: HeartRate): string {
  return 'under' in heartRate ? `under ${printNumber(heartRate.under)}` : printSpan(heartRate)
}

/** `80/78/76 s`: in seconds with one unit at the end, or as clocks if one of them is two minutes or longer. */
function printTimes(each: readonly Span[]): string {
  const inSeconds = each.every((span) => span.to < 120)
  return inSeconds ? `${each.map(printSpan).join('/')} s` : each.map(printClockSpan).join('/')
}

/** Writes a lift line in the notation. A circuit is written as a superset. */
function printLiftItem(item: LiftItem): string {
  const { exercises, pause, rest, every, inTurn, tempo, buildFrom, notes } = item
  const [first, ...others] = exercises
  const work = inTurn
    ? printTurns(item)
    : first && others.length === 0
      ? printLift(first)
      : exercises.map((each) => printExercise(each, false)).join(' + ')
  return joined(', ', [
    work,
    pause !== null && `pause ${printDuration(pause)}`,
    rest && (rest.to === 0 ? 'rest 0' : `rest ${printDurationSpan(rest)}`),
    every !== null && !inTurn && `every ${printDuration(every)}`,
    tempo && `tempo ${tempo}`,
    buildFrom && `build from ${printMass(buildFrom)}`,
    ...printQuoted(notes),
  ])
}

/** An exercise as a line of its own, without clauses: `curl 2 x (12 > 10) @ 20/15 kg`. */
export function printLift(exercise: Exercise): string {
  const dose = exercise.sets[0]?.dose
  return dose && 'stations' in dose ? printDose(dose) : printExercise(exercise, true)
}

/** `every 1:00 for 12 min: 3 power clean @ 70 kg, 10 push-up`. */
function printTurns({ exercises, every }: LiftItem): string {
  const starts = sum(exercises, ({ sets }) => sets.length)
  const stations = exercises.map(({ name, sets, side }) => {
    const [set] = sets
    if (set === undefined) return ''
    const rpe = set.rpe && `${set.load ? '' : '@ '}rpe ${printSpan(set.rpe)}`
    return joined(' ', [printStation({ name, side, dose: set.dose, load: set.load }), rpe])
  })
  return `every ${printDuration(every ?? 60)} for ${printMinutes(starts * (every ?? 60))}: ${stations.join(', ')}`
}

/** `40 m carry @ 2x32 kg`. */
function printStation({ name, dose, side, load }: Omit<Station, 'dose'> & { dose: Dose }): string {
  return joined(' ', [printDose(dose), name, side, load && `@ ${printLoad(load)}`])
}

/** Whole minutes as `12 min`, any other time as a clock. */
function printMinutes(seconds: number): string {
  return seconds % 60 === 0 ? `${printNumber(seconds / 60)} min` : printDuration(seconds)
}

/** `front squat 5 x (1+1+1) @ 92.5 kg`. A colon follows a name with a digit in it, or before several schemes. */
function printExercise(exercise: Exercise, isOnly: boolean): string {
  const isComplex = exercise.sets[0]?.dose.kind === 'complex'
  if (isComplex) return printScheme(exercise)
  const name = /\d/.test(exercise.name) ? `${exercise.name}:` : exercise.name
  const runs = neighbours(exercise.sets, (set, before) => JSON.stringify(set) === JSON.stringify(before))
  const loads = new Set(exercise.sets.map(({ load }) => JSON.stringify(load)))
  const hasDrops = runs.length > 1 && exercise.sets.some(({ dose }) => dose.kind === 'drop')
  const isApart = hasDrops || (runs.length === 2 && loads.size === 2 && runs.some((run) => run.length > 1))
  if (isOnly && (isApart || !hasSlashes(exercise.sets))) {
    const { height, ...later } = { ...exercise, side: null }
    const schemes = runs.map((sets, index) =>
      printScheme(index === 0 ? { ...exercise, sets } : { ...later, sets }),
    )
    const colon = schemes.length > 1 && !name.endsWith(':') ? ':' : ''
    return `${name}${colon} ${schemes.join(' then ')}`
  }
  return `${name} ${printScheme(exercise)}`
}

function hasSlashes(sets: PrescribedSet[]): boolean {
  const [first] = sets
  return sets.every(
    (set) =>
      JSON.stringify(set.rpe) === JSON.stringify(first?.rpe) &&
      (set.load === null) === (first?.load === null),
  )
}

function printScheme(exercise: Exercise): string {
  const { sets, side } = exercise
  const [first] = sets
  const drops = first?.dose.kind === 'drop' ? first.dose.lower : []
  const loads = drops.length > 0 ? [first?.load ?? null, ...drops] : sets.map((set) => set.load)
  return joined(' ', [
    printSets(exercise),
    side,
    loads.some((load) => load !== null) && `@ ${printLoads(loads, drops.length > 0)}`,
    first?.rpe ? `${loads[0] ? '' : '@ '}rpe ${printSpan(first.rpe)}` : null,
    printHeight(exercise),
  ])
}

/** `at 60 cm`; empty without a height. */
export function printHeight({ height }: Pick<Exercise, 'height'>): string {
  return height ? `at ${printNumber(height.value)} ${height.unit}` : ''
}

function printSets({ sets }: Exercise): string {
  const doses = sets.map((set) => printDose(set.dose))
  const [first = ''] = doses
  return doses.every((dose) => dose === first) ? `${sets.length} x ${first}` : doses.join('/')
}

/** One set's dose: `6`, `8-10`, `5+`, `(1+1+1)`, `max`, `45 s`, `40 m`. */
export function printDose(dose: Dose): string {
  return printed<Dose>(dose, {
    reps: printSpan,
    atLeast: ({ reps }) => `${reps}+`,
    cluster: ({ groups }) => `(${groups.join('+')})`,
    max: () => 'max',
    time: printAmount,
    distance: printAmount,
    drop: ({ reps }) => `(${reps.join(' > ')})`,
    complex: ({ lifts }) => `(${lifts.map(({ name, reps }) => `${name} ${reps}`).join(' + ')})`,
    roundsIn: ({ seconds, stations }) =>
      `${printMinutes(seconds)} of: ${stations.map(printStation).join(', ')}`,
    forTime: ({ rounds, stations }) =>
      `for time: ${rounds === 1 ? '' : `${rounds} rounds of `}${stations.map(printStation).join(', ')}`,
  })
}

/** One load for all sets, or one for each, separated by slashes with the unit at the end. */
function printLoads(loads: readonly (Load | null)[], isEach: boolean): string {
  const texts = loads.map((load) => (load === null ? '' : printLoad(load)))
  const [first = ''] = texts
  if (!isEach && texts.every((text) => text === first)) return first
  const units = loads.map((load) =>
    load?.kind === 'mass' && !load.pair ? ` ${load.unit}` : load?.kind === 'percent' ? '%' : '',
  )
  const [unit = ''] = units
  if (unit === '' || units.some((other) => other !== unit)) return texts.join('/')
  return texts.map((text) => text.slice(0, -unit.length)).join('/') + unit
}

/** One load: `92.5 kg`, `90-100 kg`, `2x22.5 kg`, `80%`, `bodyweight+10 kg`. */
export function printLoad(load: Load): string {
  if (load.kind === 'mass') return `${load.pair ? '2x' : ''}${printSpan(load)} ${load.unit}`
  if (load.kind === 'percent') return `${printSpan(load)}%`
  const { kind, added, unit } = load
  if (added === 0) return kind
  const [sign, mass] = [added < 0 ? '-' : '+', `${printNumber(Math.abs(added))} ${unit}`]
  return kind === 'last' ? `last ${sign} ${mass}` : `bodyweight${sign}${mass}`
}

/** A comment on an item, by the indexes of its part and of the item in it. */
export interface ItemComment {
  part: number
  item: number
  text: string
}

/** Writes a prescription in the notation, with comments: those for the whole day above its title, those for an
 * item on a line above it. Reading it gives the same prescription. */
export function printCommented(
  prescription: Prescription,
  ofDay: readonly string[],
  comments: readonly ItemComment[],
): string {
  const lines = printedLines(prescription).flatMap(({ text, part, item }) => {
    const above = comments.filter((each) => each.part === part && each.item === item)
    return [...above.map((each) => `  ${commentLine(each.text)}`), text]
  })
  return `${[...ofDay.map(commentLine), ...lines].join('\n')}\n`
}

/** One line, never longer than the notation allows. */
function commentLine(text: string): string {
  return clippedLine(`# ${text.replace(/\s+/g, ' ')}`, mostCharacters - 2)
}

/** Cuts a line off where it is longer than the notation allows. */
export function clippedLine(line: string, most = mostCharacters): string {
  const characters = [...line]
  return characters.length <= most ? line : `${characters.slice(0, most - 1).join('')}…`
}
