// node --require src/setup/still.cjs PROGRAM: the program lives at the instant that stands in the file STILL_CLOCK
// names, for as long as it stands there, and its chance depends on its arguments alone. What it prints and
// draws is then the same whenever and wherever it runs.
const { createHash, webcrypto } = require('node:crypto')
const { readFileSync } = require('node:fs')
const { syncBuiltinESMExports } = require('node:module')
const os = require('node:os')

/** An ISO 8601 instant. */
const file = process.env.STILL_CLOCK
const now = () => Date.parse(readFileSync(file, 'utf8'))

globalThis.Date = class extends Date {
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
  for (let from = 0; from < bytes.length; from += 32) {
    const seed = `${process.argv.slice(2).join('\n')}\n${drawn++}`
    bytes.set(
      createHash('sha256')
        .update(seed)
        .digest()
        .subarray(0, bytes.length - from),
      from,
    )
  }
  return values
}
