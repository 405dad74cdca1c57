import type { Chance } from './chance.ts'

/** A day as its two files hold it. */
export interface MadeUpDay {
  prescription: string
  results: string
}

/** Where the athlete stands. */
export interface Now {
  /** Counted from the first week of the logbook. */
  week: number
  /** How far the block of training has come: 0 at its beginning, about 1 at its end. */
  form: number
  chance: Chance
}

/** How a part was: its effort and its minutes; now and then nobody wrote it down. */
export function closing(part: string, { chance }: Now, effort: number, minutes: number): string {
  if (chance.happens(0.02)) return ''
  const said = Math.min(10, Math.max(1, Math.round(chance.around(effort, 0.6))))
  return `${part}: effort ${said}, ${Math.round(minutes)} min\n`
}
