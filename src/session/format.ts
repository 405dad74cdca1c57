/** The format of the sessions this program writes. A newer one is refused. */
export const sessionFormat = 1
