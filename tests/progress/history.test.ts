import { describe, expect, it } from 'vitest'
import { historyHead, historyLine, historyOf } from '../../src/progress/history.ts'
import { session, set, type Told } from './doneSessions.ts'

const part = { kind: 'run' as const, name: 'track', effort: 8, minutes: 62, effortMinutes: 496 }
const parts: Told['parts'] = [
  part,
  { kind: 'lift', name: 'legs', effort: 7, minutes: 48, effortMinutes: 336 },
]
function listed(date: string, told: Told, notes: string[] = []) {
  const done = session(date, told)
  const items = done.running.items
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

describe('the words of a filter', () => {
  const found = (session: Parameters<typeof historyOf>[0][number], text: string) =>
    [...historyOf([session], { ...open, text })].length === 1
  const day = {
    ...thursday,
    summary: () => ({
      running: { items: [{ text: '5 km easy' }, { text: '8 x 100 m strides' }] },
      cross: { items: [{ text: 'rower 2 km' }] },
      notes: ['late train', 'STRASSE'],
    }),
  }

  it('may be in any line, also of cross training, and in any note', () => {
    const words = ['easy', 'strides', 'ROWER', 'Late', 'strasse', 'front squat', 'legs', 'swim']
    expect(words.filter((text) => found(day, text))).toEqual(words.slice(0, -1))
  })

  it('are in no part without a name, and in no session that can no longer be read', () => {
    const nameless = listed('2026-11-23', { title: 'Day', parts: [{ ...part, name: null }] })
    expect([found(nameless, 'null'), found(nameless, 'day')]).toEqual([false, true])
    const lost = { ...easy, summary: () => null }
    expect([found(lost, 'easy'), found(lost, 'windy')]).toEqual([true, false])
  })
})

describe('a row of the history', () => {
  it('has the efforts that are known, in order, and no other version by default', () => {
    const told = [
      part,
      { ...part, effort: null, effortMinutes: null },
      { ...part, kind: 'lift' as const, effort: 6 },
    ]
    const [row] = historyOf([listed('2026-11-23', { parts: told })], open)
    expect(row?.efforts).toEqual([
      { kind: 'run', name: 'track', effort: 8 },
      { kind: 'lift', name: 'track', effort: 6 },
    ])
    expect(row).toMatchObject({ otherVersion: null, effortMinutes: 992, effortMinutesAtLeast: true })
    const [other] = historyOf([{ ...easy, otherVersion: 'abcdefgh23' }], open)
    expect(other?.otherVersion).toBe('abcdefgh23')
  })
})

describe('a line of the history', () => {
  const rows = () => historyOf([thursday, easy], open)
  const units = { distance: 'km', mass: 'kg' } as const

  it('shows date, id, distance, load, and lifts', () => {
    const [first] = rows()
    expect(first && historyLine(first, units, 200)).toBe(
      '2026-11-26  abcdefgh23      3 km   832 (8/7)  Thursday: five hundreds: front squat (2 sets, 555 kg)',
    )
  })

  it('does not show unknown values as zero', () => {
    const [, second] = rows()
    expect(second && historyLine(second, units, 200)).toBe(
      '2026-11-24  easyday234      8 km           ?  Easy 8 km',
    )
  })

  it('names cross training, another version, and one set', () => {
    const [, second] = rows()
    const row = second as NonNullable<typeof second>
    const told = (changes: Partial<typeof row>) => historyLine({ ...row, ...changes }, units, 200).slice(46)
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
    )
    expect(line).toContain('      1 mi  ')
    expect(historyLine({ ...row, runMeters: 0 }, units, 200).slice(22, 33)).toBe(' '.repeat(11))
    // Lengths that are whole miles keep their unit unless another was asked for.
    const mile = { ...row, runMeters: 1609.344 }
    const ran = (convert?: boolean) =>
      historyLine(mile, { ...units, ...(convert !== undefined && { convert }) }, 200).slice(22, 32)
    expect([ran(), ran(false), ran(true)]).toEqual(['      1 mi', '      1 mi', '   1.61 km'])
  })

  it('begins its day in the same column after the efforts of one part as of four', () => {
    const [first] = rows()
    const row = first as NonNullable<typeof first>
    const after = (load: number, ...efforts: number[]) =>
      historyLine(
        {
          ...row,
          runMeters: 13_600,
          effortMinutes: load,
          efforts: efforts.map((effort) => ({ kind: 'run', name: null, effort })),
        },
        units,
        200,
      ).slice(22, 52)
    expect([after(210, 3), after(832, 8, 7, 6), after(1032, 8, 7, 6.5), after(1032, 8, 7, 6, 6)]).toEqual([
      '   13.6 km     210 (3)  Thursd',
      '   13.6 km 832 (8/7/6)  Thursd',
      '  13.6 km 1032 (8/7/6.5)  Thur',
      '  13.6 km 1032 (8/7/6/6)  Thur',
    ])
  })

  it('is cut only if it is longer than the columns', () => {
    const [, second] = rows()
    const row = { ...(second as NonNullable<typeof second>), title: 'Easy running, with strides' }
    const whole = historyLine(row, units, 200)
    expect(historyLine(row, units, whole.length)).toBe(whole)
    expect(historyLine({ ...row, title: `${row.title}!` }, units, whole.length)).toBe(
      `${whole.slice(0, -1)}…`,
    )
    // A character outside the basic plane is one column, not two.
    const runner = '\u{1F3C3}'
    const wide = (title: string) => historyLine({ ...row, title }, units, 64).slice(46)
    expect(wide(`${runner}${'a'.repeat(17)}`)).toBe(`${runner}${'a'.repeat(17)}`)
    expect(wide(`${runner}${'a'.repeat(18)}`)).toBe(`${runner}${'a'.repeat(16)}…`)
  })

  it('marks a load with + if a part of the day has no effort', () => {
    const [first] = rows()
    const row = { ...(first as NonNullable<typeof first>), effortMinutes: 210, effortMinutesAtLeast: true }
    expect(historyLine({ ...row, efforts: [{ kind: 'run', name: null, effort: 3 }] }, units, 200)).toBe(
      '2026-11-26  abcdefgh23      3 km    210+ (3)  Thursday: five hundreds: front squat (2 sets, 555 kg)',
    )
  })

  it('is cut to the columns, has no control characters, and says if a session is open', () => {
    const [first] = rows()
    const row = { ...(first as NonNullable<typeof first>), title: 'Evil \u001b[2J title', finished: false }
    expect(historyLine(row, units, 200)).toBe(
      '2026-11-26  abcdefgh23      3 km   832 (8/7)  Evil \uFFFD[2J title (not finished): front squat (2 sets, 555 kg)',
    )
    expect(historyLine(row, units, 60)).toBe(
      '2026-11-26  abcdefgh23      3 km   832 (8/7)  Evil \uFFFD[2J tit…',
    )
    expect(historyLine(row, { distance: 'mi', mass: 'lb' }, 200)).toContain('(2 sets, 1224 lb)')
  })

  it('keeps the date, the distance and the title if it is short, under a matching head', () => {
    const [first] = rows()
    expect([historyHead(38), first && historyLine(first, units, 38)]).toEqual([
      'date             run  day',
      '2026-11-26      3 km  Thursday: five …',
    ])
    expect(historyHead(60)).toBe('date        session          run        load  day')
    expect(historyHead(66)).toBe('date        session          run        load  day: what was lifted')
  })
})
