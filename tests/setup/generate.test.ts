import { spawnSync } from 'node:child_process'
import { readFileSync, unlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest'
import { copiedProject } from './copiedProject.ts'

/* What is made of the grammar and the schemas, in a copy of the sources. */

let folder = ''
beforeAll(() => {
  const project = copiedProject()
  folder = project.folder
  generate()
  return project.end
})

function generate() {
  const ran = spawnSync(process.execPath, ['-e', "require('./src/setup/generate.cjs').generate()"], {
    cwd: folder,
    encoding: 'utf8',
  })
  expect(ran.stderr).toBe('')
}

const read = (path: string) => readFileSync(join(folder, 'src', path), 'utf8')

/** Until the test is over. */
function change(path: string, before: string, after: string) {
  const text = read(path)
  expect(text).toContain(before)
  const write = (changed: string) => writeFileSync(join(folder, 'src', path), changed)
  write(text.replace(before, after))
  onTestFinished(() => write(text))
}

describe('what is generated is made anew', () => {
  it.each([
    ['a schema', 'logbook/lockModel.ts', 'pid', 'pidOfOwner', 'logbook/generated/shapes.js', 'pidOfOwner'],
    [
      'words a schema is made of',
      'figures/equations.ts',
      "'epley'",
      "'parabola'",
      'logbook/generated/shapes.js',
      'parabola',
    ],
    ['a format', 'session/format.ts', '= 1', '= 7', 'logbook/generated/shapes.js', '[7]'],
    [
      'the grammar',
      'prescription/notation.peggy',
      '"fuel"i',
      '"feast"i',
      'prescription/generated/notation.js',
      'feast',
    ],
    [
      'what writes its types',
      'setup/grammar.cjs',
      'StartRules: string[]',
      'StartRules: readonly string[]',
      'prescription/generated/notation.d.ts',
      'readonly string[]',
    ],
  ])('when %s changes', (_, source, before, after, made, trace) => {
    // Nothing but the change is left to be seen.
    generate()
    expect(read(made)).not.toContain(trace)
    change(source, before, after)
    generate()
    expect(read(made)).toContain(trace)
  })

  it('when a part of it is gone, and not otherwise', () => {
    generate()
    const path = join(folder, 'src/logbook/generated/shapes.d.ts')
    writeFileSync(path, 'kept')
    generate()
    expect(read('logbook/generated/shapes.d.ts')).toBe('kept')
    unlinkSync(path)
    generate()
    expect(read('logbook/generated/shapes.d.ts')).toContain('export function sessionShape(): Shapes')
  })
})
