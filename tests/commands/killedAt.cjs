'use strict'

/* Preloaded into the program (node --require): counts the calls that change the disk or start git, and kills the
 * program before the call that KILLED_AT names, from 1. With COUNT_INTO it writes their number at the end. */

const { createRequire, syncBuiltinESMExports } = require('node:module')
const { writeFileSync } = require('node:fs')

const killedAt = Number(process.env.KILLED_AT ?? 0)
const countInto = process.env.COUNT_INTO
let calls = 0

const counted = {
  'node:fs': [
    'copyFileSync',
    'fsyncSync',
    'linkSync',
    'mkdirSync',
    'renameSync',
    'rmSync',
    'unlinkSync',
    'writeFileSync',
    'writeSync',
  ],
  'node:child_process': ['spawnSync'],
}
const load = createRequire(__filename)
for (const [name, functions] of Object.entries(counted)) {
  const builtin = load(name)
  for (const each of functions) {
    const original = builtin[each]
    builtin[each] = (...given) => {
      calls += 1
      if (calls === killedAt) process.kill(process.pid, 'SIGKILL')
      return original(...given)
    }
  }
}
syncBuiltinESMExports()
if (countInto !== undefined) process.on('exit', () => writeFileSync(countInto, String(calls)))
