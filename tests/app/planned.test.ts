import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { choicesOf } from '../../src/app/choices.ts'
import { knownOn } from '../../src/app/known.ts'
import { plannedText } from '../../src/app/today.ts'
import { weekAndPlan } from '../../src/app/weekAndPlan.ts'
import { todayOf } from '../../src/logbook/machine.ts'
import { planIn } from '../../src/logbook/ownTexts.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { runProgram } from '../commands/runProgram.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

const plan = `Ten under forty
race: 10 km in 39:30 on 2027-04-18
week: Tue track, Thu tempo + legs, Sun long
2026-12-07: 42 km, long 16 km, "first week of threes"
2026-12-21: 30 km, easy
2027-04-12: race week
`

function logbookWithPlan(text = plan): string {
  const logbook = temporaryFolder()
  mkdirSync(join(logbook, 'prescriptions'), { recursive: true })
  writeFileSync(join(logbook, 'plan.txt'), text)
  for (const name of ['tempo', 'pull']) {
    writeFileSync(join(logbook, 'prescriptions', `${name}.txt`), `The ${name} day\n\nrun\n  5 km easy\n`)
  }
  return logbook
}

describe('the plan beside the days', () => {
  it('says where the day is in the block, and what it is for', () => {
    expect(plannedText(planIn(logbookWithPlan()), '2026-12-24')).toBe(
      'Thursday of week 3 of 19, 115 days to 10 km in 39:30   plan: tempo + legs',
    )
  })

  it('says nothing without a plan, or with one that has problems', () => {
    expect(plannedText(planIn(temporaryFolder()), '2026-12-24')).toBeNull()
    expect(plannedText(planIn(logbookWithPlan('A\n2026-12-08: 1 km\n')), '2026-12-24')).toBeNull()
  })

  it("lists the day file named after today's word first, as today's", () => {
    const logbook = openLogbook(logbookWithPlan())
    const now = new Date('2026-12-24T07:00:00')
    const choices = choicesOf(knownOn(logbook, defaultSettings, todayOf(now)), null, now)
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
    const choices = choicesOf(knownOn(opened, defaultSettings, todayOf(now)), null, now)
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

  it('shows the week in the app with the plan below it, or what is wrong with the plan', () => {
    const shown = (logbook: string) =>
      weekAndPlan(knownOn(openLogbook(logbook), defaultSettings, '2026-12-10'), 80)
    const logbook = logbookWithPlan()
    expect(shown(logbook)).toMatch(/^Week 50 of 2026[\s\S]*\n\nTen under forty\n129 days to 10 km in 39:30\n/)
    writeFileSync(join(logbook, 'plan.txt'), 'A\nfoo\n')
    expect(shown(logbook)).toMatch(
      /^Week 50 of 2026[\s\S]*\n\nplan\.txt, line 2: this line does not begin with race:/,
    )
    expect(shown(temporaryFolder())).toMatch(/\nSun 13 {2}-\n$/)
  })
})
