import { formatClock } from '../../units/duration.ts'
import { closing, type MadeUpDay, type Now } from './day.ts'

/* The running days of the invented athlete. Figures are invented. */

const goal = 'goal: 10 km in 39:30 on 2027-04-18\nathlete: 68 kg\n'

/** Seconds per kilometre at the effort of about an hour, from 4:18 down to 4:05 in a block of training. */
function tempoPace({ form }: Now): number {
  return 258 - 13 * form
}

function clock(seconds: number, decimals: 0 | 1 = 0): string {
  return formatClock(seconds, decimals)
}

function splits(count: number, seconds: number, spread: number, now: Now, decimals: 0 | 1 = 0): string {
  const pulse = Math.round(now.chance.around(164, 4))
  const drift = now.chance.around(-0.002, 0.006)
  return Array.from({ length: count }, (_, index) => {
    const time = now.chance.around(seconds * (1 + drift * (index - (count - 1) / 2)), spread)
    return `${clock(time, decimals)} hr ${pulse + index}\n`
  }).join('')
}

export function easyDay(now: Now): MadeUpDay {
  const km = now.chance.oneOf([6, 8, 8, 10])
  const seconds = now.chance.around(km * (340 - 8 * now.form), 30)
  return {
    prescription: `Easy ${km} km\n${goal}\nrun: easy\n  ${km} km easy\n`,
    results: `start: 06:50\n${clock(seconds)} hr ${Math.round(now.chance.around(138, 4))}\n${closing('run', now, 3, seconds / 60)}`,
  }
}

export function longDay(now: Now): MadeUpDay {
  const km = 13 + Math.round(4 * now.form) + now.chance.oneOf([0, 0, 1])
  const seconds = now.chance.around(km * (352 - 8 * now.form), 60)
  return {
    prescription: `Sunday: long and easy\n${goal}\nrun: woods\n  ${km} km easy\n  4 x 20 s strides, walk back\n`,
    results: `start: 09:30\n${clock(seconds)} hr ${Math.round(now.chance.around(142, 3))}\n=\n=\n=\n=\n${closing('run', now, 5, seconds / 60 + 8)}`,
  }
}

const repeats = [
  { count: 6, meters: 500, slow: 6, jog: 200 },
  { count: 8, meters: 400, slow: 3, jog: 200 },
  { count: 5, meters: 1000, slow: 12, jog: 400 },
]

export function trackDay(now: Now): MadeUpDay {
  const { count, meters, slow, jog } = repeats[now.week % repeats.length] as (typeof repeats)[number]
  const pace = tempoPace(now) - 32 + slow
  const from = Math.round((pace - 4) / 5) * 5
  const length = meters === 1000 ? '1 km' : `${meters} m`
  const range = `${clock(from)}-${clock(from + 10)}/km`
  const times = splits(count, (pace * meters) / 1000, (0.9 * meters) / 500, now, 1)
  return {
    prescription: `Tuesday: track\n${goal}\nrun: track\n  2 km easy\n  ${count} x ${length} @ ${range}, jog ${jog} m\n  2 km easy\n`,
    results: `start: 06:40\n${clock(now.chance.around(680, 10))}\n${times}${clock(now.chance.around(690, 10))}\n${closing('run', now, 8, now.chance.around(52, 3))}`,
  }
}

/** A trial or a race, in the place of the track. */
export function trialDay(now: Now): MadeUpDay {
  const isRace = now.week % 10 === 9
  const [count, km] = isRace ? [5, 2] : [5, 1]
  const pace = tempoPace(now) - (isRace ? 5 : 12)
  const written = isRace ? '10 km race, split 2 km' : '5 km trial, split 1 km'
  return {
    prescription: `Tuesday: ${isRace ? '10 km race' : '5 km trial'}\n${goal}\nrun: ${isRace ? 'road' : 'track'}\n  2 km easy\n  ${written}\n`,
    results: `start: 10:00\n${clock(now.chance.around(690, 10))}\n${splits(count, pace * km, 1.2 * km, now)}${closing('run', now, 10, now.chance.around(isRace ? 60 : 38, 3))}`,
  }
}

/** The continuous piece before the bar, as lines of a day and of its results. */
export function tempoPiece(now: Now): { lines: string; results: string; minutes: number } {
  const pace = tempoPace(now)
  const from = Math.round((pace - 2) / 5) * 5
  return {
    lines: `run: track\n  2 km easy\n  5 km @ ${clock(from)}-${clock(from + 5)}/km, split 1 km, negative\n  2 km easy\n`,
    results: `${clock(now.chance.around(690, 10))}\n${splits(5, pace, 1.4, now, 1)}${clock(now.chance.around(700, 10))}\n`,
    minutes: now.chance.around(48, 2),
  }
}
