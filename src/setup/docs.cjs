// npm run docs: writes into README.md what the program prints now, and draws its pictures anew.
const { readFileSync, writeFileSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')
const { install } = require('./install.cjs')
const { build } = require('./build.cjs')
const { freshReadme } = require('./readme.cjs')

async function main() {
  install()
  await build()
  const path = join(root, 'README.md')
  const text = readFileSync(path, 'utf8')
  const fresh = await freshReadme(text)
  if (fresh !== text) writeFileSync(path, fresh)
  console.log(`README.md: ${fresh === text ? 'as it was' : 'written'}`)
}

main().catch((error) => {
  process.stderr.write(`pausebook: The documentation could not be made. ${error.message}\n`)
  process.exitCode = 1
})
