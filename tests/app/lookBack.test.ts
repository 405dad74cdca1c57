import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { knownOn } from '../../src/app/known.ts'
import { showHistory, showProgress, showSummary } from '../../src/app/lookBack.ts'
import { goalOn, progressContent, raceGoalOf } from '../../src/app/overWeeks.ts'
import type { Screen, Screens } from '../../src/app/screens.ts'
import { addMornings } from '../../src/logbook/mornings.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { type Logbook, openLogbook } from '../../src/logbook/store.ts'
import { dayOf } from '../day.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { Kept } from '../summary/kept.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { propsOf } from './propsOf.ts'

/* History, summary and progress in the app, without drawing them. */

/** What the screens need that look back on a logbook, and what they show. */
function lookingBackOn(logbook: Logbook, today = '2026-11-26') {
  const shown: Screen[] = []
  const screens = {
    logbook,
    known: () => knownOn(logbook, defaultSettings, today),
    show: (screen: Screen) => void shown.push(screen),
    leave: () => {},
  }
  return { screens: screens as unknown as Screens, shown: () => shown.at(-1) }
}

describe('the history of the app', () => {
  it('has a row for each session, at least 38 columns wide, and nothing without a session', () => {
    const logbook = openLogbook(temporaryFolder())
    const { screens, shown } = lookingBackOn(logbook)
    expect(showHistory(screens)).toBe('no session is in this logbook yet')
    expect(shown()).toBeUndefined()
    const file = logbook.create(legs, started, [setRecorded(1), finished])
    file.close()
    expect(showHistory(screens)).toBeNull()
    const { rows, head } = propsOf('list', shown())
    const [row] = rows
    expect(rows.map(({ id }) => id)).toEqual([file.id])
    expect(row?.lines(20)).toEqual(row?.lines(38))
    expect(row?.lines(100)[0]).toContain('Legs')
    expect(head(20, 0)).toEqual(head(40, 0))
    expect(head(100, 0)).not.toEqual(head(40, 0))
  })
})

describe('the progress of the app', () => {
  it('names the keys of its pages in the order of their description', () => {
    const logbook = openLogbook(temporaryFolder())
    logbook.create(legs, started, [setRecorded(1), finished]).close()
    const { screens, shown } = lookingBackOn(logbook)
    showProgress(screens)
    const [page] = propsOf('text', shown()).keys
    expect(page?.does).toMatch(/^the page before, the page after/)
    expect(Object.keys(page?.acts ?? {}).filter((name) => name.length === 1)).toEqual(['<', '>'])
  })
})

describe('the summary of a session in the app', () => {
  it('has the sleep of the morning of its date, and the plan of its logbook', () => {
    const logbook = openLogbook(temporaryFolder())
    const { id, close } = logbook.create(legs, started, [setRecorded(1), finished])
    close()
    const text = () => {
      const { screens, shown } = lookingBackOn(logbook)
      showSummary(id, screens)
      return propsOf('text', shown()).text(80)
    }
    const before = text()
    const values = { sleepSeconds: 15_000, soreness: [{ place: 'left calf', level: 3 }] }
    const [date, at] = ['2026-11-26', '2026-11-26T06:00:00+01:00']
    addMornings(logbook.directory, [{ type: 'typed', at, date, values }])
    expect(before).toContain('Legs')
    expect(before).not.toMatch(/sle(ep|pt)/)
    expect(text()).toMatch(/sle(ep|pt)/)
    expect(text()).toContain('left calf 3 in the morning')
  })

  it('has the carbohydrate before a hard evening and the changes for next time, as in the command', () => {
    const logbook = openLogbook(temporaryFolder())
    const { directory } = logbook
    mkdirSync(join(directory, 'prescriptions'))
    const evening = 'Evening\ndate: 2026-11-26\n\nrun\n  3 km tempo\n'
    writeFileSync(join(directory, 'prescriptions', 'evening.txt'), evening)
    const { at, up } = finished
    const amounts = { carbsG: 27, proteinG: null, fatG: null, kcal: null, note: null, pain: null }
    const banana = { type: 'mealRecorded' as const, at, up, meal: 'after' as const, result: amounts }
    const { id, close } = logbook.create(legs, started, [setRecorded(1), banana, finished])
    close()
    const textOn = (today: string, full: boolean) => {
      const { screens, shown } = lookingBackOn(logbook, today)
      showSummary(id, screens, null, full)
      return propsOf('text', shown()).text(200)
    }
    expect(textOn('2026-11-26', true)).toContain('carbs after: 68 to 82 g an hour for 4 h')
    expect(textOn('2026-11-26', false)).not.toContain('next time')
    const later = 'next time front squat: 4 weeks since the last time -> 11 % less load, 82.5 kg'
    expect(textOn('2026-12-24', false).replace(/\s+/g, ' ')).toContain(later)
  })

  it('is left for the history that it was opened from, and ends the program after a day', () => {
    const logbook = openLogbook(temporaryFolder())
    const { id, close } = logbook.create(legs, started, [setRecorded(1), finished])
    close()
    const leaving = (back?: () => void) => {
      const { screens, shown } = lookingBackOn(logbook)
      showSummary(id, screens, back)
      return propsOf('text', shown()).leave.label
    }
    expect(leaving(() => {})).toBe('back')
    expect(leaving()).toBe('quit')
  })
})

describe('the progress of the app', () => {
  it('has a subject for pain only after a pain, for the body only after a morning, and one for each lift', () => {
    const logbook = openLogbook(temporaryFolder())
    const names = () =>
      progressContent(knownOn(logbook, defaultSettings, '2026-11-26'))?.map(({ name }) => name) ?? null
    expect(names()).toBeNull()
    logbook.create(legs, started, [setRecorded(1), finished]).close()
    expect(names()).toEqual(['all', 'run', 'load', 'front squat'])
    const at = '2026-11-26T07:00:00+01:00'
    const soreness = [{ place: 'knee pain', level: 3 }]
    addMornings(logbook.directory, [{ type: 'typed', at, date: '2026-11-26', values: { soreness } }])
    expect(names()).toEqual(['all', 'run', 'load', 'pain', 'body', 'front squat'])
    addMornings(logbook.directory, [{ type: 'undone', at, date: '2026-11-26' }])
    const event = setRecorded(1)
    const hurt = { ...event, result: { ...event.result, pain: 'left knee 3' } }
    logbook.create(legs, started, [hurt, finished]).close()
    expect(names()).toEqual(['all', 'run', 'load', 'pain', 'front squat'])
  })

  it('is at most 100 columns wide and at least 40', () => {
    const logbook = openLogbook(temporaryFolder())
    logbook.create(legs, started, [setRecorded(1), finished]).close()
    const [all] = progressContent(knownOn(logbook, defaultSettings, '2026-11-26')) ?? []
    const widest = (columns: number) => Math.max(...(all?.lines(columns).map((line) => line.length) ?? []))
    expect(all?.lines(300)).toEqual(all?.lines(100))
    expect(all?.lines(20)).toEqual(all?.lines(40))
    expect(widest(40)).toBeLessThanOrEqual(40)
  })
})

describe('the goal of the progress', () => {
  const day = (goal: string) => dayOf(`Track\n${goal}\nrun\n  2 x 1 km @ 4:00, jog 200 m\n`)
  const run = (logbook: Logbook, goal: string, date: string) => {
    const { session } = new Kept(day(goal), { fromPaper: true }).type('4:00', '4:01').finish()
    const [, ...events] = session.events
    const file = logbook.create(session.prescription, { ...started, date, fromPaper: true }, events)
    file.close()
    return file
  }

  it('is that of the newest run that has one, with the date of its race if its file can be read', () => {
    const logbook = openLogbook(temporaryFolder())
    const goal = (reading = logbook) => raceGoalOf({ logbook: reading, entries: logbook.index() })
    expect(goal()).toBeNull()
    run(logbook, 'goal: 10 km in 41:00 on 2027-03-01\n', '2026-11-01')
    run(logbook, 'goal: 10 km in 39:30 on 2027-04-18\n', '2026-11-10')
    run(logbook, 'max: squat 100 kg\n', '2026-11-20')
    logbook.create(legs, started, [setRecorded(1), finished]).close()
    expect(goal()).toEqual({ meters: 10_000, seconds: 2370, date: '2027-04-18' })
    expect(goal({ ...logbook, sessionOf: () => null })).toMatchObject({ date: null })
    run(logbook, 'goal: 10 km in 39:00\n', '2026-11-12')
    expect(goal()).toEqual({ meters: 10_000, seconds: 2340, date: null })
  })

  it('is the race of the plan once its own is over', () => {
    const logbook = openLogbook(temporaryFolder())
    const goal = (today: string) => goalOn(knownOn(logbook, defaultSettings, today))
    run(logbook, 'goal: 5 km in 18:50 on 2026-11-22\n', '2026-11-22')
    const own = { meters: 5000, seconds: 1130, date: '2026-11-22' }
    expect(goal('2026-11-26')).toEqual(own)
    writeFileSync(join(logbook.directory, 'plan.txt'), 'Block\nrace: 10 km in 39:30 on 2026-11-29\n')
    expect(goal('2026-11-22')).toEqual(own)
    expect(goal('2026-11-26')).toEqual({ meters: 10_000, seconds: 2370, date: '2026-11-29' })
    expect(goal('2026-11-30')).toEqual(own)
  })
})
