import type { Session } from '../session/model.ts'
import { isAmongChanges } from './changes.ts'
import type { SummaryContext } from './estimate.ts'
import { fullPhrases, massText } from './fullPhrases.ts'
import { distancePhrase, fuelPhrases, loadPhrase, partPhrase, whenPhrase } from './headPhrases.ts'
import { type DoneExercise, exercisesDone } from './lifted.ts'
import { estimatePhrases, restPhrases, setsText } from './liftPhrases.ts'
import { notePhrases } from './notes.ts'
import { worksDone } from './performed.ts'
import { plainOf, wrapped } from './plain.ts'
import { workText } from './runText.ts'
import { type SummaryOptions, type SummaryView, viewOf } from './view.ts'

/** A session as a note: plain text in lines of at most 72 characters that survives any notes app. Ends with
 * a line feed. */
export function summaryText(session: Session, context: SummaryContext, options: SummaryOptions): string {
  return `${textLines(viewOf(session, context, options)).join('\n')}\n`
}

/** The lines of the note. */
export function textLines(view: SummaryView): string[] {
  const { summary } = view
  const blocks = [
    head(view),
    ...summary.parts.map((_, index) => partBlock(index, view)),
    list('changes', summary.changes),
    list('fuel', fuelPhrases(view)),
    list('notes', notePhrases(view.state)),
    view.full ? list('besides', fullPhrases(view)) : [],
  ]
  return blocks
    .filter((block) => block.length > 0)
    .flatMap((block, index) => (index === 0 ? block : ['', ...block]))
}

function head({ summary }: SummaryView): string[] {
  const load = loadPhrase(summary)
  return [
    ...wrapped(plainOf(summary.session.title), 0, 72, 0),
    whenPhrase(summary),
    ...(load === '' ? [] : [load]),
  ]
}

/** A part with what was done in it; fuel has a block of its own, and of a prep only its minutes are told. */
function partBlock(index: number, view: SummaryView): string[] {
  const part = view.summary.parts[index]
  if (!part || part.kind === 'fuel') return []
  const isToldBare = part.minutes !== null || part.effort !== null || part.with !== null
  if (part.kind === 'prep' && !isToldBare) return []
  const conditions = part.with === null ? [] : wrapped(`with ${plainOf(part.with)}`)
  const lines = [...wrapped(plainOf(partPhrase(part))), ...conditions]
  if (part.kind === 'run' || part.kind === 'cross') return [...lines, ...runLines(index, part.kind, view)]
  return part.kind === 'lift' ? [...lines, ...liftLines(index, view)] : lines
}

function runLines(index: number, kind: 'run' | 'cross', view: SummaryView): string[] {
  const figures = kind === 'run' ? view.summary.running : view.summary.cross
  const works = worksDone(view.state, kind)
  const isFirst = view.summary.parts.findIndex((part) => part.kind === kind) === index
  const distance = isFirst ? distancePhrase(kind, view) : ''
  return [
    ...(distance === '' ? [] : [distance]),
    ...works.flatMap((work, place) => {
      const item = figures.items[place]
      return work.part === index && item && !isAmongChanges(work, view.summary)
        ? workText(work, item, view)
        : []
    }),
  ]
}

/** Each exercise stands in the part in which it was first done. */
function liftLines(index: number, view: SummaryView): string[] {
  const exercises = exercisesDone(view.state)
  const main = view.summary.lifting.exercises.findIndex((lifted) => lifted.oneRepMax !== null)
  return exercises.flatMap((exercise, place) =>
    exercise.sets[0]?.step.part === index ? exerciseLines(exercise, place, place === main, view) : [],
  )
}

function exerciseLines(exercise: DoneExercise, place: number, isMain: boolean, view: SummaryView): string[] {
  const lifted = view.summary.lifting.exercises[place]
  if (!lifted) return []
  const tonnage = view.full && lifted.tonnageKg > 0 ? [`${massText(lifted.tonnageKg, view)} in all`] : []
  const estimate = isMain || view.full ? estimatePhrases(lifted, exercise, view) : []
  return [
    ...wrapped(`${plainOf(exercise.name)}: ${setsText(exercise, view)}`),
    ...[...estimate, ...tonnage, ...restPhrases(lifted, view)].flatMap((phrase) => wrapped(phrase, 2)),
  ]
}

function list(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines.flatMap((line) => wrapped(plainOf(line), 2))]
}
