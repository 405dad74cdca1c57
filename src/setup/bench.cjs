// npm run bench: measures each row next to its reference, alternating within one run, because times of two runs cannot
// be compared. Words after -- select rows by name. The rows are in bench/rows.cjs.
const { spawnSync } = require('node:child_process')
const { mkdtempSync, rmSync } = require('node:fs')
const os = require('node:os')
const { join } = require('node:path')
const { build } = require('./build.cjs')
const { install } = require('./install.cjs')

async function main(words) {
  install({ checks: true })
  await build()
  // It needs the packages.
  const { rows } = require('./bench/rows.cjs')
  const folder = mkdtempSync(join(os.tmpdir(), 'pausebook-bench-'))
  try {
    const context = { folder }
    const wanted = rows.filter(({ name }) => words.length === 0 || words.some((word) => name.includes(word)))
    const [{ model }] = os.cpus()
    console.log(`${os.cpus().length} x ${model}, ${os.type()}, Node ${process.versions.node}\n`)
    for (const row of wanted) console.log(lineOf(row, await measured(row, context)))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Milliseconds of both, pair by pair. The first pair only fills the caches; the two take turns to go first. */
async function measured({ pairs = 15, measure }, context) {
  const { ours, against } = await measure(context)
  if (typeof ours[0] === 'number') return { ours, against }
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

function millisecondsOf(argv) {
  const begun = performance.now()
  const ran = spawnSync(process.execPath, argv, { maxBuffer: 1 << 26, encoding: 'utf8' })
  const time = performance.now() - begun
  if (ran.status === 0) return time
  throw new Error(`${argv.join(' ')} ended with ${ran.status ?? ran.signal}: ${ran.stderr}`)
}

/** Both times, the median ratio with its quartiles, and the aim. */
function lineOf({ name, against, target, most, of = 0.5 }, times) {
  const ratios = times.ours.map((time, index) => time / times.against[index])
  const [ours, other] = [times.ours, times.against].map((values) => quantile(values, of))
  const ratio = quantile(ratios, 0.5)
  const aim =
    most === undefined
      ? ` (${ratio <= target ? 'meets' : 'misses'} ${target})`
      : ` (${ours <= most ? 'meets' : 'misses'} ${most} ms)`
  const spread = `${quantile(ratios, 0.25).toFixed(2)}-${quantile(ratios, 0.75).toFixed(2)}`
  return `${name}: ${ours.toFixed(1)} ms, ${against}: ${other.toFixed(1)} ms, ratio ${ratio.toFixed(2)}, ${spread}${aim}`
}

/** Interpolates between the two nearest values. */
function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b)
  const place = (sorted.length - 1) * share
  const below = Math.floor(place)
  const above = Math.min(sorted.length - 1, below + 1)
  return sorted[below] + (sorted[above] - sorted[below]) * (place - below)
}

main(process.argv.slice(2)).catch((error) => {
  process.stderr.write(`pausebook: The benchmark failed: ${error.message}\n`)
  process.exitCode = 1
})
