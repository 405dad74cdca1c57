import { describe, expect, test } from 'vitest'
import { maximumOf, prescribedLoadOf, shownLoadOf } from '../../src/session/load.ts'
import { promptedStep, stepsToPrompt } from '../../src/session/prompt.ts'
import { type Walked, type WalkOptions, walkThrough } from '../day.ts'

const lift = (item: string, options: WalkOptions = {}, headers = '') =>
  walkThrough(`Day\n${headers}\nlift\n  ${item}\n`, options)
const run = (item: string, headers = '') => walkThrough(`Day\n${headers}\nrun\n  ${item}\n`)
const shown = (walked: Walked, id: string) => {
  const step = walked.step(id)
  if (step.kind !== 'set') throw new Error(`${id} is no set`)
  return shownLoadOf(walked.state, step)
}
const asked = (walked: Walked, id = '1.1.p1') => walked.prompt(id)

describe('the prompt', () => {
  test('is for the oldest pending result, else the one under way, else the next', () => {
    const walked = lift('row: 3 x 5 @ 50 kg, rest 1:00')
    expect(promptedStep(walked.state)?.id).toBe('1.1.s1')
    walked.effort(20).space()
    expect(promptedStep(walked.state)?.id).toBe('1.1.s1')
    walked.entry('5')
    expect(promptedStep(walked.state)?.id).toBe('1.1.s2')
    expect(stepsToPrompt(walked.state).map((step) => step.id)).toEqual(['1.1.s2', '1.1.s3'])
  })

  test('is for the step under way, even if another comes before it in order', () => {
    const walked = lift('row: 2 x 5 @ 50 kg\n  curl: 1 x 5 @ 30 kg')
    walked.space().wait(20).typed('o').key('down').typed('b')
    expect(promptedStep(walked.state)?.id).toBe('1.1.s1')
  })

  test('does not exist for a warm-up set, or at the end of the day', () => {
    const walked = lift('row: 1 x 5 @ 50 kg, build from 30 kg')
    expect(walked.ids).toContain('1.1.b1')
    expect(stepsToPrompt(walked.state).map(({ id }) => id)).toEqual(['1.1.s1'])
    expect(promptedStep(walked.entry('5').enter().state)).toBeNull()
  })
})

describe('the prompt for an interval', () => {
  test('carries the prescribed range of its time', () => {
    expect(asked(run('6 x 500 m @ 3:35-3:45/km, jog 200 m'))).toMatchObject({
      target: { from: 107.5, to: 112.5 },
    })
    expect(asked(run('5 km @ rpe 7'))).toMatchObject({ target: null })
    expect(asked(run('5 km easy'))).toMatchObject({ target: null })
  })

  test('requires typing with a target; easy, tempo and the like need none, a race does', () => {
    const hasTarget = (item: string) => asked(run(item))
    for (const item of [
      '1 km @ 4:00/km',
      '1 km in 4:00',
      '5 km @ rpe 7',
      '5 km @ hr 150-160',
      '5 km, hr 150-160',
      '5 km race',
    ])
      expect(hasTarget(item), item).toMatchObject({ hasTarget: true })
    for (const item of ['5 km easy', '5 km tempo', '5 km', '20 min hard'])
      expect(hasTarget(item), item).toMatchObject({ hasTarget: false })
  })

  test('has a label in the unit in which it was written', () => {
    const label = (item: string, headers = '') => asked(run(item, headers))
    expect(label('5 km easy')).toMatchObject({ label: '5 km' })
    expect(label('500 m easy')).toMatchObject({ label: '500 m' })
    expect(label('1 mi easy')).toMatchObject({ label: '1 mi' })
    expect(label('1 mi easy', 'units: mi lb\n')).toMatchObject({ label: '1 mi' })
    expect(label('400 m easy', 'units: mi lb\n')).toMatchObject({ label: '400 m' })
    expect(label('1.1 km easy')).toMatchObject({ label: '1.1 km' })
    expect(label('1.15 km easy')).toMatchObject({ label: '1150 m' })
    expect(label('1 km easy')).toMatchObject({ label: '1 km' })
    expect(label('990 m easy')).toMatchObject({ label: '990 m' })
    expect(label('1.25 mi easy', 'units: mi lb\n')).toMatchObject({ label: '1.25 mi' })
    expect(label('1.1 mi easy', 'units: mi lb\n')).toMatchObject({ label: '1.1 mi' })
    expect(label('3:00 easy')).toMatchObject({ label: '3:00', seconds: 180, meters: null })
  })

  test('offers the measured time to a tenth; for an interval by time only if it is more than 2 s off', () => {
    const walked = run('500 m in 1:50')
    expect(asked(walked)).toMatchObject({ offered: null })
    walked.space().wait(109.5).jump(0.06).space()
    expect(asked(walked)).toMatchObject({ offered: 109.6 })
    const byTime = run('3:00 hard').space().wait(170).space()
    expect(asked(byTime)).toMatchObject({ offered: 170 })
    expect(asked(run('3:00 hard').space().wait(178).space())).toMatchObject({ offered: null })
    expect(asked(run('2 x (3:00 hard, jog 1:00)').space().wait(200))).toMatchObject({ offered: null })
  })
})

describe('the prompt for a hold, or for rounds for time', () => {
  const held = (item: string, seconds: number) => {
    const prompt = lift(item).space().wait(seconds).space().prompt('1.1.s1')
    return prompt.kind === 'set' ? prompt.offered : prompt
  }

  test('offers whole seconds if the clock is more than 2 s off the prescribed time', () => {
    expect(held('plank: 1 x 45 s', 43)).toBeNull()
    expect(held('plank: 1 x 45 s', 42.5)).toBe(43)
    expect(held('plank: 1 x 45 s', 47)).toBeNull()
    expect(held('plank: 1 x 45 s', 47.5)).toBe(48)
    expect(held('plank: 1 x 45 s', 3.2)).toBe(3)
    expect(held('plank: 1 x 45 s', 0.2)).toBeNull()
    expect(held('for time: 2 rounds of 5 row @ 40 kg', 90.5)).toBe(91)
    expect(held('row: 1 x 5 @ 40 kg', 20)).toBeNull()
  })

  test('offers the time of an interval by time from 2 s off on, to a tenth', () => {
    const offered = (seconds: number) => {
      const prompt = asked(run('3:00 hard').space().wait(seconds).space())
      return prompt?.kind === 'interval' ? prompt.offered : prompt
    }
    expect([offered(182), offered(182.5), offered(177.5), offered(3.02)]).toEqual([null, 182.5, 177.5, 3])
    expect(offered(0.02)).toBeNull()
  })
})

describe('the load of the empty entry', () => {
  test('is the prescribed one at its lower end', () => {
    expect(shown(lift('row: 2 x 5 @ 50-55 kg'), '1.1.s1')).toEqual({
      shown: { kind: 'mass', value: 50, unit: 'kg', pair: false },
      unknown: false,
    })
    expect(shown(lift('row: 2 x 5 @ 2x22.5 kg'), '1.1.s1').shown).toEqual({
      kind: 'mass',
      value: 22.5,
      unit: 'kg',
      pair: true,
    })
    expect(shown(lift('dip 2 x 5 @ bodyweight-20 kg'), '1.1.s1').shown).toEqual({
      kind: 'bodyweight',
      added: -20,
      unit: 'kg',
    })
  })

  test('does not exist if none is prescribed, and is unknown if only the effort is', () => {
    expect(shown(lift('plank: 2 x 45 s'), '1.1.s1')).toEqual({ shown: null, unknown: false })
    expect(shown(lift('row: 2 x 5 @ rpe 8'), '1.1.s1')).toEqual({ shown: null, unknown: true })
  })

  test('is a share of the maximum of the file, else of the highest known, rounded; else it must be typed', () => {
    const maxima = [{ name: 'squats', kg: 120, basis: 'estimate of 12 Nov' }]
    const written = lift('squat: 2 x 5 @ 80%', { maxima }, 'max: squat 101 kg\n')
    expect(shown(written, '1.1.s1').shown).toMatchObject({ value: 80 })
    expect(maximumOf(written.state, 'Squat')).toEqual({
      kg: 101,
      mass: { value: 101, unit: 'kg' },
      basis: 'max: in the file',
    })
    const inPounds = lift('squat: 2 x 5 @ 80%', {}, 'max: squat 225 lb\n')
    expect(maximumOf(inPounds.state, 'squat')?.mass).toEqual({ value: 225, unit: 'lb' })
    const known = lift('squat: 2 x 5 @ 80%', { maxima })
    expect(shown(known, '1.1.s1').shown).toMatchObject({ value: 95, unit: 'kg' })
    expect(maximumOf(known.state, 'squat')).toMatchObject({ basis: 'estimate of 12 Nov' })
    expect(shown(lift('squat: 2 x 5 @ 80%'), '1.1.s1')).toEqual({ shown: null, unknown: true })
    expect(maximumOf(lift('squat: 2 x 5 @ 80%').state, 'squat')).toBeNull()
  })

  test('is the last one typed on the line until another is typed; a load that changes from set to set goes on', () => {
    const walked = lift('row 10/8/6 @ 40/45/50 kg').entry('10')
    expect(shown(walked, '1.1.s2').shown).toMatchObject({ value: 45 })
    walked.entry('8 x 42.5')
    expect(shown(walked, '1.1.s3').shown).toMatchObject({ value: 42.5 })
  })

  test('keeps the words or the unit in which it was typed', () => {
    const pounds = lift('row: 3 x 5 @ 50 kg').entry('5 x 110 lb')
    expect(shown(pounds, '1.1.s2').shown).toMatchObject({ value: 110, unit: 'lb' })
    const body = lift('dip: 3 x 5 @ bodyweight+10 kg').entry('5 x bw+12.5')
    expect(shown(body, '1.1.s2').shown).toMatchObject({ kind: 'bodyweight', added: 12.5 })
    const bare = lift('dip: 3 x 5 @ bodyweight+10 kg').entry('5 x bw')
    expect(shown(bare, '1.1.s2').shown).toMatchObject({ added: 0 })
    const pair = lift('row: 3 x 5 @ 20 kg').entry('5 x 2x20')
    expect(shown(pair, '1.1.s2').shown).toMatchObject({ pair: true })
  })

  test('stays after a failed repetition, because it is still on the bar', () => {
    expect(shown(lift('row: 3 x 5 @ 50 kg').entry('4!'), '1.1.s2').shown).toMatchObject({ value: 50 })
    const body = lift('dip: 3 x 5 @ bodyweight+20 kg').entry('4!')
    expect(shown(body, '1.1.s2').shown).toMatchObject({ added: 20 })
  })

  test('is unknown for a swapped exercise, and one typed for it counts', () => {
    const walked = lift('row: 3 x 5 @ 50 kg').entry('5').typed('x').entry('seal row')
    expect(shown(walked, '1.1.s2')).toEqual({ shown: null, unknown: true })
    walked.entry('5 x 40')
    expect(shown(walked, '1.1.s3').shown).toMatchObject({ value: 40 })
  })

  test('can be had as prescribed by callers that ask for it', () => {
    const walked = lift('row: 1 x 5 @ 50 kg\n  plank: 1 x 45 s')
    const of = (id: string) => {
      const step = walked.step(id)
      return step.kind === 'set' ? prescribedLoadOf(walked.state, step) : null
    }
    expect(of('1.1.s1')).toMatchObject({ value: 50 })
    expect(of('1.2.s1')).toBeNull()
  })
})
