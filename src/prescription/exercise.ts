/** What is the same for every spelling of an exercise's name: without case, spaces, hyphens, apostrophes
 * and the s of the plural. `Pull-ups`, `pull up` and `pullup` have the same key. Not for showing. */
export function exerciseKey(name: string): string {
  const words = name
    .normalize('NFKC')
    .toLowerCase()
    .split(/[\s\-‐‑‒–—−]/u)
  return words.map(singularOf).join('')
}

function singularOf(word: string): string {
  const bare = word.replace(/['’]/g, '')
  if (/(?:ss|sh|ch|x)es$/.test(bare)) return bare.slice(0, -2)
  if (/[^aeiou]ies$/.test(bare)) return `${bare.slice(0, -3)}y`
  return bare.length > 2 && /[^s]s$/.test(bare) ? bare.slice(0, -1) : bare
}

/** Lifts that are done with a barbell unless the name says another thing. A list of this program's own. */
const barbellLift =
  /\b(squats?|dead-?lifts?|rdl|bench|press(es)?|ohp|rows?|cleans?|snatch(es)?|jerks?|thrust(er)?s?|good[ -]?mornings?|bars?|barbells?|bb)\b/i

/** Things that are no barbell, and lifts that are done without one. A list of this program's own. */
const otherThing =
  /\b(dumb-?bells?|db|kettle-?bells?|kb|cables?|machine|seated|pull-?downs?|leg[ -](press(es)?|curls?|extensions?)|landmine|goblet|bands?|banded|sandbags?|sleds?|(medicine|slam|wall)[ -]balls?)\b/i

/** Whether a station of a round is running, so that its metres count as run. A rule of this program's own.
 * @param name as it is written: `run`, `hill run` */
export function isRunning(name: string): boolean {
  return /\b(?:run(?:s|ning)?|jog|sprints?)\b/i.test(name)
}

const oneJoint =
  /\b(curls?|raises?|fly(es)?|flies|kick-?backs?|push-?downs?|pull-?overs?|shrugs?|(leg|knee|triceps?|elbow|wrist) extensions?|ad-?ductions?|ab-?ductions?|skull ?crushers?)\b/i

/** Whether an exercise moves one joint: its maximum says little. A list of this program's own.
 * @param name as it is written: `leg curl`, `calf raise` */
export function isSingleJoint(name: string): boolean {
  return oneJoint.test(name)
}

/** Whether plates on a barbell make the load of an exercise: only where the name says so.
 * @param name as it is written: `dumbbell row`, `bench press` */
export function isOnBar(name: string): boolean {
  return barbellLift.test(name) && !otherThing.test(name)
}
