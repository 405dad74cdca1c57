import { sourceLine } from '../figures/figure.ts'
import { fastLossShare, lossShare } from '../figures/fuel.ts'
import { mean } from '../figures/statistics.ts'
import { type Morning, printMorning } from '../plan/morning.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { dayAfter } from '../units/calendarDate.ts'
import { kilogramsOf, massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { chartLines, trendOf, withGaps } from './chart.ts'
import { dateText } from './weeks.ts'

/** Means of the last 7 and the last 28 days; null if nothing was typed in them. */
interface Means {
  last7: number | null
  last28: number | null
}

export interface BodyProgress {
  /** The last day included. */
  to: string
  bodyMassKg: Means & {
    /** Kilograms a week over 28 days with the ends of the 95 % interval; null below four mornings or 21 days. */
    perWeek: { kg: number; lowKg: number; highKg: number; mornings: number } | null
    /** The loss exceeds 0.7 % of the mean a week, and the interval excludes a gain. */
    fastLoss: boolean
  }
  restingHeartRate: Means
  sleepSeconds: Means
  /** The mornings of the last 28 days, oldest first. */
  mornings: Morning[]
}

/** Body mass, resting heart rate and sleep over the last 28 days.
 * Source: Least squares; Garthe 2011 for the loss.
 * @param mornings may include other days; @param today local date */
export function bodyProgress(mornings: readonly Morning[], today: string): BodyProgress {
  const within = (days: number) =>
    mornings.filter(({ date }) => date <= today && date > dayAfter(today, -days))
  const means = (of: (morning: Morning) => number | undefined): Means => ({
    last7: mean(within(7).flatMap((each) => of(each) ?? [])),
    last28: mean(within(28).flatMap((each) => of(each) ?? [])),
  })
  const kg = ({ bodyMass }: Morning) => (bodyMass === undefined ? undefined : kilogramsOf(bodyMass))
  const masses = means(kg)
  const trend = trendOf(
    within(28).flatMap((each) => {
      const value = kg(each)
      return value === undefined ? [] : [{ date: each.date, value }]
    }),
  )
  const perWeek =
    trend === null
      ? null
      : {
          kg: trend.perWeek,
          lowKg: trend.perWeekLow,
          highKg: trend.perWeekHigh,
          mornings: trend.count,
        }
  return {
    to: today,
    bodyMassKg: {
      ...masses,
      perWeek,
      fastLoss:
        perWeek !== null &&
        masses.last28 !== null &&
        perWeek.highKg < 0 &&
        lossShare(perWeek.kg, masses.last28) > fastLossShare,
    },
    restingHeartRate: means(({ restingHeartRate }) => restingHeartRate),
    sleepSeconds: means(({ sleepSeconds }) => sleepSeconds),
    mornings: within(28),
  }
}

/** The body's figures as text. @param columns at least 40 */
export function bodyLines(body: BodyProgress, unit: MassUnit, columns: number): string[] {
  const mass = (kg: number, decimals: number) => massIn({ value: kg, unit: 'kg' }, unit).toFixed(decimals)
  const { bodyMassKg, restingHeartRate, sleepSeconds, mornings } = body
  const { perWeek } = bodyMassKg
  const points = mornings.flatMap(({ date, bodyMass }) =>
    bodyMass === undefined ? [] : [{ date, value: massIn(bodyMass, unit), mark: 'o' }],
  )
  const chart =
    points.length < 2
      ? []
      : chartLines(
          { unit, from: dayAfter(body.to, -27), to: body.to, points, print: (value) => value.toFixed(1) },
          columns,
          9,
        )
  const signed = (kg: number) => `${kg < 0 ? '-' : '+'}${mass(Math.abs(kg), 2)}`
  const slope =
    perWeek === null
      ? 'no slope yet: it takes four mornings over three weeks'
      : perWeek.lowKg <= 0 && perWeek.highKg >= 0
        ? `no change over 28 days that can be told from noise (${signed(perWeek.lowKg)} to ${signed(perWeek.highKg)} ${unit} a week)`
        : `${signed(perWeek.kg)} ${unit} a week over 28 days (95 %: ${signed(perWeek.lowKg)} to ${signed(perWeek.highKg)})`
  const facts = [
    meansText('body mass', bodyMassKg, (kg) => `${mass(kg, 1)} ${unit}`),
    ...(bodyMassKg.last28 === null ? [] : [slope]),
    ...(bodyMassKg.fastLoss
      ? [
          `More than 0.7 % of the body mass a week is being lost: a dietitian's word takes precedence. ${sourceLine('Garthe 2011')}`,
        ]
      : []),
    meansText('resting heart rate', restingHeartRate, (beats) => `${Math.round(beats)} bpm`),
    meansText('sleep', sleepSeconds, (seconds) => {
      const minutes = Math.round(seconds / 60)
      return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')} h`
    }),
  ]
  const last = mornings.slice(-7).map((morning) => `${dateText(morning.date)}: ${printMorning(morning)}`)
  return withGaps([
    wrapped(`body: 28 days to ${dateText(body.to)}`, columns),
    chart,
    facts.flatMap((fact) => wrapped(fact, columns)),
    last.flatMap((line) => wrapped(plainOf(line), columns)),
  ])
}

function meansText(what: string, { last7, last28 }: Means, print: (value: number) => string): string {
  if (last28 === null) return `${what}: nothing typed in 28 days`
  if (last7 === null) return `${what}: ${print(last28)} in 28 days, nothing typed in the last 7`
  return `${what}: ${print(last7)} in 7 days, ${print(last28)} in 28`
}
