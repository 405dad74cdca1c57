/** https://no-color.org: a value that is not empty asks for no colour; FORCE_COLOR, which chalk reads, goes before it. */
const isColourful = !process.env.NO_COLOR || process.env.FORCE_COLOR !== undefined

/** The one colour with a meaning: what to do now. It is one of the terminal's own sixteen, so its user has chosen the
 * shade; a mark or a word always says the same. Without colour bold and reversed text stay. */
export const accent = isColourful ? 'cyan' : undefined
