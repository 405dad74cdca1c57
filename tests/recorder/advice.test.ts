import { describe, expect, test } from 'vitest'
import { adviceOf } from '../../src/recorder/advice.ts'
import type { RecorderContext } from '../../src/recorder/model.ts'
import { type Walked, type WalkOptions, walkThrough } from '../day.ts'
import { testSituations } from '../goldenTable.ts'

/* What is advised after the entries of a day, and where more than entries decides. The 4 % a point: Helms 2018, from
 * memory. All else is this program's own rule; values are computed by hand. */

const advice = (walked: Walked) => adviceOf(walked.model)

testSituations(new URL('golden/advice.txt', import.meta.url), ({ written, typed }) => {
  const walked = walkThrough(`A day\n${written}\n`)
  for (const entry of typed.split('; ').filter((each) => each !== '')) walked.entry(entry)
  return advice(walked) ?? 'nothing'
})

describe('the next load', () => {
  const press = (item: string) => walkThrough(`One\n\nlift\n  ${item}\n`)

  test('never goes up after a pain note, whatever the pain is about', () => {
    const written = 'bench press: 3 x 5 @ 100 kg rpe 8, rest 2:00'
    for (const pain of [
      (walked: Walked) => walked.entry('5 @5 pain "left knee"'),
      (walked: Walked) => walked.entry('5 @5').typed('n').entry('pain left knee'),
    ])
      expect(advice(pain(press(written)))).toBeNull()
    const run = walkThrough(`Two\n\nrun\n  2 km easy\n\nlift\n  ${written}\n`)
    run.entry('11:00 pain "left knee"').entry('5 @5')
    expect(advice(run)).toBeNull()
  })

  test('goes up no more after a failure or a pain in another session of the day, unless a 0 ended it', () => {
    const written = 'bench press: 3 x 5 @ 100 kg rpe 8, rest 2:00'
    const after = (earlierToday: RecorderContext['earlierToday'], ...entries: string[]) => {
      const walked = walkThrough(`Two\n\nlift\n  ${written}\n`, { context: { earlierToday } })
      for (const entry of entries) walked.entry(entry)
      return advice(walked)
    }
    const calf = (level: number) => ({ place: 'left calf', level })
    const heavier = 'usual advice: 105 kg for the next set'
    expect(after({ pains: [], hasFailed: false }, '5 @5')).toBe(heavier)
    expect(after({ pains: [], hasFailed: true }, '5 @5')).toBeNull()
    expect(after({ pains: [calf(4)], hasFailed: false }, '5 @5')).toBeNull()
    expect(after({ pains: [calf(4)], hasFailed: false }, '5 @9')).toBe('usual advice: 95 kg for the next set')
    expect(after({ pains: [calf(4), calf(0)], hasFailed: false }, '5 @5')).toBe(heavier)
    expect(after({ pains: [calf(4)], hasFailed: false }, '5 @5 pain "left calf 0"')).toBe(heavier)
    expect(after({ pains: [calf(4)], hasFailed: false }, '5 @5 pain "right calf 0"')).toBeNull()
  })

  test('is never computed after a warning sign of earlier days, until a 0 ends it', () => {
    const chest = { pains: [{ place: 'chest tight', level: null }], hasFailed: false }
    const after = (entry: string) =>
      advice(
        walkThrough('Two\n\nlift\n  press: 3 x 5 @ 50 kg rpe 8\n', {
          context: { earlierToday: chest },
        }).entry(entry),
      )
    expect(after('5 @5')).toBeNull()
    expect(after('5 @10')).toBeNull()
    expect(after('5 @10 pain "chest tight 0"')).toBe('usual advice: 45 kg for the next set')
  })

  test.each([
    ['dip: 4 x 8 @ bodyweight+10 kg, rest 2:00', '6!', '8 x +6.25'],
    ['pull-up: 4 x 6 @ bodyweight-20 kg, rest 2:00', '4!', '6 x -22.5'],
    ['pull-up: 4 x 6 @ bodyweight+2.5 kg, rest 2:00', '4!', '6 reps'],
  ])('can be typed as it is advised: %s, %s', (item, entry, next) => {
    const walked = press(item).entry(entry)
    const [, typed = ''] = /type (x [^,]+)/.exec(advice(walked) ?? '') ?? []
    expect(walked.wait(5).entry(typed).view.now.number).toBe(next)
  })

  test('is not computed for another exercise after a swap', () => {
    const walked = press('bench press: 3 x 5 @ 100 kg, rest 2:00').entry('5 @10').typed('x').entry('push-up')
    expect(advice(walked)).toBeNull()
  })
})

test('an easy run that turns out hard is warned of: by heart rate, else effort, else pace against the goal', () => {
  const easy = (goal: string, entry: string, hrMax: number | null = 190) =>
    advice(walkThrough(`One\n${goal}\nrun\n  4 km easy, split 1 km\n`, { context: { hrMax } }).entry(entry))
  // 88 % of 190 is 167.2.
  expect(easy('', '5:00 hr 168')).toBe('hr 168 is hard, not easy: ease off')
  expect(easy('', '5:00 hr 167 rpe 9')).toBeNull()
  expect(easy('', '5:00 rpe 7', null)).toBe('effort 7 is hard, not easy: ease off')
  // Goal pace 3:57; within 15 % is 4:32.55.
  expect(easy('goal: 10 km in 39:30\n', '4:32')).toBe('that pace is hard, not easy: ease off')
  expect(easy('goal: 10 km in 39:30\n', '4:33')).toBeNull()
  expect(easy('', '4:00')).toBeNull()
})

describe('the difference that running makes to a lift', () => {
  const context: WalkOptions['context'] = {
    runCost: (exercise) =>
      exercise === 'front squat' ? { freshKg: 93.2, afterRunKg: 87.9, isOnBody: false } : null,
  }
  const day =
    'One\n\nrun\n  2 km easy\n\nlift\n  front squat: 2 x 3 @ 75 kg, rest 2:00\n  dip: 2 x 5 @ bodyweight\n'
  const cost = 'estimated maximum after running: about 88 kg (93 fresh)'

  test('is shown before its first set after a run, and not before the second', () => {
    const walked = walkThrough(day, { context }).entry('10:00')
    expect(advice(walked)).toBe(cost)
    expect(advice(walked.entry('3 @7'))).not.toBe(cost)
  })

  test('is not shown without a run before it, after a pain, or for another lift', () => {
    expect(advice(walkThrough(day, { context }))).not.toBe(cost)
    expect(advice(walkThrough(day, { context }).entry('10:00 pain left calf 4'))).not.toBe(cost)
    const other = walkThrough(day.replace('front squat', 'bench press'), { context }).entry('10:00')
    expect(advice(other)).not.toBe(cost)
  })
})

describe('a best', () => {
  const context: WalkOptions['context'] = {
    bestBefore: (exercise, reps) =>
      exercise === 'bench press' && reps === 5 ? { kg: 97.5, text: '97.5, 12 Nov' } : null,
  }
  const day = 'One\n\nlift\n  bench press: 3 x 5 @ 95 kg, rest 2:00\n  dip: 2 x 5 @ bodyweight+10 kg\n'

  test('is announced once, right after it happened', () => {
    const walked = walkThrough(day, { context }).entry('5 x 100 @8')
    expect(advice(walked)).toBe('most for 5 so far (before: 97.5, 12 Nov)')
    expect(advice(walked.entry('5 x 100 @8'))).toBeNull()
    expect(advice(walked.entry('5 x 102.5 @8'))).toBe('most for 5 so far (before: 97.5, 12 Nov)')
  })

  test('is not told after a pain, for it asks for more', () => {
    expect(advice(walkThrough(day, { context }).entry('5 x 100 @8 pain "left knee"'))).toBeNull()
    const noted = walkThrough(day, { context }).entry('5 x 95').typed('n').entry('pain left knee 3')
    expect(advice(noted.entry('5 x 100 @8'))).toBeNull()
  })

  test('is not announced if it was lifted before, or if nothing is known', () => {
    expect(advice(walkThrough(day, { context }).entry('5 x 97.5 @8'))).toBeNull()
    expect(advice(walkThrough(day, { context }).entry('4 x 110 @8'))).toBeNull()
  })

  test('does not count body mass as load', () => {
    const best = { ...context, bestBefore: () => ({ kg: 5, text: '5, 12 Nov' }) }
    const walked = walkThrough('One\n\nlift\n  dip: 2 x 5 @ bodyweight+10 kg\n', { context: best })
    expect(advice(walked.entry('5 @8'))).toBe('most for 5 so far (before: 5, 12 Nov)')
    const bare = walkThrough('One\n\nlift\n  dip: 2 x 5 @ bodyweight\n', { context: best })
    expect(advice(bare.entry('5 @8'))).toBeNull()
  })

  test('is not announced for a cluster set', () => {
    const best = { ...context, bestBefore: () => ({ kg: 5, text: '5, 12 Nov' }) }
    const walked = walkThrough('One\n\nlift\n  squat: 2 x (2+2) @ 80 kg, pause 20 s, rest 2:00\n', {
      context: best,
    })
    expect(advice(walked.entry('2+2'))).toBeNull()
  })
})

describe('the minutes of the day', () => {
  const day = 'One\n\nlift\n  row: 4 x 8 @ 50 kg, rest 1:00\n\nrun\n  2 km easy\n'

  test('are compared with the plan when more than five behind or ahead, within a part', () => {
    const walked = walkThrough(day).space().wait(32).enter().jump(420)
    expect(advice(walked)).toBe('about 6 min behind in this part')
    walked.typed('h').wait(600)
    expect(advice(walked)).toBe('about 6 min behind in this part')
    walked.typed('h')
    expect(advice(walked)).toBe('about 6 min behind in this part')
  })

  test('do not hurry somebody who is in pain', () => {
    const hurt = (place: string) => {
      const walked = walkThrough('One\n\nrun\n  5 km easy\n  10 km easy\n').effort(2400).enter()
      return advice(walked.entry(`pain ${place}`))
    }
    expect(hurt('left calf 0')).toBe('about 10 min behind in this part')
    expect(hurt('left calf 4')).toBeNull()
  })

  test('are shown when ahead', () => {
    const walked = walkThrough('One\n\nrun\n  10 km easy\n  5 km easy\n').effort(3200).enter()
    expect(advice(walked)).toBe('about 7 min ahead in this part')
  })

  test('do not run away during a long run: it is late only after its own time', () => {
    const walked = walkThrough('One\n\nrun\n  1 km easy\n  10 km @ 4:00/km\n').effort(360).enter().space()
    expect(advice(walked.jump(2340))).toBeNull()
    expect(advice(walked.jump(480))).toBe('about 7 min behind in this part')
  })

  test('count from the end of the first step where its start was forgotten', () => {
    const run = 'One\n\nrun\n  10 km easy\n  5 km easy\n  1 km easy\n'
    const forgotten = walkThrough(run).space().wait(2).space()
    expect(advice(forgotten)).toBeNull()
    expect(advice(forgotten.effort(2400))).toBe('about 10 min behind in this part')
    const lifted = walkThrough(day).space().wait(2).space()
    expect(advice(lifted.jump(420))).toBe('about 6 min behind in this part')
    // The start of a later run leaves that of the part known.
    const later = walkThrough(run).effort(3200).enter()
    expect(advice(later.space().wait(2).space())).toMatch(/ahead in this part$/)
  })

  test('are not compared over an hour and more, in which something else was done', () => {
    const walked = walkThrough('One\n\nlift\n  row: 3 x 8 @ 40 kg, rest 1:00\n').effort(32).enter()
    expect(advice(walked.jump(1800))).toMatch(/^about 2\d min behind/)
    expect(advice(walked.jump(80_000))).toBeNull()
  })

  test('are not compared when results are typed in afterwards, late or early', () => {
    const walked = walkThrough(day).entry('8').jump(1200).entry('8')
    expect(advice(walked)).toBeNull()
    // Begun and ended by key back at the laptop, with the time of the watch.
    const away = walkThrough('One\n\nrun\n  10 km easy\n  5 km easy\n').effort(2).entry('53:00')
    expect(away.state.recorded.size).toBe(1)
    expect(advice(away)).toBeNull()
  })

  test('are never compared across the gap between two parts', () => {
    const walked = walkThrough(day).entry('8').entry('8').entry('8').space().wait(32).enter().jump(7200)
    expect(advice(walked)).toBeNull()
  })
})

test('advice can be switched off', () => {
  const walked = walkThrough('One\n\nlift\n  bench press: 3 x 5 @ 100 kg, rest 2:00\n', {
    context: { advice: false },
  })
  expect(advice(walked.entry('4!'))).toBeNull()
  expect(walked.view.line).toBe('')
})

test('an error message goes before the advice', () => {
  const walked = walkThrough('One\n\nlift\n  bench press: 3 x 5 @ 100 kg, rest 2:00\n').entry('4!').enter()
  expect(walked.view).toMatchObject({ isNotice: true, line: walked.notice })
})
