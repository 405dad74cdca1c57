import { sourceLine } from '../figures/figure.ts'
import { fastLossShare, lossShare } from '../figures/fuel.ts'
import { mean } from '../figures/statistics.ts'
import { type Morning, printMorning } from '../plan/morning.ts'
import { plainOf } from '../summary/plain.ts'
import { dayAfter } from '../units/calendarDate.ts'
import { printHours } from '../units/duration.ts'
import { kilogramsIn, kilogramsOf, massIn } from '../units/mass.ts'
import type { Mass, MassUnit } from '../units/model.ts'
import { chartLines, pageOf, type Trend, trendOf } from './chart.ts'
import type { HistoryUnits } from './history.ts'
import { massSlopeText } from './lift.ts'
import { dateText } from './weeks.ts'

type BodyProgress = ReturnType<typeof bodyProgress>

/** Body mass, resting heart rate and sleep over the last 28 days.
 * Source: Least squares; Garthe 2011 for the loss.
 * @param mornings may include other days; @param today local date */
export function bodyProgress(mornings: readonly Morning[], today: string) {
  const within = (days: number) =>
    mornings.filter(({ date }) => date <= today && date > dayAfter(today, -days))
  // Null if nothing was typed.
  const means = (of: (morning: Morning) => number | undefined) => ({
    last7: mean(within(7).flatMap((each) => of(each) ?? [])),
    last28: mean(within(28).flatMap((each) => of(each) ?? [])),
  })
  const masses = means(({ bodyMass }) => (bodyMass === undefined ? undefined : kilogramsOf(bodyMass)))
  const trend = trendOf(pointsOf(within(28), kilogramsOf))
  return {
    to: today,
    bodyMassKg: {
      ...masses,
      trend,
      // More than 0.7 % of the mean a week, in an interval that excludes a gain.
      fastLoss:
        trend !== null &&
        masses.last28 !== null &&
        trend.perWeekHigh < 0 &&
        lossShare(trend.perWeek, masses.last28) > fastLossShare,
    },
    restingHeartRate: means(({ restingHeartRate }) => restingHeartRate),
    sleepSeconds: means(({ sleepSeconds }) => sleepSeconds),
    mornings: within(28),
  }
}

export function bodyLines(body: BodyProgress, units: HistoryUnits, columns: number): string[] {
  const { mass: unit, convert = false } = units
  const { bodyMassKg, restingHeartRate, sleepSeconds, mornings } = body
  const points = pointsOf(mornings, (mass) => massIn(mass, unit))
  const span = { from: dayAfter(body.to, -27), to: body.to }
  const chart = { unit, ...span, points, print: (value: number) => value.toFixed(1) }
  const facts = [
    meansText('body mass', bodyMassKg, (kg) => `${kilogramsIn(kg, unit).toFixed(1)} ${unit}`),
    bodyMassKg.last28 === null ? '' : changeText(bodyMassKg.trend, unit),
    bodyMassKg.fastLoss
      ? `More than 0.7 % of the body mass a week is being lost: ask a dietitian, whose word takes precedence. ${sourceLine('Garthe 2011')}`
      : '',
    meansText('resting heart rate', restingHeartRate, (beats) => `${Math.round(beats)} bpm`),
    meansText('sleep', sleepSeconds, printHours),
  ]
  const blocks = [
    [`body: 28 days to ${dateText(body.to)}`],
    points.length < 2 ? [] : chartLines(chart, columns, 9),
    facts,
    mornings
      .slice(-7)
      .map((each) => plainOf(`${dateText(each.date)}: ${printMorning(each, convert ? unit : null)}`)),
  ]
  return pageOf(blocks, columns)
}

function pointsOf(mornings: readonly Morning[], inUnit: (mass: Mass) => number) {
  return mornings.flatMap(({ date, bodyMass }) =>
    bodyMass === undefined ? [] : [{ date, value: inUnit(bodyMass), mark: 'o' }],
  )
}

function changeText(trend: Trend | null, unit: MassUnit): string {
  if (trend === null) return 'no slope yet: it takes four mornings over three weeks'
  const slope = `${massSlopeText(trend, unit)} over 28 days (95 % interval)`
  return trend.isClear ? slope : `no change that can be told from noise: ${slope}`
}

function meansText(
  what: string,
  { last7, last28 }: { last7: number | null; last28: number | null },
  print: (value: number) => string,
): string {
  if (last28 === null) return `${what}: nothing typed in 28 days`
  if (last7 === null) return `${what}: ${print(last28)} in 28 days, nothing typed in the last 7`
  return `${what}: ${print(last7)} in 7 days, ${print(last28)} in 28`
}
