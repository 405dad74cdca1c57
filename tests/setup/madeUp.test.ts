import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { differenceInCalendarDays, parseISO } from 'date-fns'
import { describe, expect, it } from 'vitest'
import { type LiftDay, runCost } from '../../src/figures/longTerm.ts'
import { readMornings } from '../../src/logbook/mornings.ts'
import { readSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { readPlan } from '../../src/plan/read.ts'
import { Session } from '../../src/session/model.ts'
import { trueRunCost } from '../../src/setup/madeUp/days.ts'
import { madeUpSessions } from '../../src/setup/madeUp/logbook.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { isLongRun } from '../faults/harness.ts'
import { bareContext } from '../summary/bareContext.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

const { prepareTryOut } = createRequire(import.meta.url)('../../src/setup/madeUp.cjs')
const sixteen = { seed: 1, weeks: 16, last: '2026-11-25' }
const made = madeUpSessions(sixteen)

describe('the made-up logbook', () => {
  it('is the same for the same seed, and different for another', () => {
    const few = { ...sixteen, weeks: 3 }
    const once = madeUpSessions(few)
    expect(madeUpSessions(few)).toEqual(once)
    expect(madeUpSessions({ ...few, seed: 2 })).not.toEqual(once)
  })

  it('has sessions that any program can read, of sixteen weeks, six or seven in most', () => {
    for (const { session } of made) expect(Session.parse(session)).toEqual(session)
    expect(made[0]?.date).toBe('2026-08-10')
    expect(made.at(-1)?.date).toBe('2026-11-25')
    expect(made.length).toBeGreaterThan(16 * 6)
    expect(new Set(made.map(({ session }) => session.id)).size).toBe(made.length)
  })

  it('has the requested number of sessions, over as many years as they take', () => {
    const many = madeUpSessions({ seed: 1, sessions: 80, last: '2026-02-25' })
    expect(many).toHaveLength(80)
    expect(many[0]?.date.slice(0, 4)).toBe('2025')
  })
})

describe('the made-up weeks', () => {
  const titles = made.map(({ session }) => session.prescription.title)

  it('have two races and a trial, easy days that were not easy, and a pain that comes and goes', () => {
    expect(titles.filter((title) => / race$/.test(title))).toEqual([
      'Tuesday: 5 km race',
      'Tuesday: 10 km race',
    ])
    expect(titles).toContain('Tuesday: 5 km trial')
    const summaries = made.map(({ date, session }) => ({
      date,
      ...summarise(session, bareContext),
    }))
    const spoilt = summaries.filter(({ parts }) => parts.some(({ meant, hard }) => meant === 'easy' && hard))
    expect(spoilt.length).toBeGreaterThanOrEqual(2)
    const easy = summaries.filter(({ parts }) => parts.some(({ meant, hard }) => meant === 'easy' && !hard))
    expect(easy.length).toBeGreaterThan(20)
    const hurt = summaries.map(({ pain }) => pain.some(({ place }) => place === 'left calf'))
    expect(hurt.filter((each) => each).length).toBeGreaterThanOrEqual(3)
    expect([hurt[0], hurt.at(-1)]).toEqual([false, false])
    const levels = summaries.flatMap(({ pain }) => pain.flatMap(({ level }) => level ?? []))
    expect(Math.max(...levels)).toBeGreaterThan(levels.at(-1) ?? 0)
  })

  it('have enough squats to estimate the effect of running: the interval holds the true value in all seeds but one', () => {
    const seeds = isLongRun ? 20 : 4
    const found = Array.from({ length: seeds }, (_, index) => {
      const sessions = index === 0 ? made : madeUpSessions({ ...sixteen, seed: index + 1 })
      const squats = sessions.flatMap(({ date, session }): LiftDay[] => {
        if (!JSON.stringify(session.prescription).includes('front squat')) return []
        const { lifting } = summarise(session, bareContext)
        const maximum = lifting.exercises.find(({ name }) => name === 'front squat')?.oneRepMax
        if (!maximum || maximum.atLeast) return []
        const { kg, cluster, afterRun } = maximum
        const day = differenceInCalendarDays(parseISO(date), parseISO(sixteen.last))
        // Five kilometres of tempo come before the squats of a Thursday.
        return [{ day, kg, cluster, hardKmBefore: afterRun ? 5 : null }]
      })
      return runCost(squats)
    })
    const truth = -100 * trueRunCost
    const holding = found.filter((cost) => cost && cost.lowPercent <= truth && cost.highPercent >= truth)
    expect(holding.length).toBeGreaterThanOrEqual(seeds - 1)
    // The interval is also narrow enough to be useful.
    expect(found.every((cost) => cost && cost.highPercent - cost.lowPercent < 6)).toBe(true)
  })
})

describe('the logbook for trying out', () => {
  it('is created once, whole, with made-up weeks up to the last day and the sample days', async () => {
    const directory = join(temporaryFolder(), 'tryout')
    await prepareTryOut(directory, '2026-11-25', 4)
    const logbook = openLogbook(directory)
    expect(logbook.prescriptions().map(({ name }) => name)).toContain('easy-day.txt')
    const made = logbook.list()
    expect(made.length).toBeGreaterThan(20)
    expect(made.every(({ date }) => date <= '2026-11-25')).toBe(true)
    expect(readSettings(directory).settings).toMatchObject({
      firstStartSeen: false,
      rotation: ['legs', 'push', 'pull'],
    })
    expect(readdirSync(join(directory, '..'))).toEqual(['tryout'])
    const plan = readPlan(readFileSync(join(directory, 'plan.txt'), 'utf8'))
    expect(plan).toMatchObject({ plan: { title: 'Ten under forty', race: { seconds: 2370 } } })
    const { mornings, damages } = readMornings(directory)
    expect(damages).toEqual([])
    expect(mornings.length).toBeGreaterThan(10)
    expect(mornings.at(-1)?.date).toBe('2026-11-25')
  })

  it('is left as it is once it exists', async () => {
    const directory = join(temporaryFolder(), 'tryout')
    mkdirSync(directory)
    writeFileSync(join(directory, 'plan.txt'), 'Mine\n')
    await prepareTryOut(directory, '2026-11-25', 1)
    expect(readdirSync(directory)).toEqual(['plan.txt'])
    expect(readFileSync(join(directory, 'plan.txt'), 'utf8')).toBe('Mine\n')
  })

  it('removes what a killed start left', async () => {
    const directory = join(temporaryFolder(), 'tryout')
    mkdirSync(`${directory}.new`)
    await prepareTryOut(directory, '2026-11-25', 1)
    expect(readdirSync(join(directory, '..'))).toEqual(['tryout'])
  })

  it('leaves no files if it cannot be created', async () => {
    const inTheWay = join(temporaryFolder(), 'file')
    writeFileSync(inTheWay, '')
    await prepareTryOut(join(inTheWay, 'tryout'), '2026-11-25', 1)
    expect(readFileSync(inTheWay, 'utf8')).toBe('')
    expect(readdirSync(join(inTheWay, '..'))).toEqual(['file'])
  })
})
