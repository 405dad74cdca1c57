import { describe, expect, it } from 'vitest'
import { barFor } from '../../src/prescription/planned.ts'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import type { SetStep } from '../../src/prescription/step.ts'
import { dayOf, stepsIn, walkThrough } from '../day.ts'
import { liftDay as day, printedLine as printed } from './liftLine.ts'

/* What a lift line can express beyond plain sets: each form, its other spellings, and its steps. */

const setsOf = (line: string) => stepsIn(day(line)) as SetStep[]

describe('schemes one after the other', () => {
  it('take a share off what is lifted where the first load is a percentage of a maximum in the file', () => {
    const withMax = (line: string) => `Day\nmax: squat 103 kg\n\nlift\n  ${line}\n`
    const lines = (line: string) =>
      printPrescription(dayOf(withMax(line)))
        .split('\n')
        .at(-2)
    // 90 % of 103 kg is 92.5 kg; 15 % off that is 78.6 kg, to the nearest 2.5 kg.
    expect(lines('squat 1 x 5 @ 90% then 2 x 5 @ -15%')).toBe('  squat: 1 x 5 @ 90% then 2 x 5 @ 77.5 kg')
    expect(lines('squat 1 x 5 @ 92.5 kg then 2 x 5 @ -15%')).toContain('then 2 x 5 @ 77.5 kg')
  })

  it('take a share off what is lifted where the maximum is known from earlier days', () => {
    const text = 'Day\n\nlift\n  squat 1 x 5 @ 90% then 2 x 5 @ -15%\n'
    const reading = readPrescription(text, { maxima: [{ name: 'Squats', kg: 103, basis: 'typed' }] })
    // As above: 15 % off 92.5 kg. 76.5 % of 103 kg would be 78.8 kg, nearer to 80 kg.
    expect('prescription' in reading && printPrescription(reading.prescription)).toContain(
      'then 2 x 5 @ 77.5 kg',
    )
  })

  it('are lifted set by set, each at its load', () => {
    const sets = setsOf('squat 1 x 5 @ 140 kg then 2 x 8 @ 120 kg, rest 3:00')
    expect(sets.map(({ dose, load }) => [dose, load])).toMatchObject([
      [{ from: 5 }, { from: 140 }],
      [{ from: 8 }, { from: 120 }],
      [{ from: 8 }, { from: 120 }],
    ])
    expect(sets[2]).toMatchObject({ number: 3, of: 3 })
    const walked = walkThrough(day('squat 1 x 5 @ 140 kg then 2 x 8 @ 120 kg, rest 3:00'))
    walked.space().wait(20).space().entry('')
    expect(walked.prompt('1.1.s2')).toMatchObject({ dose: { from: 8 }, shown: { value: 120 } })
  })
})

describe('a height', () => {
  it.each(['box jump 4 x 3 at 60 cm', 'box jump 4x3 @ 60cm'])('%s is not a load', (line) => {
    expect(printed(line)).toBe('box jump 4 x 3 at 60 cm')
    expect(setsOf(line)[0]).toMatchObject({ load: null, dose: { from: 3 } })
  })
})

describe('a load from last time', () => {
  const last = (isKept: boolean) => ({
    lastLoads: [
      {
        name: 'Squats',
        date: '2026-11-19',
        load: { kind: 'mass' as const, value: 100, unit: 'kg' as const, pair: false },
        isKept,
      },
    ],
  })

  it('is shown with its source, and Enter records it', () => {
    const walked = walkThrough(day('squat 4 x 4 @ last + 2.5 kg, rest 2:00'), last(false))
    expect(walked.view.now.what).toContain('102.5 kg')
    expect(walked.view.now.what).toContain('last + 2.5 kg (100 kg on 2026-11-19)')
    walked.effort(20).enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 4, load: { value: 102.5, unit: 'kg' } })
  })

  it('is in the unit in which it is written, and rounded to 5 lb after a last time in kilograms', () => {
    const walked = walkThrough(day('squat 4 x 4 @ last + 5 lb'), last(false))
    // 100 kg are 220.46 lb.
    expect(walked.prompt('1.1.s1')).toMatchObject({ shown: { value: 225, unit: 'lb' } })
  })

  it('stays the same after a failed or painful set', () => {
    const walked = walkThrough(day('squat 4 x 4 @ last + 2.5 kg'), last(true))
    expect(walked.view.now.what).toContain('100 kg')
    expect(walked.view.now.what).toContain('the same after a failed or painful set, or weeks away')
  })

  it('is typed at the first set when there is no last time', () => {
    const walked = walkThrough(day('squat 4 x 4 @ last + 2.5 kg'))
    expect(walked.prompt('1.1.s1')).toMatchObject({ shown: null, loadUnknown: true })
    walked.effort(20).entry('4 x 90')
    expect(walked.prompt('1.1.s2')).toMatchObject({ shown: { value: 90 } })
  })
})

describe('a bar for one exercise', () => {
  const text =
    'Day\nbar: 15 kg\nbar: trap bar 25 kg\n\nlift\n  trap bar deadlift 3 x 5 @ 105 kg\n  squat 3 x 5 @ 55 kg\n'

  it('is a header of its own, and prints the same again', () => {
    const prescription = dayOf(text)
    expect(prescription).toMatchObject({
      bar: { value: 15, unit: 'kg' },
      bars: [{ name: 'trap bar', mass: { value: 25, unit: 'kg' } }],
    })
    expect(printPrescription(prescription)).toContain('bar: 15 kg\nbar: trap bar 25 kg\n')
    expect(barFor(prescription, 'Trap-bar deadlift')).toEqual({ value: 25, unit: 'kg' })
    expect(barFor(prescription, 'squat')).toEqual({ value: 15, unit: 'kg' })
  })
})

describe('a maximum by the beginning of a name', () => {
  const walkedWith = (lines: string) => walkThrough(`Day\nmax: bench 100 kg\n\nlift\n${lines}`)

  it('applies to the one exercise that begins so', () => {
    const walked = walkedWith('  bench press 3 x 5 @ 80%\n  squat 3 x 5 @ 60 kg\n')
    expect(walked.prompt('1.1.s1')).toMatchObject({ shown: { value: 80 } })
  })

  it('applies to neither of two, and the same name goes before any other', () => {
    const two = walkedWith('  bench press 3 x 5 @ 80%\n  bench pull 3 x 5 @ 80%\n')
    expect(two.prompt('1.1.s1')).toMatchObject({ shown: null, loadUnknown: true })
    const same = walkedWith('  bench 3 x 5 @ 80%\n  bench pull 3 x 5 @ 80%\n')
    expect(same.prompt('1.1.s1')).toMatchObject({ shown: { value: 80 } })
    expect(same.prompt('1.2.s1')).toMatchObject({ shown: null })
  })
})

describe('no rest', () => {
  it.each(['squat 3 x 5, rest 0', 'squat 3x5, rest 0 s', 'squat 3x5, rest 0:00', 'squat 3 x 5, rest 0 min'])(
    '%s begins the next set at once',
    (line) => {
      expect(printed(line)).toBe('squat 3 x 5, rest 0')
      const walked = walkThrough(day(line))
      walked.effort(20).wait(1)
      expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: true })
    },
  )
})
