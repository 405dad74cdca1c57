import { spawnSync } from 'node:child_process'
import { appendFileSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it, onTestFinished } from 'vitest'
import { copiedProject } from './copiedProject.ts'

/** A change of a source, once, when everything was read and nothing is written yet. */
const savedMeanwhile = `
const { appendFileSync, existsSync, writeFileSync } = require('node:fs')
const { bundle } = exports
exports.bundle = async function () {
  const made = await bundle()
  if (!existsSync('saved')) appendFileSync('src/commands/main.ts', "export const saved = 'meanwhile'\\n")
  writeFileSync('saved', '')
  return made
}`

it('a package whose file is to be changed and is not there stops the build', () => {
  const { folder, end } = copiedProject()
  onTestFinished(end)
  appendFileSync(join(folder, 'src/setup/bundle.cjs'), "\nchanges['ink/moved.js'] = (code) => code\n")
  const ran = spawnSync(process.execPath, ['src/setup/start.cjs', '--build-only'], {
    cwd: folder,
    encoding: 'utf8',
  })
  expect([ran.status, ran.stderr]).toEqual([
    1,
    'pausebook: The build failed. Correct this and try again:\nnode_modules/ink/moved.js is not in the bundle: look for where it lies now and correct src/setup/bundle.cjs.\n',
  ])
})

it('what is saved while the program is built is in the next build, and then nothing is left to do', () => {
  const { folder, end } = copiedProject()
  onTestFinished(end)
  appendFileSync(join(folder, 'src/setup/bundle.cjs'), savedMeanwhile)
  writeFileSync(join(folder, 'src/setup/compile.cjs'), 'exports.compile = async () => {}')
  const build = () => {
    const words = ['-e', "require('./src/setup/build.cjs').build()"]
    expect(spawnSync(process.execPath, words, { cwd: folder, encoding: 'utf8' }).stderr).toBe('')
    return statSync(join(folder, 'dist/pausebook.js')).mtimeMs
  }
  const first = build()
  const second = build()
  expect(second).toBeGreaterThan(first)
  expect(build()).toBe(second)
  expect(readdirSync(folder).filter((name) => name.startsWith('dist'))).toEqual(['dist'])
  expect(readFileSync(join(folder, 'dist/pausebook.js'), 'utf8')).toMatch(/^#!\/usr\/bin\/env node\n/)
})
