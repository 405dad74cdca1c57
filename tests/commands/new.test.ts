import { chmodSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { templateOf } from '../../src/app/newDay.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { dayOf } from '../day.ts'
import { expectPrivate } from '../expectPrivate.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { builtProgram, keys, startProgram, usedLogbook } from '../terminal/harness.ts'
import { runProgram } from './runProgram.ts'

const track = `# on the wall since spring
Thursday
date: 2026-05-07

run: track
  6 x 500 m @ 3:35-3:45/km, jog 200 m   # the wind decides
`

const dayAt = (path: string) => dayOf(readFileSync(path))

describe('pausebook new', () => {
  it('writes a day that can be read into the prescriptions of the logbook and prints its path', async () => {
    const logbook = temporaryFolder()
    const ran = await runProgram(['new', 'Track & legs'], { logbook })
    const path = join(logbook, 'prescriptions', '2026-11-26-track-legs.txt')
    expect(ran).toEqual({ code: 0, stdout: `${path}\n`, stderr: '' })
    const day = dayAt(path)
    expect([day.title, day.date, day.units]).toEqual([
      'Track & legs',
      '2026-11-26',
      { distance: 'km', mass: 'kg' },
    ])
    expect(day.parts.map((part) => part.kind)).toEqual(['run', 'lift'])
    expect(openLogbook(logbook).prescriptions()).toEqual([{ name: '2026-11-26-track-legs.txt', path }])
    expectPrivate(path)
  })

  it('has a template in miles and pounds too', async () => {
    const logbook = temporaryFolder()
    const ran = await runProgram(['new', '--units', 'mi lb', '--json'], { logbook })
    const { path, title, date } = JSON.parse(ran.stdout)
    expect([title, date]).toEqual(['New day', '2026-11-26'])
    expect(dayAt(path).units).toEqual({ distance: 'mi', mass: 'lb' })
  })

  it('has a template whose lines fit 80 columns, as the built-in editor does not wrap them', () => {
    const text = templateOf(null, '2026-11-26', { distance: 'mi', mass: 'lb' })
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80)
  })

  it('reads no session, for its template has no load in percent', async () => {
    const logbook = temporaryFolder()
    openLogbook(logbook).create(legs, started, [setRecorded(1), finished])
    await runProgram(['new'], { logbook })
    expect(existsSync(join(logbook, 'index.ndjson'))).toBe(false)
  })

  it('never overwrites a day', async () => {
    const logbook = temporaryFolder()
    await runProgram(['new', 'Legs'], { logbook })
    const first = join(logbook, 'prescriptions', '2026-11-26-legs.txt')
    writeFileSync(first, 'mine')
    await runProgram(['new', 'legs'], { logbook })
    await runProgram(['new', 'LEGS!'], { logbook })
    expect(readFileSync(first, 'utf8')).toBe('mine')
    expect(readdirSync(join(logbook, 'prescriptions')).sort()).toEqual([
      '2026-11-26-legs-2.txt',
      '2026-11-26-legs-3.txt',
      '2026-11-26-legs.txt',
    ])
  })

  it('leads to no other folder, whatever its title', async () => {
    const logbook = temporaryFolder()
    const ran = await runProgram(['new', '../../../etc/cron.d/day'], { logbook })
    expect(ran.stdout).toBe(`${join(logbook, 'prescriptions', '2026-11-26-etc-cron-d-day.txt')}\n`)
    expect(readdirSync(logbook)).toEqual(['prescriptions'])
  })

  it.each(['run', 'date: 2026-11-26', '# nothing', 'two\nlines', 'red\u001b[31m'])(
    '%j is refused as a title, and nothing is written',
    async (title) => {
      const logbook = temporaryFolder()
      const ran = await runProgram(['new', title], { logbook })
      expect(ran.code).toBe(2)
      expect(ran.stderr).toBe(
        `pausebook: "${title.replace(/[\n\u001b]/, '\uFFFD')}" cannot be the title of a day. Give one line that does not begin like a part or a header.\n`,
      )
      expect(existsSync(join(logbook, 'prescriptions'))).toBe(false)
    },
  )

  it('makes a day like a file, with its comments, dated today', async () => {
    const logbook = temporaryFolder()
    const ran = await runProgram(['new', '--like', 'track.txt'], { logbook, files: { 'track.txt': track } })
    expect(ran.stdout).toBe(`${join(logbook, 'prescriptions', '2026-11-26-thursday.txt')}\n`)
    expect(readFileSync(ran.stdout.trim(), 'utf8')).toBe(track.replace('2026-05-07', '2026-11-26'))
  })

  it('keeps the line ends and the comments of its model, with the date below the title', async () => {
    const logbook = temporaryFolder()
    const windows =
      '# mine\r\nLegs\r\nunits: km kg\r\n  date: 2026-05-07 # spring\r\n\r\nlift\r\n  squat 3 x 5 @ 60 kg # 3\r\n'
    const undated = 'Legs\r\nlift\r\n  squat 3 x 5 @ 60 kg'
    const files = { 'a.txt': windows, 'b.txt': undated }
    const [a, b] = [
      await runProgram(['new', '--like', 'a.txt'], { logbook, files }),
      await runProgram(['new', 'Heavy', '--like', 'b.txt'], { logbook, files }),
    ]
    expect(readFileSync(a.stdout.trim(), 'utf8')).toBe(
      '# mine\r\nLegs\r\ndate: 2026-11-26\r\nunits: km kg\r\n\r\nlift\r\n  squat 3 x 5 @ 60 kg # 3\r\n',
    )
    expect(readFileSync(b.stdout.trim(), 'utf8')).toBe(
      'Heavy\r\ndate: 2026-11-26\r\nlift\r\n  squat 3 x 5 @ 60 kg',
    )
  })

  it('gives it another title if one is given', async () => {
    const logbook = temporaryFolder()
    const given = { logbook, files: { 'track.txt': track } }
    const ran = await runProgram(['new', 'Five hundreds', '--like', 'track.txt'], given)
    expect(readFileSync(ran.stdout.trim(), 'utf8')).toBe(
      track.replace('2026-05-07', '2026-11-26').replace('Thursday', 'Five hundreds'),
    )
  })

  it('makes a day like a session', async () => {
    const logbook = temporaryFolder()
    const file = openLogbook(logbook).create(legs, started, [setRecorded(1), finished])
    file.close()
    for (const which of ['newest', file.id]) {
      const ran = await runProgram(['new', '--like', which], { logbook, now: new Date('2026-12-03T18:00') })
      const day = dayAt(ran.stdout.trim())
      expect([day.title, day.date]).toEqual(['Legs', '2026-12-03'])
      expect(day.parts[0]?.items).toHaveLength(1)
    }
  })

  it('makes a day like a prescription of the logbook by its name, with or without ending and date', async () => {
    const logbook = temporaryFolder()
    await runProgram(['new', 'Legs'], { logbook })
    const path = join(logbook, 'prescriptions', '2026-11-26-legs.txt')
    writeFileSync(path, track)
    await runProgram(['new', 'Legs'], { logbook, now: new Date('2026-11-25T18:00') })
    for (const name of ['2026-11-26-legs', '2026-11-26-legs.txt', 'legs', 'Legs']) {
      const ran = await runProgram(['new', 'Again', '--like', name], { logbook, files: { [path]: track } })
      expect(ran).toMatchObject({ code: 0, stderr: '' })
      expect(readFileSync(ran.stdout.trim(), 'utf8')).toBe(
        track.replace('2026-05-07', '2026-11-26').replace('Thursday', 'Again'),
      )
    }
  })

  it("prefers a prescription's name to the beginning of an id, and both to a file", async () => {
    const logbook = temporaryFolder()
    const file = openLogbook(logbook).create(legs, started, [setRecorded(1), finished])
    file.close()
    const short = file.id.slice(0, 2)
    await runProgram(['new', 'Any'], { logbook })
    const ready = join(logbook, 'prescriptions', `${short}.txt`)
    writeFileSync(ready, track)
    const files = {
      [ready]: track,
      [`./${short}.txt`]: track.replace('Thursday', 'Beside'),
    }
    const titleLike = async (name: string) =>
      JSON.parse((await runProgram(['new', '--like', name, '--json'], { logbook, files })).stdout).title
    expect(await titleLike(short)).toBe('Thursday')
    expect(await titleLike(file.id)).toBe('Legs')
    expect(await titleLike(`${short}.txt`)).toBe('Thursday')
    expect(await titleLike(`./${short}.txt`)).toBe('Beside')
  })

  it('says what is wrong with the pattern, and writes nothing', async () => {
    const logbook = temporaryFolder()
    const files = { 'track.txt': track.replace('3:35', '3:75') }
    const bad = await runProgram(['new', '--like', 'track.txt'], { logbook, files })
    expect(bad.code).toBe(1)
    expect(bad.stderr).toMatch(
      /^pausebook: The prescription "track.txt" has 1 problem\. Correct the file\.\ntrack\.txt:6:/,
    )
    const none = await runProgram(['new', '--like', 'nothing'], { logbook })
    expect(none).toEqual({
      code: 1,
      stdout: '',
      stderr: 'pausebook: There is no prescription "nothing". Check the path.\n',
    })
    expect(existsSync(join(logbook, 'prescriptions'))).toBe(false)
  })

  it('says that it cannot write', async () => {
    const ran = await runProgram(['new'], { logbook: '/dev/null/logbook' })
    expect(ran.code).toBe(3)
    expect(ran.stderr).toMatch(
      /\npausebook: The day cannot be written into \/dev\/null\/logbook\/prescriptions: .+\. Give another logbook with --logbook\.\n$/,
    )
  })

  it('opens no editor of its own where none can be drawn, and says which one to set', async () => {
    const logbook = temporaryFolder()
    const path = join(logbook, 'prescriptions', '2026-11-26-new-day.txt')
    const dumb = await runProgram(['new'], { logbook, terminal: true, env: { TERM: 'dumb' } })
    expect(dumb).toMatchObject({ code: 0, stdout: `${path}\n` })
    expect(dumb.stderr).toContain('set VISUAL or EDITOR')
    await runProgram(['settings', 'screen-reader', 'on'], { logbook })
    const spoken = await runProgram(['new'], { logbook, terminal: true })
    expect([spoken.code, spoken.stderr]).toEqual([0, dumb.stderr])
  })

  it('names an editor that cannot be started, and the path of the day', async () => {
    const logbook = temporaryFolder()
    const given = { logbook, terminal: true, env: { EDITOR: '2>/dev/null /nowhere/ed' } }
    const ran = await runProgram(['new'], given)
    const path = join(logbook, 'prescriptions', '2026-11-26-new-day.txt')
    expect(ran).toEqual({
      code: 1,
      stdout: `${path}\n`,
      stderr: `pausebook: The editor "2>/dev/null /nowhere/ed" ended with status 127. Set VISUAL or EDITOR if it cannot be started; the day is in ${path}, and "pausebook check" reads it.\n`,
    })
    expect(existsSync(path)).toBe(true)
  })
})

const isWindows = process.platform === 'win32'
describe.skipIf(isWindows)('pausebook new on a terminal (skipped on Windows: no script edits)', () => {
  /** An editor that puts one of several texts into the file, the next at each call. */
  function editorWith(texts: string[]): { folder: string; command: string } {
    const folder = temporaryFolder()
    texts.forEach((text, index) => {
      writeFileSync(join(folder, `text-${index + 1}`), text)
    })
    const script = join(folder, 'editor of mine.sh')
    writeFileSync(
      script,
      `#!/bin/sh\ncd "${folder}"\nn=1\nwhile [ -e done-$n ]; do n=$((n+1)); done\ntouch done-$n\n[ "$1" = --wait ] || exit 3\ncat text-$n > "$2"\n`,
    )
    chmodSync(script, 0o700)
    return { folder, command: `"${script}" --wait` }
  }
  const good = 'Legs\n\nlift\n  front squat: 3 x 5 @ 60 kg\n'
  const bad = 'Legs\n\nrun\n  2 km @ 3:75/km\n'

  it('opens the editor, shows the problems, and reopens it on Enter until the day can be read', async () => {
    const { command, folder } = editorWith([bad, good])
    const program = await startProgram(['new', 'Legs'], { env: { VISUAL: command, EDITOR: 'false' } })
    await program.waitFor('Enter goes back to the editor')
    expect(program.screen().join('\n')).toMatch(
      /-legs\.txt:4:\d+: [\s\S]*\n +2 km @ 3:75\/km\n {2} +\^+\n\n1 problem\. /,
    )
    program.type('x')
    program.type('\r')
    await program.waitFor('The day can be read.')
    expect((await program.exited).code).toBe(0)
    expect(readdirSync(folder).filter((name) => name.startsWith('done'))).toEqual(['done-1', 'done-2'])
    const [day] = openLogbook(program.logbook).prescriptions()
    expect(readFileSync(day?.path ?? '', 'utf8')).toBe(good)
  })

  it("opens the app's own editor where none is set, and then the first screen with the day picked", async () => {
    const program = await startProgram(['new', 'Legs'], { logbook: usedLogbook() })
    await program.waitFor('ctrl-s save')
    program.type(`${keys.pageDown}  plank 3 x 45 s\x13`)
    await program.waitFor(/^> today +Legs$/m)
    program.type('q')
    expect((await program.exited).code).toBe(0)
    const [day] = openLogbook(program.logbook).prescriptions()
    expect(readFileSync(day?.path ?? '', 'utf8')).toMatch(/^Legs\n[\s\S]*\n {2}plank 3 x 45 s$/)
  })

  it('shows the cursor of that editor in a terminal whose name Ink does not know, too', async () => {
    const words = ['TERM=alacritty', process.execPath, await builtProgram(), 'new']
    const program = await startProgram(words, { command: 'env', logbook: usedLogbook() })
    await program.waitFor('ctrl-s save')
    const [, title] = await program.cells()
    expect(title).toMatch(/^\{i\}N\{\}ew day/)
  })

  it('leaves the day as it is on q', async () => {
    const { command } = editorWith([bad])
    const program = await startProgram(['new'], { env: { VISUAL: command } })
    await program.waitFor('Enter goes back to the editor')
    program.type('q\r')
    await program.waitFor('The day was left with problems.')
    expect((await program.exited).code).toBe(1)
    const [day] = openLogbook(program.logbook).prescriptions()
    expect(readFileSync(day?.path ?? '', 'utf8')).toBe(bad)
  })
})
