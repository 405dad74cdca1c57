import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keepOnPaper } from './onPaper.ts'
import { runProgram } from './runProgram.ts'

const now = new Date('2026-11-26T20:00:00+01:00')

function readyDay(logbook: string, name: string, text: string): void {
  mkdirSync(join(logbook, 'prescriptions'), { recursive: true })
  writeFileSync(join(logbook, 'prescriptions', name), text)
}

const keep = (logbook: string, day: string, results: string) => keepOnPaper(logbook, day, results, { now })

const thursday = `Thursday
date: 2026-11-26

run: track
  2 km easy
  2 x 500 m @ 3:35-3:45/km, jog 200 m

lift: legs
  front squat: 2 x 3 @ 92.5 kg, rest 2:30
`
const kept = `start: 06:40
=
[06:58] 1:49.2
[07:02] 1:48
[07:40] 3 @8
[07:50] 3 @8
run: effort 8, 22 min
lift: effort 7, 20 min
`

describe('pausebook week', () => {
  it('does not call an unfinished session done', async () => {
    const logbook = temporaryFolder()
    await keep(logbook, thursday, kept)
    await runProgram(['reopen', 'newest'], { logbook, now })
    expect((await runProgram(['week'], { logbook, now })).stdout).toContain('Thu 26  open   Thursday\n')
  })

  it('leaves out hard running of less than half a minute, which would read as 0 min', async () => {
    const logbook = temporaryFolder()
    await keep(logbook, 'Thursday\ndate: 2026-11-26\n\nrun\n  20 s hard\n', '=\n')
    const { stdout } = await runProgram(['week'], { logbook, now })
    expect(stdout).toContain('done   Thursday\n')
    expect(stdout).not.toContain('hard')
  })

  it('shows the days done and the days prepared of a week on one page', async () => {
    const logbook = temporaryFolder()
    await runProgram(['settings', 'rotation', 'legs, push, pull'], { logbook, now })
    await keep(logbook, thursday, kept)
    readyDay(logbook, 'thursday.txt', thursday)
    readyDay(logbook, 'friday.txt', 'Friday tempo\ndate: 2026-11-27\n\nrun\n  8 km tempo\n')
    readyDay(logbook, 'next.txt', 'Next week\ndate: 2026-11-30\n\nrun\n  8 km easy\n')
    readyDay(logbook, 'push.txt', 'Push\n\nlift: push\n  bench 3 x 8 @ 60 kg\n')
    readyDay(logbook, 'broken.txt', 'Broken\n\nrun\n  8 km @ 4:75\n')
    const ran = await runProgram(['week'], { logbook, now })
    expect(ran.stderr).toBe('')
    expect(ran.code).toBe(0)
    expect(ran.stdout).toBe(`Week 48 of 2026: Mon 23 Nov to Sun 29 Nov 2026

Mon 23  -
Tue 24  -
Wed 25  -
Thu 26  done   Thursday
               3.2 km, 1 km of it hard, 2 sets, 2 of them heavy for the legs, 42 min
Fri 27  ready  Friday tempo
               8 km, 8 km of it hard, about 48 min
Sat 28  -
Sun 29  -
no date ready  Push
               3 sets, about 5 min
no date broken.txt has problems: "pausebook check" shows them

Running: 3.2 km (1 km of it hard) done, 8 km (8 km of it hard) ready.
Heavy legs: Thu 26.
Fri 27: hard running on the day after heavy legs.
Due next: push (legs was done on Thu 26 Nov).
`)
  })

  it('says once that a race or a long easy run was on the day after heavy legs, and names the failed squat, not the light split squats', async () => {
    const logbook = temporaryFolder()
    const legs = (date: string) =>
      `Legs\ndate: ${date}\nmax: back squat 130 kg\nlift\n  back squat: 1 x 3 @ 100 kg\n  split squat: 1 x 8 @ 2x16 kg\n`
    await keep(logbook, legs('2026-11-23'), '2!\n8 @6\n')
    await keep(logbook, 'Race\ndate: 2026-11-24\nrun\n  5 km race\n', '19:30\n')
    await keep(logbook, legs('2026-11-25'), '2!\n8 @6\n')
    await keep(logbook, 'Long\ndate: 2026-11-26\nrun\n  18 km easy\n', '1:40:00\n')
    const { stdout } = await runProgram(['week'], { logbook, now })
    expect(stdout).toContain('Heavy legs: Mon 23, Wed 25.\n')
    expect(stdout.match(/the day after heavy legs/g)).toHaveLength(2)
    expect(stdout).toContain('Tue 24: a race on the day after heavy legs.\n')
    expect(stdout).toContain('Thu 26: a long run on the day after heavy legs.\n')
    const { days } = JSON.parse((await runProgram(['week', '--json'], { logbook, now })).stdout)
    expect(days[0].done[0].heavyLegSets).toBe(1)
  })

  it("has the prepared days of a date in the order of the plan's words", async () => {
    const logbook = temporaryFolder()
    readyDay(logbook, 'legs.txt', 'Heavy legs\n\nlift\n  front squat 2 x 3 @ 90 kg\n')
    readyDay(logbook, 'tempo.txt', 'Tempo run\n\nrun\n  8 km tempo\n')
    writeFileSync(join(logbook, 'plan.txt'), 'Block\nweek: Sun tempo + legs\n')
    const { days } = JSON.parse((await runProgram(['week', '--json'], { logbook, now })).stdout)
    const titles = days[6].ready.map(({ title }: { title: string }) => title)
    expect(titles).toEqual(['Tempo run', 'Heavy legs'])
  })

  it('leaves to the plan what its words, and the day files named after them, have just before the race', async () => {
    const logbook = temporaryFolder()
    readyDay(logbook, 'legs.txt', 'Light legs\n\nlift\n  front squat 2 x 8 @ 40 kg\n')
    const heavy = 'max: front squat 100 kg\n\nlift\n  front squat 3 x 3 @ 90 kg\n'
    readyDay(logbook, 'garage.txt', `Garage\n${heavy}`)
    const before = async (words: string) => {
      const plan = `Block\nrace: 10 km in 39:30 on 2026-11-29\nweek: Sat ${words}\n`
      writeFileSync(join(logbook, 'plan.txt'), plan)
      const { stdout } = await runProgram(['plan'], { logbook, now })
      return stdout.match(/.* before the race\.$/gm)
    }
    expect(await before('legs + easy')).toBeNull()
    expect(await before('squats + easy')).toEqual(['28 Nov: squats on the day before the race.'])
    expect(await before('garage + legs')).toEqual(['28 Nov: garage on the day before the race.'])
  })

  it('says that a plan cannot be read, and shows the week without it', async () => {
    const logbook = temporaryFolder()
    const without = await runProgram(['week'], { logbook, now })
    writeFileSync(join(logbook, 'plan.txt'), 'Block\nsomeday\n')
    const { code, stdout, stderr } = await runProgram(['week'], { logbook, now })
    expect({ code, stdout }).toEqual({ code: 0, stdout: without.stdout })
    expect(stderr).toMatch(
      /^pausebook: plan\.txt, line 2: .*\. "pausebook plan" shows every problem\. The week is shown without it\.\n$/,
    )
  })

  it('ends with 3 if the mornings cannot be read, as every command that uses them', async () => {
    const logbook = temporaryFolder()
    await keep(logbook, thursday, kept)
    mkdirSync(join(logbook, 'mornings'))
    writeFileSync(join(logbook, 'mornings', '2026.json'), 'rubbish')
    for (const words of [['week'], ['progress', 'pain'], ['progress', 'body'], ['summary'], ['next']]) {
      const { code, stderr } = await runProgram(words, { logbook, now })
      expect({ code, stderr }).toEqual({
        code: 3,
        stderr: expect.stringMatching(/^pausebook: mornings\/2026\.json: The file is not JSON\. [^\n]*\n$/),
      })
    }
  })

  it('has a line for the pains of the week, before the figures', async () => {
    const logbook = temporaryFolder()
    await keep(logbook, 'Easy\ndate: 2026-11-22\n\nrun\n  5 km easy\n', '27:00 pain "shin 7"\n')
    await keep(logbook, thursday, kept.replace('1:48\n', '1:48 pain "left calf 3"\n'))
    const ran = await runProgram(['week'], { logbook, now })
    expect(ran.stdout).toContain('\n\nPain: left calf 3 on Thu 26.\nRunning: ')
    const { pain } = JSON.parse((await runProgram(['week', '--json'], { logbook, now })).stdout)
    expect(pain).toMatchObject([{ place: 'left calf', days: [{ date: '2026-11-26', levels: [3] }] }])
  })

  it('has a sign that needs a doctor from the week before, until a 0 ends it', async () => {
    const logbook = temporaryFolder()
    const week = async (...words: string[]) => (await runProgram(['week', ...words], { logbook, now })).stdout
    await keep(logbook, 'Easy\ndate: 2026-11-21\n\nrun\n  5 km easy\n', '27:00 pain "dizzy"\n')
    await keep(logbook, thursday, kept)
    expect(await week()).toContain(
      '\n\nSee a doctor before you train again: dizzy. Pain: dizzy on Sat 21.\nRunning: ',
    )
    expect(await week('2026-11-14')).not.toContain('dizzy')
    await keep(logbook, 'Easy\ndate: 2026-11-22\n\nrun\n  5 km easy\n', '27:00 pain "dizzy 0"\n')
    expect(await week()).not.toContain('dizzy')
  })

  it('accepts any day of the week, in ISO 8601 weeks from Monday to Sunday', async () => {
    const logbook = temporaryFolder()
    const head = async (date: string) => (await runProgram(['week', date], { logbook })).stdout.split('\n')[0]
    // ISO 8601: week 1 is the one with the year's first Thursday.
    expect(await head('2026-12-31')).toBe('Week 53 of 2026: Mon 28 Dec to Sun 3 Jan 2027')
    expect(await head('2027-01-03')).toBe('Week 53 of 2026: Mon 28 Dec to Sun 3 Jan 2027')
    expect(await head('2027-01-04')).toBe('Week 1 of 2027: Mon 4 Jan to Sun 10 Jan 2027')
  })

  it('accepts the week as ISO 8601 writes it and as --json prints it, but no 53rd week of a year with 52', async () => {
    const week = (text: string) => runProgram(['week', text], { logbook: temporaryFolder() })
    expect((await week('2026-W53')).stdout).toContain('Week 53 of 2026: Mon 28 Dec to Sun 3 Jan 2027\n')
    expect((await week('2027-W01')).stdout).toContain('Week 1 of 2027: Mon 4 Jan to Sun 10 Jan 2027\n')
    for (const none of ['2027-W53', '2027-W00', '2027-W54'])
      expect(await week(none)).toMatchObject({ code: 2, stderr: expect.stringContaining('as in 2026-W48') })
  })

  it('prints JSON in SI units with --json', async () => {
    const logbook = temporaryFolder()
    await keep(logbook, thursday, kept)
    readyDay(logbook, 'friday.txt', 'Friday tempo\ndate: 2026-11-27\n\nrun\n  8 km tempo\n')
    const week = JSON.parse((await runProgram(['week', '2026-11-23', '--json'], { logbook, now })).stdout)
    expect(week.week).toBe('2026-W48')
    expect(week.days.map((day: { date: string }) => day.date)).toEqual([
      '2026-11-23',
      '2026-11-24',
      '2026-11-25',
      '2026-11-26',
      '2026-11-27',
      '2026-11-28',
      '2026-11-29',
    ])
    expect(week.days[3].done[0]).toMatchObject({
      title: 'Thursday',
      meters: 3200,
      hardMeters: 1000,
      hardSeconds: 0,
      sets: 2,
      heavyLegSets: 2,
      minutes: 42,
    })
    expect(week.days[4].ready[0]).toMatchObject({ file: 'friday.txt', meters: 8000 })
    expect(week.afterHeavyLegs).toEqual([{ date: '2026-11-27', what: 'hard running' }])
    expect(week.due).toBeNull()
  })

  it('has no line about running in a week of lifting alone, unless there is a plan', async () => {
    const logbook = temporaryFolder()
    await keep(logbook, 'Push\ndate: 2026-11-26\n\nlift\n  bench 1 x 8 @ 60 kg\n', '8\n')
    expect((await runProgram(['week'], { logbook, now })).stdout).not.toContain('Running')
    writeFileSync(join(logbook, 'plan.txt'), 'Block\nweek: Sun long\n')
    expect((await runProgram(['week'], { logbook, now })).stdout).toContain('Running: 0 km done.\n')
  })

  it('has the weekdays of the plan now, also before the first week that it dates, but not in a week that is over', async () => {
    const logbook = temporaryFolder()
    writeFileSync(join(logbook, 'plan.txt'), 'Block\nweek: Sun long\n2026-12-14: taper\n')
    const week = async (date: string) => (await runProgram(['week', date], { logbook, now })).stdout
    expect(await week('2026-11-26')).toContain('plan   long')
    expect(await week('2026-11-19')).not.toContain('long')
  })

  it('prints a page for an empty logbook too', async () => {
    const ran = await runProgram(['week'], { logbook: temporaryFolder(), now })
    expect(ran.code).toBe(0)
    expect(ran.stdout).toMatch(/\nSun 29 {2}-\n/)
  })

  it('refuses an invalid date', async () => {
    expect(await runProgram(['week', '26.11.'], { now })).toEqual({
      code: 2,
      stdout: '',
      stderr:
        'pausebook: Invalid date "26.11.". Write any day of the week, as in 2026-11-26, or the week, as in 2026-W48.\n',
    })
  })

  it('refuses the week in which the calendar ends', async () => {
    const ran = await runProgram(['week', '9999-12-31'], { logbook: '/nowhere/logbook' })
    expect(ran.code).toBe(2)
    expect(ran.stderr).toBe(
      'pausebook: The week of 9999-12-31 ends after the year 9999. Write any day of the week, as in 2026-11-26, or the week, as in 2026-W48.\n',
    )
  })

  it('counts all hard days in a row, also those before the week', async () => {
    const logbook = temporaryFolder()
    for (const day of [18, 19, 20, 21, 22, 23])
      await keep(logbook, `Day ${day}\ndate: 2026-11-${day}\n\nrun\n  5 km hard\n`, '20:00\n')
    const { stdout } = await runProgram(['week', '2026-W48'], { logbook, now })
    expect(stdout).toContain('Mon 23: six hard days in a row.')
  })
})
