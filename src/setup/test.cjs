// npm test: sets up what is missing, then runs every check and every test.
require('./node.cjs')
require('./check.cjs')
