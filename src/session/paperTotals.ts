import type { Problem } from '../prescription/problem.ts'
import { printEntry } from './entryPrint.ts'
import { differencesOf } from './entryTotals.ts'
import { problemAt } from './paperLines.ts'
import type { PaperAnswer } from './paperModel.ts'

/** Times of one work that rise from line to line like those of a stopwatch that was never reset, a problem
 * each time unless one of the lines insists. */
export function paperTotals(answers: readonly PaperAnswer[]): Problem[] {
  return worksOf(answers).flatMap((work) => {
    const first = work[0]
    if (first === undefined || work.some(({ entry }) => entry.insists)) return []
    const asked = work.map((each) => each.asked)
    const differences = differencesOf(
      work.map(({ answer }) => answer),
      asked,
    )
    if (differences === null) return []
    const last = work.at(-1) ?? first
    const typed = differences.map((answer, index) => {
      const what = asked[index]
      return what === undefined ? '' : printEntry(answer, what)
    })
    const lines = `lines ${first.entry.place.line} to ${last.entry.place.line}`
    const message = `running totals? The times of ${lines} come from ${typed.join(', ')}: write these, or, where they are right, end one of the lines with !!`
    return [problemAt(first.entry.place, message)]
  })
}

/** Answers of the same work that follow each other. */
function worksOf(answers: readonly PaperAnswer[]): PaperAnswer[][] {
  const works: PaperAnswer[][] = []
  for (const answer of answers) {
    const before = works.at(-1)
    const last = before?.at(-1)
    if (before !== undefined && last !== undefined && isSameWork(last, answer)) before.push(answer)
    else works.push([answer])
  }
  return works
}

function isSameWork({ step: one }: PaperAnswer, { step: other }: PaperAnswer): boolean {
  if (one.kind !== 'piece' || other.kind !== 'piece') return false
  return one.part === other.part && one.item === other.item && one.work === other.work
}
