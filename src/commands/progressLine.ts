import type { DigestEntry, Logbook } from '../logbook/model.ts'
import type { Io } from './port.ts'

/** Shown only when it takes longer than this, in milliseconds. */
const patience = 500
const between = 100

type Told = Pick<Io, 'terminal' | 'env' | 'now' | 'err'>

/** A line on the terminal that says how far long work is; on no terminal there is none. */
export interface ProgressLine {
  show(done: number, of: number): void
  clear(): void
}

/** @param what is gone through: `reading session` */
export function progressLine(io: Told, what: string): ProgressLine {
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

/** Every session with its figures, newest first, with a line that says how far it is where many are read anew. */
export function digestOf(io: Told, logbook: Logbook): DigestEntry[] {
  const progress = progressLine(io, 'reading session')
  try {
    return logbook.digest(progress.show)
  } finally {
    progress.clear()
  }
}

/** One line for who hears the terminal, once and for all: how much there is to go through. */
export function spokenProgress(io: Pick<Io, 'now' | 'out'>): ProgressLine {
  const saidAt = io.now().getTime() + patience
  let isSaid = false
  return {
    show(_done, of) {
      if (isSaid || io.now().getTime() < saidAt) return
      isSaid = true
      io.out(`reading ${of} sessions, it takes a moment\n`)
    },
    clear() {
      isSaid = true
    },
  }
}
