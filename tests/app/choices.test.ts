import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { choicesOf, dueText, unfinishedSessionOf } from '../../src/app/choices.ts'
import { readingDefaultsOf } from '../../src/app/earlierDays.ts'
import { progressGiven } from '../../src/app/overWeeks.ts'
import { readDay, unsavedText } from '../../src/app/recording.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../logbook/temporaryFolder.ts'
import { noOtherDays } from './noOtherDays.ts'

const defaults = readingDefaultsOf({ ...defaultSettings, units: { distance: 'mi', mass: 'lb' } }, noOtherDays)

describe('a day without units', () => {
  it('is listed and opened in the units of the settings', () => {
    const folder = temporaryFolder()
    mkdirSync(join(folder, 'prescriptions'))
    const path = join(folder, 'prescriptions', 'day.txt')
    writeFileSync(path, 'Monday\nrun\n  4 x 800 m @ 6:00\nlift\n  squat 3 x 5 @ 225\n')
    const day = readDay(path, defaults)
    if ('message' in day) throw new Error(day.message)
    expect(day.prescription.units).toEqual({ distance: 'mi', mass: 'lb' })
    const known = { warmUpOf: () => [], defaults }
    expect(choicesOf(openLogbook(folder), null, known, new Date('2026-11-26T06:40:00+01:00'))).toEqual([
      {
        kind: 'day',
        path,
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
    const day = readDay(join(folder, 'prescriptions', 'a.txt'), defaults)
    if ('message' in day) throw new Error(day.message)
    const doneOn = (date: string) => {
      const at = `${date}T06:00:00+01:00`
      const session = logbook.create(day.prescription, { ...started, at, date })
      session.append([{ type: 'sessionFinished', at, up: null }])
      session.close()
    }
    const listed = () =>
      choicesOf(logbook, null, { warmUpOf: () => [], defaults }, new Date('2026-11-26T18:00:00+01:00')).map(
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

describe('a day that is read', () => {
  const said = (path: string) => {
    const day = readDay(path, defaults)
    return 'message' in day ? day.message : day.prescription.title
  }

  it('is reported if it is gone, no file, or has one or more problems', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'day.txt')
    expect(said(path)).toBe('the file is gone')
    expect(said(folder)).toMatch(/^the file \S+/)
    writeFileSync(path, 'Monday\n\nlift\n  squat 3 x\n')
    expect(said(path)).toMatch(/^line 4: (?!.*more;)/)
    writeFileSync(path, 'Monday\n\nlift\n  squat 3 x\n  bench 3 y 5\n')
    expect(said(path)).toMatch(/^line 4: .* \(and 1 more; "pausebook check" shows all\)$/)
  })
})

describe('the kind of day that is due', () => {
  it('is the one after the last in the rotation, with the day of that', () => {
    const logbook = openLogbook(temporaryFolder())
    expect(dueText(logbook, ['push', 'legs'])).toBe('due: push')
    logbook.create(legs, { ...started, date: '2026-11-24' }, [setRecorded(1), finished]).close()
    expect(dueText(logbook, ['push', 'legs'])).toBe('due: push (legs on 24 Nov)')
    expect(dueText(logbook, [])).toBeNull()
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
    expect(question(seconds)).toBe(`Go on where you left off, ${ago} before front squat, set 1 of 30?`)
  })

  it('is of the same title and date, and no program records it', () => {
    expect(question(0, { title: 'Push' })).toBeNull()
    expect(question(0, { date: '2026-11-27' })).toBeNull()
    const logbook = openLogbook(temporaryFolder())
    const file = logbook.create(legs, started)
    expect(unfinishedSessionOf(logbook, legs, new Date(at))).toBeNull()
    file.close()
    expect(unfinishedSessionOf(logbook, legs, new Date(at))?.id).toBe(file.id)
  })
})

describe('results that could not be saved', () => {
  it('are printed, and the last line says that they are nowhere else', () => {
    const { lines, last } = unsavedText({
      ok: false,
      reason: 'the disk is full',
      lines: ['{1}', '{2}'],
      spill: null,
    })
    expect(lines).toBe('{1}\n{2}\n')
    expect(last).toMatch(/the disk is full\. They are printed above and nowhere else/)
  })
})

describe('the progress of the app', () => {
  it('has a subject for pain only after a pain, and one for each lift', () => {
    const logbook = openLogbook(temporaryFolder())
    const names = () => progressGiven(logbook, defaultSettings, '2026-11-26')?.map(({ name }) => name) ?? null
    expect(names()).toBeNull()
    logbook.create(legs, started, [setRecorded(1), finished]).close()
    expect(names()).toEqual(['all', 'run', 'load', 'front squat'])
    const event = setRecorded(1)
    if (event.type !== 'setRecorded') throw new Error('no set')
    const hurt = { ...event, result: { ...event.result, pain: 'left knee 3' } }
    logbook.create(legs, started, [hurt, finished]).close()
    expect(names()).toEqual(['all', 'run', 'load', 'pain', 'front squat'])
  })

  it('is at most 100 columns wide and at least 40', () => {
    const logbook = openLogbook(temporaryFolder())
    logbook.create(legs, started, [setRecorded(1), finished]).close()
    const [all] = progressGiven(logbook, defaultSettings, '2026-11-26') ?? []
    const widest = (columns: number) => Math.max(...(all?.lines(columns).map((line) => line.length) ?? []))
    expect(all?.lines(300)).toEqual(all?.lines(100))
    expect(all?.lines(20)).toEqual(all?.lines(40))
    expect(widest(40)).toBeLessThanOrEqual(40)
  })
})
