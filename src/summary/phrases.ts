import { sum } from 'd3-array'
import { carbsAfterAnHour, carbsBefore, printedKcal, proteinOfMeal } from '../figures/fuel.ts'
import type { Prescription } from '../prescription/model.ts'
import { daysToGoal, repsOf } from '../prescription/step.ts'
import { partName } from '../session/names.ts'
import { needsADoctor, type Pain } from '../session/pain.ts'
import { printDate } from '../units/calendarDate.ts'
import { roundTo } from '../units/decimal.ts'
import { printHours, printTime } from '../units/duration.ts'
import { formatLength, formatMeters } from '../units/length.ts'
import { joined } from '../units/lists.ts'
import { massIn } from '../units/mass.ts'
import type { Summary } from './model.ts'
import { type DoneExercise, type DoneSet, isMeantToTheLimit, metersRunInLifts } from './performed.ts'
import type { SummaryView } from './summarise.ts'

/** `Thu 26 Nov 2026, 06:40 to 09:02 · 143 days to 10 km in 39:30`; the race is the plan's, else the day's goal. */
export function whenPhrase({ summary: { session }, state, context }: SummaryView): string {
  const toRace = context.race?.ahead ?? goalAhead(state.prescription.goal, session.date)
  const date = session.date === '' ? 'date not known' : printDate(session.date, 'EEE d MMM yyyy')
  const [start, end] = [session.startedAt, session.finishedAt].map((time) => time?.slice(11, 16))
  const clock = start !== undefined && (end === undefined ? `from ${start}` : `${start} to ${end}`)
  return joined(' · ', [joined(', ', [date, clock, !session.finished && 'not finished']), toRace])
}

/** Without a plan the goal of the day is the race, where it has a date. */
function goalAhead(goal: Prescription['goal'], date: string): string {
  if (goal === null || goal.on === null || date === '') return ''
  return daysToGoal({ ...goal, on: goal.on }, date)
}

/** `See a doctor before you train again: chest tight, dizzy`; empty without such a sign. */
export function doctorPhrase(pains: readonly Pain[]): string {
  const places = [...new Set(pains.filter(needsADoctor).map(({ place }) => place))].join(', ')
  return places === '' ? '' : `See a doctor before you train again: ${places}`
}

/** Deviations from the plan: `Done as planned`, or what was not; empty while the day is under way without
 * deviations. */
export function donePhrase(view: SummaryView): string {
  const { changes, session } = view.summary
  const short = fallenShort(view).map(({ text }) => text)
  const said = joined('; ', [...changes, short.join(', ')])
  if (said !== '') return `${session.finished ? 'Done' : 'So far'} as planned but: ${said}`
  return session.finished ? 'Done as planned' : ''
}

/** Sets that failed, or had fewer repetitions or seconds than meant: `pull-up set 4 (5, failed)`, `dip set 4 (7
 * of 8)`, `deadlift set 2 (5 of 6)` of a cluster, `plank set 3 (40 s: cut short)` with what was said of it. */
export function fallenShort({ exercises }: SummaryView): { step: string; text: string }[] {
  return exercises.flatMap(({ exercise }) => shortSets(exercise))
}

function shortSets({ name, sets }: DoneExercise): { step: string; text: string }[] {
  return sets.flatMap(({ step, result, number }, index) => {
    const { dose } = step
    // Each drop is a set of its own here, and they are told of as one.
    const drops = dose.kind === 'drop' ? sets.filter((set) => set.step === step) : []
    if (drops.length > 0 && sets[index - 1]?.step === step) return []
    const meant = countMeant(dose)
    const done =
      dose.kind === 'time'
        ? result.seconds
        : dose.kind === 'drop'
          ? sum(drops, (drop) => drop.result.reps)
          : dose.kind === 'cluster' && result.groups !== null
            ? sum(result.groups)
            : result.reps
    const isShort = meant !== null && done !== null && done < meant
    if (!isShort && (!result.failed || isMeantToTheLimit(dose, result))) return []
    const countText = (count: number) =>
      dose.kind === 'time' ? printTime(roundTo(count, 1)) : rounded(count)
    const count = countText(done ?? 0)
    const of = isShort && !result.failed && result.note === null ? ` of ${countText(meant)}` : ''
    const why = `${result.failed ? ', failed' : ''}${result.note === null ? '' : `: ${result.note}`}`
    return [{ step: step.id, text: `${name} set ${number} (${count}${of}${why})` }]
  })
}

/** The least repetitions or seconds meant; null where there is no such number. */
function countMeant(dose: DoneSet['step']['dose']): number | null {
  if (dose.kind === 'time') return dose.seconds
  // A group of as many as possible means no number.
  return dose.kind === 'max' || dose.kind === 'complex' ? null : repsOf(dose, 0)
}

/** `110 min, session load 832 (run 496, lift 336) · slept 7 h`, `210+` where a part has no effort; empty where nothing
 * is known. */
export function loadPhrase(view: SummaryView): string {
  const { session, parts, notes } = view.summary
  const { sleepSeconds, soreness } = view.context
  const { minutes, effortMinutes, effortMinutesAtLeast: isAtLeast } = session
  const known = parts.filter((part) => part.effortMinutes !== null)
  const each = known.map((part) => `${part.kind} ${rounded(part.effortMinutes ?? 0)}`).join(', ')
  const of = known.length > 1 || isAtLeast ? ` (${each})` : ''
  const load = [
    minutes !== null && `${rounded(minutes)} min`,
    effortMinutes !== null && `session load ${rounded(effortMinutes)}${isAtLeast ? '+' : ''}${of}`,
  ]
  const sore = soreness ? `${soreness} in the morning` : ''
  return joined(' · ', [joined(', ', load), sleptPhrase(sleepSeconds, notes), sore])
}

const sleepNote = /^slept \d[\d:.]* ?h$/i

/** `slept 7 h` as a note of the day says it, else `slept 6:40 h` of the morning; empty where neither does. */
export function sleptPhrase(sleepSeconds: number | null | undefined, notes: readonly string[]): string {
  const noted = notes.find((note) => sleepNote.test(note))
  return noted ?? (sleepSeconds == null ? '' : `slept ${printHours(sleepSeconds)}`)
}

/** The conditions of the only part that has some, without the part's own name; empty where several have. */
export function conditionsPhrase({ parts }: Summary): string {
  const [only, ...others] = parts.filter((part) => part.with !== null)
  if (only === undefined || others.length > 0) return ''
  const words = (only.with ?? '').split(',').map((word) => word.trim())
  return words.filter((word) => word.toLowerCase() !== only.name?.toLowerCase()).join(', ')
}

/** `run: track, 13.6 km, 62 min, effort 8, 25 min after the part before`
 * @param distance empty for none */
export function partPhrase(part: Summary['parts'][number], distance: string): string {
  const { minutes, effort, gapMinutes } = part
  const gap = gapMinutes ?? 0
  const gapText = gap < 120 ? `${rounded(gap)} min` : printHours(gap * 60)
  return joined(', ', [
    partName(part),
    distance,
    minutes !== null && `${rounded(minutes)} min`,
    effort !== null && `effort ${effort}`,
    // Less than a minute is the change from one part to the next, not a gap.
    gap >= 1 && `${gapText} after the part before`,
  ])
}

/** What all parts of a kind covered: `13.6 km`, `12 km of it without the jogs`, `600 m of it in the lift part`; the
 * latter two empty where there is nothing to say. Null if nothing was covered. */
export function distanceOf(
  kind: 'run' | 'cross',
  view: SummaryView,
): { whole: string; withoutJogs: string; inLifts: string } | null {
  const { meters, workMeters } = kind === 'run' ? view.summary.running : view.summary.cross
  if (meters === 0) return null
  // As with loads, name the unit only if it is not the day's.
  const isAsked = view.distance !== view.state.prescription.units.distance
  const text = (each: number) => (isAsked ? formatMeters : formatLength)(each, view.distance)
  const circuit = kind === 'run' ? metersRunInLifts(view.state) : 0
  const hasJogs = circuit === 0 && workMeters !== meters
  return {
    whole: text(meters),
    withoutJogs: hasJogs ? `${text(workMeters)} of it without the ${recoveriesName(kind, view)}` : '',
    inLifts: circuit > 0 ? `${text(circuit)} of it in the lift part` : '',
  }
}

function recoveriesName(kind: 'run' | 'cross', { state }: SummaryView): string {
  const isOther = state.steps.some(
    (step) =>
      step.kind === 'recovery' &&
      state.parts[step.part]?.kind === kind &&
      step.meters !== null &&
      step.move !== 'jog',
  )
  return isOther ? 'recoveries' : 'jogs'
}

/** `before: carbs 70 g, protein 18 g`, `between: gel, amounts not known` for the meals that were recorded. */
export function fuelPhrases({ summary, meals, full }: SummaryView): string[] {
  return (['before', 'between', 'after'] as const).flatMap((when) => {
    const eaten = summary.fuel[when]
    if (eaten === null) return []
    const { carbsG, proteinG, fatG, kcal, atwaterKcal } = eaten
    const amounts = joined(', ', [
      carbsG !== null && `carbs ${rounded(carbsG)} g`,
      proteinG !== null && `protein ${rounded(proteinG)} g`,
      fatG !== null && `fat ${rounded(fatG)} g`,
      kcal !== null && `${rounded(kcal)} kcal`,
      full && atwaterKcal !== null && `${rounded(atwaterKcal)} kcal by its grams`,
    ])
    const names = meals.flatMap((meal) => (meal.when === when ? (meal.name ?? []) : []))
    const isAllKnown = amounts !== '' && names.length === 0
    const unknown = !isAllKnown && `${names.join(', ') || 'eaten'}, amounts not known`
    return [`${when}: ${joined('; ', [amounts, unknown])}`]
  })
}

/** A figure with at most one decimal. */
function rounded(value: number): string {
  return String(roundTo(value, 1))
}

/** What only the full summary says about the session as a whole. */
export function fullPhrases(view: SummaryView): string[] {
  const { lifting, fuel } = view.summary
  const { sets, reps, tonnageKg } = lifting
  const lifted = [
    `lifted ${sets} sets`,
    reps > 0 && `${reps} repetitions`,
    tonnageKg > 0 && `${massText(tonnageKg, view)} over unlike exercises`,
  ]
  const [low, high] = fuel.runningKcal ?? [0, 0]
  const { from, to } = printedKcal({ from: low, to: high })
  return [
    ...(sets > 0 ? [joined(', ', lifted)] : []),
    ...(fuel.runningKcal ? [`the running took ${from} to ${to} kcal above rest, on the level`] : []),
    ...fuelRangePhrases(view),
  ]
}

/** A mass from kilograms in the unit of the page, to a tenth. */
export function massText(kg: number, view: SummaryView): string {
  return `${roundTo(massIn({ value: kg, unit: 'kg' }, view.mass), 1)} ${view.mass}`
}

/** General ranges next to what was eaten, only in the full summary: they are for healthy adults, and a dietitian's
 * advice takes precedence. Empty without a body mass. */
export function fuelRangePhrases(view: SummaryView): string[] {
  const { bodyKg, summary, state } = view
  const meals = Object.values(summary.fuel).filter((meal) => meal !== null)
  if (bodyKg === null || (meals.length === 0 && !state.steps.some((step) => step.kind === 'fuel'))) return []
  const { byMass, usual } = proteinOfMeal(bodyKg)
  return [
    ...carbsPhrase(bodyKg, view),
    ...carbsAfterPhrase(bodyKg, view),
    `protein of a meal: ${grams(byMass)} by body mass, ${usual.from} to ${usual.to} g is usual`,
    "ranges for healthy adults; a dietitian's word takes precedence",
  ]
}

function carbsPhrase(bodyKg: number, view: SummaryView): string[] {
  const seconds = secondsBefore(view)
  const eaten = view.summary.fuel.before?.carbsG ?? null
  if (seconds === null || eaten === null) return []
  if (seconds < 3600) return [`carbs less than an hour before: small, what sits well; ${grams(eaten)} eaten`]
  const carbs = carbsBefore(bodyKg, seconds, (view.summary.session.minutes ?? 0) * 60)
  if (carbs === null) return []
  const hours = roundTo(seconds / 3600, 1)
  return [
    `carbs ${hours} h before more than an hour's work: about ${grams(carbs)} (1 g a kg for each hour ahead), ${grams(eaten)} eaten`,
  ]
}

/** Only if the next hard session is, or may be, at most 8 hours away. */
function carbsAfterPhrase(bodyKg: number, { context }: SummaryView): string[] {
  const known = context.secondsToNextHard?.() ?? null
  const seconds = known ?? (context.isHardLater ? 0 : null)
  const range = seconds === null ? null : carbsAfterAnHour(bodyKg, seconds)
  if (range === null) return []
  const when =
    known === null
      ? 'if the hard day planned for today begins within 8 h'
      : `the next hard session is ${roundTo(known / 3600, 1)} h away`
  return [`carbs after: ${Math.round(range.from)} to ${grams(range.to)} an hour for 4 h, ${when}`]
}

/** How long before the session the first meal was planned; null if the prescription does not say. */
function secondsBefore({ state }: SummaryView): number | null {
  const step = state.steps.find((each) => each.kind === 'fuel' && each.fuel.when === 'before')
  return step?.kind === 'fuel' ? step.fuel.seconds : null
}

function grams(value: number): string {
  return `${Math.round(value)} g`
}
