/** The one colour with a meaning: what to do now. It is one of the terminal's own sixteen, so its user has chosen the
 * shade; a mark or a word always says the same. */
export const accent = 'cyan'
