import * as Plot from '@observablehq/plot'
import { parseHTML } from 'linkedom'
import type { Chart, Picture } from '../progress/chart.ts'
import { plainOf } from '../summary/plain.ts'

/* The charts of the pages as pictures. Loaded only when needed: the library draws into a document, and a small package
 * provides one without a browser. */

const width = 860
const height = 420
const ink = '#222222'
const accent = '#1f6f8b'
const second = '#b5651d'

/** The shape of each mark, so that no colour is needed. */
const symbols = { o: 'circle', r: 'square', c: 'triangle', x: 'diamond', '^': 'times' }

export function pictureOf(picture: Picture): string {
  const { document } = parseHTML('<!doctype html><html><body></body></html>')
  const { marks = [], ...options } = 'chart' in picture ? optionsOf(picture.chart) : barOptionsOf(picture)
  const title = [plainOf(picture.title)]
  const plot = Plot.plot({
    ...options,
    document,
    width,
    height,
    marginTop: 48,
    marginLeft: 56,
    marginBottom: 100,
    style: { background: 'white', color: ink, fontSize: '12px' },
    marks: [...marks, Plot.text(title, { frameAnchor: 'top-right', dy: -40, fontWeight: 'bold' })],
  }) as unknown as Drawn
  plot.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  return `${plot.outerHTML}\n`
}

function optionsOf({ unit, from, to, points, lines = [], legend = {} }: Chart): Plot.PlotOptions {
  const dated = points.map(({ date, value, low, high, mark }) => ({
    date: dateOf(date),
    value,
    low: low ?? value,
    high: high ?? value,
    mark,
  }))
  const ends = lines.flatMap((line, at) =>
    [line.from, line.to].map(({ date, value }) => ({ date: dateOf(date), value, at })),
  )
  const meaning = ({ mark }: { mark: string }) => legend[mark]
  const label = {
    x: 'date',
    y: 'value',
    z: 'mark',
    text: meaning,
    textAnchor: 'end',
    dx: -8,
    dy: -8,
  } as const
  return {
    x: { type: 'utc', label: 'date', domain: [dateOf(from), dateOf(to)] },
    y: { label: unit, grid: true },
    symbol: { domain: Object.keys(symbols), range: Object.values(symbols) },
    marks: [
      Plot.ruleX(dated, { x: 'date', y1: 'low', y2: 'high', strokeOpacity: 0.35 }),
      Plot.line(ends, { x: 'date', y: 'value', z: 'at', stroke: accent, strokeDasharray: '4,3' }),
      Plot.dot(dated, { x: 'date', y: 'value', symbol: 'mark', fill: 'white', stroke: ink, r: 4 }),
      Plot.text(dated, Plot.selectLast(label)),
    ],
  }
}

function barOptionsOf({ bars, unit }: Extract<Picture, { bars: unknown }>): Plot.PlotOptions {
  const rows = bars.map(({ cells: [name = ''], ...row }) => ({ name: name.trim(), ...row }))
  const segments = rows.flatMap(({ name, segments }) => segments.map((segment) => ({ name, ...segment })))
  return {
    x: {
      label: 'week from Monday',
      labelOffset: 92,
      type: 'band',
      tickRotate: -45,
      domain: rows.map(({ name }) => name),
    },
    y: { label: unit, grid: true },
    color: { domain: ['=', '#'], range: [accent, second] },
    marks: [
      Plot.barY(segments, { x: 'name', y: 'value', fill: 'mark', order: ['=', '#'] }),
      Plot.tickY(rows, { x: 'name', y: 'line', stroke: ink, strokeWidth: 2 }),
      Plot.ruleY([0]),
    ],
  }
}

function dateOf(date: string): Date {
  return new Date(`${date}T00:00:00Z`)
}

/** The part of a DOM element used here, so that no browser types are loaded. */
interface Drawn {
  outerHTML: string
  setAttribute(name: string, value: string): void
}
