const { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, utimesSync } = require('node:fs')
const { dirname, join, posix, relative, sep } = require('node:path')
const { version } = require('../../package.json')
const { bundled, bundling, generate } = require('./generate.cjs')
const { changedAt, root, writeWhole } = require('./root.cjs')

const dist = join(root, 'dist')
const entry = join(dist, 'pausebook.js')

/** Builds dist/ when the sources are newer: pausebook.js, the parts it loads on demand, the licences of the bundled
 * packages, the manual page and the completions. */
exports.build = async function build() {
  await generate()
  const sources = ['src', 'package.json', 'package-lock.json'].map((path) => changedAt(join(root, path)))
  if (Math.max(...sources) < changedAt(entry)) return
  const begun = new Date()
  const { outputFiles, metafile } = await require('esbuild').build({
    ...bundling,
    entryPoints: { pausebook: 'src/setup/entry.js' },
    outdir: 'dist',
    chunkNames: 'parts/[name]-[hash]',
    splitting: true,
    metafile: true,
    write: false,
  })
  const { documents } = await bundled('src/setup/documents.ts')
  const files = {
    ...Object.fromEntries(outputFiles.map(({ path, text }) => [relative(dist, path), text])),
    NOTICE: noticeOf(Object.keys(metafile.inputs)),
    ...documents(version),
  }
  // Write the entry last: a program that starts meanwhile finds all its parts.
  const order = Object.keys(files).sort((a, b) => Number(a === 'pausebook.js') - Number(b === 'pausebook.js'))
  for (const path of order) {
    mkdirSync(dirname(join(dist, path)), { recursive: true })
    writeWhole(join(dist, path), files[path])
  }
  chmodSync(entry, 0o755)
  // A source saved during the build counts as newer than the build.
  utimesSync(entry, begun, begun)
  for (const name of readdirSync(dist, { recursive: true })) {
    if (/\.(js|json)$/.test(name) && !(name in files)) rmSync(join(dist, name), { force: true })
  }
}

/** Names, versions and licences of the bundled packages and of those that they depend on.
 * @param inputs paths of the bundled files, relative to the project
 * @throws Error for a package without a licence text */
function noticeOf(inputs) {
  const entries = packagesIn(inputs).map((folder) => {
    const { name, version, license } = manifestIn(join(root, folder))
    return `${name} ${version} (${license})\n\n${licenceOf(name, join(root, folder))}\n`
  })
  return `Pausebook contains packages of others, each under its own licence. Here they are, with those that they depend on.\n\n${entries.join(`\n${'-'.repeat(80)}\n\n`)}`
}

/** The folders of the bundled packages and of those that they depend on: a package may be published with another one's
 * code inside its own files.
 * @param inputs paths of the bundled files, relative to the project
 * @param project its folder
 * @returns relative to the project, with slashes, sorted */
exports.packagesIn = packagesIn
function packagesIn(inputs, project = root) {
  const folders = new Set(
    inputs.flatMap((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path) ?? []),
  )
  // The loop also visits what is added to the set meanwhile.
  for (const folder of folders) {
    for (const name of Object.keys(manifestIn(join(project, folder)).dependencies ?? {}))
      folders.add(installedFor(folder, name, project))
  }
  return [...folders].sort()
}

/** The folder in which Node finds a package that another one asks for. */
function installedFor(folder, name, project) {
  for (let from = folder; ; from = posix.dirname(from)) {
    const found = posix.join(from, 'node_modules', name)
    if (existsSync(join(project, found))) return found
    if (from === '.')
      throw new Error(`${folder} needs the package ${name}, which is not installed. Run npm ci.`)
  }
}

function manifestIn(folder) {
  return JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
}

/** The licence and the notices in a package's folder, or the text in licences/ if the package has none. */
exports.licenceOf = licenceOf
function licenceOf(name, folder) {
  const fallback = join(__dirname, 'licences', `${name}.txt`)
  const found = readdirSync(folder)
    .filter((file) => /^(licen[cs]e|copying|notice)/i.test(file))
    .sort()
  const paths = found.some((file) => !/^notice/i.test(file))
    ? found.map((file) => join(folder, file))
    : [fallback]
  if (!paths.every((path) => existsSync(path)))
    throw new Error(
      `The package ${name} has no licence file. Put its licence text into ${relative(root, fallback).split(sep).join('/')}.`,
    )
  return paths.map((path) => readFileSync(path, 'utf8').trim()).join('\n\n')
}
