const { chmodSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } = require('node:fs')
const { dirname, join, relative } = require('node:path')
const { compileGrammar } = require('./grammar.cjs')
const { noticeOf } = require('./notice.cjs')
const { version } = require('../../package.json')
const { root, changedAt } = require('./root.cjs')
const { bundled } = require('./bundled.cjs')

const target = join(root, 'dist')

/** Builds dist/ when the sources are newer: pausebook.js, the chunks that it loads when they are needed, the
 * licences of what is bundled, the manual page and the completions. */
exports.build = async function build() {
  compileGrammar()
  const sources = ['src', 'package.json', 'package-lock.json'].map((path) => changedAt(join(root, path)))
  if (Math.max(...sources) < changedAt(join(target, 'pausebook.js'))) return
  const beside = join(root, `dist.${process.pid}`)
  try {
    const { metafile } = await bundle(beside)
    const { documents } = await bundled('src/setup/documents.ts')
    const texts = { NOTICE: noticeOf(Object.keys(metafile.inputs)), ...documents(version) }
    for (const [path, text] of Object.entries(texts)) {
      mkdirSync(dirname(join(beside, path)), { recursive: true })
      writeFileSync(join(beside, path), text)
    }
    chmodSync(join(beside, 'pausebook.js'), 0o755)
    replace(beside)
  } finally {
    rmSync(beside, { recursive: true, force: true })
  }
}

function bundle(outdir) {
  return require('esbuild').build({
    absWorkingDir: root,
    entryPoints: { pausebook: 'src/cli.ts' },
    outdir,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minify: true,
    metafile: true,
    legalComments: 'none',
    logLevel: 'silent',
    chunkNames: 'parts/[name]-[hash]',
    plugins: [noDeveloperTools],
    define: { 'process.env.NODE_ENV': '"production"' },
    // Bundled CommonJS packages call require() for Node's own modules.
    banner: {
      js: "import{createRequire as createRequireHere}from'node:module';const require=createRequireHere(import.meta.url);",
    },
  })
}

/** Ink loads React's developer tools when DEV is set: an empty file stands in for them. */
const noDeveloperTools = {
  name: 'no-developer-tools',
  setup(build) {
    const empty = { path: join(__dirname, 'empty.cjs') }
    build.onResolve({ filter: /^\.\/devtools\.js$/ }, () => empty)
  },
}

/** File by file, the entry last: a program that starts meanwhile finds all that it asks for. */
function replace(beside) {
  const fresh = filesIn(beside).sort((a, b) => Number(a === 'pausebook.js') - Number(b === 'pausebook.js'))
  for (const file of fresh) {
    mkdirSync(dirname(join(target, file)), { recursive: true })
    renameSync(join(beside, file), join(target, file))
  }
  for (const file of filesIn(join(target, 'parts'))) {
    if (!fresh.includes(join('parts', file))) rmSync(join(target, 'parts', file))
  }
}

function filesIn(folder) {
  if (!statSync(folder, { throwIfNoEntry: false })) return []
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)))
}
