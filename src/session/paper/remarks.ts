import { type Diagnostic, mostDiagnostics } from '../../prescription/diagnostic.ts'
import type { FuelItem } from '../../prescription/model.ts'
import type { FuelStep } from '../../prescription/step.ts'
import { type FuelPrompt, promptOf } from '../prompt.ts'
import type { FuelResult } from '../result.ts'
import type { SessionState } from '../state.ts'
import { type ClockTime, diagnosticAt, type PaperLine, type PaperPlace, takenFrom } from './lines.ts'

/* Assigns the lines that are not results to parts and steps. */

export interface PaperRemarks {
  date: string | null
  start: ClockTime | null
  /** By the part's index. */
  closings: ReadonlyMap<number, { effort: number | null; minutes: number | null }>
  conditions: ReadonlyMap<number, { text: string }>
  fuel: readonly EatenMeal[]
  notes: readonly { text: string; pain: boolean }[]
  problems: Diagnostic[]
}

/** `step` null: not prescribed. */
interface EatenMeal {
  when: FuelItem['when']
  step: FuelStep | null
  result: FuelResult
}

type LineOf<K extends PaperLine['kind']> = Extract<PaperLine, { kind: K }>

/** Two lines for parts of the same name go to those parts in order, and so do two meals at the same time.
 * @param state the day before anything has happened */
export function remarksOf(lines: readonly PaperLine[], state: SessionState): PaperRemarks {
  const of = <K extends PaperLine['kind']>(kind: K) =>
    lines.filter((line): line is LineOf<K> => line.kind === kind)
  const [date = null, ...otherDates] = of('date')
  const [start = null, ...otherStarts] = of('start')
  const closings = byPart(of('closing'), 'effort and minutes of this part are already given; write them once')
  const conditions = byPart(of('with'), 'what this part was done with is already given; write it on one line')
  const meals = mealsOf(of('fuel'), state)
  const problems = [
    ...otherDates.map(({ place }) => diagnosticAt(place, 'two dates given; write one')),
    ...otherStarts.map(({ place }) => diagnosticAt(place, 'two start times given; write one')),
    ...closings.problems,
    ...conditions.problems,
    ...meals.problems,
  ]
  return {
    date: date?.date ?? null,
    start: start?.clock ?? null,
    closings: closings.byPart,
    conditions: conditions.byPart,
    fuel: meals.eaten,
    notes: of('note').map(({ text, pain }) => ({ text, pain })),
    problems: problems.sort((one, other) => one.line - other.line).slice(0, mostDiagnostics + 1),
  }
}

/** The lines about parts, by the index of the part. */
function byPart<L extends { parts: readonly number[]; place: PaperPlace }>(
  lines: readonly L[],
  twice: string,
): { byPart: Map<number, L>; problems: Diagnostic[] } {
  const known = new Map<number, L>()
  const problems: Diagnostic[] = []
  for (const line of lines) {
    const part = line.parts.find((each) => !known.has(each))
    if (part === undefined) problems.push(diagnosticAt(line.place, twice))
    else known.set(part, line)
  }
  return { byPart: known, problems }
}

function mealsOf(
  lines: readonly LineOf<'fuel'>[],
  state: SessionState,
): { eaten: EatenMeal[]; problems: Diagnostic[] } {
  const eaten: EatenMeal[] = []
  const problems: Diagnostic[] = []
  for (const line of lines) {
    const meal = mealOf(line, eaten, state)
    if (typeof meal === 'string') problems.push(diagnosticAt(line.place, meal))
    else if (meal !== null) eaten.push(meal)
    if (problems.length > mostDiagnostics) break
  }
  return { eaten, problems }
}

const unknown = { carbsG: null, proteinG: null, fatG: null, kcal: null, note: null, pain: null }
const notPrescribed: FuelPrompt = { kind: 'fuel', prescribed: unknown }

/** The meal on a line, or why it is refused; null if it was skipped. */
function mealOf(
  line: LineOf<'fuel'>,
  eaten: readonly EatenMeal[],
  state: SessionState,
): EatenMeal | string | null {
  const { when, text } = line
  const isOpen = (step: FuelStep) => !eaten.some((meal) => meal.step === step)
  const step =
    state.steps.find(
      (each): each is FuelStep => each.kind === 'fuel' && each.fuel.when === when && isOpen(each),
    ) ?? null
  if (step === null && eaten.some((meal) => meal.when === when))
    return `what was eaten ${when} is already given; write it on one line`
  if (step === null && (text === '' || text === '='))
    return `nothing to eat ${when} is prescribed; write what was eaten: carbs 70 g, protein 18 g`
  const taken = takenFrom(line, step === null ? notPrescribed : (promptOf(state, step.id) as FuelPrompt))
  if (typeof taken === 'string') return taken
  return taken.kind === 'fuel' ? { when, step, result: taken.result } : null
}
