const { mkdirSync, readFileSync } = require('node:fs')
const { join } = require('node:path')
const { root, changedAt, writeWhole } = require('./root.cjs')

const grammar = join(root, 'src', 'prescription', 'notation.peggy')
const folder = join(root, 'src', 'prescription', 'generated')
const parser = join(folder, 'notation.js')
const parserTypes = join(folder, 'notation.d.ts')
/** The grammar, and what turns it into code: this file and peggy. */
const inputs = [grammar, __filename, join(root, 'package-lock.json')]

/** Compiles the notation's grammar to generated/notation.js with its types beside it, when something of
 * them has changed.
 * The rules that a reading may start from are named in the grammar's own line
 * `// Start rules: first, second`; without one it may start from any. */
exports.compileGrammar = function compileGrammar() {
  const made = Math.min(changedAt(parser), changedAt(parserTypes))
  if (made > Math.max(...inputs.map((path) => changedAt(path)))) return
  const { generate } = require('peggy')
  const text = readFileSync(grammar, 'utf8')
  const named = /^\/\/ Start rules: (.+)$/m.exec(text)
  const allowedStartRules = named ? named[1].trim().split(/\s*,\s*/) : ['*']
  const code = parserOf(generate, text, allowedStartRules)
  mkdirSync(folder, { recursive: true })
  writeWhole(parserTypes, types(allowedStartRules))
  writeWhole(parser, code)
}

function parserOf(generate, text, allowedStartRules) {
  try {
    return generate(text, {
      output: 'source',
      format: 'es',
      allowedStartRules,
      grammarSource: 'notation.peggy',
    })
  } catch (error) {
    throw error.format ? new Error(error.format([{ source: 'notation.peggy', text }])) : error
  }
}

function types(rules) {
  const names = rules[0] === '*' ? 'string' : rules.map((rule) => `'${rule}'`).join(' | ')
  return `interface Position { offset: number; line: number; column: number }
export interface Location { source: unknown; start: Position; end: Position }
export type Expected =
  | { type: 'literal'; text: string; ignoreCase: boolean }
  | { type: 'class'; parts: (string | [string, string])[]; inverted: boolean; ignoreCase: boolean }
  | { type: 'any' }
  | { type: 'end' }
  | { type: 'other'; description: string }
export class SyntaxError extends globalThis.SyntaxError {
  readonly expected: Expected[] | null
  readonly found: string | null
  readonly location: Location
}
interface Options { startRule?: ${names}; [name: string]: unknown }
/** \`peg$throw\` throws what the other kind of call throws. */
type Results = { peg$success: true; peg$result: unknown } | { peg$success: false; peg$throw: () => never }
export function parse(input: string, options: Options & { peg$library: true }): Results
export function parse(input: string, options?: Options): unknown
export const StartRules: string[]
`
}
