const { spawnSync } = require('node:child_process')
const { readFileSync } = require('node:fs')
const { join } = require('node:path')
const { oneAtATime } = require('./oneAtATime.cjs')
const { root } = require('./root.cjs')

/** Installs the packages of the lock file, unless exactly these are there. Ends the process when that fails. */
exports.install = function install() {
  if (isInstalled()) return
  const waiting = () => process.stderr.write('Waiting for another run that installs the packages ...\n')
  // npm takes away what is there first: two at once take away each other's.
  const isDone = oneAtATime(join(root, '.installing'), waiting, () => isInstalled() || runNpm())
  if (isDone) return
  process.stderr.write(
    'pausebook: The packages could not be installed. Check the network connection and the lines above, then try again.\n',
  )
  process.exit(1)
}

/** Whether it went well. */
function runNpm() {
  process.stderr.write('Installing the packages Pausebook is built with ...\n')
  // No package needs to run anything when it is installed, so none may.
  const words = ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error']
  const own = process.env.npm_execpath
  const [command, before] = own && /\.[cm]?js$/.test(own) ? [process.execPath, [own]] : ['npm', []]
  const ran = spawnSync(command, [...before, ...words], {
    cwd: root,
    // Standard output belongs to the program.
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32' && command === 'npm',
  })
  return ran.status === 0
}

/** npm keeps a list of what it installed; optional packages are left out where they do not fit the platform. */
function isInstalled() {
  const wanted = readPackages(join(root, 'package-lock.json'))
  const found = readPackages(join(root, 'node_modules', '.package-lock.json'))
  if (!wanted || !found) return false
  const isSame = (path) => wanted[path] && found[path] && wanted[path].version === found[path].version
  return (
    Object.keys(found).every(isSame) &&
    Object.keys(wanted).every((path) => path === '' || wanted[path].optional || isSame(path))
  )
}

function readPackages(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8')).packages
  } catch {
    return null
  }
}
