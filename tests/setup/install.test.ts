import { cpSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { delimiter, join } from 'node:path'
import { describe, expect, it, vi } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'

/* The installation in a project with only the set-up, by an npm that records how it was called. */

const npm = `#!/bin/sh
echo "$*" >> calls
[ -z "$NPM_FAILS" ] || exit 1
mkdir -p node_modules
echo '{ "packages": {} }' > node_modules/.package-lock.json
`

function project() {
  const folder = join(temporaryFolder(), 'with ü')
  cpSync('src/setup', join(folder, 'src/setup'), { recursive: true })
  writeFileSync(join(folder, 'package-lock.json'), '{ "packages": { "": {} } }')
  mkdirSync(join(folder, 'bin'))
  writeFileSync(join(folder, 'bin', 'npm'), npm, { mode: 0o755 })
  return folder
}

/** @returns what it said */
function install(folder: string, more: Record<string, string> = {}, options = { checks: true }): string {
  const env = { PATH: `${join(folder, 'bin')}${delimiter}${process.env.PATH}`, ...more }
  for (const [name, value] of Object.entries(env)) vi.stubEnv(name, value)
  const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
  try {
    createRequire(join(folder, 'package.json'))('./src/setup/install.cjs').install(options)
    return said.mock.calls.join('')
  } finally {
    said.mockRestore()
    vi.unstubAllEnvs()
  }
}

const isWindows = process.platform === 'win32'
describe.skipIf(isWindows)('the installation (skipped on Windows, which runs no script as npm)', () => {
  it('runs npm once, without install scripts, and not again while the packages are those of the lock file', () => {
    const folder = project()
    expect(install(folder)).toBe('Installing the packages Pausebook is built with ...\n')
    expect(install(folder)).toBe('')
    expect(readFileSync(join(folder, 'calls'), 'utf8')).toBe(
      'ci --ignore-scripts --prefer-offline --no-audit --no-fund --loglevel=error\n',
    )
    writeFileSync(
      join(folder, 'package-lock.json'),
      '{ "packages": { "": {}, "node_modules/a": { "version": "1" } } }',
    )
    expect(install(folder)).toContain('Installing')
  })

  it('leaves out what only the checks need unless they run', () => {
    const folder = project()
    const lock = { packages: { '': { devDependencies: { a: '1' } }, 'node_modules/b': { version: '1' } } }
    writeFileSync(join(folder, 'package-lock.json'), JSON.stringify(lock))
    install(folder, {}, { checks: false })
    expect(readFileSync(join(folder, 'calls'), 'utf8')).toContain('--workspaces=false')
    // The direct package is there, the one for the checks is not.
    const installed = { packages: { 'node_modules/a': { version: '1' } } }
    writeFileSync(join(folder, 'node_modules/.package-lock.json'), JSON.stringify(installed))
    const withA = { packages: { ...lock.packages, 'node_modules/a': { version: '1' } } }
    writeFileSync(join(folder, 'package-lock.json'), JSON.stringify(withA))
    expect(install(folder, {}, { checks: false })).toBe('')
    expect(install(folder)).toContain('Installing')
  })

  it('says what to do when it fails', () => {
    const folder = project()
    expect(() => install(folder, { NPM_FAILS: '1' })).toThrow(
      'The packages could not be installed. Check the network connection and the lines above, then try again.',
    )
    expect(existsSync(join(folder, 'node_modules'))).toBe(false)
  })
})
