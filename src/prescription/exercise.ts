import { usualStep } from '../figures/bar.ts'
import type { MassUnit } from '../units/model.ts'
import type { Side } from './model.ts'

/** Trade abbreviations in names of exercises. Common practice, no source. */
const abbreviations: ReadonlyMap<string, string> = new Map([
  ['db', 'dumbbell'],
  ['kb', 'kettlebell'],
  ['bb', 'barbell'],
  ['ohp', 'overheadpress'],
  ['rdl', 'romaniandeadlift'],
  ['bw', 'bodyweight'],
])

/** A key that is the same for every spelling of an exercise's name: without case, spaces, hyphens, apostrophes
 * and plural s, abbreviations written out. `Pull-ups`, `pull up` and `pullup` have the same key, and so have `DB row`
 * and `dumbbell row`. Not meant for display. */
export function exerciseKey(name: string): string {
  const words = name
    .normalize('NFKC')
    .toLowerCase()
    .split(/[\s\-‐‑‒–—−]/u)
  return words.map((word) => abbreviations.get(singularOf(word)) ?? singularOf(word)).join('')
}

/** Whether two names are spellings of one exercise. */
export function isSameExercise(a: string, b: string): boolean {
  return a === b || exerciseKey(a) === exerciseKey(b)
}

/** The maximum that a day gives for an exercise: one of the same name, else one with a shorter name that begins only
 * this exercise's name (`max: bench` serves `bench press`).
 * @param names of all exercises of the day */
export function namedFor<M extends { name: string }>(
  maxima: readonly M[],
  exercise: string,
  names: readonly string[],
): M | undefined {
  const same = maxima.find(({ name }) => isSameExercise(name, exercise))
  if (same !== undefined) return same
  const key = exerciseKey(exercise)
  const keys = new Set([...names.map(exerciseKey), key])
  return maxima.find((each) => {
    const begin = exerciseKey(each.name)
    return key.startsWith(begin) && [...keys].filter((other) => other.startsWith(begin)).length === 1
  })
}

function singularOf(word: string): string {
  const bare = word.replace(/['’]/g, '')
  if (/(?:ss|sh|ch|x)es$/.test(bare)) return bare.slice(0, -2)
  if (/[^aeiou]ies$/.test(bare)) return `${bare.slice(0, -3)}y`
  return bare.length > 2 && /[^s]s$/.test(bare) ? bare.slice(0, -1) : bare
}

/** Lifts that use a barbell unless the name says otherwise. This program's own list. */
const barbellLift =
  /\b(squats?|dead-?lifts?|rdl|bench|press(es)?|ohp|rows?|cleans?|snatch(es)?|jerks?|thrust(er)?s?|good[ -]?mornings?|bars?|barbells?|bb)\b/i

/** Equipment other than a barbell, and lifts that use none. This program's own list. */
const otherEquipment =
  /\b(dumb-?bells?|db|kettle-?bells?|kb|cables?|machine|seated|pull-?downs?|leg[ -](press(es)?|curls?|extensions?)|landmine|goblet|suitcase|(one|single|1)[ -]arm(ed)?|bands?|banded|sandbags?|sleds?|(medicine|slam|wall)[ -]balls?)\b/i

/** Tells names with some words from all others. */
function named(words: RegExp): (name: string) => boolean {
  return (name) => words.test(name)
}

/* Kinds of exercises by their names as written. These lists are this program's own. */

/** A rower, a boat or a ski machine, whose pace is for 500 m. */
export const isRowing = named(/\b(?:row(?:er|ing)?|(?<!bike )ergs?|ergometer|ski(?:ing)?|kayak|canoe)\b/i)

export const isRiding = named(/bik|cycl|\bride|spin/i)

/** Running, whose metres count as run: `run`, `hill run`. */
export const isRunning = named(/\b(?:run(?:s|ning)?|jog|sprints?)\b/i)

const isOnMachine = named(
  /^row$|\b(?:bikes?|biking|cycle|cycling|rides?|rower|rowing|ergs?|ergometer|ski(?:ing)?|swim(?:ming)?|treadmill|cross-?trainer)\b/i,
)

/** Endurance work, as a warm-up on a machine is: `easy ride`, `row` by itself but not `cable row`. */
export function isEndurance(name: string): boolean {
  return isRunning(name) || isOnMachine(name)
}

/** Each repetition is a landing: `box jump`, `pogo hop`. */
export const isJump = named(/\b(?:jumps?|hops?|bounds?|bounding|leaps?|pogos?)\b/i)

/** A hold, whose sets are counted in seconds: `dead hang`, `side plank`, but not `hang clean`. */
export const isHold = named(/\b(?:hang|hold|plank|wall[ -]sit|l[ -]sit)s?$/i)

/** Moves one joint, so that its estimated maximum says little: `leg curl`, `calf raise`. */
export const isSingleJoint = named(
  /\b(curls?|raises?|fly(es)?|flies|kick-?backs?|push-?downs?|pull-?overs?|shrugs?|(leg|knee|triceps?|elbow|wrist) extensions?|ad-?ductions?|ab-?ductions?|skull ?crushers?)\b/i,
)

/** Done with a dumbbell in each hand, unless for each arm in turn: `dumbbell press`, `db curl`. */
export const isOfAPair = named(
  /^(?!.*\b(?:single|one|1|leg)\b).*\b(?:dumb-?bells?|db)\b.*\b(?:press(?:es)?|bench|fl(?:y|ies|yes)|curls?|raises?|shrugs?)\b/i,
)

/** Whether an exercise is loaded with plates on a barbell: by the athlete's setting, else by its name, and then never
 * for each arm in turn.
 * @param exercise its name as written: `dumbbell row`, `bench press` */
export function isOnBar(
  { name, side }: { name: string; side: Side | null },
  set?: { isOnBar?: boolean },
): boolean {
  return set?.isOnBar ?? (side !== 'each arm' && barbellLift.test(name) && !otherEquipment.test(name))
}

const ofOneSide =
  /\b(?:split|bulgarian|single|one|pistol|cossack|lateral|curtsy|skater|[bk]-? ?stance|lunges?)\b/i

/** Whether a lift on a bar is never done on one side at a time: `front squat`, but not `split squat` or `row`. */
export function isOfBothSides(name: string): boolean {
  const isOfBoth = /\b(?:squats?|dead-?lifts?|bench|cleans?|good[ -]?mornings?|thrust(?:er)?s?)\b/i.test(name)
  return isOfBoth && isOnBar({ name, side: null }) && !ofOneSide.test(name)
}

/** The step of dumbbells and stacks at a load, in its unit: 4 kg if name and load are those of a kettlebell, 2 kg at a
 * load that only dumbbells in steps of 2 kg have. Common practice, no source.
 * @param step of the athlete's dumbbells */
export function loadStepOf(
  name: string,
  load: number,
  unit: MassUnit,
  step: number = usualStep[unit],
): number {
  const isKettlebell =
    /\b(?:kettle-?bells?|kb|goblet|swings?)\b/i.test(name) && unit === 'kg' && load % 4 === 0
  if (isKettlebell) return 4
  const isEven = unit === 'kg' && load > 10 && load % 2 === 0 && load % step !== 0
  return isEven ? 2 : step
}
