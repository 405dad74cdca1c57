import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

/* What dependency-cruiser cannot see: clocks, random numbers and the console need no import. */

const rooms = [
  'validate',
  'units',
  'figures',
  'prescription',
  'plan',
  'session',
  'summary',
  'progress',
  'recorder',
]
const forbidden = /\bDate\.now\(|\bnew Date\(\)|\bperformance\.now\(|\bMath\.random\(|\bconsole\.|\bprocess\./

function filesIn(room: string): string[] {
  const folder = join('src', room)
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !name.startsWith('generated'))
    .map((name) => join(folder, name))
}

describe('the floors of values', () => {
  it.each(rooms)('%s reads no clock, no random number, no console', (room) => {
    const lines = filesIn(room).flatMap((file) =>
      readFileSync(file, 'utf8')
        .split('\n')
        .flatMap((line, index) => (forbidden.test(line) ? [`${file}:${index + 1}: ${line.trim()}`] : [])),
    )
    expect(lines).toEqual([])
  })

  it('are checked by a test that detects such calls', () => {
    expect('const at = Date.now()').toMatch(forbidden)
    expect('Math.random()').toMatch(forbidden)
  })
})
