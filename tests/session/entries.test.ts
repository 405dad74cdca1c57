import { expect, it } from 'vitest'
import { printEntries, printEntry, readEntries, readEntry } from '../../src/session/entry/entry.ts'
import type { Reading } from '../../src/session/entry/lex.ts'
import type { Prompt, SetPrompt } from '../../src/session/prompt.ts'
import { testSituations } from '../goldenTable.ts'
import {
  asManyAsGo,
  bodyweight,
  carry,
  cluster,
  complex,
  dropSet,
  easyTwo,
  fiveHundred,
  foamRoll,
  forTime,
  hold,
  mile,
  pair,
  porridge,
  roundsIn,
  straight,
  treadmill,
  twentyMinutes,
  unknownLoad,
} from './entryPrompts.ts'

/* What is typed, and what it is taken for: golden/entries.txt has both, under what is asked for. The answer is as it
 * would be typed; else there are the message, what Enter then records and what ! insists on. The limits are this
 * program's own. */

const kilograms = (value: number) => ({ kind: 'mass', unit: 'kg', pair: false, value }) as const
const reps = (from: number, to = from): Pick<SetPrompt, 'dose'> => ({ dose: { kind: 'reps', from, to } })
const meters = (value: number, unit: 'm' | 'yd'): Pick<SetPrompt, 'dose'> => ({
  dose: { kind: 'distance', length: { value, unit } },
})

const asked: Record<string, Prompt | Prompt[]> = {
  'a set of 6 to 8 at 92.5 kg': straight,
  'a set of 6 to 8 on each side': { ...straight, side: 'each side' },
  'a set at 100 kg on a day in pounds': { ...straight, shown: kilograms(100), unit: 'lb' },
  'a set of 7 or 8 at 42 kg': { ...straight, ...reps(7, 8), shown: kilograms(42) },
  'a set of 2 or 3 at 20 kg': { ...straight, ...reps(2, 3), shown: kilograms(20) },
  'a set of 2 to 4': { ...straight, ...reps(2, 4) },
  'a set of at least 5': { ...straight, dose: { kind: 'atLeast', reps: 5 } },
  'a set of 6 to 8 at a load to be typed': unknownLoad,
  'a set of 6 to 8 with a pair of 22.5 kg': pair,
  'a set of 6 to 8 at bodyweight': bodyweight,
  'three jumps without a load': { ...straight, name: 'box jump', ...reps(3), shown: null },
  'a set of as many as possible': asManyAsGo,
  'as many hang cleans as possible': { ...asManyAsGo, name: 'hang clean' },
  'a dead hang for as long as possible': { ...asManyAsGo, name: 'dead hang' },
  'a side plank for as long as possible': { ...asManyAsGo, name: 'side plank' },
  'a cluster set of 2+2': cluster,
  'a cluster set of 2+2+2': { ...straight, dose: { kind: 'cluster', groups: [2, 2, 2] } },
  'a cluster set of 2 and as many as possible': {
    ...straight,
    dose: { kind: 'cluster', groups: [2, 'max'] },
  },
  'a cluster set of as many as possible and 2': {
    ...straight,
    dose: { kind: 'cluster', groups: ['max', 2] },
  },
  'a hold of 45 s': hold,
  'a hold of 45 s that the clock measured at 50 s': { ...hold, offered: 50 },
  'a carry of 40 m': carry,
  'a carry of 40 yd': { ...carry, ...meters(40, 'yd') },
  'a run of 200 m in a round': { ...carry, name: 'run', shown: null, ...meters(200, 'm') },
  'a drop set of 12 and 10': dropSet,
  'a drop set at bodyweight whose lower load is not known': {
    ...dropSet,
    shown: { kind: 'bodyweight', added: 20, unit: 'kg' },
    lower: [],
  },
  'a complex of a clean and two front squats': complex,
  'as many rounds as fit, of 8 rows and a carry': roundsIn,
  'rounds for time': forTime,
  'rounds for time that the clock measured at 5:01': { ...forTime, offered: 301 },
  'a mile with a target': mile,
  'four miles on one line': [mile, mile, mile, mile],
  'two repeats of 500 m on one line': [fiveHundred, fiveHundred],
  'a repeat of 500 m': fiveHundred,
  'a repeat of 500 m in 1:47-1:52': { ...fiveHundred, target: { from: 107, to: 112 } },
  'a repeat of 500 m in 1:28-1:32': { ...fiveHundred, target: { from: 88, to: 92 } },
  'a repeat of 500 m in 2:00-2:05': { ...fiveHundred, target: { from: 120, to: 125 } },
  'a repeat of 500 m in 1:00-1:02': { ...fiveHundred, target: { from: 60, to: 62 } },
  'a repeat of 500 m whose key was pressed twice': { ...fiveHundred, offered: 0.04 },
  'an easy kilometre': { ...easyTwo, meters: 1000, label: '1 km' },
  'two easy kilometres': easyTwo,
  'two kilometres in 18:00-19:00': { ...easyTwo, target: { from: 1080, to: 1140 } },
  'six kilometres': { ...mile, meters: 6000, label: '6 km' },
  'a half marathon': { ...mile, meters: 21097.5, label: 'half marathon' },
  'a marathon': { ...mile, meters: 42195, label: '42.2 km' },
  'a ride of 20 km': { ...mile, part: 'cross', meters: 20_000, label: '20 km' },
  'a run of 20 minutes': twentyMinutes,
  'a run of 20 minutes on a day in miles': { ...twentyMinutes, unit: 'mi' },
  'a run of 20 minutes that the clock measured at 19:50.5': { ...twentyMinutes, offered: 1190.5 },
  'a run of 20 minutes on a treadmill at 3 m/s': treadmill,
  'a run of 30 seconds': { ...twentyMinutes, seconds: 30 },
  'an item of prep': foamRoll,
  'food of 75 g carbs, 20 g protein and 10 g fat': porridge,
}

function shown<Value>(reading: Reading<Value>, printed: (value: Value) => string): string {
  if (reading.outcome === 'answer') return printed(reading.value)
  if (reading.outcome === 'error') return `refused: ${reading.message}`
  const { message, suggested, insisted } = reading
  return [message, suggested && `Enter ${suggested.text}`, insisted && `! ${printed(insisted)}`]
    .filter((text) => text !== null)
    .join(' | ')
}

const readingOf = (typed: string, what: Prompt | Prompt[]) =>
  Array.isArray(what)
    ? shown(readEntries(typed, what), (answers) => printEntries(answers, what).join(', '))
    : shown(readEntry(typed, what), (answer) => printEntry(answer, what))

testSituations(new URL('golden/entries.txt', import.meta.url), ({ situation, typed }) => {
  const what = asked[situation]
  if (what === undefined) throw new Error(`nothing is asked for as in "${situation}"`)
  return readingOf(typed, what)
})

it('a target is never a result: what is not known must be typed', () => {
  for (const prompt of [mile, unknownLoad, asManyAsGo, roundsIn, forTime])
    expect(readEntry('', prompt).outcome).toBe('error')
  for (const prompt of [straight, cluster, hold, easyTwo, twentyMinutes, foamRoll, porridge])
    expect(readEntry('', prompt).outcome).toBe('answer')
})
