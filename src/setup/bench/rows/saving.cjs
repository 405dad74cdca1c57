const { bundled } = require('../../generate.cjs')
const { logbookOf } = require('../tenThousand.cjs')

const pairs = 40

exports.rows = [
  {
    name: 'one durable save among 10 000 sessions',
    against: 'the same among 10',
    target: 1.2,
    async measure(context) {
      const { recordingIn } = await bundled('src/setup/bench/saving.ts')
      const many = recordingIn(await logbookOf(context, 10_000))
      const few = recordingIn(await logbookOf(context, 10))
      try {
        return await inTurns(many.save, few.save)
      } finally {
        many.close()
        few.close()
      }
    },
  },
]

/** The file grows with each save, the same in both. */
async function inTurns(ours, against) {
  const { Bench } = await import('tinybench')
  const times = { ours: [], against: [] }
  for (let pair = 0; pair <= pairs; pair += 1) {
    const bench = new Bench({ time: 0, iterations: 1, warmup: false, retainSamples: true })
    await bench.add('ours', ours).add('against', against).run()
    if (pair === 0) continue
    for (const { name, result } of bench.tasks) {
      if (result.error) throw result.error
      times[name].push(result.latency.samples[0])
    }
  }
  return { ours: { milliseconds: times.ours }, against: { milliseconds: times.against } }
}
