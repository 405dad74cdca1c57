import type { Io } from './port.ts'

/** Shown only when it takes longer than this, in milliseconds. */
const patience = 500
const between = 100

/** A line on the terminal that says how far long work is; on no terminal there is none. */
export interface ProgressLine {
  show(done: number, of: number): void
  clear(): void
}

/** @param what is gone through: `reading session` */
export function progressLine(io: Pick<Io, 'terminal' | 'env' | 'now' | 'err'>, what: string): ProgressLine {
  let shownAt = io.now().getTime() + patience
  let isShown = false
  const mayShow = io.terminal.err && io.env.TERM !== 'dumb'
  return {
    show(done, of) {
      const now = io.now().getTime()
      if (!mayShow || now < shownAt) return
      io.err(`\r${what} ${done + 1} of ${of}`)
      shownAt = now + between
      isShown = true
    },
    clear() {
      if (isShown) io.err('\r\u001b[K')
      isShown = false
    },
  }
}
