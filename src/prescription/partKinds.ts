/** The kinds of parts, in the order in which they are named. The grammar has them too. */
export const partKinds = ['prep', 'run', 'cross', 'lift', 'fuel'] as const
export type PartKind = (typeof partKinds)[number]

/** As a sentence names them: `prep, run, cross, lift or fuel`. */
export const anyPartKind = `${partKinds.slice(0, -1).join(', ')} or ${partKinds.at(-1)}`
