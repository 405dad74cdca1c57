import { equationNames } from '../equations.ts'
import {
  type ClusterSet,
  estimateClusterSet,
  estimateStraightSet,
  reserveOf,
  type StraightSet,
} from '../oneRepMax.ts'
import { type Effort, equationLines, equationSources, estimateLines, reserveLine } from './estimateSteps.ts'
import { figure, num } from './figure.ts'

/** Source: see the entries. */
export const strengthFigures = {
  'one-rep-max': figure<StraightSet>({
    name: 'one-rep-max',
    title: 'Estimated one-repetition maximum, straight set',
    aliases: ['1rm', 'e1rm', 'one-repetition-maximum', 'estimate', 'maximum', ...equationNames],
    equation: [
      'n = repetitions + r,  r = 10 - RPE',
      ...equationLines,
      'range: the lowest of the seven at max(repetitions, n - 1) to the highest at n + 1',
      'after RPE 7 to 9; both ends at n where nothing was in reserve',
    ],
    symbols: [
      {
        symbol: 'w',
        meaning: 'load; with a bodyweight exercise body + added, and the body is taken off again',
        unit: 'kg',
      },
      { symbol: 'n', meaning: 'repetitions that would have gone until failure', unit: '-' },
      {
        symbol: 'r',
        meaning: 'repetitions in reserve; 0 for RPE 9.5 and 10, a failed one, or as many as go',
        unit: '-',
      },
    ],
    sources: [
      ...equationSources,
      'Zourdos 2016',
      'LeSuer 1997',
      'Reynolds 2006',
      'Halperin 2022',
      'Common practice',
    ],
    holds: 'up to 10 repetitions, in sets near failure (RPE 7 and more), done without a pause.',
    holdsNot:
      'for more repetitions, for sets far from failure, for a cluster set, for timed or carried sets. The seven disagree: the spread is shown. They read low for deadlifts (LeSuer 1997; from memory). After a run it is not a fresh one, and is marked. It is not an attempt to make.',
    example: { kg: 100, reps: 5, rpe: 8, failed: false, openEnded: false, equation: 'wathan' },
    work: (set) => {
      const reserve = reserveOf(set)?.reserve ?? 0
      const n = set.reps + reserve
      return estimateLines(
        set,
        [`n = ${num(set.reps)} + ${num(reserve)} = ${num(n)}`],
        estimateStraightSet(set),
        n,
      )
    },
  }),
  'cluster-one-rep-max': figure<ClusterSet>({
    name: 'cluster-one-rep-max',
    title: 'Estimated one-repetition maximum, cluster set',
    aliases: ['cluster', 'cluster-1rm', 'cluster-estimate'],
    equation: [
      'n low = max(largest group, last group + r)',
      'n high = all repetitions + r',
      'figure: the chosen equation at n low (see one-rep-max)',
      'range: the lowest of the seven at n low to the highest at n high; open above 12',
    ],
    symbols: [
      { symbol: 'n low', meaning: 'as if only the longest unbroken group counted', unit: '-' },
      { symbol: 'n high', meaning: 'as if there had been no pause', unit: '-' },
      { symbol: 'r', meaning: 'repetitions in reserve after the last group', unit: '-' },
    ],
    sources: ['Iglesias-Soler 2014', 'Zourdos 2016', ...equationSources, 'Invented'],
    holds: 'as a range: the truth lies between no pause and the longest group alone.',
    holdsNot:
      'as one number beside straight sets: the equations were fitted on unbroken sets. The total of a cluster set is never put into them (nine judokas with a load they could lift four times did 45.5 +- 32 repetitions with about 45 s between them).',
    example: { kg: 92.5, groups: [1, 1, 1], rpe: 8, failed: false, openEnded: false, equation: 'wathan' },
    work: (set) => {
      const reserve = reserveOf(set)?.reserve ?? 0
      const done = set.groups.slice(0, set.groups.findLastIndex((reps) => reps > 0) + 1)
      const [largest, last] = [Math.max(0, ...done), done.at(-1) ?? 0]
      const total = done.reduce((sum, reps) => sum + reps, 0)
      const low = Math.max(largest, last + reserve)
      const lines = [
        `n low = max(${largest}, ${last} + ${num(reserve)}) = ${num(low)}`,
        `n high = ${total} + ${num(reserve)} = ${num(total + reserve)}`,
      ]
      return estimateLines(set, lines, estimateClusterSet(set), low)
    },
  }),
  'repetitions-in-reserve': figure<Effort>({
    name: 'repetitions-in-reserve',
    title: 'Repetitions in reserve, and RPE',
    aliases: ['rpe', 'rir', 'reserve'],
    equation: ['r = 10 - RPE'],
    symbols: [
      { symbol: 'r', meaning: 'repetitions that would still have gone', unit: '-' },
      {
        symbol: 'RPE',
        meaning: 'effort of a set, 1 to 10 in halves: 10 nothing left, 9 one, 8 two, 7 three',
        unit: '-',
      },
    ],
    sources: ['Zourdos 2016', 'Hackett 2017', 'Halperin 2022', 'Common practice'],
    holds: 'near failure: with up to five in reserve lifters are off by about one repetition (Hackett 2017).',
    holdsNot:
      'far from failure, where lifters are off by more (Halperin 2022): below RPE 7 no estimate is made, a limit of common practice. It is another scale than the effort of a part.',
    example: { rpe: 8.5, failed: false, openEnded: false },
    work: (effort) => [reserveLine(effort)],
  }),
}
