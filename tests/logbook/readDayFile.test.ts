import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { readDayFile } from '../../src/logbook/ownTexts.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

it('reads a file of 1 MiB, and refuses a larger one, a folder and a missing file', () => {
  const folder = temporaryFolder()
  const path = join(folder, 'day.txt')
  writeFileSync(path, 'x'.repeat(1024 * 1024))
  expect(readDayFile(path)).toHaveLength(1024 * 1024)
  writeFileSync(path, 'x'.repeat(1024 * 1024 + 1))
  expect(() => readDayFile(path)).toThrow('the file is larger than 1 MiB')
  expect(() => readDayFile(folder)).toThrow('the file is a folder')
  rmSync(path)
  expect(() => readDayFile(path)).toThrow('the file is gone')
})
