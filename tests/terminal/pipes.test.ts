import { spawnSync } from 'node:child_process'
import { beforeAll, describe, expect, it } from 'vitest'
import { builtProgram } from './harness.ts'

let program = ''
beforeAll(async () => {
  program = await builtProgram()
})

function bash(command: string, env: Record<string, string> = {}) {
  const ran = spawnSync('bash', ['-c', command], {
    encoding: 'utf8',
    env: { ...process.env, NODE: process.execPath, PROGRAM: program, ...env },
  })
  return { status: ran.status, stdout: ran.stdout, stderr: ran.stderr }
}

describe('the built program in a pipe', () => {
  it('ends quietly when its reader has seen enough', () => {
    expect(bash('"$NODE" "$PROGRAM" completion bash | true; echo $PIPESTATUS')).toEqual({
      status: 0,
      stdout: '0\n',
      stderr: '',
    })
  })

  it('says that the disk is full where its output goes', () => {
    expect(bash('"$NODE" "$PROGRAM" completion bash > /dev/full')).toEqual({
      status: 1,
      stdout: '',
      stderr: 'pausebook: The output cannot be written: the disk is full. Make room or send it elsewhere.\n',
    })
  })

  it('keeps results and complaints apart', () => {
    expect(bash('"$NODE" "$PROGRAM" xyzzy 2>/dev/null')).toEqual({ status: 2, stdout: '', stderr: '' })
    expect(bash('"$NODE" "$PROGRAM" --version 2>/dev/null').stdout).toBe('0.1.0\n')
  })

  it('waits for a slow reader, and loses nothing', () => {
    const [lines, words] = [300, 'a long line of words '.repeat(14)]
    const day = `Day\n\nlift\n${`  squat 5 x 5 @ 100 kg, "${words}"\n`.repeat(lines)}`
    // It reads 64 bytes at a time, and there is more than a pipe holds.
    const slow = 'printf %s "$DAY" | "$NODE" "$PROGRAM" check - | dd bs=64 status=none'
    const read = bash(slow, { DAY: day }).stdout
    expect(read.length).toBeGreaterThan(65_536)
    expect(read.match(/^ {2}squat 5 x 5 @ 100 kg, "/gm)).toHaveLength(lines)
    expect(read.match(/a\s+long\s+line\s+of\s+words/g)).toHaveLength(14 * lines)
  })

  it('needs no standard stream', () => {
    expect(bash('"$NODE" "$PROGRAM" plates 92.5 <&- >&- 2>&-').status).toBe(0)
  })
})
