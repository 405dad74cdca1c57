/** What a logbook refuses or cannot do. `exit` is the status a command ends with: 1 what was asked could
 * not be done, 3 the logbook is locked or damaged. The message is "WHAT HAPPENED. WHAT TO DO." */
export class LogbookError extends Error {
  override name = 'LogbookError'
  readonly code: LogbookErrorCode
  readonly exit: 1 | 3

  constructor(code: LogbookErrorCode, message: string) {
    super(message)
    this.code = code
    this.exit = code === 'locked' || code === 'damaged' || code.startsWith('cannot_') ? 3 : 1
  }
}

export type LogbookErrorCode =
  | 'no_such_session'
  | 'ambiguous_session'
  | 'bad_setting'
  | 'no_git'
  | 'not_a_logbook'
  | 'no_remote'
  | 'sessions_gone'
  | 'locked'
  | 'damaged'
  | 'cannot_write'
  | 'cannot_read'
