import { adviceFigures } from './advice.ts'
import { barFigures } from './bar.ts'
import type { Explanation } from './figure.ts'
import { fuelFigures } from './fuel.ts'
import { loadFigures } from './load.ts'
import { longTermFigures } from './longTerm.ts'
import { strengthFigures } from './oneRepMax.ts'
import { raceFigures } from './race.ts'
import { runFormFigures } from './runForm.ts'
import { sessionMaximumFigures } from './sessionMaximum.ts'
import { pacingFigures } from './splits.ts'
import { volumeFigures } from './volume.ts'

/** Every figure that can be explained, by the name typed on the command line (whole words with hyphens). */
export const catalogue = {
  ...strengthFigures,
  ...sessionMaximumFigures,
  ...volumeFigures,
  ...pacingFigures,
  ...raceFigures,
  ...loadFigures,
  ...longTermFigures,
  ...runFormFigures,
  ...barFigures,
  ...adviceFigures,
  ...fuelFigures,
}
export type FigureName = keyof typeof catalogue

/** A figure as it is listed and explained without a session. */
export type ExplainedFigure = Explanation & { name: FigureName }

export const figureNames = Object.keys(catalogue) as FigureName[]

export const figures: readonly ExplainedFigure[] = figureNames.map((name) => ({ ...catalogue[name], name }))

/** Finds a figure by its name or an alias, whatever the case and the spaces or hyphens; null if unknown. */
export function figureOf(word: string): ExplainedFigure | null {
  const isMeant = (name: string) => plain(name) === plain(word)
  return (
    figures.find(({ name }) => isMeant(name)) ?? figures.find(({ aliases }) => aliases.some(isMeant)) ?? null
  )
}

function plain(word: string): string {
  return word.toLowerCase().replace(/[\s_-]/g, '')
}
