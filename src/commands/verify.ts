import { verifyLogbook } from '../logbook/verify.ts'
import type { CommandInput, ExitCode } from './port.ts'

/** Shown only when it takes longer than this, in milliseconds. */
const patience = 500

/** Reads every file of the logbook and names what is damaged; 3 when something is. */
export async function run(input: CommandInput): Promise<ExitCode> {
  const progress = progressOn(input)
  const verification = verifyLogbook(input.logbookDir, progress.show)
  progress.clear()
  const { sessions, sound, events, damages } = verification
  if (input.json) input.io.out(`${JSON.stringify(verification, null, 2)}\n`)
  else {
    input.io.out(
      `${counted(sessions, 'session')} read, ${sound} sound, with ${counted(events, 'event')}. The digest was made anew.\n`,
    )
    for (const { file, wrong, done } of damages) input.io.out(`${file}: ${wrong} ${done}\n`)
  }
  return damages.length > 0 ? 3 : 0
}

function progressOn({ io }: CommandInput): { show: (done: number, of: number) => void; clear: () => void } {
  const begun = io.now().getTime()
  let shownAt = begun + patience
  let isShown = false
  const mayShow = io.terminal.err && io.env.TERM !== 'dumb'
  return {
    show(done, of) {
      const now = io.now().getTime()
      if (!mayShow || now < shownAt) return
      io.err(`\rreading session ${done + 1} of ${of}`)
      shownAt = now + 100
      isShown = true
    },
    clear() {
      if (isShown) io.err('\r\u001b[K')
    },
  }
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`
}
