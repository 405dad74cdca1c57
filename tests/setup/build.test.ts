import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'

const { licenceOf } = createRequire(import.meta.url)('../../src/setup/build.cjs')

function packageWith(files: Record<string, string>): string {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-package-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text)
  return folder
}

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
