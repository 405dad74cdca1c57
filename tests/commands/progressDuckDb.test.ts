import { createRequire } from 'node:module'
import { describe, expect, it } from 'vitest'
import { runOn, sixteenWeeks } from './overWeeks.ts'

const { askDuckDb } = createRequire(import.meta.url)('../../src/setup/duckdb.cjs')
const logbook = sixteenWeeks()
const run = runOn(logbook)
const jsonOf = async (...words: string[]) => JSON.parse((await run([...words, '--json'])).stdout)

/* Source: DuckDB, which reads the session files themselves and knows neither our index nor our code. */
describe('the results of another engine on the session files', () => {
  it('are the same by week of a lift', async () => {
    const { weeks } = await jsonOf('progress', 'lift', 'front squat')
    const ours = weeks
      .filter((week: { sets: number }) => week.sets > 0)
      .map(({ week, sets, reps, tonnageKg }: Record<string, unknown>) => ({ week, sets, reps, tonnageKg }))
    expect(ours.length).toBeGreaterThan(10)
    expect(await askDuckDb('lift', logbook)).toEqual(ours)
  })

  it('are the same in the list of sessions', async () => {
    type Row = { id: string; date: string; title: string; sets: number; effortMinutes: number | null }
    const sorted = (rows: Row[]) =>
      rows
        .map(({ id, date, title, sets, effortMinutes }) => ({ id, date, title, sets, effortMinutes }))
        .sort((a, b) => (a.id < b.id ? -1 : 1))
    const theirs = sorted(await askDuckDb('history', logbook))
    expect(theirs.length).toBeGreaterThan(100)
    expect(theirs).toEqual(sorted(await jsonOf('history')))
  })
})
