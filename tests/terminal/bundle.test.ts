import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { commandTable } from '../../src/commands/commands.ts'
import { builtProgram } from './harness.ts'

let dist = ''
beforeAll(async () => {
  dist = dirname(await builtProgram())
})

/** A file of the bundle and all that it loads at once. */
function loadedWith(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen
  seen.add(file)
  const code = readFileSync(file, 'utf8')
  // A dynamic import has a parenthesis: `import("./open-ABC.js")`.
  for (const [, path = ''] of code.matchAll(/(?:from|import)"(\.[^"]+\.js)"/g)) {
    loadedWith(join(dirname(file), path), seen)
  }
  return seen
}

/** The part of the bundle that begins with a source file's name. */
function partOf(name: string): string {
  const file = readdirSync(join(dist, 'parts')).find((part) => part.replace(/-[A-Z0-9]{8}\.js$/, '') === name)
  if (file === undefined) throw new Error(`no part ${name} in the bundle`)
  return join(dist, 'parts', file)
}

function drawsScreens(file: string): boolean {
  return /react\.transitional\.element|yoga-layout|YGNode/.test(readFileSync(file, 'utf8'))
}

describe('the bundle', () => {
  const printing = commandTable.map((row) => row.name).filter((name) => name !== '' && name !== 'record')

  it.each(printing)('loads neither React nor Ink for %s', (name) => {
    const files = loadedWith(partOf(name), loadedWith(partOf('cli')))
    expect([...files].filter(drawsScreens)).toEqual([])
  })

  it('would be seen loading them', () => {
    expect([...loadedWith(partOf('openApp'))].some(drawsScreens)).toBe(true)
  })

  it('is a program that a shell can start, with the licences of what is in it', () => {
    expect(readFileSync(join(dist, 'pausebook.js'), 'utf8')).toMatch(/^#!\/usr\/bin\/env node\n/)
    const notice = readFileSync(join(dist, 'NOTICE'), 'utf8')
    for (const name of ['commander', 'ink', 'react', 'yoga-layout']) expect(notice).toContain(`\n${name} `)
    // What is made of its schemas is in it, zod is not.
    expect(notice).not.toContain('\nzod ')
  })

  it('holds no path of the machine that built it', () => {
    const parts = readdirSync(join(dist, 'parts'))
    expect(parts.length).toBeGreaterThan(10)
    const saying = parts.filter((part) =>
      readFileSync(join(dist, 'parts', part), 'utf8').includes(process.cwd()),
    )
    expect(saying).toEqual([])
  })
})
