import { format, parseISO } from 'date-fns'
import { formatMeters } from '../units/length.ts'
import type { Summary } from './model.ts'
import { partName } from './names.ts'
import type { SummaryView } from './view.ts'

/** `Thu 26 Nov 2026, 06:40 to 09:02` */
export function whenPhrase({ session }: Summary): string {
  const date = session.date === '' ? 'date not known' : format(parseISO(session.date), 'EEE d MMM yyyy')
  const [start, end] = [clockOf(session.startedAt), clockOf(session.finishedAt)]
  const clock = start === null ? '' : end === null ? `, from ${start}` : `, ${start} to ${end}`
  return `${date}${clock}${session.finished ? '' : ', not finished'}`
}

/** `110 min, 832 effort-minutes`; empty where neither is known. */
export function loadPhrase({ session }: Summary): string {
  const texts: string[] = []
  if (session.minutes !== null) texts.push(`${rounded(session.minutes)} min`)
  if (session.effortMinutes !== null) texts.push(`${rounded(session.effortMinutes)} effort-minutes`)
  return texts.join(', ')
}

/** `run: track, 62 min, effort 8, 25 min after the part before` */
export function partPhrase(part: Summary['parts'][number]): string {
  const texts = [partName(part)]
  if (part.minutes !== null) texts.push(`${rounded(part.minutes)} min`)
  if (part.effort !== null) texts.push(`effort ${part.effort}`)
  // Under a minute is the turn from one part to the next, not a gap.
  if (part.gapMinutes !== null && part.gapMinutes >= 1)
    texts.push(`${rounded(part.gapMinutes)} min after the part before`)
  return texts.join(', ')
}

/** `13.6 km, 12 km of it without the jogs`; empty when nothing was run. */
export function distancePhrase(kind: 'run' | 'cross', view: SummaryView): string {
  const { meters, workMeters } = kind === 'run' ? view.summary.running : view.summary.cross
  if (meters === 0) return ''
  const whole = formatMeters(meters, view.distance)
  if (workMeters === meters) return whole
  return `${whole}, ${formatMeters(workMeters, view.distance)} of it without the ${recoveriesName(kind, view)}`
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
  return String(Number(value.toFixed(1)))
}

function clockOf(time: string | null): string | null {
  return time === null ? null : time.slice(11, 16)
}
