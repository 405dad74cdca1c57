const { spawnSync } = require('node:child_process')
const { readFileSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')

/** Installs the packages of the lock file unless exactly these are there.
 * @throws Error when npm fails */
exports.install = function install() {
  if (isInstalled()) return
  process.stderr.write('Installing the packages Pausebook is built with ...\n')
  // No package needs an install script, so none may run one.
  const ran = spawnSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    // Standard output belongs to the program.
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  })
  if (ran.status === 0) return
  throw new Error(
    'The packages could not be installed. Check the network connection and the lines above, then try again.',
  )
}

/** npm lists what it installed; it leaves optional packages out where they do not fit the platform. */
function isInstalled() {
  const wanted = packagesIn('package-lock.json')
  const found = packagesIn(join('node_modules', '.package-lock.json'))
  if (!wanted || !found) return false
  const isSame = (path) => wanted[path]?.version === found[path]?.version
  return (
    Object.keys(found).every(isSame) &&
    Object.keys(wanted).every((path) => path === '' || wanted[path].optional || isSame(path))
  )
}

function packagesIn(path) {
  try {
    return JSON.parse(readFileSync(join(root, path), 'utf8')).packages
  } catch {
    return null
  }
}
