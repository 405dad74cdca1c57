// node --require src/setup/clock.cjs PROGRAM: gives the program another clock. The time is the ISO 8601 instant in the
// file that STILL_CLOCK names, and random numbers depend on the arguments alone, so that output and screens are the
// same whenever and wherever it runs.
const { createHash, webcrypto } = require('node:crypto')
const { readFileSync } = require('node:fs')
const { syncBuiltinESMExports } = require('node:module')
const os = require('node:os')

const RealDate = Date
const now = () => RealDate.parse(readFileSync(process.env.STILL_CLOCK, 'utf8'))

globalThis.Date = class extends RealDate {
  constructor(...given) {
    if (given.length === 0) super(now())
    else super(...given)
  }

  static now() {
    return now()
  }
}
os.uptime = () => now() / 1000 - 1e9
syncBuiltinESMExports()

let drawn = 0
webcrypto.getRandomValues = (values) => {
  const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength)
  const seed = `${process.argv.slice(2).join('\n')}\n${drawn++}`
  bytes.set(createHash('shake256', { outputLength: bytes.length }).update(seed).digest())
  return values
}
