import childProcess from 'node:child_process'
import { syncBuiltinESMExports } from 'node:module'
import { describe, expect, onTestFinished, test, vi } from 'vitest'
import { ringerOf } from '../../src/app/app.ts'
import { defaultSettings, setOwnBell } from '../../src/logbook/settings.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

describe('a signal', () => {
  const heard = (
    settings: Partial<typeof defaultSettings>,
    signal: 'short' | 'long',
    env: Record<string, string> = {},
  ) => {
    const calls: string[] = []
    const terminal = { ring: () => void calls.push('bell'), notify: (text: string) => void calls.push(text) }
    ringerOf(() => ({ ...defaultSettings, ...settings }), terminal, env)(signal)
    return calls
  }

  test('rings the bell if it is on, short ones too', () => {
    expect(heard({ bell: 'on' }, 'short')).toEqual(['bell'])
    expect(heard({ bell: 'off' }, 'long')).toEqual([])
  })

  test('is a desktop notification only if that is enabled, and only the long one', () => {
    expect(heard({ bell: 'off', notifications: true }, 'long')).toEqual(['go'])
    expect(heard({ bell: 'off', notifications: true }, 'short')).toEqual([])
    expect(heard({ bell: 'on' }, 'long')).toEqual(['bell'])
  })

  test('continues without a command that cannot be started', () => {
    const env = { XDG_CONFIG_HOME: temporaryFolder() }
    expect(setOwnBell(['no-such-command-of-anyone'], env)).toBe(true)
    expect(heard({ bell: ['no-such-command-of-anyone'] }, 'long', env)).toEqual([])
  })

  test("runs the user's own command with the kind of the signal as its last word, without a shell", () => {
    const env = { XDG_CONFIG_HOME: temporaryFolder() }
    const bell = ['ding', '--loud']
    setOwnBell(bell, env)
    const child = { on: vi.fn(), unref: vi.fn() }
    const spawn = vi.spyOn(childProcess, 'spawn').mockReturnValue(child as never)
    syncBuiltinESMExports()
    onTestFinished(() => {
      spawn.mockRestore()
      syncBuiltinESMExports()
    })
    expect(heard({ bell }, 'short', env)).toEqual([])
    expect(spawn.mock.calls).toEqual([
      ['ding', ['--loud', 'short'], { stdio: 'ignore', detached: true, windowsHide: true }],
    ])
    expect(child.unref).toHaveBeenCalledOnce()
    const [[event, failed]] = child.on.mock.calls as [[string, () => void]]
    expect(event).toBe('error')
    expect(failed).not.toThrow()
  })

  test('does not run a command that only the logbook names', () => {
    const env = { XDG_CONFIG_HOME: temporaryFolder() }
    setOwnBell(['another-command'], env)
    expect(heard({ bell: ['no-such-command-of-anyone'] }, 'long', env)).toEqual(['bell'])
    expect(heard({ bell: ['no-such-command-of-anyone'] }, 'long', { XDG_CONFIG_HOME: '/nowhere' })).toEqual([
      'bell',
    ])
  })
})
