import * as Plot from '@observablehq/plot'
import { parseHTML } from 'linkedom'
import type { Block } from '../progress/block.ts'
import type { HistoryUnits } from '../progress/history.ts'
import { atLeastWords, estimateMarks, type LiftProgress, unitOfLift } from '../progress/lift.ts'
import type { Shown } from '../progress/overview.ts'
import { spanText } from '../progress/weeks.ts'
import { plainOf } from '../summary/plain.ts'
import { metersInPaceUnit } from '../units/duration.ts'
import { kilogramsIn } from '../units/mass.ts'

/* The chart as a picture. Loaded only when needed: the library draws into a document, and a small package
 * provides one without a browser. */

const width = 860
const height = 420
const ink = '#222222'
const accent = '#1f6f8b'
const second = '#b5651d'

/** An SVG file of the first chart in the text.
 * @throws TypeError for the page of everything and for pain, which have no chart */
export function pictureOf(shown: Shown, units: HistoryUnits): string {
  switch (shown.kind) {
    case 'lift':
      return liftPicture(shown.figures, units)
    case 'run':
      return barPicture(
        `Running by week: ${spanText(shown.figures)}`,
        units.distance,
        shown.figures.weeks.map(({ monday, meters }) => ({
          monday,
          of: 'run',
          value: meters / metersInPaceUnit[units.distance],
        })),
      )
    case 'load':
      return barPicture(
        `Session load by week, run below and lift above: ${spanText(shown.figures)}`,
        'session load',
        shown.figures.weeks.flatMap(({ monday, run, lift }) => [
          { monday, of: 'run', value: run },
          { monday, of: 'lift', value: lift },
        ]),
      )
    case 'all':
    case 'pain':
      throw new TypeError('this page has no chart')
  }
}

function liftPicture({ estimates, trends, ...lift }: LiftProgress, units: HistoryUnits): string {
  const mass = unitOfLift(lift, units)
  const kg = (value: number) => kilogramsIn(value, mass)
  const points = estimates.map((each) => ({
    date: dateOf(each.date),
    value: kg(each.kg),
    low: kg(each.lowKg ?? each.kg),
    high: kg(each.highKg ?? each.kg),
    kind: each.atLeast ? atLeastWords : estimateMarks[each.kind].words,
  }))
  const lines = trends
    .filter(({ trend }) => trend.isClear)
    .flatMap(({ kind, trend }) =>
      [trend.first, trend.last].map(({ date, value }) => ({
        date: dateOf(date),
        value: kg(value),
        kind: estimateMarks[kind].words,
      })),
    )
  const kinds = Object.keys(symbols).filter((kind) => points.some((point) => point.kind === kind))
  return drawn(`${lift.name}: estimated maximum for one repetition, ${spanText(lift)}`, {
    x: { type: 'utc', label: 'date', domain: [dateOf(lift.from), dateOf(lift.to)] },
    y: { label: mass, grid: true },
    symbol: { domain: kinds, range: kinds.map((kind) => symbols[kind] ?? 'circle') },
    marks: [
      Plot.ruleX(points, { x: 'date', y1: 'low', y2: 'high', strokeOpacity: 0.35 }),
      Plot.line(lines, { x: 'date', y: 'value', z: 'kind', stroke: accent, strokeDasharray: '4,3' }),
      Plot.dot(points, { x: 'date', y: 'value', symbol: 'kind', fill: 'white', stroke: ink, r: 4 }),
      Plot.text(
        points,
        Plot.selectLast({
          x: 'date',
          y: 'value',
          z: 'kind',
          text: 'kind',
          textAnchor: 'end',
          dx: -8,
          dy: -8,
        }),
      ),
    ],
  })
}

/** The names of the kinds in the picture: each kind has its own shape, so no colour is needed. */
const symbols: Record<string, 'circle' | 'square' | 'triangle' | 'diamond' | 'times'> = {
  [estimateMarks.fresh.words]: 'circle',
  [estimateMarks.afterRun.words]: 'square',
  [estimateMarks.cluster.words]: 'triangle',
  [estimateMarks.clusterAfterRun.words]: 'diamond',
  [atLeastWords]: 'times',
}

function barPicture(
  title: string,
  unit: string,
  values: { monday: string; of: string; value: number }[],
): string {
  const kinds = [...new Set(values.map((each) => each.of))]
  return drawn(title, {
    x: { label: 'week from Monday', labelOffset: 76, type: 'band', tickRotate: -45 },
    y: { label: unit, grid: true },
    color: { domain: kinds, range: [accent, second] },
    marks: [Plot.barY(values, { x: 'monday', y: 'value', fill: 'of', order: kinds }), Plot.ruleY([0])],
  })
}

/** An SVG file of a block: what was done as bars, what is planned as lines across them. */
export function planPicture({ title, weeks }: Block, unit: 'km' | 'mi'): string {
  const inUnit = (meters: number) => meters / metersInPaceUnit[unit]
  const planned = weeks.flatMap(({ monday, planned }) =>
    planned.meters === null ? [] : [{ monday, value: inUnit(planned.meters) }],
  )
  const tapers = weeks.flatMap(({ monday, planned: { taper } }) =>
    taper === null ? [] : [{ monday, low: inUnit(taper.fromMeters), high: inUnit(taper.toMeters) }],
  )
  const done = weeks.map(({ monday, done }) => ({ monday, value: inUnit(done?.meters ?? 0) }))
  return drawn(`${title}: done (bars), planned (lines), taper (dashed)`, {
    x: { label: 'week from Monday', labelOffset: 76, type: 'band', tickRotate: -45 },
    y: { label: unit, grid: true },
    marks: [
      Plot.barY(done, { x: 'monday', y: 'value', fill: accent }),
      Plot.tickY(planned, { x: 'monday', y: 'value', stroke: ink, strokeWidth: 2 }),
      Plot.ruleX(tapers, { x: 'monday', y1: 'low', y2: 'high', stroke: ink, strokeDasharray: '4,3' }),
      Plot.ruleY([0]),
    ],
  })
}

function dateOf(date: string): Date {
  return new Date(`${date}T00:00:00Z`)
}

/** The part of a DOM element used here, so that no browser types are loaded. */
interface Drawn {
  outerHTML: string
  setAttribute(name: string, value: string): void
}

function drawn(title: string, { marks = [], ...options }: Plot.PlotOptions): string {
  const { document } = parseHTML('<!doctype html><html><body></body></html>')
  const plot = Plot.plot({
    ...options,
    document,
    width,
    height,
    marginTop: 48,
    marginLeft: 56,
    marginBottom: 84,
    style: { background: 'white', color: ink, fontSize: '12px' },
    marks: [...marks, Plot.text([plainOf(title)], { frameAnchor: 'top-right', dy: -40, fontWeight: 'bold' })],
  }) as unknown as Drawn
  plot.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  return `${plot.outerHTML}\n`
}
