const { join } = require('node:path')
const { root } = require('../root.cjs')

exports.program = join(root, 'dist', 'pausebook.js')

/** What a measured program in a terminal sees: nothing of the machine's settings. */
exports.environmentIn = function environmentIn(context) {
  return { PATH: process.env.PATH, HOME: context.folder, TERM: 'xterm-256color', LANG: 'C.UTF-8' }
}
