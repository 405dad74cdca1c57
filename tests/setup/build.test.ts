import { mkdirSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'

const { licenceOf, packagesIn } = createRequire(import.meta.url)('../../src/setup/build.cjs')

function packageWith(files: Record<string, string>): string {
  const folder = temporaryFolder()
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text)
  return folder
}

describe('the packages in the NOTICE', () => {
  it('are those of the bundled files and what these depend on, each as Node finds it', () => {
    const manifests = {
      'node_modules/a': ['b', '@of/c'],
      'node_modules/a/node_modules/b': ['c'],
      'node_modules/b': [],
      'node_modules/@of/c': ['a'],
      'node_modules/c': [],
      'node_modules/unused': [],
    }
    const project = temporaryFolder()
    for (const [folder, needed] of Object.entries(manifests)) {
      mkdirSync(join(project, folder), { recursive: true })
      const dependencies = Object.fromEntries(needed.map((name) => [name, '1']))
      writeFileSync(join(project, folder, 'package.json'), JSON.stringify({ dependencies }))
    }
    expect(packagesIn(['src/cli.ts', 'node_modules/a/index.js'], project)).toEqual([
      'node_modules/@of/c',
      'node_modules/a',
      'node_modules/a/node_modules/b',
      'node_modules/c',
    ])
  })

  it('have the one whose code d3-array is published with', () => {
    expect(packagesIn(['node_modules/d3-array/dist/d3-array.mjs'])).toContain('node_modules/internmap')
  })
})

describe('the licence of a bundled package', () => {
  it('is its licence file followed by its notice file', () => {
    const folder = packageWith({ LICENSE: 'MIT\n', NOTICE: 'based on another\n', 'README.md': 'none' })
    expect(licenceOf('some-package', folder)).toBe('MIT\n\nbased on another')
  })

  it('is our copy if the package has none', () => {
    expect(licenceOf('yoga-layout', packageWith({}))).toContain('Copyright (c) Meta Platforms')
  })

  it('stops the build if there is neither', () => {
    expect(() => licenceOf('some-package', packageWith({ NOTICE: 'based on another' }))).toThrow(
      'The package some-package has no licence file. Put its licence text into src/setup/licences/some-package.txt.',
    )
  })
})
