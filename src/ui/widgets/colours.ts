/** The one colour with a meaning: what is to be done now. One of the terminal's own sixteen, so that its user
 * has chosen it; a mark or a word always stands beside it. */
export const accent = 'cyan'
