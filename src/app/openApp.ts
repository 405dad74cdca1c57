import { createElement } from 'react'
import { attempt } from '../logbook/errors.ts'
import { readSettings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import { App, type Shown } from '../ui/screens/App.tsx'
import { isUnicodeTerminal } from '../ui/terminal/capabilities.ts'
import { runScreens, type ScreenTerminal } from '../ui/terminal/runScreens.ts'
import { createKeyFeed, KeyFeedContext } from '../ui/widgets/keys.ts'
import { prose } from '../ui/widgets/wrapped.ts'
import { unfinishedSessionOf } from './choices.ts'
import { earlierDays, readingDefaultsOf } from './earlierDays.ts'
import { firstStart } from './firstStart.ts'
import { showSummary } from './overWeeks.ts'
import {
  beginRecording,
  type Recording,
  recordingTools,
  refuseUnsaved,
  resumeRecording,
  type Unsaved,
  whenFinished,
} from './recording.ts'
import { signalWith } from './signal.ts'
import { type CommandTools, createStage, type Opening, type Screens } from './stage.ts'
import { type ShowRecording, todayGiven } from './today.ts'

interface AppOptions extends Opening {
  commands: CommandTools
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
    const stage = createStage({ screen: 'today', visit: 0, picked: null, said: null })
    const screens = screensOf(given, terminal, stage.show)
    const record = (begun: Recording) => {
      recording = begun
      whenFinished(begun, (id) => {
        close()
        showSummary(id, screens)
      })
      stage.show({ screen: 'recorder', store: begun.store })
    }
    const today = todayGiven(screens, { ...given, record })
    const start = () => {
      if (given.begin === null) return screens.back(null)
      beginOrAsk(given.begin, screens, record)
      given.screenComes()
    }
    const { firstStartSeen, clock, characters } = screens.settings()
    if (firstStartSeen) start()
    else {
      given.logbook.index()
      given.screenComes()
      firstStart(screens, start)
    }
    const ascii = characters === 'ascii' || (characters === 'auto' && !isUnicodeTerminal(given.env))
    if (ascii) terminal.keepToAscii()
    const app = createElement(App, { stage, today, look: { ascii, plainClock: clock === 'plain' } })
    return createElement(KeyFeedContext, { value: feed }, app)
  }
  const together = (apply: () => void) => (recording === null ? apply() : recording.store.together(apply))
  return runScreens({ screens: screensOn, feed, together, leave: close }, given.streams).then((status) =>
    unsaved === null ? status : refuseUnsaved(unsaved, given.err),
  )
}

function screensOf(
  { logbook, commands, env }: AppOptions,
  terminal: ScreenTerminal,
  show: (shown: Shown) => void,
): Screens {
  const settings = () => readSettings(logbook.directory).settings
  let visit = 0
  return {
    logbook,
    commands,
    terminal,
    settings,
    defaults: () => readingDefaultsOf(settings(), earlierDays(logbook, new Date())),
    ring: (signal) => signalWith(settings(), terminal, env)(signal),
    leave: () => terminal.exit(),
    show,
    back: (picked, said = null) => {
      visit += 1
      show({ screen: 'today', visit, picked, said })
    },
  }
}

/** Begins a day; asks first if it has an unfinished session. */
function beginOrAsk(day: Prescription, screens: Screens, record: ShowRecording): void {
  const begin = () => record(beginRecording(day, recordingTools(screens)))
  const left = unfinishedSessionOf(screens.logbook, day, new Date())
  if (left === null) {
    begin()
    return
  }
  const resume = () => attempt(() => record(resumeRecording(left.id, recordingTools(screens, left.id))))
  const goOn = { key: 'Enter', label: 'go on', does: 'goes on with it', acts: { enter: resume } }
  const startOver = {
    key: 'n',
    label: 'start over',
    does: 'begins the day anew',
    acts: { n: () => attempt(begin) },
  }
  screens.show({
    screen: 'text',
    given: {
      text: prose(`${day.title}\n\n${left.question}`),
      keys: left.mayResume ? [goOn, startOver] : [startOver],
      leave: { label: 'quit', act: screens.leave },
    },
  })
}
