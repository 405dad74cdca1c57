/** The cautions for everybody who trains by figures. README, `--help`, the man page and the first start print them
 * in the same words. */
export const cautions =
  'Pausebook is not a coach, physician or dietitian. Get cleared before hard training if you are in doubt. Stop for ' +
  'chest pain, faintness, unusual breathlessness or sharp pain. Use collars, and safeties or a spotter. An estimated ' +
  "maximum is not an attempt to make. General nutrition ranges are for healthy adults, and a professional's word takes " +
  'precedence.'

/** What the program is, with the cautions. */
export const welcomeText = [
  'Pausebook walks you through the day on your whiteboard, keeps the rests, takes down what you did, and says what it was worth.',
  'Space moves on, Enter records, ? shows all keys.',
  cautions,
]
