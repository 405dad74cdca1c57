// node --require src/setup/clock.cjs PROGRAM: gives the program another clock. If STILL_CLOCK names a file, the time is
// the ISO 8601 instant in that file, and random numbers depend on the arguments alone, so that output and screens are the
// same whenever and wherever it runs. Otherwise a minute passes in each second.
const { createHash, webcrypto } = require('node:crypto')
const { readFileSync } = require('node:fs')
const { syncBuiltinESMExports } = require('node:module')
const os = require('node:os')

const file = process.env.STILL_CLOCK
const RealDate = Date
const begun = RealDate.now()
const upBegun = os.uptime()
const factor = 60
const now = file
  ? () => RealDate.parse(readFileSync(file, 'utf8'))
  : () => begun + (RealDate.now() - begun) * factor

globalThis.Date = class extends RealDate {
  constructor(...given) {
    if (given.length === 0) super(now())
    else super(...given)
  }

  static now() {
    return now()
  }
}
os.uptime = file ? () => now() / 1000 - 1e9 : () => upBegun + (now() - begun) / 1000
syncBuiltinESMExports()

if (file) seedChance()
else hasten()

function hasten() {
  for (const name of ['setTimeout', 'setInterval']) {
    const real = globalThis[name]
    globalThis[name] = (callback, milliseconds = 0, ...given) =>
      real(callback, milliseconds / factor, ...given)
  }
}

function seedChance() {
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
}
