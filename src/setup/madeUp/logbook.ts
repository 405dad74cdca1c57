import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { addDays, format, parseISO, startOfISOWeek } from 'date-fns'
import { sessionPathOf } from '../../logbook/logbookFiles.ts'
import { localTimeOf } from '../../logbook/machine.ts'
import { addMornings } from '../../logbook/mornings.ts'
import { addOwnText } from '../../logbook/ownTexts.ts'
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

interface MadeUpSession {
  /** YYYY-MM-DD */
  date: string
  session: Session
}

/** Seven sessions a week, some of them skipped; oldest first. The same for the same seed and last day.
 * @param given `last`: local date, YYYY-MM-DD, of the last day; `weeks` including that day, or the number of latest
 * `sessions` */
export function madeUpSessions(
  given: { seed: number; last: string } & ({ weeks: number } | { sessions: number }),
): MadeUpSession[] {
  const weeks = 'weeks' in given ? given.weeks : Math.ceil(given.sessions / 6) + 1
  const chance = chanceOf(given.seed)
  const monday = startOfISOWeek(parseISO(given.last))
  const days = Array.from({ length: weeks }, (_, week) => {
    const form = (week % weeksInBlock) / (weeksInBlock - 1) + 0.1 * (1 - Math.cos(week / 40))
    const now: Now = { week, form, chance }
    return weekdays.flatMap((kinds, weekday) => {
      const date = dayAfter(monday, (week - weeks + 1) * 7 + weekday)
      return kinds.filter(() => !chance.happens(0.06)).map((make) => ({ date, day: make(now) }))
    })
  }).flat()
  const done = days.filter(({ date }) => date <= given.last)
  const kept = 'weeks' in given ? done : done.slice(-given.sessions)
  // Many days have the same text.
  const known = new Map<string, Prescription>()
  return kept.map(({ date, day }) => {
    const prescription = known.get(day.prescription) ?? read(day.prescription)
    known.set(day.prescription, prescription)
    return { date, session: sessionOf(day, date, prescription, chance) }
  })
}

function dayAfter(date: Date, days: number): string {
  return format(addDays(date, days), 'yyyy-MM-dd')
}

function read(text: string): Prescription {
  const reading = readPrescription(text)
  if ('problems' in reading) throw new Error(`${reading.problems[0]?.message}\n${text}`)
  return reading.prescription
}

function sessionOf(day: MadeUpDay, date: string, prescription: Prescription, chance: Chance): Session {
  const reading = readPaper(day.results, prescription, {
    date,
    foods: [],
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
 * the number of sessions. These are not flushed to the disk, since losing them would not matter. */
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
  addOwnText(home, 'plan.txt', planUntil(given.last))
  const mornings = madeUpMornings(given.seed, given.last).filter(({ date }) => date >= first)
  addMornings(home, mornings)
  openLogbook(home).index()
  return sessions.length
}

/** A block that leads to the athlete's race, from eight weeks before the last day on; without its taper if the race is
 * later than the weeks that are written. */
function planUntil(last: string): string {
  const monday = startOfISOWeek(parseISO(last))
  const weeks = [-8, -7, -6, -5, -4, -3, -2, -1, 0, 1, 2, 3].map((week) => {
    const isEasy = week % 4 === -1 || week % 4 === 3
    const target = isEasy ? '30 km, easy' : `${42 + (week % 3)} km, long 16 km`
    return `${dayAfter(monday, week * 7)}: ${target}\n`
  })
  return `Ten under forty
race: 10 km in 39:30 on 2027-04-18
week: Mon pull + easy, Tue track, Wed push, Thu tempo + legs, Sat legs, Sun long
${weeks.join('')}${monday < parseISO('2027-03-08') ? '2027-04-05: taper\n2027-04-12: race week\n' : ''}`
}

/** Mornings of the last six weeks, a few of them missing; a calf hurts for eight days. */
function madeUpMornings(seed: number, last: string): MorningEvent[] {
  const chance = chanceOf(seed + 1)
  return Array.from({ length: 42 }, (_, index): MorningEvent[] => {
    const date = dayAfter(parseISO(last), index - 41)
    const sleepSeconds = Math.round(chance.around(420, 25)) * 60
    const restingHeartRate = Math.round(chance.around(48, 1.5))
    const bodyMass = { value: Math.round(chance.around(680, 2.5)) / 10, unit: 'kg' as const }
    const soreness = [{ place: 'legs', level: Math.max(0, Math.round(chance.around(2, 1))) }]
    const calf = index >= 14 && index < 22 ? 4 - Math.floor((index - 14) / 2) : 0
    if (calf > 0) soreness.push({ place: 'left calf', level: calf })
    if (chance.happens(0.08)) return []
    const values = { sleepSeconds, restingHeartRate, bodyMass, soreness }
    return [{ type: 'typed', at: localTimeOf(parseISO(`${date}T06:20`)), date, values }]
  }).flat()
}
