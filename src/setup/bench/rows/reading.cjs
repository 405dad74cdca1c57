const { join } = require('node:path')
const { root } = require('../../root.cjs')
const { logbookOf } = require('../tenThousand.cjs')

const program = join(root, 'dist', 'pausebook.js')

/** The least that anybody can do who has to know every session. */
const readSessions = `const fs=require('node:fs'),path=require('node:path')
for(const name of fs.readdirSync(process.argv[1],{recursive:true}))
  if(name.endsWith('.json'))JSON.parse(fs.readFileSync(path.join(process.argv[1],name),'utf8'))`

exports.rows = [
  {
    name: 'verify, 1 000 sessions',
    against: 'reading and parsing the files',
    target: null,
    pairs: 7,
    measure: async (context) => {
      const directory = await logbookOf(context, 1000)
      return {
        ours: { command: [process.execPath, program, 'verify', '--logbook', directory] },
        against: { command: [process.execPath, '-e', readSessions, join(directory, 'sessions')] },
      }
    },
  },
]
