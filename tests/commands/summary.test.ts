import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { Summary } from '../../src/summary/model.ts'
import { summaryText } from '../../src/summary/text.ts'
import { bareContext as context } from '../summary/bareContext.ts'
import { wholeDay } from '../summary/wholeDay.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keepOnPaper } from './onPaper.ts'
import { runOn, sixteenWeeks } from './overWeeks.ts'
import { runProgram } from './runProgram.ts'

const logbook = temporaryFolder(afterAll)

const { prescription, events } = wholeDay().session
const [start, ...more] = events
if (start?.type !== 'sessionStarted') throw new Error('the day has no start')
const file = openLogbook(logbook).create(prescription, start, more)
file.close()

const run = (words: string[], more: { terminal?: boolean; logbook?: string } = {}) =>
  runProgram(['summary', ...words], { logbook, ...more })

const overWeeks = runOn(sixteenWeeks())

describe('summary', () => {
  it('is the note of the newest session, or of one by the beginning of its id', async () => {
    const note = summaryText(file.session, context, { full: false })
    expect(await run([])).toEqual({ code: 0, stdout: note, stderr: '' })
    expect(await run([file.id.slice(0, 8)])).toEqual({ code: 0, stdout: note, stderr: '' })
  })

  it('is longer with --full, and prints in the requested units', async () => {
    const { stdout } = await run(['--full', '--units', 'mi lb'])
    expect(stdout).toBe(
      summaryText(file.session, context, { full: true, units: { distance: 'mi', mass: 'lb' } }),
    )
  })

  it('shows the carbohydrate after it with --full if a hard session begins within 8 hours', async () => {
    const home = join(logbook, 'two-a-day')
    const store = openLogbook(home)
    const onTheDay = (from: string, to: string) => {
      const timed = more.map((event) =>
        event.type === 'sessionFinished' ? { ...event, at: `2026-11-26T${to}:00+01:00` } : event,
      )
      const stored = store.create(prescription, { ...start, at: `2026-11-26T${from}:00+01:00` }, timed)
      stored.close()
      return stored
    }
    const first = onTheDay('06:30', '08:30')
    const full = async () =>
      (await run([first.id, '--full'], { logbook: home })).stdout.replace(/\n\s+/g, ' ')
    onTheDay('16:31', '18:00')
    expect(await full()).not.toContain('carbs after:')
    onTheDay('16:00', '18:00')
    expect(await full()).toContain('an hour for 4 h, the next hard session is 7.5 h away')
    expect((await run([first.id], { logbook: home })).stdout).not.toContain('carbs after:')
  })

  it('shows the carbohydrate after it with --full if a hard day is prepared for later on the same date', async () => {
    const twice = temporaryFolder()
    const morning = 'Morning\nathlete: 68 kg\nfuel\n  before: carbs 40 g\nrun\n  8 km easy\n'
    const now = new Date('2026-11-28T10:00:00+01:00')
    await keepOnPaper(twice, morning, '\n44:00\n', { date: '2026-11-28', now })
    const full = async (at = now) =>
      (await runProgram(['summary', '--full'], { logbook: twice, now: at })).stdout.replace(/\s+/g, ' ')
    const after =
      'carbs after: 68 to 82 g an hour for 4 h, if the hard day planned for today begins within 8 h'
    expect(await full()).not.toContain('carbs after')
    const ready = (text: string) => {
      mkdirSync(join(twice, 'prescriptions'), { recursive: true })
      writeFileSync(join(twice, 'prescriptions', 'evening.txt'), text)
    }
    ready('Evening\ndate: 2026-11-28\nrun\n  8 km easy\n')
    expect(await full()).not.toContain('carbs after')
    ready('Evening\ndate: 2026-11-28\nrun\n  3 km tempo\n')
    expect(await full()).toContain(after)
    // A day later it is known that the hard day was not done.
    expect(await full(new Date('2026-11-29T10:00:00+01:00'))).not.toContain('carbs after')
  })

  it('is JSON with --json and with --format json', async () => {
    const { stdout } = await run(['--json'])
    expect(Summary.parse(JSON.parse(stdout)).session.id).toBe(file.id)
    expect((await run(['--format', 'json'])).stdout).toBe(stdout)
  })

  it('has in JSON what running costs a lift, which the other sessions tell', async () => {
    const json = async (...words: string[]) => JSON.parse((await overWeeks([...words, '--json'])).stdout)
    const [{ id }] = await json('history', '--lift', 'front squat')
    const { percent, lowPercent, highPercent, days } = (await json('progress', 'lift', 'front squat')).runCost
    const { exercises } = Summary.parse(await json('summary', id)).lifting
    expect(exercises.find(({ name }) => name === 'front squat')?.runCost).toEqual({
      percent,
      lowPercent,
      highPercent,
      days,
    })
  })

  it('is Markdown with --format markdown', async () => {
    const { stdout } = await run(['--format', 'markdown'])
    expect(stdout).toContain('| work | done | figures |\n')
  })

  it('is copied to the clipboard through the terminal', async () => {
    const { stdout, stderr } = await run(['--copy'], { terminal: true })
    const encoded = /^\u001b\]52;c;([A-Za-z0-9+/=]+)\u0007$/.exec(stderr)?.[1] ?? ''
    expect(Buffer.from(encoded, 'base64').toString()).toBe(stdout)
    expect(await run(['--copy'])).toEqual({
      code: 1,
      stdout,
      stderr: 'pausebook: There is no terminal to copy to. Run it in a terminal, without redirection.\n',
    })
  })

  it('says if the session does not exist', async () => {
    expect(await run(['nothing'])).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: There is no session whose id begins with "nothing". "pausebook history" lists them.\n',
    })
    const empty = await run([], { logbook: join(logbook, 'elsewhere') })
    expect(empty.stderr).toContain('There is no session in the logbook')
    expect((await run(['--format', 'pdf'])).code).toBe(2)
  })
})
