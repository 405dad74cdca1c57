import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { stringify } from 'csv-stringify/sync'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { replay } from '../../src/session/replay.ts'
import fc from '../fastCheck.ts'
import { isLongRun } from '../faults/harness.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { callsOf, runKilledAt } from './killedAt.ts'
import { keepOnPaper } from './onPaper.ts'
import { runProgram } from './runProgram.ts'

const sets = `Date,Lift,Weight (kg),Reps,RPE,Mood
2026-11-19,Front squat,90,3,8,good
2026-11-19,Front squat,92.5,3,8.5,good
2026-11-19,Pull-up,0,6,,
2026-11-21,"Bench, paused",60,5,7,
`

async function importing(text: string, ...options: string[]) {
  const logbook = temporaryFolder()
  const ran = await runProgram(['import', 'table.csv', ...options], { files: { 'table.csv': text }, logbook })
  return { ...ran, logbook }
}
const isEmpty = (logbook: string) => !existsSync(join(logbook, 'sessions'))

/** The content of the logbook as a table, without the ids. */
async function tableOf(logbook: string, what: 'sets' | 'splits'): Promise<string[]> {
  const { stdout } = await runProgram(['export', '--what', what], { logbook })
  return stdout
    .trimEnd()
    .split('\r\n')
    .map((line) => line.replace(/^[^,]*,/, ''))
}

describe('pausebook import', () => {
  it('says how it read each column, stores the sessions of a table of sets and prints their ids', async () => {
    const ran = await importing(sets)
    expect(ran.stderr).toBe(`table.csv: 4 sets in 2 sessions from 2026-11-19 to 2026-11-21. Columns read as:
  Date: date
  Lift: exercise
  Weight (kg): kg
  Reps: reps
  RPE: rpe
  Mood: not used
  "Bench, paused" is read as "Bench paused"
`)
    expect(ran.code).toBe(0)
    const ids = ran.stdout.trimEnd().split('\n')
    expect(
      openLogbook(ran.logbook)
        .list()
        .map((entry) => entry.id)
        .sort(),
    ).toEqual([...ids].sort())
    const { session } = openLogbook(ran.logbook).read(ids[0] ?? '')
    const state = replay(session)
    expect([state.date, state.fromPaper, state.finished]).toEqual(['2026-11-19', true, true])
    expect(session.prescription.title).toBe('Sets of 2026-11-19')
    expect(session.prescription.parts[0]?.items.map((item) => 'text' in item && item.text)).toEqual([
      'Front squat 2 x 3 @ 90/92.5 kg',
      'Pull-up 1 x 6',
    ])
    expect((await tableOf(ran.logbook, 'sets')).slice(1)).toEqual([
      '2026-11-19,Sets of 2026-11-19,lift,Front squat,1,,3,,,,90,kg,mass,90,8,,,',
      '2026-11-19,Sets of 2026-11-19,lift,Front squat,2,,3,,,,92.5,kg,mass,92.5,8.5,,,',
      '2026-11-19,Sets of 2026-11-19,lift,Pull-up,1,,6,,,,,,,,,,,',
      '2026-11-21,Sets of 2026-11-21,lift,Bench paused,1,,5,,,,60,kg,mass,60,7,,,',
    ])
  })

  it('takes a load in two units that are no further apart than rounding', async () => {
    // 100 kg are 220.46 lb, by the pound of 0.45359237 kg (NIST SP 811, appendix B).
    const ran = await importing('date,exercise,reps,kg,lb\n2026-11-26,squat,5,100,220\n')
    expect(ran.code).toBe(0)
    expect((await tableOf(ran.logbook, 'sets'))[1]).toContain(',100,kg,mass,100,')
  })

  it('takes the kilograms beside a pair as those of both', async () => {
    const ran = await importing('date,exercise,reps,load,load_kind,kg\n2026-11-26,press,5,24,pair,48\n')
    expect((await tableOf(ran.logbook, 'sets'))[1]).toContain(',24,kg,pair,48,')
  })

  it('takes a load over 500 kg that two columns tell, as export writes it', async () => {
    const head = 'date,exercise,reps,load,unit,load_kg'
    const first = await importing(`${head}\n2026-11-26,leg press,5,600,kg,600\n`)
    expect(first.code).toBe(0)
    const { stdout: table } = await runProgram(['export', '--format', 'csv'], { logbook: first.logbook })
    const { code, logbook } = await importing(table)
    expect(code).toBe(0)
    expect(await tableOf(logbook, 'sets')).toEqual(await tableOf(first.logbook, 'sets'))
    const { stderr } = await importing(`${head}\n2026-11-26,leg press,5,600,kg,60\n`)
    expect(stderr).toContain('the row has different loads in kg, 600 and 60: keep only one of them')
  })

  it('says which names are read as others', async () => {
    const names = ['clean + jerk', 'A1 squat', 'lunge each side', 'dip']
    const ran = await importing(
      ['date,exercise,reps', ...names.map((name) => `2026-11-26,${name},5`)].join('\n'),
      '--dry',
    )
    expect(ran.stdout).toContain(`
  "clean + jerk" is read as "clean jerk"
  "A1 squat" is read as "squat"
  "lunge each side" is read as "lunge", each side
Nothing was stored.
`)
  })

  it('shows a bad row, and of a row of several lines only the line', async () => {
    const ran = await importing(
      'date;note;exercise;reps\n2026-11-26;"one; ""two""";dip;8.5\n2026-11-26;"one\ntwo";dip;x\n',
    )
    expect(ran.stderr).toContain(`
table.csv:2:1: Invalid number of repetitions "8.5": expected a whole number from 0 to 100
  2026-11-26;"one; ""two""";dip;8.5
  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
table.csv:4:1: Invalid number of repetitions "x": expected a whole number from 0 to 100
`)
  })

  it('stores a row with a number of sets as that many equal sets', async () => {
    const table = (sets: string) =>
      `Date,Exercise,Weight,Reps,Sets\n2026-11-19,Bench press,60,8,${sets}\n2026-11-19,Squat,100,5,\n`
    const ran = await importing(table('3'))
    expect(ran.stderr).toMatch(/^table\.csv: 4 sets in 1 session on 2026-11-19\..*\n/)
    expect(ran.stderr).toContain('  Sets: sets\n')
    expect((await tableOf(ran.logbook, 'sets')).slice(1)).toEqual([
      ...[1, 2, 3].map(
        (set) => `2026-11-19,Sets of 2026-11-19,lift,Bench press,${set},,8,,,,60,kg,mass,60,,,,`,
      ),
      '2026-11-19,Sets of 2026-11-19,lift,Squat,1,,5,,,,100,kg,mass,100,,,,',
    ])
    expect((await importing(table('50'))).stderr).toContain('51 sets')
    for (const sets of ['0', '51', '2.5', 'three']) {
      const why = `Invalid number of sets "${sets}": expected a whole number from 1 to 50`
      const refused = await importing(table(sets))
      expect([refused.code === 0, isEmpty(refused.logbook)]).toEqual([false, true])
      expect(refused.stderr).toContain(`table.csv:2:1: ${why}`)
    }
  })

  it('counts sets of 80 % of the maximum of an earlier day as heavy, whatever the order of the rows', async () => {
    const ran = await importing(
      'Date,Exercise,Weight,Reps,RPE\n2026-11-24,Squat,90,5,7\n2026-11-24,Squat,85,5,7\n2026-11-20,Squat,111.7,1,10\n',
    )
    // 80 % of 111.7 kg are 89.4 kg.
    expect(
      openLogbook(ran.logbook)
        .index()
        .map(({ date, day }) => [date, day.heavyLegSets]),
    ).toEqual([
      ['2026-11-24', 1],
      ['2026-11-20', 1],
    ])
  })

  it('reads a table of splits', async () => {
    const ran = await importing(
      'day;km;time;hr;notes\n2026-11-19;0,5;1:49,2;171;windy\n2026-11-19;0,5;1:48;;\n2026-11-19;;20:00;;\n2026-11-19;5;;;\n',
    )
    expect(ran.stderr).toContain(
      'table.csv: 4 splits in 1 session on 2026-11-19. Columns read as:\n  day: date\n  km: km\n  time: time\n  hr: heart_rate\n  notes: note\n',
    )
    expect((await tableOf(ran.logbook, 'splits')).slice(1)).toEqual([
      '2026-11-19,Running of 2026-11-19,run,2 x 500 m,1,500,109.2,,171,,,windy,',
      '2026-11-19,Running of 2026-11-19,run,2 x 500 m,2,500,108,,,,,,',
      '2026-11-19,Running of 2026-11-19,run,20:00,1,,1200,,,,,,',
      '2026-11-19,Running of 2026-11-19,run,5000 m,1,5000,,,,,,,',
    ])
  })

  it('stores splits of export as they were run, without the line that they were prescribed as', async () => {
    const first = temporaryFolder()
    const day =
      'Track\ndate: 2026-11-26\n\nrun: track\n  3 x 500 m @ 3:45-3:55/km, jog 200 m\n  2 km race, split 1 km\n'
    await keepOnPaper(first, day, '1:52 hr 171\n-\n1:49.5\n3:50\n3:52 pain left calf 2\n')
    const { stdout } = await runProgram(['export', '--what', 'splits'], { logbook: first })
    const { logbook, stderr } = await importing(stdout)
    expect(stderr).toContain('  work: not used\n  number: not used\n')
    expect((await tableOf(logbook, 'splits')).slice(1)).toEqual([
      '2026-11-26,Track,run: track,2 x 500 m,1,500,112,,171,,,,',
      '2026-11-26,Track,run: track,2 x 500 m,2,500,109.5,,,,,,',
      '2026-11-26,Track,run: track,2 x 1000 m,1,1000,230,,,,,,',
      '2026-11-26,Track,run: track,2 x 1000 m,2,1000,232,,,,,,left calf 2',
    ])
  })

  it('stores nothing with --dry', async () => {
    const ran = await importing(sets, '--dry')
    expect(ran.code).toBe(0)
    expect(ran.stderr).toBe('')
    expect(ran.stdout).toMatch(/^table\.csv: 4 sets in 2 sessions .*\n( {2}.+\n)+Nothing was stored\.\n$/)
    expect(isEmpty(ran.logbook)).toBe(true)
  })

  it('prints JSON with --json', async () => {
    const json = JSON.parse((await importing(sets, '--json')).stdout)
    expect(json.what).toBe('sets')
    expect(json.columns).toEqual({
      date: 'Date',
      exercise: 'Lift',
      kg: 'Weight (kg)',
      reps: 'Reps',
      rpe: 'RPE',
    })
    expect(
      json.sessions.map((session: { date: string; results: number }) => [session.date, session.results]),
    ).toEqual([
      ['2026-11-19', 3],
      ['2026-11-21', 1],
    ])
    const dry = JSON.parse((await importing(sets, '--json', '--dry')).stdout)
    expect(dry.sessions[0].id).toBeNull()
  })

  it('lets the user name columns, and leave them out', async () => {
    const odd = 'When,What,How heavy,How often,Note\n2026-11-19,Dip,bw+10,8,mine\n'
    const maps = ['When=date', 'what = exercise', 'How heavy=load', 'How often=reps', 'Note=-'].flatMap(
      (map) => ['--map', map],
    )
    const ran = await importing(odd, ...maps)
    expect(ran.stderr).toContain('  How heavy: load\n')
    expect(ran.stderr).toContain('  Note: not used\n  loads without a unit are in kg\n')
    expect((await tableOf(ran.logbook, 'sets'))[1]).toBe(
      '2026-11-19,Sets of 2026-11-19,lift,Dip,1,,8,,,,10,kg,bodyweight,10,,,,',
    )
  })

  it.each(['Weight=load', 'nonsense'])('refuses --map %s, which names no column', async (map) => {
    const ran = await importing(sets, '--map', map)
    const columns = '"Date", "Lift", "Weight (kg)", "Reps", "RPE", "Mood"'
    expect([ran.code, ran.stderr]).toEqual([
      2,
      `pausebook: "${map}" names no column of the file: ${columns}. Write --map COLUMN=FIELD.\n`,
    ])
    expect(isEmpty(ran.logbook)).toBe(true)
  })

  it('refuses an unknown field', async () => {
    const ran = await importing(sets, '--map', 'Mood=mood')
    expect(ran.code).toBe(2)
    expect(ran.stderr).toMatch(
      /^pausebook: "Mood=mood" names no field\. Write one of date, session, title, .+, or - to leave the column out\.\n$/,
    )
  })

  it('takes one repetition of a time or a distance for that time or distance', async () => {
    const ran = await importing(
      'date,exercise,reps,seconds,meters,weight\n2026-10-01,plank,1,60,,\n2026-10-01,farmer carry,1,,40,32\n',
    )
    expect(ran.code).toBe(0)
    const done = openLogbook(ran.logbook)
      .index()[0]
      ?.lifts.map(({ sets: [set] }) => [set?.reps, set?.seconds, set?.meters])
    expect(done).toEqual([
      [null, 60, null],
      [null, null, 40],
    ])
  })

  it("takes a field's own name before its other words, and a ride at its own speed", async () => {
    const ran = await importing('date,split,km,time,part\n2026-10-01,300,40,45:00,cross: bike\n')
    expect(ran.stderr).toContain('time: time')
    expect(ran.stderr).toContain('split: not used')
    expect(openLogbook(ran.logbook).index()[0]?.brief.crossMeters).toBe(40_000)
  })

  it('reads the dates and numbers of a spreadsheet that writes 26.11.2026 and 92,5', async () => {
    const ran = await importing(
      'date;exercise;load;reps\n26.11.2026;squat;92,5;5\n1.9.2026 18:00;squat;90;5\n',
    )
    expect(
      openLogbook(ran.logbook)
        .index()
        .map(({ date }) => date),
    ).toEqual(['2026-11-26', '2026-09-01'])
  })

  it('says that a date is in the future, and keeps a title with line ends on one line', async () => {
    const ran = await importing('date,title,exercise,reps\n2062-10-01,"Mon\nathlete: 100 kg",squat,5\n')
    expect(ran.stderr).toContain('pausebook: 2062-10-01 is in the future. Check the dates.')
    const { prescription } = openLogbook(ran.logbook).read('newest').session
    expect([prescription.title, prescription.athlete]).toEqual(['Mon athlete: 100 kg', null])
  })

  it('stores nothing if any row cannot be read, and reports each of them', async () => {
    const bad = `${sets}31.11.2026,Dip,10,8,,\n2026-11-26,,10,8,,\n2026-11-26,Dip,heavy,8,,\n2026-11-26,Dip,10,,,\n2026-11-26,Dip,10,8,11,\n,Dip,10,8,,\n2026-11-26,Dip,10,8,,slow, then fast\n2026-11-26,Dip\n`
    const ran = await importing(bad)
    expect([ran.code, ran.stdout]).toEqual([1, ''])
    expect(
      ran.stderr,
    ).toBe(`pausebook: The table "table.csv" has 8 problems. Nothing was stored; correct the file.
table.csv:6:1: Invalid date "31.11.2026": expected a date as in 2026-11-26 or 26.11.2026
  31.11.2026,Dip,10,8,,
  ^^^^^^^^^^^^^^^^^^^^^
table.csv:7:1: the exercise is missing
  2026-11-26,,10,8,,
  ^^^^^^^^^^^^^^^^^^
table.csv:8:1: Invalid load "heavy": expected a mass, as in 92.5, 92.5 kg or bodyweight+10 kg
  2026-11-26,Dip,heavy,8,,
  ^^^^^^^^^^^^^^^^^^^^^^^^
table.csv:9:1: repetitions, a time or a distance is missing
  2026-11-26,Dip,10,,,
  ^^^^^^^^^^^^^^^^^^^^
table.csv:10:1: Invalid RPE "11": expected halves from 1 to 10
  2026-11-26,Dip,10,8,11,
  ^^^^^^^^^^^^^^^^^^^^^^^
table.csv:11:1: the date is missing
  ,Dip,10,8,,
  ^^^^^^^^^^^
table.csv:12:1: the row has 7 cells under 6 headings: put quotes around a cell with a separator in it, and leave no cell out
  2026-11-26,Dip,10,8,,slow, then fast
  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
table.csv:13:1: the row has 2 cells under 6 headings: put quotes around a cell with a separator in it, and leave no cell out
  2026-11-26,Dip
  ^^^^^^^^^^^^^^
`)
    expect(isEmpty(ran.logbook)).toBe(true)
  })

  it.each([
    [
      'date,km,time\n2026-11-26,5000,20:00\n',
      'Invalid distance "5000": expected up to 1000 km, as in 5 or 5 km',
    ],
    [
      'date,m,time\n2026-11-26,5000,2:00\n',
      '5000 m in 120 s is faster than any human: is a column in another unit?',
    ],
    [
      'date,distance,time\n2026-11-26,5000,20:00\n',
      'Invalid distance "5000": expected one with its unit, as in 500 m; or give it with --map COLUMN=meters, km or mi',
    ],
    [
      'date,exercise,reps\n11/09/2026,dip,8\n',
      'Invalid date "11/09/2026": expected a date as in 2026-11-26 or 26.11.2026',
    ],
    [
      'date,exercise,reps,load\n2026-11-26,dip,8,+10\n',
      'Invalid load "+10": expected a mass, as in 92.5, 92.5 kg or bodyweight+10 kg',
    ],
    [
      'date,exercise,reps\n2026-11-26,plank,60s\n',
      'Invalid number of repetitions "60s": expected a whole number from 0 to 100',
    ],
    ['date;m;time\n2026-11-26;1,000;4:00\n', '"1,000" can be read in two ways: write 1000 or 1.000'],
    [
      'date,m,time,hr\n2026-11-26,400,80,17\n',
      'Invalid heart rate "17": expected a whole number from 30 to 250',
    ],
    ['date,m,time\n2026-11-26,400,1:75\n', 'Invalid time "1:75": expected seconds, m:ss or h:mm:ss'],
    ['date,m,time\n2026-11-26,,\n', 'a distance or a time is missing'],
    [
      'date,exercise,reps,side\n2026-11-26,lunge,8,both\n',
      'Invalid side "both": expected each side, each arm or each leg',
    ],
    [
      'date,exercise,reps\n2026-11-26,dip,8.5\n',
      'Invalid number of repetitions "8.5": expected a whole number from 0 to 100',
    ],
    ['date,exercise,groups\n2026-11-26,dip,2+x\n', 'Invalid groups "2+x": expected repetitions, as in 2+2'],
    [
      'date,exercise,reps,load,unit\n2026-11-26,dip,8,10,stone\n',
      'Invalid unit of a load "stone": expected kg or lb',
    ],
    [
      'session,date,exercise,reps\na,2026-11-26,dip,8\na,2026-11-27,dip,8\n',
      'the session a has the dates 2026-11-26 and 2026-11-27, but a session has only one',
    ],
    [
      'date,exercise,reps\n2026-11-26,3 rounds,8\n2026-11-26,squat,5\n',
      /^the session cannot be written as a day: a station has one number.* \("3 rounds: 1 x 8"\)\. Write another exercise, title or part in the table$/,
    ],
    [
      'date,exercise,reps,kg,lb\n2026-11-26,squat,5,100,300\n',
      'the row has different loads in kg, 100 and 136.1: keep only one of them',
    ],
    [
      'date,time,km,meters\n2026-11-26,20:00,5,4000\n',
      'the row has different distances in metres, 4000 and 5000: keep only one of them',
    ],
    [
      'date,exercise,reps,groups\n2026-11-26,squat,6,2+2\n',
      'the row has different numbers of repetitions, 4 and 6: keep only one of them',
    ],
    [
      'date,exercise,reps,rpe,rir\n2026-11-26,squat,6,8,0\n',
      'the row has different efforts as RPE, 8 and 10: keep only one of them',
    ],
    [
      'date,exercise,reps,rir\n2026-11-26,squat,6,2.3\n',
      'Invalid number of repetitions in reserve "2.3": expected halves from 0 to 9',
    ],
    [
      'date,exercise,reps,load,kg\n2026-11-26,squat,5,100,120\n',
      'the row has different loads in kg, 100 and 120: keep only one of them',
    ],
    [
      'date,exercise,reps,load,unit,lb\n2026-11-26,squat,5,100,kg,120\n',
      'the row has different loads in kg, 100 and 54.4: keep only one of them',
    ],
    [
      'date,exercise,reps,load,load_kind\n2026-11-26,carry,5,400,pair\n',
      'Invalid load "400": expected a mass up to 500 kg, of a pair together',
    ],
    [
      'date,exercise,seconds,meters\n2026-11-26,carry,30,40\n',
      'a set has either repetitions, a time or a distance: keep only one of them; runs go into a table of their own, without exercises',
    ],
    [
      'date,km,time\n2026-11-26,5,25:00:00\n',
      '5000 m in 90000 s is slower than a walk: is a column in another unit?',
    ],
    [
      'date,exercise,reps,load\n2026-11-26,squat,5,900\n',
      'Invalid load "900": expected a mass up to 500 kg, of a pair together',
    ],
    ['date,title,exercise,reps\n2026-11-26,run,dip,8\n', /^the session cannot be written as a day: /],
  ])('%j: %s', async (table, message) => {
    const ran = await importing(table, '--json')
    expect(ran.code).toBe(1)
    const { problems } = JSON.parse(ran.stdout).error
    expect(problems).toHaveLength(1)
    if (typeof message === 'string') expect(problems[0].message).toBe(message)
    else expect(problems[0].message).toMatch(message)
    expect(isEmpty(ran.logbook)).toBe(true)
  })

  it.each([
    [
      '',
      'The table has no rows. Give a CSV file with headings in its first line and a set or a split on each line below.',
    ],
    [
      '{"morning":{"date":"2026-11-25"}}\n',
      'These are lines of JSON, not a table. Write a table with "pausebook export --format csv", or move a whole logbook with "pausebook backup" and "pausebook restore".',
    ],
    [
      'date,exercise\n',
      'The table has no rows. Give a CSV file with headings in its first line and a set or a split on each line below.',
    ],
    ...['2026-11-26,"dip,8\n2026-11-26,dip,8\n2026-11-26,dip,8\n', '2026-11-26,dip"s,8\n'].map((rest) => [
      `date,exercise,reps\n2026-11-26,dip,8\n${rest}`,
      'The table cannot be read from line 3 on: a quote in it is not closed or is out of place. Nothing was stored; correct the file.',
    ]),
    [
      'exercise,reps\ndip,8\n',
      'No column is recognised as a date. The columns are "exercise", "reps". Say which one it is, as in --map "COLUMN=date".',
    ],
    [
      'date,mood\n2026-11-26,good\n',
      'No column is recognised as an exercise, a distance or a time. The columns are "date", "mood". Say which one it is, as in --map "COLUMN=exercise".',
    ],
  ])('%j is refused', async (table, message) => {
    const ran = await importing(table)
    expect([ran.code, ran.stdout, ran.stderr]).toEqual([1, '', `pausebook: ${message}\n`])
    expect(isEmpty(ran.logbook)).toBe(true)
  })

  it('stores none of the sessions if one cannot be saved', async () => {
    const logbook = temporaryFolder()
    mkdirSync(join(logbook, 'sessions', '2026'), { recursive: true })
    writeFileSync(join(logbook, 'sessions', '2027'), 'a file in the place of the folder')
    const files = { 'table.csv': sets.replace('2026-11-21', '2027-01-02') }
    const ran = await runProgram(['import', 'table.csv'], { files, logbook })
    expect(ran.code).toBe(3)
    expect(ran.stdout).toBe('')
    expect(readdirSync(join(logbook, 'sessions', '2026'))).toEqual([])
  })

  it('has stored all or nothing wherever it is killed', async () => {
    const folder = temporaryFolder()
    const count = 12
    const rows = Array.from({ length: count }, (_, day) => `2026-01-${day + 10},front squat,5,100`)
    const table = join(folder, 'table.csv')
    writeFileSync(table, ['date,exercise,reps,load', ...rows].join('\n'))
    const words = (logbook: string) => ['import', table, '--logbook', join(folder, logbook)]
    const calls = await callsOf(words('whole'), folder)
    // A session is written to a temporary file, flushed, renamed, and its folder flushed.
    expect(calls).toBeGreaterThan(count * 3)
    // Spread over the storing, and every call at its end, where the sessions appear. crash.test.ts checks every moment
    // without a process; two of these show that it is right.
    const spread = Array.from({ length: 4 }, (_, index) => 1 + Math.floor(((calls - 7) * index) / 4))
    const last = Array.from({ length: 7 }, (_, index) => calls - 6 + index)
    const places = isLongRun ? [...spread, ...last] : [spread[2] ?? 1, calls - 3]
    const found: number[] = []
    for (const call of places) {
      const logbook = `logbook-${call}`
      expect(await runKilledAt(call, words(logbook))).toBe(true)
      found.push(openLogbook(join(folder, logbook)).list().length)
      const left = existsSync(join(folder, logbook)) ? readdirSync(join(folder, logbook)) : []
      expect(left.filter((name) => name.includes('arriv'))).toEqual([])
    }
    expect(found).toEqual([...found].sort((one, other) => one - other))
    expect([...new Set(found)]).toEqual([0, count])
  })

  it('says how many of the sessions the logbook already has', async () => {
    const logbook = temporaryFolder()
    const files = { 'table.csv': sets }
    await runProgram(['import', 'table.csv'], { files, logbook })
    const { stdout } = await runProgram(['import', 'table.csv', '--dry'], { files, logbook })
    expect(stdout).toContain(
      '\nThe logbook already has sessions with the title and date of 2 of them; import keeps both.\nNothing was stored.\n',
    )
  })

  it('stores drops, lifts of a complex and stations of an exported table as sets of their own, and the rounds by their time', async () => {
    const first = temporaryFolder()
    const day =
      'Mix\ndate: 2026-11-26\n\nlift\n  curl 1 x (12 > 10) @ 20/15 kg\n  1 x (clean 1 + jerk 2) @ 60 kg\n  12 min of: 8 row @ 30 kg, 6 step-up\n'
    await keepOnPaper(first, day, '12>9 @9\n=\n6+3\n')
    const { stdout } = await runProgram(['export', '--what', 'sets'], { logbook: first })
    const { logbook } = await importing(stdout)
    const rows = (await tableOf(logbook, 'sets')).slice(1)
    expect(rows.map((row) => row.replace('2026-11-26,Mix,lift,', ''))).toEqual([
      'curl,1,,12,,,,20,kg,mass,20,,,,',
      'curl,2,,9,,,,15,kg,mass,15,9,,,',
      'clean,1,,1,,,,60,kg,mass,60,,,,',
      'jerk,1,,2,,,,60,kg,mass,60,,,,',
      'row step-up,1,,,,720,,,,,,,,,',
      'row,1,,51,,,,30,kg,mass,30,,,,',
      'step-up,1,,36,,,,,,,,,,,',
    ])
  })

  it('reads the last split of a mile in splits of 400 m, whose metres export writes as 9.344000000000051', async () => {
    const first = temporaryFolder()
    await keepOnPaper(first, 'Day\ndate: 2026-11-26\nrun\n  1 mi, split 400 m\n', '80\n80\n80\n80\n2\n')
    const { stdout } = await runProgram(['export', '--what', 'splits'], { logbook: first })
    expect(stdout).toContain(',9.344000000000051,')
    const { logbook } = await importing(stdout)
    const metersIn = (lines: string[]) => lines.slice(1).map((line) => line.split(',').at(-8))
    const exported = await tableOf(first, 'splits')
    expect(metersIn(exported)).toHaveLength(5)
    expect(metersIn(await tableOf(logbook, 'splits'))).toEqual(metersIn(exported))
  })

  it('reads everything that export writes', async () => {
    const loads = fc.oneof(
      fc.constant(['', '', '']),
      fc.tuple(
        fc.integer({ min: 1, max: 400 }).map((n) => String(n / 2)),
        fc.constantFrom('kg', 'lb'),
        fc.constantFrom('mass', 'pair', 'assisted', 'bodyweight'),
      ),
    )
    const doses = fc.oneof(
      fc.integer({ min: 0, max: 99 }).map((reps) => [String(reps), '', '', '']),
      fc
        .array(fc.integer({ min: 0, max: 9 }), { minLength: 2, maxLength: 5 })
        .map((groups) => [String(groups.reduce((sum, group) => sum + group, 0)), groups.join('+'), '', '']),
      fc.integer({ min: 1, max: 900 }).map((seconds) => ['', '', String(seconds / 4), '']),
      fc.integer({ min: 1, max: 900 }).map((meters) => ['', '', '', String(meters)]),
    )
    const row = fc.tuple(
      fc.constantFrom('2026-11-19', '2026-11-21'),
      fc.constantFrom('front squat', '90/90 hip lift', 'bench 2 board', 'plank'),
      fc.constantFrom('', 'each side', 'each arm'),
      doses,
      loads,
      fc.constantFrom('', '7', '8.5'),
      fc.constantFrom('', 'yes'),
      fc.constantFrom('', 'a "quoted", thing', "'=1+1", 'two\nlines'.replace('\n', ' ')),
    )
    const head = [
      'date',
      'exercise',
      'side',
      'reps',
      'groups',
      'seconds',
      'meters',
      'load',
      'unit',
      'load_kind',
      'rpe',
      'failed',
      'note',
    ]
    await fc.assert(
      fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 40 }), async (rows) => {
        const table = stringify([
          head,
          ...rows.map(([date, exercise, side, dose, load, ...rest]) => [
            date,
            exercise,
            side,
            ...dose,
            ...load,
            ...rest,
          ]),
        ])
        const first = await importing(table)
        expect(first.stderr).not.toContain('problem')
        const { stdout } = await runProgram(['export', '--what', 'sets'], { logbook: first.logbook })
        const second = await importing(stdout)
        expect(await tableOf(second.logbook, 'sets')).toEqual(await tableOf(first.logbook, 'sets'))
        const exported = (await tableOf(first.logbook, 'sets')).length - 1
        expect(exported).toBe(rows.length)
      }),
      { numRuns: 10 },
    )
  })
})
