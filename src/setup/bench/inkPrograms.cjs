const { join } = require('node:path')
const { bundling } = require('../build.cjs')
const { root } = require('../root.cjs')

/* The least that a program drawn with Ink is, bundled as the program is. */

const sources = {
  hello: `import { render, Text } from 'ink'
import { createElement } from 'react'
render(createElement(Text, null, 'hello'))
setInterval(() => {}, 1e6)`,
  clock: `import { render, Text } from 'ink'
import { createElement, useEffect, useState } from 'react'
function Clock() {
  const [seconds, setSeconds] = useState(0)
  useEffect(() => {
    const timer = setInterval(() => setSeconds((before) => before + 1), 1000)
    return () => clearInterval(timer)
  }, [])
  return createElement(Text, null, 'clock ' + seconds)
}
render(createElement(Clock))`,
}

/** The bundled program's file. */
exports.inkProgram = async function inkProgram(context, name) {
  const outfile = join(context.folder, `${name}.mjs`)
  await require('esbuild').build({
    ...bundling,
    stdin: { contents: sources[name], resolveDir: root, loader: 'js' },
    outfile,
  })
  return outfile
}
