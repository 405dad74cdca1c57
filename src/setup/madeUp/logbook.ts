import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { addDays, format, parseISO, startOfISOWeek, subWeeks } from 'date-fns'
import { localTimeOf } from '../../logbook/machine.ts'
import { printSession } from '../../logbook/sessionFile.ts'
import { sessionPathOf } from '../../logbook/sessionName.ts'
import { changeSettings } from '../../logbook/settingsFile.ts'
import { openLogbook } from '../../logbook/store.ts'
import type { Prescription } from '../../prescription/model.ts'
import { readPrescription } from '../../prescription/read.ts'
import { sessionFormat } from '../../session/format.ts'
import type { Session } from '../../session/model.ts'
import { readPaper } from '../../session/paper/paper.ts'
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
  tempoAndClusters,
  trackDay,
  trialDay,
} from './days.ts'

/* The logbook of the invented athlete: a 68 kg runner who wants 10 km in 39:30 and a 120 kg front squat. */

const weekdays: readonly ((now: Now) => MadeUpDay)[][] = [
  [easyDay, pullDay],
  [(now) => (now.week % 5 === 4 ? trialDay(now) : trackDay(now))],
  [pushDay],
  [tempoAndClusters],
  [],
  [legsDay],
  [longDay],
]
const weeksInBlock = 16

/** Seven sessions a week, of which now and then one falls out; oldest first. The same for the same seed and
 * last day.
 * @param given `last`: local date, YYYY-MM-DD, after which there is nothing; `weeks` with that of the last day, or
 * as many of the latest `sessions` as are asked for */
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

/** Many days are written alike. */
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

/** Writes the made-up logbook into a directory, with its index and the athlete's settings, and gives back
 * how many sessions there are. Not flushed to the disk: nobody would miss it. */
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
  openLogbook(home).index()
  return sessions.length
}

/** Brings the index of a logbook up to date with its sessions. */
export function readAnew(directory: string): void {
  openLogbook(resolve(directory)).index()
}
