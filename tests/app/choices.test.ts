import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { choicesOf } from '../../src/app/choices.ts'
import { readingDefaultsOf } from '../../src/app/earlierDays.ts'
import { readDay } from '../../src/app/recording.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { started } from '../logbook/sampleSession.ts'
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
