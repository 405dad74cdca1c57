/** What is said at the first start, and never again: what it is, and the cautions. */
export const firstWords = [
  'Pausebook walks you through the day on your whiteboard, keeps the rests, takes down what you did, and says what it was worth.',
  'Space moves on, Enter records, ? shows all keys.',
  'It is no coach, physician or dietitian. Get cleared before hard training if you are in doubt. Stop for chest pain, faintness, unusual breathlessness or sharp pain. Use collars, safeties or a spotter. An estimated maximum is not an attempt to make. Nutrition ranges are for healthy adults, and a word from a professional goes before them.',
]
