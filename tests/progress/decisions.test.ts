import { readFileSync } from 'node:fs'
import { describe, expect, it, test } from 'vitest'
import type { SessionState } from '../../src/session/state.ts'
import { gear, nextOf, state, today } from './nextDays.ts'

/* What the days of a line mean for the next one like it, asked on 26 November: golden/decisions.txt has a situation a
 * heading, and under each line its days with what was entered, then the decisions. To add one, write its days, draw the
 * decisions with -u, and read them. All of them are this program's own rules. */

const golden = readFileSync(new URL('golden/decisions.txt', import.meta.url), 'utf8')
const situations = golden.trimEnd().split('\n\n')

/** What was entered on a day: `2026-11-19 effort 8: 1:52, 1:52`. */
function dayIn(cell: string, lines: string): SessionState {
  const [, date = '', effort = null, entries = ''] = /^(\S{10})(?: effort (\S+))?: (.*)$/.exec(cell) ?? []
  return state(date, lines, entries, effort === null ? null : Number(effort))
}

/** A situation with its decisions made anew. */
function decided(situation: string): string {
  let lines = ''
  const drawn = situation.split('\n').map((row) => {
    if (row.startsWith('== ')) lines = row.slice(3).replaceAll(' / ', '\n')
    if (row.startsWith('=')) return row
    const days = row.split(' | ').filter((cell) => /^\d{4}-/.test(cell))
    const [now, ...before] = days.map((cell) => dayIn(cell, lines)).reverse()
    if (now === undefined) throw new Error(`no day in "${row}"`)
    const told = nextOf(now, before, today, gear).decisions
    const reasons = told.map(({ decision, reason }) => `${decision}: ${reason}`)
    return [...days, ...(reasons.length > 0 ? reasons : ['nothing'])].join(' | ')
  })
  return drawn.join('\n')
}

describe('a line of the next day', () => {
  it.each(situations.map((each) => [each.split('\n')[0]?.slice(2), each]))('%s', (_, situation) => {
    expect(decided(situation ?? '')).toBe(situation)
  })
})

test('every decision is drawn into the golden file', async () => {
  await expect(`${situations.map(decided).join('\n\n')}\n`).toMatchFileSnapshot('golden/decisions.txt')
})
