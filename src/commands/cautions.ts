/** What anybody has to know before training by figures; in the help and the manual. */
export const cautions = `Pausebook is no coach, physician or dietitian. If in doubt, get cleared before hard training. Stop for chest
pain, faintness, unusual breathlessness or sharp pain. Lift with collars and safeties or a spotter; an
estimated maximum is not an attempt to make. A professional's word goes before any figure printed here.
`
