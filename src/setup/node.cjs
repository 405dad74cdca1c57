// Old syntax on purpose: even the Node versions that it rejects must be able to run this file.
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
