// Writes the JSON Schemas in shared/ anew: node src/setup/schemas.cjs
const { mkdtempSync, rmSync, writeFileSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { join } = require('node:path')
const { pathToFileURL } = require('node:url')
const { root } = require('./root.cjs')

async function main() {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-schemas-'))
  try {
    const outfile = join(folder, 'schemas.mjs')
    const entry = join(root, 'src', 'setup', 'schemas.ts')
    await require('esbuild').build({
      entryPoints: [entry],
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
    })
    const { publishedSchemas } = await import(pathToFileURL(outfile).href)
    for (const [name, schema] of Object.entries(publishedSchemas())) {
      writeFileSync(join(root, 'shared', name), `${JSON.stringify(schema, null, 2)}\n`)
      console.log(`shared/${name}`)
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

main()
