import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { spokenLines } from '../../src/recorder/view.ts'
import { Session } from '../../src/session/model.ts'
import { dayFiguresOf } from '../../src/summary/day.ts'
import { runProgram } from '../commands/runProgram.ts'
import { dayOf, plainContext, walkThrough } from '../day.ts'
import { publishedSchema } from '../publishedSchema.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

/* Every form of the shorthand goes all the way: read in every spelling, expanded, recorded, kept on paper, summarised,
 * printed back, cut, exported, as JSON, and spoken. The figures are worked out by hand. */

interface Form {
  part: 'run' | 'lift'
  /** As printed. */
  line: string
  /** Another spelling that is read. */
  others: string[]
  /** In front of the part. */
  headers?: string
  /** One for each result. */
  entries: string[]
  plan: { runMeters: number; liftSets: number; plannedTonnageKg: number; expectedMinutes: number }
  /** What the summary counts. */
  done: { meters: number; reps: number; tonnageKg: number }
  /** In the summary, whose lines may be wrapped. */
  says: string
  /** In the manual. */
  manual: string
}

const run = { liftSets: 0, plannedTonnageKg: 0 }
const ran = { reps: 0, tonnageKg: 0 }
const lifted = { runMeters: 0 }

const forms: Form[] = [
  {
    part: 'run',
    line: '4 x 400 m in 78-82 s, every 3:00',
    others: ['4 x 400m in 78-82 s, on 3:00', '4x400 m in 78-82 s, send-off 3:00'],
    entries: ['1:20', '1:21', '1:19', '1:22'],
    // Three starts of three minutes and 80 s.
    plan: { ...run, runMeters: 1600, expectedMinutes: 10 },
    done: { ...ran, meters: 1600 },
    says: 'mean 1:20.5, 4 of 4 in range 1:20 1:21 1:19 1:22',
    manual: '`8 x 400 m in 78-82 s, every 3:00` (`on`, `send-off`)',
  },
  {
    part: 'run',
    line: '3 x 400 m in 1:20, jog 200 m in 1:30',
    others: ['3 x 400 m in 80 s, 200 m jog in 90 s', '3 x 400 m in 80 s, jog 200m in 90s'],
    entries: ['1:20', '1:21', '1:19'],
    // 3 x 80 s and 2 x 90 s.
    plan: { ...run, runMeters: 1600, expectedMinutes: 7 },
    done: { ...ran, meters: 1600 },
    says: 'mean 1:20.0, 3 of 3 in range 1:20 1:21 1:19',
    manual: '`6 x 400 m, jog 200 m in 1:30` (`200 m jog in 90 s`)',
  },
  {
    part: 'run',
    line: '3 x 400 m in 80/78/76 s, jog 200 m',
    others: ['3x400m in 80/78/76 s, 200 m jog', '3 x 400 m in 1:20/1:18/1:16, jog 200 m'],
    entries: ['1:20', '1:18', '1:19'],
    // 234 s and 2 x 200 m at 7:00/km.
    plan: { ...run, runMeters: 1600, expectedMinutes: 7 },
    done: { ...ran, meters: 1600 },
    says: '2 of 3 in range 1:20 1:18 1:19 slow',
    manual: '`6 x 400 m in 80/78/76/74/72/70 s, jog 200 m`',
  },
  {
    part: 'run',
    line: '3 km @ 4:15 to 3:55/km, split 1 km',
    others: [
      '3 km @ 4:15 -> 3:55, split 1 km',
      '3 km progression 4:15 to 3:55/km, split 1 km',
      '3 km @ 4:15-3:55/km progression, split 1 km',
      '3 km progression 4:15-3:55/km, split 1 km',
    ],
    entries: ['4:15', '4:05', '3:50'],
    // 4:15 + 4:05 + 3:55
    plan: { ...run, runMeters: 3000, expectedMinutes: 12 },
    done: { ...ran, meters: 3000 },
    says: '3:50 fast',
    manual: '`5 km @ 4:15 to 3:55/km, split 1 km` (`->`, `progression`)',
  },
  {
    part: 'run',
    line: '10 km easy, hr under 140',
    others: ['10 km easy, hr < 140', '10 km easy, hr <= 140', '10 km easy, hr below 140'],
    entries: ['58:00 hr 138'],
    plan: { ...run, runMeters: 10_000, expectedMinutes: 60 },
    done: { ...ran, meters: 10_000 },
    says: 'hr 138',
    manual: '`10 km easy, hr under 140` (`hr < 140`)',
  },
  {
    part: 'run',
    line: '3 x 400 m in 1:20, jog same time',
    others: ['3 x 400 m in 80 s, equal jog', '3x400m in 80s, jog same'],
    entries: ['1:20', '1:21', '1:19'],
    // 5 x 80 s
    plan: { ...run, runMeters: 1200, expectedMinutes: 7 },
    done: { ...ran, meters: 1200 },
    says: 'mean 1:20.0, 3 of 3 in range 1:20 1:21 1:19',
    manual: '`6 x 400 m, jog same time` (`equal jog`)',
  },
  {
    part: 'lift',
    line: 'squat: 1 x 5 @ 140 kg then 2 x 5 @ 120 kg',
    others: ['squat: 1x5 @ 140kg; 2x5 @ 120kg', 'squat 1 x 5 @ 140 kg then 2 x 5 @ -15%'],
    entries: ['5', '5', '4'],
    // 15 repetitions of 4 s and two rests of 90 s.
    plan: { ...lifted, liftSets: 3, plannedTonnageKg: 1900, expectedMinutes: 4 },
    done: { meters: 0, reps: 14, tonnageKg: 1780 },
    says: 'squat: 5 x 140 kg, 5 x 120 kg, 4 x 120 kg',
    manual: '`squat: 1 x 5 @ 140 kg then 2 x 5 @ -15%`',
  },
  {
    part: 'lift',
    line: 'squat 2 x 4 @ last + 2 kg',
    others: ['squat 2x4 last time + 2', 'squat 2 x 4 @ last time + 2 kg'],
    entries: ['4 x 102', '4'],
    // There is no last time.
    plan: { ...lifted, liftSets: 2, plannedTonnageKg: 0, expectedMinutes: 2 },
    done: { meters: 0, reps: 8, tonnageKg: 816 },
    says: 'squat: 2 x 4 x 102 kg',
    manual: '`squat 4 x 4 @ last + 2 kg` (`last time + 2`)',
  },
  {
    part: 'lift',
    line: 'curl 1 x (12 > 10 > 8) @ 20/15/10 kg',
    others: [
      'drop set curl 12/10/8 @ 20/15/10 kg',
      'drop set: curl 12/10/8 @ 20/15/10kg',
      'curl 1 x (12 -> 10 -> 8) @ 20/15/10',
    ],
    entries: ['12>10>7'],
    plan: { ...lifted, liftSets: 1, plannedTonnageKg: 240 + 150 + 80, expectedMinutes: 2 },
    done: { meters: 0, reps: 29, tonnageKg: 240 + 150 + 70 },
    says: '12 x 20 kg > 10 x 15 kg > 7 x 10 kg',
    manual: '`curl 3 x (12 > 10 > 8) @ 20/15/10 kg`',
  },
  {
    part: 'lift',
    line: '2 x (clean 1 + front squat 2 + jerk 1) @ 60 kg, rest 2:00',
    others: [
      '2x(clean 1 + front squat 2 + jerk 1) @ 60kg, rest 2 min',
      '2 x (1 clean + 2 front squat + 1 jerk) @ 60 kg, rest 2:00',
    ],
    entries: ['=', '1+2+0'],
    // 2 x 4 x 4 s and 120 s.
    plan: { ...lifted, liftSets: 2, plannedTonnageKg: 480, expectedMinutes: 3 },
    done: { meters: 0, reps: 7, tonnageKg: 420 },
    says: 'front squat: 2 x 2 x 60 kg',
    manual: '`5 x (clean 1 + front squat 2 + jerk 1) @ 60 kg, rest 2:00`',
  },
  {
    part: 'lift',
    line: '12 min of: 8 row each arm @ 20 kg, 6 step-up each leg, 40 m carry',
    others: [
      'amrap 12:00: 8 row each arm @ 20 kg, 6 step-up each leg, 40 m carry',
      'AMRAP 12 min 8 row each arm 20kg, 6 step-up each leg, 40 m carry',
      'AMRAP 12: 8 row each arm @ 20 kg, 6 step-up each leg, 40 m carry',
      'AMRAP in 12 minutes: 8 row each arm @ 20 kg, 6 step-up each leg, 40 m carry',
      '12 min AMRAP: 8 row each arm @ 20 kg, 6 step-up each leg, 40 m carry',
      '12 min AMRAP of 8 row each arm @ 20 kg, 6 step-up each leg, 40 m carry',
      '12:00 of 8 row each arm @ 20 kg, 6 step-up each leg, 40 m carry',
    ],
    entries: ['6+12'],
    plan: { ...lifted, liftSets: 1, plannedTonnageKg: 0, expectedMinutes: 12 },
    // A round is 16 rows and 12 step-ups, counting both sides; the next round has all rows and 4 step-ups a side.
    done: { meters: 0, reps: 6 * 28 + 16 + 8, tonnageKg: 7 * 16 * 20 },
    says: '6 rounds and 12 reps',
    manual: '`12 min of: 8 row each arm, 6 step-up each leg, 40 m carry`',
  },
  {
    part: 'lift',
    line: 'for time: 2 rounds of 20 step-up @ 10 kg, 60 m carry, 200 m run',
    others: [
      '2 rounds for time: 20 step-up @ 10 kg, 60 m carry, 200 m run',
      'for time 2 rounds: 20 step-up @ 10 kg, 60 m carry, 200 m run',
      '2 rounds for time of 20 step-up @ 10kg, 60m carry, 200m run',
    ],
    entries: ['8:41'],
    // 2 x (20 x 4 s + 60 m x 0.6 s + 200 m at 6:00/km)
    plan: { runMeters: 400, liftSets: 1, plannedTonnageKg: 400, expectedMinutes: 6 },
    done: { meters: 400, reps: 40, tonnageKg: 400 },
    says: '8:41',
    manual: '`for time: 2 rounds of 20 step-up, 60 m carry, 200 m run`',
  },
  {
    part: 'lift',
    line: 'every 1:00 for 4 min: 3 power clean @ 70 kg, 10 push-up',
    others: [
      'EMOM 4: 3 power clean 70kg, 10 push-up',
      'EMOM 4 min: 3 power clean @ 70 kg, 10 push-up',
      '4 min EMOM: 3 power clean @ 70 kg, 10 push-up',
      'emom 4:00: 3 power clean 70kg, 10 push-up',
      'every minute for 4 min: 3 power clean @ 70 kg, 10 push-up',
    ],
    entries: ['3', '10', '3', '8'],
    plan: { ...lifted, liftSets: 4, plannedTonnageKg: 420, expectedMinutes: 4 },
    done: { meters: 0, reps: 24, tonnageKg: 420 },
    says: 'power clean: 2 x 3 x 70 kg',
    manual: '`every 1:00 for 12 min: 3 power clean @ 70 kg, 10 push-up` (`EMOM 12: …`)',
  },
  {
    part: 'lift',
    line: 'box jump 2 x 3 at 60 cm',
    others: ['box jump 2x3 @ 60cm', 'box jump 2 x 3 @ 60 cm'],
    entries: ['3', '3'],
    plan: { ...lifted, liftSets: 2, plannedTonnageKg: 0, expectedMinutes: 2 },
    done: { meters: 0, reps: 6, tonnageKg: 0 },
    says: 'box jump: 2 x 3',
    manual: '`box jump 4 x 3 at 60 cm`',
  },
  {
    part: 'lift',
    headers: 'bar: trap bar 25 kg\n',
    line: 'trap bar deadlift 2 x 3 @ 65 kg',
    others: ['trap bar deadlift: 2x3 @ 65kg'],
    entries: ['3', '3'],
    plan: { ...lifted, liftSets: 2, plannedTonnageKg: 390, expectedMinutes: 2 },
    done: { meters: 0, reps: 6, tonnageKg: 390 },
    says: 'trap bar deadlift: 2 x 3 x 65 kg',
    manual: '`bar: trap bar 25 kg`',
  },
  {
    part: 'lift',
    line: 'deadlift 2 x 3 @ 150 kg, "straps", "beltless"',
    others: ['deadlift 2x3 @ 150kg, straps, "beltless"'],
    entries: ['3', '3'],
    plan: { ...lifted, liftSets: 2, plannedTonnageKg: 900, expectedMinutes: 2 },
    done: { meters: 0, reps: 6, tonnageKg: 900 },
    says: 'deadlift: 2 x 3 x 150 kg',
    manual: 'become a note',
  },
]

const textOf = ({ part, headers = '' }: Form, line: string) => `Day\n${headers}\n${part}\n  ${line}\n`

function isSound(schema: string) {
  const check = publishedSchema(schema)
  return (value: unknown) => expect(check(value), JSON.stringify(check.errors)).toBe(true)
}
const [isPrescription, isPlan, isSummary] = ['prescription', 'check', 'summary'].map(isSound)
const manual = readFileSync(new URL('../../shared/manual/notation.md', import.meta.url), 'utf8')
const now = new Date('2026-11-26T20:00:00+01:00')

describe.each(forms)('$line', (form) => {
  const { line, others, entries } = form
  const text = textOf(form, line)
  const day = dayOf(text)

  it('is printed the same from every spelling, and from JSON', () => {
    for (const spelling of [line, ...others]) {
      const printed = printPrescription(dayOf(textOf(form, spelling)))
      expect(printed.trimEnd().split('\n').at(-1)).toBe(`  ${line}`)
      expect(printPrescription(dayOf(printed))).toBe(printed)
    }
    isPrescription?.(JSON.parse(JSON.stringify(day)))
    expect(readPrescription(JSON.stringify(day))).toMatchObject({ prescription: day })
  })

  it('is expanded with its distance, sets, tonnage and minutes', async () => {
    const { entries: count, ...plan } = dayFiguresOf(day, plainContext.warmUpOf)
    expect(count).toBe(entries.length)
    expect(plan).toMatchObject(form.plan)
    const files = { 'day.txt': text }
    const checked = await runProgram(['check', 'day.txt', '--json'], { files, logbook: temporaryFolder() })
    expect(checked.code).toBe(0)
    isPlan?.(JSON.parse(checked.stdout))
  })

  it('is recorded to its end, also with a screen reader', () => {
    const walked = walkThrough(day)
    expect(spokenLines(null, walked.view).length).toBeGreaterThan(1)
    for (const entry of entries) {
      const before = walked.view
      // Space begins the effort unless the clock has begun it, and ends it.
      if (walked.phase.kind !== 'effort') walked.space()
      walked.wait(5).space().entry(entry)
      expect(spokenLines(before, walked.view).join('\n')).toContain('recorded')
    }
    expect(walked.state.recorded.size).toBe(entries.length)
    expect(Session.safeParse(walked.session()).success).toBe(true)
  })

  it('is kept on paper, summarised, exported, cut, and made into the next day', async () => {
    const logbook = temporaryFolder()
    const [before, after] =
      form.part === 'run' ? ['2 km easy', '2 km easy'] : ['press 3 x 5 @ 60 kg, rest 3:00', 'plank 3 x 45 s']
    const longer = `Day\n${form.headers ?? ''}\n${form.part}\n  ${before}\n  ${line}\n  ${after}\n`
    const files = {
      'day.txt': text,
      'longer.txt': longer,
      'results.txt': `date: 2026-11-26\n${entries.join('\n')}\n`,
    }
    const asked = (...words: string[]) => runProgram(words, { files, logbook, now })
    expect(await asked('backfill', 'day.txt', 'results.txt')).toMatchObject({ code: 0 })
    const summary = JSON.parse((await asked('summary', '--json')).stdout)
    isSummary?.(summary)
    const { running, lifting } = summary
    expect({ meters: running.meters, reps: lifting.reps, tonnageKg: lifting.tonnageKg }).toEqual(form.done)
    expect((await asked('summary')).stdout.replace(/\s+/g, ' ')).toContain(form.says)
    expect((await asked('export')).stdout).toContain(JSON.stringify(summary.session.title))
    const table = await asked('export', '--format', 'csv', '--what', form.part === 'run' ? 'splits' : 'sets')
    expect(table.stdout.trim().split('\r\n').length).toBeGreaterThanOrEqual(entries.length)
    for (const share of ['75%', '85%', '95%']) {
      const cut = await asked('cut', 'longer.txt', '--to', share)
      expect(cut).toMatchObject({ code: 0, stderr: '' })
      expect(readPrescription(cut.stdout)).not.toHaveProperty('problems')
    }
    const next = await asked('next')
    expect(next.code).toBe(0)
    expect(readPrescription(next.stdout)).not.toHaveProperty('problems')
  })

  it('has a row in the manual', () => {
    expect(manual).toContain(form.manual)
  })
})
