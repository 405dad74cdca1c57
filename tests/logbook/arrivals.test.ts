import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { writeBackup } from '../../src/logbook/backup.ts'
import { printSession } from '../../src/logbook/sessionFile.ts'
import { openLogbook, storeArrivals } from '../../src/logbook/store.ts'
import { verifyLogbook } from '../../src/logbook/verify.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { insteadOf } from './otherCalls.ts'
import { finished, legs, sampleSession, setRecorded, started } from './sampleSession.ts'
import { muchLater } from './testMachine.ts'

const day = { prescription: legs, start: started, events: [setRecorded(1), finished] }
const file = (id: string) => printSession({ ...sampleSession(setRecorded(1), finished), id })
const place = join('sessions', '2026')

/** A logbook as a killed run leaves it: with some sessions in a temporary folder. */
function leftIn(folder: string, ...ids: string[]): string {
  const home = temporaryFolder()
  mkdirSync(join(home, folder))
  for (const id of ids) writeFileSync(join(home, folder, `2026-11-26-${id}.json`), file(id))
  return home
}

describe('sessions that are stored together', () => {
  it('are all there, and nothing else', () => {
    const home = temporaryFolder()
    const logbook = openLogbook(home)
    const ids = logbook.createAll([day, day, day])
    expect(new Set(ids).size).toBe(3)
    expect(new Set(logbook.list().map(({ id }) => id))).toEqual(new Set(ids))
    expect(readdirSync(home)).toEqual(['sessions'])
    expect(readdirSync(join(home, place)).sort()).toEqual(ids.map((id) => `2026-11-26-${id}.json`).sort())
  })

  it('are all missing if the run was killed before all were written', () => {
    const home = leftIn('.pausebook.999999999.abcdefgh.tmp', 'abcdef2345')
    // The folder of the year is made earlier.
    mkdirSync(join(home, place), { recursive: true })
    expect(openLogbook(home).list()).toEqual([])
    expect(openLogbook(home, muchLater).list()).toEqual([])
    expect(readdirSync(home)).toEqual(['sessions'])
  })

  it('are all there if the run was killed after that', () => {
    for (const look of [
      (home: string) => openLogbook(home).list().length,
      (home: string) => verifyLogbook(home).sound,
      (home: string) => writeBackup(home, join(temporaryFolder(), 'book.ndjson')).sessions,
    ]) {
      const home = leftIn('arrived-abcdefgh', 'abcdef2345', 'abcdef2346')
      mkdirSync(join(home, place), { recursive: true })
      writeFileSync(join(home, place, '2026-11-26-abcdef2347.json'), file('abcdef2347'))
      expect(look(home)).toBe(3)
      expect(existsSync(join(home, 'arrived-abcdefgh'))).toBe(false)
    }
  })

  it('are all there if another process puts them in their places at the same moment', () => {
    const home = leftIn('arrived-abcdefgh', 'abcdef2345')
    let isFirst = true
    insteadOf('readdirSync', (readdirSync) => (path: string) => {
      if (path.includes('arrived-') && isFirst) {
        isFirst = false
        storeArrivals(home)
      }
      return readdirSync(path)
    })
    expect(storeArrivals(home)).toBeNull()
    expect(isFirst).toBe(false)
    expect(openLogbook(home).list()).toHaveLength(1)
  })

  it('are left where they are beside a file of the user, and in a folder that is only named alike', () => {
    const home = leftIn('arrived-abcdefgh', 'abcdef2345')
    writeFileSync(join(home, 'arrived-abcdefgh', 'picture'), 'pixels')
    mkdirSync(join(home, 'arrived-abcdefghi'))
    writeFileSync(join(home, 'arrived-abcdefghi', '2026-11-26-abcdef2346.json'), file('abcdef2346'))
    expect(openLogbook(home).list()).toEqual([])
    expect(readdirSync(join(home, 'arrived-abcdefgh')).sort()).toEqual([
      '2026-11-26-abcdef2345.json',
      'picture',
    ])
    expect(readdirSync(join(home, 'arrived-abcdefghi'))).toEqual(['2026-11-26-abcdef2346.json'])
  })

  it('wait, and are reported, if they cannot be moved to their places', () => {
    const home = leftIn('arrived-abcdefgh', 'abcdef2345')
    mkdirSync(join(home, 'sessions'))
    writeFileSync(join(home, place), 'a file in the place of the folder')
    const { damages } = openLogbook(home)
    expect(damages).toEqual([
      {
        file: 'sessions',
        wrong: 'Imported sessions cannot be put in their places: a file has the name of the folder.',
        done: 'They are kept beside it, and each command tries again.',
      },
    ])
    expect(readdirSync(join(home, 'arrived-abcdefgh'))).toEqual(['2026-11-26-abcdef2345.json'])
  })
})
