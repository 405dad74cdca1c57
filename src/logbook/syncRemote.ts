import { LogbookError } from './errors.ts'
import { type Git, GitFailure, gitReason } from './git.ts'
import { printableOf } from './printable.ts'
import { headOf, withRetries, treeAt } from './syncRepository.ts'
import { changesBetween } from './syncTree.ts'

const remoteRef = 'refs/pausebook/remote'

/** Fetches what the remote has; the branch that the logbook is on there. */
export function fetchFrom(git: Git, remote: string): string {
  try {
    const heads = git.run(['ls-remote', '--heads', '--', remote]).split('\n')
    const names = heads.flatMap((line) => /\trefs\/heads\/(.+)$/.exec(line)?.[1] ?? [])
    const branch = ['main', 'master'].find((name) => names.includes(name)) ?? names[0] ?? 'main'
    const fetch = ['fetch', '--quiet', '--no-tags', '--', remote, `+refs/heads/${branch}:${remoteRef}`]
    withRetries(() => git.run(names.length === 0 ? ['update-ref', '-d', remoteRef] : fetch))
    return branch
  } catch (error) {
    if (error instanceof GitFailure) throw unreachable(remote, gitReason(error))
    throw error
  }
}

/** @param why the end of a sentence */
export function unreachable(remote: string, why: string): LogbookError {
  const message = `The remote ${printableOf(remote)} cannot be kept in step: ${why}. What was done here is committed and whole; sync again once it can be reached.`
  // A password in an address is nothing for a screen.
  return new LogbookError('no_remote', message.replace(/:\/\/[^@/\s]+@/g, '://'))
}

/** The remote's commit as it was last fetched; null where it has none. */
export function remoteHead(git: Git): string | null {
  return git.ask(['rev-parse', '--verify', '--quiet', `${remoteRef}^{commit}`])
}

/** Puts what is here into the remote; what changed there by it, or null where another machine was quicker. */
export function push(git: Git, remote: string, branch: string): Map<string, string | null> | null {
  const [head, other] = [headOf(git), remoteHead(git)]
  if (head === null || head === other) return new Map()
  try {
    git.run(['push', '--quiet', '--', remote, `${head}:refs/heads/${branch}`])
  } catch (error) {
    if (!(error instanceof GitFailure)) throw error
    const isLate =
      /\[rejected\]|cannot lock ref|failed to update ref|incorrect old value|reference already exists/
    if (isLate.test(error.said)) return null
    throw unreachable(remote, gitReason(error))
  }
  withRetries(() => git.run(['update-ref', remoteRef, head]))
  return changesBetween(treeAt(git, other), treeAt(git, head))
}
