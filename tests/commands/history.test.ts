import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runOn, sixteenWeeks } from './overWeeks.ts'
import { runProgram } from './runProgram.ts'

const logbook = sixteenWeeks()
const run = runOn(logbook)
const folder = join(logbook, 'sessions')
const made = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.json'))
  .map((name) => ({
    date: basename(name).slice(0, 10),
    session: JSON.parse(readFileSync(join(folder, name), 'utf8')),
  }))

describe('history', () => {
  /* Tonnage by hand: bench press 4 x 5 x 72.5, dip 3 x 8 x 10, dumbbell row 3 x 10 each arm x 27.5, overhead
   * press 10 x 30 + 8 x 35 + 6 x 40; pull-up 4 x 5 x 10, barbell row 4 x 8 x 65. */
  it('prints the sessions newest first, one whole line each, into a pipe', async () => {
    const { code, stdout, stderr } = await run(['history', '--from', '2026-11-23'])
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' })
    expect(stdout.replace(/ [2-9a-z]{10} {2}/g, ' ID')).toBe(
      `2026-11-25  ID             255 (5)  Wednesday: push: bench press, dip, dumbbell row, overhead press (13 sets, 4160 kg)
2026-11-24  ID    8 km     378 (7)  Tuesday: track
2026-11-23  ID             371 (7)  Monday: pull: pull-up, barbell row, farmer carry (11 sets, 2280 kg)
2026-11-23  ID    8 km     135 (3)  Easy 8 km
`,
    )
  })

  it('prints a head, and lines no longer than the terminal, onto a terminal', async () => {
    const { stdout } = await run(['history'], { terminal: true, columns: 60 })
    const lines = stdout.trimEnd().split('\n')
    expect(lines[0]).toBe('date        session          run        load  day')
    expect(lines).toHaveLength(103)
    for (const line of lines) expect([...line].length).toBeLessThanOrEqual(60)
  })

  it('filters by days, lift and words', async () => {
    const count = async (...words: string[]) =>
      JSON.parse((await run(['history', ...words, '--json'])).stdout).length
    const has = (text: string) => (each: { session: unknown }) => JSON.stringify(each.session).includes(text)
    expect(await count()).toBe(made.length)
    expect(await count('--to', '2026-08-16')).toBe(made.filter(({ date }) => date <= '2026-08-16').length)
    expect(await count('--lift', 'Pull Ups')).toBe(made.filter(has('"pull-up"')).length)
    expect(await count('--text', '10 km RACE')).toBe(made.filter(has('10 km race')).length)
    const long = made.filter(has('strides')).filter(({ date }) => date >= '2026-11-01')
    expect(await count('--text', 'strides', '--from', '2026-11-01')).toBe(long.length)
    expect(long.length).toBeGreaterThan(1)
  })

  it('prints the sessions as JSON', async () => {
    const [first] = JSON.parse(
      (await run(['history', '--from', '2026-11-24', '--to', '2026-11-24', '--json'])).stdout,
    )
    expect(first).toEqual({
      id: expect.stringMatching(/^[2-9a-z]{10}$/),
      date: '2026-11-24',
      title: 'Tuesday: track',
      finished: true,
      runMeters: 8000,
      crossMeters: 0,
      exercises: [],
      sets: 0,
      tonnageKg: 0,
      minutes: 54,
      effortMinutes: 378,
      effortMinutesAtLeast: false,
      efforts: [{ kind: 'run', name: 'track', effort: 7 }],
      otherVersion: null,
    })
  })

  it('says if no session matches, and if there are no sessions', async () => {
    expect(await run(['history', '--text', 'swimming'])).toEqual({
      code: 0,
      stdout: '',
      stderr: 'pausebook: None of the 102 sessions matches.\n',
    })
    expect(await run(['history', '--text', 'swimming', '--json'])).toMatchObject({ code: 0, stdout: '[]\n' })
    expect((await run(['history', '--lift', 'dead lift'])).code).toBe(0)
    expect(await run(['history', '--lift', 'benchpres'])).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: No session has "benchpres". Write one of "front squat", "bench press", "dip", "dumbbell row", "overhead press".\n',
    })
    const all = await run(['history', '--lift', 'front squat'])
    expect(await run(['history', '--lift', 'squat'])).toEqual({
      ...all,
      stderr: 'pausebook: "squat" is read as "front squat", the only lift that contains it.\n',
    })
    const none = await runOn('/nowhere/logbook')(['history'])
    expect(none).toMatchObject({
      code: 1,
      stdout: '',
      stderr: expect.stringContaining('no session in the logbook'),
    })
  })

  it('does not call a logbook empty if its sessions cannot be read', async () => {
    const logbook = temporaryFolder()
    mkdirSync(join(logbook, 'sessions', '2026'), { recursive: true })
    writeFileSync(join(logbook, 'sessions', '2026', '2026-11-26-abcdef2345.json'), 'rubbish')
    const { code, stdout, stderr } = await runOn(logbook)(['history'])
    expect([code, stdout]).toEqual([3, ''])
    expect(stderr).toMatch(
      /^pausebook: sessions\/2026\/.+\npausebook: No session in this logbook can be read\. .+\n$/,
    )
  })

  it('says on a terminal how many sessions it reads, if they are so many that it takes a second', async () => {
    const said = async (count: number, terminal: boolean) => {
      const logbook = temporaryFolder()
      const year = join(logbook, 'sessions', '2026')
      mkdirSync(year, { recursive: true })
      for (let number = 1; number <= count; number += 1)
        writeFileSync(join(year, `2026-11-26-${100_000 + number}.json`), '')
      const { stderr } = await runProgram(['history'], { logbook, terminal })
      return stderr.match(/^Reading.*$/m)?.[0] ?? 'nothing'
    }
    expect(await said(500, true)).toBe('Reading 500 sessions once ...')
    expect(await said(500, false)).toBe('nothing')
    expect(await said(499, true)).toBe('nothing')
  })
})
