const { compileGrammar } = require('./grammar.cjs')
const { compileSchemas } = require('./compileSchemas.cjs')

/** Makes the code that is made of the grammar and of the schemas, where it is older than they are. */
exports.generate = async function generate() {
  compileGrammar()
  await compileSchemas()
}
