const { join } = require('node:path')
const { readReport } = require('./report.cjs')
const { root } = require('./root.cjs')

/** Percent of the branches that tests have to reach. */
const leastCovered = { figures: 95, session: 95, prescription: 95 }

/** Prints how many of the branches of each room of src/ the tests have reached.
 * @returns whether it is enough */
exports.isCovered = function isCovered() {
  const rooms = coveredRooms()
  console.log(
    `\nBranches covered: ${rooms.map(({ room, percent }) => `${room} ${percent.toFixed(1)} %`).join(', ')}`,
  )
  const low = rooms.filter(({ room, percent }) => room in leastCovered && percent < leastCovered[room])
  for (const { room, percent } of low) {
    console.log(
      `src/${room}: ${percent.toFixed(2)} % of the branches are reached, and ${leastCovered[room]} % have to be.\n-> Test what is not; coverage/coverage-summary.json says in which files.`,
    )
  }
  return low.length === 0
}

/** In percent; rooms without branches are left out. */
function coveredRooms() {
  const summary = readReport(join(root, 'coverage', 'coverage-summary.json')) ?? {}
  const rooms = new Map()
  for (const [path, { branches }] of Object.entries(summary)) {
    const room = /[\\/]src[\\/]([a-z]+)[\\/]/.exec(path)?.[1]
    if (room === undefined) continue
    const sum = rooms.get(room) ?? { covered: 0, total: 0 }
    rooms.set(room, { covered: sum.covered + branches.covered, total: sum.total + branches.total })
  }
  return [...rooms]
    .filter(([, { total }]) => total > 0)
    .map(([room, { covered, total }]) => ({ room, percent: (100 * covered) / total }))
}
