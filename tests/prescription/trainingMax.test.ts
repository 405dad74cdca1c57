import { describe, expect, it } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'

/* A training max is a reduced maximum. Its percentages must never be read as percentages of the whole maximum: the bar
 * would be a ninth too heavy. That a training max is commonly 90 % is from memory. */

function problemsOf(lines: string[]) {
  const reading = readPrescription(['Day', ...lines].join('\n'))
  return 'problems' in reading ? reading.problems : []
}

describe('a percentage of a training max', () => {
  it.each([
    'squat 3 x 5 @ 85% TM',
    'squat 3 x 5 @ 85% of training max',
    'squat 3 x 5 @ TM 85%',
    'squat 3 x 5 @ 85%, "of TM"',
    'squat 3 x 5 @ 85%, of training max',
    'squat 6/6/6 @ 60/70/80% TM',
    'squat 3 x 5 @ 65-70% of my training max',
    'squat TM 3 x 5 @ 85%',
    'squat 3 x 5 @ 85 % TM, rest 3:00',
    'squat 3 x 5 @ 85 percent training-max',
    'squat 3 x 5 @ 85% (T.M.)',
    'squat: 3 x 5 @ 65% TM, 75% TM, 85% TM',
  ])('%s is refused', (line) => {
    const problems = problemsOf(['max: squat 140 kg', 'lift', line])
    expect(problems.map((problem) => problem.message)).toEqual([
      expect.stringContaining(
        'not of a training max: multiply each by its share (85% of a training max of 90%',
      ),
    ])
  })

  it('is refused if the day says it once for all lines', () => {
    const lift = ['lift', 'squat 3 x 5 @ 85%', 'bench 3 x 5 @ 85%']
    expect(problemsOf(['note: percentages are of the training max', ...lift])).toHaveLength(1)
    expect(problemsOf(['lift: % of TM', ...lift.slice(1)])).toHaveLength(1)
    expect(problemsOf(['note: training max 126 kg', 'lift', 'squat 3 x 5 @ 100 kg'])).toEqual([])
  })

  it('is refused where its line has it, after its indent and its list mark', () => {
    const [problem] = problemsOf(['note: percentages of TM', 'lift', '  - squat 3 x 5 @ 85%'])
    expect(problem).toMatchObject({ line: 4, column: 5, text: '  - squat 3 x 5 @ 85%' })
  })

  it('is refused as a maximum', () => {
    const [problem] = problemsOf(['max: squat TM 126 kg', 'lift', 'squat 3 x 5 @ 85%'])
    expect(problem?.message).toContain('write the whole maximum after max:')
    expect(problemsOf(['tm: squat 126 kg', 'lift', 'squat 3 x 5'])[0]?.message).toContain(
      'no header is called tm',
    )
  })
})
