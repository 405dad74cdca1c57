// npm run docs: writes what the program prints now into README.md and the manual, draws the pictures, and writes the
// published schemas.
const { existsSync, mkdirSync, readFileSync, writeFileSync } = require('node:fs')
const { dirname, join } = require('node:path')
const { root } = require('./root.cjs')
const { bundled } = require('./generate.cjs')
const { install } = require('./install.cjs')
const { build } = require('./build.cjs')

async function main() {
  install()
  await build()
  // These need the packages.
  const { freshPages, pages } = require('./readme.cjs')
  const { pictures } = require('./pictures.cjs')
  const fresh = await freshPages(pages.map((page) => readFileSync(join(root, page), 'utf8')))
  pages.forEach((page, at) => {
    write(page, fresh[at])
  })
  const { publishedSchemas } = await bundled('src/setup/schemas.ts')
  for (const [name, schema] of Object.entries(publishedSchemas()))
    write(join('shared', name), `${JSON.stringify(schema, null, 2)}\n`)
  for (const [name, svg] of Object.entries(await pictures())) write(join('shared', 'pictures', name), svg)
}

function write(path, text) {
  const file = join(root, path)
  const isNew = !existsSync(file) || readFileSync(file, 'utf8') !== text
  mkdirSync(dirname(file), { recursive: true })
  if (isNew) writeFileSync(file, text)
  console.log(`${path}: ${isNew ? 'written' : 'as it was'}`)
}

main().catch((error) => {
  process.stderr.write(`pausebook: The documentation could not be made. ${error.message}\n`)
  process.exitCode = 1
})
