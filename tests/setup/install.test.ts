import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'

/* The installation in a project with only the set-up, by an npm that records how it was called. */

const npm = `#!${process.execPath}
const { appendFileSync, mkdirSync, writeFileSync } = require('node:fs')
appendFileSync('calls', process.argv.slice(2).join(' ') + '\\n')
if (process.env.NPM_FAILS) process.exit(1)
mkdirSync('node_modules', { recursive: true })
writeFileSync('node_modules/.package-lock.json', '{ "packages": {} }')`

function project() {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook with ü-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  cpSync('src/setup', join(folder, 'src/setup'), { recursive: true })
  writeFileSync(join(folder, 'package-lock.json'), '{ "packages": { "": {} } }')
  mkdirSync(join(folder, 'bin'))
  writeFileSync(join(folder, 'bin', 'npm'), npm)
  chmodSync(join(folder, 'bin', 'npm'), 0o755)
  return folder
}

function install(cwd: string, more = {}, options = '{ checks: true }') {
  const env = { ...process.env, PATH: `${join(cwd, 'bin')}${delimiter}${process.env.PATH}`, ...more }
  return spawnSync(process.execPath, ['-e', `require('./src/setup/install.cjs').install(${options})`], {
    cwd,
    env,
    encoding: 'utf8',
  })
}

describe('the installation', () => {
  it('runs npm once, without install scripts, and not again while the packages are those of the lock file', () => {
    const folder = project()
    expect(install(folder).stderr).toBe('Installing the packages Pausebook is built with ...\n')
    expect(install(folder).stderr).toBe('')
    expect(readFileSync(join(folder, 'calls'), 'utf8')).toBe(
      'ci --ignore-scripts --no-audit --no-fund --loglevel=error\n',
    )
    writeFileSync(
      join(folder, 'package-lock.json'),
      '{ "packages": { "": {}, "node_modules/a": { "version": "1" } } }',
    )
    expect(install(folder).stderr).toContain('Installing')
  })

  it('leaves out what only the checks need unless they run', () => {
    const folder = project()
    const lock = { packages: { '': { devDependencies: { a: '1' } }, 'node_modules/b': { version: '1' } } }
    writeFileSync(join(folder, 'package-lock.json'), JSON.stringify(lock))
    install(folder, {}, '{ checks: false }')
    expect(readFileSync(join(folder, 'calls'), 'utf8')).toContain('--workspaces=false')
    // The direct package is there, the one for the checks is not.
    const installed = { packages: { 'node_modules/a': { version: '1' } } }
    writeFileSync(join(folder, 'node_modules/.package-lock.json'), JSON.stringify(installed))
    const withA = { packages: { ...lock.packages, 'node_modules/a': { version: '1' } } }
    writeFileSync(join(folder, 'package-lock.json'), JSON.stringify(withA))
    expect(install(folder, {}, '{ checks: false }').stderr).toBe('')
    expect(install(folder).stderr).toContain('Installing')
  })

  it('says what to do when it fails', () => {
    const folder = project()
    const ran = install(folder, { NPM_FAILS: '1' })
    expect(ran.status).toBe(1)
    expect(ran.stderr).toContain(
      'The packages could not be installed. Check the network connection and the lines above, then try again.',
    )
    expect(existsSync(join(folder, 'node_modules'))).toBe(false)
  })
})
