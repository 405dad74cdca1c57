import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { knownOn } from '../../src/app/known.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { recentPains } from '../../src/progress/pain.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keepOnPaper } from './onPaper.ts'
import { runProgram } from './runProgram.ts'

/* What `next` finds in a logbook, and how it prints its decisions. They are this program's own rules, each of which has
 * its tests in tests/progress. */

interface Situation {
  run?: string
  lift?: string
  goal?: string
  /** Each day: its date and the results, one after the other. */
  days: [date: string, results: string][]
  /** The day on which `next` is called; by default that of the last session. */
  today?: string
}

interface Answer {
  decisions: { item: string; decision: string; reason: string }[]
  text: string
  ids: string[]
  logbook: string
}

const evening = (date: string) => new Date(`${date}T20:00:00+01:00`)

/** What `next` prints about the newest of these days, kept on paper. */
async function next({ run, lift, goal, days, today }: Situation): Promise<Answer> {
  const logbook = temporaryFolder()
  const ids: string[] = []
  const parts = [run && `run: track\n  ${run}`, lift && `lift: legs\n  ${lift}`].filter(Boolean)
  for (const [date, results] of days) {
    const headers = `date: ${date}\nathlete: 68 kg\n${goal === undefined ? '' : `goal: ${goal}\n`}`
    const day = `Day\n${headers}\n${parts.join('\n\n')}\n`
    ids.push(await keepOnPaper(logbook, day, `${results.replaceAll(', ', '\n')}\n`))
  }
  const now = evening(today ?? days.at(-1)?.[0] ?? '')
  const { code, stdout, stderr } = await runProgram(['next', ids.at(-1) ?? '', '--json'], { logbook, now })
  expect([code, stderr]).toEqual([0, ''])
  return { ...JSON.parse(stdout), ids, logbook }
}

/** What `next` prints about the newest session of a logbook. */
async function printed(logbook: string, date = third): Promise<string> {
  return (await runProgram(['next'], { logbook, now: evening(date) })).stdout
}

/** The reason of the first decision about a session, asked on a day. */
async function reasonOn(today: string, logbook: string, id: string): Promise<string> {
  const { stdout } = await runProgram(['next', id, '--json'], { logbook, now: evening(today) })
  return JSON.parse(stdout).decisions[0].reason
}

const squat = 'front squat: 2 x 3 @ 92.5 kg, rest 2:30'
const [second, third] = ['2026-11-19', '2026-11-26'] as const
/** Two complete days, after which the load goes up. */
const twice: [string, string][] = [
  [second, '3 @8, 3 @8'],
  [third, '3 @8, 3 @8'],
]

/** The decision on a lift and its line, after two days with the same results. */
async function lifted(lift: string, results: string) {
  const { decisions, text } = await next({
    lift,
    days: [
      [second, results],
      [third, results],
    ],
  })
  return { ...decisions[0], line: text.trimEnd().split('\n').at(-1)?.trim() }
}

describe('pausebook next', () => {
  it('without a session takes the newest one that is closed, not the one under way', async () => {
    const { ids, logbook } = await next({ lift: squat, days: twice })
    await runProgram(['reopen', ids[1] ?? ''], { logbook })
    expect(await printed(logbook)).toContain(`# After ${second} (${ids[0]})`)
  })

  it('calls an easy run, a warm-up and timed work by its word too', async () => {
    const run = '10 min warm-up\n  2 km easy\n  3 x 3 min hard, jog 2 min'
    const { decisions } = await next({ run, days: [[third, '=, 12:00 pain "left knee 4", =, =, =']] })
    expect(decisions.map(({ item }) => item)).toEqual(['10:00 warm-up', '2 km easy', '3 x 3:00 hard'])
  })

  it('says that every line stays as it is where no rule applies', async () => {
    const { text } = await next({ run: '5 km easy', days: [[third, '27:00']] })
    expect(text).toContain('):\n# every line stays as it is\nDay\n')
  })

  it("adds nothing in the week of the plan's race", async () => {
    const { logbook } = await next({ lift: squat, days: twice })
    writeFileSync(join(logbook, 'plan.txt'), 'Block\nrace: 10 km in 39:30 on 2026-11-29\n')
    expect(await printed(logbook)).toContain('twice -> same load: race week')
  })

  it("adds nothing in the week of the race in the day's goal while the plan still has the last race", async () => {
    const { logbook } = await next({ lift: squat, goal: '5 km in 19:00 on 2026-11-29', days: twice })
    writeFileSync(join(logbook, 'plan.txt'), 'Block\nrace: 10 km in 39:30 on 2026-11-01\n')
    expect(await printed(logbook)).toContain('twice -> same load: race week')
  })

  it("adds nothing in the week of the race in the day's goal, if no plan has one, and adds again after it", async () => {
    const reasonWith = async (on: string) =>
      (await next({ lift: squat, goal: `10 km in 39:30 on ${on}`, days: twice })).decisions[0]?.reason
    expect(await reasonWith('2026-11-29')).toContain('twice -> same load: race week')
    expect(await reasonWith('2026-12-13')).toContain('twice -> 95 kg')
    expect(await reasonWith('2026-11-25')).toContain('twice -> 95 kg')
  })

  it('prints the decisions as comments, then the day as notation that can be read again', async () => {
    const { ids, logbook, text } = await next({ lift: squat, days: twice })
    expect(text).toBe(`# After 2026-11-26 (${ids[1]}):
# front squat: complete at 8, 8 on 92.5 kg twice -> 95 kg
Day
units: km kg
athlete: 68 kg

lift: legs
  # front squat: complete at 8, 8 on 92.5 kg twice -> 95 kg
  front squat 2 x 3 @ 95 kg, rest 2:30
`)
    expect('prescription' in readPrescription(text)).toBe(true)
    expect(await printed(logbook)).toBe(text)
    // Its earlier name.
    expect((await runProgram(['again'], { logbook, now: evening(third) })).stdout).toBe(text)
  })

  it('never proposes the old load after three sets at RPE 10, a pain in the back and five months away', async () => {
    const asked = await next({
      run: '4 x 500 m in 1:50-1:55, jog 200 m',
      lift: 'back squat: 3 x 5 @ 100 kg, rest 3:00',
      days: [['2026-06-20', '1:45, 1:45, 1:45, 1:45, 5 @10, 5 @10 pain "back", 5 @10']],
      today: '2026-11-26',
    })
    expect(asked.decisions).toEqual([
      {
        item: '4 x 500 m',
        decision: 'fewer',
        reason:
          'pain: back, 22 weeks since the last paced run -> half (was 4 x), no faster range, easy running first',
      },
      {
        item: 'back squat',
        decision: 'down',
        reason: 'pain: back, 22 weeks since the last time -> 20 % less load, 80 kg',
      },
    ])
    // Each changed line names the pain, so it has no line of its own.
    expect(asked.text).not.toContain('# pain: back\n')
    expect(asked.text).toContain('# A pain ends with 0: pausebook morning back 0\n')
  })

  it('changes nothing after pain in the chest or a note of faintness, not even the bench press', async () => {
    const bench = 'bench press: 2 x 3 @ 92.5 kg, rest 2:30'
    for (const [result, reason] of [
      ['3 @8 pain "chest"', 'pain: chest -> unchanged, see a doctor first'],
      ['3 @8 "fainted after it"', 'noted: fainted -> unchanged, see a doctor first'],
    ]) {
      const asked = await next({
        lift: bench,
        days: [
          [second, '3 @8, 3 @8'],
          [third, `3 @8, ${result}`],
        ],
      })
      expect(asked.decisions).toEqual([{ item: 'bench press', decision: 'same', reason }])
      expect(asked.text).toContain('  bench press 2 x 3 @ 92.5 kg')
    }
  })

  it('counts a sign noted in words on another day of the fortnight, and never that day as a good one', async () => {
    const days: [string, string][] = [
      [second, '3 @8, 3 @8 "chest tight and dizzy"'],
      [third, '3 @8, 3 @8'],
    ]
    const { logbook, ids } = await next({ lift: squat, days })
    const reason = (today: string) => reasonOn(today, logbook, ids[1] ?? '')
    expect(await reason('2026-11-27')).toMatch(/^noted: chest tight on .* -> unchanged, see a doctor first$/)
    await runProgram(['morning', 'chest tight 0, dizzy 0'], {
      logbook,
      now: new Date('2026-11-27T07:00:00+01:00'),
    })
    expect(await reason('2026-11-27')).toContain('same, once more')
  })

  it('counts a pain noted on another day of the fortnight, until a 0 ends it', async () => {
    const { logbook, ids } = await next({ lift: squat, days: twice })
    const other = (date: string, pain: string) =>
      keepOnPaper(logbook, 'Easy\nrun\n  5 km easy\n', `27:00 pain "${pain}"\n`, { date })
    const reason = (today: string) => reasonOn(today, logbook, ids[1] ?? '')
    expect(await reason('2026-11-27')).toContain('-> 95 kg')
    await other('2026-11-20', 'left knee 3')
    expect(await reason('2026-11-27')).toBe('left knee: pain 3 on Fri 20 Nov -> unchanged')
    await other('2026-11-27', 'left knee 5')
    expect(await reason('2026-11-28')).toBe('left knee: pain 5 on Fri 27 Nov -> unchanged')
    await other('2026-11-28', 'left knee 0')
    // The newest day was done while it lasted.
    expect(await reason('2026-11-28')).toContain('once -> same, once more')
  })

  it('keeps a long run only after one half as long, also of one whose distance nobody knows', async () => {
    const { logbook, ids } = await next({ run: '16 km easy', days: [['2026-10-20', '1:30:00']] })
    const afterJog = async (minutes: number) => {
      const files = { 'day.txt': `Jog\nrun\n  ${minutes} min easy\n`, 'results.txt': '=\n' }
      await runProgram(['backfill', 'day.txt', 'results.txt', '--date', '2026-11-23'], { files, logbook })
      const now = new Date(`${third}T20:00:00+01:00`)
      return (await runProgram(['next', ids[0] ?? ''], { logbook, now })).stdout
    }
    expect(await afterJog(20)).toContain('5 weeks since the last run half as long -> half (was 16 km)')
    // 50 min are 8.3 km at 6:00/km.
    expect(await afterJog(50)).toContain('every line stays as it is')
  })

  it('names the lines that do not fit into six, so that nothing is silent', async () => {
    const names = ['bench press', 'front squat', 'dip', 'pull-up', 'row', 'lunge', 'deadlift']
    const lift = names.map((name) => `${name}: 1 x 3 @ 40 kg`).join('\n  ')
    const { logbook } = await next({ lift, days: [[third, names.map(() => '3').join(', ')]] })
    const comments = (await printed(logbook)).split('\n').filter((line) => line.startsWith('#'))
    expect(comments).toHaveLength(8)
    expect(comments.at(-1)).toBe('# and 1 line unchanged: deadlift')
  })

  it('names every pain, also one that leaves no line unchanged by itself', async () => {
    const { logbook } = await next({
      run: '5 km easy',
      lift: 'front squat: 1 x 3 @ 90 kg',
      days: [[third, 'start: 06:40, 27:00 pain "left calf 2", 3 pain "right knee 6"']],
    })
    expect(await printed(logbook)).toContain(
      '# left calf: pain 2 -> running and leg lifts unchanged\n# right knee: pain 6\n',
    )
  })

  it('counts a pain that goes on in the morning, and a sign that needs a doctor; soreness changes nothing', async () => {
    const { logbook } = await next({ lift: squat, days: [[third, '3 @8, 3 @8 pain "left calf 4"']] })
    const after = async (...morning: string[]) => {
      const at = (time: string) => ({ logbook, now: new Date(`2026-11-28T${time}:00+01:00`) })
      await runProgram(['morning', ...morning], at('07:00'))
      const { stdout } = await runProgram(['next', '--json'], at('20:00'))
      return JSON.parse(stdout).decisions[0]?.reason
    }
    expect(await after('legs', '3')).toBe('left calf: pain 4 -> unchanged')
    expect(await after('left', 'calf', '2')).toBe('left calf: pain 2 on Sat 28 Nov -> unchanged')
    expect(await after('left', 'calf', '0')).toBeUndefined()
    expect(await after('chest', 'pain', '5')).toBe(
      'chest: pain 5 on Sat 28 Nov -> unchanged, see a doctor first',
    )
  })

  it('says once what a pain leaves unchanged, and a 0 on the morning of the same day ends it', async () => {
    const { logbook } = await next({
      run: '2 x 500 m in 1:50-1:55, jog 200 m',
      lift: 'front squat: 1 x 3 @ 90 kg\n  deadlift: 1 x 3 @ 90 kg\n  pull-up: 1 x 3 @ bodyweight',
      days: [[third, 'start: 06:40, 1:52, 1:52 pain "left calf 4", 3, 3, 3 pain "left elbow 2"']],
    })
    const comments = async () => {
      const lines = (await printed(logbook)).split('\n')
      return lines.filter((line) => line.startsWith('#')).slice(1)
    }
    const elbow = '# left elbow: pain 2 -> pull-up unchanged'
    expect(await comments()).toEqual([
      '# left calf: pain 4 -> running and leg lifts unchanged',
      elbow,
      '# A pain ends with 0: pausebook morning left calf 0',
    ])
    const typed = async (time: string) =>
      runProgram(['morning', 'left', 'calf', '0'], { logbook, now: new Date(`2026-11-26T${time}:00+01:00`) })
    // The first screen and the question at the start of a day speak of the same pains.
    const asked = () =>
      recentPains(knownOn(openLogbook(logbook), defaultSettings, '2026-11-27').pains, '2026-11-27').map(
        ({ place }) => place,
      )
    await typed('06:00')
    expect((await comments())[0]).toContain('left calf: pain 4')
    expect(asked()).toEqual(['left calf', 'left elbow'])
    await typed('19:00')
    expect((await comments()).join()).not.toContain('left calf')
    expect(asked()).toEqual(['left elbow'])
    expect(await comments()).toContain('# A pain ends with 0: pausebook morning left elbow 0')
  })

  it('knows dumbbells in steps of 2 kg by their load', async () => {
    const line = 'dumbbell bench press: 1 x 8 @ 2x24 kg'
    expect((await lifted(line, '8 @8')).line).toBe('dumbbell bench press 1 x 9 @ 2x24 kg')
    const rows = await lifted('dumbbell row: 1 x 8 each arm @ 44 kg', '8 @8')
    expect(rows.line).toBe('dumbbell row 1 x 8 each arm @ 46 kg')
  })

  it('never loads a kettlebell with plates: after 24 kg comes 28, which is too far, so a repetition more', async () => {
    const { reason, line } = await lifted('goblet squat: 1 x 8 @ 24 kg', '8 @8')
    expect(line).toBe('goblet squat 1 x 9 @ 24 kg')
    expect(reason).toBe('complete at 8 on 24 kg twice; the next load is too big a jump -> one rep more, 9')
    const away = await next({
      lift: 'kettlebell swing: 1 x 10 @ 32 kg',
      days: [[third, '10']],
      today: '2026-12-31',
    })
    expect(away.text).toContain('kettlebell swing 1 x 10 @ 28 kg')
  })

  it('raises a lift for each arm by the steps of dumbbells, not of a bar', async () => {
    const logbook = temporaryFolder()
    for (const date of [second, third]) {
      const day = `Day\ndate: ${date}\nbar: 21.5 kg\n\nlift\n  row 1 x 8 each arm @ 50 kg\n`
      await keepOnPaper(logbook, day, '8 @8\n')
    }
    expect(await printed(logbook)).toContain('row 1 x 8 each arm @ 52.5 kg')
  })

  it('knows how many repetitions were added before sixty sessions of something else', async () => {
    const logbook = temporaryFolder()
    const row = (date: string, reps: number) => `${date},${date},row,each arm,${reps},22.5,kg,pair`
    const others = Array.from({ length: 60 }, (_, number) => `${number},2026-11-15,dip,,8,,,`)
    const rows = [row('2026-11-01', 8), row('2026-11-02', 9), ...others]
    rows.push(row('2026-11-20', 10), row('2026-11-21', 10))
    const table = ['session,date,exercise,side,reps,load,unit,load_kind', ...rows].join('\n')
    await runProgram(['import', 'table.csv'], { files: { 'table.csv': table }, logbook })
    const { stdout } = await runProgram(['next', '2026-11-21'], { logbook, now: evening('2026-11-21') })
    expect(stdout).toContain(
      'row: complete on 2x22.5 kg twice; no next load within 10 % -> one set more, 2 x 8\n',
    )
  })

  it('includes the body in a bodyweight lift: 1.25 kg on 78 kg is too little, 2.5 kg is 3 %', async () => {
    const line = 'pull-up 2 x 6 @ bodyweight+10 kg + dip 2 x 8 @ bodyweight, pause 20 s, rest 1:30'
    expect((await lifted(line, '6, 8, 6, 8')).line).toBe(
      'pull-up 2 x 6 @ bodyweight+12.5 kg + dip 2 x 8 @ bodyweight+2.5 kg, pause 20 s, rest 1:30',
    )
  })

  it('says that there is no session', async () => {
    const none = await runProgram(['next'], { logbook: temporaryFolder() })
    expect(none).toMatchObject({
      code: 1,
      stdout: '',
      stderr: expect.stringContaining('no session in the logbook'),
    })
  })

  it('continues past a damaged session', async () => {
    const { logbook } = await next({ lift: squat, days: [['2026-11-12', '3, 3'], ...twice] })
    writeFileSync(openLogbook(logbook).list()[1]?.path ?? '', '{"format": 99}')
    const ran = await runProgram(['next'], { logbook, now: evening(third) })
    // The damaged session could have changed the decision.
    expect(ran.code).toBe(3)
    expect(ran.stderr).toContain('has format 99')
    expect(ran.stdout).toContain('complete at 8, 8 on 92.5 kg twice -> 95 kg')
  })
})
