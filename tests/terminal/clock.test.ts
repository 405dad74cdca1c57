import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { builtProgram, keys, type RunningProgram, startProgram, temporaryFolder } from './harness.ts'
import { usedLogbook } from './usedLogbook.ts'

/* The clock of the built program in a real terminal: what is painted each second, against the screen drawn whole. */

beforeAll(async () => void (await builtProgram()), 60_000)

interface Given {
  rest: string
  size?: [number, number]
  env?: Record<string, string>
  settings?: Record<string, unknown>
}

const pause = (milliseconds: number) => new Promise((done) => setTimeout(done, milliseconds))

async function recorder({ rest, size = [80, 24], env = {}, settings = {} }: Given): Promise<RunningProgram> {
  const path = join(temporaryFolder(), 'day.txt')
  writeFileSync(path, `Legs\nlift\n  front squat: 5 x 3 @ 92.5 kg, rest ${rest}\n`)
  const [columns, rows] = size
  const logbook = usedLogbook(settings)
  const program = await startProgram(['record', path], { columns, rows, env, logbook })
  await program.waitFor('Space begin')
  return program
}

/** In the rest behind the first set, once what was recorded is no longer shown large. */
async function restOf(given: Given): Promise<RunningProgram> {
  const program = await recorder(given)
  program.type(' ')
  await program.waitFor('Space done')
  await pause(200)
  program.type(' ')
  await program.waitFor('set 2 of 5')
  program.type(keys.enter)
  await program.waitFor('recorded')
  await program.waitForNo('recorded')
  return program
}

const begun = '\x1b[?2026h'
const erased = '\x1b[K'

async function sentMore(program: RunningProgram, from: number): Promise<string> {
  await expect.poll(() => program.sent().slice(from).endsWith('\x1b[?2026l'), { timeout: 8000 }).toBe(true)
  return program.sent().slice(from)
}

/** Waits for so many seconds that were painted, and has each drawn whole at once by a key that changes nothing: the
 * same has to stand there. @returns how many changes of the clock were seen, drawn ones with them */
async function expectPainted(program: RunningProgram, seconds: number): Promise<number> {
  let compared = 0
  let seen = 0
  while (compared < seconds) {
    seen++
    const isPainted = !(await sentMore(program, program.sent().length)).includes(erased)
    const painted = await program.cells()
    const length = program.sent().length
    program.type(keys.escape)
    const drawn = await sentMore(program, length)
    const whole = await program.cells()
    // On a busy machine the next second may come before the key does.
    const isOne = drawn.split(begun).length === 2 && drawn.includes(erased)
    if (!isPainted || !isOne) continue
    compared++
    expect(painted).toEqual(whole)
  }
  return seen
}

async function minuteChanging(size: [number, number]): Promise<void> {
  const program = await restOf({ rest: '1:05', size })
  await expectPainted(program, 10)
  program.type('h')
  await program.waitFor('held')
  await expectPainted(program, 2)
}

async function pastTheEnd(): Promise<void> {
  const program = await restOf({ rest: '0:06', settings: { characters: 'ascii' } })
  await expectPainted(program, 4)
  await program.waitFor('rest over')
  await expectPainted(program, 3)
}

async function fromTenToNine(): Promise<void> {
  const program = await restOf({ rest: '10:05', env: { FORCE_COLOR: '0' }, settings: { clock: 'plain' } })
  await program.waitFor('10:00')
  await expectPainted(program, 3)
  expect(program.screen().join('\n')).toMatch(/9:5\d/)
}

async function countingUp(): Promise<void> {
  const program = await recorder({ rest: '1:00', env: { NO_COLOR: '1' } })
  program.type(' ')
  await program.waitFor('Space done')
  await expectPainted(program, 4)
}

test('second for second the painted clock is what the whole screen drawn shows', async () => {
  await Promise.all([
    minuteChanging([80, 24]),
    minuteChanging([40, 12]),
    minuteChanging([200, 60]),
    pastTheEnd(),
    fromTenToNine(),
    countingUp(),
  ])
}, 90_000)

test('a second is written in some hundred bytes, of which none is another line', async () => {
  const program = await restOf({ rest: '5:00' })
  await sentMore(program, program.sent().length)
  const from = program.sent().length
  await pause(4200)
  const updates = program.sent().slice(from).split(begun).slice(1)
  expect(updates.length).toBeGreaterThanOrEqual(3)
  expect(updates.length).toBeLessThanOrEqual(5)
  for (const update of updates) {
    expect(update).not.toContain(erased)
    expect(update.length).toBeLessThan(400)
  }
})

test('a cursor moved in a half-typed result does not bring an earlier second back', async () => {
  const program = await restOf({ rest: '5:00', settings: { clock: 'plain' } })
  program.type('3 x 92')
  await program.waitFor('> 3 x 92')
  await sentMore(program, program.sent().length)
  await sentMore(program, program.sent().length)
  const shown = () => /\d:\d\d(?= )/.exec(program.screen().slice(4).join('\n'))?.[0]
  const before = shown()
  program.type(keys.left)
  await pause(100)
  expect([before, lessASecond(before ?? '')]).toContain(shown())
})

/** The clock a second later, where the minute does not change. */
function lessASecond(clock: string): string {
  const [minutes = '', seconds = ''] = clock.split(':')
  return `${minutes}:${String(Number(seconds) - 1).padStart(2, '0')}`
}
