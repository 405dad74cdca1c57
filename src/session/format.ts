/** The format of the sessions this program writes. A newer one is refused rather than guessed at. */
export const sessionFormat = 1
