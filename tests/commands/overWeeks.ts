import { join } from 'node:path'
import { afterAll } from 'vitest'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { runProgram } from './runProgram.ts'

/** The date on which these tests call commands: the last day of the made-up logbook. */
export const now = new Date('2026-11-25T20:00:00+01:00')

export const sixteen = { seed: 1, weeks: 16, last: '2026-11-25' }

/** Sixteen weeks of the invented athlete, or others, made up from a seed; removed after the tests of the file. */
export function sixteenWeeks(given = sixteen): string {
  const logbook = join(temporaryFolder(afterAll), 'logbook')
  writeMadeUpLogbook(logbook, given)
  return logbook
}

/** The output of a command line on that logbook. */
export function runOn(logbook: string) {
  return (words: string[], more: { columns?: number; terminal?: boolean } = {}) =>
    runProgram(words, { logbook, now, ...more })
}
