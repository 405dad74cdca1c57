import type { Answer, Asked } from './asked.ts'

/* Times that rise like those of a stopwatch that was never reset. */

/** How far the pace of a difference may be from the first time's. */
const likeliest = { from: 2 / 3, to: 3 / 2 }

/** The results that running totals stand for; null when these are none: every difference must be about as
 * fast as the first time was.
 * @param asked of each answer */
export function differencesOf(answers: readonly Answer[], asked: readonly Asked[]): Answer[] | null {
  if (answers.length < 2) return null
  const totals: { seconds: number; meters: number }[] = []
  for (const [index, answer] of answers.entries()) {
    const piece = asked[index]
    if (answer.kind !== 'piece' || piece?.kind !== 'piece' || piece.meters === null) return null
    if (answer.result.seconds === null || answer.result.meters === null) return null
    totals.push({ seconds: answer.result.seconds, meters: answer.result.meters })
  }
  const own = totals.map(
    (total, index) => Math.round((total.seconds - (totals[index - 1]?.seconds ?? 0)) * 100) / 100,
  )
  const pace = (own[0] ?? 0) / (totals[0]?.meters ?? 1)
  const isLike = own.every((seconds, index) => {
    const share = seconds / (totals[index]?.meters ?? 1) / pace
    return share >= likeliest.from && share <= likeliest.to
  })
  if (!isLike) return null
  const finest = Math.min(
    ...answers.map((answer) => (answer.kind === 'piece' ? (answer.result.precision ?? 1) : 1)),
  )
  return answers.map((answer, index) =>
    answer.kind === 'piece'
      ? { ...answer, result: { ...answer.result, seconds: own[index] ?? null, precision: finest } }
      : answer,
  )
}
