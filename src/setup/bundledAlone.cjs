const { mkdtempSync, rmSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { join } = require('node:path')
const { pathToFileURL } = require('node:url')
const { root } = require('./root.cjs')

/** What a TypeScript file of ours exports that needs nothing generated, bundled for this run only. What it imports when it is
 * called stays behind.
 * @param path below the folder of the project */
exports.bundledAlone = async function bundledAlone(path) {
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
