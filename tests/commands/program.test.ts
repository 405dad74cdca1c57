import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { cautions } from '../../src/app/cautions.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { finished, legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { now, sixteenWeeks } from './overWeeks.ts'
import { runProgram } from './runProgram.ts'

const sample = readFileSync('sample-sessions/track-and-cluster.txt', 'utf8')
const weeks = sixteenWeeks()

describe('the command line', () => {
  it('prints its version', async () => {
    expect(await runProgram(['--version'])).toEqual({ code: 0, stdout: '0.1.0\n', stderr: '' })
  })

  it('has the cautions in its help', async () => {
    const ran = await runProgram(['--help'])
    expect(ran.code).toBe(0)
    expect(ran.stderr).toBe('')
    expect(ran.stdout.replaceAll('\n', ' ')).toContain(cautions)
    expect(ran.stdout).toContain('completion')
  })

  it.each([40, 80, 200])('breaks no word of its help at the edge of %i columns', async (columns) => {
    const lines = (await runProgram(['--help'], { columns })).stdout.split('\n')
    expect(lines.filter((line) => line.length > columns)).toEqual([])
    expect(lines.join(' ').replace(/ +/g, ' ')).toContain(
      'next [SESSION] what a session says about the next one like it, with reasons, and the day again as notation',
    )
  })

  it.each([['check', 'day.txt'], ['explain', 'halves'], ['settings'], ['morning'], ['week'], ['verify']])(
    'fits %s to a terminal of 40 columns, and leaves it whole in a pipe',
    async (...words) => {
      const given = { files: { 'day.txt': sample }, logbook: temporaryFolder(), columns: 40 }
      const [shown, piped] = [
        await runProgram(words, { ...given, terminal: true }),
        await runProgram(words, { ...given, columns: 80 }),
      ]
      expect(shown.stdout.split('\n').filter((line) => line.length > 40)).toEqual([])
      const wordsOf = (text: string) => text.split(/\s+/)
      expect(wordsOf(shown.stdout)).toEqual(wordsOf(piped.stdout))
    },
  )

  it('prints the help of a command with the options that every command has', async () => {
    const ran = await runProgram(['completion', '--help'])
    expect(ran.code).toBe(0)
    expect(ran.stdout).toContain('--logbook <DIR>')
  })

  it('prints the same help for the word help, alone or before a command', async () => {
    for (const words of [['help'], ['help', 'help']])
      expect(await runProgram(words)).toEqual(await runProgram(['--help']))
    expect(await runProgram(['help', 'week'])).toEqual(await runProgram(['week', '--help']))
  })

  it.each([
    [['summary', '--xyzzy'], `Unknown option '--xyzzy'. See "pausebook summary --help".`],
    [['summary', '--ful'], `Unknown option '--ful'. Did you mean --full?`],
    [['completion', 'bash', '--jsno'], `Unknown option '--jsno'. Did you mean --json?`],
    [['completoin'], `Unknown command 'completoin'. Did you mean completion?`],
    [['weak'], `Unknown command 'weak'. Did you mean week?`],
    [['nex'], `Unknown command 'nex'. Did you mean new or next?`],
    [['cit'], `Unknown command 'cit'. Did you mean cut?`],
    [['sinc'], `Unknown command 'sinc'. Did you mean sync?`],
    [['synk', '--full'], `Unknown command 'synk'. Did you mean sync?`],
    [['peach'], `Unknown command 'peach'. See "pausebook --help".`],
    [['chek', '--help'], "Unknown command 'chek'. Did you mean check?"],
    [['help', 'chek'], "Unknown command 'chek'. Did you mean check?"],
  ])('suggests the closest words, and none that is far from what was written: %j', async (argv, message) => {
    expect(await runProgram(argv)).toEqual({ code: 2, stdout: '', stderr: `pausebook: ${message}\n` })
  })

  it('says what is missing', async () => {
    const stderr = `pausebook: Missing required argument 'SHELL'. See "pausebook completion --help".\n`
    expect(await runProgram(['completion'])).toEqual({ code: 2, stdout: '', stderr })
  })

  it('lists the possible choices', async () => {
    const ran = await runProgram(['completion', 'csh'])
    expect(ran.code).toBe(2)
    expect(ran.stderr).toBe(
      `pausebook: Value 'csh' is invalid for argument 'SHELL'. Allowed choices are bash, zsh, fish, powershell. See "pausebook completion --help".\n`,
    )
  })

  it('refuses a word too many', async () => {
    const ran = await runProgram(['backup', 'one', 'two'])
    expect(ran.code).toBe(2)
    expect(ran.stderr).toBe(
      `pausebook: Too many arguments for 'backup'. Expected 1 argument but got 2. See "pausebook backup --help".\n`,
    )
  })

  it.each([
    'check day.txt',
    'cut day.txt --by 30%',
    'explain',
    'explain pace',
    'explain --session newest',
    'history',
    'morning',
    'next',
    'paces --race marathon --time 3:00:00',
    'paces --race marathon --time 3:00:00 --card',
    'plan',
    'plates 92.5',
    'progress',
    'progress lift dip',
    'progress run',
    'progress load',
    'progress pain',
    'progress body',
    'settings',
    'summary',
    'verify',
    'week',
  ])('prints one JSON value for %s --json, and nothing else', async (words) => {
    const given = { logbook: weeks, files: { 'day.txt': sample }, now }
    const { code, stdout, stderr } = await runProgram([...words.split(' '), '--json'], given)
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' })
    expect(JSON.parse(stdout)).toBeTypeOf('object')
  })

  it.each([[[]], [['record', 'day.txt']]])(
    'says in one line that the app needs a terminal where there is none: %j',
    async (argv) => {
      const { code, stdout, stderr } = await runProgram(argv, { files: { 'day.txt': sample } })
      expect([code, stdout]).toEqual([1, ''])
      expect(stderr).toMatch(/^pausebook: The app needs a terminal and there is none here\. .+\n$/)
    },
  )

  it('prints the error as JSON too if JSON was asked for', async () => {
    const ran = await runProgram(['xyzzy', '--json'])
    expect(ran.code).toBe(2)
    expect(JSON.parse(ran.stdout)).toEqual({
      error: {
        code: 'command_line',
        message: `Unknown command 'xyzzy'. See "pausebook --help".`,
        problems: [],
      },
    })
  })

  it('removes control characters from words', async () => {
    const ran = await runProgram(['\u001b[31mred\u202e'])
    expect(ran.stderr).toBe(`pausebook: Unknown command '\uFFFD[31mred\uFFFD'. See "pausebook --help".\n`)
  })

  it('refuses a logbook without a name, and a file instead of its folder', async () => {
    expect(await runProgram(['settings', 'units', '--logbook', ''])).toEqual({
      code: 2,
      stdout: '',
      stderr:
        'pausebook: --logbook needs a folder. Name the folder of the logbook, or leave the option out.\n',
    })
    expect(await runProgram(['settings', 'units', '--logbook', '/dev/null'])).toEqual({
      code: 3,
      stdout: '',
      stderr: 'pausebook: The logbook /dev/null is a file, not a folder. Give another with --logbook.\n',
    })
  })

  it('refuses a link to a folder on a disk that is not connected, so that the logbook does not look empty', async () => {
    const link = join(temporaryFolder(), 'logbook')
    symlinkSync('/nowhere/logbook', link)
    for (const words of [['history'], ['new', 'Legs']])
      expect(await runProgram(words, { logbook: link })).toEqual({
        code: 3,
        stdout: '',
        stderr: `pausebook: The logbook ${link} is a link to /nowhere/logbook, which cannot be reached. Connect its disk, or give another with --logbook.\n`,
      })
  })

  it('refuses unknown units', async () => {
    const ran = await runProgram(['completion', 'bash', '--units', 'stone'])
    expect(ran.code).toBe(2)
    expect(ran.stderr).toBe(
      'pausebook: Invalid units "stone". Write km or mi, kg or lb, or one of each: --units "mi lb".\n',
    )
  })

  it('names damage in what a command has read of the logbook, and ends with 3 once it has done its work', async () => {
    const logbook = temporaryFolder()
    openLogbook(logbook)
      .create(legs, started, [setRecorded(1), finished])
      .close()
    const damaged = join('sessions', '2026', '2026-11-01-abcdef2345.json')
    mkdirSync(join(logbook, 'sessions', '2026'), { recursive: true })
    writeFileSync(join(logbook, damaged), 'rubbish')
    const wrong = 'The file is not JSON.'
    const stderr = expect.stringMatching(new RegExp(`^pausebook: ${damaged}: ${wrong}[^\\n]*\\n$`))
    const day = { files: { 'day.txt': 'Squats\nlift\n  squat 3 x 5 @ 80%\n' } }
    for (const [words, more] of [[['summary']], [['check', 'day.txt'], day], [['history']]] as const) {
      const ran = await runProgram(words, { logbook, ...more })
      expect(ran).toEqual({ code: 3, stdout: expect.stringMatching(/legs|squat/i), stderr })
    }
    expect(
      await runProgram(['check', 'plain.txt'], { logbook, files: { 'plain.txt': 'Easy\nrun\n  2 km\n' } }),
    ).toMatchObject({ code: 0, stderr: '' })
    const refused = await runProgram(['summary', 'abcdef2345'], { logbook })
    expect([refused.code, refused.stderr.split(wrong).length]).toEqual([3, 2])
  })
})
