import { spawn, spawnSync } from 'node:child_process'
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'

/* The installation in a project with nothing but the set-up, by an npm that writes down when it runs. */

const npm = `
const { appendFileSync, mkdirSync, writeFileSync } = require('node:fs')
appendFileSync('runs', 'begun\\n')
Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 700)
mkdirSync('node_modules', { recursive: true })
if (process.env.NPM_FAILS) process.exit(1)
writeFileSync('node_modules/.package-lock.json', '{ "packages": {} }')
appendFileSync('runs', 'ended\\n')`

function project() {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook with ü-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  cpSync('src/setup', join(folder, 'src/setup'), { recursive: true })
  writeFileSync(join(folder, 'package-lock.json'), '{ "packages": { "": {} } }')
  writeFileSync(join(folder, 'npm.cjs'), npm)
  return folder
}

const words = ['-e', "require('./src/setup/install.cjs').install()"]
const optionsIn = (cwd: string, more = {}) => ({
  cwd,
  env: { ...process.env, npm_execpath: join(cwd, 'npm.cjs'), ...more },
})

async function install(cwd: string) {
  const child = spawn(process.execPath, words, optionsIn(cwd))
  let stderr = ''
  child.stderr.on('data', (part) => {
    stderr += part
  })
  const code = await new Promise((resolve) => child.on('close', resolve))
  return { code, stderr }
}

describe('the installation', () => {
  it('that two runs ask for at once is done by one of them, and the other waits', async () => {
    const folder = project()
    const ran = await Promise.all([install(folder), install(folder)])
    expect(ran.map(({ code }) => code)).toEqual([0, 0])
    expect(readFileSync(join(folder, 'runs'), 'utf8')).toBe('begun\nended\n')
    expect(ran.map(({ stderr }) => stderr).sort()).toEqual([
      'Installing the packages Pausebook is built with ...\n',
      'Waiting for another run that installs the packages ...\n',
    ])
    expect(existsSync(join(folder, '.installing'))).toBe(false)
  })

  it('goes on where a run was killed in the middle of it', () => {
    const folder = project()
    const { pid } = spawnSync(process.execPath, ['--version'])
    writeFileSync(join(folder, '.installing'), String(pid))
    expect(spawnSync(process.execPath, words, optionsIn(folder)).status).toBe(0)
    expect(readFileSync(join(folder, 'runs'), 'utf8')).toBe('begun\nended\n')
  })

  it('that fails says so and leaves nothing for others to wait for', () => {
    const folder = project()
    const ran = spawnSync(process.execPath, words, {
      ...optionsIn(folder, { NPM_FAILS: '1' }),
      encoding: 'utf8',
    })
    expect(ran.status).toBe(1)
    expect(ran.stderr).toBe(
      'Installing the packages Pausebook is built with ...\npausebook: The packages could not be installed. Check the network connection and the lines above, then try again.\n',
    )
    expect(existsSync(join(folder, '.installing'))).toBe(false)
  })
})
