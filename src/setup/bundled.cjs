const { mkdtempSync, rmSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { join } = require('node:path')
const { pathToFileURL } = require('node:url')
const { root } = require('./root.cjs')
const { compileGrammar } = require('./grammar.cjs')

/** What a TypeScript file of ours exports, bundled for this run only.
 * @param path below the folder of the project */
exports.bundled = async function bundled(path) {
  compileGrammar()
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
      banner: {
        js: "import{createRequire as createRequireHere}from'node:module';const require=createRequireHere(import.meta.url);",
      },
    })
    return await import(pathToFileURL(outfile).href)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
