const { readdirSync, readFileSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')

/** The names, versions and licences of the packages that went into the bundle.
 * @param inputs paths of the bundled files, relative to the project */
exports.noticeOf = function noticeOf(inputs) {
  const folders = new Set(inputs.map(packageFolderOf).filter((folder) => folder !== null))
  const entries = [...folders].sort().map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'))
    const file = readdirSync(join(root, folder)).find((file) => /^(licen[cs]e|copying)/i.test(file))
    const text = file ? readFileSync(join(root, folder, file), 'utf8').trim() : `Licence: ${license}`
    return `${name} ${version} (${license})\n\n${text}\n`
  })
  return `Pausebook contains the packages below, each under its own licence.\n\n${entries.join(`\n${'-'.repeat(80)}\n\n`)}`
}

/** The last node_modules/NAME or node_modules/@SCOPE/NAME in a path; null for our own files. */
function packageFolderOf(path) {
  const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path)
  return found ? found[1] : null
}
