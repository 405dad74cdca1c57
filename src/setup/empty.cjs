// Stands in for React's developer tools, which Ink asks for in its development mode only.
module.exports = {}
