// npm run check-package: packs the program, installs the package as anybody would, with Node 20, 22 and 24 by turns,
// and runs the tour with each.
require('./node.cjs')
const { execFileSync, spawnSync } = require('node:child_process')
const { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } = require('node:fs')
const { tmpdir } = require('node:os')
const { delimiter, join } = require('node:path')
const { root } = require('./root.cjs')
const { install } = require('./install.cjs')
const { build } = require('./build.cjs')

const versions = [20, 22, 24]

async function main() {
  install()
  await build()
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-package-'))
  try {
    const [{ filename, size, unpackedSize, entryCount }] = JSON.parse(
      execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', folder], {
        cwd: root,
        encoding: 'utf8',
      }),
    )
    console.log(`${filename}: ${size} bytes, unpacked ${unpackedSize}, ${entryCount} files`)
    for (const version of versions) await check(folder, join(folder, filename), version)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** A registry package holds the program of each Node. */
function nodeOf(folder, version) {
  const name = `node-${process.platform}-${process.arch}`
  const place = join(folder, `node-${version}`)
  mkdirSync(place)
  run(
    'npm',
    ['install', '--prefix', place, '--no-save', '--ignore-scripts', `${name}@${version}`],
    place,
    process.env,
  )
  return join(place, 'node_modules', name, 'bin')
}

async function check(folder, tarball, version) {
  const nodes = nodeOf(folder, version)
  const prefix = join(folder, `prefix-${version}`)
  const home = join(folder, `home-${version}`)
  mkdirSync(home)
  // npm itself runs with the Node that this script runs with; the program with the other.
  run('npm', ['install', '--global', '--prefix', prefix, '--ignore-scripts', tarball], home, {
    ...process.env,
    HOME: home,
  })
  const env = {
    PATH: [join(prefix, 'bin'), nodes, '/usr/bin', '/bin'].join(delimiter),
    HOME: home,
    TERM: 'xterm-256color',
    LANG: 'C.UTF-8',
    TZ: 'Europe/Berlin',
  }
  const node = run(join(nodes, 'node'), ['--version'], home, env).trim()
  if (!node.startsWith(`v${version}.`)) throw new Error(`Node ${version} was asked for, and ${node} came.`)
  await tour(prefix, nodes, home, env)
  console.log(`${node}: installed and walked through`)
}

/** What README's tour does: looks at a day, takes one in from paper, records a set, reads the summary. */
async function tour(prefix, nodes, home, env) {
  const installed = join(prefix, 'lib', 'node_modules', 'pausebook')
  const sample = (name) => join(installed, 'sample-sessions', name)
  for (const path of [
    join(prefix, 'share', 'man', 'man1', 'pausebook.1'),
    join(installed, 'dist', 'completions', '_pausebook'),
  ])
    if (!existsSync(path)) throw new Error(`${path} was not installed.`)
  const pausebook = (...words) => run('pausebook', words, home, env)
  contains(pausebook('--version'), /^\d+\.\d+\.\d+\n$/)
  contains(pausebook('check', sample('track-and-cluster.txt')), /6 x 500 m/)
  pausebook('backfill', sample('track-and-cluster.txt'), sample('track-and-cluster.results.txt'))
  contains(pausebook('summary'), /estimated maximum/)
  const day = join(home, 'day.txt')
  const recorded = join(home, 'recorded')
  writeFileSync(day, 'Legs\n\nlift: legs\n  front squat: 1 x 3 @ 92.5 kg\n')
  const { openTerminal } = require('./pseudoTerminal.cjs')
  const program = openTerminal(
    [join(installed, 'dist', 'pausebook.js'), 'record', day, '--logbook', recorded],
    {
      columns: 100,
      rows: 30,
      env,
      node: join(nodes, 'node'),
    },
  )
  try {
    for (const [typed, shown] of [
      ['', 'It is no coach'],
      ['km kg\r', 'body mass'],
      ['68 kg\r', 'front squat 3 at 92.5 kg'],
      [' ', 'Space done'],
      [' ', /1 result open|all recorded/],
      ['3 @8\r', 'all recorded'],
      ['f', 'how hard'],
      ['7\r', 'its minutes'],
      ['\r', '3 x 92.5 kg'],
    ]) {
      program.type(typed)
      await program.waitFor(shown, 20_000)
      // Two keys within a moment would be the forgotten start of a set.
      if (typed === ' ') await new Promise((done) => setTimeout(done, 3500))
    }
    program.type('q')
    const { code } = await program.exited
    if (code !== 0) throw new Error(`The recorder ended with ${code}.`)
  } finally {
    await program.close()
  }
  contains(pausebook('summary', '--logbook', recorded), /front squat: 3 x 92.5 kg @8/)
}

function contains(text, pattern) {
  if (!pattern.test(text)) throw new Error(`${pattern} is not in:\n${text}`)
}

function run(command, words, cwd, env) {
  const ran = spawnSync(command, words, { cwd, env, encoding: 'utf8' })
  if (ran.error) throw ran.error
  if (ran.status === 0) return ran.stdout
  throw new Error(
    `${command} ${words.join(' ')} ended with ${ran.status ?? ran.signal}:\n${ran.stdout}${ran.stderr}`,
  )
}

main().catch((error) => {
  process.stderr.write(`pausebook: The package does not hold. ${error.message}\n`)
  process.exitCode = 1
})
