import { type Diagnostic, errorIn, linesOfText, mostDiagnostics } from '../../prescription/lines.ts'
import type { FuelItem, Prescription } from '../../prescription/model.ts'
import { type FuelStep, isEntry, isSibling, type Step } from '../../prescription/step.ts'
import { dayAfter } from '../../units/calendarDate.ts'
import { counted } from '../../units/decimal.ts'
import { neighbours } from '../../units/lists.ts'
import { differencesOf, printEntries, readEntry, sameAsBefore } from '../entry/entry.ts'
import { type Food, unknownMeal, withFoodsSummed } from '../entry/fuel.ts'
import type { FuelResult, SessionEvent } from '../model.ts'
import { placeOf, stepTitle } from '../names.ts'
import { dated, type Fact, recordedFacts, type When } from '../newEvents.ts'
import { type Answer, type Prompt, promptOf } from '../prompt.ts'
import { type EventOf, type Recorded, type SessionState, startOf } from '../state.ts'
import { type EntryLine, type MealLine, type Results, resultsIn, unlessInsisted } from './lines.ts'

type SessionStarted = EventOf<'sessionStarted'>

/** What the results file itself does not say. */
export interface PaperOptions {
  /** Used if neither the results nor the prescription have a date; null if none was given. */
  date: string | null
  foods: readonly Food[]
  /** What is known beforehand about that day: body mass, and maxima for % loads. */
  known: (date: string) => Pick<SessionStarted, 'bodyMassKg' | 'maxima' | 'lastLoads'>
  /** A local date and `HH:MM:SS` as an instant with its offset. */
  instantOf: (date: string, time: string) => string
}

export type PaperReading =
  | { outcome: 'session'; start: SessionStarted; events: SessionEvent[] }
  /** Nothing can be stored. */
  | { outcome: 'problems'; problems: Diagnostic[] }
  /** Neither file has a date, and none was given. */
  | { outcome: 'noDate' }
  /** The file is empty. */
  | { outcome: 'nothing' }

const mostLines = 25_000

/** Turns a session kept on paper into the events that a live one would have left: `events` follow `start`.
 * All or nothing. Never throws, unless a callback does.
 * @param results the text of the results file */
export function readPaper(results: string, prescription: Prescription, options: PaperOptions): PaperReading {
  const unfit: Diagnostic[] = []
  const lines = [...linesOfText(results, 'results file', unfit)]
  const beyond = lines[mostLines]
  if (beyond) unfit.push(errorIn(beyond, 0, 1, `a results file has at most ${mostLines} lines`))
  if (unfit.length > 0) return { outcome: 'problems', problems: unfit }
  if (lines.length === 0) return { outcome: 'nothing' }
  const { results: said, problems } = resultsIn(lines, prescription)
  const date = said.date ?? prescription.date ?? options.date
  const known = date === null ? { bodyMassKg: null, maxima: [] } : options.known(date)
  const start = { ...startOf(prescription), ...known }
  const answers = answersOf(said, start, problems)
  const typed = said.meals.map((meal) => ({ ...meal, text: withFoodsSummed(meal.text, options.foods) }))
  const meals = mealsOf(typed, start, problems)
  problems.push(...runningTotals(answers))
  if (problems.length > 0) return { outcome: 'problems', problems: inOrder(problems) }
  if (date === null) return { outcome: 'noDate' }
  const whenOf = (seconds: number | null) => ({
    at:
      seconds === null
        ? null
        : options.instantOf(dayAfter(date, Math.floor(seconds / day)), timeText(seconds)),
    up: null,
  })
  return {
    outcome: 'session',
    start: { type: 'sessionStarted', ...whenOf(said.start), date, ...known, fromPaper: true },
    events: eventsOf({ ...said, answers, meals }, start, whenOf),
  }
}

/** As many as are reported, from the first line on. */
function inOrder(problems: readonly Diagnostic[]): Diagnostic[] {
  return problems.toSorted((one, other) => one.line - other.line).slice(0, mostDiagnostics + 1)
}

interface PaperAnswer {
  step: Step
  prompt: Prompt
  answer: Answer
  line: EntryLine
  /** Seconds since the midnight before the session; null if not written. */
  time: number | null
}

/** Takes the results as the answers to the prompts, one after the other.
 * @param start the state before anything has happened
 * @param problems takes what is wrong */
function answersOf(said: Results, start: SessionState, problems: Diagnostic[]): PaperAnswer[] {
  const steps = start.steps.filter(isEntry)
  const answers: PaperAnswer[] = []
  const recorded = new Map<string, Recorded>()
  let latest = said.start ?? 0
  const most = problems.length + mostDiagnostics
  for (const [index, line] of said.entries.entries()) {
    if (problems.length > most) break
    const step = steps[index]
    if (step === undefined) {
      problems.push({ ...line.place, message: tooMany(steps.length) + painHint(line.text) })
      break
    }
    // The prompt depends on the item alone; a state with only that item is quick to search.
    const item = start.parts[step.part]?.items[step.item]
    const state = { ...start, steps: item?.steps ?? [], recorded }
    const prompt = promptOf(state, step)
    const typed = { ...line, text: sameAsBefore(line.text, state, step) }
    const read = answerOn(typed, prompt)
    const time = line.clock === null ? null : afterMidnight(line.clock, latest)
    if (typeof read === 'string') {
      const expected = `${expectedText(start, step)}, line ${item?.line ?? 0} of the prescription`
      problems.push({ ...line.place, message: `${read} (expected here: ${expected})` })
    }
    // The lines below are read as if a questioned value were right.
    const answer = typeof read === 'string' ? answerOn({ ...typed, insists: true }, prompt) : read
    if (typeof answer !== 'string') {
      answers.push({ step, prompt, answer, line, time })
      if (answer.kind !== 'skipped') recorded.set(step.id, { ...answer, at: null })
      if (time !== null && time < latest && !line.insists) {
        const message = unlessInsisted(`${timeText(time)} is earlier than ${timeText(latest)} above it`)
        problems.push({ ...line.place, message })
      }
    }
    latest = Math.max(latest, time ?? 0)
  }
  return answers
}

/** `step` null: not prescribed. */
interface EatenMeal {
  when: FuelItem['when']
  step: FuelStep | null
  result: FuelResult
}

/** The meals that were eaten; those at the same time are taken in order.
 * @param problems takes what is wrong */
function mealsOf(typed: readonly MealLine[], start: SessionState, problems: Diagnostic[]): EatenMeal[] {
  const eaten: EatenMeal[] = []
  for (const line of typed) {
    const { when } = line
    const step = start.steps.find(
      (each): each is FuelStep =>
        each.kind === 'fuel' && each.fuel.when === when && !eaten.some((meal) => meal.step === each),
    )
    const answer = step ? answerOn(line, promptOf(start, step)) : unplanned(line, eaten)
    if (typeof answer === 'string') problems.push({ ...line.place, message: answer })
    else if (answer.kind === 'fuel') eaten.push({ when, step: step ?? null, result: answer.result })
  }
  return eaten
}

/** A meal that is not prescribed, or why it is refused. */
function unplanned(line: MealLine, eaten: readonly EatenMeal[]): Answer | string {
  const { when, text } = line
  if (eaten.some((meal) => meal.when === when))
    return `what was eaten ${when} is already given; write it on one line`
  if (text === '' || text === '=')
    return `the prescription has no meal ${when}; write what was eaten: carbs 70 g, protein 18 g`
  return answerOn(line, { kind: 'fuel', prescribed: unknownMeal })
}

/** The answer on a line, or why it is refused. */
function answerOn({ text, insists }: { text: string; insists: boolean }, prompt: Prompt): Answer | string {
  const reading = readEntry(text, prompt)
  if (reading.outcome === 'answer') return reading.value
  if (reading.outcome === 'error' || reading.insisted === null) return reading.message
  return insists ? reading.insisted : unlessInsisted(reading.message)
}

/** How to write a pain of the whole day, where the line is one; else empty. */
function painHint(text: string): string {
  const place = /^pain\b:?\s*(.+)$/i.exec(text)?.[1]
  return place === undefined ? '' : `; a pain of the whole day is a note: note: pain ${place}`
}

function tooMany(count: number): string {
  return `nothing is expected here: the prescription asks for ${count === 0 ? 'no results' : counted(count, 'result')}`
}

/** `set 3 of 5 of front squat`, `split 1 of 3: 1 km` */
function expectedText(state: SessionState, step: Step): string {
  return step.kind === 'set' ? `${placeOf(step)} of ${step.name}` : stepTitle(state, step)
}

/** Times of one work that rise from line to line like those of a stopwatch that was never reset; a problem
 * unless one of the lines insists. */
function runningTotals(answers: readonly PaperAnswer[]): Diagnostic[] {
  return neighbours(answers, ({ step }, before) => isSibling(step, before.step)).flatMap((work) => {
    if (work.some(({ line }) => line.insists)) return []
    const [first] = work
    const last = work.at(-1) ?? first
    const [answers, prompts] = [work.map(({ answer }) => answer), work.map(({ prompt }) => prompt)]
    const differences = differencesOf(answers, prompts)
    if (differences === null) return []
    const typed = printEntries(differences, prompts)
    const lines = `lines ${first.line.place.line} to ${last.line.place.line}`
    const message = `running totals? The times on ${lines} would then be ${typed.join(', ')}: write these, or, if the times are right, end one of the lines with !!`
    return [{ ...first.line.place, message }]
  })
}

/** The events after the start of a session that was kept on paper, in the order of a live one: for each part
 * what was recorded, then how the part was. A step without an answer counts as not done. */
function eventsOf(
  said: Omit<Results, 'meals'> & { answers: PaperAnswer[]; meals: EatenMeal[] },
  { parts }: SessionState,
  whenOf: (seconds: number | null) => When,
): SessionEvent[] {
  const { answers, closings, conditions, meals, notes } = said
  const eaten = (before: boolean) =>
    meals
      .filter((meal) => (meal.when === 'before') === before)
      .map(
        ({ when: meal, step, result }): Fact =>
          step === null
            ? { type: 'mealRecorded', meal, result }
            : { type: 'fuelRecorded', step: step.id, result },
      )
  const at = (seconds: number | null, ...facts: Fact[]) => dated(facts, whenOf(seconds))
  const done = parts.flatMap(({ kind }, part): SessionEvent[] => {
    if (kind === 'fuel') return []
    const text = conditions.get(part)
    const { effort, minutes } = closings.get(part) ?? { effort: null, minutes: null }
    return [
      ...(text === undefined ? [] : at(null, { type: 'conditionsNoted', part, text })),
      ...answers
        .filter(({ step }) => step.part === part)
        .flatMap(({ step, answer, time }) => at(time, ...recordedFacts(step.id, answer))),
      ...at(null, { type: 'partClosed', part, effort, minutes }),
    ]
  })
  return [
    ...at(null, ...eaten(true)),
    ...done,
    ...at(null, ...eaten(false)),
    ...at(null, ...notes.map((note): Fact => ({ type: 'noteAdded', about: null, ...note }))),
    ...at(answers.at(-1)?.time ?? null, { type: 'sessionFinished' }),
  ]
}

const day = 24 * 3600
/** A clock that goes back by more than this has passed midnight; a smaller step back is a mistake. */
const backAtMidnight = 12 * 3600

/** A time of day as seconds since the midnight before the session.
 * @param latest the latest time before it, in the same form */
function afterMidnight(clock: number, latest: number): number {
  const time = clock + Math.floor(latest / day) * day
  return time < latest - backAtMidnight ? time + day : time
}

/** The time of day, `HH:MM:SS`. */
function timeText(seconds: number): string {
  return new Date(seconds * 1000).toISOString().slice(11, 19)
}
