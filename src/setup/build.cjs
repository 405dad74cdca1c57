const {
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} = require('node:fs')
const { dirname, join, relative } = require('node:path')
const { generate } = require('./generate.cjs')
const { noticeOf } = require('./notice.cjs')
const { version } = require('../../package.json')
const { root, changedAt } = require('./root.cjs')
const { bundle } = require('./bundle.cjs')
const { bundled } = require('./bundled.cjs')
const { compile } = require('./compile.cjs')

const target = join(root, 'dist')

/** Builds dist/ when the sources are newer: pausebook.js, the chunks that it loads when they are needed, the
 * licences of what is bundled, the manual page and the completions. */
exports.build = async function build() {
  await generate()
  const sources = ['src', 'package.json', 'package-lock.json'].map((path) => changedAt(join(root, path)))
  if (Math.max(...sources) < changedAt(join(target, 'pausebook.js'))) return
  const beside = join(root, `dist.${process.pid}`)
  const begun = new Date()
  try {
    const { files, start, inputs } = await bundle()
    const { documents } = await bundled('src/setup/documents.ts')
    write(beside, {
      ...files,
      'pausebook.js': entryOf(start),
      // The package is one of ES modules, and the parts are not.
      'package.json': '{ "type": "commonjs" }\n',
      NOTICE: noticeOf(inputs),
      ...documents(version),
    })
    chmodSync(join(beside, 'pausebook.js'), 0o755)
    await compile(beside)
    // What is saved while it is built is newer than what was built.
    utimesSync(join(beside, 'pausebook.js'), begun, begun)
    replace(beside)
  } finally {
    rmSync(beside, { recursive: true, force: true })
  }
}

/** What runs first, with what turns an old Node away within it. */
function entryOf(start) {
  const [entry, node] = ['entry.cjs', 'node.cjs'].map((name) => readFileSync(join(__dirname, name), 'utf8'))
  return entry.replace("require('./node.cjs')\n", () => node).replace("'START'", `'./${start}'`)
}

function write(folder, files) {
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), text)
  }
}

/** File by file, the entry last: a program that starts meanwhile finds all that it asks for. */
function replace(beside) {
  const fresh = filesIn(beside).sort((a, b) => Number(a === 'pausebook.js') - Number(b === 'pausebook.js'))
  for (const file of fresh) {
    mkdirSync(dirname(join(target, file)), { recursive: true })
    renameSync(join(beside, file), join(target, file))
  }
  for (const file of filesIn(join(target, 'parts'))) {
    if (!fresh.includes(join('parts', file))) rmSync(join(target, 'parts', file), { force: true })
  }
}

function filesIn(folder) {
  if (!statSync(folder, { throwIfNoEntry: false })) return []
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)))
}
