import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { choicesOf, placeText, unfinishedChoices, unfinishedSessionOf } from '../../src/app/choices.ts'
import { knownOn } from '../../src/app/known.ts'
import { damageText, dueText } from '../../src/app/today.ts'
import { todayOf } from '../../src/logbook/machine.ts'
import { dayOrMessage } from '../../src/logbook/ownTexts.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { type Walked, walkThrough } from '../day.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

const inMiles = { ...defaultSettings, units: { distance: 'mi' as const, mass: 'lb' as const } }
const defaults = { units: inMiles.units, maxima: [] }

/** What can be opened in a logbook. */
function opensIn(
  logbook: ReturnType<typeof openLogbook>,
  now: Date,
  samples: string | null = null,
  settings = defaultSettings,
) {
  return choicesOf(knownOn(logbook, settings, todayOf(now)), samples, now)
}

describe('a day without units', () => {
  it('is listed and opened in the units of the settings', () => {
    const folder = temporaryFolder()
    mkdirSync(join(folder, 'prescriptions'))
    const path = join(folder, 'prescriptions', 'day.txt')
    writeFileSync(path, 'Monday\nrun\n  4 x 800 m @ 6:00\nlift\n  squat 3 x 5 @ 225\n')
    const day = dayOrMessage(path, defaults)
    if ('message' in day) throw new Error(day.message)
    expect(day.prescription.units).toEqual({ distance: 'mi', mass: 'lb' })
    const at = new Date('2026-11-26T06:40:00+01:00')
    const listed = opensIn(openLogbook(folder), at, null, inMiles)
    expect(listed.map((each) => ({ ...each, detail: each.detail() }))).toEqual([
      {
        kind: 'day',
        id: path,
        when: 'no date',
        date: null,
        title: 'Monday',
        detail: '1.99 mi, 3 sets, about 16 min',
        sample: false,
      },
    ])
  })
})

describe('a day that was done today', () => {
  it('is listed after those still to be done, and says so', () => {
    const folder = temporaryFolder()
    mkdirSync(join(folder, 'prescriptions'))
    const write = (name: string, text: string) => writeFileSync(join(folder, 'prescriptions', name), text)
    write('a.txt', 'Legs\nlift\n  squat 1 x 5 @ 100 kg\n')
    write('b.txt', 'Easy\nrun\n  5 km easy\n')
    write('c.txt', 'Tempo\ndate: 2026-11-30\nrun\n  5 km easy\n')
    write('d.txt', 'Long\ndate: 2026-12-24\nrun\n  5 km easy\n')
    const logbook = openLogbook(folder)
    const day = dayOrMessage(join(folder, 'prescriptions', 'a.txt'), defaults)
    if ('message' in day) throw new Error(day.message)
    const doneOn = (date: string) => {
      const at = `${date}T06:00:00+01:00`
      const session = logbook.create(day.prescription, { ...started, at, date })
      session.append([{ type: 'sessionFinished', at, up: null }])
      session.close()
    }
    const listed = () =>
      opensIn(logbook, new Date('2026-11-26T18:00:00+01:00')).map(
        ({ kind, when, title }) => `${kind}: ${when}: ${title}`,
      )
    doneOn('2026-11-25')
    expect(listed()).toEqual([
      'day: no date: Legs',
      'day: no date: Easy',
      'day: Mon 30 Nov: Tempo',
      'day: Thu 24 Dec: Long',
    ])
    doneOn('2026-11-26')
    expect(listed()).toEqual([
      'day: no date: Easy',
      'day: Mon 30 Nov: Tempo',
      'day: done today: Legs',
      'day: Thu 24 Dec: Long',
    ])
  })
})

describe('the kind of day that is due', () => {
  it('is the one after the last in the rotation, with the day of that', () => {
    const logbook = openLogbook(temporaryFolder())
    expect(dueText(logbook.index(), ['push', 'legs'])).toBe('due: push')
    logbook.create(legs, { ...started, date: '2026-11-24' }, [setRecorded(1), finished]).close()
    expect(dueText(logbook.index(), ['push', 'legs'])).toBe('due: push, after legs on 24 Nov')
    expect(dueText(logbook.index(), [])).toBeNull()
  })
})

describe('an unfinished session of a day', () => {
  const at = Date.parse('2026-11-26T17:40:00+01:00')
  const question = (seconds: number, day: Partial<typeof legs> = {}) => {
    const logbook = openLogbook(temporaryFolder())
    logbook.create(legs, started).close()
    return unfinishedSessionOf(logbook, { ...legs, ...day }, new Date(at + seconds * 1000))?.question ?? null
  }

  it.each([
    [0, '0 s ago'],
    [59, '59 s ago'],
    [60, '1 minute ago'],
    [7200, '2 hours ago'],
    [-30, '0 s ago'],
  ])('was left %i seconds before: %s', (seconds, ago) => {
    expect(question(seconds)).toBe(
      `Go on where you left off, ${ago} before front squat, set 1 of 30? Enter yes, n starts over`,
    )
  })

  it('is of the same title and date, and goes on only if no program records it', () => {
    expect(question(0, { title: 'Push' })).toBeNull()
    expect(question(0, { date: '2026-11-27' })).toBeNull()
    const logbook = openLogbook(temporaryFolder())
    const file = logbook.create(legs, started)
    expect(unfinishedSessionOf(logbook, legs, new Date(at))).toMatchObject({ id: file.id, mayResume: false })
    const free = logbook.create(legs, started)
    free.close()
    expect(unfinishedSessionOf(logbook, legs, new Date(at))).toMatchObject({ id: free.id, mayResume: true })
    file.close()
  })
})

describe('the list of what can be opened', () => {
  const now = new Date('2026-11-26T18:00:00+01:00')
  /** A logbook with these day files. */
  const logbookOf = (days: Record<string, string>, plan?: string) => {
    const folder = temporaryFolder()
    mkdirSync(join(folder, 'prescriptions'))
    for (const [name, text] of Object.entries(days)) writeFileSync(join(folder, 'prescriptions', name), text)
    if (plan !== undefined) writeFileSync(join(folder, 'plan.txt'), plan)
    return openLogbook(folder)
  }
  const easy = (title: string, date = '') =>
    `${title}\n${date === '' ? '' : `date: ${date}\n`}\nrun\n  5 km easy\n`
  const listed = (logbook: ReturnType<typeof openLogbook>, samples: string | null = null) =>
    opensIn(logbook, now, samples).map(({ when, title }) => `${when}: ${title}`)

  it.each([
    ['run\n  2 x (400 m in 1:30, jog 200 m)\n', /^1 km, about \d+ min$/],
    ['run\n  20:00 easy\n', /^about 20 min$/],
    ['lift\n  squat 1 x 5 @ 100 kg\n', /^1 set, about \d+ min$/],
    ['cross: rower\n  2 x 500 m, rest 1:00\n', /^about \d+ min$/],
    // Running inside a circuit counts as running, as in `check`.
    ['lift\n  circuit 2 rounds of 5 squat @ 60 kg, 400 m run\n', /^800 m, 2 sets, about \d+ min$/],
    ['run\n  5 km easy\n\nlift\n  squat 2 x 5 @ 100 kg\n', /^5 km, 2 sets, about \d+ min$/],
  ])('says how far a day goes on foot, how many sets it has and how long it takes: %j', (parts, detail) => {
    const [day] = opensIn(logbookOf({ 'day.txt': `Day\n\n${parts}` }), now)
    expect(day?.detail()).toMatch(detail)
  })

  it('has the title and the date of a day with problems further down, and how many there are', () => {
    const day = `${easy('Tempo', '2026-11-26')}\nlift\n  squat 3 x\n`
    const [broken, ...others] = opensIn(logbookOf({ 'a.txt': easy('A'), 'b.txt': day, 'c.txt': 'run' }), now)
    expect(broken).toMatchObject({ title: 'Tempo', when: 'today' })
    expect(broken?.detail()).toBe('1 problem: e opens the day to correct it')
    expect(others.map(({ title }) => title)).toEqual(['A', 'c.txt'])
  })

  it('reads more of a day than its title and date only where it is shown, and once', () => {
    const logbook = logbookOf({ 'a.txt': easy('A'), 'b.txt': easy('B') })
    const [a, b] = opensIn(logbook, now)
    const detail = a?.detail()
    for (const name of ['a.txt', 'b.txt']) writeFileSync(join(logbook.directory, 'prescriptions', name), 'C')
    expect(a?.detail()).toBe(detail)
    expect(b).toMatchObject({ title: 'B' })
    expect(b?.detail()).toBe('1 problem: e opens the day to correct it')
  })

  it("takes a day without a date as today's if the plan's word is its file's name, whatever their case", () => {
    const plan = 'Block\nweek: Thu Tempo + legs\n2026-11-23: 42 km\n'
    const days = { 'TEMPO.txt': easy('A'), 'legs.txt': easy('B', '2026-11-28'), 'xlegs.txt': easy('C') }
    expect(listed(logbookOf(days, plan))).toEqual(['today: A', 'no date: C', 'Sat 28 Nov: B'])
  })

  it('takes a day as done only with the title of a finished session of today, and not if it is dated otherwise', () => {
    const logbook = logbookOf({
      'a.txt': easy('Done'),
      'b.txt': easy('Done', '2026-11-26'),
      'c.txt': easy('Done', '2026-11-27'),
      'd.txt': easy('Begun', '2026-11-26'),
      'e.txt': easy('Damaged', '2026-11-26'),
    })
    logbook.create({ ...legs, title: 'Done' }, started, [finished]).close()
    logbook.create({ ...legs, title: 'Begun' }, started).close()
    const damaged = logbook.create({ ...legs, title: 'Damaged' }, started, [finished])
    damaged.close()
    writeFileSync(damaged.path, '{')
    writeFileSync(`${damaged.path}.bak`, '{')
    expect(listed(logbook)).toEqual([
      expect.stringMatching(/^unfinished: Thursday 26 November: Begun$/),
      'today: Begun',
      'today: Damaged',
      'Fri 27 Nov: Done',
      'done today: Done',
      'done today: Done',
    ])
  })

  it('ends with the samples in the order of their file names, whatever their dates, or with none if their folder is missing', () => {
    const samples = temporaryFolder()
    for (const name of ['c', 'a', 'b']) writeFileSync(join(samples, `${name}.txt`), easy(name, '2026-11-26'))
    writeFileSync(join(samples, 'read.md'), 'no day')
    const logbook = logbookOf({ 'z.txt': easy('Own', '2026-01-01') })
    expect(listed(logbook, samples)).toEqual(['Thu 1 Jan: Own', 'sample: a', 'sample: b', 'sample: c'])
    expect(listed(logbook, join(samples, 'gone'))).toEqual(['Thu 1 Jan: Own'])
  })

  it('says of an unfinished session when and where it was left, as far as that is known, or who records it', () => {
    const logbook = logbookOf({})
    const details = () => unfinishedChoices(logbook, now).map(({ detail }) => detail())
    logbook.create(legs, { ...started, at: null, up: null }).close()
    expect(details()).toEqual(['left before front squat, set 1 of 30'])
    expect(unfinishedSessionOf(logbook, legs, now)?.question).toBe(
      'Go on where you left off, before front squat, set 1 of 30? Enter yes, n starts over',
    )
    const file = logbook.create(legs, started)
    expect(unfinishedChoices(logbook, now).map(({ detail, kind }) => `${kind}: ${detail()}`)).toContainEqual(
      expect.stringMatching(`unfinished: being recorded by process ${process.pid} on \\S+`),
    )
    file.close()
    expect(details()).toContain('left 20 minutes ago before front squat, set 1 of 30')
  })

  it('says which file is damaged, and how many more are', () => {
    const logbook = logbookOf({})
    const said = (...files: string[]) =>
      damageText({ ...logbook, damages: files.map((file) => ({ file, wrong: '', done: '' })) })
    expect(said()).toBeNull()
    expect(said('a.json')).toBe('damaged: a.json; "pausebook verify" says what is wrong')
    expect(said('a.json', 'b.json', 'c.json')).toContain('damaged: a.json and 2 more;')
    writeFileSync(join(logbook.directory, 'settings.json'), '{')
    expect(said()).toContain('damaged: settings.json;')
    expect(said('a.json')).toContain('damaged: a.json and 1 more;')
    mkdirSync(join(logbook.directory, 'mornings'))
    writeFileSync(join(logbook.directory, 'mornings', '2026.json'), '{')
    expect(said('a.json')).toContain('damaged: a.json and 2 more;')
  })
})

describe('where an unfinished session was left', () => {
  const run = 'Thursday\n\nrun\n  2 km easy\n  2 x (500 m in 1:50, jog 200 m)\n'
  const lift = `Thursday

lift
  front squat 2 x (1+1) @ 90 kg, pause 20 s, rest 2:30
  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight, pause 20 s, rest 1:30
`
  const place = (walked: Walked) => placeText(walked.state)

  it('names the run before and while it runs, and the jog', () => {
    const walked = walkThrough(run)
    expect(place(walked)).toBe('before 2 km')
    expect(place(walked.space().wait(60))).toBe('in 2 km')
    walked.wait(600).space().enter()
    expect(place(walked.effort(110))).toBe('in jog 200 m')
  })

  it('names the exercise, and tells a pause within a set from the rest before it', () => {
    const walked = walkThrough(lift)
    expect(place(walked)).toBe('before front squat, set 1 of 2')
    expect(place(walked.effort(4))).toBe('in the pause of front squat, set 1 of 2')
    expect(place(walked.wait(20))).toBe('in front squat, set 1 of 2')
    expect(place(walked.space().enter())).toBe('in the rest before front squat, set 2 of 2')
    walked.space().enter().enter()
    expect(place(walked)).toBe('before pull-up, set 1 of 2')
    expect(place(walked.effort(20))).toBe('in the pause before dip, set 1 of 2')
  })

  it('says when nothing is left', () => {
    expect(place(walkThrough('Easy\n\nrun\n  2 km easy\n').entry('11:00'))).toBe('with everything done')
  })

  it('names a warm-up set with its exercise, too', () => {
    const walked = walkThrough('Legs\n\nlift\n  back squat 1 x 5 @ 100 kg, build from 60 kg\n')
    expect(place(walked)).toMatch(/^before back squat, warm-up/)
  })
})
