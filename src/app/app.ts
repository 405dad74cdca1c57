import { spawn } from 'node:child_process'
import { LogbookError } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import { isOwnBell, readSettings, type Settings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import { enterKey, letterKey } from '../ui/widgets/screenKeys.ts'
import { prose } from '../ui/widgets/wrapped.ts'
import { unfinishedSessionOf } from './choices.ts'
import { editDay } from './days.ts'
import { firstStart } from './firstStart.ts'
import { knownOn } from './known.ts'
import { showSummary } from './lookBack.ts'
import { beginRecording, type Recording, resumeRecording, type Unsaved, whenFinished } from './recording.ts'
import type { AppTerminal, Opening, Screens } from './screens.ts'
import { showToday } from './today.ts'

/** The app, whether its terminal draws or speaks. */
export class App {
  readonly #options: Opening
  #recording: Recording | null = null
  #unsaved: Unsaved | null = null

  constructor(options: Opening) {
    this.#options = options
  }

  /** Shows the first screen, or the first start, once the sessions are read. */
  start(terminal: AppTerminal, show: Screens['show']): void {
    const { logbook, samples, env, edit, start, units } = this.#options
    const settings = () => readSettings(logbook.directory).settings
    const known = (except: string | null = null) =>
      knownOn(logbook, settings(), todayOf(new Date()), except, units)
    const record = (recording: Recording) => {
      this.#recording = recording
      whenFinished(recording, (id) => {
        this.close()
        showSummary(id, screens)
      })
      show({ kind: 'recorder', store: recording.store, isClockPlain: settings().clock === 'plain' })
    }
    const screens: Screens = {
      logbook,
      samples,
      env,
      edit,
      terminal,
      known: () => known(),
      show,
      ring: ringerOf(settings, terminal, env),
      begin: (day) => record(beginRecording(day, { ...screens, known: known() })),
      resume: (id) => record(resumeRecording(id, { ...screens, known: known(id) })),
      back: (picked, notice = null) => showToday(screens, picked, notice),
      leave: () => terminal.exit(),
    }
    const first = () => {
      if (start === null) screens.back(null)
      else if ('begin' in start) beginOrAsk(start.begin, screens)
      else void editDay({ path: start.edit }, screens)
    }
    if (settings().firstStartSeen) first()
    else firstStart(screens, first)
  }

  /** Applies keys that arrived together. */
  together(apply: () => void): void {
    if (this.#recording === null) apply()
    else this.#recording.store.together(apply)
  }

  /** Closes the session that is recorded, whatever ends the app. */
  close(): void {
    const closed = this.#recording?.writer.close()
    this.#recording = null
    if (closed && !closed.ok) this.#unsaved = closed
  }

  /** Prints the results that could not be saved, after the last screen.
   * @throws LogbookError `cannot_write` if there are any */
  failIfUnsaved(): void {
    if (this.#unsaved === null) return
    const { lines, message } = this.#unsaved
    this.#options.err(lines.map((line) => `${line}\n`).join(''))
    throw new LogbookError('cannot_write', message)
  }
}

/** Begins a day; asks first if it has an unfinished session. */
function beginOrAsk(day: Prescription, screens: Screens): void {
  const left = unfinishedSessionOf(screens.logbook, day, new Date())
  if (left === null) {
    screens.begin(day)
    return
  }
  const goOn = enterKey('go on', 'goes on with it', () => screens.resume(left.id))
  const startOver = letterKey('n', 'start over', 'begins the day again', () => screens.begin(day))
  screens.show({
    kind: 'text',
    text: prose(`${day.title}\n\n${left.question}`),
    keys: left.mayResume ? [goOn, startOver] : [startOver],
    leave: { label: 'quit', act: screens.leave },
  })
}

/** How signals sound: by the terminal's bell, by a command of the user's, or not at all.
 * A command that the user has not set on this machine is not run; the terminal's bell sounds instead.
 * @param terminal rings the bell or sends an escape sequence */
export function ringerOf(
  settings: () => Settings,
  terminal: { ring(): void; notify(text: string): void },
  env: NodeJS.ProcessEnv,
): (signal: 'short' | 'long') => void {
  return (signal) => {
    const { bell, notifications } = settings()
    if (Array.isArray(bell) && isOwnBell(bell, env)) callBell(bell, signal)
    else if (bell !== 'off') terminal.ring()
    if (notifications && signal === 'long') terminal.notify('go')
  }
}

/** Calls the user's command without a shell. If it cannot be started, the session goes on. */
function callBell([command, ...words]: string[], signal: 'short' | 'long'): void {
  if (command === undefined) return
  const child = spawn(command, [...words, signal], {
    stdio: 'ignore',
    detached: true,
    // Prevents a console window from flashing on Windows.
    windowsHide: true,
  })
  child.on('error', () => {})
  child.unref()
}
