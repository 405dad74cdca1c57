import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, test } from 'vitest'
import { decisionsGiven } from '../../src/app/nextDay.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { finished, setRecorded, started } from '../logbook/sampleSession.ts'
import { appOn, atTime, logbookWith } from './appOnGlass.ts'

/* The decisions about the next day: this program's own rules. */

const enter = '\r'
const right = '\x1b[C'
beforeEach(() => atTime('2026-11-26T19:40:00+01:00'))

/** Two days with two lifts complete at effort 8, so that both loads go up. */
function twoDays(): string {
  const folder = logbookWith()
  for (const date of ['2026-11-19', '2026-11-26']) {
    const text = `Push\ndate: ${date}\n\nlift\n  bench press: 2 x 5 @ 70 kg, rest 2:30\n  front squat: 2 x 3 @ 90 kg, rest 2:30\n`
    const reading = readPrescription(text, { units: { distance: 'km', mass: 'kg' }, maxima: [] })
    if (!('prescription' in reading)) throw new TypeError('the day has problems')
    const file = openLogbook(folder).create(reading.prescription, { ...started, date })
    for (const [number, step] of ['1.1.s1', '1.1.s2', '1.2.s1', '1.2.s2'].entries()) {
      const isBench = step.startsWith('1.1')
      const event = setRecorded(number + 1, isBench ? 5 : 3) as Extract<SessionEvent, { type: 'setRecorded' }>
      const load = { kind: 'mass' as const, value: isBench ? 70 : 90, unit: 'kg' as const, pair: false }
      file.append([{ ...event, step, result: { ...event.result, load } }])
    }
    file.append([finished])
    file.close()
  }
  return folder
}

test.each([
  [80, 24],
  [40, 12],
])(
  'an accepted line changes the saved day, a dropped one stays as it was, at %i x %i',
  async (columns, rows) => {
    const folder = twoDays()
    const { press, shows } = await appOn(folder, { columns, rows })
    await press('h', enter, 'n')
    const first = await shows()
    expect(first).toMatch(/^> {3}bench press: complete/m)
    expect(first).toMatch(/save for Thu 3 Dec 2026/)
    await press(enter, ' ', right)
    const marked = await shows()
    expect(marked).toMatch(/^ {2}\+ bench press/m)
    expect(marked).toMatch(/^ {2}- front squat/m)
    expect(marked).toMatch(/^> save for Fri 4 Dec 2026/m)
    await press(enter)
    const after = await shows()
    expect(after).toMatch(/> Fri 4 Dec/)
    expect(after).toContain('saved: Push, Fri 4 Dec 2026')
    expect(readdirSync(join(folder, 'prescriptions'))).toEqual(['2026-12-04-push.txt'])
    const day = readFileSync(join(folder, 'prescriptions', '2026-12-04-push.txt'), 'utf8')
    expect(day).toMatch(/date: 2026-12-04/)
    expect(day).toMatch(/bench press 2 x 5 @ 72.5 kg/)
    expect(day).toMatch(/front squat 2 x 3 @ 90 kg/)
  },
)

test('an unfinished session without a decision asks to finish it first', async () => {
  const folder = logbookWith()
  const reading = readPrescription('Push\n\nlift\n  bench press: 2 x 5 @ 70 kg, rest 2:30\n')
  if (!('prescription' in reading)) throw new TypeError('the day has problems')
  openLogbook(folder)
    .create(reading.prescription, { ...started, date: '2026-11-26' })
    .close()
  const { press, shows } = await appOn(folder)
  await press('h', enter, 'n')
  expect(await shows()).toContain('Finish the session first.')
})

test('a load added to the body grows by the lightest plate of which there is a pair', () => {
  const logbook = openLogbook(logbookWith())
  const reading = readPrescription('Dips\n\nlift\n  dip: 2 x 5 @ bodyweight+10 kg, rest 2:30\n')
  if (!('prescription' in reading)) throw new TypeError('the day has problems')
  const load = { kind: 'bodyweight' as const, added: 10, unit: 'kg' as const }
  const sets = [1, 2].map((number) => {
    const event = setRecorded(number, 5) as Extract<SessionEvent, { type: 'setRecorded' }>
    return { ...event, step: `1.1.s${number}`, result: { ...event.result, load } }
  })
  for (const date of ['2026-11-19', '2026-11-26'])
    logbook.create(reading.prescription, { ...started, date }, [...sets, finished]).close()
  const { id } = logbook.read('newest').entry
  const loadWith = (plates: { mass: number; pairs: number }[]) => {
    const settings = { ...defaultSettings, plates: { ...defaultSettings.plates, kg: plates } }
    let path = ''
    const given = decisionsGiven(id, logbook, settings, '2026-11-26', (saved) => {
      path = saved
    })
    expect(given?.save(new Set(['0.0']), 0)).toBeNull()
    return /dip .*/.exec(readFileSync(path, 'utf8'))?.[0]
  }
  const some = [
    { mass: 20, pairs: 1 },
    { mass: 3, pairs: 2 },
  ]
  expect(loadWith(some)).toBe('dip 2 x 5 @ bodyweight+13 kg, rest 2:30')
  expect(loadWith([...some, { mass: 1, pairs: 0 }])).toBe('dip 2 x 5 @ bodyweight+13 kg, rest 2:30')
  expect(loadWith([...some, { mass: 1, pairs: 1 }])).toBe('dip 2 x 5 @ bodyweight+12 kg, rest 2:30')
  expect(loadWith([])).toBe('dip 2 x 5 @ bodyweight+12.5 kg, rest 2:30')
})
