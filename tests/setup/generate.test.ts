import { cpSync, readFileSync, symlinkSync, unlinkSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join, resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'

/* The code generated from the grammar and the schemas, in a copy of the sources with this project's packages. */

const folder = temporaryFolder(afterAll)
beforeAll(() => {
  for (const path of ['src', 'package.json', 'package-lock.json'])
    cpSync(path, join(folder, path), { recursive: true })
  // A junction: Windows lets only an administrator make a link.
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'), 'junction')
})

const generate = () => createRequire(join(folder, 'package.json'))('./src/setup/generate.cjs').generate()

const read = (path: string) => readFileSync(join(folder, 'src', path), 'utf8')
const write = (path: string, text: string) => writeFileSync(join(folder, 'src', path), text)

function change(path: string, before: string, after: string) {
  expect(read(path)).toContain(before)
  write(path, read(path).replace(before, after))
}

describe('the generated code', () => {
  it('follows changes of a schema, of its words and format, and of the grammar', async () => {
    change('logbook/model.ts', 'pid', 'pidOfOwner')
    change('figures/oneRepMax.ts', "['median'", "['parabola'")
    change('session/model.ts', 'z.literal(1)', 'z.literal(7)')
    change('prescription/notation.peggy', '"fuel"i', '"feast"i')
    await generate()
    const shapes = read('logbook/generated/shapes.js')
    for (const trace of ['pidOfOwner', 'parabola', 'const\\":7']) expect(shapes).toContain(trace)
    expect(read('prescription/generated/notation.js')).toContain('feast')
  })

  it('is generated again if one of its files is gone, and not otherwise', async () => {
    const types = 'logbook/generated/shapes.d.ts'
    await generate()
    write(types, 'kept')
    await generate()
    expect(read(types)).toBe('kept')
    unlinkSync(join(folder, 'src', types))
    await generate()
    expect(read(types)).toContain('export function sessionShape(): Shape')
  })
})
