// npm run check-supply: what is installed is what the lock file says, to the last byte, with no script of a package
// run; and, where the registry answers, signed by it.
require('./node.cjs')
const { spawnSync } = require('node:child_process')
const { readFileSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')

/** What is wrong with a lock file, a line each.
 * @param lock package-lock.json as an object
 * @param needed the packages whose install scripts are known and not needed */
exports.lockProblems = function lockProblems(lock, needed = scriptsNotNeeded) {
  return Object.entries(lock.packages).flatMap(([path, entry]) => {
    if (path === '' || entry.link) return []
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length)
    const problems = []
    if (!/^sha512-/.test(entry.integrity ?? '')) problems.push(`${path} has no sha512: run npm install anew.`)
    if (entry.resolved && !/^https:/.test(entry.resolved))
      problems.push(`${path} is not from a registry by https.`)
    if (entry.hasInstallScript && !needed.includes(name))
      problems.push(
        `${path} runs a script when it is installed: see whether it works without, then name it in src/setup/checkSupply.cjs.`,
      )
    return problems
  })
}

/** esbuild's script only checks and speeds up what is there; fsevents is of macOS, and watching files is optional. */
const scriptsNotNeeded = ['esbuild', 'fsevents']

function main() {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'))
  const problems = exports.lockProblems(lock)
  for (const problem of problems) console.log(problem)
  console.log(`lock file: ${Object.keys(lock.packages).length - 1} packages, ${problems.length} problems`)
  const ran = spawnSync('npm', ['audit', 'signatures', '--json', '--loglevel=error'], {
    cwd: root,
    encoding: 'utf8',
  })
  const { answer, isBad } = signaturesRead(ran.stdout, ran.stderr)
  console.log(`signatures: ${answer}`)
  process.exitCode = problems.length > 0 || isBad ? 1 : 0
}

/** What `npm audit signatures --json` says; a registry that signs nothing, or does not answer, is said and passes. */
function signaturesRead(stdout, stderr) {
  try {
    const { invalid, missing, error } = JSON.parse(stdout)
    if (error) return { answer: `not checked: ${error.summary ?? error.code}`, isBad: false }
    const names = [...invalid, ...missing].map(({ name, version }) => `${name}@${version}`)
    return names.length === 0
      ? { answer: 'all are good', isBad: false }
      : { answer: `bad or missing: ${names.join(', ')}. Do not install these.`, isBad: true }
  } catch {
    const why = stderr.trim().split('\n')[0] || 'no answer'
    return { answer: `not checked: ${why}`, isBad: false }
  }
}

if (require.main === module) main()
