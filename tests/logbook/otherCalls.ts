import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import { onTestFinished, vi } from 'vitest'

type Name =
  | 'closeSync'
  | 'fsyncSync'
  | 'linkSync'
  | 'mkdirSync'
  | 'openSync'
  | 'readdirSync'
  | 'renameSync'
  | 'rmSync'
  | 'statSync'
type Call = (...given: never[]) => unknown

/** Puts another function in the place of one of the file system until the test ends.
 * @param other makes it from the original */
export function insteadOf<N extends Name>(name: N, other: (original: (typeof fs)[N]) => Call): void {
  const made = other(fs[name]) as typeof fs.rmSync
  const spy = vi.spyOn(fs, name as 'rmSync').mockImplementation(made)
  syncBuiltinESMExports()
  onTestFinished(() => {
    spy.mockRestore()
    syncBuiltinESMExports()
  })
}

/** Lets every call of a function of the file system fail with a code until the test ends. */
export function failing(name: Name, code: string): void {
  insteadOf(name, () => () => {
    throw Object.assign(new Error(code), { code })
  })
}
