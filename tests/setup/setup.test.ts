import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { transform } from 'esbuild'
import { describe, expect, it } from 'vitest'

describe('the set-up', () => {
  it('says on one line what an older Node has to be', () => {
    const old = `Object.defineProperty(process.versions, 'node', { value: '18.20.4' }); require('./src/setup/node.cjs')`
    const ran = spawnSync(process.execPath, ['-e', old], { encoding: 'utf8' })
    expect(ran.status).toBe(1)
    expect(ran.stdout).toBe('')
    expect(ran.stderr).toBe(
      'pausebook: Node 18.20.4 is too old. Install Node 20 or newer (https://nodejs.org).\n',
    )
  })

  it.each(['start', 'test', 'node'])('%s.cjs can be read by any Node', async (name) => {
    const code = readFileSync(`src/setup/${name}.cjs`, 'utf8')
    const written = await transform(code, { target: 'es5', minifyWhitespace: true })
    const asIs = await transform(code, { minifyWhitespace: true })
    expect(written.code).toBe(asIs.code)
  })

  it.each(['check', 'open', 'docs', 'checkPackage', 'bench'])(
    '%s.cjs needs no package before it has installed them',
    (name) => {
      const script = `
const Module = require('node:module')
const load = Module._load
Module._load = (id, parent, isMain) => {
  if (id.endsWith('install.cjs')) return { install: () => { throw new Error('reached') } }
  if (!id.startsWith('.') && !Module.isBuiltin(id) && !id.includes('/src/setup/')) throw new Error('asked for ' + id)
  return load(id, parent, isMain)
}
process.on('unhandledRejection', () => {})
require(process.cwd() + '/src/setup/${name}.cjs')`
      const ran = spawnSync(process.execPath, ['-e', script], { encoding: 'utf8' })
      expect(ran.stderr).toContain('reached')
      expect(ran.stderr).not.toContain('asked for')
    },
  )
})
