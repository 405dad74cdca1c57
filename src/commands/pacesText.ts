import { formatClock, formatClockShort } from '../units/duration.ts'
import { formatPace } from '../units/pace.ts'
import type { Paces } from './paces.ts'

/** What a race says, as text of at most 80 columns. */
export function pacesText(paces: Paces): string {
  const sections = [heading(paces), laps(paces), equals(paces), training(paces)]
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`
}

function heading({ race }: Paces): string[] {
  const pace = (unit: 'km' | 'mi') => formatPace(race.secondsPerKm, unit, 1)
  return [`${race.distance} in ${formatClockShort(race.seconds)} is ${pace('km')}, ${pace('mi')}`]
}

function laps({ laps }: Paces): string[] {
  const row = (name: string, cells: string[]) =>
    `  ${name.padEnd(6)}${cells.map((cell) => cell.padStart(8)).join('')}`
  return [
    'One lap of a 400 m track at that pace',
    row(
      'lane',
      laps.map((lap) => String(lap.lane)),
    ),
    row(
      'metres',
      laps.map((lap) => lap.meters.toFixed(2)),
    ),
    row(
      'time',
      laps.map((lap) => formatClock(lap.seconds, 1)),
    ),
  ]
}

function equals({ equalPerformances, equivalentVo2max }: Paces): string[] {
  const row = (distance: string, first: string, second: string) =>
    `  ${distance.padEnd(14)}${first.padStart(22)} ${second.padStart(15)}`
  const rows = equalPerformances.map(({ distance, danielsGilbert, riegel }) => {
    const [first, second] = [formatClock(danielsGilbert.seconds), formatClock(riegel.seconds)]
    return `${row(distance, first, second)}${danielsGilbert.holds && riegel.holds ? '' : ` ${which(danielsGilbert, riegel)}`}`
  })
  const isUnsure = equalPerformances.some((each) => !each.danielsGilbert.holds || !each.riegel.holds)
  return [
    `Equal performances (equivalent VO2max ${equivalentVo2max.toFixed(1)} ml/kg/min)`,
    row('distance', 'Daniels & Gilbert 1979', 'Riegel 1981'),
    ...rows,
    ...(isUnsure ? ['  * neither holds there, (*) Riegel does not: 3.5 min to 4 h, Riegel to 230 min'] : []),
    '  Only from a race or a time trial, and no promise: half of all marathon runners',
    '  are ten minutes slower or more than this (Vickers & Vertosick 2016).',
  ]
}

/** Which of the two does not hold: Daniels and Gilbert hold wherever Riegel does. */
function which(danielsGilbert: { holds: boolean }, riegel: { holds: boolean }): string {
  return danielsGilbert.holds && !riegel.holds ? '(*)' : '*'
}

function training({ trainingPaces }: Paces): string[] {
  const paces = (each: { from: number; to: number }, unit: 'km' | 'mi') =>
    `${formatPace(each.from, unit).replace(/\/.*/, '')}-${formatPace(each.to, unit)}`
  const percent = (share: number) => Math.round(share * 100)
  return [
    'Training paces (shares of that value; the shares are from memory)',
    ...trainingPaces.map(
      ({ label, share, secondsPerKm }) =>
        `  ${label.padEnd(27)}${paces(secondsPerKm, 'km').padEnd(16)}${paces(secondsPerKm, 'mi').padEnd(17)}${percent(share.from)}-${percent(share.to)} %`,
    ),
  ]
}
