import type { ReactNode } from 'react'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { knownOn } from '../../src/app/known.ts'
import { showSubject, showSummary } from '../../src/app/lookBack.ts'
import { showDecisions } from '../../src/app/nextDay.ts'
import { ScreenOf } from '../../src/app/openApp.tsx'
import { listOf, type Screens } from '../../src/app/screens.ts'
import { defaultSettings } from '../../src/logbook/settings.ts'
import { AskScreen } from '../../src/ui/screens/AskScreen.tsx'
import { DayEditor } from '../../src/ui/screens/DayEditor.tsx'
import { type ListContent, ListScreen } from '../../src/ui/screens/ListScreen.tsx'
import { TextScreen } from '../../src/ui/screens/TextScreen.tsx'
import type { Key } from '../../src/ui/widgets/keys.ts'
import { keysKey, pickKey, type ScreenKey, signalKey } from '../../src/ui/widgets/screenKeys.ts'
import { walkedThursday } from '../walkedDay.ts'
import { type Drawn, drawn, Showing } from './frame.tsx'

let open: Drawn | null = null
afterEach(() => open?.unmount())

test('a line that is wider than the screen continues on the next', () => {
  const note = 'A day\n\nrun\n  mean 4:07.0, 4:07/km, spread 4.0 s, 5 of 5 in 4:05-4:10\n'
  const screen = <TextScreen text={() => note} keys={[]} leave={{ label: 'back', act: () => {} }} />
  expect(after(screen).slice(0, 5)).toEqual([
    'A day',
    '',
    'run',
    '  mean 4:07.0, 4:07/km, spread 4.0 s, 5',
    '    of 5 in 4:05-4:10',
  ])
})

/** The summary of a session. */
function summary(copy: (text: string) => void = () => {}) {
  const logbook = {
    directory: '/nowhere',
    index: () => [],
    prescriptions: () => [],
    read: () => ({ session: walkedThursday(), entry: { date: '2026-11-26' } }),
  }
  const screens = {
    logbook,
    known: () => knownOn(logbook as unknown as Screens['logbook'], defaultSettings, '2026-11-26'),
    terminal: { copy },
  }
  return (
    <Showing first={(show) => showSummary('', { ...screens, show, leave: () => {} } as unknown as Screens)} />
  )
}

test('what was copied is reported in as many lines as there are, without its second half if there are few', () => {
  const copied: string[] = []
  expect(
    after(
      summary((text) => copied.push(text)),
      'c',
    ).slice(-3, -1),
  ).toEqual(['copied to the clipboard, where the', 'terminal allows it'])
  expect(copied).toHaveLength(1)
})

test('a summary shows all figures, and fewer again', () => {
  expect(after(summary()).at(-1)).toContain('m more')
  expect(after(summary(), 'm').at(-1)).toContain('m less')
  expect(after(summary(), 'm', 'm').at(-1)).toContain('m more')
})

const lines = (count: number) => Array.from({ length: count }, (_, index) => `line ${index}`)

/** A screen of 40 x 12, that is 11 lines, and what is on it after each of these keys; one letter is text. */
function after(screen: ReactNode, ...keys: string[]): string[] {
  open?.unmount()
  open = drawn(screen, 40, 12)
  for (const name of keys) {
    open.feed.press((name.length === 1 ? { kind: 'text', text: name } : { kind: 'named', name }) as Key)
    open.again()
    open.again()
  }
  return open.text().split('\n')
}

/** The first and the last of the numbered lines on a screen. */
function span(shown: string[]): [number, number] {
  const numbers = shown.flatMap((line) => /^[> ]*line (\d+)/.exec(line)?.[1] ?? []).map(Number)
  return [numbers[0] ?? -1, numbers.at(-1) ?? -1]
}

describe('the page of keys', () => {
  const keys = [...'abcdefghijklmno'].map((key) => ({
    key,
    label: key,
    does: `line ${key.charCodeAt(0) - 97}`,
    acts: {},
  }))
  const screen = <TextScreen text={() => 'A day'} keys={keys} leave={{ label: 'back', act: () => {} }} />

  test('continues where it does not fit, until all of it was seen', () => {
    expect(span(after(screen, '?').map((line) => line.slice(3)))).toEqual([0, 8])
    expect(after(screen, '?').at(-1)).toBe('any key more')
    expect(span(after(screen, '?', 'x').map((line) => line.slice(3)))).toEqual([9, 14])
    expect(after(screen, '?', 'x').at(-1)).toBe('any key back')
    expect(after(screen, '?', 'x', 'x')[0]).toBe('A day')
  })

  test('is closed by Escape wherever it is', () => {
    expect(after(screen, '?', 'escape')[0]).toBe('A day')
  })
})

describe('a text that is longer than its screen', () => {
  const left: string[] = []
  const text = (count: number) => (
    <TextScreen
      text={() => `${lines(count).join('\n')}\n\n`}
      keys={[{ key: 'c', label: 'copy', does: 'copies', acts: { c: () => 'copied' } }]}
      leave={{ label: 'back', act: () => void left.push('left') }}
    />
  )

  test.each([
    ['', [0, 8]],
    ['down', [1, 9]],
    ['down down up', [1, 9]],
    ['up', [0, 8]],
    ['pageDown', [9, 17]],
    ['pageDown pageDown pageUp', [9, 17]],
    ['pageDown pageDown pageDown', [21, 29]],
    ['pageDown pageDown pageDown down', [21, 29]],
    ['pageDown pageDown pageDown up', [20, 28]],
    ['pageUp', [0, 8]],
  ])('shows these lines after "%s"', (keys, shown) => {
    expect(span(after(text(30), ...keys.split(' ').filter(Boolean)))).toEqual(shown)
  })

  test('scrolls by a page with Space, and says so while more is below', () => {
    expect(span(after(text(30), ' '))).toEqual([9, 17])
    expect(after(text(30))).toContain('more below')
    expect(after(text(30), ' ', ' ', ' ')).not.toContain('more below')
    expect(after(text(9))).not.toContain('more below')
    expect(after(text(9)).at(-1)).not.toContain('scroll')
    expect(after(text(10)).at(-1)).toContain('scroll')
  })

  test('is left by q and Escape only, and shows what a key of its own says', () => {
    left.length = 0
    after(text(30), 'q')
    after(text(30), 'escape')
    expect(left).toHaveLength(2)
    expect(after(text(30), 'c')).toContain('copied')
    expect(after(text(30), 'c', 'x', 'enter')).not.toContain('copied')
    expect(left).toHaveLength(2)
  })
})

describe('the progress of several subjects', () => {
  const left: string[] = []
  const subjects = [
    { name: 'one', lines: () => lines(30) },
    { name: 'two', lines: () => lines(3) },
    { name: 'three', lines: () => lines(20) },
  ]
  const progress = <Showing first={(show) => showSubject(subjects, 0, show, () => void left.push('left'))} />

  test.each([
    ['', 'one (1 of 3)', [0, 7]],
    ['right', 'two (2 of 3)', [0, 2]],
    ['tab tab', 'three (3 of 3)', [0, 7]],
    ['right right right', 'one (1 of 3)', [0, 7]],
    ['left', 'three (3 of 3)', [0, 7]],
    ['backTab backTab', 'two (2 of 3)', [0, 2]],
    ['pageDown', 'one (1 of 3)', [8, 15]],
    ['pageDown right left', 'one (1 of 3)', [0, 7]],
  ])('shows after "%s" %s', (keys, title, shown) => {
    const frame = after(progress, ...keys.split(' ').filter(Boolean))
    expect([frame[0], span(frame)]).toEqual([`Progress: ${title}`, shown])
  })

  test('says while more is below, and is left by q and Escape', () => {
    expect(after(progress)).toContain('more below')
    expect(after(progress, 'right')).not.toContain('more below')
    expect(span(after(progress, ' '))).toEqual([8, 15])
    left.length = 0
    after(progress, 'q')
    after(progress, 'escape')
    after(progress, 'x')
    expect(left).toHaveLength(2)
  })
})

describe('a list that is longer than its screen', () => {
  const opened: string[] = []
  const list = (given: { head?: boolean; picked?: string } = {}) => (
    <ScreenOf
      screen={listOf({
        title: 'Days',
        rows: lines(30).map((line, index) => ({ id: `${index}`, lines: () => [line] })),
        ...(given.head ? { headings: () => 'a heading' } : {}),
        picked: given.picked ?? null,
        enter: { label: 'open', does: 'opens it' },
        open: (index) => {
          opened.push(`${index}`)
          if (index === 3) throw new Error('it cannot be read')
        },
        leave: () => void opened.push('left'),
      })}
    />
  )

  test.each([
    ['', 1, [0, 7]],
    ['down', 2, [0, 7]],
    ['up', 1, [0, 7]],
    ['down down down down down', 6, [1, 8]],
    ['pageDown', 9, [4, 11]],
    ['end', 30, [22, 29]],
    ['end down', 30, [22, 29]],
    ['end pageUp', 22, [17, 24]],
    ['end home', 1, [0, 7]],
  ])('has after "%s" line %i picked', (keys, picked, shown) => {
    const frame = after(list(), ...keys.split(' ').filter(Boolean))
    expect([frame[0], span(frame)]).toEqual([`Days: ${picked} of 30`, shown])
    expect(frame.filter((line) => line.startsWith('>'))).toEqual([`> line ${picked - 1}`])
  })

  test('has one line less below a heading, and begins with the one that was picked', () => {
    expect(span(after(list({ head: true })))).toEqual([0, 6])
    expect(after(list({ head: true }))[1]).toBe('  a heading')
    expect(after(list({ picked: '12' }))[0]).toBe('Days: 13 of 30')
    expect(after(list({ picked: 'gone' }))[0]).toBe('Days: 1 of 30')
  })

  test('opens the picked line with Enter, says why it cannot until the next key, and is left by q and Escape', () => {
    opened.length = 0
    after(list(), 'down', 'enter')
    expect(after(list(), 'down', 'down', 'down', 'enter')).toContain('it cannot be read')
    expect(after(list(), 'down', 'down', 'down', 'enter', 'up')).not.toContain('it cannot be read')
    after(list(), 'q')
    after(list(), 'escape')
    expect(opened).toEqual(['1', '3', '3', 'left', 'left'])
  })
})

describe('the editor of a day', () => {
  const editor = (text: string) => (
    <DayEditor title="a day" text={text} problemOf={() => null} save={() => null} leave={() => {}} />
  )

  test('keeps the line of the cursor in the middle of its eight lines', () => {
    const shown = (count: number) =>
      span(after(editor(lines(30).join('\n')), ...Array.from({ length: count }, () => 'down')))
    expect(shown(0)).toEqual([0, 7])
    expect(shown(4)).toEqual([0, 7])
    expect(shown(10)).toEqual([6, 13])
    expect(shown(29)).toEqual([22, 29])
    expect(span(after(editor(lines(30).join('\n')), 'pageDown'))).toEqual([3, 10])
  })

  test('scrolls a line that is wider than the screen so that the cursor is on it', () => {
    const wide = Array.from({ length: 60 }, (_, index) => index % 10).join('')
    const shown = (count: number) => after(editor(wide), ...Array.from({ length: count }, () => 'right'))[1]
    expect(shown(0)).toBe(wide.slice(0, 40))
    expect(shown(39)).toBe(wide.slice(0, 40))
    expect(shown(45)).toBe(wide.slice(6, 46))
  })
})

describe('a field that takes several lines', () => {
  const taken: string[] = []
  const field = (
    <AskScreen
      label="morning"
      words={() => taken.join(', ') || 'nothing yet'}
      hint="type any of it"
      placeholder="Enter: back"
      take={(typed) => {
        if (typed === 'x') return 'x is not a figure'
        taken.push(typed)
        return null
      }}
      leave={{ label: 'back', act: () => void taken.push('left') }}
    />
  )
  /** Types as the field gets it: as its text. */
  const typed = (...keys: string[]) => {
    taken.length = 0
    return after(field, ...keys)
  }

  test('is left by Enter and Escape while it is empty', () => {
    typed('enter')
    expect(taken).toEqual(['left'])
    typed('escape')
    expect(taken).toEqual(['left'])
    expect(typed().at(-1)).toBe('Enter or Esc back')
  })
})

describe('the decisions about the next day', () => {
  const saved: [string[], number][] = []
  const decisions = (problem: string | null = null, earliest = -2) => {
    const rows = ['a', 'b', 'c'].map((id) => ({ id, text: `row ${id}` }))
    const save = (taken: ReadonlySet<string>, days: number) => {
      saved.push([[...taken], days])
      return problem
    }
    const given = { rows, dateText: (days: number) => `day ${days}`, earliest, save }
    return <Showing first={(show) => showDecisions(given, show, () => void saved.push([['left'], 0]))} />
  }
  const rowsAfter = (...keys: string[]) => after(decisions(), ...keys).slice(1, 5)

  test('are taken with Enter and dropped with Space, each of which goes to the next line', () => {
    expect(rowsAfter()).toEqual(['>   row a', '    row b', '    row c', '  save for day 0'])
    expect(rowsAfter('enter', ' ')).toEqual(['  + row a', '  - row b', '>   row c', '  save for day 0'])
    expect(rowsAfter('enter', 'up', ' ')).toEqual(['  - row a', '>   row b', '    row c', '  save for day 0'])
    expect(rowsAfter('up')[0]).toBe('>   row a')
    expect(rowsAfter('down', 'down', 'down', 'down')[3]).toBe('> save for day 0')
  })

  test('are saved for a date that the arrows move, not before the earliest', () => {
    expect(rowsAfter('right', 'right', 'left')[3]).toBe('  save for day 1')
    expect(rowsAfter('left', 'left', 'left', 'left')[3]).toBe('  save for day -2')
    saved.length = 0
    after(decisions(), 'enter', ' ', 'enter', 'right', 'enter')
    expect(saved).toEqual([[['a', 'c'], 1]])
  })

  test('say why they cannot be saved until the next key, and are left by q and Escape', () => {
    saved.length = 0
    expect(after(decisions('the disk is full'), 'down', 'down', 'down', 'enter')).toContain(
      'the disk is full',
    )
    expect(after(decisions('the disk is full'), 'down', 'down', 'down', 'enter', 'left')).not.toContain(
      'the disk is full',
    )
    expect(after(decisions(), 'down', 'down', 'down')).toContain('lines you do not accept stay as they are')
    after(decisions(), ' ', ' ', ' ', ' ')
    expect(saved).toEqual([
      [[], 0],
      [[], 0],
    ])
    after(decisions(), 'q')
    after(decisions(), 'escape')
    expect(saved.slice(2)).toEqual([
      [['left'], 0],
      [['left'], 0],
    ])
  })
})

describe('the first screen', () => {
  const did: string[] = []
  const key = (name: string, given: Partial<ScreenKey> = {}): ScreenKey => {
    const act = () => {
      did.push(name)
      return `did ${name}`
    }
    return { key: name, label: name, does: name, acts: { [name]: act }, ...given }
  }
  const days = lines(12)
  const today = (titles: string[], changed: Partial<ListContent> = {}) => (
    <ListScreen
      head={() => ['Pausebook', '']}
      rows={titles.map((title) => ({ id: title, lines: () => [`today       ${title}`, '  about 47 min'] }))}
      keys={(index) => [
        key('o', { isOnPageOnly: true, acts: { o: () => `opens ${titles[index]}` } }),
        { ...pickKey, isOnPageOnly: true },
        keysKey,
        key('h'),
        key('w'),
        key('c', { asks: 'c again closes' }),
        key('d', { asks: 'd again deletes' }),
        { ...signalKey(() => void did.push('ring')), isOnPageOnly: true },
        key('q'),
      ]}
      picked={null}
      {...changed}
    />
  )
  const titles = (...keys: string[]) =>
    after(today(days), ...keys).flatMap((line) => /^[> ] today +line (\d+)/.exec(line)?.[1] ?? [])
  const pickedAfter = (...keys: string[]) =>
    after(today(days), ...keys).flatMap((line) => /^> today +line (\d+)/.exec(line)?.[1] ?? [])

  test('shows three days and the beginning of the next, the picked one in their middle', () => {
    expect([titles(), pickedAfter()]).toEqual([['0', '1', '2', '3'], ['0']])
    expect([titles('down'), pickedAfter('down')]).toEqual([['0', '1', '2', '3'], ['1']])
    expect([titles('down', 'down', 'down'), pickedAfter('down', 'down', 'down')]).toEqual([
      ['2', '3', '4', '5'],
      ['3'],
    ])
    const ends = Array.from({ length: 14 }, () => 'down')
    expect([titles(...ends), pickedAfter(...ends)]).toEqual([['9', '10', '11'], ['11']])
    expect(pickedAfter('up', 'down', 'up', 'up')).toEqual(['0'])
  })

  test('draws the picked one alone while the others take a moment to read', () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
    try {
      open = drawn(today(days, { isSlow: true, picked: 'line 1' }), 40, 12)
      const rows = () => open?.text().match(/line \d+/g)
      expect(rows()).toEqual(['line 0', 'line 1'])
      open.again()
      vi.runAllTimers()
      open.again()
      expect(rows()).toEqual(['line 0', 'line 1', 'line 2', 'line 3'])
    } finally {
      vi.useRealTimers()
    }
  })

  test('acts on the picked choice, and says what comes of a key until the next one', () => {
    expect(after(today(days), 'down', 'o').at(-2)).toBe('opens line 1')
    expect(after(today(days), 'h').at(-2)).toBe('did h')
    expect(after(today(days), 'h', 'z').at(-2)).toBe('')
    expect(after(today([]), 'o').at(-2)).toBe('opens undefined')
  })

  test('names its keys on the key line, or on the page of keys alone', () => {
    expect(after(today(days)).at(-1)).toBe('?   h h   w w   c c   d d   q q')
    const page = after(today(days), '?').flatMap((line) => /^(↑ ↓|\S) /.exec(line)?.[1] ?? [])
    expect(page).toEqual(['o', '↑ ↓', '?', 'h', 'w', 'c', 'd', 't'])
  })

  test('acts with a key that asks only when it is pressed twice in a row', () => {
    const acts = (...keys: string[]) => {
      did.length = 0
      after(today(days), ...keys)
      return did.filter((each) => /^[cd]/.test(each))
    }
    expect(after(today(days), 'c').at(-2)).toBe('c again closes')
    expect(acts('c')).toEqual([])
    expect(acts('c', 'c')).toEqual(['c'])
    expect(acts('c', 'c', 'c')).toEqual(['c'])
    expect(acts('c', 'c', 'c', 'c')).toEqual(['c', 'c'])
    expect(acts('d', 'd')).toEqual(['d'])
    expect(acts('c', 'd', 'c', 'd')).toEqual([])
    expect(acts('d', 'up', 'd')).toEqual([])
    expect(acts('d', 'z', 'd')).toEqual([])
  })

  test('shows the signal until the next key, and damage while nothing else is said', () => {
    expect(after(today(days), 't').at(-2)).toBe(' go')
    expect(after(today(days), 't', 'z').at(-2)).toBe('')
    const damaged = { usual: () => 'damaged: settings.json' }
    expect(after(today(days, damaged)).at(-2)).toBe('damaged: settings.json')
    expect(after(today(days, damaged), 'h').at(-2)).toBe('did h')
  })
})
