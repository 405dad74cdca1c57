import { execFileSync } from 'node:child_process'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { reasonNotToRun, skip, tell, whileMounted } from './harness.ts'

const results = 30

/* The disk is a mounted image in a file; its copy at a moment is what a power cut at that moment leaves,
 * since it lacks what the system still holds in memory. */
describe('a power cut', () => {
  it('loses no result that was reported as saved', (context) => {
    const reason = reasonNotToRun('mkfs.ext4', 'mount') ?? reasonNotToMount()
    if (reason !== null) skip(context, reason)
    withDisk((disk, cut) => {
      const file = openLogbook(join(disk, 'logbook')).create(legs, started)
      for (let number = 0; number <= results; number += 1) {
        if (number > 0) expect(file.append([setRecorded(number)])).toEqual({ ok: true })
        cut((after) => {
          const logbook = openLogbook(join(after, 'logbook'))
          expect(logbook.read(file.id).session.events).toHaveLength(number + 1)
          expect(logbook.damages).toEqual([])
          // The lock from before the cut is dead on a machine that was restarted since; here its owner lives.
          if (number > 1)
            expect(readFileSync(`${join(after, file.path.slice(disk.length))}.bak`, 'utf8')).toMatch(
              /\n\}\n$/,
            )
        })
      }
      file.close()
    })
    tell(`power cut after each of ${results + 1} saves`)
  })

  it('loses a file that was written without a flush, which shows that the test above can fail', (context) => {
    const reason = reasonNotToRun('mkfs.ext4', 'mount') ?? reasonNotToMount()
    if (reason !== null) skip(context, reason)
    withDisk((disk, cut) => {
      writeFileSync(join(disk, 'beside'), 'text')
      renameSync(join(disk, 'beside'), join(disk, 'file'))
      cut((after) =>
        expect(existsSync(join(after, 'file')) && readFileSync(join(after, 'file'), 'utf8') === 'text').toBe(
          false,
        ),
      )
    })
  })
})

function withDisk(work: (disk: string, cut: (look: (after: string) => void) => void) => void): void {
  const place = temporaryFolder()
  const image = join(place, 'image')
  const [disk, after] = [join(place, 'disk'), join(place, 'after')]
  for (const folder of [disk, after]) mkdirSync(folder)
  writeFileSync(image, '')
  truncateSync(image, 8 * 1024 * 1024)
  execFileSync('mkfs.ext4', ['-q', image])
  whileMounted(['-o', 'loop', image], disk, () =>
    work(disk, (look) => {
      copyFileSync(image, `${image}.cut`)
      whileMounted(['-o', 'loop', `${image}.cut`], after, () => look(after))
    }),
  )
}

function reasonNotToMount(): string | null {
  try {
    withDisk(() => {})
    return null
  } catch {
    return 'a disk image cannot be mounted here'
  }
}
