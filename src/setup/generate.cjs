const { mkdirSync, mkdtempSync, readFileSync, rmSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { dirname, join } = require('node:path')
const { pathToFileURL } = require('node:url')
const { root, changedAt, writeWhole } = require('./root.cjs')

const source = join(root, 'src')
const notation = 'prescription/generated/notation'
const outputs = [notation, 'prescription/generated/shapes', 'logbook/generated/shapes'].flatMap((path) => [
  `${path}.js`,
  `${path}.d.ts`,
])

/** Generates the code in the folders `generated` from the grammar and the schemas, when any source is newer. */
exports.generate = async function generate() {
  const made = Math.min(...outputs.map((path) => changedAt(join(source, path))))
  const changed = changedAt(source, (path) => path.endsWith('generated'))
  if (made > Math.max(changed, changedAt(join(root, 'package-lock.json')))) return
  const { compiledTexts } = await bundledAlone('src/setup/shapes.ts')
  const texts = { [notation]: compileGrammar(), ...compiledTexts() }
  // Create the folders first: a new folder makes its parent newer, and every generated file must be newer than that.
  for (const path of Object.keys(texts)) mkdirSync(dirname(join(source, path)), { recursive: true })
  for (const [path, { text, types }] of Object.entries(texts)) {
    writeWhole(join(source, `${path}.d.ts`), types)
    writeWhole(join(source, `${path}.js`), text)
  }
}

/** The exports of a TypeScript file of this project, bundled for this run only.
 * @param path below the folder of the project */
exports.bundled = async function bundled(path) {
  await exports.generate()
  return bundledAlone(path)
}

/** The parser of the notation, with its types. The grammar's own line `// Start rules: first, second` names the
 * rules that a reading may start from; without one it may start from any. */
function compileGrammar() {
  const text = readFileSync(join(source, 'prescription', 'notation.peggy'), 'utf8')
  const named = /^\/\/ Start rules: (.+)$/m.exec(text)
  const rules = named ? named[1].trim().split(/\s*,\s*/) : ['*']
  return { text: parserOf(require('peggy').generate, text, rules), types: typesOf(rules) }
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

function typesOf(rules) {
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

/** The exports of a TypeScript file that needs no generated code, bundled for this run only; dynamic imports are left
 * out.
 * @param path below the folder of the project */
async function bundledAlone(path) {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-bundled-'))
  try {
    const outfile = join(folder, 'bundled.mjs')
    await require('esbuild').build({
      entryPoints: [join(root, path)],
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
      logLevel: 'silent',
      plugins: [leftBehind],
      banner: {
        js: "import{createRequire as createRequireHere}from'node:module';const require=createRequireHere(import.meta.url);",
      },
    })
    return await import(pathToFileURL(outfile).href)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

const leftBehind = {
  name: 'left-behind',
  setup(build) {
    build.onResolve({ filter: /./ }, ({ kind, path }) =>
      kind === 'dynamic-import' ? { path, external: true } : undefined,
    )
  },
}
