import { describe, expect, it } from 'vitest'
import { LogbookError } from '../../src/logbook/errors.ts'
import { isBackedUp, isSynced, originalOf } from '../../src/logbook/logbookFiles.ts'
import { printMornings } from '../../src/logbook/mornings.ts'
import { printSession, readSession } from '../../src/logbook/sessionFile.ts'
import { sealed, zeros } from '../../src/logbook/storedFile.ts'
import { mergedTree } from '../../src/logbook/syncMerge.ts'
import { keepText, type Repository, refuseForeign } from '../../src/logbook/syncRepository.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { finished, sampleSession, setRecorded, unsealed } from './sampleSession.ts'

const session = (...events: SessionEvent[]) => printSession(sampleSession(...events))
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
    const byHand = unsealed(session(setRecorded(1)))
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
    const byHand = unsealed(there)
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
