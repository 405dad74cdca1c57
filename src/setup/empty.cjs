// Stands in for react-devtools-core, which Ink asks for in its development mode only.
module.exports = {}
