import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, onTestFinished, test, vi } from 'vitest'
import { openSpoken } from '../../src/app/openSpoken.ts'
import { readMornings } from '../../src/logbook/mornings.ts'
import { readSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { dayOf } from '../day.ts'
import { failing } from '../logbook/otherCalls.ts'
import { createGlass, settled } from '../terminal/glass.ts'
import { atTime, logbookWith } from './appOnGlass.ts'

/* The app for a screen reader, in this process: what it says, and what reaches the logbook. */

const enter = '\r'
const push = 'Push\ndate: 2026-11-26\n\nlift\n  bench press: 1 x 5 @ 70 kg\n'

beforeEach(() => atTime('2026-11-26T06:40:00+01:00'))

/** Opens it on a logbook, with keys from a terminal of this test. */
async function spoken(folder: string, given: Partial<Parameters<typeof openSpoken>[0]> = {}) {
  const { streams, type } = createGlass(80, 24)
  const stdin = vi.spyOn(process, 'stdin', 'get').mockReturnValue(streams.stdin)
  onTestFinished(() => stdin.mockRestore())
  const heard: string[] = []
  const steered: string[] = []
  const told: string[] = []
  const status = openSpoken({
    logbook: openLogbook(folder),
    samples: null,
    env: {},
    start: null,
    write: (text) => heard.push(text),
    steer: (sequence) => steered.push(sequence),
    err: (text) => told.push(text),
    edit: null,
    units: { distance: null, mass: null },
    ...given,
  })
  status.catch(() => {})
  onTestFinished(async () => {
    await type('\x03')
    streams.stdin.emit('end')
  })
  await settled()
  return {
    status,
    steered,
    told,
    said: () => heard.join(''),
    end: () => streams.stdin.emit('end'),
    /** Types each of these as a line, and returns what was announced. */
    async answer(...texts: string[]): Promise<string> {
      const before = heard.length
      for (const text of texts) await type(text === enter ? enter : `${text}\n`)
      return heard.slice(before).join('')
    },
    /** Types these, one after the other, and returns what was announced. */
    async type(...texts: string[]): Promise<string> {
      const before = heard.length
      for (const text of texts) await type(text)
      return heard.slice(before).join('')
    },
  }
}

const sessionsIn = (folder: string) => openLogbook(folder).list()
const newestIn = (folder: string) => openLogbook(folder).read('newest').session

describe('the spoken app, before a day is begun,', () => {
  test('says the welcome and the cautions the first time only', async () => {
    const folder = logbookWith({}, { firstStartSeen: false })
    const first = await spoken(folder)
    expect(first.said()).toMatch(
      /^Pausebook walks you through the day on your whiteboard[\s\S]*\nEnter go on, t test signal, q quit, \? keys\n$/,
    )
    expect(await first.type(enter)).toContain('units: Enter: km kg, or type mi lb\n')
    expect(await first.answer('stone')).toContain('units are km or mi')
    expect(await first.answer('mi')).toContain('body mass: Enter: skip, or type 150 lb\n')
    expect(await first.type(enter)).toContain('No day is in the logbook yet: n writes one.\n')
    await first.answer('q')
    expect(await first.status).toBe(0)
    expect(readSettings(folder).settings.firstStartSeen).toBe(true)
    expect((await spoken(folder)).said()).not.toContain('Pausebook walks you through')
  })

  test('begins although the settings cannot be saved, and leaves those of a newer version as they are', async () => {
    const folder = logbookWith({})
    writeFileSync(join(folder, 'settings.json'), '{"format": 9}')
    const { said, answer, status } = await spoken(folder)
    expect(said()).toContain('Pausebook walks you through')
    await answer(enter, enter, enter, 'q')
    expect(await status).toBe(0)
    expect(readFileSync(join(folder, 'settings.json'), 'utf8')).toBe('{"format": 9}')
  })

  test('says the days by number, asks again for another word, and leaves without a session on q', async () => {
    const folder = logbookWith({ 'push.txt': push, 'easy.txt': 'Easy\n\nrun\n  5 km easy\n' })
    const { said, answer, status } = await spoken(folder)
    expect(said()).toMatch(
      /^Pausebook\n1: today Push, 1 set, about \d+ min\n2: no date Easy, 5 km, about \d+ min\nType a number, or: Enter open, e edit, n new, /,
    )
    expect(await answer('3')).toMatch(/^Invalid answer "3"\.\nType a number/)
    expect(await answer('?')).toMatch(
      /^Enter: opens the day, .*\ne: edits the chosen day\n[\s\S]*\nt: sounds .*\nq: quits\nType a number/,
    )
    await answer('q')
    expect(await status).toBe(0)
    expect(sessionsIn(folder)).toEqual([])
  })

  test('leaves at the end of its input', async () => {
    const { end, status } = await spoken(logbookWith({ 'push.txt': push }))
    end()
    expect(await status).toBe(0)
  })

  test('says what is wrong with a day that cannot be read, and asks again', async () => {
    const { answer } = await spoken(logbookWith({ 'push.txt': 'Push\n\nlift\n  bench press 3 x\n' }))
    expect(await answer('1')).toMatch(/^line 4: .*\nType a number/)
  })

  test('takes the morning, a line at a time, until an empty one', async () => {
    const folder = logbookWith({ 'push.txt': push })
    const { type, answer } = await spoken(folder)
    expect(await answer('m')).toMatch(
      /^2026-11-26: nothing typed yet\n[\s\S]*Typing again corrects.*\nmorning: Enter: back\n$/,
    )
    expect(await answer('300 bpm')).toContain('Invalid resting heart rate 300 bpm')
    expect(await answer('48 bpm')).toContain('2026-11-26: 48 bpm\n')
    expect(await type(enter)).toMatch(/^1: today Push, .*\nType a number/)
    expect(readMornings(folder).mornings).toEqual([{ date: '2026-11-26', restingHeartRate: 48 }])
  })

  test('opens the day of a number laid out, and begins it with Enter', async () => {
    const folder = logbookWith({ 'push.txt': push })
    const { type, answer } = await spoken(folder)
    expect(await answer('1')).toMatch(
      /^Push\n[\s\S]*70 kg: 25 a side[\s\S]*\nEnter begin, q back, \? keys\n$/,
    )
    expect(await type(enter)).toContain('asked: bench press, set 1 of 1')
    expect(sessionsIn(folder)).toEqual([])
    await type(' ')
    expect(sessionsIn(folder)).toHaveLength(1)
  })
})

describe('the spoken recorder', () => {
  test('echoes what is typed, takes back a character, an emoji too, and says what was recorded', async () => {
    const folder = logbookWith()
    const { type, steered } = await spoken(folder, { start: { begin: dayOf(push) } })
    expect(await type('5 @8')).toContain('5 @8')
    const before = steered.length
    expect(await type('\x7f')).toBe('')
    expect(steered.slice(before)).toEqual(['\b \b'])
    await type('\u{1F44D}\u{1F3FD}', '\x7f')
    expect(await type('9')).toBe('9')
    expect(await type(enter)).toMatch(/^\n.*recorded 5 x 70 @9/m)
    expect(newestIn(folder).events.find(({ type }) => type === 'setRecorded')).toMatchObject({
      result: { reps: 5, rpe: 9 },
    })
  })

  test('takes a word that arrives at once as a word, not as the keys of its letters', async () => {
    const folder = logbookWith()
    const { type } = await spoken(folder, { start: { begin: dayOf(push) } })
    await type('pain knee 2')
    expect(await type(enter)).toContain('Pain noted: knee 2.')
  })

  test('takes pasted lines as one line, also after something was typed', async () => {
    const { type } = await spoken(logbookWith(), { start: { begin: dayOf(push) } })
    expect(await type('5 @8 ', '\x1b[200~"left\nheel"\x1b[201~')).toBe('5 @8 "left heel"')
  })

  test('ends with status 130 on ctrl-c, and says no summary of what is not finished', async () => {
    const folder = logbookWith()
    const { type, status, said } = await spoken(folder, { start: { begin: dayOf(push) } })
    await type('5', enter, '\x03')
    expect(await status).toBe(130)
    expect(said()).not.toContain('session load')
    expect(newestIn(folder).events.map(({ type }) => type)).toContain('setRecorded')
  })

  test('ends with status 143 on SIGTERM, and listens to no signal after that', async () => {
    const before = process.listeners('SIGTERM')
    const { status } = await spoken(logbookWith(), { start: { begin: dayOf(push) } })
    const added = process.listeners('SIGTERM').filter((listener) => !before.includes(listener))
    expect(added).toHaveLength(1)
    process.emit('SIGTERM', 'SIGTERM')
    expect(await status).toBe(143)
    expect(process.listeners('SIGTERM')).not.toContain(added[0])
  })

  test('says the summary once the day is finished, and ends with status 0', async () => {
    const folder = logbookWith()
    const { type, status, said } = await spoken(folder, { start: { begin: dayOf(push) } })
    await type('5 @8', enter, 'f', '7', enter, '20', enter, enter)
    expect(said()).toMatch(/\nc copy, n next, m more, q quit, \? keys\n$/)
    await type(enter)
    expect(await status).toBe(0)
    expect(said()).toMatch(/lift, 20 min, effort 7\nbench press: 5 x 70 kg @8\n/)
    expect(newestIn(folder).events.at(-1)?.type).toBe('sessionFinished')
  })

  test('goes on with a session that was left, starts over on n, and leaves on q', async () => {
    const folder = logbookWith()
    const day = dayOf(push.replace('1 x 5', '2 x 5'))
    const first = await spoken(folder, { start: { begin: day } })
    await first.type('5 @8', enter, 'q')
    expect(await first.status).toBe(0)

    const left = await spoken(folder, { start: { begin: day } })
    expect(left.said()).toMatch(
      /^Push\n\nGo on where you left off, .*\?[\s\S]*\nEnter go on, n start over, q quit, \? keys\n$/,
    )
    expect(await left.answer('x')).toBe('Invalid answer "x".\nEnter go on, n start over, q quit, ? keys\n')
    await left.answer('q')
    expect(await left.status).toBe(0)

    const again = await spoken(folder, { start: { begin: day } })
    await again.type(enter)
    await again.type('4 @9', enter, 'q')
    await again.status
    expect(sessionsIn(folder)).toHaveLength(1)
    expect(newestIn(folder).events.filter(({ type }) => type === 'setRecorded')).toHaveLength(2)

    const over = await spoken(folder, { start: { begin: day } })
    await over.answer('n')
    await over.type('3', enter, 'q')
    await over.status
    expect(sessionsIn(folder)).toHaveLength(2)
  })

  test('prints the results that cannot be saved, and says so', async () => {
    const folder = logbookWith()
    const { type, status, told } = await spoken(folder, { start: { begin: dayOf(push) } })
    failing('linkSync', 'ENOSPC')
    await type('5 @8', enter, 'q')
    vi.setSystemTime(Date.now() + 1000)
    await type('q')
    await expect(status).rejects.toThrow('The last results are not in the logbook: the disk is full.')
    expect(told.join('')).toContain('"setRecorded"')
    expect(openLogbook(folder).list()).toEqual([])
  })
})
