import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { transform } from 'esbuild'
import { describe, expect, it } from 'vitest'
import { builtProgram } from '../terminal/harness.ts'

const { scripts } = JSON.parse(readFileSync('package.json', 'utf8'))

describe('an older Node', () => {
  it.each(['src/setup/node.cjs', 'dist/pausebook.js'])(
    'is told by %s on one line what it has to be',
    async (path) => {
      await builtProgram()
      const old = `Object.defineProperty(process.versions, 'node', { value: '18.20.4' }); import('./${path}')`
      const ran = spawnSync(process.execPath, ['-e', old], { encoding: 'utf8' })
      expect(ran.status).toBe(1)
      expect(ran.stdout).toBe('')
      expect(ran.stderr).toBe(
        'pausebook: Node 18.20.4 is too old. Install Node 20 or newer (https://nodejs.org).\n',
      )
    },
  )

  it('is rejected by every script before it reads another file, in syntax that any Node reads', async () => {
    const own = Object.values<string>(scripts).filter((script) => script.startsWith('node '))
    expect(own.length).toBeGreaterThan(3)
    for (const script of own) expect(script).toMatch(/^node -r \.\/src\/setup\/node\.cjs /)
    const code = readFileSync('src/setup/node.cjs', 'utf8')
    const [es5, plain] = await Promise.all([
      transform(code, { target: 'es5', minifyWhitespace: true }),
      transform(code, { minifyWhitespace: true }),
    ])
    expect(es5.code).toBe(plain.code)
  })
})

describe('the set-up', () => {
  it('works in a folder with spaces and umlauts: no path is taken from a URL unchanged', () => {
    const files = ['src', 'tests'].flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => join(folder, name)),
    )
    const sources = files.filter((file) => /\.(ts|tsx|cjs)$/.test(file) && !file.includes('generated'))
    const taken = /\.url\)\s*\.pathname/
    expect("new URL('..', import.meta.url).pathname").toMatch(taken)
    const here = join('tests', 'setup', 'setup.test.ts')
    expect(sources.filter((file) => file !== here && taken.test(readFileSync(file, 'utf8')))).toEqual([])
  })

  it('needs no package for test, start, docs and bench before it has installed them', () => {
    const names = ['test', 'start', 'docs', 'bench']
    const script = `
const Module = require('node:module')
const load = Module._load
Module._load = (id, parent, isMain) => {
  if (id.endsWith('install.cjs')) return { install: () => { throw new Error('reached') } }
  if (!id.startsWith('.') && !Module.isBuiltin(id) && !id.includes('/src/setup/')) throw new Error('asked for ' + id)
  return load(id, parent, isMain)
}
for (const name of ${JSON.stringify(names)}) {
  process.argv[1] = process.cwd() + '/src/setup/' + name + '.cjs'
  Module.runMain()
}`
    const ran = spawnSync(process.execPath, ['-e', script], { encoding: 'utf8' })
    expect(ran.stderr.match(/reached/g)).toHaveLength(names.length)
    expect(ran.stderr).not.toContain('asked for')
  })
})
