import { readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { reasonNotToRun, skip, tell, whileMounted } from './harness.ts'

const disk = ['-t', 'tmpfs', '-o', 'size=64k', 'none']

describe('a disk of 64 KiB that fills up', () => {
  it('keeps what was saved, says that it is full, and takes the rest when there is room', (context) => {
    const reason = reasonNotToRun('mount') ?? reasonNotToMount()
    if (reason !== null) skip(context, reason)
    const place = temporaryFolder()
    whileMounted(disk, place, () => {
      const filler = join(place, 'filler')
      writeFileSync(filler, Buffer.alloc(16 * 1024))
      const directory = join(place, 'logbook')
      const file = openLogbook(directory).create(legs, started)
      let number = 0
      let saved = 0
      while (number < saved + 5) {
        number += 1
        const state = file.append([setRecorded(number)])
        if (state.ok) saved = number
        else expect(state).toEqual({ ok: false, reason: 'the disk is full' })
        // A short write would leave a truncated file.
        expect(openLogbook(directory).read(file.id).session.events).toHaveLength(saved + 1)
      }
      expect(saved).toBeGreaterThan(10)
      rmSync(filler)
      expect(file.append([setRecorded(number + 1)])).toEqual({ ok: true })
      expect(file.close()).toEqual({ ok: true })
      expect(openLogbook(directory).read(file.id).session.events).toHaveLength(number + 2)
      const names = readdirSync(join(directory, 'sessions', '2026'))
      expect(names.filter((name) => name.endsWith('.tmp'))).toEqual([])
      tell(`full disk: ${saved} results saved, then 5 refused, all ${number + 1} there in the end`)
    })
  })
})

function reasonNotToMount(): string | null {
  try {
    whileMounted(disk, temporaryFolder(), () => {})
    return null
  } catch {
    return 'a small disk cannot be mounted here'
  }
}
