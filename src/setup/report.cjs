const { readFileSync } = require('node:fs')

/** A report that a tool has written as JSON; null where there is none. */
exports.readReport = function readReport(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'))
  } catch {
    return null
  }
}
