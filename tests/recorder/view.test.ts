import { describe, expect, test } from 'vitest'
import type { OpenKind } from '../../src/recorder/model.ts'
import { painToday } from '../../src/recorder/modes/notes.ts'
import { dayLines, dayWindow } from '../../src/recorder/view.ts'
import { type Walked, walkThrough } from '../day.ts'
import { situations } from './situations.ts'

describe('the heading', () => {
  test('shows where the day is, and the minutes passed of those expected', () => {
    const walked = walkThrough('Day\n\nrun\n  2 km easy\n  2 km easy\n')
    expect(walked.view.head).toEqual({
      title: 'Day',
      planned: '',
      place: 'run 1 of 2',
      minutes: '0 of 24 min',
      saved: 'saved',
      isSaved: true,
    })
    walked.wait(600)
    expect(walked.view.head.minutes).toBe('0 of 24 min')
    walked.space().wait(720)
    expect(walked.view.head.minutes).toBe('12 of 24 min')
    walked.space().enter().typed('s')
    expect(walked.view.head).toMatchObject({ place: 'all done', minutes: '12 of 12 min' })
  })

  test('counts no minutes while nothing of the day is under way: stopped clocks, between two parts, days later', () => {
    const walked = walkThrough('Day\n\nrun\n  2 km easy\n\nlift\n  front squat 1 x 5 @ 90 kg\n')
    const gone = () => Number(walked.view.head.minutes.split(' ')[0])
    walked.space().jump(300).typed('h').jump(600)
    expect(gone()).toBe(5)
    walked.typed('h').jump(420).space().enter()
    expect(gone()).toBe(12)
    walked.jump(1200)
    expect(gone()).toBe(12)
    walked.space().jump(180).enter()
    expect(gone()).toBe(15)
    walked.restart(172_800)
    expect(gone()).toBe(15)
  })

  test('shows only the expected minutes of a part that was left overnight, whose clock says nothing of the training', () => {
    const day = 'Day\n\nlift\n  front squat 2 x 5 @ 90 kg, rest 2:00\n'
    const walked = walkThrough(day).effort(40).enter().restart(80_000)
    expect(walked.view.head.minutes).toMatch(/^\d min expected$/)
    expect(walked.effort(40).enter().view.head.minutes).toMatch(/^\d min expected$/)
  })

  test('keeps the minutes that were typed for a part when the session is opened again', () => {
    const walked = walkThrough('Day\n\nrun\n  2 km easy\n').effort(720).enter()
    walked.typed('f').entry('3').entry('14')
    expect(walked.view.head.minutes).toBe('14 of 12 min')
    expect(walked.jump(172_800).reopen().view.head.minutes).toBe('14 of 12 min')
  })
})

describe('results that are still missing after the last effort', () => {
  const superset = () =>
    walkThrough('Day\n\nlift\n  front squat 1 x 5 @ 90 kg + bench press 1 x 8 @ 60 kg, rest 1:00\n')

  test('are asked for instead of saying that everything is done', () => {
    const walked = superset().space().wait(20).space().wait(20).space()
    while (walked.view.entry.label !== 'bench press, set 1 of 1') walked.enter()
    expect(walked.view.now).toEqual({
      what: '1 result to enter',
      where: 'then f closes lift',
      number: null,
    })
    expect(walked.view.head.place).toBe('to enter')
    expect(walked.view.pending).toBe('')
    walked.space()
    expect(walked.view.line).toMatch(/type the result/)
    walked.enter()
    expect(walked.view.now.what).toBe('everything is done')
    expect(walked.view.head.place).toBe('all done')
  })

  test('keep their exercise on a narrow screen while another one is shown', () => {
    const walked = superset()
    expect(walked.view.entry.short).toBe('set 1 of 1')
    walked.space().wait(20).space()
    expect(walked.view.now.what).toContain('bench press')
    expect(walked.view.entry).toMatchObject({ label: 'front squat, set 1 of 1', short: 'front squat' })
  })
})

describe('a result of one of two lines with the same exercise', () => {
  test('has the number of its line, so that the two can be told apart', () => {
    const walked = walkThrough(
      'Day\n\nlift\n  row 1 x 5 @ 50 kg, rest 1:00\n  row 1 x 5 @ 60 kg, rest 1:00\n',
    )
    expect(walked.view.entry).toMatchObject({ label: 'row, lift 1, set 1 of 1', short: 'lift 1, set 1/1' })
    walked.space().wait(20).space().wait(20).space()
    expect(walked.view.now.what).toContain('60 kg')
    expect(walked.view.entry).toMatchObject({ label: 'row, lift 1, set 1 of 1', short: 'lift 1, set 1/1' })
    walked.enter()
    expect(walked.view.entry).toMatchObject({ label: 'row, lift 2, set 1 of 1', short: 'lift 2, set 1/1' })
  })
})

describe('two parts that are called the same', () => {
  const part = (exercise: string) => `lift\n  row 1 x 5 @ 50 kg, rest 1:00\n  ${exercise} 1 x 5 @ 60 kg\n`
  const twice = `Day\n\n${part('squat')}\nlift: arms\n  curl 1 x 8 @ 20 kg\n\n${part('bench press')}`

  test('are told apart by their order, and their lines by their number over all of them', () => {
    const walked = walkThrough(twice)
    expect(walked.view.entry).toMatchObject({ label: 'row, lift 1, set 1 of 1', short: 'lift 1, set 1/1' })
    expect(walked.view.head.place).toBe('lift 1 of 5')
    walked.typed('f')
    expect(walked.view.panel?.title).toContain('the lift, part 1')
    walked.key('escape')
    for (let set = 0; set < 3; set++) walked.effort(20).enter().wait(60)
    expect(walked.view.entry).toMatchObject({ label: 'row, lift 4, set 1 of 1', short: 'lift 4, set 1/1' })
    expect(walked.view.head.place).toBe('lift 4 of 5')
    walked.typed('f').enter().enter()
    walked.typed('f')
    expect(walked.view.panel?.title).toBe('how hard was the lift, part 1, as a whole?')
    walked.enter().enter().effort(20).enter().typed('e')
    expect(walked.view.panel?.lines.filter((line) => line.startsWith('row'))).toEqual([
      'row, lift 1, set 1 of 1: 5 x 50',
      'row, lift 4, set 1 of 1: 5 x 50',
    ])
    walked.key('escape').typed('f')
    expect(walked.view.panel?.title).toContain('the lift, part 2')
    expect(walked.view.entry.label).toBe('effort of lift part 2')
    const headings = dayLines(walked.state).flatMap(({ kind, text }) => (kind === 'part' ? [text] : []))
    expect(headings.map((text) => text.split(',')[0])).toEqual(['lift part 1', 'lift: arms', 'lift part 2'])
  })
})

test('the empty field asks a run by distance for its time, and one by time for how far it was', () => {
  const placeholder = (line: string) => walkThrough(`Day\n\nrun\n  ${line}\n`).view.entry.placeholder
  expect(placeholder('2 km easy')).toBe('type its time')
  expect(placeholder('3 x 3 min hard, jog 2 min')).toBe('type how far it was')
})

describe('what comes next', () => {
  test('names the exercise of a warm-up set', () => {
    const walked = walkThrough('Day\n\nrun\n  2 km easy\n\nlift\n  row: 2 x 5 @ 60 kg, build from 20 kg\n')
    expect(walked.view.next).toBe('then row warm-up, 20 kg x 8: the bar alone')
  })

  test('is the next set, the next repeat, the next item, the end', () => {
    const walked = walkThrough(
      'Day\n\nrun\n  2 x 400 m in 1:20-1:24, jog 200 m\n\nlift\n  row: 2 x 5 @ 50 kg\n',
    )
    expect(walked.view.next).toBe('then jog 200 m, about 1:24')
    walked.effort(80)
    expect(walked.view.next).toBe('then repeat 2 of 2: 400 m in 1:20.0-1:24.0')
    walked.wait(60).space()
    expect(walked.view.next).toBe('then row 5 at 50 kg: 15 a side')
    walked.wait(80).space().space()
    expect(walked.view.next).toBe('then set 2 of 2')
    walked.wait(20).space().space()
    expect(walked.view.next).toBe('then the end of the day')
    walked.wait(20).space()
    expect(walked.view.next).toBe('')
  })

  test('comes with the last time of the same exercise or line', () => {
    const lastTime = (key: { exercise: string } | { text: string }) =>
      'exercise' in key ? `12 Nov: ${key.exercise}` : `12 Nov: ${key.text}`
    const walked = walkThrough(
      'Day\n\nprep\n  hip circles\n\nrun\n  2 km easy\n\nlift\n  row: 2 x 5 @ 50 kg\n',
      {
        context: { lastTime },
      },
    )
    expect(walked.view.lastTime).toBe('')
    walked.enter()
    expect(walked.view.lastTime).toBe('last time 12 Nov: 2 km easy')
    walked.entry('=')
    expect(walked.view.lastTime).toBe('last time 12 Nov: row')
  })
})

describe('the day panel', () => {
  const lines = (walked: Walked) => dayLines(walked.state).map(({ mark, text }) => `${mark} ${text}`)

  test('shows every item with its results, and marks the current one', () => {
    const walked = walkThrough(
      'Day\n\nprep\n  hip circles\n\nrun: track\n  2 x 400 m in 1:20, jog 200 m\n  2 km easy\n\nlift\n  row: 2 x 5 @ 50 kg\n',
    )
    walked.enter().entry('1:20').entry('1:20').typed('s')
    expect(lines(walked)).toEqual([
      'none prep',
      'done hip circles',
      'none run: track',
      'done 2 x 400 m in 1:20, jog 200 m',
      'none 1:20, twice',
      'skipped 2 km easy',
      'none skipped',
      'none lift',
      'now row: 2 x 5 @ 50 kg',
    ])
    walked.typed('f').entry('6').entry('20')
    expect(lines(walked)).toContain('none run: track, effort 6, 20 min')
    walked.typed('f').entry('7').entry('1')
    expect(lines(walked), 'closed without a set').toContain('skipped row: 2 x 5 @ 50 kg')
  })

  test('shows the lines around the current item if it is long', () => {
    const all = Array.from({ length: 30 }, (_, index) => ({
      kind: 'item' as const,
      mark: index === 20 ? ('now' as const) : ('ahead' as const),
      text: `${index}`,
    }))
    const shown = dayWindow(all, 9).map(({ text }) => Number(text))
    expect(shown).toEqual([16, 17, 18, 19, 20, 21, 22, 23, 24])
    expect(dayWindow(all, 40)).toHaveLength(30)
    const first = all.map((line, index) => ({
      ...line,
      mark: index === 0 ? ('now' as const) : ('ahead' as const),
    }))
    expect(dayWindow(first, 5)[0]?.text).toBe('0')
    expect(
      dayWindow(
        all.map((line) => ({ ...line, mark: 'done' as const })),
        5,
      )[0]?.text,
    ).toBe('0')
  })
})

test('a repeat over another distance than written is held against the range of its own distance, as in the summary', () => {
  const walked = walkThrough('Day\n\nrun: track\n  4 x 1 km @ 3:55-4:05/km, jog 200 m\n').effort(216)
  const { splits } = walked.entry('0.9 km in 3:36 hr 171').view
  const range = { from: 235, to: 245 }
  expect(splits).toEqual([
    { text: '1 900 m in 3:36', bar: { value: 240, range, target: 'in' }, beside: 'hr 171' },
  ])
})

test('the largest possible day is drawn in one pass over its steps', () => {
  const lines = Array.from({ length: 20 }, () => '  500 x 100 m in 20 s, jog 100 m')
  const walked = walkThrough(`Day\n\nrun\n${lines.join('\n')}\n`)
    .space()
    .jump(20)
    .space()
    .entry('20')
  expect(walked.ids).toHaveLength(19_980)
  const passed = new CountedSet(walked.state.passed)
  expect(dayLines({ ...walked.state, passed })).toHaveLength(22)
  expect(passed.asked).toBeLessThan(2 * walked.ids.length)
  expect(walked.typed('o').view.panel?.lines).toHaveLength(20)
})

/** Counts how often it is read. */
class CountedSet extends Set<string> {
  asked = 0
  override has(value: string): boolean {
    this.asked++
    return super.has(value)
  }
}

describe('everything that is shown', () => {
  /** Each field that is shown, on a line of its own. */
  const shownIn = ({ view }: Walked): string[] => [
    Object.values(view.head).join(' | '),
    `now ${[view.now.what, view.now.where, view.now.number].join(' | ')}`,
    `clock ${Object.values(view.clock).join(' | ')}${view.go ? ' go' : ''}`,
    `under ${[view.pending, view.next, view.lastTime, view.echo].join(' | ')}`,
    ...view.splits.map(({ text, beside }) => `split ${text} ${beside}`.trimEnd()),
    `entry ${Object.values(view.entry).join(' | ')}`,
    `line ${view.isNotice ? '!' : ''}${view.line}`,
    `keys ${view.keys.map(({ key, label }) => `${key} ${label}`).join(', ')}`,
    ...(view.panel === null ? [] : [`panel ${view.panel.title} (${view.panel.selected})`]),
    ...(view.panel?.lines ?? []).map((line) => `  ${line}`),
  ]
  const lastTime = () => '12 Nov: done'

  test('is in the golden file, in every phase, and what keys change of it', async () => {
    const shown = Object.entries(situations).map(([name, made]) => {
      const fresh = () => {
        const walked = made()
        Object.assign(walked.context, { lastTime })
        return walked
      }
      const before = shownIn(fresh())
      const changes = ['e', 'o', 'x', 'h', '5'].map((key) => {
        const after = shownIn(fresh().typed(key)).filter((line) => !before.includes(line))
        return [`-- ${key}`, ...after].join('\n')
      })
      return [`== ${name}`, ...before, ...changes].join('\n')
    })
    await expect(`${shown.join('\n\n')}\n`).toMatchFileSnapshot('golden/phases.txt')
  })

  const straight = 'One\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
  const day =
    'All\n\nprep\n  hip circles\n\nrun\n  2 x 500 m in 1:50, jog 200 m\n\nlift\n  row: 2 x 5 @ 50 kg\n  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight\n\nfuel\n  after: carbs 80 g\n'
  const recorded = () =>
    walkThrough(day).enter().entry('1:50').entry('1:51').entry('5').entry('4').entry('6').entry('8')
  /** Each mode, once or more; recording is in every phase. */
  const modes: Record<OpenKind, Record<string, () => Walked>> = {
    question: {
      'a question with a suggestion': () => walkThrough(straight).effort(20).entry('6@100'),
      'a question that can only be insisted on': () => walkThrough('One\n\nrun\n  2 km easy\n').entry('2:00'),
      'a question about what the clock measured': () =>
        walkThrough('One\n\nrun\n  2 km in 8:00\n').effort(120).enter(),
      'a set that has not begun': () => walkThrough(straight).enter(),
      'several results': () =>
        walkThrough('One\n\nrun\n  3 x 500 m in 1:50, jog 200 m\n').entry('1:50 1:51.5 1:49'),
      'taking back a step of the clock': () => walkThrough(straight).effort(20).wait(60).typed('u'),
      'skipping a step while a result is open': () => walkThrough(straight).effort(20).wait(5).typed('s'),
      'what would be cut': () => walkThrough(day).typed('t').entry('5'),
      'the place of a note': () => recorded().wait(200).typed('n').entry('tired'),
    },
    closing: {
      'the effort of a part': () => recorded().typed('f'),
      'the minutes of a part': () => recorded().typed('f').entry('7'),
      'closing a part without figures': () => walkThrough(day).typed('f'),
    },
    picking: { 'a pick of a result': () => recorded().typed('e').key('up') },
    correcting: { 'a correction': () => recorded().typed('e').enter() },
    swapping: { 'another exercise': () => walkThrough(straight).typed('x') },
    ordering: {
      'the order': () => walkThrough(day).typed('o').key('down'),
      'the order with an item in hand': () => walkThrough(day).typed('o').key('down').enter(),
    },
    timeLeft: { 'the minutes left': () => walkThrough(day).typed('t') },
    noting: { 'a note': () => walkThrough(straight).typed('n') },
    painToday: {
      "today's level of an earlier pain": () => {
        const walked = walkThrough(straight)
        const pains = [{ place: 'left calf', text: '4 on Tuesday' }]
        walked.model = { ...walked.model, mode: painToday(pains) }
        return walked
      },
    },
    help: { 'the page of keys': () => walkThrough(straight).typed('?') },
  }

  test('is in the golden file, in every mode, and after Enter, Escape, an arrow, a letter and a number', async () => {
    const keys: Record<string, (walked: Walked) => Walked> = {
      Enter: (walked) => walked.enter(),
      Escape: (walked) => walked.key('escape'),
      'Escape after text': (walked) => walked.typed('5').key('escape'),
      up: (walked) => walked.key('up'),
      down: (walked) => walked.key('down'),
      z: (walked) => walked.typed('z'),
      '300 Enter': (walked) => walked.entry('300'),
    }
    const every = Object.entries(modes).flatMap(([kind, situations]) =>
      Object.entries(situations).map(([name, made]) => ({ kind, name, made })),
    )
    const shown = every.map(({ kind, name, made }) => {
      const first = made()
      expect(first.model.mode.kind, name).toBe(kind)
      const before = shownIn(first)
      const changes = Object.entries(keys).map(([key, act]) => {
        const walked = act(made())
        const after = shownIn(walked).filter(
          (line) => !before.includes(line) && !/^(keys|done|under)/.test(line),
        )
        return [`-- ${key}: ${walked.model.mode.kind} "${walked.model.draft}"`, ...after].join('\n')
      })
      return [`== ${name}`, ...before.slice(6), ...changes].join('\n')
    })
    await expect(`${shown.join('\n\n')}\n`).toMatchFileSnapshot('golden/modes.txt')
  })

  /** Every form of a line, under what it is to show; the part that it is in may have headers. */
  const forms: Record<string, [part: string, ...lines: string[]]> = {
    'a run in the unit in which it is felt: its time, to a tenth below a kilometre': [
      'run',
      '4 x 400 m in 1:18-1:22, every 3:00',
      '2 km in 8:00-8:20',
      '3 x 400 m in 80/78/76 s, jog 200 m',
      '3 km @ 4:15 to 3:55/km, split 1 km',
      '20 min @ 4:00-4:10/km',
      '3 x 1 km @ 4:00/km, hr 160-170, jog 200 m',
      '3 x 400 m in 1:20-1:24, grade 4%, "tall"',
      '2 km @ 4:00/km, split 1 km, negative',
    ],
    'a lap time on a track': ['run: track', '1 km @ 4:00-4:10/km', '400 m @ 4:00-4:10/km'],
    'a lap time in a lane': ['run', '2 x 1 km @ 4:00-4:10/km, lane 4, jog 400 m'],
    'a lap time where the header names a lap': ['lap: 200 m\n\nrun', '1 km @ 4:00-4:10/km'],
    'an effort or a heart rate where no time is fixed': [
      'run',
      '5 km',
      '10 km easy, hr under 140',
      '5 km easy, hr 130-145',
      '20 min @ rpe 6-7',
      '20 min @ rpe 6',
    ],
    'a distance as it is written on a day in miles': [
      'units: mi lb\n\nrun',
      '5 km steady',
      '20 min @ 6:30-6:40/mi',
    ],
    'a speed as it is written, because a treadmill shows it': [
      'run: treadmill',
      '10 min @ 10 km/h',
      '2 km @ 10-12 km/h, split 500 m',
    ],
    'a speed as a bicycle shows it': ['cross: bike', '2 x (10 min @ 20 mph, 2 min easy)'],
    'a recovery with about how long it takes, or its own time': [
      'run',
      '3 x 400 m in 1:20, jog 200 m in 1:30',
      '3 x 400 m in 1:20, jog same time',
      '2 x 400 m in 1:20, stand 1:00',
      '2 x (3:00 hard, jog 2:00)',
      '2 x 100 m strides, walk back',
      '2 x 20 s strides, walk back',
      '2 x (1 km hard, jog 400 m, 300 m hard), walk 3:00',
    ],
    'a set with its load and the plates of each side': [
      'lift',
      'front squat: 1 x 5 @ 92.5 kg',
      'front squat: 1 x 5 @ 20 kg',
      'squat 1 x 5 @ 140 kg then 2 x 5 @ 120 kg',
      'squat 1 x 5 @ 80-85 kg rpe 8',
      'press: 2 x 8-10 @ 2x22.5 kg, each arm, tempo 3-1-1',
      'raise: 1 x 8 @ 7 lb',
      'deadlift 1 x 3 @ 150 kg, straps, "beltless"',
      'bench press: 2 x 3 @ 100 kg, build from 60 kg, rest 2:30',
    ],
    'the base of a percentage': ['max: squat 100 kg\n\nlift', 'squat 2 x 4 @ 80%'],
    'that an unknown load must be typed': ['lift', 'squat 1 x 5 @ 80%', 'squat 1 x 5 @ rpe 8'],
    'a set on the body': [
      'lift',
      'pull-up 2 x max @ bodyweight + dip 2 x 5+ @ bodyweight-20 kg, pause 20 s, rest 1:30',
      'dip 1 x 5+ @ bodyweight+10 kg',
    ],
    'a set that is held, carried or jumped': [
      'lift',
      'plank: 2 x 45 s, rest 0:30',
      'plank: 1 x 90 s',
      'carry: 2 x 40 m @ 2 x 24 kg, rest 1:00',
      'box jump 2 x 3 at 60 cm',
    ],
    'a set in several pieces, one after the other': [
      'lift',
      'curl 1 x (12 > 10 > 8) @ 20/15/10 kg',
      '2 x (clean 1 + front squat 2 + jerk 1) @ 60 kg, rest 2:00',
      'front squat: 2 x (2+1) @ 80 kg rpe 8, pause 20 s, rest 2:00',
      'squat: 1 x (2+2+2) @ 80 kg, pause 20 s, "brace"',
    ],
    'rounds against the clock': [
      'lift',
      '12 min of: 8 row each arm @ 20 kg, 6 step-up each leg, 40 m carry, "steady"',
      'for time: 2 rounds of 20 step-up @ 10 kg, 60 m carry, 200 m run',
      'every 1:00 for 2 min: 3 power clean @ 70 kg, 10 push-up',
    ],
    'an item of prep as it is written': [
      'prep',
      'foam roll 3:00',
      'leg swings 2 x 10 each side, "slow"',
      'skips 2 x 20 yd',
    ],
    'a meal as it is written': [
      'fuel',
      'before 2:30:00: carbs 75 g, fat 10 g, 400 kcal, "porridge"',
      'after: protein 30 g',
    ],
  }

  test('is in the golden file for every form of a line, step by step', async () => {
    const shown = Object.entries(forms).flatMap(([what, [part, ...lines]]) => [
      `\n= ${what}`,
      ...lines.map((line) => [`== ${line}`, ...stepsOf(walkThrough(`Day\n${part}\n  ${line}\n`))].join('\n')),
    ])
    await expect(`${shown.join('\n').trimStart()}\n`).toMatchFileSnapshot('golden/steps.txt')
  })

  /** A line a step, if Space is pressed every seven seconds: what is shown before it, and its clock while it goes on. */
  function stepsOf(walked: Walked): string[] {
    const steps: string[] = []
    let [before, asked] = ['', '']
    for (let press = 0; press < 7 && (press === 0 || walked.state.phase.kind !== 'ready'); press++) {
      const { now, next, entry, clock } = walked.view
      const step = `${now.what} | ${now.where} | ${now.number} || ${next}`
      const prompt = ` || ${entry.label} > ${entry.placeholder}`
      const line = step === before ? (steps.pop() ?? '') : step
      const counted = [clock.text, clock.beside].filter((text) => text !== '').join(' ')
      steps.push(`${line}${line === step || prompt !== asked ? prompt : ''} || ${clock.label} ${counted}`)
      ;[before, asked] = [step, prompt]
      walked.space().wait(7)
    }
    return steps
  }
})

test('a single piece of a cross part does not count as a run', () => {
  expect(walkThrough('Day\n\ncross: rower\n  20 min easy\n').space().view.clock.label).toBe('piece')
  expect(walkThrough('Day\n\nrun\n  20 min easy\n').space().view.clock.label).toBe('run')
})
