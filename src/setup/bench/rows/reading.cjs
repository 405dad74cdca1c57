const { join } = require('node:path')
const { root } = require('../../root.cjs')
const { program } = require('../program.cjs')
const { logbookOf } = require('../tenThousand.cjs')

/** The least that anybody can do who has to know every session. */
const readSessions = `const fs=require('node:fs'),path=require('node:path')
for(const name of fs.readdirSync(process.argv[1],{recursive:true}))
  if(name.endsWith('.json'))JSON.parse(fs.readFileSync(path.join(process.argv[1],name),'utf8'))`

/** The least that anybody can do who wants something of the digest. */
const parseDigest =
  "for(const line of require('node:fs').readFileSync(process.argv[1],'utf8').split('\\n'))if(line!=='')JSON.parse(line)"

const questions = [
  { name: 'progress lift', words: ['progress', 'lift', 'front', 'squat'], question: 'lift' },
  { name: 'history', words: ['history'], question: 'history' },
]

function besideDigest({ name, words }) {
  return {
    name: `${name}, 10 000 sessions`,
    against: 'reading and parsing the digest',
    target: 1.5,
    measure: async (context) => {
      const directory = await logbookOf(context, 10_000)
      return {
        ours: { command: [process.execPath, program, ...words, '--logbook', directory] },
        against: { command: [process.execPath, '-e', parseDigest, join(directory, 'digest.ndjson')] },
      }
    },
  }
}

function besideDuckDb({ name, words, question }) {
  return {
    name: `${name}, 10 000 sessions`,
    against: 'DuckDB over the session files',
    target: 1,
    pairs: 7,
    measure: async (context) => {
      const directory = await logbookOf(context, 10_000)
      const duckDb = join(root, 'src', 'setup', 'bench', 'duckdb.cjs')
      return {
        ours: { command: [process.execPath, program, ...words, '--logbook', directory] },
        against: { command: [process.execPath, duckDb, question, directory] },
      }
    },
  }
}

exports.rows = [
  ...questions.map(besideDigest),
  ...questions.map(besideDuckDb),
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
