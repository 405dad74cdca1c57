import { group } from 'd3-array'
import type { Step } from '../prescription/step.ts'
import { placeOf, stepName } from '../session/names.ts'
import { needsADoctor, type Pain } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { joined } from '../units/lists.ts'
import { mealsDone } from './performed.ts'

/** A note or a pain, with what it is about. */
interface PlacedRemark {
  text: string
  pain: boolean
  /** What it is about, in words; empty for the day as a whole. */
  place: string
  /** The step or meal with whose result it was typed; null for a note by itself. */
  typedWith: string | null
}

/** The notes: first those about the day, then in the order of the steps. A pain follows `pain: `. */
export function notesOf(state: SessionState): string[] {
  return allRemarks(state).map(({ text, pain }) => (pain ? `pain: ${text}` : text))
}

/** The notes with their places: `front squat, set 3 of 5: lost brace`, `5 km, split 2 of 5, pain: left knee`.
 * @param shownElsewhere steps and meals whose typed remarks are left out */
export function notePhrases(
  state: SessionState,
  which: 'pain' | 'words',
  shownElsewhere: ReadonlySet<string> = new Set(),
): string[] {
  return allRemarks(state)
    .filter(({ pain }) => pain === (which === 'pain'))
    .filter(({ typedWith }) => typedWith === null || !shownElsewhere.has(typedWith))
    .map(({ text, pain, place }) => joined(': ', [joined(', ', [place, pain && 'pain']), text]))
}

function allRemarks(state: SessionState): PlacedRemark[] {
  const steps = new Set<string | null>(state.steps.map((step) => step.id))
  const notes = group(state.notes, ({ about }) => (steps.has(about) ? about : null))
  const notesAbout = (about: string | null, place: string) =>
    (notes.get(about) ?? []).map(({ text, pain }) => ({ text, pain, place, typedWith: null }))
  const ofSteps = state.steps.flatMap((step) => {
    const place = placeText(state, step)
    return withoutRepeats([
      ...remarksOf(state.recorded.get(step.id)?.result, place, step.id),
      ...notesAbout(step.id, place),
    ])
  })
  const meals = mealsDone(state)
    .filter(({ id }) => !steps.has(id))
    .flatMap(({ id, when, result }) => remarksOf(result, `fuel ${when}`, id))
  return [...notesAbout(null, ''), ...ofSteps, ...meals]
}

/** Leaves out a pain whose words another pain of the same step has too: `left calf` beside `left calf 4`. */
function withoutRepeats(remarks: readonly PlacedRemark[]): PlacedRemark[] {
  const wordsOf = ({ text }: PlacedRemark) => ` ${text.toLowerCase().replace(/[,;]/g, '')} `
  return remarks.filter((each, index) => {
    const isRepeated = remarks.some((other, at) => {
      const isSame = wordsOf(other) === wordsOf(each)
      return other.pain && (isSame ? at < index : wordsOf(other).includes(wordsOf(each)))
    })
    return !each.pain || !isRepeated
  })
}

function remarksOf(
  result: { note: string | null; pain: string | null } | undefined,
  place: string,
  typedWith: string | null,
): PlacedRemark[] {
  const remark = (text: string | null | undefined, pain: boolean) =>
    text ? [{ text, pain, place, typedWith }] : []
  return [...remark(result?.note, false), ...remark(result?.pain, true)]
}

/** A step in a few words: `front squat, set 3 of 5`, `5 km, split 2 of 5`. */
function placeText(state: SessionState, step: Step): string {
  const name = stepName(state, step)
  if (step.kind === 'warm-up') return `${name}, warm-up`
  if (step.kind === 'set') return `${step.name}, ${placeOf(step)}`
  if (step.kind !== 'interval') return name
  const [short = ''] = name.split(' @')
  return step.of > 1 ? `${short}, ${placeOf(step)}` : short
}

/** `See a doctor before you train again: chest tight, dizzy`; empty without such a sign. */
export function doctorPhrase(pains: readonly Pain[]): string {
  const places = [...new Set(pains.filter(needsADoctor).map(({ place }) => place))].join(', ')
  return places === '' ? '' : `See a doctor before you train again: ${places}`
}
