const { mkdirSync } = require('node:fs')
const { dirname, join } = require('node:path')
const { root, changedAt, writeWhole } = require('./root.cjs')
const { bundledAlone } = require('./bundledAlone.cjs')

const source = join(root, 'src')
const outputs = ['prescription/generated/shapes', 'logbook/generated/shapes', 'logbook/generated/packings']

/** Schemas stand in these rooms and are put together of words, numbers and formats that stand beside them; zod and
 * what turns schemas into text decide about the rest. */
const inputs = [
  ...['units', 'figures', 'prescription', 'session', 'summary', 'logbook', 'setup/compiled'].map((room) =>
    join(source, room),
  ),
  __filename,
  join(root, 'package-lock.json'),
]

/** Compiles the schemas to functions in the rooms' folders `generated`, when something of them has changed. */
exports.compileSchemas = async function compileSchemas() {
  const written = outputs.flatMap((path) => [`${path}.js`, `${path}.d.ts`])
  const made = Math.min(...written.map((path) => changedAt(join(source, path))))
  if (made > Math.max(...inputs.map((path) => changedAt(path, isGenerated)))) return
  const { compiledTexts } = await bundledAlone('src/setup/compiled/texts.ts')
  for (const [path, { text, types }] of Object.entries(compiledTexts())) {
    mkdirSync(dirname(join(source, path)), { recursive: true })
    writeWhole(join(source, `${path}.d.ts`), types)
    writeWhole(join(source, `${path}.js`), text)
  }
}

function isGenerated(path) {
  return path.endsWith('generated')
}
