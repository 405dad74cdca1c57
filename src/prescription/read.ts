import type { Prescription } from './model.ts'
import type { ReadingDefaults } from './openDay.ts'
import { mostProblems, type Problem } from './problem.ts'
import { readDay } from './readDay.ts'
import { readJson } from './readJson.ts'
import { textOf } from './split.ts'

export type Reading = { prescription: Prescription; warnings: Problem[] } | { problems: Problem[] }

/** Reads a day: the notation, or JSON when the first character that is not blank is `{`. Never throws.
 * Every problem is told, up to a hundred and one (the last stands for all that follow); printProblems writes
 * them out. Warnings do not keep a day from being read.
 * @param input at most 1 MiB of UTF-8 */
export function readPrescription(input: Uint8Array | string, defaults: ReadingDefaults = {}): Reading {
  const read = textOf(input)
  if ('message' in read) return { problems: [read] }
  const isJson = read.bytes === null && firstCharacter(read.text) === '{'
  const { prescription, problems } = isJson
    ? readJson(read.text, defaults)
    : readDay(read.text, read.bytes, defaults)
  if (prescription !== null) return { prescription, warnings: problems.slice(0, mostProblems) }
  return { problems: problems.filter(({ severity }) => severity === 'error').slice(0, mostProblems + 1) }
}

function firstCharacter(text: string): string {
  return text[text.search(/\S/)] ?? ''
}
