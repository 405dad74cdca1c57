// npm start: sets up what is missing, then runs the program with the words after `--`.
require('./node.cjs')
require('./open.cjs')
