import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { temporaryFolder } from '../logbook/temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

/** One lift line kept on paper on several days, one day after the other; the ids. */
async function kept(
  logbook: string,
  line: string,
  days: [date: string, results: string][],
): Promise<string[]> {
  const ids: string[] = []
  for (const [date, results] of days) {
    const day = `Legs\ndate: ${date}\n\nrun\n  2 km @ 4:00-4:10/km\n\nlift: legs\n  ${line}\n`
    const files = { 'day.txt': day, 'results.txt': `8:10\n${results.replaceAll(', ', '\n')}\n` }
    const ran = await runProgram(['backfill', 'day.txt', 'results.txt'], { files, logbook })
    if (ran.code !== 0) throw new Error(ran.stderr)
    ids.push(ran.stdout.trim())
  }
  return ids
}

/** What is printed of the lift line after these days. */
async function again(line: string, ...days: string[]): Promise<{ comment: string | null; line: string }> {
  const logbook = temporaryFolder()
  const dates = ['2026-11-12', '2026-11-19', '2026-11-26'].slice(-days.length)
  const ids = await kept(
    logbook,
    line,
    days.map((results, index) => [dates[index] ?? '', results]),
  )
  const ran = await runProgram(['again', ids.at(-1) ?? ''], { logbook })
  expect(ran.stderr).toBe('')
  expect(ran.code).toBe(0)
  const lines = ran.stdout.split('\n')
  const at = lines.indexOf('lift: legs')
  const comment = lines[at + 1]?.startsWith('  # ') ? (lines[at + 1]?.slice(4) ?? '') : null
  return { comment, line: lines[at + (comment === null ? 1 : 2)]?.trim() ?? '' }
}

describe('pausebook again', () => {
  const squat = 'front squat: 2 x 3 @ 92.5 kg, rest 2:30'
  const asItWas = { comment: null, line: 'front squat 2 x 3 @ 92.5 kg, rest 2:30' }

  it('prints the day as notation, without its date, with each change and its reason as a comment', async () => {
    const logbook = temporaryFolder()
    const [, id = ''] = await kept(logbook, squat, [
      ['2026-11-19', '=, ='],
      ['2026-11-26', '=, 4'],
    ])
    const ran = await runProgram(['again', id], { logbook })
    expect(ran).toEqual({
      code: 0,
      stderr: '',
      stdout: `# The day of 2026-11-26 (${id}) again; 1 load changed, paces as they were.
Legs
units: km kg

run
  2 km @ 4:00-4:10/km

lift: legs
  # front squat: 92.5 kg -> 95 kg: all sets complete on 2026-11-19 and 2026-11-26
  front squat 2 x 3 @ 95 kg, rest 2:30
`,
    })
    expect('prescription' in readPrescription(ran.stdout)).toBe(true)
    const json = await runProgram(['again', id, '--json'], { logbook })
    expect(JSON.parse(json.stdout)).toEqual({
      session: id,
      changes: ['front squat: 92.5 kg -> 95 kg: all sets complete on 2026-11-19 and 2026-11-26'],
      text: ran.stdout,
    })
    expect((await runProgram(['again'], { logbook })).stdout).toBe(ran.stdout)
  })

  it('gives 5 % less after two days that were missed', async () => {
    expect(await again(squat, '2, 3', '3!, 2')).toEqual({
      comment:
        'front squat: 92.5 kg -> 87.5 kg: missed on 2026-11-19 and 2026-11-26, so 5 % less, down to what can be made',
      line: 'front squat 2 x 3 @ 87.5 kg, rest 2:30',
    })
  })

  it('says when the plates, or a pair, make it more than 5 %', async () => {
    const exact = 'front squat: 100 kg -> 95 kg: missed on 2026-11-19 and 2026-11-26, so 5 % less'
    expect((await again('front squat: 2 x 3 @ 100 kg, rest 2:30', '2, 3', '2, 3')).comment).toBe(exact)
    const pair =
      'curl: 2x10 kg -> 2x7.5 kg: missed on 2026-11-19 and 2026-11-26, so 5 % less, down to what can be made'
    expect((await again('curl: 2 x 10 @ 2x10 kg', '9, 9', '9, 9')).comment).toBe(pair)
  })

  it.each([
    ['one day alone', ['3, 3']],
    ['a day that was complete after one that was missed', ['3, 2', '3, 3']],
    ['a set that was not tried', ['3, 3', '3, -']],
    ['pain', ['3, 3', '3, 3 pain "left knee"']],
  ])('changes nothing for %s', async (_, days) => {
    expect(await again(squat, ...days)).toEqual(asItWas)
  })

  it('takes a lighter load than written for missed', async () => {
    expect((await again(squat, '3 x 90, 3', '3 x 90, 3')).line).toBe('front squat 2 x 3 @ 87.5 kg, rest 2:30')
  })

  it('holds the typed effort against the written one', async () => {
    const line = 'front squat: 2 x 3 @ 92.5 kg rpe 8, rest 2:30'
    const asWritten = 'front squat 2 x 3 @ 92.5 kg rpe 8, rest 2:30'
    expect((await again(line, '3 @8, 3 @7.5', '3 @8, 3 @8')).line).toBe(asWritten.replace('92.5', '95'))
    expect((await again(line, '3 @8, 3 @8', '3 @8, 3 @9')).line).toBe(asWritten)
    expect((await again(line, '3 @8, 3 @8', '3 @8, 3')).line).toBe(asWritten)
  })

  it('takes a range of repetitions for complete at its upper end', async () => {
    const line = 'split squat 2 x 8-10 each side @ 2x22.5 kg'
    expect((await again(line, '10, 10', '10, 10')).line).toBe(line.replace('2x22.5', '2x25'))
    expect((await again(line, '10, 9', '10, 10')).line).toBe(line)
    expect((await again(line, '7, 9', '8, 7')).line).toBe(line.replace('2x22.5', '2x20'))
  })

  it('takes a cluster set for complete when each group is', async () => {
    const line = 'front squat 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30'
    expect((await again(line, '1+1+1, =', '=, =')).line).toBe(line.replace('92.5', '95'))
    expect((await again(line, '1+1+0, =', '=, 1+1')).line).toBe(line.replace('92.5', '87.5'))
  })

  it('looks for the line and not for the exercise, and only at the same load', async () => {
    const logbook = temporaryFolder()
    await kept(logbook, squat, [['2026-11-12', '=, =']])
    await kept(logbook, 'Front Squats 3 x 8 @ 70 kg', [['2026-11-15', '=, =, =']])
    await kept(logbook, squat, [['2026-11-19', '=, =']])
    expect((await runProgram(['again', 'newest'], { logbook })).stdout).toContain('95 kg')
    await kept(logbook, squat.replace('92.5', '95'), [['2026-11-26', '=, =']])
    expect((await runProgram(['again', 'newest'], { logbook })).stdout).toContain('; no load changed,')
  })

  it('takes a warm-up out that would begin at the work', async () => {
    const line = 'front squat: 2 x 3 @ 92.5 kg, rest 2:30, build from 90 kg'
    expect(await again(line, '2, 2', '2, 2')).toEqual({
      comment:
        'front squat: 92.5 kg -> 87.5 kg: missed on 2026-11-19 and 2026-11-26, so 5 % less, down to what can be made; the warm-up from 90 kg went',
      line: 'front squat 2 x 3 @ 87.5 kg, rest 2:30',
    })
  })

  it('changes each exercise of a superset for itself', async () => {
    const line = 'pull-up 2 x 6 @ bodyweight+10 kg + dip 2 x 8 @ bodyweight, pause 20 s, rest 1:30'
    expect((await again(line, '6, 8, 6, 8', '6, 8, 6, 8')).line).toBe(line.replace('+10', '+11.25'))
  })

  it('says that there is no such session', async () => {
    expect(await runProgram(['again'], { logbook: temporaryFolder() })).toEqual({
      code: 1,
      stdout: '',
      stderr: 'pausebook: There is no session in this logbook yet. Record one with "pausebook".\n',
    })
  })

  it('goes on past a damaged session', async () => {
    const logbook = temporaryFolder()
    const [first = '', , last = ''] = await kept(logbook, squat, [
      ['2026-11-12', '=, ='],
      ['2026-11-19', '=, ='],
      ['2026-11-26', '=, ='],
    ])
    const book = openLogbook(logbook)
    const { writeFileSync } = await import('node:fs')
    writeFileSync(book.list()[1]?.path ?? '', '{"format": 99}')
    const ran = await runProgram(['again', last], { logbook })
    expect(ran.code).toBe(0)
    expect(ran.stdout).toContain('all sets complete on 2026-11-12 and 2026-11-26')
    expect(first).not.toBe('')
  })
})
