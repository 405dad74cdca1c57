import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { builtProgram } from './harness.ts'

let dist = ''
beforeAll(async () => {
  dist = dirname(await builtProgram())
})

/** A file of the bundle and everything it loads at once. */
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

function drawsScreens(file: string): boolean {
  return /react\.transitional\.element|yoga-layout|YGNode/.test(readFileSync(file, 'utf8'))
}

describe('the bundle', () => {
  it('loads React and Ink only for the app, not for a command that prints', () => {
    const parts = readdirSync(join(dist, 'parts')).filter((part) => !part.startsWith('chunk-'))
    expect(parts.length).toBeGreaterThan(20)
    const drawing = parts.filter((part) => [...loadedWith(join(dist, 'parts', part))].some(drawsScreens))
    expect(drawing.map((part) => part.replace(/-[A-Z0-9]{8}\.js$/, ''))).toEqual(['openApp'])
  })

  it('is a program that a shell can start, with the licences of its contents', () => {
    expect(readFileSync(join(dist, 'pausebook.js'), 'utf8')).toMatch(/^#!\/usr\/bin\/env node\n/)
    const notice = readFileSync(join(dist, 'NOTICE'), 'utf8')
    for (const name of ['commander', 'ink', 'react', 'yoga-layout']) expect(notice).toContain(`\n${name} `)
    // It contains what is generated from the schemas, but not zod.
    expect(notice).not.toContain('\nzod ')
  })

  it('never calls fetch: what it loads is in it, and loading what Node needs for fetch would take a tenth of the start', () => {
    const parts = readdirSync(join(dist, 'parts'))
    const calling = parts.filter((part) => /\bfetch\(/.test(readFileSync(join(dist, 'parts', part), 'utf8')))
    expect(calling).toEqual([])
  })

  it('contains no path of the machine that built it', () => {
    const parts = readdirSync(join(dist, 'parts'))
    expect(parts.length).toBeGreaterThan(10)
    const saying = parts.filter((part) =>
      readFileSync(join(dist, 'parts', part), 'utf8').includes(process.cwd()),
    )
    expect(saying).toEqual([])
  })
})
