import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, test } from 'vitest'
import { knownOn } from '../../src/app/known.ts'
import { takeMorning } from '../../src/app/morning.ts'
import { decisionsContent } from '../../src/app/nextDay.ts'
import type { SessionEntry } from '../../src/logbook/model.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { type Logbook, openLogbook } from '../../src/logbook/store.ts'
import { dayOf } from '../day.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { Kept } from '../summary/kept.ts'
import { appOn, atTime, logbookWith } from './appOnGlass.ts'

/* The decisions about the next day: this program's own rules. */

const enter = '\r'
const right = '\x1b[C'
beforeEach(() => atTime('2026-11-26T19:40:00+01:00'))

/** All sets of the sample day, complete at effort 8. */
const thirty = () => Array.from({ length: 30 }, (_, index) => setRecorded(index + 1))

/** The decisions about a session, asked on a day. */
const decidedOn = (
  logbook: Logbook,
  id: string,
  today = '2026-11-26',
  saved: (path: string, said: string) => void = () => {},
) => decisionsContent(id, knownOn(logbook, defaultSettings, today), saved)

/** Two days with two lifts complete at effort 8, so that both loads go up. */
function twoDays(): string {
  const folder = logbookWith()
  for (const date of ['2026-11-19', '2026-11-26']) {
    const text = `Push\ndate: ${date}\n\nlift\n  bench press: 2 x 5 @ 70 kg, rest 2:30\n  front squat: 2 x 3 @ 90 kg, rest 2:30\n`
    const file = openLogbook(folder).create(dayOf(text), { ...started, date })
    for (const [number, step] of ['1.1.s1', '1.1.s2', '1.2.s1', '1.2.s2'].entries()) {
      const isBench = step.startsWith('1.1')
      const event = setRecorded(number + 1, isBench ? 5 : 3)
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
  const day = dayOf('Push\n\nlift\n  bench press: 2 x 5 @ 70 kg, rest 2:30\n')
  openLogbook(folder).create(day, started).close()
  const { press, shows } = await appOn(folder)
  await press('h', enter, 'n')
  expect(await shows()).toContain('Finish the session first.')
})

test('a load added to the body grows by the lightest plate of which there is a pair', () => {
  const logbook = openLogbook(logbookWith())
  const day = dayOf('Dips\n\nlift\n  dip: 2 x 5 @ bodyweight+10 kg, rest 2:30\n')
  const load = { kind: 'bodyweight' as const, added: 10, unit: 'kg' as const }
  const sets = [1, 2].map((number) => {
    const event = setRecorded(number, 5)
    return { ...event, step: `1.1.s${number}`, result: { ...event.result, load } }
  })
  for (const date of ['2026-11-19', '2026-11-26'])
    logbook.create(day, { ...started, date }, [...sets, finished]).close()
  const { id } = logbook.read('newest').entry
  const loadWith = (plates: { mass: number; pairs: number }[]) => {
    const settings = { ...defaultSettings, plates: { ...defaultSettings.plates, kg: plates } }
    let path = ''
    const given = decisionsContent(id, knownOn(logbook, settings, '2026-11-26'), (saved) => {
      path = saved
    })
    expect(given?.save(new Set(['0.0']), 0)).toBeNull()
    return /dip .*/.exec(readFileSync(path, 'utf8'))?.[0]
  }
  const some = [
    { mass: 20, pairs: 1 },
    { mass: 2.5, pairs: 2 },
  ]
  expect(loadWith(some)).toBe('dip 2 x 5 @ bodyweight+12.5 kg, rest 2:30')
  expect(loadWith([...some, { mass: 1, pairs: 0 }])).toBe('dip 2 x 5 @ bodyweight+12.5 kg, rest 2:30')
  expect(loadWith([...some, { mass: 1, pairs: 1 }])).toBe('dip 2 x 5 @ bodyweight+12 kg, rest 2:30')
  expect(loadWith([])).toBe('dip 2 x 5 @ bodyweight+12.5 kg, rest 2:30')
})

test('a pain of an earlier session counts for a fortnight', () => {
  const reasonWith = (date: string) => {
    const logbook = openLogbook(logbookWith())
    const event = setRecorded(1)
    const hurt = { ...event, result: { ...event.result, pain: 'left knee 4' } }
    logbook.create(legs, { ...started, date }, [hurt, finished]).close()
    const today = logbook.create(legs, started, [...thirty(), finished])
    today.close()
    const given = decidedOn(logbook, today.id)
    return given?.rows.map(({ text }) => text).join() ?? ''
  }
  expect(reasonWith('2026-11-12')).toContain('left knee')
  expect(reasonWith('2026-11-25')).toContain('left knee')
  expect(reasonWith('2026-11-11')).not.toContain('left knee')
})

test('no decision is given for a day that no rule applies to, and a day that cannot be stored is reported', () => {
  const folder = logbookWith()
  const logbook = openLogbook(folder)
  const easy = dayOf('Easy\n\nrun\n  2 km easy\n')
  const session = logbook.create(easy, started, [finished])
  session.close()
  expect(decidedOn(logbook, session.id)).toBeNull()
  const two = openLogbook(twoDays())
  const { id } = two.read('newest').entry
  const blocked = join(folder, 'file')
  writeFileSync(blocked, '')
  const saved: string[] = []
  const given = decidedOn({ ...two, damages: [], directory: blocked }, id, '2026-11-26', (path) =>
    saved.push(path),
  )
  expect(given?.save(new Set(), 0)).toMatch(/^The day cannot be written into /)
  expect(saved).toEqual([])
})

test('the offered date is a week after the session, not after the day on which it is decided, unless that is over', () => {
  const logbook = openLogbook(twoDays())
  const { id } = logbook.read('newest').entry
  const offered = (today: string) => {
    const given = decidedOn(logbook, id, today)
    return [given?.dateText(0), given?.dateText(given.earliest)]
  }
  expect(offered('2026-11-29')).toEqual(['Thu 3 Dec 2026', 'Sun 29 Nov 2026'])
  expect(offered('2026-12-03')).toEqual(['Thu 3 Dec 2026', 'Thu 3 Dec 2026'])
  expect(offered('2026-12-04')).toEqual(['Fri 11 Dec 2026', 'Fri 4 Dec 2026'])
})

test('a saved day names the session it follows and why each line changed, and its date can be moved', () => {
  const logbook = openLogbook(twoDays())
  const { id } = logbook.read('newest').entry
  const saved: string[][] = []
  const given = decidedOn(logbook, id, '2026-11-26', (...said) => void saved.push(said))
  if (given === null) throw new Error('nothing was decided')
  expect(given.earliest).toBe(-7)
  expect(given.rows.map((row) => row.id)).toEqual(['0.0', '0.1'])
  expect([-7, 0, 1].map(given.dateText)).toEqual(['Thu 26 Nov 2026', 'Thu 3 Dec 2026', 'Fri 4 Dec 2026'])
  expect(given.save(new Set(['0.1']), -1)).toBeNull()
  const [path = '', said] = saved[0] ?? []
  expect(said).toBe('saved: Push, Wed 2 Dec 2026')
  const text = readFileSync(path, 'utf8')
  expect(text).toContain(`# After 2026-11-26 (${id})`)
  expect(text).toMatch(/^ *# front squat: complete .* -> 92\.5 kg$/m)
  expect(text).not.toMatch(/# bench press/)
  expect(text).toContain('bench press 2 x 5 @ 70 kg')
  expect(text).toContain('front squat 2 x 3 @ 92.5 kg')
  // A line that is taken and stays the same has no comment.
  const once = openLogbook(logbookWith())
  const session = once.create(legs, started, [...thirty(), finished])
  session.close()
  const paths: string[] = []
  const same = decidedOn(once, session.id, '2026-11-26', (path) => void paths.push(path))
  expect(same?.rows.map((row) => row.text)).toEqual([expect.stringContaining('once more')])
  expect(same?.save(new Set(['0.0']), 0)).toBeNull()
  expect(readFileSync(paths[0] ?? '', 'utf8')).not.toContain('front squat:')
})

test('both exercises of a superset are in the row of its line', () => {
  const logbook = openLogbook(logbookWith())
  const day = dayOf('Pairs\n\nlift\n  dip 1 x 8 @ bodyweight + row 1 x 8 @ 60 kg, rest 1:30\n')
  const { session } = new Kept(day, { fromPaper: true }).type('8 @8', '8 @8').finish()
  const [, ...events] = session.events
  const file = logbook.create(day, { ...started, fromPaper: true }, events)
  file.close()
  const given = decidedOn(logbook, file.id)
  expect(given?.rows).toEqual([{ id: '0.0', text: expect.stringMatching(/^dip: .*; row: /) }])
})

test('a run by time without a distance is a run, and what was done since counts for the weeks away', () => {
  const logbook = openLogbook(logbookWith())
  const keep = (date: string, lines: string, ...entries: string[]) => {
    const day = dayOf(`A day\n\n${lines}\n`)
    const [, ...events] = new Kept(day, { fromPaper: true }).type(...entries).finish().session.events
    const file = logbook.create(day, { ...started, date, fromPaper: true }, events)
    file.close()
    return file.id
  }
  const run = keep('2026-10-20', 'run\n  10 km easy', '50:00')
  const squat = keep('2026-10-21', 'lift\n  squat 1 x 5 @ 100 kg', '5')
  const texts = (id: string) => decidedOn(logbook, id)?.rows.map(({ text }) => text) ?? []
  expect(texts(run)).toEqual(['10 km easy: 5 weeks since the last run -> half (was 10 km)'])
  expect(texts(squat)).toEqual([expect.stringContaining('5 weeks since the last time')])
  keep('2026-11-25', 'run\n  60 min easy', '=')
  keep('2026-11-25', 'lift\n  squat 3 x 3 @ 90 kg', '3', '3', '3')
  expect(texts(run)).toEqual([])
  expect(texts(squat)).toEqual([expect.stringContaining('once more')])
})

test('an earlier session that is damaged is left out of the decision', () => {
  const logbook = openLogbook(logbookWith())
  const decided = (isDamaged: boolean) => {
    const early = logbook.create(legs, { ...started, date: '2026-11-12' }, [...thirty(), finished])
    early.close()
    const { id, close } = logbook.create(legs, started, [...thirty(), finished])
    close()
    logbook.index()
    const sessionOf = (entry: SessionEntry) =>
      isDamaged && entry.id === early.id ? null : logbook.sessionOf(entry)
    const reading = { ...logbook, sessionOf }
    return decidedOn(reading, id)?.rows[0]?.text
  }
  expect(decided(true)).toContain('once more')
  expect(decided(false)).toContain('twice')
})

test('a pain of a later session counts until its day has come, and one that a morning ended does not', () => {
  const logbook = openLogbook(logbookWith())
  const file = logbook.create(legs, { ...started, date: '2026-11-20' }, [...thirty(), finished])
  file.close()
  const event = setRecorded(1)
  const hurt = { ...event, result: { ...event.result, pain: 'left knee 4' } }
  logbook
    .create(legs, { ...started, date: '2026-11-24', at: '2026-11-24T17:40:00.000+01:00' }, [hurt, finished])
    .close()
  const text = (today: string) => decidedOn(logbook, file.id, today)?.rows[0]?.text
  expect(text('2026-11-23')).not.toContain('left knee')
  expect(text('2026-11-24')).toContain('left knee')
  atTime('2026-11-25T07:00:00+01:00')
  takeMorning(logbook.directory, 'left knee 0')
  expect(text('2026-11-24')).toContain('left knee')
  expect(text('2026-11-25')).not.toContain('left knee')
})
