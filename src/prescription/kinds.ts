import { inSentence } from '../units/lists.ts'

/* Words that the schema, the grammar and the messages share. */

/** The kinds of parts, in the order in which messages name them. The grammar lists them too. */
export const partKinds = ['prep', 'run', 'cross', 'lift', 'fuel'] as const

/** As a sentence names them: `prep, run, cross, lift or fuel`. */
export const anyPartKind = inSentence(partKinds, 'or')

/** Done on one side after the other. */
export const sides = ['each side', 'each arm', 'each leg'] as const
