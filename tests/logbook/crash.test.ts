import { closeSync, fsyncSync, mkdirSync, openSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { addPrescription } from '../../src/logbook/prescriptions.ts'
import { readSession } from '../../src/logbook/sessionFile.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { CrashModel, plant, type Tree } from './crashModel.ts'
import { finished, legs, setRecorded, started } from './sampleSession.ts'
import { temporaryFolder } from './temporaryFolder.ts'
import { machineWith } from './testMachine.ts'

/* The logbook after a crash of the machine at any moment, in any state that POSIX permits. */

const disk = vi.hoisted(() => ({
  /** Told what is done to the disk, while that is recorded. */
  model: null as CrashModel | null,
  knowsLinks: true,
  looked: () => {},
}))

vi.mock('node:fs', async (original) => {
  const real = await original<typeof import('node:fs')>()
  /** Does it, then tells the model; a lock of before the crash is dead and says nothing. */
  const told = <Given extends unknown[], Result>(
    work: (...given: Given) => Result,
    tell: (model: CrashModel, given: Given, result: Result) => void,
  ) => {
    return (...given: Given): Result => {
      const result = work(...given)
      if (disk.model !== null && !given.some((each) => typeof each === 'string' && each.includes('.lock'))) {
        tell(disk.model, given, result)
        disk.looked()
      }
      return result
    }
  }
  const link = (from: string, to: string) => {
    if (!disk.knowsLinks) throw Object.assign(new Error('no second names here'), { code: 'EPERM' })
    real.linkSync(from, to)
  }
  return {
    ...real,
    openSync: told(real.openSync as (path: string, flags: string) => number, (model, [path], descriptor) =>
      model.opened(descriptor, path),
    ),
    closeSync: told(real.closeSync, (model, [descriptor]) => model.closed(descriptor)),
    writeFileSync: told(
      real.writeFileSync as (target: number | string, text: string) => void,
      (model, [target, text]) => model.written(target, text),
    ),
    fsyncSync: told(real.fsyncSync, (model, [descriptor]) => model.flushed(descriptor)),
    mkdirSync: told(real.mkdirSync as (path: string) => void, (model, [path]) => model.folderMade(path)),
    renameSync: told(real.renameSync as (from: string, to: string) => void, (model, [from, to]) =>
      model.renamed(from, to),
    ),
    linkSync: told(link, (model, [from, to]) => model.linked(from, to)),
    copyFileSync: told(real.copyFileSync as (from: string, to: string) => void, (model, [from, to]) =>
      model.copied(from, to),
    ),
    rmSync: told(real.rmSync as (path: string) => void, (model, [path]) => model.removed(path)),
  }
})

afterEach(() => {
  disk.model = null
  disk.knowsLinks = true
})

/** Works on a logbook and looks at every tree that a crash could leave meanwhile.
 * @param work calls `acknowledge` with what the athlete has been told is kept
 * @param look throws where a logbook does not have what was acknowledged
 * @returns how many trees were looked at */
function crashing<Kept>(
  work: (home: string, acknowledge: (kept: Kept) => void) => void,
  look: (home: string, kept: Kept | null) => void,
): number {
  const root = temporaryFolder()
  const model = new CrashModel(root)
  const crashes = new Map<string, { tree: Tree; kept: Kept | null }>()
  let kept: Kept | null = null
  disk.looked = () => {
    for (const tree of model.trees()) crashes.set(JSON.stringify([tree, kept]), { tree, kept })
  }
  disk.model = model
  work(join(root, 'logbook'), (now) => {
    kept = now
    disk.looked()
  })
  disk.model = null
  const planted = temporaryFolder()
  for (const [index, crash] of [...crashes.values()].entries()) {
    const folder = join(planted, String(index))
    mkdirSync(folder)
    plant(crash.tree, folder)
    const names = crash.tree.map(([path, text]) => `${path} ${text?.length ?? ''}`).join('\n')
    try {
      look(join(folder, 'logbook'), crash.kept)
    } catch (error) {
      throw new Error(`${(error as Error).message}\nafter a crash that left\n${names}`)
    }
  }
  return crashes.size
}

const restarted = machineWith({ boot: 'after the crash', isRunning: () => false })

/** The events of each session. */
function eventsIn(home: string): number[] {
  const logbook = openLogbook(home, restarted)
  const counts = logbook.list().map(({ id }) => logbook.read(id).session.events.length)
  expect(logbook.damages).toEqual([])
  return counts
}

function record(home: string, acknowledge: (events: number) => void): void {
  const file = openLogbook(home).create(legs, started)
  expect(file.state).toEqual({ saved: true })
  acknowledge(1)
  for (const number of [1, 2, 3]) {
    expect(file.append([setRecorded(number)])).toEqual({ saved: true })
    acknowledge(1 + number)
  }
}

const isWindows = process.platform === 'win32'
if (isWindows) process.stderr.write('a crash is not tried here: Windows flushes no folders\n')

describe.skipIf(isWindows)('a crash of the machine', () => {
  it.each([
    ['', true],
    [' where files have one name only', false],
  ])('loses no result that was saved%s', (_, knowsLinks) => {
    disk.knowsLinks = knowsLinks
    const trees = crashing<number>(record, (home, kept) => {
      const [events = 0] = eventsIn(home)
      expect(events).toBeGreaterThanOrEqual(kept ?? 0)
      expect(events).toBeLessThanOrEqual((kept ?? 0) + 1)
      // The copy before is whole where there is one.
      const folder = join(home, 'sessions', '2026')
      const copies = events === 0 ? [] : readdirSync(folder).filter((name) => name.endsWith('.bak'))
      for (const name of copies)
        expect(readSession(readFileSync(join(folder, name), 'utf8'), null).outcome).toBe('session')
    })
    expect(trees).toBeGreaterThan(30)
  })

  it('brings back no session that was discarded', () => {
    crashing<'discarded'>(
      (home, acknowledge) => {
        const file = openLogbook(home).create(legs, started, [setRecorded(1)])
        file.append([setRecorded(2)])
        file.discard()
        acknowledge('discarded')
      },
      (home, kept) => {
        if (kept === 'discarded') expect(eventsIn(home)).toEqual([])
      },
    )
  })

  it('leaves all of the sessions that are stored together, or none', () => {
    const days = [1, 2, 3].map((number) => ({
      prescription: legs,
      start: started,
      events: [setRecorded(number), finished],
    }))
    crashing<'stored'>(
      (home, acknowledge) => {
        openLogbook(home).createAll(days)
        acknowledge('stored')
      },
      (home, kept) => {
        const found = eventsIn(home)
        if (kept !== 'stored' && found.length === 0) return
        expect(found).toEqual([3, 3, 3])
      },
    )
  })

  it('loses no day that was put among the prescriptions', () => {
    const text = 'Legs\n\nlift\n  front squat 5 x 3 @ 92.5 kg\n'
    crashing<string>(
      (home, acknowledge) => acknowledge(addPrescription(home, 'legs', text).slice(home.length)),
      (home, path) => {
        if (path !== null) expect(readFileSync(join(home, path), 'utf8')).toBe(text)
      },
    )
  })

  it('loses no damaged file that was said to be set aside', () => {
    const damaged = '{"format": 1, "id"'
    crashing<'set aside'>(
      (home, acknowledge) => {
        const { path } = openLogbook(home).create(legs, started)
        const descriptor = openSync(path, 'w')
        writeFileSync(descriptor, damaged)
        fsyncSync(descriptor)
        closeSync(descriptor)
        expect(() => openLogbook(home, restarted).open('newest')).toThrow('It was set aside as')
        acknowledge('set aside')
      },
      (home, kept) => {
        if (kept === null) return
        const folder = join(home, 'sessions', '2026')
        const [aside = ''] = readdirSync(folder).filter((name) => name.endsWith('.damaged-1'))
        expect(readFileSync(join(folder, aside), 'utf8')).toBe(damaged)
      },
    )
  })
})
