import { LogbookError } from '../logbook/errors.ts'
import { readOwnText } from '../logbook/ownTexts.ts'
import type { Diagnostic } from '../prescription/diagnostic.ts'
import { type Food, plainFoods, readFoods } from '../session/entry/fuel.ts'

/** The athlete's foods, or the built-in ones without a `foods.txt`.
 * @param onProblems called with the problems of the file; its other lines still count */
export function foodsIn(logbook: string, onProblems: (problems: Diagnostic[]) => void = () => {}): Food[] {
  try {
    const { foods, problems } = readFoods(readOwnText(logbook, 'foods.txt') ?? plainFoods)
    if (problems.length > 0) onProblems(problems)
    return foods
  } catch (error) {
    if (error instanceof LogbookError) return []
    throw error
  }
}
