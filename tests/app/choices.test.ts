import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { choicesOf } from '../../src/app/choices.ts'
import { readingDefaultsOf } from '../../src/app/earlierDays.ts'
import { readDay } from '../../src/app/recording.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
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
