import { describe, expect, it } from 'vitest'
import type { SummaryContext } from '../../src/summary/model.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { summaryMarkdown, summaryText } from '../../src/summary/text.ts'
import { dayOf as wholeDay } from '../day.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept, keptDay } from './kept.ts'

/* A race in the summary; days and results are invented, figures worked out by hand. */

const dayOf = (lines: string) => wholeDay(`A day\n${lines}`)

describe('a race', () => {
  const race = (goal: string, typed: string) => {
    const day = dayOf(`${goal}run\n  10 km race\n`)
    const { session } = new Kept(day).type(typed)
    return { summary: summarise(session, context), text: summaryText(session, context, { full: false }) }
  }

  it('prints its finish time and the gap to the goal as the first line of its part', () => {
    const { summary, text } = race('goal: 10 km in 39:30\n', '39:12')
    expect(summary.running.items[0]?.goal).toMatchObject({ finishSeconds: 2352, offGoalSeconds: -18 })
    expect(text).toContain('run, 10 km\n10 km race: finish 39:12, 18 s ahead of the\n  goal 39:30\n')
    expect(race('goal: 10 km in 39:30\n', '39:50.5').text).toContain(
      'finish 39:50.5, 20.5 s behind\n  the goal 39:30\n',
    )
  })

  it('starts with halves, extreme splits and the even card of the goal, in text, Markdown and JSON', () => {
    const splits = ['3:57', '3:58', '4:00', '3:59', '3:57', '3:56', '3:55', '3:54', '3:52', '3:48']
    const day = dayOf('goal: 10 km in 39:30\nrun\n  10 km race, split 1 km\n')
    const kept = splits.reduce((before, split) => before.type(split), new Kept(day))
    const { goal } = summarise(kept.session, context).running.items[0] ?? {}
    // 39:30 over 10 km is 237 s a kilometre; the sums are those of the splits above.
    expect(goal).toMatchObject({ finishSeconds: 2356, offGoalSeconds: -14, fastest: [10, 9, 8] })
    expect(goal?.slowest).toEqual([3, 4, 2])
    expect(goal?.card[4]).toEqual({ meters: 5000, runningSeconds: 1191, cardSeconds: 1185 })
    const text = summaryText(kept.session, context, { full: false })
    expect(text).toContain(
      [
        '10 km race: finish 39:16, 14 s ahead of the',
        '  goal 39:30',
        '  negative split, 2.2 %: 3:58.2, then',
        '    3:53.0/km',
        '  fastest splits: 3:48 (10), 3:52 (9), 3:54',
        '    (8)',
        '  slowest splits: 4:00 (3), 3:59 (4), 3:58',
        '    (2)',
        '  even card 3:57/km: 1 km 3:57, on it; 2 km',
        '    7:54, 1 s behind; 3 km 11:51, 4 s',
      ].join('\n'),
    )
    expect(text.split('negative split')).toHaveLength(2)
    for (const line of text.split('\n')) expect([...line].length).toBeLessThanOrEqual(44)
    expect(summaryMarkdown(kept.session, context, { full: false })).toContain(
      '| finish 39:16, 14 s ahead of the goal 39:30 | negative split, 2.2 %: 3:58.2, then 3:53.0/km',
    )
  })

  it('names half of its splits, at most three, as fastest and slowest, from four splits on', () => {
    const extremes = (...times: string[]) => {
      const kept = keptDay(`run\n  ${times.length} km race, split 1 km\n`, ...times)
      const { goal } = summarise(kept.session, context).running.items[0] ?? {}
      return [goal?.fastest, goal?.slowest]
    }
    expect(extremes('4:00', '4:01', '4:02')).toEqual([[], []])
    expect(extremes('4:00', '4:03', '4:01', '4:02')).toEqual([
      [1, 3],
      [2, 4],
    ])
    expect(extremes('4:00', '4:03', '4:01', '4:02', '4:04')).toEqual([
      [1, 3],
      [5, 2],
    ])
    // Of equals the earlier is the faster.
    expect(extremes('4:00', '4:00', '4:01', '4:01', '4:02', '4:02', '4:03', '4:03')).toEqual([
      [1, 2, 3],
      [8, 7, 6],
    ])
  })

  it('has no finish without one of its splits, nor if a split has no time', () => {
    const goalOf = (...times: string[]) =>
      summarise(keptDay('run\n  3 km race, split 1 km\n', ...times).session, context).running.items[0]?.goal
    expect(goalOf('4:00', '4:01')).toBeNull()
    expect(goalOf('4:00', '-', '4:01')).toBeNull()
    expect(goalOf('4:00', '4:00', '4:01')).toMatchObject({
      finishSeconds: 721,
      offGoalSeconds: null,
      card: [],
    })
  })

  it('is over the distance of the goal within half a per cent', () => {
    const off = (entry: string) =>
      race('goal: 10 km in 40:00\n', entry).summary.running.items[0]?.goal?.offGoalSeconds
    expect(off('10.05 km in 40:10')).toBe(10)
    expect(off('9.95 km in 39:50')).toBe(-10)
    expect(off('10.06 km in 40:10')).toBeNull()
    expect(off('9.94 km in 39:50')).toBeNull()
    expect(race('goal: 10 km in 40:00\n', '40:00').text).toContain(
      'finish 40:00, exactly the goal\n  40:00\n',
    )
  })

  it('has at most a dozen places on its card, the last of them the finish', () => {
    const places = (km: number) => {
      const kept = keptDay(`goal: ${km} km in ${km * 4}:00\nrun\n  ${km} km race, split 1 km\n`)
      kept.type(...Array<string>(km).fill('4:00'))
      const text = summaryText(kept.session, context, { full: false }).replace(/\n +/g, ' ')
      return /even card [^:]*:\d\d\/km: (.*)/
        .exec(text)?.[1]
        ?.split('; ')
        .map((place) => place.split(' ')[0])
    }
    expect(places(12)).toHaveLength(12)
    expect(places(13)).toEqual(['2', '4', '6', '8', '10', '12', '13'])
  })

  it('has no card where its only split is the finish', () => {
    expect(race('goal: 10 km in 39:30\n', '39:12').text).not.toContain('even card')
  })

  it('has a card of two places', () => {
    const day = dayOf('goal: 10 km in 39:30\nrun\n  10 km race, split 5 km\n')
    const text = summaryText(new Kept(day).type('19:40', '19:44').session, context, { full: false })
    expect(text.replace(/\n +/g, ' ')).toContain(
      'even card 3:57/km: 5 km 19:45, 5 s ahead; 10 km 39:30, 6 s ahead',
    )
  })

  it('has the laps of a mile on its card in metres, as they were written', () => {
    const day = dayOf('units: mi lb\ngoal: 1 mi in 5:00\nrun\n  1 mi race, split 400 m\n')
    const kept = new Kept(day).type('74', '75', '76', '74', '1.7')
    expect(summaryText(kept.session, context, { full: false }).replace(/\n +/g, ' ')).toContain(
      'even card 5:00/mi: 400 m 1:15, 1 s ahead; 800 m 2:29, on it; 1200 m 3:44, 1 s behind; 1600 m',
    )
  })

  it("is compared with the card of the plan's race: on its day, and on a day without such a goal", () => {
    const card = (header: string, race: SummaryContext['race']) => {
      const kept = keptDay(`${header}run\n  10 km race, split 5 km\n`, '19:50').type('19:40')
      const { goal } = summarise(kept.session, { ...context, race }).running.items[0] ?? {}
      return { goal, text: summaryText(kept.session, { ...context, race }, { full: false }) }
    }
    const plans = { meters: 10_000, seconds: 2400, isThatDay: true, ahead: '' }
    // 40:00 over 10 km is 240 s a kilometre; the day's goal of 39:30 keeps the gap.
    const onItsDay = card('goal: 10 km in 39:30\n', plans)
    expect(onItsDay.goal).toMatchObject({
      offGoalSeconds: 0,
      card: [{ cardSeconds: 1200 }, { cardSeconds: 2400 }],
    })
    expect(onItsDay.text).toContain('  even card of the plan 4:00/km: 5 km 20:00,\n    10 s ahead;')
    const before = card('goal: 10 km in 39:30\n', { ...plans, isThatDay: false })
    expect(before.text).toContain('  even card 3:57/km: 5 km')
    const bare = card('', { ...plans, isThatDay: false })
    expect(bare.goal).toMatchObject({ offGoalSeconds: -30 })
    expect(bare.text).toContain('finish 39:30, 30 s ahead of the\n  goal 40:00')
    expect(bare.text).toContain('even card of the plan 4:00/km')
    expect(card('', { ...plans, meters: 5000 }).goal).toMatchObject({ offGoalSeconds: null, card: [] })
  })

  it('has no gap to a goal over another distance, and easy running has no finish time', () => {
    expect(race('goal: 5 km in 19:00\n', '39:12').summary.running.items[0]?.goal).toMatchObject({
      finishSeconds: 2352,
      offGoalSeconds: null,
      card: [],
    })
    const easy = keptDay('run\n  10 km easy\n', '55:00')
    expect(summarise(easy.session, context).running.items[0]?.goal).toBeNull()
  })
})
