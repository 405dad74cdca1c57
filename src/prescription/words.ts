import { inSentence } from '../units/lists.ts'

/* The words of the notation that the schema, the grammar and the messages share. */

/** The kinds of parts, in the order in which messages name them, and the start rule of the grammar for their items. */
export const ruleOf = {
  prep: 'prepItem',
  run: 'runItem',
  cross: 'runItem',
  lift: 'liftItem',
  fuel: 'fuelItem',
} as const
export const partKinds = Object.keys(ruleOf) as (keyof typeof ruleOf)[]

/** As a sentence names them: `prep, run, cross, lift or fuel`. */
export const anyPartKind = inSentence(partKinds, 'or')

/** Done on one side after the other. */
export const sides = ['each side', 'each arm', 'each leg'] as const

/** How hard running is. The grammar lists them too. */
export const effortWords = [
  'easy',
  'steady',
  'tempo',
  'threshold',
  'hard',
  'fast',
  'strides',
  'relaxed',
  'all out',
  'warm-up',
  'cool-down',
  'race',
  'trial',
] as const

/** What a cross part is done on, or in, by the words in its lines. */
export const machines = ['bike', 'cycling', 'ride', 'row', 'rower', 'rowing', 'erg', 'ski', 'swim'] as const

/** A race or a time trial, by the word of a target. */
export function isRaceWord(word: string | null | undefined): word is 'race' | 'trial' {
  return word === 'race' || word === 'trial'
}

/** Those of one word that do not name the kind of run. */
export const plainEffortWords = effortWords.filter((word) => /^\w+$/.test(word) && !isRaceWord(word))

/** The first words of the clauses of a run or cross line, and of a lift line. */
export const runClauses = 'jog walk stand rest split negative lane grade hr every'.split(' ')
export const liftClauses = 'pause rest every tempo build'.split(' ')

/** The words of clauses and doses, which the athlete's own words may be misspelt for; `hr` is too short for that. */
export const clauseWords = [
  ...new Set([...liftClauses, ...'from then each side max amrap'.split(' '), ...runClauses]),
  ...'progression drop set last time'.split(' '),
].filter((word) => word !== 'hr')

export type LineRule = 'header' | (typeof ruleOf)[keyof typeof ruleOf]
