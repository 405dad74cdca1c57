// Writes the JSON Schemas in shared/ anew: node src/setup/schemas.cjs
const { writeFileSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')
const { bundled } = require('./generate.cjs')

async function main() {
  const { publishedSchemas } = await bundled('src/setup/schemas.ts')
  for (const [name, schema] of Object.entries(publishedSchemas())) {
    writeFileSync(join(root, 'shared', name), `${JSON.stringify(schema, null, 2)}\n`)
    console.log(`shared/${name}`)
  }
}

main()
