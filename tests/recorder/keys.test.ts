import { describe, expect, test } from 'vitest'
import type { RecentPain } from '../../src/progress/pain.ts'
import { keyRows, rowOf } from '../../src/recorder/keys.ts'
import type { OpenKind, RecorderKey } from '../../src/recorder/model.ts'
import { painToday } from '../../src/recorder/modes/notes.ts'
import { type Walked, walkThrough } from '../day.ts'
import { situations, walkedOnce } from './situations.ts'

/* What each key does in each phase. A dash: nothing, with a reason; `text`: the field takes it. */
const table = `
                                              | Space        | Enter        | u          | b     | ↑ ↓     | f    | s     | e    | n    | a    | x    | o    | t    | h       | p     | ?    | q
  before a warm-up                            | begins       | -            | -          | text  | -       | asks | skips | -    | asks | adds | list | list | asks | -       | paces | page | leaves
  a warm-up set                               | ends         | -            | asks       | text  | -       | asks | skips | -    | asks | adds | list | list | asks | holds   | paces | page | leaves
  the rest after a warm-up set                | begins       | -            | asks       | text  | changes | asks | skips | -    | asks | adds | list | list | asks | holds   | paces | page | leaves
  before the first set                        | begins       | asks         | -          | text  | -       | asks | skips | -    | asks | adds | list | list | asks | -       | -     | page | leaves
  a set                                       | ends         | ends+records | asks       | text  | -       | asks | skips | -    | asks | adds | list | list | asks | holds   | -     | page | leaves
  a set just begun                            | forgotten    | asks         | asks       | text  | -       | asks | skips | -    | asks | adds | list | list | asks | holds   | -     | page | leaves
  a group of a cluster set                    | group ends   | asks         | asks       | text  | -       | asks | skips | -    | asks | adds | list | list | asks | holds   | paces | page | leaves
  the last group                              | ends         | ends+records | asks       | text  | -       | asks | skips | -    | asks | adds | list | list | asks | holds   | paces | page | leaves
  a group that is paced                       | ends         | asks         | asks       | text  | -       | asks | skips | -    | asks | adds | list | list | asks | holds   | paces | page | leaves
  the pause in a cluster set                  | group begins | asks         | asks       | text  | changes | asks | skips | -    | asks | adds | list | list | asks | holds   | paces | page | leaves
  the rest with its result open               | begins       | records      | asks       | text  | changes | asks | asks  | -    | asks | adds | list | list | asks | holds   | -     | page | leaves
  the rest with nothing open                  | begins       | asks         | takes back | text  | changes | asks | skips | list | asks | adds | list | list | asks | holds   | -     | page | leaves
  a rest that counts up                       | begins       | asks         | takes back | text  | -       | asks | skips | list | asks | adds | list | list | asks | holds   | -     | page | leaves
  the rest before a set that begins by itself | begins       | asks         | takes back | text  | changes | asks | skips | list | asks | adds | list | list | asks | holds   | -     | page | leaves
  the pause in a round                        | begins       | records      | asks       | text  | changes | asks | asks  | -    | asks | adds | list | list | asks | holds   | -     | page | leaves
  before the first run                        | begins       | -            | -          | text  | -       | asks | skips | -    | asks | adds | -    | list | asks | -       | -     | page | leaves
  a repeat                                    | ends         | -            | asks       | text  | -       | asks | skips | -    | asks | adds | -    | list | asks | holds   | -     | page | leaves
  a split                                     | ends         | -            | asks       | text  | -       | asks | skips | -    | asks | adds | -    | list | asks | holds   | -     | page | leaves
  an interval that ends by itself             | ends         | -            | asks       | text  | -       | asks | skips | -    | asks | adds | -    | list | asks | holds   | -     | page | leaves
  a jog by distance                           | begins       | records      | asks       | text  | -       | asks | asks  | -    | asks | adds | -    | list | asks | holds   | -     | page | leaves
  a jog by time                               | begins       | -            | takes back | text  | changes | asks | skips | list | asks | adds | -    | list | asks | holds   | -     | page | leaves
  before an item of prep                      | begins       | records      | -          | text  | -       | asks | skips | -    | asks | -    | -    | list | asks | -       | -     | page | leaves
  an item of prep                             | ends+records | ends+records | asks       | text  | -       | asks | skips | -    | asks | -    | -    | list | asks | holds   | -     | page | leaves
  before a meal                               | -            | records      | -          | text  | -       | asks | skips | -    | asks | -    | -    | list | asks | -       | -     | page | leaves
  a hold                                      | goes on      | records      | takes back | holds | changes | asks | asks  | -    | asks | adds | list | list | asks | goes on | -     | page | leaves
  everything done                             | -            | -            | takes back | text  | -       | asks | -     | -    | asks | adds | -    | -    | -    | -       | -     | page | leaves
  finished                                    | -            | -            | -          | text  | -       | -    | -     | -    | -    | -    | -    | -    | -    | -       | -     | page | leaves
`

const cells = table
  .trim()
  .split('\n')
  .map((line) => line.split('|').map((cell) => cell.trim()))
const keys = (cells[0] as string[]).slice(1)
const rows = cells.slice(1).map(([name = '', ...effects]) => ({ name, effects }))

const named: Record<string, RecorderKey> = {
  Enter: 'enter',
  '↑': 'up',
  '↓': 'down',
  '→': 'right',
  PageDown: 'pageDown',
  Escape: 'escape',
}

function press(walked: Walked, key: string): Walked {
  const special = named[key]
  return special ? walked.key(special) : walked.typed(key === 'Space' ? ' ' : key)
}

const ofEvents: Record<string, string> = {
  effortBegun: 'begins',
  effortEnded: 'ends',
  startForgotten: 'forgotten',
  groupEnded: 'group ends',
  groupBegun: 'group begins',
  resumed: 'goes on',
  held: 'holds',
  restChanged: 'changes',
  paceSet: 'paces',
  stepSkipped: 'skips',
  stepAdded: 'adds',
  undone: 'takes back',
  setRecorded: 'records',
  pieceRecorded: 'records',
  prepRecorded: 'records',
  fuelRecorded: 'records',
}
const ofModes: Record<string, string> = {
  help: 'page',
  picking: 'list',
  ordering: 'list',
  swapping: 'list',
  question: 'asks',
  timeLeft: 'asks',
  noting: 'asks',
  closing: 'asks',
}

/** What a key did, in the words of the table, without what the clock does at that moment. */
function effectOf(walked: Walked, key: string): string {
  const before = walked.events.length
  press(walked, key)
  if (walked.left) return 'leaves'
  const mode = ofModes[walked.model.mode.kind]
  if (mode) return mode
  const made = walked.events.slice(before).filter((event) => !('auto' in event && event.auto))
  if (made.length > 0) return [...new Set(made.map((event) => ofEvents[event.type] ?? event.type))].join('+')
  return walked.model.draft === '' ? '-' : 'text'
}

test('the table names every key and every phase', () => {
  expect(keys).toEqual(keyRows.map((row) => row.key))
  expect(rows.map((row) => row.name)).toEqual(Object.keys(situations))
  for (const row of rows) expect(row.effects).toHaveLength(keys.length)
})

describe.each(rows)('$name', ({ name, effects }) => {
  const made = situations[name] as () => Walked

  test.each(keys.map((key, index) => ({ key, effect: effects[index] })))(
    '$key: $effect',
    ({ key, effect }) => {
      const pressed = key === '↑ ↓' ? ['↑', '↓'] : key === 'Space' ? ['Space', 'PageDown', '→'] : [key]
      for (const each of pressed) {
        const walked = made()
        const { state } = walked
        expect(effectOf(walked, each), each).toBe(effect)
        if (effect !== '-') continue
        expect(walked.notice, each).toMatch(/^\w.{5,120}$/)
        expect(walked.state).toBe(state)
      }
    },
  )

  test('the footer shows the keys that do something, and the page of keys says why the others do not', () => {
    const walked = made()
    const works = keys.filter((_, index) => effects[index] !== '-' && effects[index] !== 'text')
    expect(walked.view.keys.map(({ key }) => key)).toEqual(works)
    const { model } = walked
    walked.typed('?')
    expect(walked.view.panel?.lines).toEqual(
      keyRows.map((row) => {
        const reason = row.unavailable(model)
        expect(reason === null, row.key).toBe(works.includes(row.key))
        return `${row.key.padEnd(6)} ${row.does}${reason === null ? '' : ` (not now: ${reason})`}`
      }),
    )
  })

  test('a letter without an effect gives the same reason as the page', () => {
    for (const row of keyRows.filter(({ key }) => key.length === 1)) {
      const walked = made()
      const reason = row.unavailable(walked.model)
      if (reason !== null && !row.isText?.(walked.model)) expect(press(walked, row.key).notice).toBe(reason)
    }
  })

  test('Escape changes nothing', () => {
    const walked = made()
    const { state, events } = walked
    press(walked, 'Escape')
    expect([walked.state, walked.events]).toEqual([state, events])
  })

  test('no letter is a command while the field holds something', () => {
    for (const key of keys.filter((each) => each.length === 1)) {
      const walked = made().typed('6')
      const { events } = walked
      walked.typed(`6${key}`)
      expect(walked.model.draft).toBe(`6${key}`)
      expect(walked.events).toBe(events)
    }
  })
})

describe('the page of keys', () => {
  test('every key reads as a line', () => {
    for (const row of keyRows) {
      expect(row.does.length).toBeLessThan(110)
      expect(row.label.length).toBeLessThan(15)
    }
  })

  test('has no row for other letters, which are text', () => {
    expect(rowOf('z')).toBeNull()
    const walked = (situations['a set'] as () => Walked)()
    walked.typed('z')
    expect(walked.model.draft).toBe('z')
  })

  test('describes Space in a word or two', () => {
    const label = (name: string) =>
      (situations[name] as () => Walked)().view.keys.find(({ key }) => key === 'Space')?.label
    expect(label('before the first set')).toBe('begin')
    expect(label('a set')).toBe('done')
    expect(label('a split')).toBe('split')
    expect(label('a jog by distance')).toBe('next')
    expect(label('a hold')).toBe('go on')
  })
})

/* What each key does where a question, a list or another field is open: the mode it leads to; `text` where the field
 * takes it, a dash where it is refused with a short signal and the keys that are wanted. */
const modesTable = `
               | Enter        | Escape       | ↑ ↓         | Space       | q           | ?           | 7
  question     | recording    | recording    | -           | -           | -           | -           | recording
  several      | recording    | recording    | -           | -           | -           | -           | recording
  undoing      | recording    | recording    | -           | -           | -           | -           | recording
  skipping     | recording    | recording    | -           | -           | -           | -           | recording
  closing      | closing      | recording    | stays       | -           | text        | text        | text
  picking      | correcting   | recording    | picks       | -           | -           | -           | -
  correcting   | recording    | recording    | stays       | -           | text        | text        | text
  swapping     | swapping     | recording    | stays       | recording   | text        | text        | recording
  ordering     | ordering     | recording    | picks       | -           | -           | -           | -
  timeLeft     | timeLeft     | recording    | stays       | -           | text        | text        | text
  cutOffered   | recording    | recording    | -           | -           | -           | -           | -
  noting       | recording    | recording    | stays       | -           | text        | text        | text
  placingNote  | recording    | noting       | -           | -           | -           | -           | recording
  painToday    | recording    | recording    | stays       | -           | text        | text        | text
  help         | recording    | recording    | recording   | recording   | recording   | recording   | recording
`

const rest = () => (situations['the rest with its result open'] as () => Walked)()
const pains = [{ place: 'left calf', text: '4 on Tuesday' }] as unknown as RecentPain[]

/** What asks before something is done. */
const questions = ['question', 'several', 'undoing', 'skipping', 'cutOffered', 'placingNote'] as const

/** Each mode, brought about by keys; the compiler asks for the ones that are missing. */
const inMode: Record<OpenKind | (typeof questions)[number], () => Walked> = walkedOnce({
  question: () => rest().entry('5 x 900'),
  several: () => (situations['before the first run'] as () => Walked)().entry('1:50 1:51.5 1:49'),
  undoing: () => rest().typed('u'),
  skipping: () => rest().typed('s'),
  closing: () => rest().typed('f'),
  picking: () => rest().entry('5').entry('5').entry('5').typed('e').key('up'),
  correcting: () => rest().enter().typed('e').enter().typed(''),
  swapping: () => rest().typed('x'),
  ordering: () => walkThrough('Three\n\nrun\n  1 km easy\n  2 km easy\n  3 km easy\n').typed('o').key('down'),
  timeLeft: () => rest().typed('t'),
  cutOffered: () =>
    walkThrough('One\n\nlift\n  row: 8 x 5 @ 50 kg, rest 2:00\n  dip: 3 x 5\n').typed('t').entry('8'),
  noting: () => rest().typed('n'),
  placingNote: () => rest().enter().wait(200).typed('n').entry('tired'),
  painToday: () => {
    const walked = walkThrough('One\n\nrun\n  1 km easy\n')
    walked.model = { ...walked.model, mode: painToday(pains) }
    return walked
  },
  help: () => rest().typed('?'),
})

describe('in a question, a list or another field', () => {
  const [head = [], ...lines] = modesTable
    .trim()
    .split('\n')
    .map((line) => line.split('|').map((cell) => cell.trim()))

  test('the table names every mode', () => {
    expect(lines.map(([mode]) => mode)).toEqual(Object.keys(inMode))
  })

  test.each(
    lines.flatMap(([mode = '', ...cells]) => cells.map((cell, index) => [mode, head[index + 1] ?? '', cell])),
  )('%s, %s: %s', (mode, key, effect) => {
    for (const each of key === '↑ ↓' ? ['↑', '↓'] : [key]) {
      const walked = inMode[mode as keyof typeof inMode]()
      const kind = questions.some((each) => each === mode) ? 'question' : mode
      expect(walked.model.mode.kind).toBe(kind)
      const { model } = walked
      const panel = JSON.stringify(walked.view.panel)
      const rung = walked.rung.length
      if (named[each]) walked.key(named[each])
      else walked.spell(each === 'Space' ? ' ' : each, 0)
      const after = walked.model
      const did =
        after.mode.kind !== kind
          ? after.mode.kind
          : after.draft !== model.draft
            ? 'text'
            : walked.rung.length > rung
              ? '-'
              : JSON.stringify(walked.view.panel) !== panel || after.notice !== model.notice
                ? 'picks'
                : 'stays'
      const isSame = did === effect || (effect === mode && (did === 'picks' || did === 'text'))
      expect(isSame, `${each}: ${did}`).toBe(true)
      if (did === '-') expect(walked.notice, each).toMatch(/^\w.{5,120}$/)
      expect(walked.left).toBe(false)
    }
  })
})
