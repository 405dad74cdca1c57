import { closing, type MadeUpDay, type Now } from './day.ts'
import { tempoPiece } from './runDays.ts'

/* The lifting days of the invented athlete, on a rotation of legs, push and pull. Figures are invented. */

/** To the plates: steps of 2.5 kg. */
function plates(kg: number): number {
  return Math.round(kg / 2.5) * 2.5
}

/** Results of `sets` sets of `reps`: the effort rises from set to set, and the last one may fail. */
function straight(sets: number, reps: number, effort: number, now: Now): string {
  const fails = now.chance.happens(0.06)
  return Array.from({ length: sets }, (_, index) => {
    if (fails && index === sets - 1) return `${reps - 1}!\n`
    return `${reps} @${halves(now.chance.around(effort + index * 0.4, 0.3))}\n`
  }).join('')
}

function halves(rpe: number): number {
  return Math.min(10, Math.max(6, Math.round(rpe * 2) / 2))
}

/** Round by round. */
function superset(rounds: number, entries: readonly string[]): string {
  return Array.from({ length: rounds }, () => entries.map((entry) => `${entry}\n`).join('')).join('')
}

/** A hard continuous piece, then cluster sets on the same legs. */
export function tempoAndClusters(now: Now): MadeUpDay {
  const run = tempoPiece(now)
  const kg = plates(84 + 11 * now.form)
  const clusters = Array.from(
    { length: 5 },
    (_, index) => `1+1+1 @${halves(now.chance.around(7 + index * 0.35, 0.3))}\n`,
  ).join('')
  const squat = `  front squat: 5 x (1+1+1) @ ${kg} kg, pause 20 s, rest 2:30, build from 40 kg\n`
  return {
    prescription: `Thursday: tempo, then front squat
goal: 10 km in 39:30 on 2027-04-18
athlete: 68 kg

${run.lines}
lift: legs
${squat}  plank: 3 x 45 s, rest 0:45

fuel
  before 2 h: carbs 75 g, protein 20 g, fat 10 g
`,
    results: `start: 06:40
fuel before: carbs ${Math.round(now.chance.around(72, 6))} g, protein 18 g
${run.results}${closing('run', now, 8, run.minutes)}${clusters}=\n=\n=\n${closing('lift', now, 7, now.chance.around(34, 3))}`,
  }
}

export function legsDay(now: Now): MadeUpDay {
  const kg = plates(86 + 11 * now.form)
  const deadlift = plates(118 + 14 * now.form)
  return {
    prescription: `Saturday: legs
athlete: 68 kg

lift: legs
  front squat: 4 x 4 @ ${kg} kg, rest 3:00, build from 40 kg
  deadlift: 3 x 5 @ ${deadlift} kg, rest 3:00
  calf raise: 3 x 12 each side @ 20 kg, rest 1:00
`,
    results: `start: 10:15
${straight(4, 4, 7.4, now)}${straight(3, 5, 7.6, now)}=\n=\n=\n${closing('legs', now, 7, now.chance.around(58, 4))}`,
  }
}

export function pushDay(now: Now): MadeUpDay {
  const bench = plates(66 + 7 * now.form)
  return {
    prescription: `Wednesday: push
athlete: 68 kg

lift: push
  bench press: 4 x 5 @ ${bench} kg, rest 2:30, build from 30 kg
  dip 3 x 8 @ bodyweight+10 kg + dumbbell row 3 x 10 each arm @ 27.5 kg, pause 0:20, rest 1:30
  overhead press 10/8/6 @ 30/35/40 kg, rest 2:00
`,
    results: `start: 18:10
${straight(4, 5, 7.5, now)}${superset(3, ['8 @8', '10'])}10\n8\n6 @8.5\n${closing('push', now, 6, now.chance.around(50, 4))}`,
  }
}

export function pullDay(now: Now): MadeUpDay {
  const kg = plates(10 * now.form)
  const added = kg === 0 ? '' : `+${kg} kg`
  return {
    prescription: `Monday: pull
athlete: 68 kg

lift: pull
  pull-up 4 x 5 @ bodyweight${added}, rest 2:30
  barbell row: 4 x 8 @ ${plates(58 + 6 * now.form)} kg, rest 2:00
  farmer carry 3 x 40 m @ 2x30 kg, rest 1:00
`,
    results: `start: 18:00
${straight(4, 5, 7.6, now)}${straight(4, 8, 7.2, now)}=\n=\n=\n${closing('pull', now, 6, now.chance.around(44, 4))}`,
  }
}
