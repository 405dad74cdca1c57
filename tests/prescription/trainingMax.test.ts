import { describe, expect, it } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'

/* A training max is a reduced maximum. Its percentages must never be read as percentages of the whole maximum: the bar
 * would be a ninth too heavy. That a training max is commonly 90 % is from memory. */

function problemsOf(lines: string[]) {
  const reading = readPrescription(['Day', ...lines].join('\n'))
  return 'problems' in reading ? reading.problems : []
}

describe('a percentage of a training max', () => {
  const rows: [line: string, instead: string | null][] = [
    ['squat 3 x 5 @ 85% TM', 'squat 3 x 5 @ 76.5%'],
    ['squat 3 x 5 @ 85% of training max', 'squat 3 x 5 @ 76.5%'],
    ['squat 3 x 5 @ TM 85%', 'squat 3 x 5 @ 76.5%'],
    ['squat 3 x 5 @ 85%, "of TM"', 'squat 3 x 5 @ 76.5%'],
    ['squat 3 x 5 @ 85%, of training max', 'squat 3 x 5 @ 76.5%'],
    ['squat 6/6/6 @ 60/70/80% TM', 'squat 3 x 6 @ 54/63/72%'],
    ['squat 3 x 5 @ 65-70% of my training max', 'squat 3 x 5 @ 58.5-63%'],
    ['squat TM 3 x 5 @ 85%', 'squat 3 x 5 @ 76.5%'],
    ['squat 3 x 5 @ 85 % TM, rest 3:00', 'squat 3 x 5 @ 76.5%, rest 3:00'],
    ['squat 3 x 5 @ 85 percent training-max', 'squat 3 x 5 @ 76.5%'],
    ['squat 3 x 5 @ 85% (T.M.)', 'squat 3 x 5 @ 76.5%'],
    ['squat: 3 x 5 @ 65% TM, 75% TM, 85% TM', null],
  ]
  it.each(rows)('%s is refused, with the line to write', (line, instead) => {
    const problems = problemsOf(['max: squat 140 kg', 'lift', line])
    expect(problems.map((problem) => problem.suggestion)).toEqual([instead])
    expect(problems[0]?.message).toContain('not of a training max')
    if (instead !== null) expect(problemsOf(['max: squat 140 kg', 'lift', instead])).toEqual([])
  })

  it('is refused if the day says it once for all lines', () => {
    const lift = ['lift', 'squat 3 x 5 @ 85%', 'bench 3 x 5 @ 85%']
    expect(problemsOf(['note: percentages are of the training max', ...lift])).toHaveLength(1)
    expect(problemsOf(['lift: % of TM', ...lift.slice(1)])).toHaveLength(1)
    expect(problemsOf(['note: training max 126 kg', 'lift', 'squat 3 x 5 @ 100 kg'])).toEqual([])
  })

  it('is refused as a maximum', () => {
    const [problem] = problemsOf(['max: squat TM 126 kg', 'lift', 'squat 3 x 5 @ 85%'])
    expect(problem?.suggestion).toBe('max: squat 140 kg')
    expect(problemsOf(['tm: squat 126 kg', 'lift', 'squat 3 x 5'])[0]?.message).toContain('write max:')
  })
})
