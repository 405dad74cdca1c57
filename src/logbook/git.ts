import { spawnSync } from 'node:child_process'
import { devNull } from 'node:os'
import { join } from 'node:path'
import { sanitize } from '../validate/unsafe.ts'
import { codeOf, LogbookError, reasonOf } from './errors.ts'

/** Git ended with an error; the message is git's own. */
export class GitFailure extends Error {
  override name = 'GitFailure'
  readonly output: string
  /** Exit status; null if git was killed. */
  readonly status: number | null

  constructor(command: string, output: string, status: number | null = null) {
    super(`git ${command} failed: ${output}`)
    this.output = output
    this.status = status
  }

  /** The line of git's output that gives the reason. */
  get reason(): string {
    const lines = this.output.split(' | ').filter((line) => line.trim() !== '')
    const why =
      lines.find((line) => /^(remote: (fatal|error)|error: remote unpack failed): /.test(line)) ??
      lines.find((line) => line.includes('[remote rejected]')) ??
      lines.find((line) => /^(fatal|error|ssh):/.test(line)) ??
      lines.at(-1) ??
      'git says nothing'
    // A remote that belongs to another user, as on a stick: what git advises.
    const exception = lines.find((line) => line.includes('safe.directory'))
    const advice = exception === undefined ? '' : ` (to allow it: ${exception.trim()})`
    const reason = why
      .trim()
      .replace(/^(remote: )?(fatal|error): /, '')
      .replace(/\.$/, '')
    return `${reason}${advice}`
  }

  /** The lock that git failed to take; null for any other failure. */
  get lock(): string | null {
    return /Unable to create '([^']+\.lock)': File exists/.exec(this.output)?.[1] ?? null
  }
}

/* The user's configuration decides how git reaches a remote and asks for a password. The repository, index, author and
 * configuration file never come from the environment, because a hook or an editor's terminal can leave them there. */
const kept = /^GIT_(SSH|SSH_COMMAND|SSH_VARIANT|ASKPASS|SSL_.*|HTTP_PROXY_AUTHMETHOD)$/

/** The environment that git is run in.
 * @param mayAsk git may ask for a password on a terminal */
export function gitEnvironment(env: NodeJS.ProcessEnv, mayAsk: boolean): Record<string, string> {
  const inherited = Object.entries(env).filter(
    (entry): entry is [string, string] =>
      entry[1] !== undefined && (!/^GIT_/i.test(entry[0]) || kept.test(entry[0])),
  )
  const ask: Record<string, string> = mayAsk ? {} : { GIT_TERMINAL_PROMPT: '0' }
  return { ...Object.fromEntries(inherited), ...ask, LC_ALL: 'C', GIT_MERGE_AUTOEDIT: 'no' }
}

const configuration = [
  'init.defaultBranch=main',
  'init.defaultObjectFormat=sha1',
  'core.autocrlf=false',
  'core.safecrlf=false',
  'core.attributesFile=',
  'core.fsmonitor=false',
  // On a file system that ignores case, git would drop a renamed file together with its old name.
  'core.ignoreCase=false',
  `core.hooksPath=${devNull}`,
  'core.sharedRepository=0600',
  'commit.gpgSign=false',
  'gc.autoDetach=false',
  // A server that takes the call and then says nothing for a minute is given up.
  'http.lowSpeedLimit=1',
  'http.lowSpeedTime=60',
  'submodule.recurse=false',
].flatMap((setting) => ['-c', setting])

/** A remote that does not answer must not block the logbook forever. */
const mostMilliseconds = 10 * 60 * 1000

/** Room for the texts of more than a hundred thousand sessions. */
const mostBytes = 2 ** 31

export type Git = ReturnType<typeof gitOf>

/** Runs the user's git on the repository of one logbook only, never on a repository around it.
 * @param home the logbook's folder, absolute */
export function gitOf(home: string, env: NodeJS.ProcessEnv, mayAsk: boolean) {
  const environment = gitEnvironment(env, mayAsk)
  const folder = join(home, '.git')
  /** Runs a command and returns the bytes that it prints.
   * @throws GitFailure; LogbookError `no_git` if git is not installed */
  const bytes = (words: readonly string[], input: string | Uint8Array = ''): Buffer => {
    const where = words[0] === 'init' ? [] : [`--git-dir=${folder}`, `--work-tree=${home}`]
    const ran = spawnSync('git', [...configuration, ...where, ...words], {
      cwd: home,
      env: environment,
      input,
      maxBuffer: mostBytes,
      windowsHide: true,
      timeout: mostMilliseconds,
    })
    const code = codeOf(ran.error)
    if (code === 'ENOENT') {
      const message = 'There is no git on this machine, and sync needs it. Install it (https://git-scm.com).'
      throw new LogbookError('no_git', message)
    }
    if (code === 'ETIMEDOUT') throw new GitFailure(words[0] ?? '', 'fatal: it did not end within 10 minutes')
    if (ran.error !== undefined)
      throw new GitFailure(words[0] ?? '', `fatal: it cannot be run: ${reasonOf(ran.error)}`)
    if (ran.status === 0) return ran.stdout
    const said = sanitize(ran.stderr.toString('utf8').trim().replace(/\r?\n/g, ' | '))
    const output = ran.signal === null ? said : `fatal: it was ended by ${ran.signal}`
    throw new GitFailure(words[0] ?? '', output, ran.status)
  }
  const run = (words: readonly string[]) => bytes(words).toString('utf8')
  const unless = (isNo: (failure: GitFailure) => boolean, words: readonly string[]) => {
    try {
      return run(words).trim()
    } catch (error) {
      if (error instanceof GitFailure && isNo(error)) return null
      throw error
    }
  }
  return {
    home,
    bytes,
    /** As `bytes`, but returns text. */
    run,
    /** As `run`; null when git ends with status 1, which means no. */
    ask: (words: readonly string[]) => unless(({ status }) => status === 1, words),
    /** As `run`; null when git fails, unless it was killed or cannot be run. */
    attempt: (words: readonly string[]) => unless(({ status }) => status !== null, words),
    /** A path in the repository's own folder. */
    path: (name: string) => join(folder, name),
  }
}
