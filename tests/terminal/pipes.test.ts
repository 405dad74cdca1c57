import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { builtProgram } from './harness.ts'

let program = ''
beforeAll(async () => {
  program = await builtProgram()
})

function bash(command: string, env: Record<string, string> = {}) {
  const ran = spawnSync('bash', ['-c', command], {
    encoding: 'utf8',
    // bash complains about a locale that is not installed.
    env: { ...process.env, LC_ALL: 'C', NODE: process.execPath, PROGRAM: program, ...env },
  })
  return { status: ran.status, stdout: ran.stdout, stderr: ran.stderr }
}

const isWindows = process.platform === 'win32'
describe.skipIf(isWindows)('the built program in a pipe (skipped on Windows, which has no bash)', () => {
  it('ends quietly when its reader has read enough', () => {
    expect(bash('"$NODE" "$PROGRAM" completion bash | true; echo $PIPESTATUS')).toEqual({
      status: 0,
      stdout: '0\n',
      stderr: '',
    })
  })

  const hasFull = existsSync('/dev/full')
  it.skipIf(!hasFull)('says that the disk is full if output goes there (skipped without /dev/full)', () => {
    expect(bash('"$NODE" "$PROGRAM" completion bash > /dev/full')).toEqual({
      status: 1,
      stdout: '',
      stderr: 'pausebook: The output cannot be written: the disk is full. Make room or send it elsewhere.\n',
    })
  })

  it('keeps results and error messages apart', () => {
    expect(bash('"$NODE" "$PROGRAM" xyzzy 2>/dev/null')).toEqual({ status: 2, stdout: '', stderr: '' })
    expect(bash('"$NODE" "$PROGRAM" --version 2>/dev/null').stdout).toBe('0.1.0\n')
  })

  it('waits for a slow reader, and loses nothing', () => {
    // More than fits into a pipe.
    const note = 'a long line of words '.repeat(20).trim()
    const day = `Day\n\nlift\n${`  squat 5 x 5 @ 100 kg, "${note}"\n`.repeat(200)}`
    // Bash reads a byte at a time, which is slower than any writer.
    const reader = 'for i in {1..10}; do IFS= read -r line; printf "%s\\n" "$line"; done; cat'
    const slow = `printf %s "$DAY" | "$NODE" "$PROGRAM" check - | (${reader}) | wc -c`
    const quick = 'printf %s "$DAY" | "$NODE" "$PROGRAM" check - | wc -c'
    const [waited, read] = [slow, quick].map((command) => Number(bash(command, { DAY: day }).stdout))
    expect(read).toBeGreaterThan(65_536)
    expect(waited).toBe(read)
  })

  it('keeps no logbook in the folder that it is called in when HOME is empty', () => {
    const command = 'HOME= "$NODE" "$PROGRAM" new Legs'
    expect(bash(`unset PAUSEBOOK_DIR XDG_DATA_HOME; ${command}`)).toEqual({
      status: 1,
      stdout: '',
      stderr:
        'pausebook: This user has no home folder. Name the folder of the logbook with --logbook, or set HOME.\n',
    })
  })

  it('needs no standard stream', () => {
    expect(bash('"$NODE" "$PROGRAM" plates 92.5 <&- >&- 2>&-').status).toBe(0)
  })
})
