import { createElement } from 'react'
import { LogbookError } from '../logbook/errors.ts'
import type { Logbook } from '../logbook/model.ts'
import { readSettings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import { App } from '../ui/screens/App.tsx'
import { isUnicodeTerminal } from '../ui/terminal/capabilities.ts'
import { runScreens, type ScreenTerminal } from '../ui/terminal/runScreens.ts'
import { createKeyFeed, KeyFeedContext } from '../ui/widgets/keys.ts'
import { prose } from '../ui/widgets/wrapped.ts'
import { attempt } from './attempt.ts'
import { unfinishedSessionOf } from './choices.ts'
import type { CommandTools } from './days.ts'
import { earlierDays, readingDefaultsOf } from './earlierDays.ts'
import { firstStart } from './firstStart.ts'
import { showSummary } from './overWeeks.ts'
import {
  beginRecording,
  type Recording,
  type RecordingTools,
  resumeRecording,
  type Unsaved,
  unsavedText,
} from './recording.ts'
import { signalWith } from './signal.ts'
import { createStage, type Screens } from './stage.ts'
import { todayGiven } from './todayActions.ts'

interface AppOptions {
  logbook: Logbook
  /** The folder of the sample days; null without. */
  samples: string | null
  env: Readonly<Record<string, string | undefined>>
  /** Opens the recorder on this day at once. */
  begin: Prescription | null
  commands: CommandTools
  /** Writes to standard error after the screen is closed. */
  err: (text: string) => void
  /** Called once the sessions for the first screen are read, before anything is drawn. */
  screenComes: () => void
  /** Defaults to the process's terminal. */
  streams?: Parameters<typeof runScreens>[1]
}

/** Opens the terminal app; resolves to the exit status when it is left. */
export function openApp(given: AppOptions): Promise<number> {
  const feed = createKeyFeed()
  let recording: Recording | null = null
  let unsaved: Unsaved | null = null
  const close = () => {
    const closed = recording?.writer.close()
    recording = null
    if (closed && !closed.ok) unsaved = closed
  }
  const screensOn = (terminal: ScreenTerminal) => {
    const { logbook, commands, env } = given
    const settings = () => readSettings(logbook.directory).settings
    const stage = createStage({ screen: 'today', visit: 0, picked: null, said: null })
    let visit = 0
    const screens: Screens = {
      logbook,
      commands,
      terminal,
      settings,
      defaults: () => readingDefaultsOf(settings(), earlierDays(logbook, new Date())),
      ring: (signal) => signalWith(settings(), terminal, env)(signal),
      show: stage.show,
      back: (picked, said = null) => {
        visit += 1
        stage.show({ screen: 'today', visit, picked, said })
      },
    }
    const tools = (except: string | null = null): RecordingTools => ({
      logbook,
      settings: settings(),
      earlier: earlierDays(logbook, new Date(), except),
      ring: screens.ring,
      leave: () => terminal.exit(),
    })
    const record = (begun: Recording) => {
      recording = begun
      const { store, writer } = begun
      const stop = store.subscribe(() => {
        const { state, saved } = store.get()
        if (!state.finished || !saved.ok || writer.id === null) return
        stop()
        const { id } = writer
        close()
        showSummary(id, screens)
      })
      stage.show({ screen: 'recorder', store })
    }
    const today = todayGiven(screens, { ...given, tools, record })
    const start = () => {
      const { begin } = given
      if (!begin) return screens.back(null)
      const startOver = () => record(beginRecording(begin, tools()))
      const left = unfinishedSessionOf(logbook, begin, new Date())
      if (left === null) startOver()
      else {
        const resume = () => attempt(() => record(resumeRecording(left.id, tools(left.id))))
        stage.show({
          screen: 'text',
          given: {
            text: prose(`${begin.title}\n\n${left.question}`),
            keys: [
              ...(left.mayResume
                ? [{ key: 'Enter', label: 'go on', does: 'goes on with it', acts: { enter: resume } }]
                : []),
              {
                key: 'n',
                label: 'start over',
                does: 'begins the day anew',
                acts: { n: () => attempt(startOver) },
              },
            ],
            leave: { label: 'quit', act: () => terminal.exit() },
          },
        })
      }
      given.screenComes()
    }
    if (settings().firstStartSeen) start()
    else {
      logbook.index()
      given.screenComes()
      firstStart({
        logbook: logbook.directory,
        show: stage.show,
        ring: () => screens.ring('long'),
        quit: () => terminal.exit(),
        done: start,
      })
    }
    const { clock, characters } = settings()
    const ascii = characters === 'ascii' || (characters === 'auto' && !isUnicodeTerminal(env))
    if (ascii) terminal.keepToAscii()
    const app = createElement(App, { stage, today, look: { ascii, plainClock: clock === 'plain' } })
    return createElement(KeyFeedContext, { value: feed }, app)
  }
  const together = (apply: () => void) => (recording === null ? apply() : recording.store.together(apply))
  return runScreens({ screens: screensOn, feed, together, leave: close }, given.streams).then((status) => {
    if (unsaved === null) return status
    const { lines, last } = unsavedText(unsaved)
    given.err(lines)
    throw new LogbookError('cannot_write', last)
  })
}
