import { existsSync, readdirSync, readFileSync, utimesSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { hasResult } from '../../src/prescription/step.ts'
import { replay } from '../../src/session/replay.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

const day = `Thursday: front squat
date: 2026-11-26
athlete: 68 kg

run: track
  2 km easy
  2 x 500 m @ 3:35-3:45/km, jog 200 m

lift: legs
  front squat: 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30
`
const results = `start: 06:40
=
[06:58] 1:49.2 hr 171
1:48
=
1+1+0 @9
run: effort 8, 62 min
lift: effort 7, 35 min
`
const undated = day.replace('date: 2026-11-26\n', '')
const percent = 'Friday\ndate: 2026-11-27\n\nlift\n  front squat: 2 x 3 @ 85%, rest 2:30, build from 40 kg\n'

describe('pausebook backfill', () => {
  let logbook = ''
  beforeEach(() => {
    logbook = temporaryFolder()
  })

  async function backfill(files: Record<string, string>, ...options: string[]) {
    const command = ['backfill', 'day.txt', 'results.txt', ...options]
    return runProgram(command, { files, logbook, now: new Date('2026-11-27T20:00:00+01:00') })
  }

  it('stores a session with a date in the future, and asks to check the date', async () => {
    const future = day.replace('2026-11-26', '2026-11-28')
    const ran = await backfill({ 'day.txt': future, 'results.txt': results })
    expect(ran).toMatchObject({
      code: 0,
      stderr: 'pausebook: 2026-11-28 is in the future. Check the date.\n',
      stdout: expect.stringMatching(/^[23456789a-z]{10}\n$/),
    })
  })

  it('stores a session that was kept on paper, and prints its id', async () => {
    const ran = await backfill({ 'day.txt': day, 'results.txt': results })
    expect(ran.stderr).toBe('')
    expect(ran.code).toBe(0)
    expect(ran.stdout).toMatch(/^[23456789a-z]{10}\n$/)
    const { session, entry, recordedBy } = openLogbook(logbook).read(ran.stdout.trim())
    expect(entry.date).toBe('2026-11-26')
    expect(recordedBy).toBeNull()
    const state = replay(session)
    expect(state.finished).toBe(true)
    expect(state.fromPaper).toBe(true)
    expect(state.bodyMassKg).toBe(68)
    expect(state.recorded.size).toBe(5)
    expect(session.events[0]?.at).toBe('2026-11-26T06:40:00.000+01:00')
    expect(session.events[2]?.at).toBe('2026-11-26T06:58:00.000+01:00')
  })

  it('prints JSON with --json', async () => {
    const ran = await backfill({ 'day.txt': day, 'results.txt': results }, '--json')
    expect(JSON.parse(ran.stdout)).toEqual({
      id: openLogbook(logbook).list()[0]?.id,
      title: 'Thursday: front squat',
      date: '2026-11-26',
    })
  })

  it('stores nothing if an entry cannot be read, and says which line and what was expected there', async () => {
    const ran = await backfill({ 'day.txt': day, 'results.txt': results.replace('1:48', '1.48') })
    expect(ran).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: The results file "results.txt" has 1 problem. Nothing was stored; correct the file.\n' +
        'results.txt:4:1: 1.48 s for 500 m is faster than any human; did you mean 1:48? If it is right, end the line with !! (expected here: repeat 2 of 2: 500 m, line 7 of the prescription)\n' +
        '  1.48\n' +
        '  ^^^^\n',
    })
    expect(existsSync(join(logbook, 'sessions'))).toBe(false)
  })

  it('stores nothing if there is an entry too many', async () => {
    const ran = await backfill({ 'day.txt': day, 'results.txt': `${results}6\n7\n` }, '--json')
    const message = 'nothing is expected here: the prescription asks for 5 results'
    expect(ran.code).toBe(1)
    expect(JSON.parse(ran.stdout)).toEqual({
      error: {
        code: 'bad_results',
        message: 'The results file "results.txt" has 1 problem. Nothing was stored; correct the file.',
        problems: [{ line: 9, column: 1, message }],
      },
    })
    expect(existsSync(join(logbook, 'sessions'))).toBe(false)
  })

  it('stores nothing if the prescription cannot be read', async () => {
    const ran = await backfill({ 'day.txt': day.replace('3:35-3:45', '3:75'), 'results.txt': results })
    expect(ran.code).toBe(1)
    expect(ran.stderr).toContain(
      'pausebook: The prescription "day.txt" has 1 problem. Correct the file.\nday.txt:7:',
    )
    expect(existsSync(join(logbook, 'sessions'))).toBe(false)
  })

  it('asks for the date if neither file has one', async () => {
    const files = { 'day.txt': undated, 'results.txt': results }
    expect(await backfill(files)).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: Neither the results nor the prescription have a date. Give it with --date, as in --date 2026-11-26.\n',
    })
    const ran = await backfill(files, '--date', '2026-11-20')
    expect(ran.code).toBe(0)
    expect(
      openLogbook(logbook)
        .list()
        .map((entry) => entry.date),
    ).toEqual(['2026-11-20'])
  })

  it('says if --date is ignored', async () => {
    const ran = await backfill({ 'day.txt': day, 'results.txt': results }, '--date', '2026-11-20')
    expect(ran.stderr).toBe('pausebook: The files are dated 2026-11-26; --date 2026-11-20 was ignored.\n')
    expect(ran.code).toBe(0)
  })

  it('refuses an invalid date', async () => {
    const ran = await backfill({ 'day.txt': day, 'results.txt': results }, '--date', '26.11.2026')
    expect(ran).toEqual({
      code: 2,
      stdout: '',
      stderr: 'pausebook: Invalid date "26.11.2026". Example: --date 2026-11-26.\n',
    })
  })

  it('refuses empty results', async () => {
    const ran = await backfill({ 'day.txt': day, 'results.txt': '\n# later\n' })
    expect(ran).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: The results file "results.txt" has no entries. Write one entry a line, = for as prescribed and - for skipped.\n',
    })
  })

  it('refuses to read both files from standard input, and files that do not exist', async () => {
    const both = await runProgram(['backfill', '-', '-'], { files: { '-': day }, logbook })
    expect(both).toEqual({
      code: 2,
      stdout: '',
      stderr:
        'pausebook: Both files are standard input, which can only be read once. Give the path of one of them.\n',
    })
    const none = await backfill({ 'day.txt': day })
    expect(none.code).toBe(1)
    expect(none.stderr).toBe('pausebook: There is no results file "results.txt". Check the path.\n')
    expect((await runProgram(['backfill', 'day.txt'])).code).toBe(2)
  })

  it('stores the same day twice, and says so', async () => {
    const first = await backfill({ 'day.txt': day, 'results.txt': results })
    const second = await backfill({ 'day.txt': day, 'results.txt': results })
    expect(second.code).toBe(0)
    expect(second.stderr).toBe(
      `pausebook: The logbook has another session with this title and date, ${first.stdout.trim()}. Both are kept.\n`,
    )
    expect(openLogbook(logbook).list()).toHaveLength(2)
  })

  it('computes percentages from earlier sessions', async () => {
    const before = { 'day.txt': day, 'results.txt': results }
    const after = { 'day.txt': percent.replace(', build from 40 kg', ''), 'results.txt': '3\n' }
    expect((await backfill(after)).stderr).toContain('the load is not known yet')
    await backfill(before)
    const ran = await backfill({ ...after, 'day.txt': percent })
    expect(ran.stderr).toBe('')
    const { events } = openLogbook(logbook).read(ran.stdout.trim()).session
    const recorded = events.find((event) => event.type === 'setRecorded')
    // From 1+1+0 x 92.5 kg @9: two repetitions in groups, one in reserve.
    const started = events[0]
    expect(started?.type === 'sessionStarted' ? started.maxima[0]?.basis : null).toBe(
      'estimate of 26 Nov 2026',
    )
    expect(recorded?.type === 'setRecorded' ? recorded.result.load : null).toMatchObject({
      kind: 'mass',
      unit: 'kg',
    })
  })

  it('counts sets of 80 % of an earlier maximum as heavy, whether the load was written in kg or as a share', async () => {
    const lift = (date: string, line: string) => `Squats\ndate: ${date}\n\nlift\n  ${line}\n`
    const efforts = '5 @7\n5 @7\n5 @7.5\n5 @7.5\n'
    await backfill({
      'day.txt': lift('2026-11-20', 'squat 1 x 1 @ 111.7 kg'),
      'results.txt': '1 @10\n',
    })
    await backfill({ 'day.txt': lift('2026-11-24', 'squat 4 x 5 @ 90 kg'), 'results.txt': efforts })
    await backfill({ 'day.txt': lift('2026-11-26', 'squat 4 x 5 @ 80%'), 'results.txt': efforts })
    // 80 % of 111.7 kg are 89.4 kg, made as 90 kg.
    expect(
      openLogbook(logbook)
        .index()
        .map(({ date, day }) => [date, day.heavyLegSets]),
    ).toEqual([
      ['2026-11-26', 4],
      ['2026-11-24', 4],
      ['2026-11-20', 1],
    ])
  })

  it('cannot write if the logbook is a file', async () => {
    const ran = await runProgram(['backfill', 'day.txt', 'results.txt'], {
      files: { 'day.txt': day, 'results.txt': results },
      logbook: '/dev/null/logbook',
    })
    expect(ran.code).toBe(3)
    expect(ran.stdout).toBe('')
    expect(ran.stderr).toMatch(
      /^pausebook: The session cannot be saved in \/dev\/null\/logbook: a file has .* Nothing was stored\. Make room .* try again\.$/m,
    )
  })

  it('stores two pages of one date in the order of typing, also where sync or a restore has written their files anew', async () => {
    const pages = [
      ['Morning', 'run\n  5 km tempo', '20:00'],
      ['Evening', 'lift\n  front squat: 1 x 5 @ 100 kg', '5 @8'],
    ] as const
    for (const [index, [title, part, result]] of pages.entries()) {
      const ran = await runProgram(['backfill', 'day.txt', 'results.txt', '--date', '2026-11-26'], {
        files: { 'day.txt': `${title}\n\n${part}\n`, 'results.txt': `${result}\n` },
        logbook,
        now: new Date(Date.parse('2026-11-26T21:00:00Z') + index * 60_000),
      })
      utimesSync(openLogbook(logbook).read(ran.stdout.trim()).entry.path, 2e9, 2e9 - index)
    }
    const opened = openLogbook(logbook)
    expect(opened.index().map(({ brief }) => brief.title)).toEqual(['Evening', 'Morning'])
    expect(opened.read('newest').session.prescription.title).toBe('Evening')
  })

  it('leaves no lock and no temporary file', async () => {
    await backfill({ 'day.txt': day, 'results.txt': results })
    const names = readdirSync(join(logbook, 'sessions', '2026'))
    expect(names.filter((name) => !name.endsWith('.json'))).toEqual([])
  })
})

describe('the finished sample sessions', () => {
  const samples = readdirSync('sample-sessions').filter((name) => name.endsWith('.results.txt'))

  it('include at least two', () => {
    expect(samples.length).toBeGreaterThanOrEqual(2)
  })

  it.each(samples)('%s is stored without a message, with every result of its day', async (name) => {
    const folder = temporaryFolder()
    const day = name.replace('.results.txt', '.txt')
    const files = Object.fromEntries(
      [day, name].map((file) => [file, readFileSync(join('sample-sessions', file), 'utf8')]),
    )
    const now = new Date('2026-11-30T20:00:00+01:00')
    const ran = await runProgram(['backfill', day, name], { files, logbook: folder, now })
    expect(ran.stderr).toBe('')
    expect(ran.code).toBe(0)
    const state = replay(openLogbook(folder).read(ran.stdout.trim()).session)
    expect(state.finished).toBe(true)
    const open = state.steps.filter(
      (step) => hasResult(step) && !state.recorded.has(step.id) && !state.skipped.has(step.id),
    )
    expect(open).toEqual([])
    expect(state.startedAt).not.toBeNull()
  })
})
