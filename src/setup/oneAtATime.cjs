const { linkSync, readFileSync, rmSync, statSync, writeFileSync } = require('node:fs')

/** Longer than this nothing takes that is done one at a time: the number of the process may be another's by then. */
const longest = 15 * 60_000

/** Does a piece of work while no other process does the same, waiting for one that does. It runs before anything is
 * installed or built, so that the lock of the logbook cannot be called here.
 * @param path of the file that stands there meanwhile, with the number of the process in it
 * @param waiting is called once when there is something to wait for
 * @returns what the work returns */
exports.oneAtATime = function oneAtATime(path, waiting, work) {
  take(path, waiting)
  try {
    return work()
  } finally {
    rmSync(path, { force: true })
  }
}

/** The file comes to be with its number in it, and only where there is none. */
function take(path, waiting) {
  const own = `${path}.${process.pid}`
  writeFileSync(own, String(process.pid))
  try {
    for (let isTold = false; !isLinked(own, path); ) {
      if (isLeft(path)) {
        rmSync(path, { force: true })
        continue
      }
      if (!isTold) waiting()
      isTold = true
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200)
    }
  } finally {
    rmSync(own, { force: true })
  }
}

function isLinked(own, path) {
  try {
    linkSync(own, path)
    return true
  } catch (error) {
    if (error.code === 'EEXIST') return false
    throw error
  }
}

/** Whether the process that held it has ended without giving it back. */
function isLeft(path) {
  try {
    if (Date.now() - statSync(path).mtimeMs > longest) return true
    process.kill(Number(readFileSync(path, 'utf8')), 0)
    return false
  } catch (error) {
    // Given back just now, or the process of somebody else.
    return error.code !== 'ENOENT' && error.code !== 'EPERM'
  }
}
