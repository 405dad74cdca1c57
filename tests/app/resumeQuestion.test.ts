import { beforeEach, describe, expect, test, vi } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { dayOf } from '../day.ts'
import { appOn, atTime, logbookWith } from './appOnGlass.ts'

/* `record FILE` on a day with an unfinished session. */

const day = 'Thursday\ndate: 2026-11-26\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
const enter = '\r'

beforeEach(() => atTime('2026-11-26T06:40:00+01:00'))

/** A logbook with a session that was left in its first rest, 12 seconds ago. */
async function leftInARest(): Promise<string> {
  const folder = logbookWith()
  const { press, status } = await appOn(folder, { start: { begin: dayOf(day) } })
  await press(' ')
  vi.setSystemTime('2026-11-26T06:40:20+01:00')
  await press(' ', enter, 'q')
  await status
  vi.setSystemTime('2026-11-26T06:40:32+01:00')
  return folder
}

const sessions = (folder: string) => openLogbook(folder).list().length

describe('record on a day that was left unfinished', () => {
  test('says when and where it was left, and Enter continues there', async () => {
    const folder = await leftInARest()
    const { press, shows } = await appOn(folder, { start: { begin: dayOf(day) } })
    expect(await shows()).toContain(
      'Go on where you left off, 12 s ago in the rest before bench press, set 2 of 3?\nEnter yes, n starts over',
    )
    await press(enter)
    expect(await shows()).toMatch(/bench press 5 at 70 kg[\s\S]*rest/)
    await press(' ')
    expect(sessions(folder)).toBe(1)
    expect(
      openLogbook(folder)
        .read('newest')
        .session.events.map(({ type }) => type),
    ).toContain('setRecorded')
  })

  test('starts over with n and leaves the earlier session as it was', async () => {
    const folder = await leftInARest()
    const { press, shows } = await appOn(folder, { start: { begin: dayOf(day) } })
    await press('n')
    expect(await shows()).toContain('set 1 of 3')
    await press(' ')
    expect(sessions(folder)).toBe(2)
  })

  test('does nothing for another key; q quits', async () => {
    const folder = await leftInARest()
    const { press, shows, status } = await appOn(folder, { start: { begin: dayOf(day) } })
    await press('z')
    expect(await shows()).toMatch(/Enter go on +n start over +\? keys +q quit/)
    await press('q')
    expect(await status).toBe(0)
    expect(sessions(folder)).toBe(1)
  })

  test('says which process records the day, and begins it a second time only with n', async () => {
    const folder = await leftInARest()
    const held = openLogbook(folder).open('newest')
    const { press, shows } = await appOn(folder, { start: { begin: dayOf(day) } })
    expect(await shows()).toContain(`This day is being recorded by process ${process.pid} on `)
    await press(enter, ' ')
    expect(sessions(folder)).toBe(1)
    await press('n', ' ')
    expect(sessions(folder)).toBe(2)
    held.close()
  })

  test('asks nothing for another title, another date, or a finished session', async () => {
    const folder = await leftInARest()
    for (const other of [
      day.replace('Thursday', 'Friday'),
      day.replace('-26', '-27'),
      day.replace(/date.*\n/, ''),
    ]) {
      const { press, shows } = await appOn(folder, { start: { begin: dayOf(other) } })
      expect(await shows()).toContain('set 1 of 3')
      await press('q')
    }
    const held = openLogbook(folder).open('newest')
    held.append([{ type: 'sessionFinished', at: null, up: null }])
    held.close()
    expect(await (await appOn(folder, { start: { begin: dayOf(day) } })).shows()).toContain('set 1 of 3')
  })
})
