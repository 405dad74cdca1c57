import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

/* What dependency-cruiser cannot see: a clock, a die and a console need no import. */

const rooms = ['validate', 'units', 'figures', 'prescription', 'session', 'summary', 'progress', 'recorder']
const forbidden = /\bDate\.now\(|\bnew Date\(\)|\bperformance\.now\(|\bMath\.random\(|\bconsole\.|\bprocess\./

function filesIn(room: string): string[] {
  const folder = join('src', room)
  if (!existsSync(folder)) return []
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !name.startsWith('generated'))
    .map((name) => join(folder, name))
}

describe('the floors of values', () => {
  it.each(rooms)('%s asks for no time, no chance, no console', (room) => {
    const lines = filesIn(room).flatMap((file) =>
      readFileSync(file, 'utf8')
        .split('\n')
        .flatMap((line, index) => (forbidden.test(line) ? [`${file}:${index + 1}: ${line.trim()}`] : [])),
    )
    expect(lines).toEqual([])
  })

  it('would be caught asking', () => {
    expect('const at = Date.now()').toMatch(forbidden)
    expect('Math.random()').toMatch(forbidden)
  })
})
