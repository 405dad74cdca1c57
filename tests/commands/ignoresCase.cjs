'use strict'

/* Preloaded into the program (node --require): the days, the plan and the foods of a logbook are on a file system that
 * ignores case. A name that differs from an existing one only in case is that file. */

const fs = require('node:fs')
const { syncBuiltinESMExports } = require('node:module')
const { basename, dirname, join } = require('node:path')

const { readdirSync } = fs
const here = (path) => {
  if (typeof path !== 'string') return path
  const name = basename(path).toLowerCase()
  if (basename(dirname(path)) !== 'prescriptions' && !/^(plan|foods)\b/.test(name)) return path
  return join(
    dirname(path),
    readdirSync(dirname(path)).find((each) => each.toLowerCase() === name) ?? basename(path),
  )
}
for (const name of [
  'linkSync',
  'lstatSync',
  'openSync',
  'readFileSync',
  'realpathSync',
  'renameSync',
  'rmSync',
  'statSync',
]) {
  const original = fs[name]
  fs[name] = (path, ...more) => original(here(path), ...more.map(here))
}
syncBuiltinESMExports()
