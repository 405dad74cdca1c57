const { spawnSync } = require('node:child_process')

/** Measures a row: its medians, and the median and the quartiles of the ratios of its pairs. */
exports.measurePaired = async function measurePaired(row, context) {
  const { ours, against } = await row.measure(context)
  const pairs = row.pairs ?? 15
  const times = ours.command
    ? inTurns(ours, against, pairs)
    : { ours: ours.milliseconds, against: against.milliseconds }
  const ratios = times.ours.map((time, index) => time / times.against[index])
  return {
    ...row,
    pairs: ratios.length,
    oursMedian: quantile(times.ours, 0.5),
    againstMedian: quantile(times.against, 0.5),
    ratio: quantile(ratios, 0.5),
    low: quantile(ratios, 0.25),
    high: quantile(ratios, 0.75),
  }
}

/** The first pair only fills the caches. Which of the two goes first changes from pair to pair. */
function inTurns(ours, against, pairs) {
  const times = { ours: [], against: [] }
  for (let pair = 0; pair <= pairs; pair += 1) {
    const order = pair % 2 === 0 ? ['ours', 'against'] : ['against', 'ours']
    for (const which of order) {
      const time = millisecondsOf(which === 'ours' ? ours : against)
      if (pair > 0) times[which].push(time)
    }
  }
  return times
}

function millisecondsOf({ command: [program, ...words], env }) {
  const begun = process.hrtime.bigint()
  const ran = spawnSync(program, words, {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, ...env },
    maxBuffer: 1 << 26,
  })
  const time = Number(process.hrtime.bigint() - begun) / 1e6
  if (ran.status === 0) return time
  throw new Error(`${[program, ...words].join(' ')} ended with ${ran.status ?? ran.signal}: ${ran.stderr}`)
}

/** Between the two nearest, in proportion. */
function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b)
  const place = (sorted.length - 1) * share
  const below = Math.floor(place)
  const above = Math.min(sorted.length - 1, below + 1)
  return sorted[below] + (sorted[above] - sorted[below]) * (place - below)
}
