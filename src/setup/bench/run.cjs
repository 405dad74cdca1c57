const { mkdtempSync, readdirSync, rmSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { join } = require('node:path')
const { machineLine } = require('./machine.cjs')
const { measurePaired } = require('./paired.cjs')
const { printTable } = require('./table.cjs')

/* A row is measured beside what it is held against, in turns and in one run, for times of two runs do not
 * compare. To add one, put it into the list of a file in rows/, or add a file there that exports
 *
 *   exports.rows = [{
 *     name: 'history, 10 000 sessions',
 *     against: 'reading and parsing the digest',
 *     target: 1.5,              // the ratio that is aimed at; null without
 *     skip: (context) => null,  // why it cannot be measured here; may be left out
 *     pairs: 15,                // how many pairs; may be left out
 *     measure: async (context) => ({ ours, against }),
 *   }]
 *
 * `ours` and `against` are either { command: [program, ...words] (and env), for whole processes that are run
 * in turns, or { milliseconds: [...] }, of as many pairs, for what tinybench has measured inside a process. */

/** @param words parts of rows' names; without any, all are measured */
exports.runBench = async function runBench(words) {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-bench-'))
  try {
    const context = { folder, prepared: new Map() }
    const rows = rowsIn(join(__dirname, 'rows')).filter(
      ({ name }) => words.length === 0 || words.some((word) => name.includes(word)),
    )
    const results = []
    for (const row of rows) {
      process.stderr.write(`${row.name} ...\n`)
      const why = row.skip?.(context) ?? null
      results.push(why === null ? await measurePaired(row, context) : { ...row, why })
    }
    process.stdout.write(`${machineLine()}\n\n${printTable(results)}`)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function rowsIn(folder) {
  return readdirSync(folder)
    .sort()
    .flatMap((name) => require(join(folder, name)).rows)
}
