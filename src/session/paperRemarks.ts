import type { FuelItem } from '../prescription/model.ts'
import { mostProblems, type Problem } from '../prescription/problem.ts'
import type { FuelStep } from '../prescription/step.ts'
import type { FuelAsked } from './asked.ts'
import { askedOf } from './asking.ts'
import { readEntry } from './entry.ts'
import { problemAt, unlessInsisted } from './paperLines.ts'
import type { ClockTime, PaperLine } from './paperModel.ts'
import type { FuelResult } from './result.ts'
import type { WalkState } from './state.ts'

/* What stands apart in a results file, put where it belongs. */

export interface PaperRemarks {
  date: string | null
  start: ClockTime | null
  /** By the part's index. */
  closings: Map<number, { effort: number | null; minutes: number | null }>
  conditions: Map<number, string>
  /** `step` null: not prescribed. */
  fuel: { when: FuelItem['when']; step: FuelStep | null; result: FuelResult }[]
  notes: { text: string; pain: boolean }[]
  problems: Problem[]
}

/** Two lines for parts of the same name go to them in order, and so do two meals at the same time.
 * @param state the day before anything has happened */
export function remarksOf(lines: readonly PaperLine[], state: WalkState): PaperRemarks {
  const remarks: PaperRemarks = {
    date: null,
    start: null,
    closings: new Map(),
    conditions: new Map(),
    fuel: [],
    notes: [],
    problems: [],
  }
  const meals = state.steps.filter((step) => step.kind === 'fuel')
  for (const line of lines) {
    const problem = put(line, remarks, meals, state)
    if (problem !== null) remarks.problems.push(problemAt(line.place, problem))
    if (remarks.problems.length > mostProblems) break
  }
  return remarks
}

/** Puts one line where it belongs; what is wrong with it, when something is. */
function put(
  line: PaperLine,
  remarks: PaperRemarks,
  meals: readonly FuelStep[],
  state: WalkState,
): string | null {
  switch (line.kind) {
    case 'entry':
      return null
    case 'date':
      if (remarks.date !== null) return 'the date is there twice; write it once'
      remarks.date = line.date
      return null
    case 'start':
      if (remarks.start !== null) return 'the start is there twice; write it once'
      remarks.start = line.clock
      return null
    case 'note':
      remarks.notes.push({ text: line.text, pain: line.pain })
      return null
    case 'closing': {
      const part = line.parts.find((each) => !remarks.closings.has(each))
      if (part === undefined) return 'effort and minutes of this part are there already; write them once'
      remarks.closings.set(part, { effort: line.effort, minutes: line.minutes })
      return null
    }
    case 'with': {
      const part = line.parts.find((each) => !remarks.conditions.has(each))
      if (part === undefined) return 'what this part was done with is there already; write it on one line'
      remarks.conditions.set(part, line.text)
      return null
    }
    case 'fuel': {
      const those = meals.filter((step) => step.fuel.when === line.when)
      const step = those.find((each) => !remarks.fuel.some((eaten) => eaten.step === each))
      if (step !== undefined) return putFuel(line, step, askedOf(state, step.id) as FuelAsked, remarks)
      if (those.length > 0 || remarks.fuel.some((eaten) => eaten.when === line.when))
        return `what was eaten ${line.when} is there already; write it on one line`
      if (line.text === '' || line.text === '=')
        return `nothing to eat ${line.when} is prescribed; write what was eaten: carbs 70 g, protein 18 g`
      return putFuel(line, null, notPrescribed, remarks)
    }
  }
}

const unknown = { carbsG: null, proteinG: null, fatG: null, kcal: null, note: null, pain: null }
const notPrescribed: FuelAsked = { kind: 'fuel', prescribed: unknown }

function putFuel(
  line: { when: FuelItem['when']; text: string; insists: boolean },
  step: FuelStep | null,
  asked: FuelAsked,
  remarks: PaperRemarks,
): string | null {
  const reading = readEntry(line.text, asked)
  const answer =
    reading.outcome === 'answer'
      ? reading.answer
      : line.insists && reading.outcome === 'question'
        ? reading.insisted
        : null
  if (answer?.kind === 'fuel') remarks.fuel.push({ when: line.when, step, result: answer.result })
  if (answer !== null || reading.outcome === 'answer') return null
  if (reading.outcome === 'error' || reading.insisted === null) return reading.message
  return unlessInsisted(reading.message)
}
