import { type Moment, secondsBetween } from './clock.ts'
import type { SessionEvent } from './model.ts'
import type { SessionState } from './state.ts'

/* Where it hurt and how much. Pain is stored as typed: `left calf 4`; older sessions have no number. */

export interface Pain {
  place: string
  /** From 0 to 10; null if none was typed. */
  level: number | null
}

/** A pain and the step it belongs to; null for the whole day. */
export interface PainOfStep extends Pain {
  step: string | null
}

/** How much it hurts as it is typed, for regular expressions: `4`, `3.5`, `4/10`. */
export const levelPattern = String.raw`(?:10|\d(?:[.,]\d)?)(?:\s?/\s?10)?`

const severalPlaces = new RegExp(String.raw`;|(?<=\b${levelPattern})(?:,|\s+and)?\s+(?=\p{L}.*\d$)`, 'u')
const placeAndLevel = new RegExp(String.raw`^(.*?)[\s,:]*\b(${levelPattern})$`)

/** The pains in a text, one for each place: `left calf 4; right elbow`, `hip 4 and knee 2`,
 * `pain: left calf, sharp`. */
export function painsIn(text: string): Pain[] {
  return text.split(severalPlaces).flatMap((each) => {
    const bare = each.replace(/^\s*pain\b\s*:?/i, '').trim()
    if (bare === '') return []
    const [, place = bare, level] = placeAndLevel.exec(bare) ?? []
    const number = level === undefined ? null : Number.parseFloat(level.replace(',', '.'))
    return [{ place: place.trim() || 'pain', level: number }]
  })
}

/** A pain as it is stored: `"left  knee" 4` without quotes and with single spaces. */
export function painAsTyped(text: string): string {
  return text.replace(/["“”„\s]+/g, ' ').trim()
}

/** A note without the quotes around it. */
export function unquoted(text: string): string {
  return text
    .trim()
    .replace(/^["“”]([^"“”]*)["“”]$/, '$1')
    .trim()
}

/** Words that say that nothing hurts, for regular expressions. */
export const noPain =
  '(?:no pain|pain[ -]?free|pain:? ?(?:none|(?:is |was )?gone(?!.*\\b(?:but|now|is|came|comes)\\s+back\\b(?! to (?:normal|full|run|train|lift)))))'
const painTyped = new RegExp(
  String.raw`^(?!${noPain}\b)pain(?::\s*|\s+)(?:in\s+)?(?:(?:my|the)\s+)?(\S.*)$`,
  'i',
)

/** A note as it is stored: `pain left calf 4` is a pain. */
export function noteOf(typed: string): { text: string; pain: boolean } {
  const words = unquoted(typed)
  const place = painTyped.exec(words)?.[1]
  return { text: place === undefined ? words : painAsTyped(place), pain: place !== undefined }
}

/** `left calf 4`, or the place alone. */
export function painPhrase({ place, level }: Pain): string {
  return level === null ? place : `${place} ${level}`
}

interface Remark {
  step: string | null
  note: string | null
  pain: string | null
  at: Moment | null
}

/** Everything typed in words about a step or the whole day (null), in the order of typing, since what was felt last
 * decides. Without times: first what was typed with results, then the notes. */
function remarksIn(state: SessionState): Remark[] {
  const ofResults = [...state.recorded].map(([step, { result, at }]) => ({ ...result, step, at }))
  const ofMeals = state.meals.map(({ result }) => ({ ...result, step: null, at: null }))
  const ofNotes = state.notes.map(({ about: step, at, ...note }) => ({ ...remarkOf(note), step, at }))
  return [...ofResults, ...ofMeals, ...ofNotes].sort(({ at: one }, { at: other }) =>
    one && other ? secondsBetween(other, one) : Number(one === null) - Number(other === null),
  )
}

/** Every pain of a session, in the order in which it was typed. */
export function painsNoted(state: SessionState): PainOfStep[] {
  return remarksIn(state).flatMap(({ step, pain }) => painsIn(pain ?? '').map((each) => ({ ...each, step })))
}

/** A key by which places match whatever their case and spaces, the place of their side (`calf left`), the word pain, and
 * words after a comma, as in `left calf, sharp`. */
export function placeKey({ place }: Pick<Pain, 'place'>): string {
  const [name = ''] = place.toLowerCase().split(',')
  const key = name
    .replace(/\bpains?\b/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/^(.+?)(?: on (?:the|my))? (left|right|both)$/, '$2 $1')
  return key === '' ? 'pain' : key
}

const inPain = /\b(chest|heart|breath\w*|faint\w*|dizz\w*|numb\w*)\b/i
/** The signs in a note that need a doctor, after the words that one may begin with, or what they have in common. */
const signs: readonly (readonly [begins: string, sign: string])[] = [
  ['chest', 'chest and( \\w+){1,2} pains?'],
  [
    'chest',
    'chest (pains?|pressure|discomfort|((was|felt|feels|is|got|a|bit|little|really|very|still) ){0,4}(tight|heav|ache|aching|achy)\\w*|hurts?|hurting)',
  ],
  [
    'sharp ache pressure discomfort heav tight',
    '(pain|ache|pressure|discomfort|heaviness|squeezing|tight(ness)?)( (in|on|across)( (the|my))?(( \\w+){1,3} and)?)? chest(?![ -](press|supported|strap|to|fl(y|ies)|day))',
  ],
  ['faint feel felt', 'faint(ed|ing|ness)?(?! (pain|ache|twinge|niggle))'],
  ['light', 'light[ -]?headed(ness)?'],
  ['dizz', 'dizz(y|iness)'],
  ['black', 'black(ed)?[ -]?outs?'],
  ['passed passing', 'pass(ed|ing)? out'],
  ['can could', "(can['’]?t|cannot|could(n['’]?t| not)) breathe"],
  ['heart', 'heart(beat)? (?!rate)(\\w+ ){0,2}(racing|raced|skip\\w*|flutter\\w*|irregular\\w*)'],
  ['racing flutter irregular', '(racing|fluttering|irregular) heart(beat)?'],
  ['palpitation', 'palpitations?'],
  ['short breath', 'shortness of breath|breathlessness|(unusually|suddenly) (short of breath|breathless)'],
  ['short', 'short of breath (at rest|sitting|walking|on the stairs)'],
  ['cough', 'cough(ing|ed)( up)? blood'],
  ['numb', 'numb(ness)?( \\w+){0,2} (arms?|legs?)'],
  ['arm leg left right', '(arms?|legs?)( \\w+){0,3} numb(ness)?'],
]
const inNotes = new RegExp(signs.map(([, sign]) => `\\b(${sign})\\b`).join('|'), 'gi')

/** The recorder takes these for words where letters are keys. */
export const signWords: readonly string[] = signs.flatMap(([begins]) => begins.split(' '))

/** Whether a pain is a sign that needs a doctor, over or not. */
export function isSign({ place }: Pick<Pain, 'place'>): boolean {
  return inPain.test(place) || hasSign(place)
}

/** Whether a pain is a sign that needs a doctor and is not over. Nothing at all is advised then. */
export function needsADoctor(pain: Pain): boolean {
  return pain.level !== 0 && isSign(pain)
}

/** Whether a note names a sign that needs a doctor. */
export function hasSign(note: string): boolean {
  return signsIn(note).length > 0
}

const denying = /\b(no|not|never|without|(did|do|was|is)n['’]?t)( any| signs? of)*\s+$/i

/** The signs in a note that need a doctor, in lower case; not one that the word before it denies, nor what an `or`
 * joins to that: `no chest pain or dizziness`. What follows a comma counts. */
export function signsIn(note: string): string[] {
  let end = 0
  let isDenied = false
  return [...note.matchAll(inNotes)].flatMap(({ 0: sign, index }) => {
    const before = note.slice(end, index)
    isDenied = denying.test(before) || (isDenied && /^,? n?or( any)? $/i.test(before))
    end = index + sign.length
    return isDenied ? [] : [sign.toLowerCase()]
  })
}

/** Every pain of a session, and the signs in its notes that need a doctor, which count as pains: `chest tight`. */
export function painsAndSigns(state: SessionState): PainOfStep[] {
  const signs = remarksIn(state).flatMap(({ step, note }) =>
    signsIn(note ?? '').map((place) => ({ place, level: null, step })),
  )
  return [...painsNoted(state), ...signs]
}

/** The pains and signs that were felt while a step was done; a 0 ends a pain and is left out. */
export function painsDuring(state: SessionState, steps: readonly { id: string }[]): PainOfStep[] {
  return painsAndSigns(state).filter(({ step, level }) => level !== 0 && steps.some(({ id }) => id === step))
}

/** Whether a pain is over: it was typed with the number 0. */
export function isPainOver(pain: string): boolean {
  return painsIn(pain).every(({ level }) => level === 0)
}

/** Whether an event holds a sign that needs a doctor, in a note or as a pain that is not over. */
export function isWarningTyped(event: SessionEvent): boolean {
  const remark = 'result' in event ? event.result : event.type === 'noteAdded' ? remarkOf(event) : null
  return hasSign(remark?.note ?? '') || painsIn(remark?.pain ?? '').some(needsADoctor)
}

/** The text of a note as a pain or as words. */
function remarkOf({ text, pain }: { text: string; pain: boolean }): Pick<Remark, 'note' | 'pain'> {
  return pain ? { note: null, pain: text } : { note: text, pain: null }
}

/** Whether any pain was typed that is not over. */
export function isPainNoted(state: SessionState): boolean {
  return painsNoted(state).some(({ level }) => level !== 0)
}

/** Whether a pain or a note names a sign that needs a doctor. */
export function isWarningNoted(state: SessionState): boolean {
  return painsAndSigns(state).some(needsADoctor)
}
