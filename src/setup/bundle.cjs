const { readFileSync, realpathSync } = require('node:fs')
const { join, resolve } = require('node:path')
const { root } = require('./root.cjs')

/* The bundle: parts that are loaded when they are needed. They are split as ES modules, for esbuild splits no
 * others, and written as CommonJS, for that is what Node starts faster and what V8 compiles ahead. */

/** @returns `files`: the parts' code by their path in dist/; `start`: the part that begins; `inputs`: what was
 * bundled */
exports.bundle = async function bundle() {
  const { build } = require('esbuild')
  const { outputFiles, metafile } = await build({
    absWorkingDir: root,
    entryPoints: { start: 'src/cli.ts' },
    outdir: join(root, 'parts'),
    write: false,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minify: true,
    metafile: true,
    legalComments: 'none',
    logLevel: 'silent',
    entryNames: '[name]-[hash]',
    chunkNames: '[name]-[hash]',
    plugins: [changedPackages, afterYoga, lateModules],
    define: { 'process.env.NODE_ENV': '"production"', 'import.meta.url': partUrl },
  })
  const inputs = Object.keys(metafile.inputs)
  allChanged(inputs)
  const parts = outputFiles.map(({ path, text }) => ({
    path: `parts/${path.slice(join(root, 'parts').length + 1)}`,
    text,
  }))
  const files = await Promise.all(parts.map(async ({ path, text }) => [path, await commonJsOf(text)]))
  const start = parts.find(({ path }) => path.startsWith('parts/start-')).path
  return { files: Object.fromEntries(files), start, inputs }
}

const partUrl = 'pausebookPartUrl'

async function commonJsOf(text) {
  const { transform } = require('esbuild')
  const { code } = await transform(text, {
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    minify: true,
    supported: { 'dynamic-import': false },
  })
  const url = `const ${partUrl}=require("node:url").pathToFileURL(__filename).href;`
  return asciiOf(code.includes(partUrl) ? `${url}${code}` : code)
}

/** Parts are read as Latin-1 (entry.cjs), which is right for ASCII alone. esbuild escapes what stands in strings, but
 * leaves regular expressions as they are. */
function asciiOf(code) {
  return code.replace(/[^\0-\x7F]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`)
}

/** Characters that are one column wide by all rules of string-width: printable ASCII, Latin-1, dashes and quotes,
 * arrows, the frames and blocks that screens are drawn of, a check mark. A test asks string-width itself. */
const oneColumn =
  '\\u0020-\\u007E\\u00A1-\\u00AC\\u00AE-\\u00FF\\u2013\\u2014\\u2018-\\u201D\\u2026\\u2190-\\u2193\\u2500-\\u259F\\u2713'
exports.oneColumn = oneColumn

/** What is left out of packages, made shorter, or waits: each text has to be there. */
const changes = {
  // It knows ASCII at once; for the rest it first compiles the list of all emoji.
  'string-width/index.js': (code) =>
    replaced(lateSegmenter(code), '/^[\\u0020-\\u007E]*$/.test(string)', `/^[${oneColumn}]*$/.test(string)`),
  'wrap-ansi/node_modules/string-width/index.js': (code) => lateSegmenter(code),
  'slice-ansi/tokenize-ansi.js': (code) => lateSegmenter(code),
  '@alcalzone/ansi-tokenize/build/tokenize.js': (code) => lateSegmenter(code),
  // Characters of one style share it, so that a line takes a tenth of the memory, and it is seen at once that between
  // them nothing changes.
  '@alcalzone/ansi-tokenize/build/styledChars.js': (code) =>
    [
      [
        /\.\.\.token,\s*styles: \[\.\.\.codes\],/,
        'type: token.type, value: token.value, fullWidth: token.fullWidth, styles: codes,',
      ],
      ['else {', 'else if (char.styles !== chars[i - 1].styles) {'],
    ].reduce((changed, [before, after]) => replaced(changed, before, after), code),
  // It is decoded from text in the file itself, for which no network module is needed.
  'yoga-layout/dist/binaries/yoga-wasm-base64-esm.js': (code) =>
    replaced(code, 'w||"function"!=typeof fetch?Promise', 'true?Promise'),
  // What a line of text is made of, and what a row of cells reads as, is kept from one frame to the next.
  'ink/build/output.js': (code) =>
    [
      ['caches = new OutputCaches();', 'caches = keptCaches();'],
      [/row\.push\(\{[^}]*\}\);/, 'row.push(blank);'],
      ['.map(line => {\n            // See', '.map((line, row) => {\n            // See'],
      ['styledCharsToString(lineWithoutEmptyItems).trimEnd()', 'keptText(lineWithoutEmptyItems, row)'],
    ].reduce((changed, [before, after]) => replaced(changed, before, after), code) + keptBetweenFrames,
  // Developer tools that a variable of the environment would load.
  'ink/build/reconciler.js': (code) =>
    replaced(replaced(code, 'if (isDev())', 'if (false)'), '= isDev()', '= false'),
  // For commands that are programs of their own; there are none here.
  'commander/lib/command.js': (code) => replaced(code, "require('node:child_process')", '{}'),
  // A module that awaits at its top level is loaded by nothing but ES modules.
  'yoga-layout/dist/src/index.js': (code) =>
    replaced(
      code,
      'const Yoga = wrapAssembly(await loadYoga());',
      'const Yoga = {}; export const ready = loadYoga().then((loaded) => void Object.assign(Yoga, wrapAssembly(loaded)));',
    ),
}

/** What takes text apart into the characters that people see takes ten milliseconds to make, and is rarely asked. */
function lateSegmenter(code) {
  return replaced(
    code,
    /new Intl\.Segmenter\([^)]*\)/,
    (made) => `({
  segment(text) { return (this.made ??= ${made}).segment(text) },
})`,
  )
}

const keptBetweenFrames = `
const blank = { type: 'char', value: ' ', fullWidth: false, styles: [] };
let caches = new OutputCaches();
function keptCaches() {
  if (caches.styledChars.size > 250 || caches.widths.size + caches.blockWidths.size > 2000) caches = new OutputCaches();
  return caches;
}
const rows = [];
function keptText(cells, row) {
  const kept = rows[row];
  if (kept && kept.cells.length === cells.length && cells.every((cell, x) => cell === kept.cells[x])) return kept.text;
  const text = styledCharsToString(cells).trimEnd();
  rows[row] = { cells, text };
  return text;
}
`

/** Where a file of a package really lies, as esbuild names it. */
function installed(path) {
  return join(realpathSync(join(root, 'node_modules')), path)
}

/** A change of a file that lies elsewhere by now would be left out without a word. */
function allChanged(inputs) {
  const files = new Set(inputs.map((input) => resolve(root, input)))
  const missed = Object.keys(changes).find((path) => !files.has(installed(path)))
  if (missed === undefined) return
  throw new Error(
    `node_modules/${missed} is not in the bundle: look for where it lies now and correct src/setup/bundle.cjs.`,
  )
}

const changedPackages = {
  name: 'changed-packages',
  setup(build) {
    const changed = new Map(Object.entries(changes).map(([path, change]) => [installed(path), change]))
    build.onLoad({ filter: /node_modules/ }, ({ path }) => {
      const change = changed.get(path)
      return change && { contents: change(readFileSync(path, 'utf8')), loader: 'js' }
    })
  },
}
exports.changedPackages = changedPackages

function replaced(code, before, after) {
  const isThere = typeof before === 'string' ? code.includes(before) : before.test(code)
  if (isThere) return code.replace(before, typeof after === 'string' ? () => after : after)
  throw new Error(`A package has changed: look for ${before} in it and correct src/setup/bundle.cjs.`)
}

/** The app is begun when the layout engine is there. */
const afterYoga = {
  name: 'after-yoga',
  setup(build) {
    build.onResolve({ filter: /\/app\/openApp\.ts$/ }, ({ path, kind, resolveDir }) =>
      kind === 'dynamic-import' ? { path: join(resolveDir, path), namespace: 'after-yoga' } : undefined,
    )
    build.onLoad({ filter: /./, namespace: 'after-yoga' }, ({ path }) => ({
      contents: `import { ready } from 'yoga-layout'
import * as app from ${JSON.stringify(path)}
export const openApp = async (given) => {
  // With nothing to wait for, Node would wait for all that V8 compiles in the background.
  const waiting = setInterval(() => {}, 1 << 30)
  await ready
  const opened = app.openApp(given)
  clearInterval(waiting)
  return opened
}`,
      loader: 'js',
      resolveDir: join(root, 'src'),
    }))
  },
}

/** Modules of Node's that take their time to load, and of which functions are rarely called. */
const late = {
  'node:child_process': ['execFileSync', 'spawn', 'spawnSync'].map(called('node:child_process')).join('\n'),
  'node:crypto': `export const webcrypto = {
  getRandomValues: (values) => require('node:crypto').webcrypto.getRandomValues(values),
}`,
  'node:tty': `${['isatty', 'WriteStream'].map(called('node:tty')).join('\n')}
export default { isatty, WriteStream }`,
}

function called(module) {
  return (name) => `export const ${name} = (...given) => require('${module}').${name}(...given)`
}

const lateModules = {
  name: 'late-modules',
  setup(build) {
    build.onResolve({ filter: /^node:/ }, ({ path, namespace, kind }) =>
      kind === 'import-statement' && namespace !== 'late' && path in late
        ? { path, namespace: 'late' }
        : undefined,
    )
    build.onLoad({ filter: /./, namespace: 'late' }, ({ path }) => ({ contents: late[path], loader: 'js' }))
  },
}
