import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { LogbookError } from '../../src/logbook/errors.ts'
import { type Git, GitFailure, gitEnvironment } from '../../src/logbook/git.ts'
import { isBackedUp, isSynced, originalOf } from '../../src/logbook/logbookFiles.ts'
import { printMornings } from '../../src/logbook/mornings.ts'
import { printSession, readSession } from '../../src/logbook/sessionFile.ts'
import { sealed, zeros } from '../../src/logbook/storedFile.ts'
import { applyToDisk, keepVersion, sweepTrash, writeToTrash } from '../../src/logbook/syncDisk.ts'
import { mergedTree } from '../../src/logbook/syncMerge.ts'
import {
  keepText,
  type Repository,
  refreshUsersIndex,
  refuseForeign,
} from '../../src/logbook/syncRepository.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { finished, legs, setRecorded, started } from './sampleSession.ts'
import { machineWith } from './testMachine.ts'

const session = (...events: SessionEvent[]) =>
  printSession({ format: 1, id: 'abcdef2345', prescription: legs, events: [started, ...events] })
/** A session in a format that this program does not know, with its own checksum. */
const ofNewerProgram = (text: string) =>
  sealed(text.replace('"format": 1', '"format": 2').replace(/[0-9a-f]{64}/, zeros))
const path = 'sessions/2026/2026-11-26-abcdef2345.json'

/** Trees of texts, each kept in the object that git would give it. */
function merge(before: Record<string, string>, own: Record<string, string>, other: Record<string, string>) {
  const repository = { texts: new Map<string, Buffer>() } as unknown as Repository
  const tree = (files: Record<string, string>) =>
    new Map(Object.entries(files).map(([path, text]) => [path, keepText(repository, text)]))
  const { tree: merged, ...rest } = mergedTree(repository, tree(before), tree(own), tree(other))
  const textOf = (object: string) => repository.texts.get(object)?.toString('utf8') ?? ''
  return { files: Object.fromEntries([...merged].map(([path, object]) => [path, textOf(object)])), ...rest }
}

describe('two merged states of a logbook', () => {
  it('have what either side has added, and not what either has deleted', () => {
    const { files, keptTwice } = merge(
      { 'prescriptions/a.txt': '1', 'prescriptions/b.txt': '1', 'prescriptions/c.txt': '1' },
      { 'prescriptions/a.txt': '1', 'prescriptions/c.txt': '1', 'prescriptions/mine.txt': '1' },
      { 'prescriptions/b.txt': '1', 'prescriptions/c.txt': '2', 'prescriptions/theirs.txt': '1' },
    )
    expect(files).toEqual({
      'prescriptions/c.txt': '2',
      'prescriptions/mine.txt': '1',
      'prescriptions/theirs.txt': '1',
    })
    expect(keptTwice).toEqual([])
  })

  it('keep what one side deleted and the other changed', () => {
    const before = { 'prescriptions/a.txt': '1', 'prescriptions/b.txt': '1' }
    expect(merge(before, { 'prescriptions/a.txt': '2' }, { 'prescriptions/b.txt': '2' }).files).toEqual({
      'prescriptions/a.txt': '2',
      'prescriptions/b.txt': '2',
    })
  })

  it('have the longer of two versions of a session if it continues the other', () => {
    const [short, long] = [session(setRecorded(1)), session(setRecorded(1), setRecorded(2), finished)]
    for (const [own, other] of [
      [short, long],
      [long, short],
    ] as const) {
      const { files, keptTwice } = merge({ [path]: session() }, { [path]: own }, { [path]: other })
      expect(files).toEqual({ [path]: long })
      expect(keptTwice).toEqual([])
    }
  })

  it('have both complete versions of a session that two machines changed, and report them', () => {
    const [mine, theirs] = [session(setRecorded(1, 5)), session(setRecorded(1, 2))]
    const { files, keptTwice } = merge({ [path]: session() }, { [path]: mine }, { [path]: theirs })
    const [copy] = keptTwice
    expect(keptTwice).toHaveLength(1)
    expect(copy?.path).toBe(path)
    expect(Object.keys(files).sort()).toEqual([path, copy?.own ?? ''].sort())
    expect(files[path]).toBe(theirs)
    const id = /2026-11-26-(.+)\.json/.exec(copy?.own ?? '')?.[1] ?? ''
    const reading = readSession(files[copy?.own ?? ''] ?? '', id)
    const { checksum: _, ...content } = JSON.parse(mine)
    expect(reading).toEqual({ value: { ...content, id }, isSealed: true })
    expect(originalOf(copy?.own ?? '')).toBe(path)
  })

  it('give the copy the same name when an interrupted run is repeated', () => {
    const [mine, theirs] = [session(setRecorded(1, 5)), session(setRecorded(1, 2))]
    const first = merge({ [path]: session() }, { [path]: mine }, { [path]: theirs })
    const own = first.keptTwice[0]?.own ?? ''
    const again = merge(
      { [path]: session() },
      { [path]: mine, [own]: first.files[own] ?? '' },
      { [path]: theirs },
    )
    expect(again).toEqual(first)
  })

  it('have both versions of a prescription, the own one under a free name', () => {
    const { files, keptTwice } = merge(
      { 'prescriptions/a.txt': '1', 'prescriptions/a-2.txt': 'x' },
      { 'prescriptions/a.txt': 'mine', 'prescriptions/a-2.txt': 'x' },
      { 'prescriptions/a.txt': 'theirs', 'prescriptions/a-2.txt': 'x' },
    )
    expect(keptTwice).toEqual([{ path: 'prescriptions/a.txt', own: 'prescriptions/a-version-2.txt' }])
    expect(files).toEqual({
      'prescriptions/a.txt': 'theirs',
      'prescriptions/a-2.txt': 'x',
      'prescriptions/a-version-2.txt': 'mine',
    })
  })

  it('have a third version of a text beside the other two where each machine changed the second', () => {
    const changed = (second: string) => ({ 'plan.txt': 'one', 'plan-2.txt': second })
    const { files, keptTwice } = merge(changed('two'), changed('mine'), changed('theirs'))
    expect(files).toEqual({ ...changed('theirs'), 'plan-3.txt': 'mine' })
    expect(keptTwice).toEqual([{ path: 'plan-2.txt', own: 'plan-3.txt' }])
  })

  it('have the kept version of a text that the other machine has changed since, under the name that keeping it freed', () => {
    // `sync --keep plan-2` has made the second version the plan.
    const before = { 'plan.txt': 'one', 'plan-2.txt': 'two' }
    const { files, keptTwice } = merge(
      before,
      { 'plan.txt': 'two' },
      { 'plan.txt': 'three', 'plan-2.txt': 'two' },
    )
    expect(files).toEqual({ 'plan.txt': 'three', 'plan-2.txt': 'two' })
    expect(keptTwice).toEqual([{ path: 'plan.txt', own: 'plan-2.txt' }])
  })

  it('have the versions of a session that either side kept if the other one deleted them', () => {
    const version = path.replace('.json', '-0a1b2c.json')
    const [one, two] = [session(setRecorded(1)), session(setRecorded(2))]
    const both = { [path]: one, [version]: two }
    for (const [own, other] of [
      [path, version],
      [version, path],
    ] as const) {
      const { files, keptTwice } = merge(both, { [own]: both[own] ?? '' }, { [other]: both[other] ?? '' })
      expect(files).toEqual(both)
      expect(keptTwice).toEqual([{ path: other, own }])
    }
    const kept = { [path]: one }
    expect(merge(both, kept, kept).files).toEqual(kept)
    expect(merge(both, kept, both).files).toEqual(kept)
    expect(merge(kept, {}, kept).files).toEqual({})
  })

  it('never replace a session with a file that is not a session', () => {
    const good = session(setRecorded(1))
    expect(merge({ [path]: session() }, { [path]: '{' }, { [path]: good }).files).toEqual({ [path]: good })
    expect(merge({ [path]: session() }, { [path]: good }, { [path]: '{' }).files).toEqual({ [path]: good })
    expect(merge({ [path]: good }, { [path]: good }, { [path]: '{' }).files).toEqual({ [path]: good })
  })

  it('have what one side lost of a session without having changed it by hand', () => {
    const [short, long] = [session(setRecorded(1)), session(setRecorded(1), finished)]
    expect(merge({ [path]: long }, { [path]: long }, { [path]: short }).files).toEqual({ [path]: long })
  })

  it('have a session as the other machine has changed it, and name it if something that was recorded is gone', () => {
    const [long, other] = [session(setRecorded(1), finished), session(setRecorded(2))]
    const byHand = session(setRecorded(1)).replace(/"checksum": .*\n/, '')
    for (const there of [other, byHand]) {
      const { files, rewritten } = merge({ [path]: long }, { [path]: long }, { [path]: there })
      expect([files, rewritten]).toEqual([{ [path]: there }, [path]])
    }
    const longer = session(setRecorded(1), finished, setRecorded(2))
    expect(merge({ [path]: long }, { [path]: long }, { [path]: longer }).rewritten).toEqual([])
  })
})

describe('two merged states of a year of mornings', () => {
  const year = 'mornings/2026.json'
  const morning = (day: number) => {
    const date = `2026-11-${day}`
    return printMornings([
      { type: 'typed', at: `${date}T07:00:00+01:00`, date, values: { restingHeartRate: day + 30 } },
    ])
  }
  const [first, mine, theirs] = [morning(10), morning(11), morning(12)]

  it.each([
    ['breaks off', '{"format": 1'],
    ['has no mornings', '{"format": 1, "events": 7}'],
    ['is of an unknown kind', '[]'],
  ])('have the one that can be read where the other %s, and name the file', (_, wrong) => {
    const kept = { files: { [year]: mine }, keptTwice: [], mornings: [], rewritten: [] }
    const merged = (...states: Parameters<typeof merge>) => {
      const { damages, ...rest } = merge(...states)
      expect(damages.map(({ file }) => file)).toEqual([year])
      return rest
    }
    expect(merged({ [year]: first }, { [year]: mine }, { [year]: wrong })).toEqual(kept)
    expect(merged({ [year]: first }, { [year]: wrong }, { [year]: mine })).toEqual(kept)
    expect(merged({}, { [year]: mine }, { [year]: wrong })).toEqual(kept)
  })

  it('have every morning where the other machine has lost some, and has typed another one', () => {
    const events = [first, mine, theirs].map((text) => JSON.parse(text).events[0])
    const [here, there] = [printMornings(events.slice(0, 2)), printMornings([events[0], events[2]])]
    const { files } = merge({ [year]: here }, { [year]: here }, { [year]: there })
    expect(files).toEqual({ [year]: printMornings(events) })
    const byHand = there.replace(/"checksum": .*\n/, '')
    expect(merge({ [year]: here }, { [year]: here }, { [year]: byHand }).files).toEqual({ [year]: byHand })
  })

  it('have every morning where an undoing of nothing is among those of one machine', () => {
    const events = [first, mine].map((text) => JSON.parse(text).events[0])
    const undone = { type: 'undone', at: '2026-11-09T07:00:00+01:00', date: '2026-11-09' } as const
    const [here, there] = [printMornings(events), printMornings([undone, events[0]])]
    for (const [own, other] of [
      [here, there],
      [there, here],
    ] as const)
      expect(merge({ [year]: first }, { [year]: own }, { [year]: other }).files).toEqual({ [year]: here })
  })

  it('have the one here if only the other machine has changed its own, and ruined it', () => {
    const { files, damages } = merge({ [year]: first }, { [year]: first }, { [year]: '{' })
    const wrong = 'In the remote the file breaks off before its end.'
    expect([files, damages]).toEqual([{ [year]: first }, [{ file: year, wrong, done: 'It was left out.' }]])
  })

  it.each([
    [year, first, mine],
    [path, session(), session(setRecorded(1))],
  ])('are refused if that of %s is for a newer program, which alone can merge it', (file, first, mine) => {
    const newer = ofNewerProgram(mine)
    for (const [own, other] of [
      [mine, newer],
      [newer, mine],
    ] as const)
      expect(() => merge({ [file]: first }, { [file]: own }, { [file]: other })).toThrow(
        new LogbookError(
          'cannot_sync',
          `Two machines have changed ${file}, and one of the two files has format 2, written by a newer program; this one reads format 1. Update Pausebook on this machine and sync again. No file was changed.`,
        ),
      )
    expect(merge({ [file]: first }, { [file]: first }, { [file]: newer }).files).toEqual({ [file]: newer })
  })
})

describe('any two merged states of a logbook', () => {
  const longest = `sessions/2026/2026-11-26-${'x'.repeat(40)}.json`
  const wrongs = ['', '{', '{"format": 1}', ofNewerProgram(session())]
  const event = { type: 'typed', at: '2026-11-26T07:00:00+01:00', date: '2026-11-26' } as const
  const textsOf: Record<string, string[]> = {
    [path]: [...wrongs, session(setRecorded(1)), session(setRecorded(2))],
    [longest]: [...wrongs, session(setRecorded(1)), session(setRecorded(2))],
    'mornings/2026.json': [
      ...wrongs,
      ...[48, 52].map((restingHeartRate) => printMornings([{ ...event, values: { restingHeartRate } }])),
    ],
    'prescriptions/2026-11-26.txt': ['', 'Push', 'Pull'],
    'prescriptions/legs-2.json': ['', '{}', '[]'],
    'plan.txt': ['', 'one', 'two'],
    'plan-2.txt': ['', 'one', 'two'],
    'foods.txt': ['', 'one', 'two'],
    'foods-10-3.txt': ['', 'one', 'two'],
  }

  it.each(Object.keys(textsOf))(
    'have no file that the next sync would refuse, and lose %s nowhere in silence',
    (file) => {
      const states: Record<string, string>[] = [
        {},
        ...(textsOf[file] ?? []).map((text) => ({ [file]: text })),
      ]
      let merges = 0
      for (const before of states)
        for (const own of states)
          for (const other of states) {
            const merged = mergedOrRefused(before, own, other)
            if (merged === null) continue
            merges += 1
            for (const path of Object.keys(merged.files))
              expect([isSynced(path), isBackedUp(path)], path).toEqual([true, true])
            const sides = [own, other].flatMap((each) => each[file] ?? [])
            const isOld = sides.length < 2 || sides.some((text) => text === before[file])
            if (isOld || merged.damages.some((damage) => damage.file === file)) continue
            for (const side of sides)
              expect(Object.values(merged.files).some((text) => holds(text, side))).toBe(true)
          }
      expect(merges).toBeGreaterThan(states.length ** 2)
    },
  )

  /** Whether a text is another one, or has all its events. */
  function holds(text: string, other: string): boolean {
    const events = other.split('\n').flatMap((line) => /^\{.*\}/.exec(line) ?? [])
    return text === other || (events.length > 0 && events.every((event) => text.includes(event)))
  }

  /** Null only for a file of a newer program. */
  function mergedOrRefused(...states: Parameters<typeof merge>): ReturnType<typeof merge> | null {
    try {
      return merge(...states)
    } catch (error) {
      expect(error).toMatchObject({ code: 'cannot_sync' })
      expect(JSON.stringify(states)).toMatch(/"format\\": 2/)
      return null
    }
  }
})

describe('the selection of synchronised files', () => {
  it.each([
    ['sessions/2026/2026-11-26-abcdef2345.json', true],
    ['sessions/2026/2026-02-29-abcdef2345.json', false],
    ['sessions/202/2026-11-26-abcdef2345.json', false],
    ['sessions/2026-11-26-abcdef2345.json', false],
    ['prescriptions/push day.txt', true],
    ['prescriptions/day.json', true],
    ['settings.json', false],
    ['index.ndjson', false],
    ['sessions/2026/2026-11-26-abcdef2345.json.lock', false],
    ['sessions/2026/2026-11-26-abcdef2345.json.bak', false],
    ['sessions/2026/2026-11-26-abcdef2345.json.damaged-1', false],
    ['sessions/2026/2026-11-26-abcdef2345.json.123.abcdefgh.tmp', false],
    ['sessions/../../2026-11-26-abcdef2345.json', false],
    ['prescriptions/../settings.txt', false],
    ['prescriptions/.hidden.txt', false],
    ['prescriptions/a\n.txt', false],
    ['README.md', false],
    ['mornings/2026.json', true],
    ['mornings/20261.json', false],
    ['plan.txt', true],
    ['foods-2.txt', true],
    ['plan-x.txt', false],
    ['plan-2-2.txt', true],
    ['plan-.txt', false],
    ['xplan.txt', false],
    ['prescriptions/a.json.txt', true],
    ['prescriptions/a.md', false],
    ['prescriptions/a/b.txt', false],
    ['prescriptions/a:b.txt', false],
    ['prescriptions/a\\b.txt', false],
    ['prescriptions/what?.txt', false],
    ['prescriptions/NUL.txt', false],
    ['prescriptions/com1.txt', false],
    ['prescriptions/comb.txt', true],
    ['prescriptions/a .txt', false],
    ['prescriptions/a..json', false],
    ['prescriptions/nul day.txt', true],
  ])('%s: %s', (name, isKept) => {
    expect(isSynced(name)).toBe(isKept)
    if (isKept) expect(isBackedUp(name)).toBe(true)
  })
})

/** Brings a logbook with these files from one state to another. */
function brought(files: Record<string, string>, from: Record<string, string>, to: Record<string, string>) {
  const home = temporaryFolder()
  const write = (file: string, text: string) => {
    mkdirSync(dirname(join(home, file)), { recursive: true })
    writeFileSync(join(home, file), text)
  }
  for (const [file, text] of Object.entries(files)) write(file, text)
  const repository = {
    home,
    machine: machineWith({ now: () => new Date('2026-11-26T12:00:00Z') }),
    texts: new Map(),
    sizes: new Map(),
  } as unknown as Repository
  const treeOf = (texts: Record<string, string>) =>
    new Map(Object.entries(texts).map(([file, text]) => [file, keepText(repository, text)]))
  return {
    isDone: applyToDisk(repository, treeOf(from), treeOf(to)),
    textOf: (file: string) => (existsSync(join(home, file)) ? readFileSync(join(home, file), 'utf8') : null),
    namesIn: (folder: string) => readdirSync(join(home, folder)).sort(),
  }
}

describe('a merged state on its way to the disk', () => {
  const [one, two] = [session(setRecorded(1)), session(setRecorded(2))]

  it('adds and changes files, and moves those that were deleted to the trash of that day', () => {
    const before = { 'plan.txt': 'old', 'prescriptions/gone.txt': 'gone', [path]: one }
    const { isDone, textOf } = brought(before, before, {
      'plan.txt': 'new',
      [path]: two,
      'prescriptions/more.txt': 'more',
    })
    expect(isDone).toBe(true)
    expect([textOf('plan.txt'), textOf('prescriptions/more.txt'), textOf(path)]).toEqual(['new', 'more', two])
    expect([textOf('prescriptions/gone.txt'), textOf('trash/2026-11-26/gone.txt')]).toEqual([null, 'gone'])
    // Only sessions and mornings keep their previous text.
    expect([textOf(`${path}.bak`), textOf('plan.txt.bak')]).toEqual([one, null])
  })

  it('deletes the copy of a deleted session, which alone would count as the session', () => {
    const { textOf } = brought({ [path]: one, [`${path}.bak`]: one }, { [path]: one }, {})
    expect([textOf(path), textOf(`${path}.bak`)]).toEqual([null, null])
    expect(textOf('trash/2026-11-26/2026-11-26-abcdef2345.json')).toBe(one)
  })

  it('stops at a file that was changed meanwhile and leaves it, with new files already there', () => {
    const { isDone, textOf } = brought(
      { 'foods.txt': 'changed by hand' },
      { 'foods.txt': 'old' },
      { 'foods.txt': 'new', 'prescriptions/more.txt': 'more' },
    )
    expect(isDone).toBe(false)
    expect([textOf('foods.txt'), textOf('prescriptions/more.txt')]).toEqual(['changed by hand', 'more'])
  })

  it('goes on past a file that is already as it should become, and one that is gone already', () => {
    const { isDone, textOf } = brought(
      { 'foods.txt': 'new' },
      { 'foods.txt': 'old', 'plan.txt': 'old', 'prescriptions/a.txt': 'old' },
      { 'foods.txt': 'new', 'plan.txt': 'new' },
    )
    expect(isDone).toBe(true)
    expect([textOf('foods.txt'), textOf('plan.txt')]).toEqual(['new', 'new'])
    expect(textOf('trash/2026-11-26/a.txt')).toBeNull()
  })

  it('sets a damaged session aside and puts the good one in its place, but takes other texts as they are', () => {
    const { isDone, textOf, namesIn } = brought({ [path]: '{' }, { [path]: one }, { [path]: two })
    expect(isDone).toBe(true)
    expect([textOf(path), textOf(`${path}.damaged-1`)]).toEqual([two, '{'])
    expect(namesIn(dirname(path)).filter((name) => name.endsWith('.lock'))).toEqual([])
    const deleted = brought({ [path]: '{' }, { [path]: one }, {})
    const inTrash = `trash/2026-11-26/${basename(path)}`
    expect([deleted.isDone, deleted.textOf(path), deleted.textOf(inTrash)]).toEqual([true, null, '{'])
    const copied = brought({ [`${path}.bak`]: one }, { [path]: one }, {})
    expect([copied.isDone, copied.namesIn(dirname(path)), copied.textOf(inTrash)]).toEqual([true, [], one])
    expect(brought({ 'plan.txt': '{' }, { 'plan.txt': 'old' }, { 'plan.txt': 'new' }).isDone).toBe(false)
  })
})

describe('a year of mornings on its way to the disk', () => {
  const year = 'mornings/2026.json'
  const [newer, newest] = ['{"format": 2}', '{"format": 3}']

  it('is left as it is while another process saves a morning', () => {
    const [one, two] = [printMornings([]), printMornings([{ type: 'undone', at: '', date: '2026-11-26' }])]
    const owner = { pid: 7, host: 'laptop', boot: null, began: null, at: '2026-11-26T06:40', name: 'lock' }
    const files = { [year]: one, [`${year}.lock`]: JSON.stringify(owner) }
    expect(() => brought(files, { [year]: one }, { [year]: two })).toThrow(
      'The file mornings/2026.json is in use by process 7 on laptop',
    )
  })

  it('keeps its previous text', () => {
    const [one, two] = [printMornings([]), printMornings([{ type: 'undone', at: '', date: '2026-11-26' }])]
    const { textOf } = brought({ [year]: one }, { [year]: one }, { [year]: two })
    expect([textOf(year), textOf(`${year}.bak`)]).toEqual([two, one])
  })

  it.each([
    ['is ruined', '{', '{', true],
    ['is of a newer program, which the last commit holds', newer, newer, false],
    ['is of a newer program, which no commit holds', newer, '{"format": 1}', true],
  ])('sets the file aside that it replaces if it %s', (_, there, committed, isAside) => {
    const { isDone, textOf } = brought({ [year]: there }, { [year]: committed }, { [year]: newest })
    expect([isDone, textOf(year)]).toEqual([true, newest])
    expect(textOf(`${year}.damaged-1`)).toBe(isAside ? there : null)
  })
})

describe('what git says', () => {
  const lockIn = (said: string) => new GitFailure('commit', said).lock
  const reason = (...lines: string[]) => new GitFailure('push', lines.join(' | ')).reason

  it('gives as the reason what failed in the remote, else what it rejected, else what is fatal, else its last line', () => {
    expect(
      reason(
        'remote: error: insufficient permission for adding an object',
        'error: remote unpack failed',
        ' ! [remote rejected] main -> main (unpacker error)',
      ),
    ).toBe('insufficient permission for adding an object')
    expect(
      reason(
        'error: remote unpack failed: unable to create temporary object directory',
        ' ! [remote rejected] main -> main (unpacker error)',
      ),
    ).toBe('remote unpack failed: unable to create temporary object directory')
    expect(
      reason('To /logbook.git', ' ! [remote rejected] main -> main (hook declined)', 'error: failed.'),
    ).toBe('! [remote rejected] main -> main (hook declined)')
    expect(
      reason(
        "fatal: detected dubious ownership in repository at '/stick/book.git'",
        'To add an exception for this directory, call:',
        '\tgit config --global --add safe.directory /stick/book.git',
      ),
    ).toBe(
      "detected dubious ownership in repository at '/stick/book.git' (to allow it: git config --global --add safe.directory /stick/book.git)",
    )
    expect(reason('warning: old', 'fatal: no such remote.', 'hint: none')).toBe('no such remote')
    expect(reason('ssh: no route', 'fatal: cannot read')).toBe('ssh: no route')
    expect(reason('one', 'error: two.', '')).toBe('two')
    expect(reason('not fatal: one', 'two', ' ')).toBe('two')
    expect(reason('')).toBe('git says nothing')
  })

  it('names the lock that it could not take', () => {
    expect(lockIn("fatal: Unable to create '/book/.git/index.lock': File exists. | Another git")).toBe(
      '/book/.git/index.lock',
    )
    expect(lockIn("fatal: Unable to create '/book/.git/index': File exists.")).toBeNull()
    expect(lockIn("fatal: Unable to create '/book/.git/index.lock': Permission denied")).toBeNull()
  })

  it('is asked for in English, without hooks and settings of an environment, but with how to reach a remote', () => {
    const env = {
      HOME: '/home/athlete',
      NOTHING: undefined,
      GIT_DIR: '/elsewhere',
      git_index_file: 'x',
      MY_GIT_DIR: 'mine',
      GIT_SSH_COMMAND: 'ssh -4',
      GIT_SSL_NO_VERIFY: '0',
      GIT_SSHX: 'x',
      LC_ALL: 'de_DE',
    }
    const kept = {
      HOME: '/home/athlete',
      MY_GIT_DIR: 'mine',
      GIT_SSH_COMMAND: 'ssh -4',
      GIT_SSL_NO_VERIFY: '0',
      LC_ALL: 'C',
      GIT_MERGE_AUTOEDIT: 'no',
    }
    expect(gitEnvironment(env, true)).toEqual(kept)
    expect(gitEnvironment(env, false)).toEqual({ ...kept, GIT_TERMINAL_PROMPT: '0' })
  })
})

describe('a repository with files of no logbook', () => {
  it('is refused, and the first three of them are named', () => {
    expect(() => refuseForeign([], 'The remote')).not.toThrow()
    const named =
      (...files: string[]) =>
      () =>
        refuseForeign(files, 'The remote')
    const advice = 'Use a separate repository for the logbook; nothing was changed.'
    expect(named('a', 'b', 'c')).toThrow(
      new LogbookError(
        'not_a_logbook',
        `The remote holds files that do not belong to a logbook: a, b, c. ${advice}`,
      ),
    )
    expect(named('a\u0007', 'b', 'c', 'd', 'e')).toThrow(`: a\uFFFD, b, c and 2 more. ${advice}`)
  })
})

describe('the trash of a logbook', () => {
  const machine = machineWith({ now: () => new Date('2026-11-26T12:00:00+01:00') })

  it('keeps what was deleted for 90 days, and what no sync has put there', () => {
    const home = temporaryFolder()
    sweepTrash(home, machine)
    const days = [
      '2025-11-26',
      '2026-08-27',
      '2026-08-28',
      '2026-11-26',
      'x2025-11-26',
      '2025-11-26x',
      'mine',
    ]
    for (const day of days) {
      mkdirSync(join(home, 'trash', day), { recursive: true })
      writeFileSync(join(home, 'trash', day, 'a.json'), '')
    }
    // A folder of the user's in a day's, and a file that is named as a day.
    mkdirSync(join(home, 'trash', '2026-08-26', 'mine'), { recursive: true })
    writeFileSync(join(home, 'trash', '2026-08-26', 'a.json'), '')
    writeFileSync(join(home, 'trash', '2026-08-25'), '')
    sweepTrash(home, machine)
    const left = [...days.slice(2), '2026-08-25', '2026-08-26']
    expect(readdirSync(join(home, 'trash')).sort()).toEqual(left.toSorted())
    expect(readdirSync(join(home, 'trash', '2026-08-26'))).toEqual(['mine'])
    const other = temporaryFolder()
    writeFileSync(join(other, 'trash'), 'a file of the user')
    sweepTrash(other, machine)
    expect(readFileSync(join(other, 'trash'), 'utf8')).toBe('a file of the user')
  })

  it('never replaces a file of the same name and day', () => {
    const home = temporaryFolder()
    for (const text of ['one', 'two', 'three']) writeToTrash(home, 'a.json', text, machine)
    const folder = join(home, 'trash', '2026-11-26')
    expect(readdirSync(folder).sort()).toEqual(['a.json', 'a.json.2', 'a.json.3'])
    expect(readFileSync(join(folder, 'a.json.3'), 'utf8')).toBe('three')
  })

  it('gets every version of a session but the one that is kept', () => {
    const home = temporaryFolder()
    const folder = join(home, 'sessions', '2026')
    mkdirSync(folder, { recursive: true })
    const textOf = (id: string) =>
      session()
        .replace('abcdef2345', id)
        .replace(/"checksum": .*\n/, '')
    const add = (id: string) => writeFileSync(join(folder, `2026-11-26-${id}.json`), textOf(id))
    const [base, one, two] = ['abcdef2345', 'abcdef2345-0a1b2c', 'abcdef2345-3d4e5f']
    for (const id of [base, one, two, 'abcdef9999']) add(id)
    writeFileSync(join(folder, `2026-11-26-${base}.json.bak`), '')
    const none = (id: string) => () => keepVersion(home, id, machine)
    for (const id of ['abcdef9999', 'abcdef2345-ffffff', 'nothing'])
      expect(none(id), id).toThrow(LogbookError)
    expect(none('abcdef9999')).toThrow('There is no other version of "abcdef9999".')
    expect(keepVersion(home, one, machine).sort()).toEqual([base, two])
    expect(readdirSync(folder).sort()).toEqual([`2026-11-26-${one}.json`, '2026-11-26-abcdef9999.json'])
    expect(readdirSync(join(home, 'trash', '2026-11-26')).sort()).toEqual(
      [two, base].map((id) => `2026-11-26-${id}.json`),
    )
    expect(none(one)).toThrow('There is no other version')
    add(two)
    writeFileSync(join(folder, `2026-11-26-${one}.json`), '{')
    expect(none(one)).toThrow(
      `sessions/2026/2026-11-26-${one}.json is not kept, since it cannot be read: The file breaks off before its end`,
    )
    expect(existsSync(join(folder, `2026-11-26-${two}.json`))).toBe(true)
  })
})

describe('a text of which two machines have kept versions', () => {
  const machine = machineWith({ now: () => new Date('2026-11-26T12:00:00+01:00') })
  const book = (files: Record<string, string>) => {
    const home = temporaryFolder()
    mkdirSync(join(home, 'prescriptions'))
    for (const [file, text] of Object.entries(files)) writeFileSync(join(home, file), text)
    const textsIn = (folder: string) =>
      Object.fromEntries(
        readdirSync(join(home, folder), { withFileTypes: true })
          .filter((each) => each.isFile())
          .map(({ name }) => [name, readFileSync(join(home, folder, name), 'utf8')]),
      )
    return { home, textsIn }
  }

  it.each(['plan-2', 'plan-2.txt'])('has the one named %s under its first name afterwards', (name) => {
    const { home, textsIn } = book({ 'plan.txt': 'one', 'plan-2.txt': 'two', 'foods.txt': 'mine' })
    expect(keepVersion(home, name, machine)).toEqual(['plan'])
    expect(textsIn('.')).toEqual({ 'plan.txt': 'two', 'foods.txt': 'mine' })
    expect(textsIn('trash/2026-11-26')).toEqual({ 'plan.txt': 'one' })
  })

  it('has the first one alone if that is kept', () => {
    const { home, textsIn } = book({ 'plan.txt': 'one', 'plan-2.txt': 'two', 'plan-3.txt': 'three' })
    expect(keepVersion(home, 'plan', machine).sort()).toEqual(['plan-2', 'plan-3'])
    expect(textsIn('.')).toEqual({ 'plan.txt': 'one' })
    expect(textsIn('trash/2026-11-26')).toEqual({ 'plan-2.txt': 'two', 'plan-3.txt': 'three' })
  })

  it('counts a version of a version as one of the first text', () => {
    const { home, textsIn } = book({ 'plan.txt': 'one', 'plan-2.txt': 'two', 'plan-2-2.txt': 'three' })
    expect(keepVersion(home, 'plan-2-2', machine).sort()).toEqual(['plan', 'plan-2'])
    expect(textsIn('.')).toEqual({ 'plan.txt': 'three' })
  })

  it('is not the plan of another season', () => {
    const plans = ['plan.txt', 'plan-2.txt', 'plan-2025.txt', 'plan-2025-2.txt']
    const { home, textsIn } = book(Object.fromEntries(plans.map((name) => [name, name])))
    expect(keepVersion(home, 'plan', machine)).toEqual(['plan-2'])
    expect(keepVersion(home, 'plan-2025-2', machine)).toEqual(['plan-2025'])
    expect(textsIn('.')).toEqual({ 'plan.txt': 'plan.txt', 'plan-2025.txt': 'plan-2025-2.txt' })
  })

  it('is also a prepared day, but no other day, even one that the athlete named with a number', () => {
    const days = ['2026-11.txt', '2026-11-26.txt', 'push.txt', 'push-2.txt', 'push-version-2.txt']
    const { home, textsIn } = book(Object.fromEntries(days.map((name) => [`prescriptions/${name}`, name])))
    expect(() => keepVersion(home, 'push-2', machine)).toThrow('There is no other version')
    expect(keepVersion(home, 'push-version-2', machine)).toEqual(['push'])
    expect(() => keepVersion(home, '2026-11-26', machine)).toThrow(LogbookError)
    expect(() => keepVersion(home, 'push', machine)).toThrow('There is no other version')
    expect(textsIn('prescriptions')).toEqual({
      '2026-11.txt': '2026-11.txt',
      '2026-11-26.txt': '2026-11-26.txt',
      'push.txt': 'push-version-2.txt',
      'push-2.txt': 'push-2.txt',
    })
  })
})

it("leaves the index of the user's git as it is where it cannot be replaced, and writes it at the next sync", () => {
  const home = temporaryFolder()
  const index = join(home, 'index')
  mkdirSync(join(index, 'in the way'), { recursive: true })
  const git = {
    path: (name: string) => join(home, name),
    attempt: (_words: readonly string[], made = '') => {
      writeFileSync(made, 'of the newest commit')
      return ''
    },
  } as unknown as Git
  const repository = { git, head: 'a'.repeat(40) } as unknown as Repository
  refreshUsersIndex(repository)
  expect(readdirSync(index)).toEqual(['in the way'])
  rmSync(index, { recursive: true })
  refreshUsersIndex(repository)
  expect(readFileSync(index, 'utf8')).toBe('of the newest commit')
})
