/** What a logbook refuses or cannot do. `exit` is the status with which a command ends: 1 if it could not do
 * what was asked, 3 if the logbook is locked or damaged. The message is "WHAT HAPPENED. WHAT TO DO." */
export class LogbookError extends Error {
  override name = 'LogbookError'
  readonly code: LogbookErrorCode
  readonly exit: 1 | 3

  constructor(code: LogbookErrorCode, message: string, options?: ErrorOptions) {
    super(message, options)
    this.code = code
    this.exit = code === 'locked' || code === 'damaged' || code.startsWith('cannot_') ? 3 : 1
  }
}

export type LogbookErrorCode =
  | 'no_such_session'
  | 'ambiguous_session'
  | 'bad_setting'
  | 'bad_backup'
  | 'no_git'
  | 'not_a_logbook'
  | 'no_remote'
  | 'sessions_gone'
  | 'locked'
  | 'damaged'
  | 'not_empty'
  | 'cannot_write'
  | 'cannot_sync'
  | 'cannot_read'

const reasons: Record<string, string> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EIO: 'the disk reports an error',
  EROFS: 'the disk is read-only',
  EACCES: 'the permissions forbid it',
  EPERM: 'the permissions forbid it',
  ENOENT: 'the folder is gone',
  EEXIST: 'a file has the name of the folder',
  ENOTDIR: 'a file has the name of the folder',
  EBUSY: 'it is in use',
  ENAMETOOLONG: 'a name is too long',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  EFBIG: 'the file would be too large',
  ETIMEDOUT: 'the disk does not answer',
  ESTALE: 'the network folder is gone',
}

/** What to do where the system refuses to write. */
export const writingAdvice = 'Make room or change the permissions there, and try again.'

/** Returns what `work` returns, or what `otherwise` returns if the logbook refuses it.
 * @throws every other error */
export function unlessRefused<T, O>(work: () => T, otherwise: (refused: LogbookError) => O): T | O {
  try {
    return work()
  } catch (error) {
    if (error instanceof LogbookError) return otherwise(error)
    throw error
  }
}

/** Returns what `work` returns.
 * @param message for an error of the system, from its reason: "the disk is full"
 * @throws LogbookError with this code and message for such an error; every other error of the work itself */
export function orRefuse<T>(code: LogbookErrorCode, message: (reason: string) => string, work: () => T): T {
  try {
    return work()
  } catch (error) {
    if (!isOfSystem(error)) throw error
    throw new LogbookError(code, message(reasonOf(error)))
  }
}

/** Whether the system refused something: not the logbook itself, and not a bug. */
export function isOfSystem(error: unknown): error is NodeJS.ErrnoException {
  return !(error instanceof LogbookError) && codeOf(error) !== ''
}

/** The code of an error, of the system's as `ENOENT`; empty without one. */
export function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException | null)?.code ?? ''
}

/** What `ask` returns; null if it fails. */
export function ifKnown<T>(ask: () => T): T | null {
  try {
    return ask()
  } catch {
    return null
  }
}

/** Null if it worked; else the reason, to be shown. */
export function attempt(change: () => unknown): string | null {
  try {
    change()
    return null
  } catch (error) {
    return messageOf(error)
  }
}

/** What went wrong, to be shown. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}

/** Why a file could not be written, as the end of a sentence: "the disk is full". */
export function reasonOf(error: unknown): string {
  if (error instanceof LogbookError) return error.message.replace(/\.$/, '')
  const code = codeOf(error)
  if (code === '') return messageOf(error)
  return reasons[code] ?? `the system says ${code}`
}

/** Damage that was found: which file, what is wrong with it, what was done, in whole sentences. The file is
 * relative to the logbook. */
export interface Damage {
  file: string
  wrong: string
  done: string
}

/** Damage that was only found. */
export function untouched(file: string, wrong: string): Damage {
  return { file, wrong, done: 'Nothing was changed.' }
}
