import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { addDays, format, parseISO, startOfISOWeek, subDays, subWeeks } from 'date-fns'
import { sessionPathOf } from '../../logbook/logbookFiles.ts'
import { localTimeOf } from '../../logbook/machine.ts'
import { printMornings } from '../../logbook/mornings.ts'
import { printSession } from '../../logbook/sessionFile.ts'
import { changeSettings } from '../../logbook/settings.ts'
import { openLogbook } from '../../logbook/store.ts'
import type { MorningEvent } from '../../plan/morningModel.ts'
import type { Prescription } from '../../prescription/model.ts'
import { readPrescription } from '../../prescription/read.ts'
import type { Session } from '../../session/model.ts'
import { readPaper } from '../../session/paper/paper.ts'
import { sessionFormat } from '../../session/replay.ts'
import {
  type Chance,
  chanceOf,
  easyDay,
  legsDay,
  longDay,
  type MadeUpDay,
  type Now,
  pullDay,
  pushDay,
  tempoAndSquats,
  trackDay,
  trialDay,
} from './days.ts'

/* The logbook of the invented athlete: a 68 kg runner who wants 10 km in 39:30 and a 120 kg front squat. */

const weekdays: readonly ((now: Now) => MadeUpDay)[][] = [
  [easyDay, pullDay],
  [(now) => (now.week % 5 === 4 ? trialDay(now) : trackDay(now))],
  [pushDay],
  [tempoAndSquats],
  [],
  [legsDay],
  [longDay],
]
const weeksInBlock = 16

/** Seven sessions a week, some of them skipped; oldest first. The same for the same seed and
 * last day.
 * @param given `last`: local date, YYYY-MM-DD, of the last day; `weeks` including that day, or
 * the number of latest `sessions` */
export function madeUpSessions(
  given: { seed: number; last: string } & ({ weeks: number } | { sessions: number }),
): {
  date: string
  session: Session
}[] {
  const weeks = 'weeks' in given ? given.weeks : Math.ceil(given.sessions / 6) + 1
  const chance = chanceOf(given.seed)
  const first = subWeeks(startOfISOWeek(parseISO(given.last)), weeks - 1)
  const days = Array.from({ length: weeks }, (_, week) => {
    const form = (week % weeksInBlock) / (weeksInBlock - 1) + 0.1 * (1 - Math.cos(week / 40))
    const now: Now = { week, form, chance }
    return weekdays.flatMap((kinds, weekday) => {
      const date = format(addDays(first, week * 7 + weekday), 'yyyy-MM-dd')
      return kinds.filter(() => !chance.happens(0.06)).map((make) => ({ date, day: make(now) }))
    })
  }).flat()
  const done = days.filter(({ date }) => date <= given.last)
  const kept = 'weeks' in given ? done : done.slice(-given.sessions)
  const read = reader()
  return kept.map(({ date, day }) => ({
    date,
    session: sessionOf(day, date, read(day.prescription), chance),
  }))
}

/** Cached, because many days have the same text. */
function reader(): (text: string) => Prescription {
  const known = new Map<string, Prescription>()
  return (text) => {
    const before = known.get(text)
    if (before !== undefined) return before
    const reading = readPrescription(text)
    if ('problems' in reading) throw new Error(`${reading.problems[0]?.message}\n${text}`)
    known.set(text, reading.prescription)
    return reading.prescription
  }
}

function sessionOf(day: MadeUpDay, date: string, prescription: Prescription, chance: Chance): Session {
  const reading = readPaper(day.results, prescription, {
    date,
    known: () => ({ bodyMassKg: 68, maxima: [] }),
    instantOf: (on, time) => localTimeOf(parseISO(`${on}T${time}`)),
  })
  if (reading.outcome !== 'session') {
    const problem = reading.outcome === 'problems' ? reading.problems[0] : null
    throw new Error(`line ${problem?.line}: ${problem?.message}\n${day.prescription}\n${day.results}`)
  }
  return { format: sessionFormat, id: idOf(chance), prescription, events: [reading.start, ...reading.events] }
}

const letters = '23456789abcdefghjkmnpqrstuvwxyz'

function idOf(chance: Chance): string {
  return Array.from({ length: 10 }, () => chance.oneOf([...letters])).join('')
}

/** Writes the made-up logbook into a directory, with its index and the athlete's settings, and returns
 * the number of sessions. It is not flushed to the disk, since losing it would not matter. */
export function writeMadeUpLogbook(directory: string, given: Parameters<typeof madeUpSessions>[0]): number {
  const home = resolve(directory)
  const sessions = madeUpSessions(given)
  for (const { date, session } of sessions) {
    const path = sessionPathOf(home, date, session.id)
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
    writeFileSync(path, printSession(session), { mode: 0o600 })
  }
  const first = sessions[0]?.date ?? given.last
  changeSettings(home, (settings) => ({
    ...settings,
    rotation: ['legs', 'push', 'pull'],
    bodyMasses: [{ date: first, value: 68, unit: 'kg' }],
  }))
  writePlan(home, given.last)
  writeMornings(home, first, given)
  openLogbook(home).index()
  return sessions.length
}

/** A block that leads to the athlete's race, from eight weeks before the last day on; without its taper if the race is
 * later than the weeks that are written. */
function writePlan(home: string, last: string): void {
  const monday = startOfISOWeek(parseISO(last))
  const weeks = [-8, -7, -6, -5, -4, -3, -2, -1, 0, 1, 2, 3].map((week) => {
    const isEasy = week % 4 === -1 || week % 4 === 3
    const date = format(addDays(monday, week * 7), 'yyyy-MM-dd')
    return `${date}: ${isEasy ? '30 km, easy' : `${42 + (week % 3)} km, long 16 km`}\n`
  })
  const text = `Ten under forty
race: 10 km in 39:30 on 2027-04-18
week: Mon pull + easy, Tue track, Wed push, Thu tempo + legs, Sat legs, Sun long
${weeks.join('')}${monday < parseISO('2027-03-08') ? '2027-04-05: taper\n2027-04-12: race week\n' : ''}`
  writeFileSync(join(home, 'plan.txt'), text, { mode: 0o600 })
}

/** Mornings of the last six weeks, a few of them missing; a calf hurts for eight days and then no longer. */
function writeMornings(home: string, first: string, { seed, last }: { seed: number; last: string }): void {
  const chance = chanceOf(seed + 1)
  const days = Array.from({ length: 42 }, (_, index) =>
    format(subDays(parseISO(last), 41 - index), 'yyyy-MM-dd'),
  )
  const byYear = new Map<string, MorningEvent[]>()
  for (const [index, date] of days.entries()) {
    const [sleep, beats, tenths, legs] = [
      Math.round(chance.around(420, 25)),
      Math.round(chance.around(48, 1.5)),
      Math.round(chance.around(680, 2.5)),
      Math.max(0, Math.round(chance.around(2, 1))),
    ]
    const calf = index >= 14 && index < 22 ? 4 - Math.floor((index - 14) / 2) : 0
    if (chance.happens(0.08) || date < first) continue
    const soreness = [
      { place: 'legs', level: legs },
      ...(calf > 0 ? [{ place: 'left calf', level: calf }] : []),
    ]
    const values = {
      sleepSeconds: sleep * 60,
      restingHeartRate: beats,
      bodyMass: { value: tenths / 10, unit: 'kg' as const },
      soreness,
    }
    const at = localTimeOf(parseISO(`${date}T06:20`))
    const year = date.slice(0, 4)
    byYear.set(year, [...(byYear.get(year) ?? []), { type: 'typed', at, date, values }])
  }
  mkdirSync(join(home, 'mornings'), { recursive: true, mode: 0o700 })
  for (const [year, events] of byYear)
    writeFileSync(join(home, 'mornings', `${year}.json`), printMornings(events), { mode: 0o600 })
}
