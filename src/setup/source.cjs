const { mkdtempSync, rmSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { join } = require('node:path')
const { pathToFileURL } = require('node:url')
const { root } = require('./root.cjs')

/** What a TypeScript file of src/ exports, for the scripts of the set-up. What it imports only when it is
 * called stays behind.
 * @param path relative to src/ */
exports.readSource = async function readSource(path) {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-source-'))
  try {
    const outfile = join(folder, 'source.mjs')
    await require('esbuild').build({
      absWorkingDir: root,
      entryPoints: [join('src', path)],
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
      logLevel: 'silent',
      plugins: [leftBehind],
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
