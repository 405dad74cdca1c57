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
  const oldestOutput = Math.min(...outputs.map((path) => changedAt(join(source, path))))
  const changed = changedAt(source, (path) => path.endsWith('generated'))
  if (oldestOutput > Math.max(changed, changedAt(join(root, 'package-lock.json')))) return
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

/** The parser of the notation, with its types. The grammar's own line `// Start rules: first, second` names the rules
 * that a reading may start from. */
function compileGrammar() {
  const grammarSource = 'notation.peggy'
  const text = readFileSync(join(source, 'prescription', grammarSource), 'utf8')
  const allowedStartRules = /^\/\/ Start rules: (.+)$/m.exec(text)[1].split(', ')
  const options = { output: 'source', format: 'es', allowedStartRules, grammarSource }
  try {
    return { text: require('peggy').generate(text, options), types: typesOf(allowedStartRules) }
  } catch (error) {
    throw error.format ? new Error(error.format([{ source: grammarSource, text }])) : error
  }
}

const typesOf = (rules) => `import type { parser } from 'peggy'
export type Expected = parser.Expectation
interface Options { startRule: ${rules.map((rule) => `'${rule}'`).join(' | ')}; peg$library: true; [name: string]: unknown }
/** A text that the rule does not read: how far it can be read, and what could go on there. */
type Unread = { peg$success: false; peg$maxFailPos: number; peg$maxFailExpected: readonly Expected[] }
type Results = { peg$success: true; peg$result: unknown } | Unread
export function parse(input: string, options: Options): Results
`

const noModule = 'data:text/javascript,export default {}'

/** esbuild's options for everything here that it bundles. */
const bundling = {
  absWorkingDir: root,
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  minify: true,
  legalComments: 'none',
  logLevel: 'silent',
  jsx: 'automatic',
  // Ink loads React's developer tools, and a web socket for them, when the environment has DEV=true; here that is
  // always false.
  alias: { 'react-devtools-core': noModule, ws: noModule },
  define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
  banner: {
    js: "import{createRequire as createRequireHere}from'node:module';const require=createRequireHere(import.meta.url);",
  },
}
exports.bundling = bundling

/** The exports of a TypeScript file that needs no generated code, bundled for this run only; dynamic imports are left
 * out.
 * @param path below the folder of the project */
async function bundledAlone(path) {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-bundled-'))
  const outfile = join(folder, 'bundled.mjs')
  const leftOut = ({ kind, path }) => (kind === 'dynamic-import' ? { path, external: true } : undefined)
  const plugin = { name: 'left-out', setup: (build) => build.onResolve({ filter: /./ }, leftOut) }
  try {
    const options = { ...bundling, entryPoints: [path], outfile, plugins: [plugin], minify: false }
    await require('esbuild').build(options)
    return await import(pathToFileURL(outfile).href)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
