// node --require src/setup/bench/fastClock.cjs PROGRAM: for the program a minute passes in each second.
const { syncBuiltinESMExports } = require('node:module')
const os = require('node:os')

const factor = 60
const RealDate = Date
const begun = RealDate.now()
const upBegun = os.uptime()
const now = () => begun + (RealDate.now() - begun) * factor

globalThis.Date = class extends RealDate {
  constructor(...given) {
    if (given.length === 0) super(now())
    else super(...given)
  }

  static now() {
    return now()
  }
}
os.uptime = () => upBegun + (now() - begun) / 1000
syncBuiltinESMExports()

for (const name of ['setTimeout', 'setInterval']) {
  const real = globalThis[name]
  globalThis[name] = (callback, milliseconds = 0, ...given) => real(callback, milliseconds / factor, ...given)
}
