import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { type Damage, LogbookError } from '../../src/logbook/errors.ts'
import { thisMachine } from '../../src/logbook/machine.ts'
import { addMornings, morningsKind, printMornings, readMornings } from '../../src/logbook/mornings.ts'
import { changeStored, loadStored, readStored, repairUnderLock } from '../../src/logbook/storedFile.ts'
import type { MorningEvent } from '../../src/plan/morningModel.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

/* The files of the mornings, one a year. */

const machine = thisMachine()
const typed = (date: string, restingHeartRate: number): MorningEvent => ({
  type: 'typed',
  at: `${date}T07:00:00+01:00`,
  date,
  values: { restingHeartRate },
})
const [old, first, second] = [
  typed('2025-12-31', 50),
  typed('2026-11-25', 49),
  typed('2026-11-26', 48),
] as const

/** A logbook with these files among its mornings. */
function logbookWith(files: Record<string, string | Buffer>): string {
  const logbook = temporaryFolder()
  mkdirSync(join(logbook, 'mornings'))
  for (const [name, text] of Object.entries(files)) writeFileSync(join(logbook, 'mornings', name), text)
  return logbook
}

const beatsIn = (logbook: string) =>
  readMornings(logbook).mornings.map(({ restingHeartRate }) => restingHeartRate)
const damagesIn = (logbook: string) => readMornings(logbook).damages as [Damage]
const repaired = (logbook: string) => repairUnderLock(logbook, 'mornings/2026.json', morningsKind, machine)
const namesIn = (logbook: string) => readdirSync(join(logbook, 'mornings')).sort()
const unsealedText = JSON.stringify({ format: 1, events: [first] })

describe('the mornings of a logbook', () => {
  it('are those of every year, in order, none without a folder, and reported in a file', () => {
    const logbook = temporaryFolder()
    expect(readMornings(logbook)).toEqual({ mornings: [], typed: [], damages: [] })
    addMornings(logbook, [second, old, first], machine)
    expect(beatsIn(logbook)).toEqual([50, 49, 48])
    expect(namesIn(logbook)).toEqual(['2025.json', '2026.json'])
    addMornings(logbook, [typed('2026-11-26', 47)])
    expect(beatsIn(logbook)).toEqual([50, 49, 47])
    writeFileSync(join(logbook, 'mornings', '20261.json'), '{')
    writeFileSync(join(logbook, 'mornings', 'x2026.json'), '{')
    writeFileSync(join(logbook, 'mornings', '2026.json.damaged-1'), '{')
    expect(readMornings(logbook).damages).toEqual([])
    const file = join(temporaryFolder(), 'file')
    writeFileSync(file, '')
    expect(readMornings(file)).toMatchObject({ mornings: [], damages: [{ file: 'mornings' }] })
  })

  it('are reported if their folder cannot be listed', () => {
    const logbook = temporaryFolder()
    symlinkSync('nowhere', join(logbook, 'mornings'))
    expect(readMornings(logbook).damages).toEqual([
      expect.objectContaining({
        file: 'mornings',
        wrong: expect.stringContaining('cannot be listed: the folder is gone;'),
      }),
    ])
  })

  it.each([
    ['', 'The file is empty.', true],
    [Buffer.from([0xff, 0xfe]), 'The file is not UTF-8 text.', true],
    [
      '{"format": 2, "events": []}',
      'The file has format 2, written by a newer program; this one reads format 1.',
      false,
    ],
    ['{"format": 1, "events": 7}', 'The file is wrong: events is not a list.', false],
    [
      '{"format": 1, "mood": "good", "events": []}',
      'The file is wrong: it has a field that does not belong there, "mood".',
      false,
    ],
  ])(
    'are read, if they hold %j, from the copy before only if a disk ruined them',
    (text, wrong, isRuined) => {
      const logbook = logbookWith({ '2026.json': text, '2026.json.bak': printMornings([first]) })
      expect(readMornings(logbook)).toMatchObject({
        damages: [
          {
            file: 'mornings/2026.json',
            wrong,
            done: isRuined
              ? 'Nothing was changed; the previous copy (2026.json.bak) is used instead. "pausebook verify --repair" restores it.'
              : 'Nothing was changed.',
          },
        ],
      })
      expect(beatsIn(logbook)).toEqual(isRuined ? [49] : [])
      expect(() => addMornings(logbook, [second])).toThrow(LogbookError)
      expect(() => addMornings(logbook, [second])).toThrow(
        `mornings/2026.json: ${wrong} Nothing was changed${isRuined ? '; the previous copy' : '. Correct it or move it away.'}`,
      )
      expect(readFileSync(join(logbook, 'mornings', '2026.json'))).toEqual(Buffer.from(text))
    },
  )

  it('are left alone if the copy before them is ruined as well', () => {
    const logbook = logbookWith({ '2026.json': '', '2026.json.bak': '{' })
    const [damage] = damagesIn(logbook)
    expect(damage.done).toBe(
      'Nothing was changed; the previous copy (2026.json.bak) is damaged too: it breaks off before its end.',
    )
    expect(repaired(logbook)).toEqual(damage)
  })

  it('are reported if their file is gone and the copy before it is ruined, which is then left alone', () => {
    const logbook = logbookWith({ '2026.json.bak': '' })
    const done = 'Nothing was changed; the previous copy (2026.json.bak) is damaged too: it is empty.'
    expect(readMornings(logbook)).toEqual({
      mornings: [],
      typed: [],
      damages: [{ file: 'mornings/2026.json', wrong: 'The file is gone.', done }],
    })
    expect(() => addMornings(logbook, [first])).toThrow(
      `mornings/2026.json: The file is gone. ${done} Correct it or move it away.`,
    )
    expect(namesIn(logbook)).toEqual(['2026.json.bak'])
    rmSync(join(logbook, 'mornings', '2026.json.bak'))
    addMornings(logbook, [first])
    expect(beatsIn(logbook)).toEqual([49])
  })

  it('are those of the copy alone if their file is gone, and that is reported', () => {
    const logbook = logbookWith({ '2026.json.bak': printMornings([first]) })
    expect(beatsIn(logbook)).toEqual([49])
    const [damage] = damagesIn(logbook)
    expect(damage.wrong).toBe('The file is gone.')
    expect(repaired(logbook)).toEqual({ ...damage, done: 'Restored the previous copy (2026.json.bak).' })
    expect(damagesIn(logbook)).toEqual([])
  })

  it('get back the copy before a ruined file, or their checksum, on request', () => {
    const logbook = logbookWith({
      '2025.json': unsealedText.replaceAll('2026-11', '2025-11'),
      '2026.json': '{',
      '2026.json.bak': printMornings([first]),
    })
    const isSealed = () => loadStored(logbook, 'mornings/2025.json', morningsKind).isSealed
    expect(isSealed()).toBe(false)
    changeStored(logbook, 'mornings/2025.json', morningsKind, machine, (same) => same)
    expect(isSealed()).toBe(true)
    expect(repaired(logbook)?.done).toBe(
      'Moved to 2026.json.damaged-1; restored the previous copy (2026.json.bak).',
    )
    expect(beatsIn(logbook)).toEqual([49, 49])
    expect(damagesIn(logbook)).toEqual([])
    expect(existsSync(join(logbook, 'mornings', '2025.json.bak'))).toBe(true)
  })

  it('say why they cannot be repaired', () => {
    const logbook = logbookWith({ '2026.json': '{', '2026.json.bak': printMornings([first]) })
    mkdirSync(join(logbook, 'mornings', '2026.json.lock'))
    expect(repaired(logbook)?.done).toMatch(
      /^It could not be repaired: The lock .*\. Remove it\. Nothing was changed\.$/,
    )
  })

  it('are saved year by year, so that a damaged year loses no other one', () => {
    const logbook = logbookWith({ '2026.json': '' })
    const both = () => addMornings(logbook, [old, second], machine)
    expect(both).toThrow('mornings/2026.json: The file is empty.')
    expect(both).toThrow(LogbookError)
    expect(beatsIn(logbook)).toEqual([50])
    rmSync(join(logbook, 'mornings', '2026.json'))
    rmSync(join(logbook, 'mornings', '2025.json.bak'), { force: true })
    mkdirSync(join(logbook, 'mornings', '2026.json.lock'))
    expect(both).toThrow(/^The lock .*2026\.json\.lock is a folder\. Remove it\.$/)
  })

  it('are refused if their folder cannot be made', () => {
    const file = join(temporaryFolder(), 'file')
    writeFileSync(file, '')
    const add = () => addMornings(file, [first], machine)
    expect(add).toThrow(
      /mornings.2026\.json cannot be saved: .*\. It is as before\. Make room .*try again\.$/,
    )
    expect(add).toThrow(LogbookError)
  })
})

describe('the text of a year of mornings', () => {
  it('has one morning a line and its checksum', () => {
    const text = printMornings([first, second])
    expect(text.split('\n')).toHaveLength(9)
    expect(readStored(text, morningsKind)).toEqual({ value: [first, second], isSealed: true })
    expect(readStored(unsealedText, morningsKind)).toEqual({ value: [first], isSealed: false })
    const note = { ...first, values: { note: 'wind\u001b' } }
    expect(readStored(JSON.stringify({ format: 1, events: [note] }), morningsKind)).toMatchObject({
      value: [{ values: { note: 'wind\uFFFD' } }],
    })
  })
})
