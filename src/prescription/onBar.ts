/** What an exercise is done with when that is no bar, as its name says it. A list of this program's own (invented). */
const implement =
  /\b(dumb-?bells?|kettle-?bells?|cables?|machine|sandbags?|sleds?|(medicine|slam|wall)[ -]balls?)\b/i

/** Whether plates make the load of an exercise: of a name that says nothing else, a bar is meant.
 * @param name as it is written: `dumbbell row`, `bench press` */
export function isOnBar(name: string): boolean {
  return !implement.test(name)
}
