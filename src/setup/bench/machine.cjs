const { cpus, loadavg, release, totalmem, type } = require('node:os')

/** What the times were measured on; a load above the number of cores makes them longer, not the ratios. */
exports.machineLine = function machineLine() {
  const all = cpus()
  const memory = `${Math.round(totalmem() / 2 ** 30)} GiB`
  const load = loadavg()[0].toFixed(1)
  const model = (all[0]?.model ?? 'processor not known').trim()
  return `${all.length} x ${model}, ${memory}, ${type()} ${release()}, Node ${process.versions.node}, load ${load}`
}
