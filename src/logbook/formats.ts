/** The newest format of settings.json that this program writes; a newer one is refused. */
export const settingsFormat = 1

/** The newest format of a year of mornings that this program writes; a newer one is refused. */
export const morningFormat = 1
