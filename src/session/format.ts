/** The newest format of a session that this program writes; a newer one is refused, never guessed at. */
export const sessionFormat = 1
