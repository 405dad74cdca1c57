import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { choicesOf } from '../../src/app/choices.ts'
import { earlierDays } from '../../src/app/earlierDays.ts'
import { plannedText } from '../../src/app/today.ts'
import type { CommandInput } from '../../src/commands/command.ts'
import { weekAndPlan } from '../../src/commands/open.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { runProgram } from '../commands/runProgram.ts'
import { folderInMemory } from '../folderInMemory.ts'

const plan = `Ten under forty
race: 10 km in 39:30 on 2027-04-18
week: Tue track, Thu tempo + legs, Sun long
2026-12-07: 42 km, long 16 km, "first week of threes"
2026-12-21: 30 km, easy
2027-04-12: race week
`

function logbookWithPlan(text = plan): string {
  const logbook = folderInMemory()
  mkdirSync(join(logbook, 'prescriptions'), { recursive: true })
  writeFileSync(join(logbook, 'plan.txt'), text)
  for (const name of ['tempo', 'pull']) {
    writeFileSync(join(logbook, 'prescriptions', `${name}.txt`), `The ${name} day\n\nrun\n  5 km easy\n`)
  }
  return logbook
}

describe('the plan beside the days', () => {
  it('says where the day is in the block, and what it is for', () => {
    expect(plannedText(logbookWithPlan(), '2026-12-24')).toBe(
      'Thursday of week 3 of 19, 115 days to 10 km in 39:30   plan: tempo + legs',
    )
  })

  it('says nothing without a plan, or with one that has problems', () => {
    expect(plannedText(folderInMemory(), '2026-12-24')).toBeNull()
    expect(plannedText(logbookWithPlan('A\n2026-12-08: 1 km\n'), '2026-12-24')).toBeNull()
  })

  it("lists the day file named after today's word first, as today's", () => {
    const logbook = openLogbook(logbookWithPlan())
    const now = new Date('2026-12-24T07:00:00')
    const choices = choicesOf(logbook, null, earlierDays(logbook, defaultSettings, now), now)
    expect(choices.map(({ title, when }) => [title, when])).toEqual([
      ['The tempo day', 'today'],
      ['The pull day', 'no date'],
    ])
  })

  it("puts a dated day in the place of the day file with its title that the plan's word names", async () => {
    const logbook = logbookWithPlan()
    const dated = 'The tempo day\ndate: 2026-12-24\n\nrun\n  6 km easy\n'
    writeFileSync(join(logbook, 'prescriptions', '2026-12-24-the-tempo-day.txt'), dated)
    const now = new Date('2026-12-24T07:00:00')
    const { stdout } = await runProgram(['week'], { logbook, now })
    expect(stdout).toContain('Running: 0 km done, 6 km ready.\n')
    const opened = openLogbook(logbook)
    const choices = choicesOf(opened, null, earlierDays(opened, defaultSettings, now), now)
    const today = choices.filter(({ when }) => when === 'today')
    expect(today.map(({ detail }) => detail())).toEqual(['6 km, about 36 min'])
  })

  it('finds the day file of several words by its name with hyphens', async () => {
    const logbook = logbookWithPlan('Block\nweek: Thu Five hundreds\n')
    const day = 'Five hundreds\n\nrun\n  6 x 500 m, jog 200 m\n'
    writeFileSync(join(logbook, 'prescriptions', 'five-hundreds.txt'), day)
    const { stdout } = await runProgram(['week', '2026-12-24'], { logbook })
    expect(stdout).toContain('plan   Five hundreds (five-hundreds.txt)\n')
  })

  it("prints the plan's word and the day file in the week, and what was planned", async () => {
    const logbook = logbookWithPlan()
    const now = new Date('2026-12-11T07:00:00')
    const { stdout } = await runProgram(['week'], { logbook, now })
    expect(stdout).toContain('Thu 10  -\n        plan   tempo + legs (tempo.txt)\n')
    expect(stdout).toContain('Planned: 42 km, long 16 km, first week of threes.\n')
    const week = JSON.parse((await runProgram(['week', '2026-12-10', '--json'], { logbook })).stdout)
    expect(week.planned).toMatchObject({ meters: 42_000, longMeters: 16_000, kind: null })
  })

  it('counts a day file without a date as ready on the days whose words name it, and lists it once', async () => {
    const now = new Date('2026-12-10T07:00:00')
    const { stdout } = await runProgram(['week'], { logbook: logbookWithPlan(), now })
    expect(stdout).toContain('Thu 10  ready  The tempo day\n')
    expect(stdout).toContain('no date ready  The pull day\n')
    expect(stdout.match(/The tempo day/g)).toHaveLength(1)
    expect(stdout).toContain('Running: 0 km done, 5 km ready.\n')
  })

  it('shows the week in the app with the plan below it, or what is wrong with the plan', async () => {
    const shown = (logbookDir: string) => {
      const terminal = { in: true, out: true, err: false }
      const now = () => new Date('2026-12-10T07:00:00')
      const io = { columns: 80, env: {}, terminal, now } as CommandInput['io']
      const none = { words: [], values: {}, flags: new Set<string>(), json: false, sources: [] }
      const units = { distance: null, mass: null }
      return weekAndPlan({ ...none, units, logbookDir, io, program: {} as CommandInput['program'] })
    }
    const logbook = logbookWithPlan()
    expect(await shown(logbook)).toMatch(
      /^Week 50 of 2026[\s\S]*\n\nTen under forty\n129 days to 10 km in 39:30\n/,
    )
    writeFileSync(join(logbook, 'plan.txt'), 'A\nfoo\n')
    expect(await shown(logbook)).toMatch(/^Week 50 of 2026[\s\S]*\n\nThe plan "plan.txt" has 1 problem\./)
    expect(await shown(folderInMemory())).toMatch(/\nSun 13 {2}-\n\n$/)
  })
})
