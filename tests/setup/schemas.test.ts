import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { publishedSchemas } from '../../src/setup/documents.ts'
import { finished, sampleSession, setRecorded, started } from '../logbook/sampleSession.ts'
import { publishedSchema } from '../publishedSchema.ts'

const shared = join(import.meta.dirname, '../../shared')
const session = sampleSession(setRecorded(1), finished)
const isSession = publishedSchema('session')

describe('the published schemas', () => {
  it.each(Object.entries(publishedSchemas()))(
    '%s is what the program reads by (else: npm run docs)',
    (name, schema) => {
      expect(JSON.parse(readFileSync(join(shared, name), 'utf8'))).toEqual(JSON.parse(JSON.stringify(schema)))
    },
  )

  it('are all generated from the program', () => {
    const published = readdirSync(shared).filter((name) => name.endsWith('.schema.json'))
    expect(published.filter((name) => !(name in publishedSchemas()))).toEqual([])
  })

  it('accept a session', () => {
    expect(isSession(session), JSON.stringify(isSession.errors)).toBe(true)
  })

  it.each([
    ['another format', { ...session, format: 2 }],
    ['an id that leads elsewhere', { ...session, id: '../../etc' }],
    ['an unknown key', { ...session, mood: 'good' }],
    ['an unknown event', { ...session, events: [{ type: 'applauded', at: null, up: null }] }],
    ['a time without an offset', { ...session, events: [{ ...started, at: '2026-11-26T17:40:00' }] }],
    ['a date that is none', { ...session, events: [{ ...started, date: '2026-02-30' }] }],
    ['repetitions below 0', { ...session, events: [started, setRecorded(1, -1)] }],
  ])('refuse %s in a session', (_, value) => {
    expect(isSession(value)).toBe(false)
  })
})
