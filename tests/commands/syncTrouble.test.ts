import { execFileSync } from 'node:child_process'
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { describe, expect, it } from 'vitest'
import { sweepLogbook } from '../../src/logbook/durableFile.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { isLongRun, tell } from '../faults/harness.ts'
import { setRecorded, started } from '../logbook/sampleSession.ts'
import { muchLater } from '../logbook/testMachine.ts'
import { callsOf, runBuilt, runKilledAt } from './killedAt.ts'
import {
  append,
  emptyIn,
  environment,
  eventsOf,
  git,
  gitThat,
  hasGit,
  idsIn,
  inStep,
  linesIn,
  type Machine,
  machineOf,
  machines,
  ownFolder,
  record,
  runProgram,
  sessionIn,
  useMachines,
} from './machines.ts'

/* What a sync meets that is damaged, killed, in use or of somebody else. */

useMachines()

/** As a power cut leaves them on some file systems. */
function emptyObjects(dir: string): void {
  for (const entry of readdirSync(join(dir, 'objects'), { recursive: true, withFileTypes: true }))
    if (entry.isFile()) {
      const path = join(entry.parentPath, entry.name)
      rmSync(path, { force: true })
      writeFileSync(path, '')
    }
}

/** As `emptyObjects`, but only that of the session. */
function emptyOneObject(logbook: string): void {
  const packs = join(logbook, '.git/objects/pack')
  const [pack = ''] = readdirSync(packs).filter((name) => name.endsWith('.pack'))
  renameSync(packs, `${packs}s`)
  execFileSync('git', ['-C', logbook, 'unpack-objects', '-q'], {
    input: readFileSync(join(`${packs}s`, pack)),
    env: environment(),
  })
  const object = git(logbook, 'rev-parse', `HEAD:${relative(logbook, sessionIn(logbook))}`)
  const file = join(logbook, '.git/objects', object.slice(0, 2), object.slice(2))
  rmSync(file, { force: true })
  writeFileSync(file, '')
}

describe.runIf(hasGit)('pausebook sync, where something is wrong,', () => {
  it('brings back also what was committed while the remote could not be reached', async () => {
    const { a, remote } = await inStep(5)
    renameSync(remote, `${remote}.away`)
    record(a.logbook, setRecorded(1))
    await a.sync()
    renameSync(`${remote}.away`, remote)
    const ids = idsIn(a.logbook)
    rmSync(join(a.logbook, 'sessions'), { recursive: true })
    expect((await a.sync()).stderr).toContain('Gone since the last sync: 6 sessions.')
    git(a.logbook, '-C', a.logbook, 'checkout-index', '--all', '--quiet')
    expect(idsIn(a.logbook)).toEqual(ids)
  })

  it('runs no program that the logbook itself names, and says where it is named', async () => {
    const { logbook, sync } = (await inStep()).a
    const witness = join(logbook, 'witness')
    const script = `#!/bin/sh\ntouch '${witness}'\n`
    for (const hook of ['pre-push', 'reference-transaction', 'post-index-change']) {
      mkdirSync(join(logbook, '.git', 'hooks'), { recursive: true })
      writeFileSync(join(logbook, '.git', 'hooks', hook), script, { mode: 0o755 })
    }
    writeFileSync(join(logbook, '.gitattributes'), '* filter=evil\n')
    record(logbook, setRecorded(1))
    expect((await sync()).code).toBe(0)
    const config = join(logbook, '.git', 'config')
    const before = readFileSync(config, 'utf8')
    for (const [section, key] of [
      ['core', 'sshCommand'],
      ['core', 'fsmonitor'],
      ['filter "evil"', 'clean'],
      ['include', 'path'],
    ]) {
      writeFileSync(config, `${before}[${section}]\n${key} = touch '${witness}'\n`)
      const { code, stderr } = await sync()
      expect(code).toBe(1)
      expect(stderr).toContain('The git configuration of the logbook sets ')
    }
    writeFileSync(config, before)
    expect(existsSync(witness)).toBe(false)
    expect((await sync()).code).toBe(0)
  })

  const inGit = (path: string) => (logbook: string) => join(logbook, '.git', path)
  const written = (at: (logbook: string) => string, text: string) => (logbook: string) =>
    writeFileSync(at(logbook), text)
  const moreRefs = [
    ['a broken branch', written(inGit('refs/heads/main'), 'rubbish'), 0],
    ['a broken list of refs', written(inGit('packed-refs'), 'rubbish'), 0],
    ['a branch of a commit that is gone', written(inGit('refs/heads/main'), `${'1'.repeat(40)}\n`), 0],
  ] as const
  it.each([
    ...(isLongRun ? moreRefs : []),
    ['empty objects', (logbook: string) => emptyObjects(join(logbook, '.git')), 0],
    ['one empty object', emptyOneObject, 0],
    ['a broken HEAD', written(inGit('HEAD'), 'rubbish'), 0],
    ['a broken configuration', written(inGit('config'), '[core'), 0],
    ['a broken index', written(inGit('index'), 'rubbish'), 0],
    ['half a merge', written(inGit('MERGE_HEAD'), ''), 1],
    [
      'a file in the place of the repository',
      (logbook: string) => {
        rmSync(join(logbook, '.git'), { recursive: true })
        writeFileSync(join(logbook, '.git'), 'gitdir: /nowhere')
      },
      1,
    ],
    ['a folder in the place of the lock', (logbook: string) => mkdirSync(join(logbook, 'sync.lock')), 3],
    [
      'a folder in the place of a session',
      (logbook: string) => {
        rmSync(sessionIn(logbook))
        mkdirSync(sessionIn(logbook))
      },
      3,
    ],
    [
      'a link that leads nowhere in the place of a session',
      (logbook: string) => {
        rmSync(sessionIn(logbook))
        symlinkSync('nowhere', sessionIn(logbook))
      },
      3,
    ],
    [
      'a session of which the copy alone is left',
      (logbook: string) => renameSync(sessionIn(logbook), `${sessionIn(logbook)}.bak`),
      3,
    ],
    [
      'a folder of sessions that is a link',
      (logbook: string) => {
        const elsewhere = join(ownFolder(), 'sessions')
        cpSync(join(logbook, 'sessions'), elsewhere, { recursive: true })
        rmSync(join(logbook, 'sessions'), { recursive: true })
        symlinkSync(elsewhere, join(logbook, 'sessions'))
      },
      0,
    ],
    [
      'a year that cannot be listed',
      (logbook: string) => {
        rmSync(join(logbook, 'sessions', '2026'), { recursive: true })
        writeFileSync(join(logbook, 'sessions', '2026'), '')
      },
      3,
    ],
  ] as const)('answers %s with a sentence, and deletes nothing anywhere', async (_, damage, code) => {
    const { a, remote, id } = await inStep()
    const branch = () => readFileSync(join(remote, 'refs/heads/main'), 'utf8')
    const before = branch()
    damage(a.logbook)
    const ran = await a.sync()
    expect(ran.stderr).not.toMatch(/Something in the program is wrong|^\s+at /m)
    if (code === 0)
      expect(ran.stderr).toMatch(/^(The git repository .+ was moved to \.git\.damaged-1 .+\n)?$/)
    if (code !== 0) expect(ran.stderr).toMatch(/^pausebook: .+\.\n$/)
    expect(ran.code).toBe(code)
    if (code === 0) expect(eventsOf(a.logbook, id)).toEqual([started, setRecorded(1)])
    expect(branch()).toBe(before)
  })

  it('answers a git that fails at any of its calls with a sentence, and loses nothing', async (context) => {
    const { a } = await inStep()
    const faults = [
      'No space left on device',
      'Read-only file system',
      'Permission denied',
      'Input/output error',
    ]
    let calls = 0
    let failed = 0
    const places = isLongRun ? [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] : [1, 3, 5, 6, 7]
    for (const failing of places) {
      record(a.logbook, setRecorded(1))
      const before = idsIn(a.logbook)
      const said = faults[failing % faults.length]
      const { path, log } = gitThat(
        context,
        `[ $CALL -eq ${failing} ] && { echo 'fatal: ${said}' >&2; exit 128; }`,
      )
      const ran = await runProgram(['sync'], { logbook: a.logbook, env: { ...a.env, PATH: path } })
      calls = Math.max(calls, linesIn(log))
      if (ran.code !== 0) failed += 1
      expect(ran.stderr).not.toMatch(/Something in the program is wrong|^\s+at /m)
      expect(idsIn(a.logbook)).toEqual(before)
    }
    expect(calls).toBeGreaterThan(6)
    expect(failed).toBeGreaterThan(3)
    // Another machine pushed first: it is tried again.
    record(a.logbook, setRecorded(1))
    const first = join(ownFolder(), 'pushed')
    const { path } = gitThat(
      context,
      `case "$*" in *" push "*) [ -e ${first} ] || { : > ${first}; echo ' ! [rejected] main -> main (fetch first)' >&2; exit 1; } ;; esac`,
    )
    const ran = await runProgram(['sync'], { logbook: a.logbook, env: { ...a.env, PATH: path } })
    expect([ran.code, ran.stderr, existsSync(first)]).toEqual([0, '', true])
    expect(ran.stdout).toMatch(/^Sent: \d+ sessions?\. Received: nothing\.\n$/)
    tell(`git failed at ${places.length} calls of a sync, ${failed} told, nothing lost`)
  })

  it('names the lock that a killed git has left in the remote, and what to do', async () => {
    const { a, remote } = await inStep()
    record(a.logbook, setRecorded(1))
    writeFileSync(join(remote, 'refs/heads/main.lock'), '')
    const ran = await a.sync()
    expect(ran.code).toBe(1)
    expect(ran.stderr).toMatch(/left a lock in it\. When no git is running there, remove .+main\.lock\./)
    rmSync(join(remote, 'refs/heads/main.lock'))
    expect((await a.sync()).stdout).toBe('Sent: 1 session. Received: nothing.\n')
  })

  it('commits while the remote is unreachable, says so, and catches up later', async () => {
    const { remote, a, b } = await machines(2)
    renameSync(remote, `${remote}.away`)
    record(a.logbook, setRecorded(1))
    const off = await a.sync()
    expect([off.code, off.stdout]).toEqual([1, ''])
    expect(off.stderr).toMatch(
      /^pausebook: The remote .+logbook\.git cannot be synchronised: .*(repository|exist).*\. What was done here is committed and whole; sync again once it can be reached\.\n$/,
    )
    record(a.logbook, setRecorded(1))
    record(b.logbook, setRecorded(1))
    renameSync(`${remote}.away`, remote)
    expect((await b.sync()).stdout).toBe('Sent: 1 session. Received: nothing.\n')
    expect((await a.sync()).stdout).toBe('Sent: 2 sessions. Received: 1 session.\n')
    expect((await b.sync()).stdout).toBe('Sent: nothing. Received: 2 sessions.\n')
    expect(idsIn(a.logbook)).toEqual(idsIn(b.logbook))
    expect(idsIn(a.logbook)).toHaveLength(3)
  })

  it('sends what a killed import has not put in its place yet', async () => {
    const { logbook, sync } = (await inStep()).a
    const name = `2026-11-26-${record(logbook, setRecorded(1))}.json`
    mkdirSync(join(logbook, 'arrived-abcdefgh'))
    renameSync(join(logbook, 'sessions', '2026', name), join(logbook, 'arrived-abcdefgh', name))
    expect((await sync()).stdout).toBe('Sent: 1 session. Received: nothing.\n')
  })

  it('says what to do with a remote that is damaged, and every machine sends to the new one what it has', async () => {
    const { a, b, remote } = await inStep()
    for (const { logbook } of [a, b]) record(logbook, setRecorded(1))
    emptyObjects(remote)
    for (const { sync } of [a, b]) {
      const { code, stderr } = await sync()
      expect(code).toBe(1)
      expect(stderr).toContain('If it is damaged, put an empty one in its place (git init --bare)')
    }
    rmSync(remote, { recursive: true })
    emptyIn(remote)
    for (const { sync } of [a, b, a]) expect((await sync()).code).toBe(0)
    expect(idsIn(a.logbook)).toEqual(idsIn(b.logbook))
    expect(idsIn(a.logbook)).toHaveLength(3)
  })

  it('says what it has received and deleted where the remote takes nothing', async (context) => {
    const { a, b, ids } = await inStep(2)
    openLogbook(a.logbook)
      .open(ids[0] ?? '')
      .discard()
    record(a.logbook, setRecorded(1))
    await a.sync()
    record(b.logbook, setRecorded(1))
    const refusing = `case "$*" in *" push "*) echo 'fatal: no room' >&2; exit 128 ;; esac`
    const { path } = gitThat(context, refusing)
    const ran = await runProgram(['sync'], { logbook: b.logbook, env: { ...b.env, PATH: path } })
    expect(ran.stderr).toContain(
      'cannot be synchronised: no room. Received all the same: 1 session. Deleted here, as another machine did: 1 session. What was done here',
    )
  })

  it('gives the reason of ssh without the carriage return at its end', async (context) => {
    const { logbook, env } = (await machines(1)).a
    const ssh = `case "$*" in *" fetch "*) printf 'ssh: no route\\r\\nfatal: cannot read\\n' >&2; exit 128 ;; esac`
    const { path } = gitThat(context, ssh)
    const ran = await runProgram(['sync'], { logbook, env: { ...env, PATH: path } })
    expect(ran.stderr).toContain('cannot be synchronised: ssh: no route. What was done here')
  })

  it('removes the locks of a git that was killed', async () => {
    const { logbook, sync } = (await inStep()).a
    for (const name of ['refs/heads/main.lock', 'refs/pausebook/remote.lock']) {
      const path = join(logbook, '.git', name)
      mkdirSync(dirname(path), { recursive: true })
      writeFileSync(path, '')
      utimesSync(path, 1_700_000_000, 1_700_000_000)
    }
    record(logbook, setRecorded(1))
    expect(await sync()).toEqual({ code: 0, stdout: 'Sent: 1 session. Received: nothing.\n', stderr: '' })
  })

  it("leaves the index alone while the user's git has it locked, and writes it once that lock is a day old", async () => {
    const { logbook, sync } = (await inStep()).a
    record(logbook, setRecorded(1))
    const [index, lock] = ['index', 'index.lock'].map((name) => join(logbook, '.git', name)) as [
      string,
      string,
    ]
    const before = readFileSync(index)
    writeFileSync(lock, 'of a commit whose message is being written')
    expect((await sync()).code).toBe(0)
    expect(readFileSync(index)).toEqual(before)
    // After a day the git that left it was killed.
    utimesSync(lock, 1_700_000_000, 1_700_000_000)
    expect((await sync()).code).toBe(0)
    expect(existsSync(lock)).toBe(false)
    expect(git(logbook, 'status', '--porcelain')).toBe('')
  })

  it('touches no repository around the logbook, whatever the environment says', async () => {
    const around = ownFolder()
    git(around, 'init', '--quiet', '--template=')
    writeFileSync(join(around, 'other.txt'), 'mine')
    const before = readdirSync(join(around, '.git'))
    const logbook = join(around, 'logbook')
    const remote = join(ownFolder(), 'logbook.git')
    emptyIn(remote)
    const { env } = await machineOf(logbook, remote)
    record(logbook, setRecorded(1))
    const misleading = {
      ...env,
      GIT_DIR: join(around, '.git'),
      GIT_WORK_TREE: around,
      GIT_INDEX_FILE: join(around, '.git', 'index'),
      GIT_AUTHOR_NAME: 'Somebody Else',
    }
    const ran = await runProgram(['sync'], { logbook, env: misleading })
    expect(ran.stderr).toBe('')
    expect(ran.stdout).toBe('Sent: 1 session. Received: nothing.\n')
    expect(readdirSync(join(around, '.git'))).toEqual(before)
    expect(git(around, 'status', '--porcelain', 'other.txt')).toBe('?? other.txt')
    expect(git(remote, 'log', '--format=%an <%ae>', 'main')).toBe('Pausebook <pausebook@localhost>')
  })

  it('refuses a remote, and a repository in its folder, that holds something else', async () => {
    const other = ownFolder()
    emptyIn(join(other, '.git'))
    git(other, 'config', 'core.bare', 'false')
    // The bell would run a command from somebody else's settings.
    writeFileSync(join(other, 'settings.json'), '{"format":1,"bell":["rm"]}')
    git(other, 'add', '.')
    git(other, 'commit', '--quiet', '-m', 'x')
    const { logbook, sync } = await machineOf(ownFolder(), join(other, '.git'))
    record(logbook, setRecorded(1))
    const settings = readFileSync(join(logbook, 'settings.json'), 'utf8')
    const refused = await sync()
    expect([refused.code, refused.stdout]).toEqual([1, ''])
    expect(refused.stderr).toContain('The remote holds files that do not belong to a logbook: settings.json.')
    expect(readFileSync(join(logbook, 'settings.json'), 'utf8')).toBe(settings)
    const branch = () => readFileSync(join(other, '.git/refs/heads/main'), 'utf8')
    const before = branch()
    const ran = await runProgram(['sync'], { logbook: other, env: environment() })
    expect(ran.code).toBe(1)
    expect(ran.stderr).toContain(
      `The git repository in ${other} holds files that do not belong to a logbook: settings.json.`,
    )
    expect(branch()).toBe(before)
  })

  it('leaves a session alone that is being recorded, if another machine has changed it', async () => {
    const { a, b, id } = await inStep()
    append(b.logbook, id, setRecorded(2))
    await b.sync()
    const recording = openLogbook(a.logbook).open(id)
    const ran = await a.sync()
    expect(ran.code).toBe(3)
    expect(ran.stderr).toMatch(
      new RegExp(
        `^pausebook: The session sessions/2026/2026-11-26-${id}\\.json is in use by process ${process.pid} `,
      ),
    )
    expect(recording.append([setRecorded(3)])).toEqual({ ok: true })
    recording.close()
    await a.sync()
    const all3 = idsIn(a.logbook).map((each) => eventsOf(a.logbook, each).length)
    expect(all3).toEqual([3, 3])
  })

  it('puts back the last synced version of a damaged session, leaves one with a copy to a repair, and takes the other machine’s if there is one', async () => {
    const { a, b, id } = await inStep()
    const { path } = openLogbook(a.logbook).read(id).entry
    const file = `sessions/2026/2026-11-26-${id}.json`
    const ruined = '{"format": 1, "id"'
    writeFileSync(path, ruined)
    expect(await a.sync()).toEqual({
      code: 3,
      stdout: `Nothing to send and nothing to receive.\nRestored what these files had lost since the last sync: ${file}.\n`,
      stderr: `pausebook: ${file}: The file breaks off before its end. It was left out.\n`,
    })
    expect(eventsOf(a.logbook, id)).toHaveLength(2)
    expect(readFileSync(`${path}.damaged-1`, 'utf8')).toBe(ruined)
    writeFileSync(`${path}.bak`, readFileSync(path))
    writeFileSync(path, ruined)
    expect((await a.sync()).stdout).toBe('Nothing to send and nothing to receive.\n')
    expect(readFileSync(path, 'utf8')).toBe(ruined)
    append(b.logbook, id, setRecorded(2))
    await b.sync()
    expect((await a.sync()).stdout).toBe('Sent: nothing. Received: 1 session.\n')
    expect(eventsOf(a.logbook, id)).toHaveLength(3)
    expect(existsSync(`${path}.damaged-2`)).toBe(true)
  })

  it.for([
    // The git of a system whose developer tools an update has taken away.
    ['fails at every call', "echo 'error: no developer tools' >&2; exit 1", /no developer tools/],
    ['is killed at every call', 'kill -KILL $$', /it was ended by SIGKILL/],
    [
      'is killed while it looks for damage',
      'case "$*" in *fsck*) kill -KILL $$ ;; *version) ;; *) exit 128 ;; esac',
      /it was ended by SIGKILL/,
    ],
  ] as const)('leaves the repository where it is if git itself %s', async ([, does, said], context) => {
    const { logbook, env } = (await inStep()).a
    const { path } = gitThat(context, does)
    const ran = await runProgram(['sync'], { logbook, env: { ...env, PATH: path } })
    expect(ran.code).toBe(3)
    expect(ran.stderr).toMatch(said)
    expect(readdirSync(logbook).filter((name) => name.startsWith('.git'))).toEqual(['.git'])
  })

  it('says if git is not installed', async () => {
    const logbook = ownFolder()
    record(logbook, setRecorded(1))
    const ran = await runProgram(['sync'], { logbook, env: { PATH: '/nowhere' } })
    expect(ran).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: There is no git on this machine, and sync needs it. Install it (https://git-scm.com).\n',
    })
  })
})

describe.runIf(hasGit)('pausebook sync, with a year of mornings that cannot be read', () => {
  const yearIn = ({ logbook }: Machine) => join(logbook, 'mornings', '2026.json')
  const morning = ({ logbook }: Machine, day: number, pulse: number) =>
    runProgram(['morning', `${pulse} bpm`], { logbook, now: new Date(`2026-11-${day}T06:40:00+01:00`) })
  /** As an earlier version, or the user, commits a file that cannot be read. */
  const commitByHand = ({ logbook }: Machine) => git(logbook, 'commit', '--quiet', '--all', '--message', 'x')
  const leftOut = (wrong: string) => ({
    code: 3,
    stderr: `pausebook: mornings/2026.json: ${wrong}. It was left out.\n`,
  })
  const still = { code: 0, stdout: 'Nothing to send and nothing to receive.\n', stderr: '' }
  /** Two machines that have the morning of the 24th; `a` has sent one of its own since. */
  async function apartSince24() {
    const { remote, a, b } = await machines(2)
    await morning(a, 24, 48)
    for (const { sync } of [a, b]) await sync()
    await morning(a, 25, 49)
    await a.sync()
    return { remote, a, b }
  }

  it('leaves it out, takes the other machine’s, and is not locked out afterwards', async () => {
    const { remote, a, b } = await apartSince24()
    writeFileSync(yearIn(b), '{"format": 1, "ev')
    expect(await b.sync()).toMatchObject(leftOut('The file breaks off before its end'))
    expect(readFileSync(yearIn(b), 'utf8')).toBe(readFileSync(yearIn(a), 'utf8'))
    expect(readFileSync(`${yearIn(b)}.damaged-1`, 'utf8')).toBe('{"format": 1, "ev')
    for (const { sync } of [b, a]) expect(await sync()).toEqual(still)
    expect(git(remote, 'ls-tree', '-r', '--name-only', 'main')).toBe('mornings/2026.json')
  })

  it('does not take a year of which the copy alone is left for a deleted one', async () => {
    const { a, b } = await apartSince24()
    await b.sync()
    renameSync(yearIn(b), `${yearIn(b)}.bak`)
    expect(await b.sync()).toMatchObject(
      leftOut('The file is gone; "pausebook verify --repair" restores its previous copy'),
    )
    await a.sync()
    expect(existsSync(yearIn(a))).toBe(true)
  })

  it('changes nothing if a newer program has written it and this machine has changed it, and says what to do', async () => {
    const { a, b } = await apartSince24()
    await morning(b, 25, 52)
    const before = readFileSync(yearIn(b), 'utf8')
    writeFileSync(yearIn(a), '{"format": 2, "events": []}')
    commitByHand(a)
    await a.sync()
    for (let turn = 1; turn <= 2; turn += 1) {
      const refused = await b.sync()
      expect([refused.code, refused.stdout]).toEqual([3, ''])
      expect(refused.stderr).toMatch(
        /^pausebook: .+ mornings\/2026\.json, .+ newer program; .+ No file was changed\.\n$/,
      )
      expect(readFileSync(yearIn(b), 'utf8')).toBe(before)
    }
  })
})

describe.runIf(hasGit)('pausebook sync, several at once and killed', () => {
  it('lets several machines push at the same time, and loses nothing', async () => {
    const { all } = await machines(isLongRun ? 3 : 2)
    const ids: string[] = []
    for (let round = 0; round < (isLongRun ? 3 : 1); round += 1) {
      for (const { logbook } of all) ids.push(record(logbook, setRecorded(1)))
      const ran = await Promise.all(
        all.map(({ logbook, env }) => runBuilt(['sync', '--logbook', logbook], env)),
      )
      expect(ran.map(({ code, said }) => (code === 0 ? '' : said))).toEqual(all.map(() => ''))
    }
    for (const { sync } of all) expect((await sync()).code).toBe(0)
    for (const { logbook } of all) expect(idsIn(logbook)).toEqual([...ids].sort())
  })

  it('is whole wherever it was killed, and the next run synchronises all machines', async () => {
    const { a, b, id: shared, remote } = await inStep()
    const c = await machineOf(ownFolder(), remote)
    const [all, killedOnes] = isLongRun
      ? [
          [a, b, c],
          [a, b],
        ]
      : [[a, b], [a]]
    record(a.logbook, setRecorded(1))
    const calls = isLongRun ? await callsOf(['sync', '--logbook', a.logbook], ownFolder(), a.env) : 19
    expect(calls).toBeGreaterThan(15)
    const written: SessionEvent[][] = []
    // Each round kills its machines further on in a run.
    const rounds = isLongRun ? 6 : 1
    const places = rounds * killedOnes.length
    let [killed, place] = [0, 0]
    for (let round = 0; round < rounds; round += 1) {
      for (const { logbook } of [a, b]) {
        const own = setRecorded(2 + round, written.length + 1)
        append(logbook, shared, own)
        written.push([own])
        record(logbook, setRecorded(1))
      }
      for (const { logbook, env } of killedOnes) {
        const call = 1 + Math.floor(((calls - 1) * (place + 0.5)) / places)
        place += 1
        if (await runKilledAt(call, ['sync', '--logbook', logbook], env)) killed += 1
        expect((await runProgram(['verify'], { logbook })).code).toBe(0)
      }
    }
    expect(killed).toBe(places)
    for (const { sync } of [...all, a, b]) {
      const ran = await sync()
      expect(ran.stderr).toBe('')
      expect(ran.code).toBe(0)
    }
    for (const { logbook } of all) expect(idsIn(logbook)).toEqual(idsIn(a.logbook))
    // Every event that was ever recorded is in some version of the session, on every machine.
    for (const { logbook } of all) {
      const kept = idsIn(logbook)
        .flatMap((id) => eventsOf(logbook, id))
        .map((event) => JSON.stringify(event))
      for (const event of written.flat()) expect(kept).toContain(JSON.stringify(event))
    }
    for (const { logbook } of all) {
      sweepLogbook(logbook, muchLater)
      const left = readdirSync(join(logbook, 'sessions', '2026')).filter((name) =>
        /\.tmp$|\.damaged/.test(name),
      )
      expect(left).toEqual([])
    }
  })
})
