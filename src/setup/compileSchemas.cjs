const { mkdirSync, readdirSync, readFileSync } = require('node:fs')
const { dirname, join } = require('node:path')
const { root, changedAt, writeWhole } = require('./root.cjs')
const { bundledAlone } = require('./bundledAlone.cjs')

const source = join(root, 'src')
const outputs = ['prescription/generated/shapes', 'logbook/generated/shapes', 'logbook/generated/packings']

/** Compiles the schemas to functions in the rooms' folders `generated`, when one of them has changed. */
exports.compileSchemas = async function compileSchemas() {
  const made = Math.min(...outputs.map((path) => changedAt(join(source, `${path}.js`))))
  if (made > Math.max(...schemaFiles().map(changedAt))) return
  const { compiledTexts } = await bundledAlone('src/setup/compiled/texts.ts')
  for (const [path, { text, types }] of Object.entries(compiledTexts())) {
    mkdirSync(dirname(join(source, path)), { recursive: true })
    writeWhole(join(source, `${path}.d.ts`), types)
    writeWhole(join(source, `${path}.js`), text)
  }
}

/** Only schemas, and what compiles them, know zod. */
function schemaFiles() {
  const rooms = ['units', 'prescription', 'session', 'summary', 'logbook', 'setup/compiled']
  return rooms
    .flatMap((room) => readdirSync(join(source, room)).map((name) => join(source, room, name)))
    .filter((path) => path.endsWith('.ts') && readFileSync(path, 'utf8').includes("from 'zod'"))
}
