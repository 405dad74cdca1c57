import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import { marked, type Tokens } from 'marked'
import { describe, expect, it } from 'vitest'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { now } from '../commands/overWeeks.ts'
import { runProgram } from '../commands/runProgram.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

/* The manual's query over many logbooks is run exactly as written there. */

const [query = ''] = marked
  .lexer(readFileSync('shared/manual/logbook.md', 'utf8'))
  .filter((token): token is Tokens.Code => token.type === 'code' && token.lang === 'sql')
  .map(({ text }) => text)

interface Row {
  athlete: string
  week: string
  sessions: number
  km: number
  tonnage_kg: number
  effort_minutes: number | null
  effort_known: boolean
}

async function answered(squad: string): Promise<Row[]> {
  const connection = await (await DuckDBInstance.create()).connect()
  const reader = await connection.runAndReadAll(query.replace("'squad/", `'${squad}/`))
  return reader.getRowObjectsJson() as unknown as Row[]
}

/** What the program itself says about the weeks of a logbook with training. */
async function weeksOf(logbook: string): Promise<Omit<Row, 'athlete'>[]> {
  const progressOf = async (what: string) =>
    JSON.parse((await runProgram(['progress', what, '--json'], { logbook, now })).stdout).weeks
  const [runs, loads] = [await progressOf('run'), await progressOf('load')]
  const history: { date: string; tonnageKg: number }[] = JSON.parse(
    (await runProgram(['history', '--json'], { logbook, now })).stdout,
  )
  return loads.flatMap(
    (load: { week: string; days: { date: string; sessions: number }[] } & Load, at: number) => {
      const dates = load.days.map(({ date }) => date)
      const done = history.filter(({ date }) => dates.includes(date))
      if (done.length === 0) return []
      return [
        {
          week: load.week,
          sessions: done.length,
          km: runs[at].meters / 1000,
          tonnage_kg: done.reduce((sum, { tonnageKg }) => sum + tonnageKg, 0),
          effort_minutes: load.effortMinutes,
          effort_known: !load.atLeast,
        },
      ]
    },
  )
}
interface Load {
  effortMinutes: number
  atLeast: boolean
}

describe('the query over many logbooks in the manual', () => {
  it('gives the same result for each as its own progress', async () => {
    const squad = temporaryFolder()
    const expected: unknown[] = []
    for (const [athlete, seed] of [
      ['a', 1],
      ['b', 2],
    ] as const) {
      const logbook = join(squad, athlete)
      mkdirSync(logbook)
      writeMadeUpLogbook(logbook, { seed, weeks: 5, last: '2026-11-25' })
      writeFileSync(`${logbook}.ndjson`, (await runProgram(['export'], { logbook, now })).stdout)
      for (const week of await weeksOf(logbook)) expected.push({ athlete, ...week })
    }
    const rows = await answered(squad)
    expect(expected.length).toBe(10)
    expect(rows.length).toBe(10)
    rows.forEach((row, index) => {
      const { km, ...rest } = expected[index] as Row
      expect(row).toMatchObject(rest)
      expect(row.km).toBeCloseTo(km, 9)
    })
  })

  it('has an answer if one of them has only lifting, and no effort is known', async () => {
    const squad = temporaryFolder()
    const logbook = join(squad, 'lifter')
    const files = { 'day.txt': 'Legs\n\nlift\n  front squat 1 x 5 @ 100 kg\n', 'results.txt': '5\n' }
    await runProgram(['backfill', 'day.txt', 'results.txt', '--date', '2027-01-01'], { files, logbook, now })
    writeFileSync(`${logbook}.ndjson`, (await runProgram(['export'], { logbook, now })).stdout)
    expect(await answered(squad)).toEqual([
      {
        athlete: 'lifter',
        week: '2026-W53',
        sessions: 1,
        km: 0,
        tonnage_kg: 500,
        effort_minutes: null,
        effort_known: false,
      },
    ])
  })
})
