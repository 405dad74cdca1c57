import { readFileSync } from 'node:fs'
import { dayOf } from '../day.ts'
import { Kept } from './kept.ts'

/** The day of the samples: a track session, then a front squat in cluster sets. */
export const exampleDay = dayOf(
  readFileSync(new URL('../../sample-sessions/track-and-cluster.txt', import.meta.url)),
)

const kilometres = ['4:09', '4:08', '4:07', '4:06.5', '4:10.4']
const repeats = ['1:49.2 hr 171 "windy back straight"', '1:47.4', '1:50.0', '1:48.8', '1:53.1', '1:46.5']

/** The example day as kept on paper; invented. */
export function wholeDay(): Kept {
  const day = new Kept(exampleDay, { fromPaper: true })
  day.type('=', '-', '=', ...kilometres, ...repeats, '=')
  day.type('=', '=', '=', '= @7.5', '= @8')
  day.type('6', '8', '6', '8', '5 pain "left elbow"', '8 x bw+5', '-', '8', '-', '-', '-')
  day.add({ type: 'noteAdded', ...day.when('09:00:00'), about: null, text: 'slept 5 h', pain: false })
  day.add({ type: 'conditionsNoted', ...day.when('09:00:00'), part: 1, text: 'flats, track, windy' })
  day.add({
    type: 'fuelRecorded',
    at: null,
    up: null,
    step: '4.1.f1',
    result: { carbsG: 70, proteinG: 18, fatG: null, kcal: null, note: null, pain: null },
  })
  return day.close(1, 8, 62).close(2, 7, 48).finish()
}
