import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { describe, expect, it } from 'vitest'

const { lockProblems } = createRequire(import.meta.url)('../../src/setup/checkSupply.cjs')
const sound = { integrity: 'sha512-abc', resolved: 'https://example.org/a.tgz' }
const lockWith = (entry: object) => ({ packages: { '': {}, 'node_modules/a': entry } })

describe('the lock file', () => {
  it('fixes every package to the last byte, and none has to run a script', () => {
    expect(lockProblems(JSON.parse(readFileSync('package-lock.json', 'utf8')))).toEqual([])
  })

  it.each([
    ['no hash', { ...sound, integrity: undefined }, 'node_modules/a has no sha512: run npm install anew.'],
    [
      'an old hash',
      { ...sound, integrity: 'sha1-abc' },
      'node_modules/a has no sha512: run npm install anew.',
    ],
    [
      'another place',
      { ...sound, resolved: 'git+ssh://example.org/a.git' },
      'node_modules/a is not from a registry by https.',
    ],
    [
      'a script',
      { ...sound, hasInstallScript: true },
      'node_modules/a runs a script when it is installed: see whether it works without, then name it in src/setup/checkSupply.cjs.',
    ],
  ])('would be refused with %s', (_, entry, problem) => {
    expect(lockProblems(lockWith(sound))).toEqual([])
    expect(lockProblems(lockWith(entry))).toEqual([problem])
  })
})
