// Old syntax on purpose: this file has to be read by the Node that it turns away.
var needed = 20
var found = parseInt(process.versions.node, 10)

if (found < needed) {
  process.stderr.write(
    'pausebook: Node ' +
      process.versions.node +
      ' is too old. Install Node ' +
      needed +
      ' or newer (https://nodejs.org).\n',
  )
  process.exit(1)
}
