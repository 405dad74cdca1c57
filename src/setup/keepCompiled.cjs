// node --require src/setup/keepCompiled.cjs dist/pausebook.js ...: when it ends, what V8 has compiled of each part
// lies beside it as PART.v8, with what lay there before.
const { renameSync, writeFileSync } = require('node:fs')
const vm = require('node:vm')

const scripts = new Map()
vm.Script = class extends vm.Script {
  constructor(code, options) {
    super(code, options)
    scripts.set(options.filename, this)
  }
}
process.on('exit', () => {
  for (const [filename, script] of scripts) {
    writeFileSync(`${filename}.new`, script.createCachedData())
    renameSync(`${filename}.new`, `${filename}.v8`)
  }
})
