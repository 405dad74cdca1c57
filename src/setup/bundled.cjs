const { bundledAlone } = require('./bundledAlone.cjs')
const { generate } = require('./generate.cjs')

/** What a TypeScript file of ours exports, bundled for this run only.
 * @param path below the folder of the project */
exports.bundled = async function bundled(path) {
  await generate()
  return bundledAlone(path)
}
