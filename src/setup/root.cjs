const { mkdirSync, readdirSync, renameSync, statSync, writeFileSync } = require('node:fs')
const { dirname, join } = require('node:path')

/** The folder of the project. */
exports.root = dirname(dirname(__dirname))

/** When a file, or anything in a folder, last changed, in ms since 1970; deleting a file counts as a change
 * of its folder. 0 if it does not exist. */
exports.changedAt = function changedAt(path, isLeftOut = () => false) {
  const stat = statSync(path, { throwIfNoEntry: false })
  if (!stat) return 0
  if (!stat.isDirectory()) return stat.mtimeMs
  let latest = stat.mtimeMs
  for (const name of readdirSync(path)) {
    const below = join(path, name)
    if (!isLeftOut(below)) latest = Math.max(latest, changedAt(below, isLeftOut))
  }
  return latest
}

/** Writes a file under another name and renames it, so that a reader sees the old text or the new one. */
exports.writeWhole = function writeWhole(path, text) {
  const beside = `${path}.${process.pid}`
  writeFileSync(beside, text)
  renameSync(beside, path)
}

/** The environment for a program that must not depend on this machine's settings.
 * @param more what it needs besides */
exports.plainEnvironment = function plainEnvironment(home, more) {
  const { PATH } = process.env
  return { PATH, HOME: home, TERM: 'xterm-256color', LANG: 'C.UTF-8', TZ: 'Europe/Berlin', ...more }
}

/** Creates a logbook, unless it exists, of somebody who has seen the first start. Returns its folder. */
exports.usedLogbook = function usedLogbook(folder, settings = {}) {
  mkdirSync(folder, { mode: 0o700, recursive: true })
  const text = JSON.stringify({ format: 1, firstStartSeen: true, ...settings })
  writeFileSync(join(folder, 'settings.json'), text, { mode: 0o600 })
  return folder
}
