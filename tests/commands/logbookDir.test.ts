import { describe, expect, it } from 'vitest'
import { logbookDirOf } from '../../src/commands/program.ts'
import { onWindows } from '../onWindows.ts'

describe('the directory of the logbook', () => {
  it('asks for the home folder only if nothing else is given', () => {
    const home = () => {
      throw new Error('asked')
    }
    expect(logbookDirOf('/given', {}, home)).toBe('/given')
    expect(logbookDirOf(undefined, { XDG_DATA_HOME: '/xdg' }, home)).toBe('/xdg/pausebook')
  })

  it('is the given one before any other', () => {
    expect(logbookDirOf('/given', { PAUSEBOOK_DIR: '/env', XDG_DATA_HOME: '/xdg' }, () => '/home/x')).toBe(
      '/given',
    )
  })

  it('is PAUSEBOOK_DIR before the platform', () => {
    expect(logbookDirOf(undefined, { PAUSEBOOK_DIR: '/env', XDG_DATA_HOME: '/xdg' }, () => '/home/x')).toBe(
      '/env',
    )
  })

  // XDG Base Directory Specification 0.8: $XDG_DATA_HOME, by default $HOME/.local/share; relative paths are invalid.
  it('follows the XDG base directories', () => {
    expect(logbookDirOf(undefined, { XDG_DATA_HOME: '/xdg' }, () => '/home/x')).toBe('/xdg/pausebook')
    expect(logbookDirOf(undefined, {}, () => '/home/x')).toBe('/home/x/.local/share/pausebook')
    expect(logbookDirOf(undefined, { XDG_DATA_HOME: 'xdg' }, () => '/home/x')).toBe(
      '/home/x/.local/share/pausebook',
    )
  })

  it('is in the local application data on Windows', () => {
    onWindows()
    expect(logbookDirOf(undefined, { LOCALAPPDATA: '/local' }, () => '/home/x')).toBe('/local/pausebook')
  })

  it('is below the home folder where a shell has left a ~', () => {
    const home = () => '/home/x'
    expect(logbookDirOf('~/runs', {}, home)).toBe('/home/x/runs')
    expect(logbookDirOf(undefined, { PAUSEBOOK_DIR: '~' }, home)).toBe('/home/x')
    expect(logbookDirOf('/data/~old', {}, home)).toBe('/data/~old')
    expect(logbookDirOf('~\\runs', {}, home)).toBe('/home/x\\runs')
  })

  it('is absolute even if the given one is not', () => {
    expect(logbookDirOf('here', {}, () => '/home/x')).toBe(`${process.cwd()}/here`)
  })
})
