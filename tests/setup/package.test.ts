import { execSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { builtProgram } from '../terminal/harness.ts'

/* What `npm pack` puts into the tarball, as npm itself says. */

const belongs = [
  /^README\.md$/,
  /^LICENSE$/,
  /^CHANGELOG\.md$/,
  /^package\.json$/,
  /^dist\/pausebook\.js$/,
  /^dist\/parts\/[\w-]+\.js$/,
  /^dist\/NOTICE$/,
  /^dist\/pausebook\.1$/,
  /^dist\/completions\/(pausebook\.bash|_pausebook|pausebook\.(fish|ps1))$/,
  /^sample-sessions\/[a-z-]+(\.results)?\.txt$/,
  /^shared\/[a-z]+\.schema\.json$/,
  /^shared\/manual\/[a-z-]+\.md$/,
  /^shared\/pictures\/[a-z-]+\.svg$/,
]
const manifest = JSON.parse(readFileSync('package.json', 'utf8'))

let packed: string[] = []
beforeAll(async () => {
  await builtProgram()
  const packing = 'npm pack --dry-run --json --ignore-scripts --loglevel=silent'
  const [{ files }] = JSON.parse(execSync(packing, { encoding: 'utf8' }))
  packed = files.map((file: { path: string }) => file.path)
})

describe('the package', () => {
  it('contains the bundle, samples, schemas, manual page, completions and licences, and nothing else', () => {
    expect(packed.filter((path) => !belongs.some((pattern) => pattern.test(path)))).toEqual([])
    expect(belongs.filter((pattern) => !packed.some((path) => pattern.test(path)))).toEqual([])
  })

  it('needs no other package, and runs nothing when it is installed', () => {
    expect(
      manifest.dependencies ?? manifest.optionalDependencies ?? manifest.peerDependencies,
    ).toBeUndefined()
    // npm runs `prepare` only for a checkout, never for a package.
    const atInstall = ['preinstall', 'install', 'postinstall'].filter((name) => name in manifest.scripts)
    expect(atInstall).toEqual([])
  })

  it('lists only files that exist', () => {
    for (const path of [...manifest.man, ...Object.values<string>(manifest.bin)])
      expect(packed).toContain(path)
  })
})
