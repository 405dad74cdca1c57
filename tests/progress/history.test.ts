import { describe, expect, it } from 'vitest'
import { historyHead, historyLine, historyOf } from '../../src/progress/history.ts'
import { session, set, type Told } from './doneSessions.ts'

const parts: Told['parts'] = [
  { kind: 'run', name: 'track', effort: 8, minutes: 62, effortMinutes: 496 },
  { kind: 'lift', name: 'legs', effort: 7, minutes: 48, effortMinutes: 336 },
]
function listed(date: string, told: Told, notes: string[] = []) {
  const done = session(date, told)
  const items = done.running.figures.items
  return { ...done, finished: true, summary: () => ({ running: { items }, cross: { items: [] }, notes }) }
}
const thursday = listed(
  '2026-11-26',
  {
    id: 'abcdefgh23',
    title: 'Thursday: five hundreds',
    parts,
    runs: [{ text: '6 x 500 m @ 3:35-3:45/km, jog 200 m', of: [[3000, 655]] }],
    lifts: [{ name: 'front squat', sets: [set(3, 92.5), set(3, 92.5)] }],
  },
  ['windy back straight'],
)
const easy = listed('2026-11-24', { id: 'easyday234', title: 'Easy 8 km', runs: [{ of: [[8000, 2700]] }] })
const open = { from: null, to: null, lift: null, text: null }
const ids = (filter: Partial<typeof open> | Record<string, string>) =>
  [...historyOf([thursday, easy], { ...open, ...filter })].map(({ id }) => id)

describe('the history', () => {
  it('has every session without a filter', () => {
    expect(ids({})).toEqual(['abcdefgh23', 'easyday234'])
  })

  it.each([
    [{ from: '2026-11-25' }, ['abcdefgh23']],
    [{ to: '2026-11-25' }, ['easyday234']],
    [{ from: '2026-11-24', to: '2026-11-26' }, ['abcdefgh23', 'easyday234']],
    [{ lift: 'Front-Squats' }, ['abcdefgh23']],
    [{ lift: 'deadlift' }, []],
    [{ text: 'FIVE  hundreds' }, ['abcdefgh23']],
    [{ text: 'track' }, ['abcdefgh23']],
    [{ text: 'jog 200 m' }, ['abcdefgh23']],
    [{ text: 'windy' }, ['abcdefgh23']],
    [{ text: 'easy' }, ['easyday234']],
    [{ from: '2026-11-26' }, ['abcdefgh23']],
    [{ from: '2026-11-27' }, []],
    [{ to: '2026-11-24' }, ['easyday234']],
    [{ to: '2026-11-23' }, []],
    [{ text: ' front  squat ' }, ['abcdefgh23']],
    [{ text: 'nothing of it' }, []],
  ])('%j lets through %j', (filter, found) => {
    expect(ids(filter as Record<string, string>)).toEqual(found)
  })
})

describe('a line of the history', () => {
  const rows = () => historyOf([thursday, easy], open)
  const units = { distance: 'km', mass: 'kg' } as const

  it('shows date, id, distance, load, and lifts', () => {
    const [first] = rows()
    expect(first && historyLine(first, units, 200, 'session')).toBe(
      '2026-11-26  abcdefgh23      3 km   832 (8/7)  Thursday: five hundreds: front squat (2 sets, 555 kg)',
    )
  })

  it('does not show unknown values as zero', () => {
    const [, second] = rows()
    expect(second && historyLine(second, units, 200, 'session')).toBe(
      '2026-11-24  easyday234      8 km           ?  Easy 8 km',
    )
  })

  it('names cross training, another version, and one set', () => {
    const [, second] = rows()
    const row = second as NonNullable<typeof second>
    const told = (changes: Partial<typeof row>) =>
      historyLine({ ...row, ...changes }, units, 200, 'session').slice(46)
    expect(told({ crossMeters: 5000 })).toBe('Easy 8 km, cross 5 km')
    expect(told({ otherVersion: 'abcdefgh23' })).toBe('Easy 8 km (kept twice, other: abcdefgh23)')
    expect(told({ sets: 1, exercises: ['plank'] })).toBe('Easy 8 km: plank (1 set)')
    expect(told({ sets: 2, exercises: ['row', 'dip'], tonnageKg: 99.5 })).toBe(
      'Easy 8 km: row, dip (2 sets, 100 kg)',
    )
    const line = historyLine(
      { ...row, runMeters: 1609.344 },
      { ...units, distance: 'mi', convert: true },
      200,
      'run',
    )
    expect(line).toContain('      1 mi  ')
    expect(historyLine({ ...row, runMeters: 0 }, units, 200, 'run')).not.toContain('km  ')
  })

  it('is cut only if it is longer than the columns', () => {
    const [, second] = rows()
    const row = { ...(second as NonNullable<typeof second>), title: 'Easy running, with strides' }
    const whole = historyLine(row, units, 200, 'session')
    expect(historyLine(row, units, whole.length, 'session')).toBe(whole)
    expect(historyLine({ ...row, title: `${row.title}!` }, units, whole.length, 'session')).toBe(
      `${whole.slice(0, -3)}...`,
    )
  })

  it('marks a load with + if a part of the day has no effort', () => {
    const [first] = rows()
    const row = { ...(first as NonNullable<typeof first>), effortMinutes: 210, effortMinutesAtLeast: true }
    expect(
      historyLine({ ...row, efforts: [{ kind: 'run', name: null, effort: 3 }] }, units, 200, 'session'),
    ).toBe(
      '2026-11-26  abcdefgh23      3 km    210+ (3)  Thursday: five hundreds: front squat (2 sets, 555 kg)',
    )
  })

  it('is cut to the columns, has no control characters, and says if a session is open', () => {
    const [first] = rows()
    const row = { ...(first as NonNullable<typeof first>), title: 'Evil \u001b[2J title', finished: false }
    expect(historyLine(row, units, 200, 'session')).toBe(
      '2026-11-26  abcdefgh23      3 km   832 (8/7)  Evil \uFFFD[2J title (not finished): front squat (2 sets, 555 kg)',
    )
    expect(historyLine(row, units, 60, 'session')).toBe(
      '2026-11-26  abcdefgh23      3 km   832 (8/7)  Evil \uFFFD[2J t...',
    )
    expect(historyLine(row, { distance: 'mi', mass: 'lb' }, 200, 'session')).toContain('(2 sets, 1224 lb)')
  })

  it('keeps the date, the title and the requested figure if it is short, under a matching head', () => {
    const [first] = rows()
    const shown = (kept: 'session' | 'run') => [
      historyHead(38, kept),
      first && historyLine(first, units, 38, kept),
    ]
    expect(shown('run')).toEqual(['date             run  day', '2026-11-26      3 km  Thursday: fiv...'])
    expect(shown('session')).toEqual([
      'date        session     day',
      '2026-11-26  abcdefgh23  Thursday: f...',
    ])
    expect(historyHead(60, 'run')).toBe('date        session          run  effort-min  day')
    expect(historyHead(66, 'run')).toBe('date        session          run  effort-min  day: what was lifted')
  })
})
