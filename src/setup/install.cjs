const { spawnSync } = require('node:child_process')
const { readFileSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')

/** Installs the packages of the lock file unless exactly these are there.
 * @param options.checks also install what only the checks and the documents need (tests/package.json), four times as
 * much as the program
 * @throws Error when npm fails */
exports.install = function install({ checks }) {
  if (isInstalled(checks)) return
  process.stderr.write('Installing the packages Pausebook is built with ...\n')
  // No package needs an install script, so none may run one.
  // The lock file names no registry, so npm looks up every package; it need not ask again for what it has cached.
  const words = 'npm ci --ignore-scripts --prefer-offline --no-audit --no-fund --loglevel=error'
  // An `npm install -g` that runs `prepare` would pass on that it installs globally.
  const { npm_config_global, npm_config_location, npm_config_prefix, ...env } = process.env
  // On Windows npm is a script, which only a shell can start; Node warns of words given to a shell apart.
  const ran = spawnSync(checks ? words : `${words} --workspaces=false`, {
    cwd: root,
    env,
    // Standard output belongs to the program.
    stdio: ['ignore', 2, 2],
    shell: true,
  })
  if (ran.status === 0) return
  throw new Error(
    'The packages could not be installed. Check the network connection and the lines above, then try again.',
  )
}

/** Compares with npm's own list of what it installed. npm leaves out optional packages that do not fit the platform,
 * and installs a package with everything it needs, so for the program alone it is enough to look for its direct
 * packages. */
function isInstalled(checks) {
  const wanted = packagesIn('package-lock.json')
  const found = packagesIn(join('node_modules', '.package-lock.json'))
  if (!wanted || !found) return false
  const isSame = (path) => path in found && wanted[path]?.version === found[path].version
  const direct = Object.keys(wanted['']?.devDependencies ?? {}).map((name) => `node_modules/${name}`)
  const needed = checks ? Object.keys(wanted).filter((path) => path !== '' && !wanted[path].optional) : direct
  return Object.keys(found).every(isSame) && needed.every(isSame)
}

function packagesIn(path) {
  try {
    return JSON.parse(readFileSync(join(root, path), 'utf8')).packages
  } catch {
    return null
  }
}
