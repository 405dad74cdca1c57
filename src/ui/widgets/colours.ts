/** https://no-color.org: a non-empty value turns colours off; FORCE_COLOR, which chalk reads, takes precedence. */
const isColourful = !process.env.NO_COLOR || process.env.FORCE_COLOR !== undefined

/** The one colour with a meaning: what to do now. It is one of the terminal's own sixteen, so its user has chosen the
 * shade. A mark or a word always says the same. Without colour, bold and reversed text remain. */
export const accent = isColourful ? 'cyan' : undefined
