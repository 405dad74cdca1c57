/** The newest format of settings.json that this program writes; a newer one is refused, never guessed at. */
export const settingsFormat = 1
