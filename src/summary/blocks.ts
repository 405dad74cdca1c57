import { carbsAfterAnHour, carbsBefore, printedKcal, proteinOfMeal } from '../figures/fuel.ts'
import type { Prescription } from '../prescription/model.ts'
import { partName } from '../prescription/print.ts'
import { daysToGoal } from '../prescription/step.ts'
import { printDate } from '../units/calendarDate.ts'
import { counted, roundTo } from '../units/decimal.ts'
import { printHours } from '../units/duration.ts'
import { joined } from '../units/lists.ts'
import { liftRows, massText } from './liftingText.ts'
import type { Summary } from './model.ts'
import { doctorPhrase, notePhrases } from './notes.ts'
import { metersRunInLifts } from './performed.ts'
import { metersOfPart } from './running.ts'
import { metersIn, raceRow, workRow } from './runningText.ts'
import type { Row, SummaryView } from './view.ts'

/** A heading and what a reader finds under it: phrases, or the rows of a part. Texts may hold anything that was typed:
 * the writer makes them safe for its format. */
export interface Block {
  title: string
  phrases: string[]
  rows: Row[]
}

/** A session in reading order, its head first: deviations from the plan and pain come before any figure. The text and
 * the Markdown both write these blocks. */
export function blocksOf(view: SummaryView): Block[] {
  const { summary, state, context } = view
  const changed = context.next.filter(({ decision }) => decision !== 'same')
  const head = [
    whenPhrase(view),
    doctorPhrase(summary.pain),
    donePhrase(view),
    ...notePhrases(state, 'pain'),
    joined(' · ', [loadPhrase(view), conditionsPhrase(summary)]),
  ]
  const last = [
    phraseBlock('fuel', fuelPhrases(view)),
    phraseBlock('notes', notesNotShownAbove(view)),
    phraseBlock(
      'next time',
      changed.map(({ item, reason }) => `${item}: ${reason}`),
    ),
    phraseBlock('more figures', view.full ? fullPhrases(view) : []),
  ]
  return [
    phraseBlock(summary.session.title, head),
    ...summary.parts.flatMap((_, index) => partOf(index, view)),
    ...last.filter(({ phrases }) => phrases.length > 0),
  ]
}

/** A block of phrases; empty ones are left out. */
function phraseBlock(title: string, phrases: readonly string[]): Block {
  return { title, phrases: phrases.filter((phrase) => phrase !== ''), rows: [] }
}

/** The notes, without those that are shown above: how long the athlete slept, why a set fell short, what was eaten. */
function notesNotShownAbove(view: SummaryView): string[] {
  const named = view.meals.filter(({ name, result }) => name !== null && name === result.note)
  const shownAbove = new Set([...view.shortSets.map(({ step }) => step), ...named.map(({ id }) => id)])
  const slept = sleptPhrase(view.context.sleepSeconds, view.summary.notes)
  return notePhrases(view.state, 'words', shownAbove).filter((note) => note !== slept)
}

/** A part with what was done in it, if that or its minutes or effort are known. Fuel has a list of its own. */
function partOf(index: number, view: SummaryView): Block[] {
  const part = view.summary.parts[index]
  if (!part || part.kind === 'fuel') return []
  const rows = part.kind === 'lift' ? liftRows(index, view) : runRows(index, view)
  if (rows.length === 0 && part.minutes === null && part.effort === null) return []
  return [{ title: partPhrase(part, distanceOf(index, view)), phrases: [], rows }]
}

/** First a race, then the work. */
function runRows(index: number, view: SummaryView): Row[] {
  const works = view.works.filter(({ done }) => done.part === index)
  return [raceRow, workRow].flatMap((rowOf) => works.flatMap((work) => rowOf(work, view)))
}

/** The metres of a part, recoveries included; empty for none. */
function distanceOf(part: number, view: SummaryView): string {
  const meters = metersOfPart(view.state, part)
  return meters === 0 ? '' : metersIn(meters, view)
}

/** `Thu 26 Nov 2026, 06:40 to 09:02 · 143 days to 10 km in 39:30`; the race is the plan's, else the day's goal. */
function whenPhrase({ summary: { session }, state, context }: SummaryView): string {
  const toRace = context.race?.ahead ?? goalAhead(state.prescription.goal, session.date)
  const date = session.date === '' ? 'date not known' : printDate(session.date, 'EEE d MMM yyyy')
  const [start, end] = [session.startedAt, session.finishedAt].map((time) => time?.slice(11, 16))
  const endDay = session.finishedAt?.slice(0, 10) ?? session.date
  // A session can be gone on with on a later day.
  const until = `${endDay === session.date ? '' : `${printDate(endDay, 'EEE d MMM')}, `}${end}`
  const clock = start !== undefined && (end === undefined ? `from ${start}` : `${start} to ${until}`)
  return joined(' · ', [joined(', ', [date, clock, !session.finished && 'not finished']), toRace])
}

/** Without a plan, the day's goal is the race if it has a date. */
function goalAhead(goal: Prescription['goal'], date: string): string {
  if (goal === null || goal.on === null || date === '') return ''
  return daysToGoal({ ...goal, on: goal.on }, date)
}

/** `Done as planned`, or the deviations from the plan; empty while the day is under way without any. */
function donePhrase({ summary: { session }, state, changes, shortSets }: SummaryView): string {
  const done = state.recorded.size === 0 ? 'Nothing done' : 'Done as planned but'
  const deviations = joined('; ', [...changes, shortSets.map(({ text }) => text).join(', ')])
  if (deviations !== '') return `${session.finished ? done : 'So far as planned but'}: ${deviations}`
  return session.finished ? 'Done as planned' : ''
}

/** `110 min, session load 832 (run 496, lift 336) · slept 7 h`, `210+` where a part has no effort; empty where nothing
 * is known. */
function loadPhrase(view: SummaryView): string {
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
  const sore = soreness !== '' ? `${soreness} in the morning` : ''
  return joined(' · ', [joined(', ', load), sleptPhrase(sleepSeconds, notes), sore])
}

const sleepNote = /^slept \d[\d:.]* ?h$/i

/** `slept 7 h` from a note of the day, else `slept 6:40 h` from the morning; empty if neither says so. */
export function sleptPhrase(sleepSeconds: number | null, notes: readonly string[]): string {
  const noted = notes.find((note) => sleepNote.test(note))
  return noted ?? (sleepSeconds === null ? '' : `slept ${printHours(sleepSeconds)}`)
}

/** The conditions of the parts, each without its own name: `flats, windy`, of several `track: windy; legs: belt`. */
function conditionsPhrase({ parts }: Summary): string {
  const noted = parts.filter((part) => part.with !== null)
  const texts = noted.map((part) => {
    const words = (part.with ?? '').split(',').map((word) => word.trim())
    const others = words.filter((word) => word.toLowerCase() !== part.name?.toLowerCase()).join(', ')
    return noted.length > 1 ? `${part.name ?? part.kind}: ${others}` : others
  })
  return texts.join('; ')
}

/** `run: track, 13.6 km, 62 min, effort 8, 25 min after the part before`
 * @param distance empty for none */
function partPhrase(part: Summary['parts'][number], distance: string): string {
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

/** What only the full summary says about the session as a whole. */
function fullPhrases(view: SummaryView): string[] {
  const { running: run, lifting, fuel } = view.summary
  const { sets, reps, tonnageKg } = lifting
  const lifted = joined(', ', [
    `lifted ${counted(sets, 'set')}`,
    reps > 0 && counted(reps, 'repetition'),
    tonnageKg > 0 && `${massText(tonnageKg, view)} over different exercises`,
  ])
  const kcal = fuel.runningKcal && printedKcal({ from: fuel.runningKcal[0], to: fuel.runningKcal[1] })
  const span = kcal?.from === kcal?.to ? `about ${kcal?.to}` : `${kcal?.from} to ${kcal?.to}`
  const inLifts = metersRunInLifts(view.state)
  const [meters, workMeters] = [run.meters ?? 0, run.workMeters ?? 0]
  const ran = joined(', ', [
    meters > 0 && `ran ${metersIn(meters, view)}`,
    workMeters > 0 && workMeters !== meters && `${metersIn(workMeters, view)} of it without the recoveries`,
    inLifts > 0 && `${metersIn(inLifts, view)} of it in the lift part`,
  ])
  return [
    ran,
    sets > 0 ? lifted : '',
    kcal === null ? '' : `the running took ${span} kcal above rest, on the level`,
    ...fuelRangePhrases(view),
  ]
}

/** `before: carbs 70 g, protein 18 g`, `between: gel, amounts not known` for the meals that were recorded. */
function fuelPhrases({ summary, meals, full }: SummaryView): string[] {
  return (['before', 'between', 'after'] as const).flatMap((when) => {
    const eaten = summary.fuel[when]
    if (eaten === null) return []
    const { carbsG, proteinG, fatG, kcal, atwaterKcal } = eaten
    const amounts = joined(', ', [
      carbsG !== null && `carbs ${rounded(carbsG)} g`,
      proteinG !== null && `protein ${rounded(proteinG)} g`,
      fatG !== null && `fat ${rounded(fatG)} g`,
      kcal !== null && `${Math.round(kcal)} kcal`,
      full && atwaterKcal !== null && `${Math.round(atwaterKcal)} kcal from its grams`,
    ])
    const names = meals.flatMap((meal) => (meal.when === when ? (meal.name ?? []) : []))
    const isAllKnown = amounts !== '' && names.length === 0
    const unknown = !isAllKnown && `${names.join(', ') || 'eaten'}, amounts not known`
    return [`${when}: ${joined('; ', [amounts, unknown])}`]
  })
}

function rounded(value: number): string {
  return String(roundTo(value, 1))
}

/** General ranges next to what was eaten, only in the full summary: they are for healthy adults, and a dietitian's
 * advice takes precedence. Empty without a body mass. */
export function fuelRangePhrases(view: SummaryView): string[] {
  const { bodyKg, summary, state } = view
  const planned = state.steps.flatMap((step) => (step.kind === 'fuel' ? [step.fuel] : []))
  const isFuelled = planned.length > 0 || Object.values(summary.fuel).some((meal) => meal !== null)
  if (bodyKg === null || !isFuelled) return []
  const seconds = planned.find(({ when }) => when === 'before')?.seconds ?? null
  const { byMass, usual } = proteinOfMeal(bodyKg)
  return [
    carbsBeforePhrase(bodyKg, seconds, view.summary),
    carbsAfterPhrase(bodyKg, view),
    `protein of a meal: ${grams(byMass)} by body mass, ${usual.from} to ${usual.to} g is usual`,
    "ranges for healthy adults; a dietitian's word takes precedence",
  ].filter((phrase) => phrase !== '')
}

/** @param seconds how long before the session the first meal was planned; null if unknown */
function carbsBeforePhrase(bodyKg: number, seconds: number | null, { fuel, session }: Summary): string {
  const eaten = fuel.before?.carbsG ?? null
  if (seconds === null || eaten === null) return ''
  if (seconds < 3600) return `carbs less than an hour before: small, what sits well; ${grams(eaten)} eaten`
  const carbs = carbsBefore(bodyKg, seconds, (session.minutes ?? 0) * 60)
  if (carbs === null) return ''
  const hours = roundTo(seconds / 3600, 1)
  return `carbs ${hours} h before more than an hour's work: about ${grams(carbs)} (1 g a kg for each hour ahead), ${grams(eaten)} eaten`
}

/** Only if the next hard session is, or may be, at most 8 hours away. */
function carbsAfterPhrase(bodyKg: number, { context }: SummaryView): string {
  const { nextHard } = context
  if (nextHard === null) return ''
  const isLater = nextHard === 'later today'
  const range = carbsAfterAnHour(bodyKg, isLater ? 0 : nextHard)
  if (range === null) return ''
  const when = isLater
    ? 'if the hard day planned for today begins within 8 h'
    : `the next hard session is ${roundTo(nextHard / 3600, 1)} h away`
  return `carbs after: ${Math.round(range.from)} to ${grams(range.to)} an hour for 4 h, ${when}`
}

function grams(value: number): string {
  return `${Math.round(value)} g`
}
