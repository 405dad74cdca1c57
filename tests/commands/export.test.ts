import { mkdirSync, readFileSync, statSync, utimesSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import { setRows, splitRows } from '../../src/commands/export.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { replay } from '../../src/session/replay.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { publishedSchema } from '../publishedSchema.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keepOnPaper } from './onPaper.ts'
import { runProgram } from './runProgram.ts'

/* The tables are parsed by csv-parse, which knows nothing of this program. */

const thursday = `Thursday, "five hundreds"
date: 2026-11-26

run: track
  2 x 500 m @ 3:35-3:45/km, jog 200 m

lift: legs
  front squat: 2 x (1+1) @ 92.5 kg, pause 20 s, rest 2:30
  split squat 1 x 8 each side @ 2x22.5 kg + pull-up 1 x 5 @ bodyweight-20 kg
  dip 1 x 8 @ bodyweight+10 kg
  plank 1 x 45 s
`
const kept = `1:49.2 hr 171/183 "=HYPERLINK(1)"
-
1+1 @8
1+0 @9 "tired, slow"
8
5 pain "left elbow"
8 "-not easy"
=
`

async function filled(): Promise<{ logbook: string; id: string }> {
  const logbook = temporaryFolder()
  return { logbook, id: await keepOnPaper(logbook, thursday, kept) }
}

async function table(...options: string[]) {
  const { logbook, id } = await filled()
  const ran = await runProgram(['export', ...options], { logbook })
  expect(ran.stderr).toBe('')
  expect(ran.code).toBe(0)
  return { text: ran.stdout, id, rows: parse<Record<string, string>>(ran.stdout, { columns: true }) }
}

/** An empty logbook, and what is typed into it on a morning. */
function mornings() {
  const logbook = temporaryFolder()
  return { logbook, morning: (words: string) => runProgram(['morning', words], { logbook }) }
}

describe('pausebook export', () => {
  it('writes the summary of a session on each line, oldest first, as its schema says', async () => {
    const { logbook, id } = await filled()
    const earlier = openLogbook(logbook).create(legs, { ...started, date: '2026-11-19' }, [
      setRecorded(1),
      finished,
    ])
    earlier.close()
    const ran = await runProgram(['export'], { logbook })
    expect(ran.code).toBe(0)
    expect(ran.stdout.endsWith('}\n')).toBe(true)
    const lines = ran.stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line))
    expect(lines.map((line) => line.session.id)).toEqual([earlier.id, id])
    const isSummary = publishedSchema('summary')
    for (const line of lines) expect(isSummary(line), JSON.stringify(isSummary.errors)).toBe(true)
    const one = await runProgram(['summary', id, '--json'], { logbook })
    // "next" reads all earlier sessions, so an export leaves it out.
    expect(lines[1]).toEqual({ ...JSON.parse(one.stdout), next: [] })
  })

  it('writes one line for each set as CSV', async () => {
    const { rows, id } = await table('--format', 'csv')
    const cells = [
      'exercise',
      'set',
      'side',
      'reps',
      'groups',
      'seconds',
      'load',
      'unit',
      'load_kind',
      'load_kg',
    ]
    expect(rows.map((row) => cells.map((cell) => row[cell]))).toEqual([
      ['front squat', '1', '', '2', '1+1', '', '92.5', 'kg', 'mass', '92.5'],
      ['front squat', '2', '', '1', '1+0', '', '92.5', 'kg', 'mass', '92.5'],
      ['split squat', '1', 'each side', '8', '', '', '22.5', 'kg', 'pair', '45'],
      ['pull-up', '1', '', '5', '', '', '20', 'kg', 'assisted', ''],
      ['dip', '1', '', '8', '', '', '10', 'kg', 'bodyweight', '10'],
      ['plank', '1', '', '', '', '45', '', '', '', ''],
    ])
    expect(rows.map((row) => [row.rpe, row.failed, row.note, row.pain])).toEqual([
      ['8', '', '', ''],
      ['9', '', 'tired, slow', ''],
      ['', '', '', ''],
      ['', '', '', 'left elbow'],
      ['', '', "'-not easy", ''],
      ['', '', '', ''],
    ])
    for (const row of rows) {
      const { session, date, title, part } = row
      expect({ session, date, title, part }).toEqual({
        session: id,
        date: '2026-11-26',
        title: 'Thursday, "five hundreds"',
        part: 'lift: legs',
      })
    }
  })

  it('writes one line for each split as CSV', async () => {
    const { rows } = await table('--what', 'splits')
    expect(rows).toHaveLength(1)
    expect(rows[0]).toMatchObject({
      part: 'run: track',
      work: '2 x 500 m @ 3:35-3:45/km, jog 200 m',
      number: '1',
      meters: '500',
      seconds: '109.2',
      target: 'in',
      heart_rate: '171',
      heart_rate_max: '183',
      rpe: '',
    })
  })

  it('ends its lines according to RFC 4180 and quotes what must be quoted', async () => {
    const { text } = await table('--what', 'sets')
    const lines = text.split('\r\n')
    expect(lines.at(-1)).toBe('')
    expect(lines).toHaveLength(8)
    expect(lines.join('')).not.toContain('\n')
    expect(lines[1]).toContain('"Thursday, ""five hundreds"""')
  })

  // OWASP, CSV Injection: cells that begin with = + - @, a tab or a carriage return.
  it('gives a spreadsheet no formula', async () => {
    const { rows } = await table('--what', 'splits')
    expect(rows[0]?.note).toBe("'=HYPERLINK(1)")
  })

  it("writes the athlete's own texts to the last character, without one that would steer a terminal", async () => {
    const logbook = temporaryFolder()
    const text = 'Ten\n# left \u202e right \u0085\n'
    writeFileSync(join(logbook, 'plan.txt'), text)
    const { stdout } = await runProgram(['export'], { logbook })
    expect(JSON.parse(stdout)).toEqual({ file: { name: 'plan.txt', text } })
    expect(stdout).toContain('left \\u202e right \\u0085')
  })

  it('writes a morning as a row of a table, each cell as it is typed', async () => {
    const { logbook, morning } = mornings()
    await morning('6:40 h, 48 bpm, 67.8 kg, legs 3, left calf 2, "late train"')
    await morning('2026-11-25, 49 bpm, "-5; odd"')
    const { stdout } = await runProgram(['export', '--what', 'mornings'], { logbook })
    expect(stdout.split('\r\n')).toEqual([
      'date,sleep,resting heart rate,body mass,soreness,note',
      "2026-11-25,,49 bpm,,,'-5; odd",
      '2026-11-26,6:40 h,48 bpm,67.8 kg,"legs 3, left calf 2",late train',
      '',
    ])
  })

  it('writes the mornings as lines after the sessions and before the plan', async () => {
    const { logbook, morning } = mornings()
    await morning('6:40 h, 48 bpm, 149.5 lb, legs 3, left calf 2, "late train"')
    await morning('2026-11-25, 49 bpm')
    await keepOnPaper(logbook, 'Easy\nrun\n  5 km easy\n', '28:00\n', { date: '2026-11-24' })
    const plan = '\uFEFFA # mine\r\n2026-11-23: 42 km\r\n'
    writeFileSync(join(logbook, 'plan.txt'), plan)
    const lines = (await runProgram(['export'], { logbook })).stdout
    const [session, first, second] = lines.split('\n').map((line) => (line === '' ? null : JSON.parse(line)))
    expect(session.session.title).toBe('Easy')
    expect(first).toEqual({
      morning: {
        date: '2026-11-25',
        sleepSeconds: null,
        restingHeartRate: 49,
        bodyMass: null,
        soreness: [],
        note: null,
      },
    })
    expect(second.morning.bodyMass).toEqual({ value: 149.5, unit: 'lb' })
    expect(JSON.parse(lines.split('\n')[3] ?? '')).toEqual({ file: { name: 'plan.txt', text: plan } })
  })

  it('is empty for an empty logbook, but a table has its headings', async () => {
    const [logbook, full] = [temporaryFolder(), (await filled()).logbook]
    expect(await runProgram(['export'], { logbook })).toEqual({ code: 0, stdout: '', stderr: '' })
    for (const what of ['sets', 'splits', 'mornings']) {
      const { stdout } = await runProgram(['export', '--what', what], { logbook })
      expect(stdout).toMatch(/^[a-z_ ,]+\r\n$/)
      expect((await runProgram(['export', '--what', what], { logbook: full })).stdout).toContain(stdout)
    }
  })

  it('has a heading for every cell of a row', async () => {
    const { logbook } = await filled()
    const state = replay(openLogbook(logbook).read('newest').session)
    for (const [what, rows] of [
      ['sets', setRows(state, '1')],
      ['splits', splitRows(state, '1')],
    ] as const) {
      const { stdout } = await runProgram(['export', '--what', what], { logbook })
      expect(stdout.split('\r\n')[0]).toBe(Object.keys(rows[0]!).join())
    }
  })

  it('refuses a table as NDJSON, and unknown formats', async () => {
    expect(await runProgram(['export', '--format', 'ndjson', '--what', 'sets'])).toEqual({
      code: 2,
      stdout: '',
      stderr:
        'pausebook: A line of NDJSON is a whole session or a morning, so --what cannot be chosen. Leave it out, or write --format csv.\n',
    })
    expect((await runProgram(['export', '--format', 'xlsx'])).code).toBe(2)
    expect((await runProgram(['export', '--what', 'laps'])).code).toBe(2)
  })

  it('names a session that cannot be read, exports all others, and exits with 3', async () => {
    const { logbook, id } = await filled()
    const other = openLogbook(logbook).create(legs, started, [setRecorded(1), finished])
    other.close()
    writeFileSync(openLogbook(logbook).read(id).entry.path, '{"format": 99}')
    for (const options of [[], ['--what', 'sets']]) {
      const ran = await runProgram(['export', ...options], { logbook })
      expect(ran.code).toBe(3)
      expect(ran.stdout).toContain(other.id)
      expect(ran.stdout).not.toContain(id)
      expect(ran.stderr).toContain(`pausebook: sessions/2026/2026-11-26-${id}.json: The file has format 99,`)
    }
  })

  it('names a session that a disk has ruined without a trace in its size and time, and so does a search for a text', async () => {
    const { logbook, id } = await filled()
    await runProgram(['history'], { logbook })
    const { path } = openLogbook(logbook).read(id).entry
    const { atime, mtime } = statSync(path)
    writeFileSync(path, readFileSync(path, 'utf8').replace('"reps":8', '"reps":9'))
    utimesSync(path, atime, mtime)
    for (const words of [['export'], ['export', '--what', 'sets'], ['history', '--text', 'slow']]) {
      const ran = await runProgram(words, { logbook })
      expect(ran.code).toBe(3)
      expect(ran.stdout).not.toContain(id)
      expect(ran.stderr).toContain(`2026-11-26-${id}.json: The file does not match its checksum`)
    }
  })

  it('names a plan and a year of mornings that cannot be read, and exports all others', async () => {
    const { logbook, id } = await filled()
    mkdirSync(join(logbook, 'mornings'))
    writeFileSync(join(logbook, 'mornings', '2026.json'), '')
    writeFileSync(join(logbook, 'plan.txt'), Buffer.from([0xe9]))
    writeFileSync(join(logbook, 'foods.txt'), 'rice 100 g: 28 C\n')
    const { code, stdout, stderr } = await runProgram(['export'], { logbook })
    expect(code).toBe(3)
    expect(stdout).toContain(id)
    expect(stdout).toContain('"rice 100 g: 28 C\\n"')
    expect(stderr).toMatch(
      /^pausebook: mornings\/2026\.json: The file is empty\. .*\npausebook: plan\.txt: plan\.txt is not UTF-8 text\. .*\n$/,
    )
  })

  it('names damaged settings, on which the figures depend, and exits with 3', async () => {
    const { logbook, id } = await filled()
    writeFileSync(join(logbook, 'settings.json'), '{"format": 1, "adv')
    const ran = await runProgram(['export'], { logbook })
    expect(ran.code).toBe(3)
    expect(ran.stdout).toContain(id)
    expect(ran.stderr).toMatch(/^pausebook: settings\.json: [^\n]+\n$/)
  })
})
