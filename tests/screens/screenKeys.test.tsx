import type { ReactNode } from 'react'
import { afterEach, describe, expect, test } from 'vitest'
import { AskScreen } from '../../src/ui/screens/AskScreen.tsx'
import { DayEditor } from '../../src/ui/screens/DayEditor.tsx'
import { DecisionsScreen } from '../../src/ui/screens/DecisionsScreen.tsx'
import { FirstStart } from '../../src/ui/screens/FirstStart.tsx'
import { ListScreen } from '../../src/ui/screens/ListScreen.tsx'
import { Progress } from '../../src/ui/screens/Progress.tsx'
import { SummaryScreen } from '../../src/ui/screens/SummaryScreen.tsx'
import { TextScreen } from '../../src/ui/screens/TextScreen.tsx'
import { type AppActions, type Choice, Today } from '../../src/ui/screens/Today.tsx'
import type { Key } from '../../src/ui/widgets/keys.ts'
import { type Drawn, drawn } from './frame.tsx'

const note = 'A day\n\nrun\n  mean 4:07.0, 4:07/km, spread 4.0 s, 5 of 5 in 4:05-4:10\n'

let open: Drawn | null = null
afterEach(() => open?.unmount())

function shown(columns: number, rows: number): Drawn {
  open = drawn(
    <SummaryScreen text={() => note} copy={() => {}} next={() => null} leave={() => {}} />,
    columns,
    rows,
  )
  return open
}

test('a line that is wider than the screen continues on the next', () => {
  expect(shown(40, 12).text().split('\n').slice(0, 5)).toEqual([
    'A day',
    '',
    'run',
    '  mean 4:07.0, 4:07/km, spread 4.0 s, 5',
    '    of 5 in 4:05-4:10',
  ])
})

test('what was copied is reported in as many lines as there are, without its second half if there are few', () => {
  const screen = shown(40, 12)
  screen.feed.press({ kind: 'text', text: 'c' })
  screen.again()
  expect(screen.text().split('\n').slice(-3, -1)).toEqual([
    'copied to the clipboard, where the',
    'terminal allows it',
  ])
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

describe('a text that is longer than its screen', () => {
  const left: string[] = []
  const text = (count: number) => (
    <TextScreen
      text={`${lines(count).join('\n')}\n\n`}
      keys={[{ key: 'c', label: 'copy', does: 'copies', act: () => 'copied' }]}
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
    expect(after(text(30), 'c', 'x', 'enter')).toContain('copied')
    expect(left).toHaveLength(2)
  })
})

describe('the progress of several subjects', () => {
  const left: string[] = []
  const progress = (
    <Progress
      subjects={[
        { name: 'one', lines: () => lines(30) },
        { name: 'two', lines: () => lines(3) },
        { name: 'three', lines: () => lines(20) },
      ]}
      leave={() => void left.push('left')}
    />
  )

  test.each([
    ['', 'one (1 of 3)', [0, 7]],
    ['right', 'two (2 of 3)', [0, 2]],
    ['tab tab', 'three (3 of 3)', [0, 7]],
    ['right right right', 'one (1 of 3)', [0, 7]],
    ['left', 'three (3 of 3)', [0, 7]],
    ['backTab backTab', 'two (2 of 3)', [0, 2]],
    ['down down up', 'one (1 of 3)', [1, 8]],
    ['pageDown', 'one (1 of 3)', [8, 15]],
    ['pageDown pageDown pageDown down', 'one (1 of 3)', [22, 29]],
    ['pageDown pageDown pageDown pageUp', 'one (1 of 3)', [14, 21]],
    ['pageDown right left', 'one (1 of 3)', [0, 7]],
    ['up', 'one (1 of 3)', [0, 7]],
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
    <ListScreen
      title="Days"
      rows={lines(30).map((line, index) => ({ id: `${index}`, line: () => line }))}
      head={given.head ? () => 'a heading' : null}
      picked={given.picked ?? null}
      enter={{ label: 'open', does: 'opens it' }}
      open={(id) => {
        opened.push(id)
        return id === '3' ? 'it cannot be read' : null
      }}
      leave={() => void opened.push('left')}
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
      take={(typed) => {
        if (typed === 'x') return 'x is not a figure'
        taken.push(typed)
        return null
      }}
      leave={() => void taken.push('left')}
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
    expect(typed().at(-1)).toBe('Enter back   Esc back')
  })
})

describe('the first start', () => {
  const did: string[] = []
  const start = (units: string | null = null) => (
    <FirstStart
      words={lines(20)}
      takeUnits={(typed) => {
        did.push(`units "${typed}"`)
        return units
      }}
      takeBodyMass={(typed) => {
        did.push(`mass "${typed}"`)
        return null
      }}
      ring={() => void did.push('ring')}
      done={() => void did.push('done')}
    />
  )
  const pressed = (screen: ReactNode, ...keys: string[]) => {
    did.length = 0
    return after(screen, ...keys)
  }

  test('shows all its text, seven lines at a time, before it asks', () => {
    expect(span(pressed(start()))).toEqual([0, 6])
    expect(span(pressed(start(), 'enter'))).toEqual([7, 13])
    const read = pressed(start(), 'enter', 'enter')
    expect(span(read)).toEqual([14, 19])
    expect(read.at(-3)).toMatch(/^units > /)
    expect(did).toEqual([])
    expect(pressed(start(), 'enter').at(-3)).toBe('')
  })

  test('asks for the units and then for the body mass', () => {
    expect(pressed(start(), 'enter', 'enter', 'enter').at(-3)).toMatch(/^body mass > /)
    pressed(start(), 'enter', 'enter', 'enter', 'enter')
    expect(did).toEqual(['units ""', 'mass ""', 'done'])
  })

  test('asks again after a refusal, with the reason', () => {
    const refused = pressed(start('no such units'), 'enter', 'enter', 'enter', 'enter')
    expect(refused.slice(-3, -1)).toEqual([expect.stringMatching(/^units > /), 'no such units'])
    expect(did).toEqual(['units ""', 'units ""'])
  })

  test('clears the field with Escape', () => {
    const mistyped = pressed(start('no such units'), 'enter', 'enter', 'x', 'enter', 'escape')
    expect(mistyped.slice(-3, -1)).toEqual([expect.stringMatching(/^units > .*Enter: km kg/), ''])
  })

  test('shows its keys with ?', () => {
    expect(pressed(start(), '?')[0]).toBe('keys')
    expect(pressed(start(), '?', 'x')[0]).not.toBe('keys')
    expect(did).toEqual([])
  })

  test('sounds and shows the signal with t', () => {
    expect(pressed(start(), 't')).toContain(' go')
    expect(did).toEqual(['ring'])
    expect(pressed(start())).not.toContain(' go')
  })
})

describe('the decisions about the next day', () => {
  const saved: [string[], number][] = []
  const decisions = (problem: string | null = null, earliest = -2) => (
    <DecisionsScreen
      rows={['a', 'b', 'c'].map((id) => ({ id, text: `row ${id}` }))}
      dateText={(days) => `day ${days}`}
      earliest={earliest}
      save={(taken, days) => {
        saved.push([[...taken], days])
        return problem
      }}
      leave={() => void saved.push([['left'], 0])}
    />
  )
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
    expect(after(decisions(), 'down', 'down', 'down')).toContain('lines not accepted stay')
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
  const days: Choice[] = lines(12).map((title, index) => ({
    kind: 'day',
    path: `${index}`,
    when: 'today',
    date: null,
    title,
    detail: 'about 47 min',
    sample: index === 11,
  }))
  const left: Choice = {
    kind: 'unfinished',
    id: 'abc',
    when: 'unfinished',
    title: 'line 99',
    detail: 'left 1 minute ago',
    recordedBy: null,
  }
  /** Notes the name of each action and returns it as what is said. */
  const noted = (name: string) => (given?: unknown) => {
    did.push(
      given === undefined ? name : `${name} ${typeof given === 'object' ? (given as Choice).title : given}`,
    )
    return name
  }
  const today = (choices: Choice[], changed: Partial<AppActions> = {}) => {
    const actions: AppActions = {
      choices: () => choices,
      firstChoices: () => choices,
      open: noted('open'),
      newDay: noted('new'),
      edit: noted('edit'),
      damage: () => null,
      due: () => null,
      pains: () => [],
      ring: noted('ring'),
      closeAsItIs: noted('close'),
      deleteSession: noted('delete'),
      history: noted('history'),
      progress: noted('progress'),
      morning: noted('morning'),
      week: (say) => {
        did.push('week')
        say('no week')
      },
      leave: noted('leave'),
      ...changed,
    }
    return <Today actions={actions} picked={null} said={null} />
  }
  const titles = (...keys: string[]) =>
    after(today(days), ...keys).flatMap((line) => /^[> ] today +line (\d+)/.exec(line)?.[1] ?? [])
  const pickedAfter = (...keys: string[]) =>
    after(today(days), ...keys).flatMap((line) => /^> today +line (\d+)/.exec(line)?.[1] ?? [])

  test('shows three days, the picked one in their middle', () => {
    expect([titles(), pickedAfter()]).toEqual([['0', '1', '2'], ['0']])
    expect([titles('down'), pickedAfter('down')]).toEqual([['0', '1', '2'], ['1']])
    expect([titles('down', 'down', 'down'), pickedAfter('down', 'down', 'down')]).toEqual([
      ['2', '3', '4'],
      ['3'],
    ])
    const ends = Array.from({ length: 14 }, () => 'down')
    expect([titles(...ends), pickedAfter(...ends)]).toEqual([['9', '10', '11'], ['11']])
    expect(pickedAfter('up', 'down', 'up', 'up')).toEqual(['0'])
  })

  test('does with each key one thing, and says what comes of it until the next key', () => {
    for (const [key, name] of [
      ['h', 'history'],
      ['g', 'progress'],
      ['m', 'morning'],
      ['n', 'new'],
      ['e', 'edit line 0'],
      ['enter', 'open line 0'],
      [' ', 'open line 0'],
      ['q', 'leave'],
      ['w', 'week'],
    ] as const) {
      did.length = 0
      const shown = after(today(days), key)
      expect(did, key).toEqual([name])
      if (key !== 'q') expect(shown.at(-2), key).toBe(key === 'w' ? 'no week' : name.replace(/ .*/, ''))
      expect(after(today(days), key, 'z').at(-2), key).toBe('')
    }
    did.length = 0
    after(today(days), 'c', 'c', 'd', 'd', 'z')
    expect(did).toEqual([])
    after(today([]), 'enter', 'e')
    expect(did).toEqual([])
  })

  test('names the keys of the picked choice only', () => {
    const keys = (choice: Choice) =>
      after(today([choice]), '?').flatMap((line) => /^(Enter|[cden]) /.exec(line)?.[1] ?? [])
    expect(keys(days[0] as Choice)).toEqual(['Enter', 'n', 'e'])
    expect(keys(days[11] as Choice)).toEqual(['Enter', 'n'])
    expect(keys(left)).toEqual(['Enter', 'c', 'd', 'n'])
    expect(keys({ ...left, recordedBy: '17' } as Choice)).toEqual(['n'])
  })

  test('closes and deletes an unfinished session only by the same key twice in a row', () => {
    const acts = (...keys: string[]) => {
      did.length = 0
      after(today([left, ...days]), ...keys)
      return did.filter((each) => /^(close|delete)/.test(each))
    }
    expect(acts('c')).toEqual([])
    expect(acts('c', 'c')).toEqual(['close abc'])
    expect(acts('c', 'c', 'c')).toEqual(['close abc'])
    expect(acts('c', 'c', 'c', 'c')).toEqual(['close abc', 'close abc'])
    expect(acts('d', 'd')).toEqual(['delete abc'])
    expect(acts('c', 'd', 'c', 'd')).toEqual([])
    expect(acts('d', 'up', 'd')).toEqual([])
    expect(acts('d', 'down', 'd', 'up', 'd')).toEqual([])
    expect(acts('down', 'd', 'd', 'c', 'c')).toEqual([])
  })

  test('shows the signal until the next key, and damage while nothing else is said', () => {
    expect(after(today(days), 't').at(-2)).toBe(' go')
    expect(after(today(days), 't', 'z').at(-2)).toBe('')
    const damaged = { damage: () => 'damaged: settings.json', due: () => 'due: push' }
    expect(after(today(days, damaged)).at(-2)).toBe('damaged: settings.json')
    expect(after(today(days, damaged), 'h').at(-2)).toBe('history')
    expect(after(today(days, damaged))[0]).toBe('Pausebook   due: push')
    expect(after(today(days))[0]).toBe('Pausebook')
  })

  test('shows the pains on lines of their own, whatever else is in the head', () => {
    const due = () =>
      `due: push (legs on 21 Nov)   Sunday of week 10 of 10, today ${'10 km in 39:30 '.repeat(9)}`
    const pains = () => ['left achilles: 3 on Sunday', 'right knee: 5 on Friday, 4 on Saturday, 4 on Sunday']
    const [, first, second] = after(today(days, { due, pains }))
    expect(`${first} ${second}`.replace(/ +/g, ' ')).toContain(
      'left achilles: 3 on Sunday right knee: 5 on Friday, 4 on Saturday, 4 on Sunday',
    )
  })
})
