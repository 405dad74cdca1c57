import { describe, expect, it } from 'vitest'
import { logbookDirOf } from '../../src/commands/program.ts'
import { onWindows } from '../onWindows.ts'

const directory = (given?: string, env: Record<string, string> = {}) =>
  logbookDirOf(given, env, () => '/home/x')

describe('the directory of the logbook', () => {
  it('is the given one before PAUSEBOOK_DIR, and that before the one of the platform', () => {
    const env = { PAUSEBOOK_DIR: '/env', XDG_DATA_HOME: '/xdg' }
    expect(directory('/given', env)).toBe('/given')
    expect(directory(undefined, env)).toBe('/env')
  })

  // XDG Base Directory Specification 0.8: $XDG_DATA_HOME, by default $HOME/.local/share; relative paths are invalid.
  it('follows the XDG base directories', () => {
    expect(directory(undefined, { XDG_DATA_HOME: '/xdg' })).toBe('/xdg/pausebook')
    expect(directory()).toBe('/home/x/.local/share/pausebook')
    expect(directory(undefined, { XDG_DATA_HOME: 'xdg' })).toBe('/home/x/.local/share/pausebook')
  })

  it('asks for the home folder only if nothing else is given', () => {
    const home = () => {
      throw new Error('asked')
    }
    expect(logbookDirOf('/given', {}, home)).toBe('/given')
    expect(logbookDirOf(undefined, { XDG_DATA_HOME: '/xdg' }, home)).toBe('/xdg/pausebook')
  })

  it('is in the local application data on Windows', () => {
    onWindows()
    expect(directory(undefined, { LOCALAPPDATA: '/local' })).toBe('/local/pausebook')
  })

  it('is below the home folder where a shell has left a ~', () => {
    expect(directory('~/runs')).toBe('/home/x/runs')
    expect(directory(undefined, { PAUSEBOOK_DIR: '~' })).toBe('/home/x')
    expect(directory('/data/~old')).toBe('/data/~old')
    expect(directory('~\\runs')).toBe('/home/x\\runs')
  })

  it('is absolute even if the given one is not', () => {
    expect(directory('here')).toBe(`${process.cwd()}/here`)
  })
})
