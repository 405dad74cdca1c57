import type { Io } from './command.ts'

/** Progress is shown only after this many milliseconds. */
const patience = 500
const between = 100

type ProgressIo = Pick<Io, 'terminal' | 'env' | 'now' | 'steer'>
type Show = (done: number, of: number) => void

/** A progress line on the terminal for long work; without a terminal nothing is shown. */
export interface ProgressLine {
  show: Show
  clear(): void
}

/** @param what the name of the work: `reading session` */
export function progressLine(io: ProgressIo, what: string): ProgressLine {
  let shownAt = io.now().getTime() + patience
  let isShown = false
  const mayShow = io.terminal.err && io.env.TERM !== 'dumb'
  return {
    show(done, of) {
      const now = io.now().getTime()
      if (!mayShow || now < shownAt) return
      io.steer(`\r${what} ${done + 1} of ${of}`)
      shownAt = now + between
      isShown = true
    },
    clear() {
      if (isShown) io.steer('\r\u001b[K')
      isShown = false
    },
  }
}

/** Does some work with a progress line, which is gone afterwards. */
export function withProgress<T>(io: ProgressIo, what: string, work: (show: Show) => T): T {
  const line = progressLine(io, what)
  try {
    return work(line.show)
  } finally {
    line.clear()
  }
}
