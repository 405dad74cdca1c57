import { format, parseISO } from 'date-fns'
import { carbsAfterAnHour, carbsBefore, printedKcal, proteinOfMeal } from '../figures/fuel.ts'
import { mostRepetitionsInANote } from '../figures/oneRepMax.ts'
import { isSingleJoint } from '../prescription/exercise.ts'
import type { IntervalResult } from '../session/result.ts'
import { roundTo, toDecimals } from '../units/decimal.ts'
import { formatClock } from '../units/duration.ts'
import { formatLength, formatMeters, metersOf, printLength } from '../units/length.ts'
import { massIn } from '../units/mass.ts'
import { formatPace, paceIn } from '../units/pace.ts'
import { loadText } from './loadText.ts'
import type { RunningItem, Summary } from './model.ts'
import {
  type DoneExercise,
  type DoneSet,
  type DoneSplit,
  type DoneWork,
  isRunningExercise,
  metersRunInLifts,
  partName,
} from './performed.ts'
import { fullSplits } from './running.ts'
import type { SummaryView } from './summarise.ts'

/** `Thu 26 Nov 2026, 06:40 to 09:02 · 143 days to 10 km in 39:30`; the race is that of the plan, else the day's goal.
 * */
export function whenPhrase({ summary: { session }, toRace }: SummaryView): string {
  const date = session.date === '' ? 'date not known' : format(parseISO(session.date), 'EEE d MMM yyyy')
  const [start, end] = [clockOf(session.startedAt), clockOf(session.finishedAt)]
  const clock = start === null ? '' : end === null ? `, from ${start}` : `, ${start} to ${end}`
  return `${date}${clock}${session.finished ? '' : ', not finished'}${toRace === '' ? '' : ` · ${toRace}`}`
}

/** Deviations from the plan: `Done as planned`, or what was not; empty while the day is under way without
 * deviations. */
export function donePhrase(view: SummaryView): string {
  const short = fallenShort(view)
    .map(({ text }) => text)
    .join(', ')
  const said = [...view.summary.changes, ...(short === '' ? [] : [short])]
  if (said.length > 0)
    return `${view.summary.session.finished ? 'Done' : 'So far'} as planned but: ${said.join('; ')}`
  return view.summary.session.finished ? 'Done as planned' : ''
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
          ? sum(drops.map((drop) => drop.result.reps ?? 0))
          : dose.kind === 'cluster' && result.groups !== null
            ? sum(result.groups)
            : result.reps
    const isShort = meant !== null && done !== null && done < meant
    if (!isShort && !result.failed) return []
    const count = dose.kind === 'time' ? `${rounded(done ?? 0)} s` : String(done ?? 0)
    const of = isShort && !result.failed && result.note === null ? ` of ${rounded(meant)}` : ''
    const why = `${result.failed ? ', failed' : ''}${result.note === null ? '' : `: ${result.note}`}`
    return [{ step: step.id, text: `${name} set ${number} (${count}${of}${why})` }]
  })
}

/** The least repetitions or seconds meant; null where there is no such number. */
function countMeant(dose: DoneSet['step']['dose']): number | null {
  switch (dose.kind) {
    case 'reps':
      return dose.from
    case 'atLeast':
      return dose.reps
    case 'time':
      return dose.seconds
    case 'drop':
      return sum(dose.reps)
    case 'cluster':
      // A group of as many as possible means no number.
      return sum(dose.groups.map((group) => (group === 'max' ? 0 : group)))
    default:
      return null
  }
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((all, each) => all + each, 0)
}

/** `110 min, session load 832 (run 496, lift 336) · slept 7 h`, `210+` where a part has no effort; empty where nothing
 * is known. */
export function loadPhrase({ summary: { session, parts }, slept }: SummaryView): string {
  const texts: string[] = []
  if (session.minutes !== null) texts.push(`${rounded(session.minutes)} min`)
  if (session.effortMinutes !== null) {
    const known = parts.filter((part) => part.effortMinutes !== null)
    const each = known.map((part) => `${part.kind} ${rounded(part.effortMinutes ?? 0)}`).join(', ')
    const atLeast = session.effortMinutesAtLeast ? '+' : ''
    const of = known.length > 1 || atLeast !== '' ? ` (${each})` : ''
    texts.push(`session load ${rounded(session.effortMinutes)}${atLeast}${of}`)
  }
  return [texts.join(', '), slept].filter((text) => text !== '').join(' · ')
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
  const texts = [partName(part), ...(distance === '' ? [] : [distance])]
  if (part.minutes !== null) texts.push(`${rounded(part.minutes)} min`)
  if (part.effort !== null) texts.push(`effort ${part.effort}`)
  // Less than a minute is the change from one part to the next, not a gap.
  if (part.gapMinutes !== null && part.gapMinutes >= 1)
    texts.push(`${rounded(part.gapMinutes)} min after the part before`)
  return texts.join(', ')
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

/** `before: carbs 70 g, protein 18 g` for each meal that was recorded. */
export function fuelPhrases({ summary, full }: SummaryView): string[] {
  return (['before', 'between', 'after'] as const).flatMap((when) => {
    const eaten = summary.fuel[when]
    if (eaten === null) return []
    const texts: string[] = []
    if (eaten.carbsG !== null) texts.push(`carbs ${rounded(eaten.carbsG)} g`)
    if (eaten.proteinG !== null) texts.push(`protein ${rounded(eaten.proteinG)} g`)
    if (eaten.fatG !== null) texts.push(`fat ${rounded(eaten.fatG)} g`)
    if (eaten.kcal !== null) texts.push(`${rounded(eaten.kcal)} kcal`)
    if (full && eaten.atwaterKcal !== null) texts.push(`${rounded(eaten.atwaterKcal)} kcal by its grams`)
    return [`${when}: ${texts.length === 0 ? 'eaten, amounts not known' : texts.join(', ')}`]
  })
}

/** A figure with at most one decimal. */
export function rounded(value: number): string {
  return String(roundTo(value, 1))
}

function clockOf(time: string | null): string | null {
  return time === null ? null : time.slice(11, 16)
}

/** For splits shorter than this, in metres, only --full shows deviation and fade, as below a kilometre the gap to
 * goal pace. This program's own rule. */
const shortestMeters = 800
/** With fewer full splits the deviation says little. This program's own rule. */
const fewSplits = 6
const noise = 1e-6

/** The figures of a work in words, one phrase a line. */
export function itemPhrases(item: RunningItem, done: DoneWork, view: SummaryView): string[] {
  return [
    meanPhrase(item, done, view),
    deviationPhrase(item, done, view),
    // A race begins with them.
    item.goal === null ? halvesPhrase(item, done, view) : '',
    goalPhrase(item, done, view),
  ].filter((phrase) => phrase !== '')
}

/** The text beside the name of an interval in a note: `20:35, 4:07/km, 5 of 5 in range`, of repeats
 * `mean 1:48.8, 5 of 6 in range`. */
export function leadPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  // A race is opened with its time.
  if (item.goal !== null) return ''
  const { repeats } = done.work
  const { meanSeconds, seconds, secondsPerKm } = item
  const whole = seconds === null ? [] : [formatClock(seconds, Number.isInteger(tenths(seconds)) ? 0 : 1)]
  const mean = meanSeconds === null ? [] : [`mean ${formatClock(meanSeconds, 1)}`]
  const pace = secondsPerKm === null ? [] : [formatPace(secondsPerKm, view.distance)]
  const judged = item.judged > 1 ? [`${item.inRange} of ${item.judged} in range`] : []
  return [...(repeats && mean.length > 0 ? mean : [...whole, ...pace]), ...judged].join(', ')
}

function tenths(value: number): number {
  return Math.round(value * 10) / 10
}

/** In a note: how evenly it was run and how far from the goal, `negative split, 1.0 %; 10.0 s/km slower than goal pace
 * 3:57/km`; a spread of many splits on a line of its own. */
export function shortPhrases(item: RunningItem, done: DoneWork, view: SummaryView): string[] {
  const evenness = item.goal === null ? shortHalves(item, done) : ''
  return [
    [evenness, goalPhrase(item, done, view)].filter((text) => text !== '').join('; '),
    deviationPhrase(item, done, view),
  ].filter((phrase) => phrase !== '')
}

function shortHalves({ halves }: RunningItem, { work }: DoneWork): string {
  if (halves === null) return ''
  const percent = `${toDecimals(Math.abs(halves.changePercent), 1)} %`
  if (!work.repeats) return halves.shape === 'even' ? 'even split' : `${halves.shape} split, ${percent}`
  if (halves.shape === 'even') return 'both halves even'
  return `second half ${percent} ${halves.changePercent < 0 ? 'faster' : 'slower'}`
}

/** `4:09  4:08  4:07.2  4:06 fast  4:05    hr 161 to 174, rpe 8` */
export function splitsPhrase({ splits }: DoneWork, view: SummaryView): string {
  const times = splits.map((split) => {
    const outside = split.target === 'fast' || split.target === 'slow' ? ` ${split.target}` : ''
    return `${splitText(split, view.distance)}${outside}`
  })
  const isLong = times.some((time) => time.includes(','))
  const rates = splits.flatMap(({ result }) => result.heartRate ?? [])
  const efforts = splits.flatMap(({ result }) => result.rpe ?? [])
  const beside = [spanOf('hr', rates), spanOf('rpe', efforts)].filter((text) => text !== '').join(', ')
  return `${times.join(isLong ? '; ' : '  ')}${beside === '' ? '' : `    ${beside}`}`
}

function spanOf(name: string, values: readonly number[]): string {
  if (values.length === 0) return ''
  const [low, high] = [Math.min(...values), Math.max(...values)]
  return low === high ? `${name} ${low}` : `${name} ${low} to ${high}`
}

function meanPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const texts: string[] = []
  if (item.meanSeconds !== null) texts.push(`mean ${formatClock(item.meanSeconds, 1)}`)
  if (item.splits.length > 1 && item.secondsPerKm !== null)
    texts.push(formatPace(item.secondsPerKm, view.distance))
  if (item.rangeSeconds !== null) texts.push(`range ${toDecimals(item.rangeSeconds, 1)} s`)
  if (item.judged > 1) texts.push(`${item.inRange} of ${item.judged} in ${rangeText(done)}${spareText(done)}`)
  return texts.join(', ')
}

/** The range of a full split, if all have the same. */
function rangeText(done: DoneWork): string {
  const ranges = new Set(
    done.splits
      .filter((split) => split.range && !split.step.short)
      .map(({ range }) => (range ? clockSpan(range) : '')),
  )
  const [only] = ranges
  return ranges.size === 1 && only !== undefined ? only : 'range'
}

/** Added if a split outside the range counts as in range all the same. */
function spareText(done: DoneWork): string {
  const isSpared = done.splits.some(({ result: { seconds }, range, target }) => {
    if (target !== 'in' || range === null || seconds === null) return false
    return seconds < range.from - noise || seconds > range.to + noise
  })
  return isSpared ? ' (ends with half a digit to spare)' : ''
}

function clockSpan(range: { from: number; to: number }): string {
  const text = (seconds: number) =>
    formatClock(seconds, Number.isInteger(Math.round(seconds * 1000) / 1000) ? 0 : 1)
  return `${text(range.from)}-${text(range.to)}`
}

/** Standard deviation, coefficient of variation and fade. */
function deviationPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const { sdSeconds, cvPercent, fadePercentPerSplit } = item
  if (sdSeconds === null || cvPercent === null) return ''
  const isShort = (done.work.nominalMeters ?? shortestMeters) < shortestMeters
  if (!view.full && (isShort || fullSplits(done).length < fewSplits)) return ''
  const fade = fadePercentPerSplit === null ? '' : `, fade ${signed(fadePercentPerSplit, 2)} % a split`
  return `standard deviation ${toDecimals(sdSeconds, 1)} s (${toDecimals(cvPercent, 1)} % of the mean)${fade}`
}

/** `halves 3:56.0, 3:54.4/km: 0.7 % faster, a negative split`; empty without halves. */
export function halvesPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const { halves } = item
  if (!halves) return ''
  const [first, second] = [halves.firstSecondsPerKm, halves.secondSecondsPerKm].map((pace) =>
    formatPace(pace, view.distance, 1),
  )
  const whose = done.work.repeats ? 'first and second half of the repeats' : 'halves'
  const percent = toDecimals(Math.abs(halves.changePercent), 1)
  const faster = `${percent} % ${halves.changePercent < 0 ? 'faster' : 'slower'}`
  const named = done.work.repeats ? faster : `${faster}, a ${halves.shape} split`
  const shape = halves.shape === 'even' ? 'even' : named
  return `${whose} ${first?.split('/')[0]}, ${second}: ${shape}`
}

function goalPhrase(item: RunningItem, done: DoneWork, view: SummaryView): string {
  const goal = view.summary.running.goal
  const meters = done.work.repeats ? (done.work.nominalMeters ?? 1000) : (item.meters ?? 0)
  if (!view.full && meters < 1000) return ''
  if (item.offGoalSecondsPerKm === null || goal === null || item.goal !== null) return ''
  const off = paceIn(item.offGoalSecondsPerKm, view.distance)
  const pace = formatPace(goal.secondsPerKm, view.distance)
  if (Math.abs(off) < 0.05) return `at goal pace ${pace}`
  return `${toDecimals(Math.abs(off), 1)} s/${view.distance} ${off < 0 ? 'faster' : 'slower'} than goal pace ${pace}`
}

function signed(value: number, digits: number): string {
  const text = toDecimals(value, digits)
  return Number(text) > 0 ? `+${text}` : text
}

type Lifted = Summary['lifting']['exercises'][number]

/** Rests this close to the prescribed ones count as prescribed. This program's own rule. */
const restShare = 0.1
const restSeconds = 10

/** Merges equal consecutive sets: `4 x (2+2) x 140 kg @8 8 8.5 9!`, `2 x 6 x bodyweight, 5 x bodyweight @!`. */
export function setsText(exercise: DoneExercise, view: SummaryView): string {
  const runs: { text: string; sets: DoneSet[] }[] = []
  for (const set of exercise.sets) {
    const text = setText(set, view)
    const before = runs.at(-1)
    if (before?.text === text) before.sets.push(set)
    else runs.push({ text, sets: [set] })
  }
  return runs
    .map(({ text, sets }) => `${sets.length > 1 ? `${sets.length} x ` : ''}${text}${effortsText(sets)}`)
    .join(', ')
    .concat(isRunningExercise(exercise) ? ', counted as running' : '')
}

function setText({ result, step, side: ofSide }: DoneSet, view: SummaryView): string {
  const [rounds = 0, begun = 0] = result.groups ?? []
  if (step.dose.kind === 'roundsIn' && result.groups !== null)
    return `${rounds} ${rounds === 1 ? 'round' : 'rounds'}${begun === 0 ? '' : ` and ${begun} reps`}`
  if (
    step.dose.kind === 'forTime' &&
    result.seconds !== null &&
    result.reps === null &&
    result.meters === null
  )
    return formatClock(result.seconds)
  const count =
    result.groups !== null
      ? `(${result.groups.join('+')})`
      : result.seconds !== null
        ? `${roundTo(result.seconds, 1)} s`
        : result.meters !== null
          ? carriedText(result.meters, step)
          : String(result.reps ?? 0)
  const side = ofSide === null ? '' : ` ${ofSide}`
  const unit = view.state.prescription.units.mass === view.mass ? null : view.mass
  return `${count}${side}${result.load === null ? '' : ` x ${loadText(result.load, unit)}`}`
}

/** A carried distance in its own unit: `40 yd`. */
function carriedText(meters: number, { dose }: DoneSet['step']): string {
  if (dose.kind !== 'distance') return `${roundTo(meters, 1)} m`
  const written = metersOf(dose.length)
  return printLength({ ...dose.length, value: roundTo((meters / written) * dose.length.value, 1) })
}

/** Efforts of equal sets, `-` where none was typed; `!` after one, or instead of one, for a failed repetition. */
function effortsText(sets: readonly DoneSet[]): string {
  const efforts = sets.map(({ result }) => `${result.rpe ?? ''}${result.failed ? '!' : ''}`)
  if (efforts.every((effort) => effort === '')) return ''
  return ` @${efforts.map((effort) => (effort === '' ? '-' : effort)).join(' ')}`
}

/** The estimated maximum with its range and a caution, if one applies. */
export function estimatePhrases(lifted: Lifted, exercise: DoneExercise, view: SummaryView): string[] {
  const best = lifted.oneRepMax
  if (best === null || (!view.full && isForFullOnly(exercise.name, best))) return []
  const isBody = exercise.sets.some(
    (set) => set.number === best.fromSet && set.result.load?.kind === 'bodyweight',
  )
  const number = (kg: number) => roundTo(massIn({ value: kg, unit: 'kg' }, view.mass), 1)
  const text = (kg: number) => {
    const value = number(kg)
    return isBody ? `bodyweight${signedLoad(value)} ${view.mass}` : `${value} ${view.mass}`
  }
  const after = best.afterRun ? ['made after the run: not a fresh one'] : []
  if (best.formula === null) {
    const named = best.atLeast ? 'maximum at least' : 'measured maximum'
    return [`${named} ${text(best.kg)}, set ${best.fromSet}`, ...after]
  }
  const named = best.atLeast ? 'maximum at least' : 'estimated maximum'
  const formula = view.full ? `, by ${best.formula}` : ''
  return [
    `${named} ${text(best.kg)}${rangeOf(best, (kg) => (isBody ? signedLoad(number(kg)) : String(number(kg))))}, set ${best.fromSet}${formula}`,
    ...(best.cluster ? ['a cluster set: from its longest group alone to no pause at all'] : []),
    ...after,
  ]
}

/** Many repetitions, or one joint: the estimate says little. */
function isForFullOnly(name: string, { repetitions }: NonNullable<Lifted['oneRepMax']>): boolean {
  return repetitions > mostRepetitionsInANote || isSingleJoint(name)
}

function signedLoad(value: number): string {
  return `${value < 0 ? '-' : '+'}${Math.abs(value)}`
}

function rangeOf(best: NonNullable<Lifted['oneRepMax']>, printed: (kg: number) => string): string {
  if (best.lowKg === null) return ''
  // A range around an "at least" would contradict it: the spread comes from the equations.
  const who = best.atLeast ? 'the equations say ' : ''
  if (best.highKg === null) return ` (${who}${printed(best.lowKg)} or more)`
  return best.lowKg === best.highKg ? '' : ` (${who}${printed(best.lowKg)} to ${printed(best.highKg)})`
}

/** The measured pauses and rests; in a note only those that differ from the prescription. */
export function restPhrases(lifted: Lifted, view: SummaryView): string[] {
  return [
    ...(lifted.pauses ? restPhrase('pause', lifted.pauses, lifted.pauses.paced, view) : []),
    ...(lifted.rests ? restPhrase('rest', lifted.rests, false, view) : []),
  ]
}

function restPhrase(
  what: string,
  rest: { prescribedSeconds: number | null; meanSeconds: number | null },
  paced: boolean,
  view: SummaryView,
): string[] {
  const { prescribedSeconds, meanSeconds } = rest
  if (meanSeconds === null) return []
  const off = prescribedSeconds === null ? null : Math.abs(meanSeconds - prescribedSeconds)
  const isAsPrescribed = off === null || off <= Math.max(restSeconds, (prescribedSeconds ?? 0) * restShare)
  if (!view.full && isAsPrescribed) return []
  const meant = prescribedSeconds === null ? '' : `, ${formatClock(prescribedSeconds)} prescribed`
  return [`mean ${what} ${formatClock(meanSeconds)}${meant}${paced ? ', set by the clock' : ''}`]
}

/** The result of one split, as typed: `1:49.2`, `820 m in 3:00`, `2 km, not timed`. */
export function splitText({ step, result }: DoneSplit, distance: 'km' | 'mi'): string {
  const { meters, seconds } = result
  const isAsPrescribed = step.seconds === null && meters === step.meters
  const far = meters === null ? null : formatLength(meters, distance)
  if (seconds === null) return far === null || isAsPrescribed ? 'done, not timed' : `${far}, not timed`
  const clock = timeText(seconds, result.precision)
  if (isAsPrescribed) return clock
  return far === null ? `${clock}, metres not known` : `${far} in ${clock}`
}

/** A time with as many digits as were typed. */
function timeText(seconds: number, precision: number | null): string {
  return formatClock(seconds, precision === null || precision >= 1 ? 0 : precision >= 0.1 ? 1 : 2)
}

/** Remarks after a split: `slow`, `hr 171/183`, `rpe 8`; empty without any. */
export function besideText(split: DoneSplit): string {
  const outside = split.target === 'fast' || split.target === 'slow' ? [split.target] : []
  return [...outside, ...effortTexts(split.result)].join(' ')
}

function effortTexts({ heartRate, heartRateMax, rpe }: IntervalResult): string[] {
  const texts = []
  if (heartRate !== null) texts.push(`hr ${heartRate}${heartRateMax === null ? '' : `/${heartRateMax}`}`)
  if (rpe !== null) texts.push(`rpe ${rpe}`)
  return texts
}

/** What only the full summary says about the session as a whole. */
export function fullPhrases(view: SummaryView): string[] {
  const { lifting, fuel } = view.summary
  const phrases: string[] = []
  if (lifting.sets > 0) {
    const reps = lifting.reps > 0 ? [`${lifting.reps} repetitions`] : []
    const tonnage =
      lifting.tonnageKg > 0 ? [`${massText(lifting.tonnageKg, view)} over unlike exercises`] : []
    phrases.push(`lifted ${[`${lifting.sets} sets`, ...reps, ...tonnage].join(', ')}`)
  }
  if (fuel.runningKcal) {
    const [from, to] = fuel.runningKcal
    const printed = printedKcal({ from, to })
    phrases.push(`the running took ${printed.from} to ${printed.to} kcal above rest, on the level`)
  }
  return [...phrases, ...fuelRangePhrases(view)]
}

/** A mass from kilograms in the unit of the page, to a tenth. */
export function massText(kg: number, view: SummaryView): string {
  return `${roundTo(massIn({ value: kg, unit: 'kg' }, view.mass), 1)} ${view.mass}`
}

/** General ranges next to what was eaten, only in the full summary: they are for healthy adults, and a dietitian's
 * advice goes before them. Empty without a body mass. */
export function fuelRangePhrases(view: SummaryView): string[] {
  const { bodyKg, summary, state } = view
  const meals = Object.values(summary.fuel).filter((meal) => meal !== null)
  if (bodyKg === null || (meals.length === 0 && !state.steps.some((step) => step.kind === 'fuel'))) return []
  const { byMass, usual } = proteinOfMeal(bodyKg)
  return [
    ...carbsPhrase(bodyKg, view),
    ...carbsAfterPhrase(bodyKg, view),
    `protein of a meal: ${grams(byMass)} by body mass, ${usual.from} to ${usual.to} g is usual`,
    "ranges for healthy adults; a dietitian's word goes before them",
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
function carbsAfterPhrase(bodyKg: number, { secondsToNextHard, isHardLater }: SummaryView): string[] {
  const seconds = secondsToNextHard ?? (isHardLater ? 0 : null)
  const range = seconds === null ? null : carbsAfterAnHour(bodyKg, seconds)
  if (range === null) return []
  const when =
    secondsToNextHard === null
      ? 'if the hard day planned for today begins within 8 h'
      : `the next hard session is ${roundTo(secondsToNextHard / 3600, 1)} h away`
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
