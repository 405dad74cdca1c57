import { readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keys, look, type RunningProgram, startProgram, stillClock, usedLogbook } from './harness.ts'

/* The main job, from the whiteboard to the summary, with the built program in a real terminal. */

const day = `Short legs
units: km kg
goal: 10 km in 39:30 on 2027-04-18
athlete: 68 kg

lift: legs
  front squat: 2 x (1+1) @ 92.5 kg, pause 1 s, rest 0:40

run: track
  2 x 100 m @ 3:35-3:45/km, jog 100 m
`

function writeDay(): string {
  const path = join(temporaryFolder(), 'short.txt')
  writeFileSync(path, day)
  return path
}

/** The events of the only session of a logbook. */
const storedEvents = (logbook: string) => openLogbook(logbook).read('newest').session.events

let clock: ReturnType<typeof stillClock>
beforeEach(() => {
  clock = stillClock('2026-12-03T06:40:00+01:00')
})

const open = (logbook: string, argv: string[] = []) =>
  startProgram(argv, { columns: 100, rows: 30, logbook, env: clock.env })

/** Presses a key one second later. → begins and ends like Space, and is never taken for a held key.
 * @param shows what is not yet on the screen */
async function press(program: RunningProgram, key: string, shows: string): Promise<void> {
  expect(program.screen().join('\n')).not.toContain(shows)
  clock.pass(1)
  program.type(key)
  await program.waitFor(shows)
}

describe('a day, from the whiteboard to the summary', () => {
  test('a cluster set, a kill in the rest, the right second afterwards, a lap typed, the summary', async () => {
    const logbook = usedLogbook()
    const first = await open(logbook, ['record', writeDay()])
    await first.waitFor('front squat 1+1 at 92.5 kg: 25 + 10 + 1.25 a side')
    await press(first, keys.right, 'group 1 of 2: 1 rep')
    const turnedRows = async () => (await first.cells()).filter((line) => /^\{\d*b?i\}/.test(line)).length
    expect(await turnedRows()).toBe(0)
    await press(first, keys.right, 'pause')
    // Ground and text of the clock are swapped in the last three seconds.
    expect(await turnedRows()).toBeGreaterThanOrEqual(3)
    // The next group begins when the pause of one second ended, not when the program notices it.
    clock.pass(1.5)
    await look(first)
    await first.waitForNo('pause')
    const began = storedEvents(logbook)
    const ended = began.find((event) => event.type === 'groupEnded')
    const begun = began.find((event) => event.type === 'groupBegun')
    expect(begun?.auto).toBe(true)
    expect((begun?.up ?? 0) - (ended?.up ?? 0)).toBeCloseTo(1)
    await press(first, keys.right, '1 result to enter')
    await press(first, keys.enter, 'recorded')
    first.kill('SIGKILL')
    await first.exited
    const left = openLogbook(logbook)
    expect(left.read('newest').recordedBy).toBeNull()
    expect(left.damages).toEqual([])
    clock.pass(20)

    const second = await open(logbook)
    await second.waitFor('20 s ago in the rest before front squat, set 2 of 2')
    await press(second, keys.enter, 'Space begin')
    const rested = storedEvents(logbook).find((event) => event.type === 'effortEnded')
    await press(second, keys.right, 'group 1 of 2')
    const next = storedEvents(logbook).filter((event) => event.type === 'effortBegun')
    // The measured rest runs from the key before the program was killed.
    expect((next[1]?.up ?? 0) - (rested?.up ?? 0)).toBeCloseTo(1 + 20 + 1 + 1)
    await press(second, '1+1 @8\r', 'since the lift')
    await press(second, 'f', 'how hard was the lift (legs)')
    await press(second, '7\r', 'minutes >')
    await press(second, keys.enter, 'lift: legs, effort 7')

    await press(second, keys.right, 'Space done')
    await press(second, keys.right, 'then repeat 2 of 2')
    await press(second, '22.1\r', 'recorded 0:22.1')
    await press(second, keys.right, 'Space done')
    await press(second, keys.right, 'since the run')
    await press(second, '22.3 hr 178\r', 'all recorded')
    await press(second, 'f', 'how hard was the run (track)')
    await press(second, '8\r', 'minutes >')
    await press(second, '12\r', '2 x (1+1) x 92.5 kg')
    const text = second.screen().join('\n')
    expect(text).toContain('22.1')
    expect(storedEvents(logbook).at(-1)?.type).toBe('sessionFinished')
    second.type('q')
    expect(await second.exited).toEqual({ code: 0, signal: 0 })
    expect(second.isOnAlternateScreen()).toBe(false)
  })

  test('a newcomer reads the cautions, looks at a day in a window that shrinks, and leaves no session', async () => {
    const logbook = join(temporaryFolder(), 'book')
    const first = await open(logbook, ['record', writeDay()])
    await first.waitFor('Pausebook is not a coach, physician or dietitian.')
    await press(first, '\r', 'units')
    await press(first, 'mi lb\r', 'body mass')
    await press(first, '150 lb\r', 'front squat 1+1')
    // The screens' own tests go through the sizes.
    first.resize(40, 12)
    await first.waitFor('Space begin')
    await first.waitFor('ready')
    first.resize(39, 12)
    await first.waitFor('too small: 40x12 needed')
    first.resize(100, 30)
    await first.waitFor('set 1 of 2')
    first.type('q')
    expect((await first.exited).code).toBe(0)
    expect(readdirSync(logbook)).not.toContain('sessions')
  })
})

test.each([
  ['with colours', {}, true],
  ['without colours where NO_COLOR says so', { NO_COLOR: '1' }, false],
  ['with colours where FORCE_COLOR asks for them all the same', { NO_COLOR: '1', FORCE_COLOR: '1' }, true],
])('a terminal with an unknown name shows the cursor, %s', async (_, given, isColourful) => {
  const env = { ...clock.env, TERM: 'unheard-of', ...given }
  const program = await startProgram(['record', writeDay()], { logbook: usedLogbook(), env })
  await program.waitFor('front squat, set 1 of 2')
  // ECMA-48, select graphic rendition: 7 is reversed, 36 cyan.
  expect(program.sent()).toContain('\x1b[7m')
  expect(program.sent().includes('\x1b[36m')).toBe(isColourful)
})
