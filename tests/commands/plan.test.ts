import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { readPlan } from '../../src/plan/read.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keepOnPaper } from './onPaper.ts'
import { runOn, sixteen, sixteenWeeks } from './overWeeks.ts'
import { runProgram } from './runProgram.ts'

/** What the sixteen weeks print on their last day, Wednesday 25 November 2026. */
const weeks = sixteenWeeks()
const run = runOn(weeks)
const fourOther = sixteenWeeks({ ...sixteen, weeks: 4 })
const path = join(weeks, 'plan.txt')

const sample = `Ten under forty
race: 10 km in 39:30 on 2027-04-18
week: Mon pull, Tue track, Wed push, Thu tempo + legs, Sat legs, Sun long
2026-11-09: 20 km
2026-11-16: 60 km
2026-11-23: 42 km, "first week of threes" # mine
2027-04-05: taper
2027-04-12: race week
`

describe('pausebook plan', () => {
  it('plans from no running but that of the weeks before this one', async () => {
    const logbook = temporaryFolder()
    const ask = async () => (await runOn(logbook)(['plan', '--new'])).stderr
    const none = 'The four weeks before this one have too little running to plan from.'
    expect(await ask()).toContain(`${none} Record a week of running first, or write`)
    await keepOnPaper(logbook, 'Easy\nrun\n  5 km easy\n', '27:00\n', { date: '2026-11-24' })
    expect(await ask()).toContain(none)
  })

  it('ends with 3 if a session cannot be read, and shows the rest', async () => {
    const logbook = temporaryFolder()
    mkdirSync(join(logbook, 'sessions', '2026'), { recursive: true })
    writeFileSync(join(logbook, 'sessions', '2026', '2026-11-24-abcdef2345.json'), 'rubbish')
    writeFileSync(join(logbook, 'plan.txt'), sample)
    const { code, stdout, stderr } = await runOn(logbook)(['plan'])
    expect(code).toBe(3)
    expect(stdout).toContain('Ten under forty')
    expect(stderr).toContain('sessions/2026/2026-11-24-abcdef2345.json: The file is not JSON.')
  })

  it('refuses a number of weeks before it looks for running to plan from', async () => {
    const { code, stderr } = await runOn(temporaryFolder())(['plan', '--new', '--weeks', '0'])
    expect(code).toBe(2)
    expect(stderr).toBe('pausebook: Invalid number of weeks "0". Write 1 to 52, as in --weeks 12.\n')
  })

  it('writes a first plan from the last four weeks and the goal, never over another, and shows it', async () => {
    rmSync(path)
    const ran = await run(['plan', '--new'])
    expect(ran.code).toBe(0)
    expect(ran.stdout).toBe(readFileSync(path, 'utf8'))
    expect(ran.stdout).toContain('race: 10 km in 39:30 on 2027-04-18\n# week: Tue track, Thu tempo + legs')
    expect(ran.stdout).toContain('\n2027-04-12: race week  # 41-60 % less')
    const again = await run(['plan', '--new'])
    expect(again).toMatchObject({ code: 1, stdout: '' })
    expect(again.stderr).toContain('exists already and was left as it is. Move it away first.')
    expect(readFileSync(path, 'utf8')).toBe(ran.stdout)
    expect((await run(['plan'])).stdout).toContain('\n144 days to 10 km in 39:30\n')
  })

  it('counts no week before the first session, nor one of a break that is over, as one without running', async () => {
    const logbook = temporaryFolder()
    const keep = (date: string) => keepOnPaper(logbook, 'Easy\nrun\n  12 km easy\n', '60:00\n', { date })
    for (const date of ['2026-11-17', '2026-11-19']) await keep(date)
    const ask = async (today: string) => {
      const { stdout } = await runProgram(['plan', '--new'], { logbook, now: new Date(`${today}T08:00Z`) })
      rmSync(join(logbook, 'plan.txt'))
      return stdout
    }
    expect(await ask('2026-11-25')).toContain("# 24 km is last week's.")
    await keep('2026-10-01')
    expect(await ask('2026-11-25')).toContain("# 24 km is last week's.")
    expect(await ask('2026-12-02')).toContain('# 12 km is the mean of the last two weeks.')
  })

  it('counts running without a distance, which may be all there is, at easy pace', async () => {
    const logbook = temporaryFolder()
    const keep = (day: string, result: string, date: string) => keepOnPaper(logbook, day, result, { date })
    const plan = async () => {
      const { stdout } = await runOn(logbook)(['plan', '--new'])
      rmSync(join(logbook, 'plan.txt'))
      return stdout
    }
    await keep('Strides\nrun\n  6 x 20 s fast\n', '=\n', '2026-11-17')
    const { stderr } = await runOn(logbook)(['plan', '--new'])
    expect(stderr).toContain('have too little running to plan from')
    // 90 and 30 min at 6:00/km are 15 and 5 km.
    await keep('Long\nrun\n  90 min easy\n', '=\n', '2026-11-17')
    await keep('Easy\nrun\n  30 min easy\n', '=\n', '2026-11-18')
    expect(await plan()).toMatch(/# 20 km is last week's, running without.*\n.*: 20 km, long 15 km\n/)
    await keep('Easy\nrun\n  12 km easy\n', '60:00\n', '2026-11-19')
    expect(await plan()).toMatch(/: 32 km, long 15 km\n/)
  })

  it.each([
    ['2026-11-29', ['2026-11-23: race week']],
    ['2026-12-06', ['2026-11-23: taper', '2026-11-30: race week']],
    ['2026-12-07', ['2026-11-30: taper', '2026-12-07: race week']],
  ])(
    'begins with this week, of 23 November, if it is in the taper before a race on %s',
    async (race, lines) => {
      const logbook = temporaryFolder()
      const day = `Easy\ngoal: 10 km in 39:30 on ${race}\nrun\n  12 km easy\n`
      await keepOnPaper(logbook, day, '60:00\n', { date: '2026-11-17' })
      const { stdout } = await runOn(logbook)(['plan', '--new'])
      expect(stdout.match(/^2026.*(?= {2}#)/gm)).toEqual(lines)
    },
  )

  it('writes as many weeks as are asked for, up to the race', async () => {
    rmSync(path)
    const { stdout } = await run(['plan', '--new', '--weeks', '3'])
    expect(
      stdout
        .split('\n')
        .filter((line) => /^2027-/.test(line))
        .map((line) => line.slice(0, 10)),
    ).toEqual(['2027-03-29', '2027-04-05', '2027-04-12'])
    const reading = readPlan(stdout)
    expect(reading).not.toHaveProperty('problems')
  })

  it('shows planned and done week by week, with only the findings that apply', async () => {
    writeFileSync(path, sample)
    const { stdout, stderr } = await run(['plan'])
    expect(stderr).toBe('')
    expect(stdout).toMatch(/^ {2}9 Nov {4} 20 {2}/m)
    expect(stdout).toMatch(/^>23 Nov {4} 42 {2}/m)
    expect(stdout).toContain('1 week 20 % or more over the plan: 9 Nov.\n')
    expect(stdout).toContain('1 week 20 % or more under the plan: 16 Nov.\n')
    expect(stdout).toContain('Note: first week of threes\n')
    expect(stdout).toMatch(/5 Apr, taper: \d\d to \d\d km: 41-60 % less than the mean of 40/)
    const { stdout: narrow } = await run(['plan'], { columns: 40 })
    expect(Math.max(...narrow.split('\n').map((line) => line.length))).toBeLessThanOrEqual(40)
  })

  it('prints the same as JSON and draws it as SVG', async () => {
    const block = JSON.parse((await run(['plan', '--json'])).stdout)
    expect(block.race).toEqual({ meters: 10_000, seconds: 2370, date: '2027-04-18' })
    expect(block.weeks).toHaveLength(25)
    expect(block.weeks.filter((week: { done: unknown }) => week.done !== null)).toHaveLength(5)
    const { meanMeters, fromMeters, toMeters } = block.weeks.at(-1).planned.taper
    expect([fromMeters / meanMeters, toMeters / meanMeters]).toEqual([
      expect.closeTo(0.4, 9),
      expect.closeTo(0.59, 9),
    ])
    const { stdout } = await run(['plan', '--format', 'svg'])
    expect(stdout).toMatch(/^<svg [\s\S]*<\/svg>\n$/)
  })

  it('swaps two days of this week in its line and names the hard days that meet', async () => {
    const ran = await run(['plan', '--move', 'Thu', 'Fri'])
    expect(ran.stdout).toBe(
      'Week of 2026-11-23: Mon pull, Tue track, Wed push, Fri tempo + legs, Sat legs, Sun long\nHard days next to each other now: Fri (tempo + legs) and Sat (legs).\n',
    )
    expect(readFileSync(path, 'utf8')).toBe(
      sample.replace('threes" #', 'threes", Thu rest, Fri tempo + legs #'),
    )
    expect(readFileSync(`${path}.bak`, 'utf8')).toBe(sample)
  })

  it('names the hard day of the next week beside a day that moves to Sunday', async () => {
    writeFileSync(path, 'A\nweek: Mon legs, Sat tempo\n')
    expect((await run(['plan', '--move', 'Sat', 'Sun'])).stdout).toContain(
      'Hard days next to each other now: Sun (tempo) and Mon (legs).\n',
    )
  })

  it('writes nothing into the plan when neither day has a word to move', async () => {
    const text = 'A\nweek: Mon legs\n'
    writeFileSync(path, text)
    expect(await run(['plan', '--move', 'Thu', 'Fri'])).toMatchObject({
      code: 1,
      stderr: 'pausebook: The plan has nothing on Thu and Fri of this week. Write it there first.\n',
    })
    expect(readFileSync(path, 'utf8')).toBe(text)
  })

  it('leaves the race where it is, and moves no word of the block to a day after it or back', async () => {
    const text = 'A\nrace: 10 km in 39:30 on 2026-11-28\nweek: Thu legs, Sat tempo, Sun long\n'
    writeFileSync(path, text)
    expect(await run(['plan', '--move', 'Thu', 'Sat'])).toMatchObject({
      code: 1,
      stderr:
        'pausebook: The race is on 2026-11-28 and does not move. Write another date on line 2 of the plan.\n',
    })
    expect(readFileSync(path, 'utf8')).toBe(text)
    await run(['plan', '--move', 'Thu', 'Sun'])
    expect(readFileSync(path, 'utf8')).toBe(`${text}2026-11-23: Thu rest, Sun legs\n`)
  })

  it("compares the race on the plan's day with the plan's card, in summary, export and explain", async () => {
    const raced = openLogbook(weeks)
      .index()
      .find(({ brief }) => brief.title === 'Tuesday: 10 km race')
    if (!raced) throw new Error('the sixteen weeks have a race over 10 km')
    writeFileSync(path, `A\nrace: 10 km in 45:00 on ${raced.date}\n`)
    expect((await run(['summary', raced.id])).stdout).toMatch(/even card of the plan\s+4:30\/km: 1 km 4:30/)
    const card = (json: string) =>
      JSON.parse(json).running.items.find(({ goal }: { goal: object | null }) => goal).goal.card
    const shown = card((await run(['summary', raced.id, '--json'])).stdout)
    expect(shown.at(-1).cardSeconds).toBe(2700)
    const line = (await run(['export'])).stdout.split('\n').find((each) => each.includes(raced.id))
    expect(card(line ?? '')).toEqual(shown)
    rmSync(path)
    expect((await run(['summary', raced.id])).stdout).toMatch(/even card\s+3:57\/km: 1 km 3:57/)
  })

  it('keeps the line ends, the byte-order mark, the comments and the order of a plan that it writes to', async () => {
    const text =
      '\uFEFFA # mine\r\n\r\n# über\r\nweek: Thu tempo\r\n2026-11-23: 42 km # now\r\n2026-11-30: 40 km'
    writeFileSync(path, text)
    await run(['plan', '--move', 'Thu', 'Fri'])
    expect(readFileSync(path, 'utf8')).toBe(text.replace('42 km', '42 km, Thu rest, Fri tempo'))
    expect(readFileSync(`${path}.bak`, 'utf8')).toBe(text)
  })

  it('reports every problem of a plan with problems and changes nothing', async () => {
    const text = 'A\n2026-12-08: 45 km\nweek: Tue track, Tue legs\n'
    writeFileSync(path, text)
    for (const words of [['plan'], ['plan', '--move', 'Thu', 'Fri']]) {
      const ran = await run(words)
      expect(ran).toMatchObject({ code: 1, stdout: '' })
      expect(ran.stderr).toContain('The plan "plan.txt" has 2 problems.')
      expect(ran.stderr).toContain('Write 2026-12-07\n  2026-12-08: 45 km\n  ^^^^^^^^^^\n')
    }
    expect(readFileSync(path, 'utf8')).toBe(text)
  })

  it.each([
    [['plan', '--move', 'Thu'], '--move needs two different weekdays. Write plan --move Thu Fri.'],
    [['plan', '--move', 'Thu', 'Xyz'], '--move needs two different weekdays. Write plan --move Thu Fri.'],
    [['plan', '--new', '--weeks', '0'], 'Invalid number of weeks "0". Write 1 to 52, as in --weeks 12.'],
    [['plan', '--weeks', '4'], '--weeks needs --new. Write plan --new --weeks 12.'],
    [['plan', 'Thu'], 'plan takes no words without --move. Leave "Thu" out.'],
  ])('refuses %j and says what to write', async (words, message) => {
    const isNew = words.includes('--new')
    rmSync(join(fourOther, 'plan.txt'), { force: true })
    if (!isNew) writeFileSync(path, sample)
    const ran = await (isNew ? runOn(fourOther) : run)(words)
    expect(ran.stderr).toContain(message)
    expect(ran.code).not.toBe(0)
  })

  it('says on an empty logbook what a plan looks like, and writes nothing', async () => {
    const logbook = temporaryFolder()
    mkdirSync(logbook, { recursive: true })
    for (const words of [['plan'], ['plan', '--new']]) {
      const ran = await runOn(logbook)(words)
      expect(ran).toMatchObject({ code: 1, stdout: '' })
      expect(ran.stderr).toContain('race: 10 km in 39:30 on 2027-04-18\n')
    }
    expect(existsSync(join(logbook, 'plan.txt'))).toBe(false)
  })
})
