import { describe, expect, it } from 'vitest'
import { GitFailure, gitEnvironment } from '../../src/logbook/git.ts'

describe('what git says', () => {
  const lockIn = (said: string) => new GitFailure('commit', said).lock
  const reason = (...lines: string[]) => new GitFailure('push', lines.join(' | ')).reason

  it('gives as the reason what failed in the remote, else what it rejected, else what is fatal, else its last line', () => {
    expect(
      reason(
        'remote: error: insufficient permission for adding an object',
        'error: remote unpack failed',
        ' ! [remote rejected] main -> main (unpacker error)',
      ),
    ).toBe('insufficient permission for adding an object')
    expect(
      reason(
        'error: remote unpack failed: unable to create temporary object directory',
        ' ! [remote rejected] main -> main (unpacker error)',
      ),
    ).toBe('remote unpack failed: unable to create temporary object directory')
    expect(
      reason('To /logbook.git', ' ! [remote rejected] main -> main (hook declined)', 'error: failed.'),
    ).toBe('! [remote rejected] main -> main (hook declined)')
    expect(
      reason(
        "fatal: detected dubious ownership in repository at '/stick/book.git'",
        'To add an exception for this directory, call:',
        '\tgit config --global --add safe.directory /stick/book.git',
      ),
    ).toBe(
      "detected dubious ownership in repository at '/stick/book.git' (to allow it: git config --global --add safe.directory /stick/book.git)",
    )
    expect(reason('warning: old', 'fatal: no such remote.', 'hint: none')).toBe('no such remote')
    expect(reason('ssh: no route', 'fatal: cannot read')).toBe('ssh: no route')
    expect(reason('one', 'error: two.', '')).toBe('two')
    expect(reason('not fatal: one', 'two', ' ')).toBe('two')
    expect(reason('')).toBe('git says nothing')
  })

  it('names the lock that it could not take', () => {
    expect(lockIn("fatal: Unable to create '/book/.git/index.lock': File exists. | Another git")).toBe(
      '/book/.git/index.lock',
    )
    expect(lockIn("fatal: Unable to create '/book/.git/index': File exists.")).toBeNull()
    expect(lockIn("fatal: Unable to create '/book/.git/index.lock': Permission denied")).toBeNull()
  })

  it('is asked for in English, without hooks and settings of an environment, but with how to reach a remote', () => {
    const env = {
      HOME: '/home/athlete',
      NOTHING: undefined,
      GIT_DIR: '/elsewhere',
      git_index_file: 'x',
      MY_GIT_DIR: 'mine',
      GIT_SSH_COMMAND: 'ssh -4',
      GIT_SSL_NO_VERIFY: '0',
      GIT_SSHX: 'x',
      LC_ALL: 'de_DE',
    }
    const kept = {
      HOME: '/home/athlete',
      MY_GIT_DIR: 'mine',
      GIT_SSH_COMMAND: 'ssh -4',
      GIT_SSL_NO_VERIFY: '0',
      LC_ALL: 'C',
      GIT_MERGE_AUTOEDIT: 'no',
    }
    expect(gitEnvironment(env, true)).toEqual(kept)
    expect(gitEnvironment(env, false)).toEqual({ ...kept, GIT_TERMINAL_PROMPT: '0' })
  })
})
