// node --expose-gc --require src/setup/bench/memoryInUse.cjs PROGRAM: at each SIGUSR2 the memory that is in use after a
// collection, in MiB, is added as a line to the file that PAUSEBOOK_BENCH_MEMORY names.
const { appendFileSync } = require('node:fs')

process.on('SIGUSR2', () => {
  globalThis.gc()
  const { heapUsed, external } = process.memoryUsage()
  appendFileSync(process.env.PAUSEBOOK_BENCH_MEMORY, `${(heapUsed + external) / 2 ** 20}\n`)
})
