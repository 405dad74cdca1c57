import { describe, expect, it } from 'vitest'
import { logbookDirOf } from '../../src/commands/program.ts'

describe('the directory of the logbook', () => {
  it('asks for the home folder only if nothing else is given', () => {
    const home = () => {
      throw new Error('asked')
    }
    expect(logbookDirOf('/given', {}, home, 'linux')).toBe('/given')
    expect(logbookDirOf(undefined, { XDG_DATA_HOME: '/xdg' }, home, 'linux')).toBe('/xdg/pausebook')
  })

  it('is the given one before any other', () => {
    expect(
      logbookDirOf('/given', { PAUSEBOOK_DIR: '/env', XDG_DATA_HOME: '/xdg' }, () => '/home/x', 'linux'),
    ).toBe('/given')
  })

  it('is PAUSEBOOK_DIR before the platform', () => {
    expect(
      logbookDirOf(undefined, { PAUSEBOOK_DIR: '/env', XDG_DATA_HOME: '/xdg' }, () => '/home/x', 'linux'),
    ).toBe('/env')
  })

  // XDG Base Directory Specification 0.8: $XDG_DATA_HOME, by default $HOME/.local/share; relative paths are invalid.
  it('follows the XDG base directories', () => {
    expect(logbookDirOf(undefined, { XDG_DATA_HOME: '/xdg' }, () => '/home/x', 'linux')).toBe(
      '/xdg/pausebook',
    )
    expect(logbookDirOf(undefined, {}, () => '/home/x', 'linux')).toBe('/home/x/.local/share/pausebook')
    expect(logbookDirOf(undefined, { XDG_DATA_HOME: 'xdg' }, () => '/home/x', 'linux')).toBe(
      '/home/x/.local/share/pausebook',
    )
  })

  it('is in the local application data on Windows', () => {
    expect(logbookDirOf(undefined, { LOCALAPPDATA: '/local' }, () => '/home/x', 'win32')).toBe(
      '/local/pausebook',
    )
  })

  it('is absolute even if the given one is not', () => {
    expect(logbookDirOf('here', {}, () => '/home/x', 'linux')).toBe(`${process.cwd()}/here`)
  })
})
