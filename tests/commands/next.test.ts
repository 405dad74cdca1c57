import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { knownOn } from '../../src/app/known.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { recentPains } from '../../src/progress/pain.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

/* The rules of `next`, each with its situation. They are this program's own rules. */

interface Situation {
  run?: string
  lift?: string
  goal?: string
  /** Each day: its date and the results, one after the other. */
  days: [date: string, results: string][]
  /** The day on which `next` is called; by default that of the last session. */
  today?: string
}

interface Prompt {
  decisions: { item: string; decision: string; reason: string }[]
  text: string
  ids: string[]
  logbook: string
}

/** What `next` prints about the newest of these days, kept on paper. */
async function next({ run, lift, goal, days, today }: Situation): Promise<Prompt> {
  const logbook = temporaryFolder()
  const ids: string[] = []
  const parts = [run && `run: track\n  ${run}`, lift && `lift: legs\n  ${lift}`].filter(Boolean)
  for (const [date, results] of days) {
    const headers = `date: ${date}\nathlete: 68 kg\n${goal === undefined ? '' : `goal: ${goal}\n`}`
    const day = `Day\n${headers}\n${parts.join('\n\n')}\n`
    const files = { 'day.txt': day, 'results.txt': `${results.replaceAll(', ', '\n')}\n` }
    const ran = await runProgram(['backfill', 'day.txt', 'results.txt'], { files, logbook })
    if (ran.code !== 0) throw new Error(ran.stderr)
    ids.push(ran.stdout.trim())
  }
  const now = new Date(`${today ?? days.at(-1)?.[0]}T20:00:00+01:00`)
  const ran = await runProgram(['next', ids.at(-1) ?? '', '--json'], { logbook, now })
  expect(ran.stderr).toBe('')
  expect(ran.code).toBe(0)
  return { ...JSON.parse(ran.stdout), ids, logbook }
}

const squat = 'front squat: 2 x 3 @ 92.5 kg, rest 2:30'
const [first, second, third] = ['2026-11-12', '2026-11-19', '2026-11-26']

async function lifted(lift: string, ...results: string[]) {
  const dates = [first, second, third].slice(-results.length)
  const asked = await next({ lift, days: results.map((result, at) => [dates[at] ?? '', result]) })
  return {
    ...asked.decisions[0],
    line: asked.text
      .split('\n')
      .filter((line) => line !== '')
      .at(-1)
      ?.trim(),
  }
}

describe('pausebook next', () => {
  it('without a session takes the newest one that is closed, not the one under way', async () => {
    const { ids, logbook } = await next({
      lift: squat,
      days: [
        [second, '3 @8, 3 @8'],
        [third, '3 @8, 3 @8'],
      ],
    })
    await runProgram(['reopen', ids[1] ?? ''], { logbook })
    expect((await runProgram(['next'], { logbook })).stdout).toContain(`# After ${second} (${ids[0]})`)
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

  it('adds nothing in the race week of the plan', async () => {
    const days: [string, string][] = [
      [second, '3 @8, 3 @8'],
      [third, '3 @8, 3 @8'],
    ]
    const { ids, logbook } = await next({ lift: squat, days })
    writeFileSync(join(logbook, 'plan.txt'), 'Block\nrace: 10 km in 39:30 on 2026-11-29\n')
    const now = new Date(`${third}T20:00:00+01:00`)
    const { stdout } = await runProgram(['next', ids.at(-1) ?? ''], { logbook, now })
    expect(stdout).toContain('twice -> same load: race week')
  })

  it("adds nothing in the week of the race in the day's goal while the plan still has the last race", async () => {
    const days: [string, string][] = [
      [second, '3 @8, 3 @8'],
      [third, '3 @8, 3 @8'],
    ]
    const { ids, logbook } = await next({ lift: squat, goal: '5 km in 19:00 on 2026-11-29', days })
    writeFileSync(join(logbook, 'plan.txt'), 'Block\nrace: 10 km in 39:30 on 2026-11-01\n')
    const now = new Date(`${third}T20:00:00+01:00`)
    const { stdout } = await runProgram(['next', ids.at(-1) ?? ''], { logbook, now })
    expect(stdout).toContain('twice -> same load: race week')
  })

  it("adds nothing in the week of the race in the day's goal, if no plan has one, and adds again after it", async () => {
    const days: [string, string][] = [
      [second, '3 @8, 3 @8'],
      [third, '3 @8, 3 @8'],
    ]
    const reasonWith = async (on: string) =>
      (await next({ lift: squat, goal: `10 km in 39:30 on ${on}`, days })).decisions[0]?.reason
    expect(await reasonWith('2026-11-29')).toContain('twice -> same load: race week')
    expect(await reasonWith('2026-12-13')).toContain('twice -> 95 kg')
    expect(await reasonWith('2026-11-25')).toContain('twice -> 95 kg')
  })

  it('prints the decisions as comments, then the day as notation that can be read again', async () => {
    const { ids, logbook, text } = await next({
      lift: squat,
      days: [
        [second, '3 @8, 3 @8'],
        [third, '3 @8, 3 @8.5'],
      ],
    })
    expect(text).toBe(`# After 2026-11-26 (${ids[1]}):
# front squat: complete at 8, 8.5 on 92.5 kg twice -> 95 kg
Day
units: km kg
athlete: 68 kg

lift: legs
  # front squat: complete at 8, 8.5 on 92.5 kg twice -> 95 kg
  front squat 2 x 3 @ 95 kg, rest 2:30
`)
    expect('prescription' in readPrescription(text)).toBe(true)
    const now = new Date('2026-11-26T20:00:00+01:00')
    expect((await runProgram(['next'], { logbook, now })).stdout).toBe(text)
    // Its earlier name.
    expect((await runProgram(['again'], { logbook, now })).stdout).toBe(text)
  })

  it('asks for one more after one complete day', async () => {
    expect(await lifted(squat, '3, 3')).toMatchObject({
      decision: 'same',
      reason: 'complete on 92.5 kg once -> same, once more',
    })
  })

  it.each([
    ['a day that was complete after one that was missed', '3, 2', '3, 3'],
    ['an effort above 8.5 where none is written', '3 @9, 3 @9', '3 @9, 3 @9'],
    ['a set that was not tried', '3, 3', '3, -'],
  ])('keeps the load after %s', async (_, ...results) => {
    expect((await lifted(squat, ...results)).line).toBe('front squat 2 x 3 @ 92.5 kg, rest 2:30')
  })

  it('keeps the load after one failed day and takes 5 % off after two at the same load', async () => {
    expect(await lifted(squat, '3, 3', '3, 2!')).toMatchObject({
      decision: 'same',
      reason: '3, 2 failed -> same load, aim for 3',
    })
    expect(await lifted(squat, '2!, 3', '3, 2!')).toMatchObject({
      decision: 'down',
      reason: '3, 2 failed, twice at 92.5 kg -> 5 % less, 87.5 kg',
      line: 'front squat 2 x 3 @ 87.5 kg, rest 2:30',
    })
  })

  it('takes a lighter load than prescribed neither as missed nor as complete', async () => {
    expect(await lifted(squat, '3 x 90, 3', '3 x 90, 3')).toEqual({
      line: 'front squat 2 x 3 @ 92.5 kg, rest 2:30',
    })
  })

  it('asks for fewer repetitions if the next lighter load is more than 10 % away', async () => {
    expect(await lifted('curl: 2 x 10 @ 2x10 kg', '9, 9', '9, 9')).toMatchObject({
      decision: 'fewer',
      line: 'curl 2 x 8 @ 2x10 kg',
    })
  })

  it('blames the run for a squat that failed after repeats faster than prescribed', async () => {
    const day = (times: string) => `${times}, 3, 2!`
    const asked = await next({
      run: '3 x 500 m in 1:50-1:55, jog 200 m',
      lift: squat,
      days: [
        [second, day('1:40, 1:41, 1:40 rpe 9')],
        [third, day('1:40, 1:41, 1:40 rpe 9')],
      ],
    })
    expect(asked.decisions).toEqual([
      {
        item: '3 x 500 m',
        decision: 'same',
        reason: '3 of 3 faster than the range at effort 9 -> run the written range',
      },
      {
        item: 'front squat',
        decision: 'same',
        reason: '3, 2 failed after a hard run -> unchanged, run the written pace first',
      },
    ])
  })

  it('takes off 10 % after 3 weeks away and 20 % after 8, whatever happened before', async () => {
    const days: [string, string][] = [
      [second, '3 @8, 3 @8'],
      [third, '3 @8, 3 @8'],
    ]
    const after = async (today: string) => (await next({ lift: squat, days, today })).decisions[0]
    expect(await after('2026-12-31')).toMatchObject({
      decision: 'down',
      reason: '5 weeks since the last time -> 11 % less load, 82.5 kg',
    })
    expect(await after('2027-04-26')).toMatchObject({
      decision: 'down',
      reason: '21 weeks since the last time -> 19 % less load, 75 kg',
    })
  })

  it('takes the load that is nearest to 10 % less: 42.5 kg becomes 37.5, and a dumbbell of 8 kg 7.5', async () => {
    const after = async (lift: string) =>
      (await next({ lift, days: [[third, '8 @8']], today: '2026-12-31' })).decisions[0]
    expect(await after('bench press: 1 x 8 @ 42.5 kg')).toMatchObject({
      reason: '5 weeks since the last time -> 12 % less load, 37.5 kg',
    })
    expect(await after('curl: 1 x 8 @ 2x8 kg')).toMatchObject({
      reason: '5 weeks since the last time -> 6 % less load, 2x7.5 kg',
    })
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

  it('does not blame the run for a bench press', async () => {
    const asked = await next({
      run: '3 x 500 m in 1:50-1:55, jog 200 m',
      lift: 'bench press: 2 x 3 @ 90 kg, rest 2:00',
      days: [[third, '1:40, 1:41, 1:40 rpe 7, 3, 2!']],
    })
    expect(asked.decisions[1]).toMatchObject({
      item: 'bench press',
      decision: 'same',
      reason: '3, 2 failed -> same load, aim for 3',
    })
  })

  it('halves the repeats after 3 weeks away', async () => {
    const asked = await next({
      run: '6 x 500 m in 1:50-1:55, jog 200 m',
      days: [[third, '1:52, 1:52, 1:52, 1:52, 1:52, 1:52 rpe 7']],
      today: '2027-02-01',
    })
    expect(asked.decisions[0]).toMatchObject({
      decision: 'fewer',
      reason: '9 weeks since the last paced run -> half (was 6 x), no faster range, easy running first',
    })
    expect(asked.text).toContain('  3 x 500 m in 1:50-1:55, jog 200 m')
  })

  it('leaves every running line and the squat, but not the bench press, after pain in the calf', async () => {
    const days: [string, string][] = [
      [second, '1:45, 1:45 rpe 7, 3 @8, 3 @8'],
      [third, '1:45, 1:45 rpe 7 pain "left calf 4", 3 @8, 3 @8'],
    ]
    const run = '2 x 500 m in 1:50-1:55, jog 200 m'
    const legs = await next({ run, lift: squat, days })
    expect(legs.decisions).toEqual([
      { item: '2 x 500 m', decision: 'same', reason: 'left calf: pain 4 -> unchanged' },
      { item: 'front squat', decision: 'same', reason: 'left calf: pain 4 -> unchanged' },
    ])
    const arms = await next({ run, lift: squat.replace('front squat', 'bench press'), days })
    expect(arms.decisions[1]).toMatchObject({ decision: 'up', reason: expect.stringContaining('95 kg') })
  })

  it('leaves a lift held in the hands, but not the running, after pain in the shoulder', async () => {
    const days: [string, string][] = [
      [second, '1:52, 1:52 rpe 7, 3 @8, 3 @8'],
      [third, '1:52, 1:52 rpe 7, 3 @8, 3 @8 pain "right shoulder"'],
    ]
    const run = '2 x 500 m in 1:50-1:55, jog 200 m'
    const asked = await next({ run, lift: squat.replace('front squat', 'deadlift'), days })
    expect(asked.decisions).toMatchObject([
      { decision: 'up', reason: '2 of 2 in range at effort 7, twice -> 1 % faster, in 1:49-1:54' },
      { decision: 'same', reason: 'pain: right shoulder -> unchanged' },
    ])
  })

  it('changes nothing after pain in the chest or a note of faintness, not even the bench press', async () => {
    const bench = 'bench press: 2 x 3 @ 92.5 kg, rest 2:30'
    for (const [result, reason] of [
      ['3 @8 pain "chest"', 'pain: chest -> unchanged, see a doctor first'],
      ['3 @8 "fainted after it"', 'noted: fainted -> unchanged, see a doctor first'],
    ]) {
      const days: [string, string][] = [
        [second, '3 @8, 3 @8'],
        [third, `3 @8, ${result}`],
      ]
      const asked = await next({ lift: bench, days })
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
    const reason = async (today: string) => {
      const now = new Date(`${today}T20:00:00+01:00`)
      const { stdout } = await runProgram(['next', ids[1] ?? '', '--json'], { logbook, now })
      return JSON.parse(stdout).decisions[0].reason
    }
    expect(await reason('2026-11-27')).toMatch(/^noted: chest tight on .* -> unchanged, see a doctor first$/)
    await runProgram(['morning', 'chest tight 0, dizzy 0'], {
      logbook,
      now: new Date('2026-11-27T07:00:00+01:00'),
    })
    expect(await reason('2026-11-27')).toContain('same, once more')
  })

  it('counts a pain noted on another day of the fortnight, until a 0 ends it', async () => {
    const days: [string, string][] = [
      [second, '3 @8, 3 @8'],
      [third, '3 @8, 3 @8'],
    ]
    const { logbook, ids } = await next({ lift: squat, days })
    const other = async (date: string, pain: string) => {
      const files = { 'day.txt': 'Easy\nrun\n  5 km easy\n', 'results.txt': `27:00 pain "${pain}"\n` }
      await runProgram(['backfill', 'day.txt', 'results.txt', '--date', date], { files, logbook })
    }
    const reason = async (today: string) => {
      const now = new Date(`${today}T20:00:00+01:00`)
      const { stdout } = await runProgram(['next', ids[1] ?? '', '--json'], { logbook, now })
      return JSON.parse(stdout).decisions[0].reason
    }
    expect(await reason('2026-11-27')).toContain('-> 95 kg')
    await other('2026-11-20', 'left knee 3')
    expect(await reason('2026-11-27')).toBe('left knee: pain 3 on Fri 20 Nov -> unchanged')
    await other('2026-11-27', 'left knee 5')
    expect(await reason('2026-11-28')).toBe('left knee: pain 5 on Fri 27 Nov -> unchanged')
    await other('2026-11-28', 'left knee 0')
    // The newest day was done while it lasted.
    expect(await reason('2026-11-28')).toContain('once -> same, once more')
  })

  it('names the lines that do not fit into six, so that nothing is silent', async () => {
    const names = ['bench press', 'front squat', 'dip', 'pull-up', 'row', 'lunge', 'deadlift']
    const lift = names.map((name) => `${name}: 1 x 3 @ 40 kg`).join('\n  ')
    const { logbook } = await next({ lift, days: [[third, names.map(() => '3').join(', ')]] })
    const { stdout } = await runProgram(['next'], { logbook, now: new Date('2026-11-26T20:00:00+01:00') })
    const comments = stdout.split('\n').filter((line) => line.startsWith('#'))
    expect(comments).toHaveLength(8)
    expect(comments.at(-1)).toBe('# and 1 line unchanged: deadlift')
  })

  it('names every pain, also one that leaves no line unchanged by itself', async () => {
    const { logbook } = await next({
      run: '5 km easy',
      lift: 'front squat: 1 x 3 @ 90 kg',
      days: [[third, 'start: 06:40, 27:00 pain "left calf 2", 3 pain "right knee 6"']],
    })
    const now = new Date('2026-11-26T20:00:00+01:00')
    const { stdout } = await runProgram(['next'], { logbook, now })
    expect(stdout).toContain(
      '# left calf: pain 2 -> running and front squat unchanged\n# right knee: pain 6\n',
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
      const now = new Date('2026-11-26T20:00:00+01:00')
      const { stdout } = await runProgram(['next'], { logbook, now })
      return stdout
        .split('\n')
        .filter((line) => line.startsWith('#'))
        .slice(1)
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

  it('makes a range 2 % slower if fewer than half were in it', async () => {
    const asked = await next({
      run: '3 x 500 m in 1:50-1:55, jog 200 m',
      days: [[third, '2:00, 2:01, 1:54 rpe 9']],
    })
    expect(asked.decisions[0]).toMatchObject({
      decision: 'down',
      reason: '1 of 3 in range at effort 9 -> 2 % slower, in 1:52-1:57',
    })
  })

  it('keeps the range after one good day, and if the effort is unknown', async () => {
    const run = '3 x 500 m in 1:50-1:55, jog 200 m'
    const once = await next({ run, days: [[third, '1:52, 1:52, 1:52 rpe 8']] })
    expect(once.decisions[0]).toMatchObject({
      decision: 'same',
      reason: expect.stringContaining('once more'),
    })
    const unknown = await next({
      run,
      days: [
        [second, '1:52, 1:52, 1:52'],
        [third, '1:52, 1:52, 1:52'],
      ],
    })
    expect(unknown.decisions[0]).toMatchObject({ decision: 'same', reason: '3 of 3 in range -> same range' })
  })

  it('compares the typed effort with the prescribed one', async () => {
    const line = 'front squat: 2 x 3 @ 92.5 kg rpe 8, rest 2:30'
    const asWritten = 'front squat 2 x 3 @ 92.5 kg rpe 8, rest 2:30'
    expect((await lifted(line, '3 @8, 3 @7.5', '3 @8, 3 @8')).line).toBe(asWritten.replace('92.5', '95'))
    expect(await lifted(line, '3 @8, 3 @8', '3 @8, 3 @9')).toMatchObject({
      line: asWritten,
      reason: 'effort 9, written 8 -> same load',
    })
    expect((await lifted(line, '3 @8, 3 @8', '3 @8, 3')).line).toBe(asWritten)
  })

  it('knows dumbbells in steps of 2 kg by their load', async () => {
    const line = 'dumbbell bench press: 1 x 8 @ 2x24 kg'
    expect((await lifted(line, '8 @8', '8 @8')).line).toBe('dumbbell bench press 1 x 9 @ 2x24 kg')
    const rows = await lifted('dumbbell row: 1 x 8 each arm @ 44 kg', '8 @8', '8 @8')
    expect(rows.line).toBe('dumbbell row 1 x 8 each arm @ 46 kg')
  })

  it('never loads a kettlebell with plates: after 24 kg comes 28, which is too far, so a repetition more', async () => {
    const { reason, line } = await lifted('goblet squat: 1 x 8 @ 24 kg', '8 @8', '8 @8')
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
      const files = { 'day.txt': day, 'results.txt': '8 @8\n' }
      await runProgram(['backfill', 'day.txt', 'results.txt'], { files, logbook })
    }
    const ran = await runProgram(['next'], { logbook, now: new Date('2026-11-26T20:00:00+01:00') })
    expect(ran.stdout).toContain('row 1 x 8 each arm @ 52.5 kg')
  })

  it('adds a repetition, twice, if the next load is more than 5 % away, then takes the load', async () => {
    const line = (reps: string, load: string) => `row 2 x ${reps} each arm @ 2x${load} kg`
    expect((await lifted(line('8-10', '27.5'), '10, 10', '10, 10')).line).toBe(line('9-11', '27.5'))
    const logbook = temporaryFolder()
    for (const [at, reps] of [8, 9, 10, 10].entries()) {
      const day = `Day\ndate: 2026-11-${19 + at}\n\nlift\n  ${line(String(reps), '27.5')}\n`
      const files = { 'day.txt': day, 'results.txt': '=\n=\n' }
      await runProgram(['backfill', 'day.txt', 'results.txt'], { files, logbook })
    }
    const ran = await runProgram(['next'], { logbook, now: new Date('2026-11-23T12:00:00+01:00') })
    expect(ran.stdout).toContain(line('8', '30'))
  })

  it('knows how many repetitions were added before sixty sessions of something else', async () => {
    const logbook = temporaryFolder()
    const keep = async (date: string, day: string) => {
      const files = { 'day.txt': `Day\ndate: ${date}\n\n${day}\n`, 'results.txt': '=\n' }
      expect((await runProgram(['backfill', 'day.txt', 'results.txt'], { files, logbook })).code).toBe(0)
    }
    const row = (reps: number) => `lift\n  row 1 x ${reps} each arm @ 2x22.5 kg`
    for (const [at, reps] of [8, 9].entries()) await keep(`2026-11-0${at + 1}`, row(reps))
    for (const day of Array(10).keys())
      for (const _ of Array(6)) await keep(`2026-11-${10 + day}`, 'run\n  5 km easy')
    for (const day of [20, 21]) await keep(`2026-11-${day}`, row(10))
    const ran = await runProgram(['next'], { logbook, now: new Date('2026-11-21T20:00:00+01:00') })
    expect(ran.stdout).toContain(
      'row: complete on 2x22.5 kg twice; no next load within 10 % -> one set more, 2 x 8\n',
    )
  })

  it('includes the body in a bodyweight lift: 1.25 kg on 78 kg is too little, 2.5 kg is 3 %', async () => {
    const line = 'pull-up 2 x 6 @ bodyweight+10 kg + dip 2 x 8 @ bodyweight, pause 20 s, rest 1:30'
    expect((await lifted(line, '6, 8, 6, 8', '6, 8, 6, 8')).line).toBe(
      'pull-up 2 x 6 @ bodyweight+12.5 kg + dip 2 x 8 @ bodyweight+2.5 kg, pause 20 s, rest 1:30',
    )
  })

  it('takes a cluster set as complete if each group is', async () => {
    const line = 'front squat 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30'
    expect((await lifted(line, '1+1+1, =', '=, =')).line).toBe(line.replace('92.5', '95'))
    expect((await lifted(line, '1+1+0, =', '=, 1+1')).line).toBe(line.replace('92.5', '87.5'))
  })

  it('drops a warm-up that would begin at the working load', async () => {
    const line = 'front squat: 2 x 3 @ 92.5 kg, rest 2:30, build from 90 kg'
    expect(await lifted(line, '2, 2', '2, 2')).toMatchObject({
      reason: '2, 2 short, twice at 92.5 kg -> 5 % less, 87.5 kg; no warm-up from 90 kg',
      line: 'front squat 2 x 3 @ 87.5 kg, rest 2:30',
    })
  })

  it('says that the session does not exist', async () => {
    const logbook = temporaryFolder()
    expect(await runProgram(['next'], { logbook })).toEqual({
      code: 1,
      stdout: '',
      stderr: `pausebook: There is no session in the logbook ${logbook} yet. Record one with "pausebook".\n`,
    })
  })

  it('continues past a damaged session', async () => {
    const { logbook, ids } = await next({
      lift: squat,
      days: [
        [first, '3, 3'],
        [second, '3, 3'],
        [third, '3, 3'],
      ],
    })
    const { writeFileSync } = await import('node:fs')
    writeFileSync(openLogbook(logbook).list()[1]?.path ?? '', '{"format": 99}')
    const ran = await runProgram(['next', ids.at(-1) ?? ''], {
      logbook,
      now: new Date('2026-11-26T20:00:00+01:00'),
    })
    // The damaged session could have changed the decision.
    expect(ran.code).toBe(3)
    expect(ran.stderr).toContain('has format 99')
    expect(ran.stdout).toContain('complete on 92.5 kg twice -> 95 kg')
  })
})
